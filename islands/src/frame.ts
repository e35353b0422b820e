// The body's frame in space: turn it by dragging or by keys, point at a member to choose it.
// Each line carries its places in the car's axes: x forward, y left, z up. Without script the
// drawing stands still and every member still leads to its form, as the list beside it does.

import { everywhere } from "./everywhere.ts";

interface Look { turn: number; tilt: number; near: number }
interface Line { path: SVGPathElement; at: number[]; closed: boolean }

const STEEPEST = Math.PI / 2, NEAREST = 6, STEP = Math.PI / 36, DRAG = 4;
const VIEWS: Record<string, [number, number]> = { left: [90, 0], front: [0, 0], top: [90, 90] };
/** Where the person looked from; it outlives the swap of the part. */
let kept: Look | undefined;

class FrameView {
  private readonly svg: SVGSVGElement;
  private readonly lines: Line[] = [];
  private readonly middle: [number, number, number];
  private readonly scale: number;
  private readonly first: Look;
  private look: Look;
  private asked = false;

  constructor(private readonly root: HTMLElement) {
    const svg = root.querySelector<SVGSVGElement>("svg[data-frame]");
    if (!svg) throw new Error("the frame has no drawing");
    this.svg = svg;
    const [x = 0, y = 0, z = 0, scale = 1, turn = 0, tilt = 0] = numbers(svg.dataset.frame);
    this.middle = [x, y, z];
    this.scale = scale;
    this.first = { turn, tilt, near: 1 };
    this.look = kept ?? { ...this.first };
    for (const path of svg.querySelectorAll<SVGPathElement>("path[data-at]")) {
      const at = numbers(path.dataset.at);
      this.lines.push({ path, at, closed: at.length === 12 });
    }
    root.classList.add("turns");
    root.addEventListener("keydown", (event) => this.key(event));
    root.addEventListener("wheel", (event) => this.wheel(event), { passive: false });
    this.drags();
    const views = root.closest("figure")?.querySelector<HTMLElement>("[data-looks]");
    if (views) views.hidden = false;
    for (const one of views?.querySelectorAll<HTMLElement>("[data-look]") ?? []) {
      one.addEventListener("click", () => this.from(one.dataset.look ?? ""));
    }
    if (kept) this.draw();
  }

  private from(name: string): void {
    const view = VIEWS[name];
    this.look = view ? { turn: radians(view[0]), tilt: radians(view[1]), near: 1 } : { ...this.first };
    this.draw();
  }

  private key(event: KeyboardEvent): void {
    if (event.target !== this.root || event.ctrlKey || event.metaKey || event.altKey) return;
    const { look } = this;
    const act: Record<string, () => void> = {
      ArrowLeft: () => { look.turn += STEP; }, ArrowRight: () => { look.turn -= STEP; },
      ArrowUp: () => { look.tilt += STEP; }, ArrowDown: () => { look.tilt -= STEP; },
      "+": () => { look.near *= 1.2; }, "=": () => { look.near *= 1.2; }, "-": () => { look.near /= 1.2; },
      Home: () => { Object.assign(look, this.first); },
    };
    const done = act[event.key];
    if (!done) return;
    event.preventDefault();
    done();
    this.draw();
  }

  /** The wheel turns the page until the view has the focus. */
  private wheel(event: WheelEvent): void {
    if (!this.root.contains(document.activeElement)) return;
    event.preventDefault();
    this.look.near *= event.deltaY < 0 ? 1.1 : 1 / 1.1;
    this.draw();
  }

  private drags(): void {
    let from: PointerEvent | undefined, moved = false, start = this.look;
    this.svg.addEventListener("pointerdown", (event) => {
      if (event.button || !event.isPrimary) return;
      from = event;
      moved = false;
      start = { ...this.look };
    });
    this.svg.addEventListener("pointermove", (event) => {
      if (!from || !event.buttons) return;
      const across = event.clientX - from.clientX, down = event.clientY - from.clientY;
      if (!moved && Math.hypot(across, down) < DRAG) return;
      if (!moved) this.svg.setPointerCapture(event.pointerId);
      moved = true;
      const whole = this.svg.clientWidth || 1;
      this.look.turn = start.turn - (across / whole) * Math.PI * 1.5;
      if (event.pointerType === "mouse") this.look.tilt = start.tilt + (down / whole) * Math.PI * 1.5;
      this.draw();
    });
    for (const kind of ["pointerup", "pointercancel"]) this.svg.addEventListener(kind, () => { from = undefined; });
    this.svg.addEventListener("dragstart", (event) => event.preventDefault());
    // A drag that ends on a member chooses nothing.
    this.svg.addEventListener("click", (event) => { if (moved) { event.preventDefault(); event.stopPropagation(); moved = false; } }, true);
  }

  private draw(): void {
    const { look } = this;
    look.tilt = Math.min(Math.max(look.tilt, -STEEPEST), STEEPEST);
    look.near = Math.min(Math.max(look.near, 0.5), NEAREST);
    kept = look;
    if (this.asked) return;
    this.asked = true;
    requestAnimationFrame(() => { this.asked = false; this.redraw(); });
  }

  private redraw(): void {
    const { turn, tilt, near } = this.look, { width, height } = this.svg.viewBox.baseVal;
    const scale = this.scale * near, [mx, my, mz] = this.middle;
    const [st, ct, si, ci] = [Math.sin(turn), Math.cos(turn), Math.sin(tilt), Math.cos(tilt)];
    for (const { path, at, closed } of this.lines) {
      let d = "";
      for (let k = 0; k < at.length; k += 3) {
        const x = at[k]! - mx, y = at[k + 1]! - my, z = at[k + 2]! - mz;
        const across = y * ct - x * st, up = z * ci - (x * ct + y * st) * si;
        d += `${d ? "L" : "M"}${(width / 2 + across * scale).toFixed(1)} ${(height / 2 - up * scale).toFixed(1)}`;
      }
      path.setAttribute("d", closed ? `${d}Z` : d);
    }
  }
}

const numbers = (text: string | undefined): number[] => (text ?? "").split(" ").map(Number);
const radians = (degrees: number): number => (degrees * Math.PI) / 180;

everywhere("[data-turns]", (root) => { new FrameView(root); return undefined; });
