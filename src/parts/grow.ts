import { outlineAround } from '../geometry/around.js';
import { cutToConvex } from '../geometry/convex-cut.js';
import type { Line } from '../geometry/line.js';
import { moveOntoLine } from '../geometry/onto-line.js';
import { type Point, type Ring, ringOf } from '../geometry/plane.js';
import { counterClockwise } from '../geometry/polygon.js';
import { less, solid, united } from '../geometry/region.js';
import { nearestOn, outsideOf } from '../geometry/ring-distance.js';
import type { Assembly } from '../motion/assembly.js';
import { unit } from './attach.js';
import { notch } from './notch.js';

/** Farther than any card reaches, mm. */
const FAR = 20_000;
/** Corners no farther than this off the way from one neighbour to the other, mm, are no corners. */
const STRAIGHT = 3e-6;

/**
 * Adds card to a panel that grows (`grow: yes`), so that what stands on it has card around it: a diagonal, a tab, a hinge, a
 * hub, a slot. Nothing is added where there is card enough, nor beyond a crease at which the panel ends. What lies off the
 * card is joined to the nearest card, so that a hair's change adds a hair of card. Gaps that are closed off are filled.
 * @param points that the card is to hold, x, y pairs in the panel's plane
 * @param corners of what is added
 */
export function growAround(
  assembly: Assembly,
  k: number,
  points: readonly number[],
  corners: 'round' | 'straight' = 'straight',
): void {
  const panel = assembly.panels[k];
  const { growth } = panel;
  if (growth === null) return;
  const drawn = Float64Array.from(growth.drawn);
  const held = ringOf(points).flatMap((p) => (outsideOf(drawn, p) > 0 ? [p, nearestOn(drawn, p)] : [p]));
  let ring: Float64Array = Float64Array.from(outlineAround(held, growth.margin, corners).flat());
  for (const side of sidesOf(assembly, k)) ring = cutToConvex(ring, side);
  if (ring.length < 6) return;
  const [card, added] = [solid(ringOf(drawn)), solid(ringOf(ring))];
  if (less(added, card).length === 0) return;
  const whole = united([card, added]);
  if (whole.length !== 1) return;
  growth.drawn = drawnRing(assembly, k, whole[0].outline);
  growth.grew = true;
  panel.outline = growth.cut.reduce(
    (left, [vertex, corner, end]) => notch(left, vertex, corner, end) ?? left,
    counterClockwise(growth.drawn.slice()),
  );
}

/** Half planes, as large rectangles, on whose side of a crease all of the panel's card lies: its foot, a ridge. */
function sidesOf({ creases }: Assembly, k: number): Float64Array[] {
  const sides = new Map<Line, Set<number>>();
  for (const { between, lines, sides: of } of creases.values())
    for (const end of [0, 1] as const)
      if (between[end] === k) sides.set(lines[end], (sides.get(lines[end]) ?? new Set()).add(of[end]));
  return [...sides].flatMap(([line, all]) => (all.size === 1 ? [halfPlane(line, [...all][0])] : []));
}

function halfPlane(line: Line, side: number): Float64Array {
  const [ex, ey] = unit(line);
  const corner = (along: number, across: number) => [
    line.x0 + along * ex - across * side * ey,
    line.y0 + along * ey + across * side * ex,
  ];
  // Counter-clockwise on either side.
  return Float64Array.from(
    [corner(-side * FAR, 0), corner(side * FAR, 0), corner(side * FAR, FAR), corner(-side * FAR, FAR)].flat(),
  );
}

/** A ring without corners on a straight way, and with its corners on the creases that they lie at. */
function drawnRing(assembly: Assembly, k: number, ring: Ring): Float64Array {
  const n = ring.length;
  const out = Float64Array.from(
    ring.filter((p, i) => offWay(ring[(i + n - 1) % n], p, ring[(i + 1) % n]) > STRAIGHT).flat(),
  );
  for (const joint of assembly.joints)
    if (joint.kind === 'crease')
      for (const end of [0, 1] as const) if (joint.between[end] === k) moveOntoLine(out, joint.lines[end]);
  return out;
}

function offWay([ax, ay]: Point, [x, y]: Point, [bx, by]: Point): number {
  return Math.abs((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / (Math.hypot(bx - ax, by - ay) || 1);
}
