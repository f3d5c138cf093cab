import type { Want } from '../../src/figure/wants.js';
import { Assembly } from '../../src/motion/assembly.js';
import { Opening } from '../../src/motion/opening.js';
import { POSE } from '../../src/motion/pose.js';
import { Leaf, Quantity, Word } from '../../src/parts/fields.js';
import { finish } from '../../src/parts/finish.js';
import { partKinds } from '../../src/parts/index.js';
import { measure, type Reached } from '../../src/score/reach.js';

/** A part as a figure file would hold it, with plain numbers and words only. */
export type PlainPart = { name: string; kind: string; [field: string]: unknown };

/** The corners of a piece of card of this size, from its lower left one. */
export const rectangle = (wide: number, high: number): [number, number][] => [
  [0, 0],
  [wide, 0],
  [wide, high],
  [0, high],
];

/** Builds an assembly straight from parts with plain numbers, without the figure file's arithmetic. */
export function assemble(parts: readonly PlainPart[], page = { width: 150, height: 210 }): Assembly {
  const assembly = new Assembly(page, () => 0.3);
  for (const { name, kind, ...fields } of parts)
    partKinds[kind].build(name, plain(partKinds[kind].fields.parse(fields)) as never, assembly);
  finish(assembly);
  return assembly;
}

function plain(value: unknown): unknown {
  if (value instanceof Quantity || value instanceof Word) return value.written;
  if (value instanceof Leaf) {
    const form = plain(value.form);
    return Array.isArray(form) ? { polygon: form } : form;
  }
  if (Array.isArray(value)) return value.map(plain);
  if (value !== null && typeof value === 'object')
    return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, plain(inner)]));
  return value;
}

/** Opens the assembly and gives the opening back. */
export function open(assembly: Assembly, step = 2): Opening {
  const opening = new Opening();
  opening.run(assembly, step);
  return opening;
}

/** What a want asks for beside its name and goal; its span is the whole opening unless given. */
type Asked = Want extends infer W
  ? W extends Want
    ? Omit<W, 'name' | 'least' | 'most' | 'target' | 'tolerance' | 'weight' | 'from' | 'to'> & {
        readonly from?: number;
        readonly to?: number;
      }
    : never
  : never;

/** Measures what a want asks for in an assembly. */
export function wantOf(asked: Asked, assembly: Assembly): Reached {
  const goal = { least: 0, most: undefined, target: undefined, tolerance: undefined, weight: 1 };
  return measure({ name: 'want', ...goal, from: 180, to: 0, ...asked }, assembly, open(assembly));
}

/** How far a line of a panel turns against another panel as the page goes from flat to 90°, degrees. */
export function turnOf(parts: readonly PlainPart[], panel: string, line: number, reference: string): number {
  const turned = wantOf({ kind: 'turn', unit: 'degrees', panel, line, reference, to: 90 }, assemble(parts));
  if ('unknown' in turned) throw new Error(turned.unknown.because);
  return turned.value;
}

/** The poses at any page angle, reached from the open page in steps of 1° (so that loops are followed). */
export function posesAt(assembly: Assembly, pageAngle: number): Float64Array {
  const opening = new Opening();
  opening.run(assembly, 180);
  const poses = assembly.open.slice();
  const misfits = new Float64Array(assembly.misfits.length);
  for (let angle = 180; angle > pageAngle; angle -= 1) opening.place(angle, poses, misfits);
  opening.place(pageAngle, poses, misfits);
  return poses;
}

/** A point of a named panel in space. */
export function pointOf(assembly: Assembly, poses: Float64Array, panel: string, x: number, y: number) {
  const i = assembly.panelNamed(panel, '') * POSE;
  return [0, 4, 8].map((r) => poses[i + r] * x + poses[i + r + 1] * y + poses[i + r + 3]);
}

/** One column of a panel's rotation: its x axis (0), y axis (1) or normal (2). */
export function axisOf(assembly: Assembly, poses: Float64Array, panel: string, axis: 0 | 1 | 2): number[] {
  const i = assembly.panelNamed(panel, '') * POSE;
  return [0, 4, 8].map((r) => poses[i + r + axis]);
}

/** The greatest distance, at any frame, between the two ends of any crease as its two panels see it, mm. */
export function worstGap(assembly: Assembly, opening: Opening): number {
  let worst = 0;
  for (let frame = 0; frame < opening.count; frame++) {
    const poses = opening.frame(frame);
    for (const joint of assembly.joints) {
      if (joint.kind !== 'crease') continue;
      const ends = joint.between.map((k, side) => {
        const line = joint.lines[side];
        const at = (x: number, y: number) =>
          [0, 4, 8].map(
            (r) => poses[k * POSE + r] * x + poses[k * POSE + r + 1] * y + poses[k * POSE + r + 3],
          );
        return [at(line.x0, line.y0), at(line.x1, line.y1)];
      });
      for (const end of [0, 1])
        worst = Math.max(worst, Math.hypot(...ends[0][end].map((v, i) => v - ends[1][end][i])));
    }
  }
  return worst;
}
