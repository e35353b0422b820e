// What the workbench says of the bay; all lengths in metres, angles in radians, in body axes.

export interface Solid { name: string; kind: string; moving: boolean; vertices: number[]; faces: number[] }
export type Pose = Record<string, number>;
export interface Row {
  check: string;
  name: string;
  /** Surely well clear: not in the table. */
  far: boolean;
  gap: string;
  need: string;
  state: "good" | "tight" | "open" | "fails";
  words: string;
  sure: string;
  margin: number;
  points: [number[], number[]] | null;
}
export interface Scene { engine: string | null; solids: Solid[]; pose: Pose; rows: Row[] }
export interface Answer { rows: Row[]; problems: string[] }

export async function bring(): Promise<Scene> {
  return read(await fetch("/api/fit", { credentials: "same-origin" }));
}

/** Ask how the engine would stand in another place. */
export async function ask(pose: Pose): Promise<Answer> {
  return read(await fetch("/api/fit/tried", { method: "POST", credentials: "same-origin", body: JSON.stringify(pose) }));
}

async function read<T>(answer: Response): Promise<T> {
  if (!answer.ok) throw new Error(`${answer.status} ${answer.statusText}`);
  return await answer.json() as T;
}
