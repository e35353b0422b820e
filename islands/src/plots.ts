// Plots to point at: each figure that carries its data gets a live plot in place of its drawing.
// The drawing stays in the page for paper, and for everybody without script.

import uPlot from "uplot";
import "uplot/dist/uPlot.min.css";
import "./plots.css";

import { type Grid, type PlotData, align, spoken, told, unitOf } from "./curves.ts";
import { DASHES, type Inks, colours, onScheme } from "./looks.ts";
import { everywhere } from "./everywhere.ts";

const HEIGHT = 270;
const STEPPED = uPlot.paths.stepped?.({ align: 1 });
const STRAIGHT = uPlot.paths.linear?.();

class Live {
  private readonly box = document.createElement("div");
  private readonly readout = document.createElement("dl");
  private readonly grid: Grid;
  private readonly stop: () => void;
  private plot: uPlot | undefined;

  constructor(private readonly drawing: HTMLElement, private readonly data: PlotData, grid: Grid) {
    this.grid = grid;
    this.box.className = "live";
    this.readout.className = "readout";
    drawing.after(this.box, this.readout);
    drawing.classList.add("on-paper");
    this.draw();
    const seen = new ResizeObserver(() => this.fit());
    seen.observe(this.box);
    const forget = onScheme(() => this.draw());
    this.stop = () => { seen.disconnect(); forget(); };
  }

  drop(): void {
    this.stop();
    this.plot?.destroy();
    this.box.remove();
    this.readout.remove();
    this.drawing.classList.remove("on-paper");
  }

  private draw(): void {
    this.plot?.destroy();
    const plot = new uPlot(this.options(), [this.grid.x, ...this.grid.ys], this.box);
    this.plot = plot;
    const over = plot.over;
    over.tabIndex = 0;
    over.setAttribute("role", "slider"); // arrows read it off value by value
    over.setAttribute("aria-label", `${this.drawing.getAttribute("aria-label") ?? ""} Arrow keys read it off.`);
    over.addEventListener("keydown", (event) => this.key(event));
    over.addEventListener("focus", () => { if ((plot.cursor.left ?? -1) < 0) this.go(0); });
    over.addEventListener("pointermove", (event) => {
      if (event.pointerType === "touch") plot.setCursor({ left: event.offsetX, top: event.offsetY });
    });
    this.read();
  }

  private options(): uPlot.Options {
    const ink = colours();
    const { data, grid } = this;
    const axis = { stroke: ink.faint, grid: { stroke: ink.rule, width: 1 }, ticks: { stroke: ink.rule, width: 1 }, font: "12px system-ui, sans-serif", labelFont: "12px system-ui, sans-serif" };
    return {
      width: Math.max(this.box.clientWidth, 240),
      height: HEIGHT,
      legend: { show: false },
      cursor: { y: false, drag: { x: false, y: false }, points: { size: 7 } },
      scales: { x: { time: Boolean(data.days) }, y: { range: (_, low, high) => reach(data, low, high) } },
      ...(data.days ? { tzDate: (seconds: number) => uPlot.tzDate(new Date(seconds * 1000), "Etc/UTC") } : {}),
      axes: [
        { ...axis, label: data.x.replace(" [-]", ""), labelSize: data.x ? 20 : 0, size: 34, ...(data.names ? { values: (_: uPlot, at: number[]) => at.map((k) => data.names?.[k] ?? "") } : data.days ? {} : { values: (_: uPlot, at: number[]) => at.map(told) }) },
        { ...axis, label: data.y.replace(" [-]", ""), labelSize: 20, size: (_plot: uPlot, words: string[] | null) => 24 + 7 * Math.max(0, ...(words ?? []).map((one) => one.length)), values: (_: uPlot, at: number[]) => at.map(told) },
      ],
      series: [{}, ...grid.labels.map((label, k) => ({
        label,
        ...this.look(k, ink),
        width: 2,
        pxAlign: 0,
        points: { show: false },
        ...(data.steps && k === 0 ? { fill: ink.fill } : {}),
        ...((data.steps ? STEPPED : STRAIGHT) ? { paths: (data.steps ? STEPPED : STRAIGHT) as uPlot.Series.PathBuilder } : {}),
      }))],
      hooks: { draw: [(plot) => this.marks(plot)], setCursor: [() => this.read()] },
    };
  }

  /** Draw limits, percentiles and single points over the curves. */
  private marks(plot: uPlot): void {
    const ink = colours(), { ctx, bbox } = plot, scale = devicePixelRatio;
    ctx.save();
    ctx.font = `${11 * scale}px system-ui, sans-serif`;
    ctx.lineWidth = scale;
    ctx.setLineDash([4 * scale, 2 * scale]);
    const seconds = this.data.days ? 86400 : 1;
    [...this.data.marks ?? []].sort((a, b) => a.at - b.at).forEach((mark, row) => {
      const x = plot.valToPos(mark.at * seconds, "x", true);
      line(ctx, x, bbox.top, x, bbox.top + bbox.height, ink.mark);
      const right = x + ctx.measureText(mark.words).width + 8 * scale > bbox.left + bbox.width;
      words(ctx, mark.words, right ? x - 4 * scale : x + 4 * scale, bbox.top + (12 + 14 * row) * scale, right ? "right" : "left", ink.ink, ink.paper);
    });
    ctx.setLineDash([2 * scale, 2 * scale]);
    for (const level of this.data.levels ?? []) {
      const y = plot.valToPos(level.at, "y", true);
      line(ctx, bbox.left, y, bbox.left + bbox.width, y, ink.faint);
      words(ctx, level.words, bbox.left + bbox.width - 4 * scale, y - 5 * scale, "right", ink.ink, ink.paper);
    }
    ctx.setLineDash([]);
    for (const point of this.data.points ?? []) {
      const x = plot.valToPos(point.x, "x", true), y = plot.valToPos(point.y, "y", true);
      ctx.fillStyle = ink.ink;
      ctx.beginPath(); ctx.arc(x, y, 3 * scale, 0, 7); ctx.fill();
      words(ctx, point.words, x + 6 * scale, y - 6 * scale, "left", ink.ink, ink.paper);
    }
    ctx.restore();
  }

