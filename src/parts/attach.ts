import type { Line } from '../geometry/line.js';
import { type Assembly, LEFT_PAGE, RIGHT_PAGE } from '../motion/assembly.js';
import { CannotBuild } from '../motion/cannot-build.js';
import type { Crease } from '../motion/crease.js';

/** A point or a direction in a panel's own plane. */
export type Flat = readonly [number, number];

/** A place on a crease as one of its two panels sees it. */
export interface Footing {
  readonly panel: number;
  /** The place itself. */
  readonly at: Flat;
  /** Unit direction along the crease, the way the part faces. */
  readonly along: Flat;
  /** Unit direction, square to the crease, in which the panel lies from it. */
  readonly inward: Flat;
}

/** A place on a crease, seen from both of its panels, with the crease's direction chosen. */
export interface Stance {
  readonly crease: Crease;
  readonly footings: readonly [Footing, Footing];
  /** The sign of (n₁ × n₂) · e for the chosen direction e. */
  readonly sense: 1 | -1;
  /** On which side of the first panel's face the second panel lies: see `sphericalStep`. */
  readonly flatSide: 1 | -1;
  /** Likewise on which side of the second panel's face the first lies. */
  readonly otherFlatSide: 1 | -1;
}

/**
 * Takes a stance on a crease.
 * @param at mm from the crease's start
 * @param toward whether the part faces the crease's end or its start
 *
 * With nᵢ = sideᵢ (zᵢ × e), and the second panel lying on side β of the first one's face,
 * (n₁ × n₂)·e = β (n₁ × z₁)·e = β side₁ ((z₁ × e) × z₁)·e = β side₁, so β = sense · side₁;
 * with the panels exchanged the sense changes sign, so the other side is −sense · side₂.
 */
export function takeStance(crease: Crease, at: number, toward: 'end' | 'start'): Stance {
  const way = toward === 'end' ? 1 : -1;
  const footings = crease.lines.map((line, i): Footing => {
    const [ex, ey] = unit(line);
    const side = crease.sides[i];
    return {
      panel: crease.between[i],
      at: [line.x0 + at * ex, line.y0 + at * ey],
      along: [way * ex, way * ey],
      inward: [-side * ey, side * ex],
    };
  }) as [Footing, Footing];
  return {
    crease,
    footings,
    sense: (crease.sense * way) as 1 | -1,
    flatSide: (crease.sense * crease.sides[0]) as 1 | -1,
    otherFlatSide: (-crease.sense * crease.sides[1]) as 1 | -1,
  };
}

/** The crease that a tab is kept clear of, for `addTab`; the gutter is looked after with the edges of the page (`cutBackTabs`). */
export function besideOf({ crease }: Stance, footing: Footing): { beside?: Footing } {
  return crease.between[0] === LEFT_PAGE && crease.between[1] === RIGHT_PAGE ? {} : { beside: footing };
}

/** Unit direction of a line. */
export function unit(line: Line): [number, number] {
  const dx = line.x1 - line.x0;
  const dy = line.y1 - line.y0;
  const length = Math.hypot(dx, dy);
  return [dx / length, dy / length];
}

export function lengthOf(line: Line): number {
  return Math.hypot(line.x1 - line.x0, line.y1 - line.y0);
}

/**
 * On which side of a line a panel's card lies: 1 to the left, −1 to the right, 0 where the line goes through the middle
 * of its area. The outline is cut into triangles at its first corner; the height of each one's middle is the mean of
 * its corners' heights, and counts by its area.
 */
export function cardSide(outline: Float64Array, line: Line): 1 | -1 | 0 {
  const [ex, ey] = unit(line);
  const [x0, y0] = outline;
  let area = 0;
  let sum = 0;
  for (let i = 2; i + 3 < outline.length; i += 2) {
    const [ax, ay] = [outline[i] - x0, outline[i + 1] - y0];
    const [bx, by] = [outline[i + 2] - x0, outline[i + 3] - y0];
    const twice = ax * by - ay * bx;
    area += twice;
    sum += twice * (ex * (y0 + (ay + by) / 3 - line.y0) - ey * (x0 + (ax + bx) / 3 - line.x0));
  }
  return Math.abs(sum) < 1e-9 * area ? 0 : sum > 0 ? 1 : -1;
}

/** The direction at an angle (radians) from a footing's crease, towards its panel. */
export function fromCrease({ along, inward }: Footing, angle: number): Flat {
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  return [c * along[0] + s * inward[0], c * along[1] + s * inward[1]];
}

/** `origin` moved by `distance` along `direction`. */
export function moved(origin: Flat, direction: Flat, distance: number): [number, number] {
  return [origin[0] + distance * direction[0], origin[1] + distance * direction[1]];
}

export function lineBetween([x0, y0]: Flat, [x1, y1]: Flat): Line {
  return { x0, y0, x1, y1 };
}

/** Refuses a place that is drawn beyond a crease's ends, by more than round-off. */
export function mustLieOnCrease(
  assembly: Assembly,
  crease: Crease,
  at: number,
  field: string,
  what: string,
): void {
  if (assembly.handCut) return;
  const length = lengthOf(crease.lines[0]);
  if (at < -1e-6 || at > length + 1e-6)
    throw new CannotBuild(
      `${what} lies at ${at.toFixed(2)} mm along '${crease.name}', which is ${length.toFixed(2)} mm long`,
      field,
    );
}
