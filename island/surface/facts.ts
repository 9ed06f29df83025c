// What the page says of a surface and of its flat pattern; the other side is
// said.go of internal/web/ui/surface.
import { links, rim, type Surface } from "./space";

interface Said {
  points?: number[]; // x, y, z of each vertex, mm; absent where only the flat pattern was laid anew
  faces?: number[];
  paths: number[][]; // all cuts as they are made, by vertex
  flat: { points: number[]; faces: number[]; source: number[] } | null; // faces are those of the surface in the same order
  class: string; // a digit for each face
  words: string[]; // by class
  measures: { word: string; of: number[] }[]; // of each face, in thousandths
  lines: [number, number, number, number][]; // across the flat shape
  cut: string; // what a cut is called
  coming?: boolean; // it is being laid flat: what was laid before stays meanwhile
  spots: { face: number; label: string }[];
}

/** Laid is the flat pattern as last worked out. */
export interface Laid {
  points: Float64Array; // x, y, 0 of each point, mm, y up
  faces: Int32Array;
  source: number[];
  rim: number[];
}

const text = (of: ParentNode): Said => JSON.parse(of.querySelector("#surface-data")!.textContent!) as Said;

const first = text(document);

export const solid: Surface = { points: new Float64Array(first.points!), faces: new Int32Array(first.faces!) };
export const near = links(solid);
export const edge = rim(solid.faces, solid.points.length / 3);

export const now: { said: Said; laid: Laid | null } = { said: first, laid: null };

/** hear takes what a page says of the flat pattern. */
export function hear(of: ParentNode): void {
  const said = text(of);
  if (said.coming && now.laid) return;
  now.said = said;
  const f = said.flat;
  if (!f) {
    now.laid = null;
    return;
  }
  const points = new Float64Array((f.points.length / 2) * 3);
  for (let i = 0; i < f.points.length / 2; i++) [points[3 * i], points[3 * i + 1]] = [f.points[2 * i]!, f.points[2 * i + 1]!];
  const faces = new Int32Array(f.faces);
  now.laid = { points, faces, source: f.source, rim: rim(faces, f.points.length / 2) };
}

/** per writes a strain of thousandths in per cent. */
export const per = (n: number): string => `${n < 0 ? "−" : "+"}${(Math.abs(n) / 10).toFixed(1)} %`;

hear(document);
