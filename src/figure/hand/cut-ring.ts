import type { Stretch } from '../../parts/by-hand.js';

type Point = readonly [number, number];

/** Corners nearer to each other than this along a cut, mm, don't err apart: the knife goes through them in one stroke. */
const STROKE = 5;
/** A corner as near to a crease as this, mm, is meant to lie on it. */
const ON_CREASE = 0.02;

/** Where one corner comes to lie. */
type Corner =
  /** On an edge that is a crease: it goes where the crease goes. */
  | { readonly on: number }
  /** Off by an error of its own. */
  | { readonly station: number }
  /** As far off as two others, the nearer one the more. */
  | { readonly before: number; readonly after: number; readonly share: number };

/**
 * A drawn outline that is cut by hand.
 *
 * - An edge that runs along a crease is that crease: its two corners go where it goes, and have no error of their own.
 * - Every other corner is off in both coordinates. But corners less than 5 mm apart along the cut move smoothly together:
 *   those between two that err by themselves are as far off as both, the nearer one the more.
 */
export class CutRing {
  readonly #drawn: readonly Point[];
  readonly #creases: readonly Stretch[];
  /** The corners that err by themselves, by their places in the ring. */
  readonly stationCorners: readonly number[];
  readonly #corners: readonly Corner[];

  /** @param creases that may run along its edges, as drawn */
  constructor(drawn: readonly Point[], creases: readonly Stretch[]) {
    this.#drawn = drawn;
    this.#creases = creases;
    const n = drawn.length;
    const on = drawn.map((corner, i) =>
      creases.findIndex((crease) =>
        [drawn[(i + n - 1) % n], drawn[(i + 1) % n]].some((other) => runsAlong(corner, other, crease)),
      ),
    );
    // Round the ring from a corner that is held, if there is one: how far along the cut each corner lies.
    const first = Math.max(
      0,
      on.findIndex((crease) => crease >= 0),
    );
    const order = drawn.map((_, k) => (first + k) % n);
    const at = [0];
    for (const i of order) at.push(at[at.length - 1] + distance(drawn[i], drawn[(i + 1) % n]));
    const held = order.flatMap((i, k) => (on[i] >= 0 ? [k] : []));
    const fixed: number[] = [];
    for (let k = 0; k < n; k++) {
      const ahead = at[held.find((other) => other > k) ?? n] - at[k];
      const behind = k === 0 ? STROKE : at[k] - at[fixed[fixed.length - 1]];
      if (held.includes(k) || k === 0 || (behind >= STROKE && ahead >= STROKE)) fixed.push(k);
    }

    const corners: Corner[] = [];
    const stationCorners: number[] = [];
    for (const [k, i] of order.entries()) {
      const place = fixed.findLastIndex((other) => other <= k);
      if (on[i] >= 0) corners[i] = { on: on[i] };
      else if (fixed[place] === k) corners[i] = { station: stationCorners.push(i) - 1 };
      else {
        const [before, after] = [fixed[place], fixed[place + 1] ?? n];
        const share = (at[k] - at[before]) / (at[after] - at[before]);
        corners[i] = { before: order[before], after: order[after % n], share };
      }
    }
    this.stationCorners = stationCorners;
    this.#corners = corners;
  }

  /**
   * The ring as cut.
   * @param error mm, of coordinate `axis` of a corner that errs by itself, by its place among those
   * @param cut the creases as they are cut, in the order of those drawn
   */
  cut(error: (station: number, axis: 0 | 1) => number, cut: readonly Stretch[]): [number, number][] {
    const off = this.#corners.map((corner, i): Point => {
      if ('station' in corner) return [error(corner.station, 0), error(corner.station, 1)];
      if (!('on' in corner)) return [0, 0];
      const [x, y] = this.#drawn[i];
      const [px, py] = carried([x, y], this.#creases[corner.on], cut[corner.on]);
      return [px - x, py - y];
    });
    return this.#corners.map((corner, i): [number, number] => {
      const [x, y] = this.#drawn[i];
      if (!('share' in corner)) return [x + off[i][0], y + off[i][1]];
      const { before, after, share } = corner;
      const between = (axis: 0 | 1) => off[before][axis] * (1 - share) + off[after][axis] * share;
      return [x + between(0), y + between(1)];
    });
  }
}

/** Whether an edge lies on a crease's line and shares some of its length. */
function runsAlong(a: Point, b: Point, [from, to]: Stretch): boolean {
  const long = distance(from, to);
  const [ex, ey] = [(to[0] - from[0]) / long, (to[1] - from[1]) / long];
  const off = ([x, y]: Point) => Math.abs((x - from[0]) * ey - (y - from[1]) * ex);
  if (!(off(a) < ON_CREASE && off(b) < ON_CREASE)) return false;
  const along = ([x, y]: Point) => (x - from[0]) * ex + (y - from[1]) * ey;
  const [low, high] = [Math.min(along(a), along(b)), Math.max(along(a), along(b))];
  return Math.min(high, long) - Math.max(low, 0) > ON_CREASE;
}

/** Where a point of a crease's line goes: as far along it as before, of its length. */
function carried([x, y]: Point, [from, to]: Stretch, [start, end]: Stretch): Point {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const share = ((x - from[0]) * dx + (y - from[1]) * dy) / (dx * dx + dy * dy);
  return [start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])];
}

const distance = (a: Point, b: Point): number => Math.hypot(b[0] - a[0], b[1] - a[1]);
