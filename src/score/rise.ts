import { boundingCircle, cardArea } from '../geometry/polygon.js';
import { type Assembly, RIGHT_PAGE } from '../motion/assembly.js';
import type { Opening } from '../motion/opening.js';
import { POSE, worldPoint } from '../motion/pose.js';

/** A line across card is as long as this, mm, to count as its top: a spike is none. */
const TOP = 5;
/** How much lower a line counts for each millimetre that it is too short. */
const SHORT = 30;
/** Levels nearer than this, mm, are one. */
const LEVEL = 1e-9;

const p = new Float64Array(3);
/** Heights of a point of the panel over the left page and over the right one: p x + q y + r each. */
const over = new Float64Array(6);
/** Where the edges that pass a strip meet its upper and its lower level, along these: two numbers an edge. */
let passes = new Float64Array(64);
let levels = new Float64Array(64);

/** Greatest height of a point of a panel above the nearer page, at any of some page angles, mm. */
export function riseOfPoint(
  opening: Opening,
  panel: number,
  [x, y]: readonly [number, number],
  pageAngles: readonly number[],
): number {
  let highest = -Infinity;
  for (const angle of pageAngles) {
    const poses = opening.at(angle);
    worldPoint(poses, panel, x, y, p);
    const r = RIGHT_PAGE * POSE;
    highest = Math.max(highest, Math.min(p[2], poses[r + 2] * p[0] + poses[r + 10] * p[2]));
  }
  return highest;
}

/**
 * How high a panel stands above the nearer page, at any of some page angles, mm: the height of the highest line on its card, level
 * with that page, that is 5 mm long, or half as long as the panel is broad on the mean, where that is less; a shorter one counts as
 * 30 mm lower for each millimetre, and so does one whose middle is nearer to the other page. So a spike does not make a panel higher,
 * and nothing leaps as it grows broad, or as its top, like a ridge over the gutter, is as near to the one page as to the other.
 *
 * Between the levels of two corners that follow each other the lines of a piece of card change their length and their middle
 * evenly; so the highest is at one of both levels, or where it is as long as asked, or as near to both pages.
 */
export function riseOfPanel(
  { panels }: Assembly,
  opening: Opening,
  panel: number,
  pageAngles: readonly number[],
): number {
  const { outline, holes } = panels[panel];
  const rings = [outline, ...holes];
  const count = rings.reduce((sum, ring) => sum + ring.length / 2, 0);
  if (levels.length < count) {
    levels = new Float64Array(2 * count);
    passes = new Float64Array(4 * count);
  }
  const asked = Math.min(TOP, cardArea(panels[panel]) / (2 * boundingCircle(outline).radius) / 2);
  let highest = -Infinity;
  for (const angle of pageAngles) {
    const poses = opening.at(angle);
    heightsOver(poses, panel);
    // No line is higher than the corner that is highest over either page.
    let [overLeft, overRight] = [-Infinity, -Infinity];
    for (let v = 0; v < outline.length; v += 2) {
      overLeft = Math.max(overLeft, heightAt(0, outline[v], outline[v + 1]));
      overRight = Math.max(overRight, heightAt(3, outline[v], outline[v + 1]));
    }
    if (Math.min(overLeft, overRight) <= highest) continue;
    highest = Math.max(highest, highestLine(rings, 0, asked, overRight, highest));
    highest = Math.max(highest, highestLine(rings, 3, asked, overLeft, highest));
  }
  return highest;
}

function heightsOver(poses: Float64Array, panel: number): void {
  const i = panel * POSE;
  const r = RIGHT_PAGE * POSE;
  for (const [column, axis] of [
    [0, 0],
    [1, 1],
    [3, 2],
  ]) {
    over[axis] = poses[i + 8 + column];
    over[3 + axis] = poses[r + 2] * poses[i + column] + poses[r + 10] * poses[i + 8 + column];
  }
}

const heightAt = (page: number, x: number, y: number): number =>
  over[page] * x + over[page + 1] * y + over[page + 2];

/**
 * What the highest line counts as that is level over a page; anything up to `known` where it is no more than that.
 * @param farthest how far the panel gets from the other page
 */
