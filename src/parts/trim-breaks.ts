import { overlapArea } from '../geometry/coverage.js';
import { lengthWithin } from '../geometry/line-in-ring.js';
import { holds, type Polygon } from '../geometry/polygon.js';
import { outsideOf } from '../geometry/ring-distance.js';
import { visitCells } from '../geometry/trapezoids.js';
import { type Assembly, isPage, type Joint } from '../motion/assembly.js';
import { pointInOpen } from './open-place.js';

type Point = readonly [number, number];

/** Length of a crease, mm, and area of glue, mm², that a cut may touch by round-off. */
const SCRATCH = 0.05;
/** Card that must stay around a hub's shoulders, a slot and a slit, mm. (Common practice, no source.) */
const MARGIN = 1;

/**
 * What a cut would break, in words that follow on 'a trim of …'; null when it breaks nothing. A cut may not take a part
 * of a crease, card from under glue, card around a hub or at a slot's edge, and nothing of a page.
 * @param region in the plane of panel k
 */
export function whatTrimBreaks(assembly: Assembly, k: number, region: Float64Array): string | null {
  const { panels, joints } = assembly;
  if (isPage(k)) return 'cuts into the page';
  const shape = { outline: region, holes: [] };
  for (const joint of joints) {
    const end = joint.between.indexOf(k);
    if (end < 0) continue;
    const other = `'${panels[joint.between[1 - end]].name}'`;
    switch (joint.kind) {
      case 'crease':
        if (lengthWithin(joint.lines[end], region) > SCRATCH) return `cuts its crease with ${other}`;
        break;
      case 'glue': {
        // A tab may lose of itself; what it is glued to may not.
        if (end === 1 && panels[k].role === 'tab') break;
        const glued = ringInOpen(assembly, joint.between[1 - end], panels[joint.between[1 - end]].outline, k);
        if (commonArea([shape, { outline: glued, holes: [] }, panels[k]]) > SCRATCH)
          return `takes card where it is glued to ${other}`;
        break;
      }
      case 'pivot':
        if (outsideOf(region, joint.points[end]) < joint.hub.shoulder / 2 + MARGIN)
          return `cuts into the hub with ${other}`;
        break;
      case 'slide': {
        const room = joint.play + MARGIN;
        const [[x0, y0], [x1, y1]] = joint.along;
        const cut =
          end === 0
            ? outsideOf(region, joint.point) < room
            : lengthWithin({ x0, y0, x1, y1 }, region) > 0 ||
              nearness(Float64Array.of(x0, y0, x1, y1), region) < room;
        if (cut) return `cuts into the slit with ${other}`;
        break;
      }
    }
  }
  return slotNear(assembly, k, region, MARGIN);
}

/**
 * Says in the same words which slot of a panel comes nearer to a cut than `room`, mm; null when none does.
 * @param region in the plane of panel k
 */
export function slotNear(assembly: Assembly, k: number, region: Float64Array, room: number): string | null {
  const { panels } = assembly;
  for (const { hole, between } of slotsOf(assembly, k))
    if (nearness(panels[k].holes[hole], region) < room)
      return `cuts into the slot for '${panels[between[0]].name}'`;
  return null;
}

/** The slots in a panel, in order. */
export function slotsOf({ joints }: Assembly, k: number): Extract<Joint, { kind: 'slot' }>[] {
  return joints.filter((joint) => joint.kind === 'slot').filter(({ between }) => between[1] === k);
}

/** Places of a panel that must stay: creases, glue, hubs, slits, slots. */
export function heldPlaces(assembly: Assembly, k: number): Point[] {
  const { panels, joints } = assembly;
  const places: Point[] = [];
  for (const joint of joints) {
    const end = joint.between.indexOf(k);
    if (end < 0) continue;
    if (joint.kind === 'crease') {
      const { x0, y0, x1, y1 } = joint.lines[end];
      places.push([(x0 + x1) / 2, (y0 + y1) / 2]);
    } else if (joint.kind === 'glue') {
      const other = joint.between[1 - end];
      const glued = ringInOpen(assembly, other, panels[other].outline, k);
      for (const [ring, on] of [
        [panels[k].outline, { outline: glued, holes: [] }],
        [glued, panels[k]],
      ] as const)
        for (let i = 0; i < ring.length; i += 2) {
          const place = towardsMiddle(ring, i);
          if (holds(on, place[0], place[1])) places.push(place);
        }
    } else if (joint.kind === 'pivot') places.push(joint.points[end]);
    else if (joint.kind === 'slide' && end === 0) places.push(joint.point);
    else if (joint.kind === 'slot' && end === 1) {
      const [x, y] = panels[k].holes[joint.hole];
      places.push([x, y]);
    }
  }
  return places;
}

/** Area that all shapes have in common, mm². */
export function commonArea(shapes: readonly Polygon[]): number {
  let area = 0;
  visitCells(
    shapes,
    shapes.map(() => 0),
    ({ count, width, height }) => {
      if (count === shapes.length) area += width * height;
    },
  );
  return area;
}

/** Corner i of a ring, moved a hundredth of the way to the middle of its corners. */
function towardsMiddle(ring: Float64Array, i: number): Point {
  let [mx, my] = [0, 0];
  for (let j = 0; j < ring.length; j += 2) {
    mx += (2 * ring[j]) / ring.length;
    my += (2 * ring[j + 1]) / ring.length;
  }
  return [ring[i] + 0.01 * (mx - ring[i]), ring[i + 1] + 0.01 * (my - ring[i + 1])];
}

/** A ring of one panel as it lies in the plane of another of its body. */
function ringInOpen(assembly: Assembly, from: number, ring: Float64Array, to: number): Float64Array {
  const placed = new Float64Array(ring.length);
  for (let i = 0; i < ring.length; i += 2)
    [placed[i], placed[i + 1]] = pointInOpen(assembly, from, [ring[i], ring[i + 1]], to);
  return placed;
}

/** How near two rings come to each other, mm; below 0 when one reaches into the other. */
function nearness(a: Float64Array, b: Float64Array): number {
  let least = Infinity;
  for (const [ring, other] of [
    [a, b],
    [b, a],
  ])
    for (let i = 0; i < ring.length; i += 2)
      least = Math.min(least, outsideOf(other, [ring[i], ring[i + 1]]));
  return overlapArea({ outline: a, holes: [] }, { outline: b, holes: [] }) > 0 ? Math.min(0, least) : least;
}
