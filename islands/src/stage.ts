// The view in space: drawn only when something changed. Body axes: x forward, y left, z up.

import {
  AmbientLight, Box3, BufferAttribute, BufferGeometry, Color, DirectionalLight, DoubleSide, EdgesGeometry, Group, Line, LineBasicMaterial,
  LineSegments, Mesh, MeshLambertMaterial, Object3D, PerspectiveCamera, Scene as Space, SphereGeometry, Vector3, WebGLRenderer,
} from "three";
import { OrbitControls } from "three/addons/controls/OrbitControls.js";

import type { Pose, Row, Scene, Solid } from "./fitting.ts";

export type View = "corner" | "front" | "left" | "top";
const FROM: Record<View, [number, number, number]> = { corner: [1, 0.75, 0.7], front: [1, 0, 0.04], left: [0, 1, 0.04], top: [-0.001, 0, 1] };
const CLEAR = new Set(["wall", "bonnet", "wheel"]);
const NAMED = 3;
/** How many of the nearest gaps carry their words in the view. */

interface Gap { row: Row; line: Line; ends: Mesh[]; label: HTMLElement }

export class Stage {
  readonly canvas: HTMLCanvasElement;
  private readonly renderer: WebGLRenderer;
  private readonly space = new Space();
  private readonly camera = new PerspectiveCamera(32, 1, 0.05, 30);
  private readonly controls: OrbitControls;
  private readonly engine = new Group();
  private readonly ghost = new Group();
  private readonly standing = new Group();
  private readonly gaps = new Map<string, Gap>();
  private readonly seen: ResizeObserver;
  private readonly box = new Box3();
  private pointed: string | undefined;
  private asked = false;

  constructor(private readonly room: HTMLElement, private scene: Scene) {
    this.renderer = new WebGLRenderer({ antialias: true, alpha: true });
    this.renderer.setPixelRatio(Math.min(devicePixelRatio, 2));
    this.canvas = this.renderer.domElement;
    this.canvas.tabIndex = 0;
    this.canvas.setAttribute("role", "application");
    this.canvas.setAttribute("aria-label", "The engine in its bay. Arrow keys, Page Up, Page Down, plus and minus move it; the table of clearances tells how it stands.");
    room.querySelector(".without")?.setAttribute("hidden", "");
    room.append(this.canvas);
    this.camera.up.set(0, 0, 1);
    this.light();
    this.space.add(this.engine, this.ghost, this.standing);
    this.fill();
    this.controls = new OrbitControls(this.camera, this.canvas);
    this.controls.enableZoom = false; // the wheel turns the page until the view has the focus
    this.canvas.addEventListener("focus", () => { this.controls.enableZoom = true; });
    this.canvas.addEventListener("blur", () => { this.controls.enableZoom = false; });
    this.controls.addEventListener("change", () => this.draw());
    this.recolour();
    this.seen = new ResizeObserver(() => this.fit());
    this.seen.observe(room);
    this.fit();
    this.look("corner");
  }

  /** Show another scene from where the person looks. */
  renew(scene: Scene): void {
    this.scene = scene;
    for (const one of [this.engine, this.ghost, this.standing]) { discard(one); one.clear(); }
    this.fill();
    this.recolour();
  }

  drop(): void {
    this.seen.disconnect();
    this.controls.dispose();
    discard(this.space);
    this.renderer.dispose();
    this.renderer.forceContextLoss();
    this.canvas.remove();
    for (const { label } of this.gaps.values()) label.remove();
  }

  /** Put the engine in another place; the saved one stays as an outline. */
  place(pose: Pose): void {
    const { x = 0, y = 0, z = 0, pitch = 0 } = pose;
    this.engine.position.set(x, y, z);
    this.engine.rotation.y = (this.scene.pose.pitch ?? 0) - pitch; // by the right hand about y the nose goes down
    this.ghost.visible = !(this.engine.position.equals(this.ghost.position) && this.engine.rotation.y === 0);
    this.draw();
  }