function highestLine(
  rings: readonly Float64Array[],
  page: number,
  asked: number,
  farthest: number,
  known: number,
): number {
  const steep = Math.hypot(over[page], over[page + 1]);
  // Level all over, a panel is as high everywhere.
  if (steep < LEVEL) return nearest(over[page + 2], farthest);
  let count = 0;
  let upper = -Infinity;
  for (const ring of rings)
    for (let v = 0; v < ring.length; v += 2) {
      levels[count] = heightAt(page, ring[v], ring[v + 1]);
      upper = Math.max(upper, levels[count++]);
    }
  let highest = known;
  while (upper > highest) {
    let lower = -Infinity;
    for (let k = 0; k < count; k++) if (levels[k] < upper - LEVEL && levels[k] > lower) lower = levels[k];
    if (lower === -Infinity) break;
    const found = edgesPassing(rings, page, steep, upper, lower);
    for (let k = 0; k + 3 < found; k += 4) {
      const [from0, from1, to0, to1] = [passes[k], passes[k + 1], passes[k + 2], passes[k + 3]];
      highest = Math.max(
        highest,
        countsAs(page, steep, upper, from0, to0, asked),
        countsAs(page, steep, lower, from1, to1, asked),
      );
      const between = (t: number) =>
        countsAs(
          page,
          steep,
          upper + t * (lower - upper),
          from0 + t * (from1 - from0),
          to0 + t * (to1 - to0),
          asked,
        );
      const [above, below] = [to0 - from0, to1 - from1];
      if (above < asked !== below < asked)
        highest = Math.max(highest, between((asked - above) / (below - above)));
      const [nearAbove, nearBelow] = [
        nearerBy(page, steep, upper, from0, to0),
        nearerBy(page, steep, lower, from1, to1),
      ];
      if (nearAbove < 0 !== nearBelow < 0)
        highest = Math.max(highest, between(nearAbove / (nearAbove - nearBelow)));
    }
    upper = lower;
  }
  return highest;
}

/** What a line counts as that is level over a page, from one place along it to another: the height of its middle, less what it lacks. */
function countsAs(
  page: number,
  steep: number,
  level: number,
  from: number,
  to: number,
  asked: number,
): number {
  const there = level + nearerBy(page, steep, level, from, to);
  return nearest(level, there) - SHORT * Math.max(0, asked - (to - from));
}

/** What a height over a page counts as, beside that over the other one: less, steeply, where that is nearer. */
const nearest = (here: number, there: number): number =>
  Math.min(here, there) - SHORT * Math.max(0, here - there);

/** How much nearer the middle of a line that is level over a page is to it than to the other, mm. */
function nearerBy(page: number, steep: number, level: number, from: number, to: number): number {
  const [px, py] = [over[page] / steep, over[page + 1] / steep];
  const along = (from + to) / 2;
  const up = (level - over[page + 2]) / steep;
  return heightAt(3 - page, px * up - py * along, py * up + px * along) - level;
}

/** Puts the places of all edges that pass from one level to another into `passes`, in order along them. @returns how many numbers */
function edgesPassing(
  rings: readonly Float64Array[],
  page: number,
  steep: number,
  upper: number,
  lower: number,
): number {
  const [px, py] = [over[page] / steep, over[page + 1] / steep];
  let found = 0;
  for (const ring of rings)
    for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
      const [a, b] = [heightAt(page, ring[j], ring[j + 1]), heightAt(page, ring[i], ring[i + 1])];
      if (Math.max(a, b) < upper - LEVEL || Math.min(a, b) > lower + LEVEL || Math.abs(a - b) < LEVEL)
        continue;
      const [s, t] = [px * ring[j + 1] - py * ring[j], px * ring[i + 1] - py * ring[i]];
      const high = s + ((upper - a) / (b - a)) * (t - s);
      const low = s + ((lower - a) / (b - a)) * (t - s);
      let k = found;
      for (; k > 0 && passes[k - 2] + passes[k - 1] > high + low; k -= 2) {
        passes[k] = passes[k - 2];
        passes[k + 1] = passes[k - 1];
      }
      passes[k] = high;
      passes[k + 1] = low;
      found += 2;
    }
  return found;
}
