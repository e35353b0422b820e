// The data of a plot, and its curves on one common row of x, as the plot library wants them.

export interface Curve { label: string; x: (number | null)[]; y: (number | null)[] }
export interface Across { at: number; words: string }
export interface PlotData {
  curves: Curve[];
  x: string;
  y: string;
  marks?: Across[];
  levels?: Across[];
  points?: { x: number; y: number; words: string }[];
  zero?: boolean;
  steps?: boolean;
  days?: boolean;
  names?: string[];
}
export interface Grid { labels: string[]; looks: number[]; x: number[]; ys: (number | null)[][] }

interface Piece { label: string; look: number; x: number[]; y: (number | null)[] }

/** Put the curves on one row of x; nothing where one of them turns back on itself. */
export function align(data: PlotData): Grid | undefined {
  const pieces = data.curves.flatMap((one, k) => cut(one, k));
  if (!pieces.length || pieces.some((one) => !rising(one.x))) return undefined;
  const x = [...new Set(pieces.flatMap((one) => one.x))].sort((a, b) => a - b);
  if (x.length < 2) return undefined;
  const between = data.steps ? held : straight;
  const seconds = data.days ? 86400 : 1;
  return {
    labels: pieces.map((one) => one.label),
    looks: pieces.map((one) => one.look),
    x: x.map((one) => one * seconds),
    ys: pieces.map((one) => x.map((at) => between(one, at))),
  };
}

/** A curve with gaps in its x is several: a band's two edges. */
function cut(curve: Curve, look: number): Piece[] {
  const found: Piece[] = [];
  let now: Piece | undefined;
  curve.x.forEach((x, k) => {
    if (x === null) { now = undefined; return; }
    if (!now) found.push(now = { label: curve.label, look, x: [], y: [] });
    now.x.push(x);
    now.y.push(curve.y[k] ?? null);
  });
  return found.map((one) => one.x[0] !== undefined && one.x[0] > (one.x.at(-1) ?? 0) ? { ...one, x: one.x.toReversed(), y: one.y.toReversed() } : one);
}

const rising = (x: number[]): boolean => x.every((one, k) => k === 0 || one >= (x[k - 1] ?? one));

function straight(one: Piece, at: number): number | null {
  const k = one.x.findIndex((x) => x >= at);
  const right = one.x[k], high = one.y[k];
  if (k < 0 || right === undefined || high === undefined) return null;
  if (right === at) return high;
  const left = one.x[k - 1], low = one.y[k - 1];
  if (left === undefined || low === undefined || low === null || high === null) return null;
  return low + (high - low) * (at - left) / (right - left);
}

function held(one: Piece, at: number): number | null {
  const k = one.x.findLastIndex((x) => x <= at);
  return k < 0 ? null : one.y[k] ?? null;
}

/** A number as people read it: four figures, a true minus, narrow spaces in thousands. */
export function told(value: number): string {
  if (!Number.isFinite(value)) return "";
  const digits = value === 0 ? 0 : Math.min(6, Math.max(0, 3 - Math.floor(Math.log10(Math.abs(value)))));
  return value.toLocaleString("en-GB", { maximumFractionDigits: digits }).replaceAll(",", "\u202f").replace("-", "\u2212");
}

export const unitOf = (label: string): string => /\[([^\]]*)\]/.exec(label)?.[1]?.replace(/^-$/, "") ?? "";

/** Where the cursor stands, with its unit. */
export function spoken(at: number, data: PlotData): string {
  if (data.names) return data.names[Math.round(at)] ?? "";
  if (data.days) return new Date(at * 1000).toISOString().slice(0, 10);
  return `${told(at)} ${unitOf(data.x)}`.trim();
}
