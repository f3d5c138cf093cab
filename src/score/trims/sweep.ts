import { crossing, newCrossing } from '../../geometry/crossing.js';
import type { Polygon } from '../../geometry/polygon.js';
import type { Assembly } from '../../motion/assembly.js';
import type { Opening } from '../../motion/opening.js';
import { POSE } from '../../motion/pose.js';

/** Page angles are stepped through by this much, degrees: seldom half a millimetre of motion. */
const STEP = 0.125;

/** A stretch that two panels have in common, in the planes of both: x0, y0, x1, y1 on the first, then on the second. */
type Stretch = readonly number[];

/** Corners of a quadrilateral swept between two neighbouring page angles: x, y pairs. */
export type Swept = readonly number[];

/**
 * What two panels sweep through each other at every page angle at which they catch: on the first panel, and on the second.
 * Between two page angles, each stretch in common is taken to sweep the quadrilateral between where it was and where it is.
 * @param counting push from which a contact counts, mm
 */
export function sweptThrough(
  assembly: Assembly,
  opening: Opening,
  a: number,
  b: number,
  counting: number,
): readonly [Swept[], Swept[]] {
  const swept: [Swept[], Swept[]] = [[], []];
  const found = newCrossing();
  const last = opening.pageAngles[opening.count - 1];
  const steps = Math.round((180 - last) / STEP);
  let before: Stretch[] = [];
  let caught = false;
  for (let step = 0; step <= steps; step++) {
    const poses = opening.at(Math.max(last, 180 - step * STEP));
    const meets = crossing(assembly.panels[a], assembly.panels[b], poses, a, b, found);
    const now = meets ? stretchesOf(assembly, poses, a, b) : [];
    const catches = meets && found.push > counting;
    if (catches || caught) addBetween(swept, before, now);
    before = now;
    caught = catches;
  }
  return swept;
}

function addBetween(
  swept: readonly [Swept[], Swept[]],
  before: readonly Stretch[],
  now: readonly Stretch[],
): void {
  for (const side of [0, 1] as const) {
    const ends = (stretch: Stretch) => stretch.slice(4 * side, 4 * side + 4);
    // Where one parts in two, or comes and goes, each sweeps nothing but itself.
    const paired = before.length === now.length;
    const quads = paired
      ? now.map((stretch, i) => [...ends(before[i]), ...ends(stretch)])
      : [...before, ...now].map(ends);
    swept[side].push(...quads);
  }
}

/** The stretches of the line in which the planes meet that lie on card of both panels. */
function stretchesOf({ panels }: Assembly, poses: Float64Array, a: number, b: number): Stretch[] {
  const lineA = lineOn(poses, a, b, 1);
  const lineB = lineOn(poses, b, a, -1);
  // Places along the line count from the foot of each panel's own origin; `shift` brings b's to a's.
  const shift = placeOf(poses, b, lineB, a, lineA);
  const onA = cover(panels[a], lineA);
  const onB = cover(panels[b], lineB);
  const stretches: Stretch[] = [];
  for (let i = 0; i + 1 < onA.length; i += 2)
    for (let j = 0; j + 1 < onB.length; j += 2) {
      const from = Math.max(onA[i], onB[j] + shift);
      const to = Math.min(onA[i + 1], onB[j + 1] + shift);
      if (to <= from) continue;
      stretches.push([
        ...[from, to].flatMap((at) => pointAt(lineA, at)),
        ...[from, to].flatMap((at) => pointAt(lineB, at - shift)),
      ]);
    }
  return stretches;
}

/** The line in which the plane of another panel meets a panel's own: its nearest point to the origin, and its direction. */
interface LineIn {
  readonly x: number;
  readonly y: number;
  readonly u: number;
  readonly v: number;
}