  private look(place: number, ink: Inks): { stroke: string; dash: number[] } {
    const look = this.grid.looks[place] ?? 0;
    return { stroke: ink.series[look % ink.series.length] ?? ink.ink, dash: DASHES[look % DASHES.length] ?? [] };
  }

  private fit(): void {
    const width = this.box.clientWidth;
    if (this.plot && width > 0 && width !== this.plot.width) this.plot.setSize({ width, height: HEIGHT });
  }

  private key(event: KeyboardEvent): void {
    const now = this.plot?.cursor.idx ?? 0, last = this.grid.x.length - 1;
    const page = Math.max(1, Math.round(last / 10));
    const to = { ArrowRight: now + 1, ArrowUp: now + 1, ArrowLeft: now - 1, ArrowDown: now - 1, PageUp: now + page, PageDown: now - page, Home: 0, End: last }[event.key];
    if (to === undefined) return;
    event.preventDefault();
    this.go(Math.min(Math.max(to, 0), last));
  }

  private go(place: number): void {
    const plot = this.plot, at = this.grid.x[place];
    if (plot && at !== undefined) plot.setCursor({ left: plot.valToPos(at, "x"), top: 0 });
  }

  /** The legend, with what each curve has under the cursor. */
  private read(): void {
    const ink = colours(), { data, grid } = this, idx = this.plot?.cursor.idx;
    const at = idx === null || idx === undefined ? undefined : grid.x[idx];
    const rows: (HTMLElement | string)[][] = [];
    const where = at === undefined ? "" : spoken(at, data);
    if (data.x || data.names) rows.push([data.names ? "month" : data.x.replace(/\s*\[.*$/, ""), where || "point to read it off"]);
    for (const look of new Set(grid.looks)) { // a band's two edges are one row
      const here = [...grid.looks.keys()].filter((k) => grid.looks[k] === look);
      const values = here.map((k) => idx === null || idx === undefined ? undefined : grid.ys[k]?.[idx]).filter((one) => typeof one === "number").sort((a, b) => a - b);
      const shown = values.length ? `${values.map(told).join(" to ")} ${unitOf(data.y)}`.trim() : "";
      const { stroke, dash } = this.look(here[0] ?? 0, ink);
      rows.push([swatch(stroke, dash), grid.labels[here[0] ?? 0] ?? "", shown]);
    }
    this.readout.replaceChildren(...rows.map((row) => {
      const group = document.createElement("div"), term = document.createElement("dt"), value = document.createElement("dd");
      term.append(...row.slice(0, -1));
      value.append(row[row.length - 1] ?? "");
      group.append(term, value);
      return group;
    }));
    const over = this.plot?.over;
    if (!over) return;
    over.setAttribute("aria-valuemin", "0");
    over.setAttribute("aria-valuemax", String(grid.x.length - 1));
    over.setAttribute("aria-valuenow", String(idx ?? 0));
    over.setAttribute("aria-valuetext", rows.map((row) => `${row[row.length - 2] as string} ${row[row.length - 1] as string}`).join(", "));
  }
}

function reach(data: PlotData, low: number | null, high: number | null): [number, number] {
  const levels = [...(data.levels ?? []).map((one) => one.at), ...(data.points ?? []).map((one) => one.y)];
  const least = Math.min(low ?? 0, ...levels, ...(data.zero ? [0] : [])), most = Math.max(high ?? 1, ...levels);
  const room = (most - least || 1) * 0.06;
  return [data.zero && least === 0 ? 0 : least - room, most + room];
}

function line(ctx: CanvasRenderingContext2D, x: number, y: number, u: number, v: number, tone: string): void {
  ctx.strokeStyle = tone;
  ctx.beginPath(); ctx.moveTo(x, y); ctx.lineTo(u, v); ctx.stroke();
}

function words(ctx: CanvasRenderingContext2D, text: string, x: number, y: number, align: CanvasTextAlign, tone: string, ground: string): void {
  ctx.save();
  ctx.setLineDash([]);
  ctx.textAlign = align;
  ctx.lineWidth = 4 * devicePixelRatio;
  ctx.strokeStyle = ground;
  ctx.strokeText(text, x, y);
  ctx.fillStyle = tone;
  ctx.fillText(text, x, y);
  ctx.restore();
}

function swatch(tone: string, dash: number[]): HTMLElement {
  const canvas = document.createElement("canvas"), scale = devicePixelRatio;
  canvas.width = 26 * scale;
  canvas.height = 10 * scale;
  canvas.className = "swatch";
  canvas.setAttribute("aria-hidden", "true");
  const ctx = canvas.getContext("2d");
  if (ctx) {
    ctx.scale(scale, scale);
    ctx.lineWidth = 2;
    ctx.setLineDash(dash);
    line(ctx, 0, 5, 26, 5, tone);
  }
  return canvas;
}

everywhere("[data-plot]", (drawing) => {
  const data = JSON.parse(drawing.dataset.plot ?? "null") as PlotData | null;
  const grid = data && align(data);
  if (!data || !grid) return undefined;
  const live = new Live(drawing, data, grid);
  return () => live.drop();
});
