// The engine in its bay: move it by sliders, numbers or keys, and see at once what touches.
// The page's table and sections say the same in words; without WebGL they are what is there.

import "./bay.css";

import { everywhere } from "./everywhere.ts";
import { Handles } from "./handles.ts";
import { onScheme } from "./looks.ts";
import { type Answer, type Scene, ask, bring } from "./fitting.ts";
import { Stage, type View } from "./stage.ts";
import { showRows } from "./rows.ts";

class Bay {
  private handles: Handles | undefined;
  private stage: Stage | undefined;
  private stop: () => void = () => undefined;
  private asking = false;
  private again = false;

  constructor(private readonly root: HTMLElement, private scene: Scene) {
    this.open();
    this.bind();
  }

  drop(): void {
    this.stop();
    this.stage?.drop();
  }

  /** Take up the page's form as it is now; the view stays, whatever part was swapped. */
  bind(): void {
    this.handles = new Handles(this.root, this.scene.pose, () => this.moved());
    this.back?.addEventListener("click", () => this.handles?.reset());
    this.tried?.setAttribute("role", "status");
    const keys = this.root.querySelector<HTMLElement>(".keys");
    if (keys) keys.hidden = !this.stage;
    this.moved(); // what was typed before the part was swapped still stands
  }

  /** Show what the workbench says now. */
  renew(scene: Scene): void {
    this.scene = scene;
    this.stage?.renew(scene);
    this.stage?.show("bonnet", this.bonnet?.checked ?? true);
    this.bind();
  }

  private get tried(): HTMLElement | null {
    return this.root.querySelector("[data-tried]");
  }

  private get back(): HTMLButtonElement | null {
    return this.root.querySelector("[data-back]");
  }

  private get bonnet(): HTMLInputElement | null {
    return this.root.querySelector("[data-show=bonnet]");
  }

  private open(): void {
    const room = this.root.querySelector<HTMLElement>(".stage");
    if (!room) return;
    try {
      this.stage = new Stage(room, this.scene);
    } catch (fault) {
      const words = room.querySelector(".without");
      if (words) words.textContent = "This browser draws nothing in space (no WebGL). The table and the sections below say the same.";
      console.info(fault);
      return;
    }
    const stage = this.stage;
    this.stop = onScheme(() => stage.recolour());
    stage.canvas.addEventListener("keydown", (event) => this.key(event));
    for (const one of this.root.querySelectorAll<HTMLElement>(".views")) one.hidden = false;
    for (const one of this.root.querySelectorAll<HTMLElement>("[data-view]")) {
      one.addEventListener("click", () => stage.look(one.dataset.view as View));
    }
    const { bonnet } = this;
    bonnet?.addEventListener("change", () => stage.show("bonnet", bonnet.checked));
    stage.rows(this.scene.rows);
  }

  private key(event: KeyboardEvent): void {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const steps = event.shiftKey ? 10 : 1;
    const way = { ArrowUp: ["x", 1], ArrowDown: ["x", -1], ArrowLeft: ["y", 1], ArrowRight: ["y", -1], PageUp: ["z", 1], PageDown: ["z", -1], "+": ["pitch", 1], "=": ["pitch", 1], "-": ["pitch", -1], _: ["pitch", -1] }[event.key] as [string, number] | undefined;
    if (!way) return;
    event.preventDefault();
    this.handles?.step(way[0], way[1] * steps);
  }

  private moved(): void {
    const { handles } = this;
    if (!handles) return;
    if (this.back) this.back.hidden = !handles.away;
    this.stage?.place(handles.pose);
    if (this.tried && !handles.away) this.tried.textContent = "";
    void this.judge();
  }

  /** Ask for the clearances; while an answer is on its way, only the last place counts. */
  private async judge(): Promise<void> {
    if (this.asking) { this.again = true; return; }
    this.asking = true;
    try {
      do {
        this.again = false;
        const { handles } = this;
        this.show(handles?.away ? await ask(handles.pose) : { rows: this.scene.rows, problems: [] });
      } while (this.again);
    } catch {
      if (this.tried) this.tried.textContent = "The workbench does not answer. Is it still running?";
    } finally {
      this.asking = false;
    }
  }

  private show(answer: Answer): void {
    const { rows, problems } = answer;
    if (problems.length) {
      if (this.tried) this.tried.textContent = problems.join(" ");
      return;
    }
    showRows(this.root, rows, (name) => this.stage?.point(name));
    this.stage?.rows(rows);
    const worst = rows[0];
    if (this.tried && this.handles?.away) this.tried.textContent = `Tried, not saved${worst ? `; nearest to its need: ${worst.name}, ${worst.gap}, ${worst.state}` : ""}`;
  }
}

let bay: Bay | undefined;

everywhere("[data-bay]", () => () => { bay?.drop(); bay = undefined; });

everywhere("[data-bay] [data-swap]:has([data-handle])", (part) => {
  const root = part.closest<HTMLElement>("[data-bay]");
  if (!root) return undefined;
  let dropped = false;
  bring().then((scene) => {
    if (dropped || !scene.engine) return;
    if (bay) bay.renew(scene); else bay = new Bay(root, scene);
  }).catch((fault) => console.error(fault));
  return () => { dropped = true; };
});
