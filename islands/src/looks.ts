// Colours of what is drawn on a canvas, read from the page's own style: light, dark, as it is.

export interface Inks {
  ink: string;
  faint: string;
  rule: string;
  paper: string;
  fill: string;
  mark: string;
  series: string[];
}

/** Lines are told apart by dash as well as colour. */
export const DASHES: readonly number[][] = [[], [8, 4], [9, 3, 2, 3], [2, 3], [14, 4], [6, 3, 2, 3, 2, 3], [4, 4]];

export function colours(): Inks {
  const style = getComputedStyle(document.documentElement);
  const of = (name: string): string => style.getPropertyValue(name).trim() || "#333";
  return {
    ink: of("--ink"), faint: of("--faint"), rule: of("--rule"), paper: of("--paper"),
    fill: of("--curve-fill"), mark: of("--curve-mark"),
    series: [1, 2, 3, 4, 5, 6, 7].map((k) => of(`--curve-${k}`)),
  };
}

const dark = matchMedia("(prefers-color-scheme: dark)");

/** Do something whenever light turns to dark or back; returns how to end that. */
export function onScheme(act: () => void): () => void {
  dark.addEventListener("change", act);
  return () => dark.removeEventListener("change", act);
}
