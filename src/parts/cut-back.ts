import { cutToConvex } from '../geometry/convex-cut.js';
import { isConvex } from '../geometry/hull.js';
import { moveOntoLine } from '../geometry/onto-line.js';
import { ringOf, shapeOf } from '../geometry/plane.js';
import { counterClockwise, signedArea } from '../geometry/polygon.js';
import { overlapOf } from '../geometry/region.js';
import { outsideOf } from '../geometry/ring-distance.js';
import { type Assembly, isPage, LEFT_PAGE, type Panel } from '../motion/assembly.js';
import { FROM_CREASE } from './tab.js';

/** A corner farther off the card than this, mm, hangs over. */
const OFF = 1e-6;

/**
 * Cuts every glue tab back to the card that it is glued to: not over its edges, the gutter or a hole. It is told nowhere
 * else: a maker does so without a thought. A tab of which nothing would be left, or that would get a window, stays as it
 * is; whether what is left holds, the limits say.
 */
export function cutBackTabs(assembly: Assembly): void {
  const { panels, joints } = assembly;
  for (const joint of joints) {
    if (joint.kind !== 'glue') continue;
    const [receiver, tab] = joint.between.map((k) => panels[k]);
    if (tab.role !== 'tab' || liesWithin(tab.outline, receiver)) continue;
    const left = whatLiesOn(tab.outline, awayFromGutter(joint.between[0], receiver, tab.outline));
    if (left === null) continue;
    tab.outline = left;
    for (const other of joints)
      if (other.kind === 'crease' && other.between[0] === joint.between[1])
        moveOntoLine(tab.outline, other.lines[0]);
  }
}

/** A page less a strip along the gutter: as wide as a tab reaches over it, up to a margin, so that nothing jumps. */
function awayFromGutter(k: number, page: Panel, tab: Float64Array): Pick<Panel, 'outline' | 'holes'> {
  if (!isPage(k)) return page;
  const side = k === LEFT_PAGE ? -1 : 1;
  let over = 0;
  for (let i = 0; i < tab.length; i += 2) over = Math.max(over, -side * tab[i]);
  const strip = Math.min(FROM_CREASE, over);
  return {
    holes: page.holes,
    outline: page.outline.map((v, i) => (i % 2 === 0 && v === 0 ? side * strip : v)),
  };
}

/** Whether a ring lies on card for certain: quick, for most do. */
const liesWithin = (ring: Float64Array, { outline, holes }: Panel): boolean =>
  holes.length === 0 && isConvex(outline) && !someCorner(ring, (x, y) => outsideOf(outline, [x, y]) > OFF);

function someCorner(ring: Float64Array, is: (x: number, y: number) => boolean): boolean {
  for (let i = 0; i < ring.length; i += 2) if (is(ring[i], ring[i + 1])) return true;
  return false;
}

function whatLiesOn(
  ring: Float64Array,
  { outline, holes }: Pick<Panel, 'outline' | 'holes'>,
): Float64Array | null {
  if (holes.length === 0 && isConvex(outline)) {
    const left = cutToConvex(ring, outline);
    return left.length < 6 || signedArea(left) < OFF ? null : left;
  }
  const most = overlapOf({ outline: ringOf(ring), holes: [] }, shapeOf({ outline, holes }))
    .map((shape) => ({ shape, outline: Float64Array.from(shape.outline.flat()) }))
    .sort((a, b) => signedArea(b.outline) - signedArea(a.outline))[0];
  if (most === undefined || most.shape.holes.length > 0) return null;
  // Where nothing is lost, it stays as it was to the last bit.
  return signedArea(ring) - signedArea(most.outline) < 1e-3 ? null : counterClockwise(most.outline);
}
