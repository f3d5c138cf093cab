import type { Path } from '../../figure/text/input-error.js';
import type { Flat } from '../../parts/attach.js';

/** How the numbers that a file writes place a point in the plane of a panel. */
export type Hold =
  /** So far from a point along one direction, or along two that are square to one another; mm. */
  | { readonly by: 'lengths'; readonly from: Flat; readonly axes: readonly Flat[] }
  /** An angle from a direction, degrees, and a distance, mm. */
  | { readonly by: 'turn'; readonly from: Flat; readonly zero: Flat; readonly ninety: Flat }
  /** How far from a point it lies on a line, mm: which way along that, from the line's own nearest point to it. */
  | { readonly by: 'reach'; readonly from: Flat; readonly foot: Flat; readonly way: Flat }
  /** Distances from two points, mm. */
  | { readonly by: 'compasses'; readonly from: readonly [Flat, Flat] };

/** Something of a part that can be dragged in the plane of a panel. */
export interface Handle {
  readonly part: string;
  /** @example 'corner 3' */
  readonly what: string;
  readonly panel: string;
  /** In the panel's plane, mm. */
  readonly at: Flat;
  /** How its numbers place it, what they come to now, and where they stand in the file. */
  readonly hold: Hold;
  readonly values: readonly number[];
  readonly paths: readonly Path[];
}

/** By what a handle is known again when all are found out anew. */
export const keyOf = ({ part, what, panel }: Pick<Handle, 'part' | 'what' | 'panel'>): string =>
  `${part} ${what} ${panel}`;

const DEGREES = 180 / Math.PI;

/** The unit of each of its numbers. */
export function unitsOf(hold: Hold): readonly ('mm' | 'degrees')[] {
  if (hold.by === 'turn') return ['degrees', 'mm'];
  if (hold.by === 'reach') return ['mm'];
  return hold.by === 'lengths' ? hold.axes.map(() => 'mm') : ['mm', 'mm'];
}

/** The numbers for which it lies where a point is, or as near to it as it can. @param now its numbers before */
export function valuesAt(hold: Hold, [x, y]: Flat, now: readonly number[]): number[] {
  if (hold.by === 'compasses') return hold.from.map(([px, py]) => Math.hypot(x - px, y - py));
  if (hold.by === 'reach') {
    const { from, foot, way } = hold;
    const along = Math.max(0, (x - foot[0]) * way[0] + (y - foot[1]) * way[1]);
    return [Math.hypot(along, foot[0] - from[0], foot[1] - from[1])];
  }
  const [dx, dy] = [x - hold.from[0], y - hold.from[1]];
  const along = ([ex, ey]: Flat) => dx * ex + dy * ey;
  if (hold.by === 'lengths') return hold.axes.map(along);
  const turn = DEGREES * Math.atan2(along(hold.ninety), along(hold.zero));
  // The same direction by the number of turns that is nearest to what is written.
  return [turn + 360 * Math.round((now[0] - turn) / 360), Math.hypot(dx, dy)];
}

/** Where it lies for its numbers. @param near of two such points, the one that is nearer to this */
export function placeOf(hold: Hold, values: readonly number[], near: Flat): Flat {
  if (hold.by === 'lengths')
    return hold.axes.reduce<Flat>(
      ([x, y], [ex, ey], i) => [x + values[i] * ex, y + values[i] * ey],
      hold.from,
    );
  if (hold.by === 'turn') {
    const [turn, far] = [values[0] / DEGREES, values[1]];
    const [c, s] = [far * Math.cos(turn), far * Math.sin(turn)];
    const { from, zero, ninety } = hold;
    return [from[0] + c * zero[0] + s * ninety[0], from[1] + c * zero[1] + s * ninety[1]];
  }
  if (hold.by === 'reach') {
    const { from, foot, way } = hold;
    // Pythagoras; nearer than the line goes by there is nothing.
    const far = values[0] ** 2 - (foot[0] - from[0]) ** 2 - (foot[1] - from[1]) ** 2;
    const along = Math.sqrt(Math.max(0, far));
    return [foot[0] + along * way[0], foot[1] + along * way[1]];
  }
  const [[px, py], [qx, qy]] = hold.from;
  const long = Math.hypot(qx - px, qy - py) || 1;
  const [ex, ey] = [(qx - px) / long, (qy - py) / long];
  // The law of cosines: a² + long² − b² = 2 a long cos.
  const along = (values[0] ** 2 + long ** 2 - values[1] ** 2) / (2 * long);
  const off = Math.sqrt(Math.max(0, values[0] ** 2 - along ** 2));
  const side = (near[0] - px) * -ey + (near[1] - py) * ex < 0 ? -1 : 1;
  return [px + along * ex - side * off * ey, py + along * ey + side * off * ex];
}
