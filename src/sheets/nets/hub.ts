import { circle, inside, type Point, type Ring, running, type Shape, STILL } from '../../geometry/plane.js';
import type { Assembly, Joint } from '../../motion/assembly.js';
import type { KeepOut } from './cut-back.js';
import type { Sense } from './fold-sense.js';
import type { Area, Fold, Net } from './net.js';

/** A paper rivet for one pivot. */
export interface Hub {
  readonly panels: readonly [number, number];
  readonly points: readonly [Point, Point];
  /** How wide its shoulders reach, mm. */
  readonly shoulder: number;
  readonly net: Net;
}

/** No glue this near to a hub's shoulders, mm. */
const CLEAR = 1;

/** Finds the pivots, cuts a hole in both parts of each (in `cards`) where none is drawn, and makes a hub for each. */
export function hubsOf(assembly: Assembly, cards: Shape[]): Hub[] {
  const pivots = assembly.joints.filter(
    (joint): joint is Extract<Joint, { kind: 'pivot' }> => joint.kind === 'pivot',
  );
  return pivots.map(({ between, points, hub: { hole, waist, shoulder } }) => {
    between.forEach((panel, i) => {
      if (cards[panel].holes.some((drawn) => inside(drawn, points[i]))) return;
      const ring = running(circle(points[i], hole / 2, 36), -1);
      cards[panel] = { ...cards[panel], holes: [...cards[panel].holes, ring] };
    });
    const names = between.map((panel) => `'${assembly.panels[panel].name}'`).join(' and ');
    const through = between.reduce((sum, panel) => sum + assembly.panels[panel].thickness, 0) + 0.3;
    const net = hubNet(`hub of ${names}`, assembly.panels[between[0]].piece, waist, shoulder, through);
    return { panels: between, points, shoulder, net };
  });
}

/** Where nothing may be glued: around every hub, on both of its parts. */
export function keepOutsOf(hubs: readonly Hub[]): KeepOut[] {
  return hubs.flatMap(({ panels, points, shoulder }) =>
    panels.map((panel, i) => ({ panel, at: points[i], radius: shoulder / 2 + CLEAR })),
  );
}

/**
 * A hub laid flat: a base as long as the shoulders, and on each side of it a neck that ends in an arrowhead. The necks
 * stand up side by side through the hole; the arrowheads, folded softly along both edges to pass, open out above it.
 * The necks and the base between them are a square in section; its diagonal is the waist.
 */
function hubNet(name: string, piece: string, waist: number, shoulder: number, through: number): Net {
  const side = waist / Math.SQRT2;
  const [h, s] = [side / 2, shoulder / 2];
  const areas: Area[] = [];
  const folds: Fold[] = [];
  const add = (what: string, outline: Ring) =>
    areas.push({
      name: what,
      kind: 'panel',
      panel: -1,
      shape: { outline: running(outline, 1), holes: [] },
      place: STILL,
    }) - 1;
  const fold = (a: number, b: number, from: Point, to: Point, sense: Sense) =>
    folds.push({ between: [a, b], line: [from, to], sense, joint: -1 });
  const base = add('base', [
    [-h, -s],
    [h, -s],
    [h, -h],
    [h, h],
    [h, s],
    [-h, s],
    [-h, h],
    [-h, -h],
  ]);
  for (const way of [1, -1]) {
    const x = (along: number) => way * (h + along);
    const tip = through + shoulder / 2;
    const bulge = through + shoulder / 5;
    const neck = add('neck', [
      [x(0), -h],
      [x(through), -h],
      [x(through), h],
      [x(0), h],
    ]);
    const head = add('head', [
      [x(through), -h],
      [x(tip), -h],
      [x(tip), h],
      [x(through), h],
    ]);
    fold(base, neck, [x(0), -h], [x(0), h], 'valley');
    fold(neck, head, [x(through), -h], [x(through), h], 'mountain');
    for (const y of [1, -1]) {
      const flank = add('flank', [
        [x(through), y * h],
        [x(tip), y * h],
        [x(bulge), y * s],
      ]);
      fold(head, flank, [x(through), y * h], [x(tip), y * h], 'both ways');
    }
  }
  return { name, piece, areas, folds, slits: [] };
}
