import { valueAt } from '../figure/text/check.js';
import type { Path } from '../figure/text/input-error.js';
import type { OpenedFigure } from './opened.js';
import type { Setting } from './settings.js';

/** Corners of an outline that are moved as one, and why. */
export interface RingMove {
  readonly because: 'edge' | 'moved' | 'larger';
  /** How far each coordinate goes for an amount of 1, mm. */
  readonly steps: readonly { readonly setting: number; readonly by: number }[];
}

/**
 * What a maker does to an outline, beside moving one corner: an edge is set in or out, both of its corners alike; a slot is
 * moved as a whole, or made larger all round.
 */
export function ringMoves(opened: OpenedFigure): RingMove[] {
  return [...rings(opened).values()].flatMap((ring) => [
    ...edges(opened, ring),
    ...(ring.isSlot ? wholes(opened, ring) : []),
  ]);
}

interface Ring {
  /** By corner and axis (0 along, 1 up), the setting; none where it is no number of its own. */
  readonly corners: (number | undefined)[][];
  readonly isSlot: boolean;
}

/** The outlines in a figure of which some coordinates are settings. */
function rings({ settings, source }: OpenedFigure): Map<string, Ring> {
  const found = new Map<string, Ring>();
  settings.forEach(({ place, twins }, i) => {
    const [corner, axis] = place.slice(-2);
    const ring: Path = place.slice(0, -2);
    if (typeof corner !== 'number' || typeof axis !== 'number' || !isRing(ring)) return;
    const count = (valueAt(source, ring) as unknown[] | undefined)?.length ?? 0;
    const key = ring.join();
    const known = found.get(key) ?? {
      corners: Array.from({ length: count }, () => []),
      isSlot: twins === 'slot',
    };
    if (known.corners[corner] !== undefined) known.corners[corner][axis] = i;
    found.set(key, known);
  });
  return found;
}

const isRing = (path: Path): boolean =>
  path.at(-1) === 'outline' || path.at(-1) === 'polygon' || path.at(-2) === 'holes';

/** Each edge square to itself, as far as its corners can be moved that way. */
function edges({ settings }: OpenedFigure, { corners }: Ring): RingMove[] {
  return corners.flatMap((a, i): RingMove[] => {
    const b = corners[(i + 1) % corners.length];
    const out = outOf(settings, a, b);
    return out === null ? [] : [{ because: 'edge', steps: along(out, [a, b]) }];
  });
}

/** A slot as a whole, square to each of its edges; and larger about its middle, as far up as along. */
function wholes({ settings }: OpenedFigure, { corners }: Ring): RingMove[] {
  if (corners.some((corner) => corner[0] === undefined || corner[1] === undefined)) return [];
  const ways = corners.flatMap((a, i) => {
    const out = outOf(settings, a, corners[(i + 1) % corners.length]);
    if (out === null) return [];
    const [x, y] = out;
    // There and back is one way.
    return [y < 0 || (y === 0 && x < 0) ? ([-x, -y] as const) : out];
  });
  const moved = ways.filter(
    ([x, y], i) => !ways.slice(0, i).some(([p, q]) => Math.abs(x * q - y * p) < SAME_WAY),
  );
  const larger = [0, 1].flatMap((axis) => {
    const values = corners.map((corner) => Number(settings[Number(corner[axis])].now));
    const [least, most] = [Math.min(...values), Math.max(...values)];
    return values.map((value, i) => ({
      setting: Number(corners[i][axis]),
      by: (2 * value - least - most) / (most - least),
    }));
  });
  return [
    ...moved.map((way): RingMove => ({ because: 'moved', steps: along(way, corners) })),
    { because: 'larger', steps: larger.filter(({ by }) => by !== 0) },
  ];
}

/** Sine of the angle below which two ways are one. */
const SAME_WAY = 0.02;

type Corner = readonly (number | undefined)[];

/** Square to an edge; null where a corner can't be moved that way. */
function outOf(settings: readonly Setting[], a: Corner, b: Corner): readonly [number, number] | null {
  const at = (i: number | undefined) => (i === undefined ? undefined : Number(settings[i].now));
  const [ax, ay, bx, by] = [at(a[0]), at(a[1]), at(b[0]), at(b[1])];
  // A coordinate that is no setting is 0, or follows from dims: then an edge along the other axis can be moved all the same.
  if (ax !== undefined && ax === bx) return [1, 0];
  if (ay !== undefined && ay === by) return [0, 1];
  if (ax === undefined || ay === undefined || bx === undefined || by === undefined) return null;
  const long = Math.hypot(bx - ax, by - ay);
  return [(by - ay) / long, (ax - bx) / long];
}

const along = (way: readonly [number, number], corners: readonly Corner[]): RingMove['steps'] =>
  corners.flatMap((corner) =>
    corner.flatMap((setting, axis) =>
      setting === undefined || way[axis] === 0 ? [] : [{ setting, by: way[axis] }],
    ),
  );
