// The table of clearances, rewritten as they come: each state by sign and word, without the far ones.

import type { Row } from "./fitting.ts";

const SIGNS = { good: "✓", tight: "≈", open: "?", fails: "✗" };

export function showRows(root: HTMLElement, rows: Row[], point: (name: string | undefined) => void): void {
  const body = root.querySelector<HTMLElement>(".clearances tbody");
  if (!body) return;
  const known = new Map([...body.querySelectorAll<HTMLElement>("[data-row]")].map((one) => [one.dataset.row, one]));
  const focused = document.activeElement;
  const lines = rows.filter((one) => !one.far).map((row) => {
    const line = known.get(row.name) ?? made(row, point);
    if (!line.dataset.pointed) points(line, row.name, point);
    const cells = line.querySelectorAll("td");
    const state = document.createElement("span");
    state.className = `state ${row.state}`;
    state.textContent = `${SIGNS[row.state]} ${row.state}`;
    cells[0]?.replaceChildren(state, ` ${row.words}`);
    [row.gap, row.need, row.sure].forEach((text, k) => { const cell = cells[k + 1]; if (cell) cell.textContent = text; });
    return line;
  });
  body.replaceChildren(...lines);
  if (focused instanceof HTMLElement && body.contains(focused)) focused.focus({ preventScroll: true });
}

function made(row: Row, point: (name: string | undefined) => void): HTMLElement {
  const line = document.createElement("tr"), head = document.createElement("th"), link = document.createElement("a");
  line.dataset.row = row.name;
  head.scope = "row";
  link.href = `/check/${encodeURIComponent(row.check)}`;
  link.textContent = row.name;
  head.append(link);
  line.append(head, ...[1, 2, 3, 4].map((k) => { const cell = document.createElement("td"); if (k === 4) cell.className = "number"; return cell; }));
  points(line, row.name, point);
  return line;
}

/** A row that is pointed at, or whose link has the focus, shows its line in the view. */
function points(line: HTMLElement, name: string, point: (name: string | undefined) => void): void {
  line.dataset.pointed = "yes";
  for (const kind of ["pointerenter", "focusin"]) line.addEventListener(kind, () => point(name));
  for (const kind of ["pointerleave", "focusout"]) line.addEventListener(kind, () => point(undefined));
}