/** @param way 1 or −1: such that the directions on both panels are the same in space */
function lineOn(poses: Float64Array, k: number, m: number, way: 1 | -1): LineIn {
  const i = k * POSE;
  const j = m * POSE;
  const along = (axis: number) =>
    poses[j + 2] * poses[i + axis] + poses[j + 6] * poses[i + 4 + axis] + poses[j + 10] * poses[i + 8 + axis];
  const [p, q] = [along(0), along(1)];
  const r =
    poses[j + 2] * (poses[i + 3] - poses[j + 3]) +
    poses[j + 6] * (poses[i + 7] - poses[j + 7]) +
    poses[j + 10] * (poses[i + 11] - poses[j + 11]);
  const sine = Math.hypot(p, q);
  return { x: (-r * p) / sine ** 2, y: (-r * q) / sine ** 2, u: (-way * q) / sine, v: (way * p) / sine };
}

/** Where, along a's line from its foot, the foot of b's line lies. */
function placeOf(poses: Float64Array, b: number, lineB: LineIn, a: number, lineA: LineIn): number {
  const i = a * POSE;
  const j = b * POSE;
  let place = 0;
  for (let axis = 0; axis < POSE; axis += 4) {
    const footB = poses[j + axis] * lineB.x + poses[j + axis + 1] * lineB.y + poses[j + axis + 3];
    const footA = poses[i + axis] * lineA.x + poses[i + axis + 1] * lineA.y + poses[i + axis + 3];
    place += (footB - footA) * (poses[i + axis] * lineA.u + poses[i + axis + 1] * lineA.v);
  }
  return place;
}

const pointAt = ({ x, y, u, v }: LineIn, at: number): [number, number] => [x + at * u, y + at * v];

/** Where along a line a shape begins and ends, in order, two by two. */
function cover({ outline, holes }: Polygon, { x, y, u, v }: LineIn): number[] {
  const places: number[] = [];
  for (const ring of [outline, ...holes])
    for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
      const a = (ring[j + 1] - y) * u - (ring[j] - x) * v;
      const b = (ring[i + 1] - y) * u - (ring[i] - x) * v;
      if (a > 0 === b > 0) continue;
      const t = a / (a - b);
      places.push(
        (ring[j] + t * (ring[i] - ring[j]) - x) * u + (ring[j + 1] + t * (ring[i + 1] - ring[j + 1]) - y) * v,
      );
    }
  return places.sort((p, q) => p - q);
}

/** Regions nearer to each other than this, mm, are cut out as one. */
const ONE_CUT = 1;

/** The corners of the places that swept quadrilaterals make up, place by place: they overlap within each. */
export function partsOf(swept: readonly Swept[]): number[][] {
  const places: { box: Box; points: number[] }[] = [];
  for (const quad of swept) {
    let box: Box = [Infinity, Infinity, -Infinity, -Infinity];
    for (let i = 0; i < quad.length; i += 2) box = around(box, [quad[i], quad[i + 1], quad[i], quad[i + 1]]);
    let points = [...quad];
    for (let i = places.length - 1; i >= 0; i--) {
      const other = places[i];
      if (!meet(box, other.box)) continue;
      box = around(box, other.box);
      // The fewer go to the more: thousands that come one by one are not copied each time.
      const [more, fewer] =
        other.points.length > points.length ? [other.points, points] : [points, other.points];
      for (const value of fewer) more.push(value);
      points = more;
      places.splice(i, 1);
    }
    places.push({ box, points });
  }
  return places.map(({ points }) => points);
}

type Box = [number, number, number, number];

const around = (a: Box, b: Box): Box => [
  Math.min(a[0], b[0]),
  Math.min(a[1], b[1]),
  Math.max(a[2], b[2]),
  Math.max(a[3], b[3]),
];

const meet = (a: Box, b: Box): boolean =>
  a[0] <= b[2] + ONE_CUT && b[0] <= a[2] + ONE_CUT && a[1] <= b[3] + ONE_CUT && b[1] <= a[3] + ONE_CUT;
