// The handles of a place: a slider and a number each, in the person's unit, as one pose in SI.

import type { Pose } from "./fitting.ts";

interface Handle { name: string; number: HTMLInputElement; slide: HTMLInputElement; factor: number; saved: string }

export class Handles {
  private readonly all: Handle[] = [];

  constructor(root: HTMLElement, private readonly saved: Pose, private readonly moved: () => void) {
    for (const row of root.querySelectorAll<HTMLElement>("[data-handle]")) {
      const number = row.querySelector<HTMLInputElement>("input[type=number]");
      const slide = row.querySelector<HTMLInputElement>("input[type=range]");
      if (!number || !slide) continue;
      const one = { name: row.dataset.handle ?? "", number, slide, factor: Number(row.dataset.factor), saved: number.defaultValue };
      slide.hidden = false;
      slide.value = number.value;
      slide.addEventListener("input", () => { number.value = slide.value; this.moved(); });
      number.addEventListener("input", () => { slide.value = number.value; this.moved(); });
      this.all.push(one);
    }
  }

  /** Whether the place differs from the saved one. */
  get away(): boolean {
    return this.all.some((one) => one.number.value !== one.saved);
  }

  get pose(): Pose {
    const found: Pose = { ...this.saved };
    for (const { name, number, factor, saved } of this.all) {
      const value = Number.parseFloat(number.value);
      if (number.value !== saved && Number.isFinite(value)) found[name] = value * factor;
    }
    return found;
  }

  step(name: string, steps: number): void {
    const one = this.all.find((each) => each.name === name);
    if (!one) return;
    const step = Number(one.slide.step) || 1, now = Number.parseFloat(one.number.value) || 0;
    one.number.value = String(Number((now + step * steps).toFixed(3)));
    one.slide.value = one.number.value;
    this.moved();
  }

  reset(): void {
    for (const one of this.all) one.number.value = one.slide.value = one.saved;
    this.moved();
  }
}