  /** Draw the closest points of each pair as a line. */
  rows(rows: Row[]): void {
    const ink = this.inks();
    const there = new Set(rows.map((one) => one.name));
    for (const [name, gap] of this.gaps) if (!there.has(name)) { this.space.remove(gap.line, ...gap.ends); gap.label.remove(); this.gaps.delete(name); }
    rows.forEach((row) => {
      if (!row.points) return;
      const gap = this.gaps.get(row.name) ?? this.newGap(row);
      gap.row = row;
      const [from, to] = row.points.map((one) => new Vector3(...one as [number, number, number])) as [Vector3, Vector3];
      gap.line.geometry.setFromPoints([from, to]);
      gap.ends[0]?.position.copy(from);
      gap.ends[1]?.position.copy(to);
      for (const one of [gap.line, ...gap.ends]) ((one as Mesh).material as LineBasicMaterial).color.set(ink.states[row.state]);
      gap.label.className = `gap ${row.state}`;
      gap.label.textContent = `${row.name} ${row.gap.replace(/ \(.*$/, "")}`;
    });
    this.named(rows);
  }

  /** Show the line of one row, whatever its place in the list. */
  point(name: string | undefined): void {
    this.pointed = name;
    this.named([...this.gaps.values()].map((one) => one.row).sort((a, b) => a.margin - b.margin));
  }

  show(name: string, there: boolean): void {
    for (const one of this.standing.children) if (one.name === name) one.visible = there;
    this.draw();
  }

  look(view: View): void {
    const middle = this.box.getCenter(new Vector3()), reach = this.box.getSize(new Vector3()).length() / 2;
    const narrow = Math.min(1, this.camera.aspect);
    const away = reach / Math.sin((this.camera.fov / 2) * Math.PI / 180) / narrow * 0.86;
    this.controls.target.copy(middle);
    this.camera.position.copy(middle).addScaledVector(new Vector3(...FROM[view]).normalize(), away);
    this.controls.update();
    this.draw();
  }

  recolour(): void {
    const ink = this.inks();
    this.space.traverse((one) => {
      if (!(one instanceof Mesh || one instanceof LineSegments)) return;
      const kind = one.userData.kind as string | undefined;
      if (kind) (one.material as MeshLambertMaterial).color.set(one instanceof Mesh ? ink.kinds[kind] ?? ink.other : ink.edge);
    });
    this.rows([...this.gaps.values()].map((one) => one.row));
    this.draw();
  }

  private fill(): void {
    const { x = 0, y = 0, z = 0 } = this.scene.pose;
    this.box.makeEmpty();
    for (const one of [this.engine, this.ghost]) { one.position.set(x, y, z); one.rotation.y = 0; }
    for (const one of this.scene.solids) this.add(one, new Vector3(x, y, z));
    this.ghost.visible = false;
  }

  private add(solid: Solid, pivot: Vector3): void {
    const geometry = new BufferGeometry();
    geometry.setAttribute("position", new BufferAttribute(new Float32Array(solid.vertices), 3));
    geometry.setIndex(solid.faces);
    if (solid.moving) geometry.translate(-pivot.x, -pivot.y, -pivot.z);
    const flat = geometry.toNonIndexed();
    flat.computeVertexNormals();
    const clear = CLEAR.has(solid.kind);
    const mesh = new Mesh(flat, new MeshLambertMaterial({ side: DoubleSide, transparent: clear, opacity: clear ? 0.22 : 1, depthWrite: !clear, polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1 }));
    const edges = new LineSegments(new EdgesGeometry(geometry, 25), new LineBasicMaterial({ transparent: true, opacity: clear ? 0.5 : 0.9 }));
    mesh.userData.kind = edges.userData.kind = solid.kind;
    const both = new Group();
    both.name = solid.name;
    both.add(mesh, edges);
    (solid.moving ? this.engine : this.standing).add(both);
    if (solid.moving) {
      const outline = new LineSegments(edges.geometry, new LineBasicMaterial({ transparent: true, opacity: 0.35 }));
      outline.userData.kind = solid.kind;
      this.ghost.add(outline);
    }
    if (solid.kind !== "wheel") {
      geometry.computeBoundingBox();
      const bounds = geometry.boundingBox ?? new Box3();
      this.box.union(solid.moving ? bounds.clone().translate(pivot) : bounds);
    }
  }

