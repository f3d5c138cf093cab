import { type Assembly, isPage } from '../motion/assembly.js';
import type { Opening } from '../motion/opening.js';
import { POSE } from '../motion/pose.js';

const DEGREES = 180 / Math.PI;

/**
 * A line that stands nearer than 15° to square to the plane in which it is seen is foreshortened to less than this, and its
 * turn counts less, the less the shorter it is seen.
 *
 * Headings alone would leap: a line that goes over the pole of the plane turns by 180° if it passes on its left, by −180°
 * on its right, though a hair lies between. So what is summed is w(r) dθ, r being the length at which a line of length 1
 * is seen, θ its heading, and w = 1 but for w = (r / FORESHORTENED)² below that: r² dθ is twice the area that the line
 * sweeps, in which there is no pole. Past the pole, straight and at a small angle ε from it, a line is then turned by about
 * (4 / FORESHORTENED − 2) ε = 13 ε, over the pole by nothing. One that is never so near is turned by what its heading
 * changes. Ours.
 */
const FORESHORTENED = Math.sin(15 / DEGREES);

/** A line that is seen no longer than this at any page angle, of its length, is not seen at all. */
const END_ON = 1e-4;

/**
 * How far lines of a panel turn in the plane of a reference panel, as the page goes through some page angles.
 * @param lines degrees from the panel's foot towards up
 * @param angles page angles, in their order; none more than 180° of the lines' heading from the one before
 * @returns degrees, of each line; NaN for one that is seen end on at all of them
 */
export function turnsOf(
  { panels }: Assembly,
  opening: Opening,
  panel: number,
  lines: readonly number[],
  reference: number,
  angles: readonly number[],
): number[] {
  const { up } = panels[panel];
  const along = lines.map((degrees) => Math.cos(degrees / DEGREES));
  const across = lines.map((degrees) => up * Math.sin(degrees / DEGREES));
  const turned = new Array<number>(lines.length).fill(0);
  const longest = new Array<number>(lines.length).fill(0);
  // Where each line ended, seen from its beginning in the plane of the reference, at the page angle before.
  const was = new Float64Array(2 * lines.length);
  const [i, j] = [panel * POSE, reference * POSE];
  angles.forEach((angle, frame) => {
    const q = opening.at(angle);
    // Column c of the panel's axes along axis r of the reference.
    const seen = (c: number, r: number) =>
      q[i + c] * q[j + r] + q[i + 4 + c] * q[j + 4 + r] + q[i + 8 + c] * q[j + 8 + r];
    const [xx, yx, xy, yy] = [seen(0, 0), seen(1, 0), seen(0, 1), seen(1, 1)];
    for (let k = 0; k < lines.length; k++) {
      const x = xx * along[k] + yx * across[k];
      const y = xy * along[k] + yy * across[k];
      if (frame > 0) turned[k] += turnOf(was[2 * k], was[2 * k + 1], x, y);
      longest[k] = Math.max(longest[k], Math.hypot(x, y));
      was[2 * k] = x;
      was[2 * k + 1] = y;
    }
  });
  return turned.map((sum, k) => (longest[k] < END_ON ? Number.NaN : sum * DEGREES));
}

/**
 * The farthest that a panel swings about the line it hangs on, as the page goes through some page angles: its foot, hinge or diagonal, or
 * that of the panel under it, if it is glued flat on one; of a page, the gutter. What turns is the normal of the reference, seen along that line
 * in the frame of the panel, so that a door on its hinge swings by just what the angle at the hinge changes, through flat as well; where
 * the reference stands nearly square to the line, it counts less (see FORESHORTENED).
 * @param angles page angles, in their order; none more than 180° of swing from the one before
 * @returns degrees from where it is at the first, never below 0; NaN where the reference is square to the line at all of them
 */
export function swingOf(
  { panels }: Assembly,
  opening: Opening,
  panel: number,
  reference: number,
  angles: readonly number[],
): number {
  const { body } = panels[panel];
  const [i, j] = [body * POSE, reference * POSE];
  // What lies across the line within the panel: the x axis runs along it, but of a page the y axis does.
  const across = isPage(body) ? 0 : 1;
  let [wasX, wasY, swung, farthest, longest] = [0, 0, 0, 0, 0];
  angles.forEach((angle, frame) => {
    const q = opening.at(angle);
    const seen = (c: number) => q[i + c] * q[j + 2] + q[i + 4 + c] * q[j + 6] + q[i + 8 + c] * q[j + 10];
    const [x, y] = [seen(2), seen(across)];
    if (frame > 0) swung += turnOf(wasX, wasY, x, y);
    farthest = Math.max(farthest, Math.abs(swung));
    longest = Math.max(longest, Math.hypot(x, y));
    [wasX, wasY] = [x, y];
  });
  return longest < END_ON ? Number.NaN : farthest * DEGREES;
}

/**
 * The integral of w(r) dθ as a point goes straight from one place to another, radians. With d the way between them and c the
 * cross product of both, r² dθ = c dt; so within the circle r = FORESHORTENED it is c t / FORESHORTENED², outside an angle.
 */
function turnOf(x0: number, y0: number, x1: number, y1: number): number {
  const [dx, dy] = [x1 - x0, y1 - y0];
  const way = dx * dx + dy * dy;
  if (way === 0) return 0;
  const within = FORESHORTENED * FORESHORTENED;
  const half = (x0 * dx + y0 * dy) / way;
  const reach = half * half - (x0 * x0 + y0 * y0 - within) / way;
  if (reach <= 0) return angleBetween(x0, y0, x1, y1);
  const enters = Math.min(1, Math.max(0, -half - Math.sqrt(reach)));
  const leaves = Math.min(1, Math.max(0, -half + Math.sqrt(reach)));
  // At the pole there is no angle: none is asked for where it begins or ends within.
  const before = enters > 0 ? angleBetween(x0, y0, x0 + enters * dx, y0 + enters * dy) : 0;
  const after = leaves < 1 ? angleBetween(x0 + leaves * dx, y0 + leaves * dy, x1, y1) : 0;
  return before + ((x0 * y1 - y0 * x1) * (leaves - enters)) / within + after;
}

const angleBetween = (x0: number, y0: number, x1: number, y1: number): number =>
  Math.atan2(x0 * y1 - y0 * x1, x0 * x1 + y0 * y1);

/** Directions that are looked at, degrees apart. */
const APART = 5;
/** Those in which a panel reaches at least so far, of its longest, count as long ones. */
const LONG = 0.9;

/**
 * The directions in which a panel is long, degrees from its foot towards up, each with its weight; the weights add up to 1. One
 * direction alone would leap from one diagonal to the other where both are as long.
 */
export function longDirections({ panels }: Assembly, k: number): { line: number; weight: number }[] {
  const { outline, up } = panels[k];
  const all = Array.from({ length: 180 / APART }, (_, i) => i * APART);
  const reaches = all.map((line) => {
    const [x, y] = [Math.cos(line / DEGREES), up * Math.sin(line / DEGREES)];
    let [least, most] = [Infinity, -Infinity];
    for (let v = 0; v < outline.length; v += 2) {
      const at = x * outline[v] + y * outline[v + 1];
      least = Math.min(least, at);
      most = Math.max(most, at);
    }
    return most - least;
  });
  const longest = Math.max(...reaches);
  const long = all
    .map((line, i) => ({ line, weight: reaches[i] / longest - LONG }))
    .filter(({ weight }) => weight > 0);
  const sum = long.reduce((before, { weight }) => before + weight, 0);
  return long.map(({ line, weight }) => ({ line, weight: weight / sum }));
}