  private light(): void {
    const sun = new DirectionalLight(0xffffff, 1.7), back = new DirectionalLight(0xffffff, 0.7);
    sun.position.set(2, 3, 4);
    back.position.set(-3, -2, 1);
    this.space.add(new AmbientLight(0xffffff, 1.3), sun, back);
  }

  private newGap(row: Row): Gap {
    const paint = new LineBasicMaterial({ depthTest: false });
    const line = new Line(new BufferGeometry(), paint);
    const ball = new SphereGeometry(0.006, 12, 8);
    const ends = [0, 1].map(() => new Mesh(ball, new MeshLambertMaterial({ depthTest: false, emissiveIntensity: 1 })));
    const label = document.createElement("span");
    label.setAttribute("aria-hidden", "true"); // the table says it
    for (const one of [line, ...ends]) one.renderOrder = 5;
    this.space.add(line, ...ends);
    this.room.append(label);
    const gap = { row, line, ends, label };
    this.gaps.set(row.name, gap);
    return gap;
  }

  private named(rows: Row[]): void {
    const near = new Set(rows.filter((one) => one.points).slice(0, NAMED).map((one) => one.name));
    for (const [name, gap] of this.gaps) {
      const shown = this.pointed ? name === this.pointed : near.has(name) || gap.row.state === "fails";
      for (const one of [gap.line, ...gap.ends]) one.visible = shown;
      gap.label.hidden = !shown;
    }
    this.draw();
  }

  private fit(): void {
    const width = this.room.clientWidth, height = this.room.clientHeight;
    if (!width || !height) return;
    this.renderer.setSize(width, height);
    this.camera.aspect = width / height;
    this.camera.updateProjectionMatrix();
    this.draw();
  }

  private draw(): void {
    if (this.asked) return;
    this.asked = true;
    requestAnimationFrame(() => {
      this.asked = false;
      this.renderer.render(this.space, this.camera);
      this.labels();
    });
  }

  /** Put the words of each shown gap beside its middle, none over another. */
  private labels(): void {
    const width = this.room.clientWidth, height = this.room.clientHeight, taken: number[] = [];
    for (const { label, line, ends } of this.gaps.values()) {
      if (!line.visible || !ends[0] || !ends[1]) continue;
      const at = ends[0].position.clone().add(ends[1].position).multiplyScalar(0.5).project(this.camera);
      const x = Math.min(Math.max((at.x + 1) / 2 * width + 10, 4), width - label.offsetWidth - 4);
      let y = Math.min(Math.max((1 - at.y) / 2 * height - 12, 4), height - 28);
      while (taken.some((one) => Math.abs(one - y) < 26) && y > 4) y -= 13;
      taken.push(y);
      label.style.transform = `translate(${x.toFixed(1)}px, ${y.toFixed(1)}px)`;
    }
  }

  private inks(): { kinds: Record<string, string>; states: Record<Row["state"], string>; edge: string; other: string } {
    const style = getComputedStyle(this.room);
    const of = (name: string): string => `#${new Color(style.getPropertyValue(name).trim() || "#888").getHexString()}`;
    return {
      kinds: { engine: of("--engine"), gearbox: of("--gearbox"), hot: of("--hot"), rotating: of("--rotating"), shaft: of("--gearbox"), wall: of("--wall"), radiator: of("--wall"), bonnet: of("--wall"), steering: of("--steering"), wheel: of("--wheel") },
      states: { good: of("--good"), tight: of("--tight"), open: of("--open"), fails: of("--fails") },
      edge: of("--ink"),
      other: of("--standing"),
    };
  }
}

function discard(space: Object3D): void {
  space.traverse((one) => {
    if (!(one instanceof Mesh || one instanceof Line)) return;
    one.geometry.dispose();
    for (const material of [one.material].flat()) material.dispose();
  });
}
