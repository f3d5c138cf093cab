import type { Assembly, Joint } from '../motion/assembly.js';
import type { KeepOut } from './cut-back.js';
import type { Sense } from './fold-sense.js';
import type { Area, Fold, Net } from './net.js';
import {
  circle,
  distanceTo,
  edgesOf,
  inside,
  type Point,
  type Ring,
  running,
  type Shape,
  STILL,
} from './plane.js';

/** A paper rivet for one pivot. */
export interface Hub {
  readonly panels: readonly [number, number];
  readonly points: readonly [Point, Point];
  /** Diameter of the hole, of what turns in it, and how wide its shoulders reach, mm. */
  readonly hole: number;
  readonly waist: number;
  readonly shoulder: number;
  readonly net: Net;
}

/** Diameter of a hole where the figure gives none, mm: what an office punch makes, less a little. */
const PLAIN_HOLE = 5;
/** How far the shoulders reach beyond the hole on either side, mm. (Common practice, no source.) */
const SHOULDER = 3;
/** No glue this near to a hub's shoulders, mm. */
const CLEAR = 1;

/**
 * Finds the pivots, sees that both parts of each have a hole (in `cards`), and makes a hub for each.
 */
export function hubsOf(assembly: Assembly, cards: Shape[], notes: string[]): Hub[] {
  const pivots = assembly.joints.filter(
    (joint): joint is Extract<Joint, { kind: 'pivot' }> => joint.kind === 'pivot',
  );
  return pivots.map(({ between, points, play }) => {
    const drawn = between.map((panel, i) => holeAt(cards[panel], points[i]));
    const hole = Math.min(...drawn.filter((d) => d !== null), Number.POSITIVE_INFINITY);
    const wide = Number.isFinite(hole) ? hole : PLAIN_HOLE;
    between.forEach((panel, i) => {
      if (drawn[i] !== null) return;
      const ring = running(circle(points[i], wide / 2, 36), -1);
      cards[panel] = { ...cards[panel], holes: [...cards[panel].holes, ring] };
    });
    const names = between.map((panel) => `'${assembly.panels[panel].name}'`).join(' and ');
    const waist = wide - play;
    if (waist < 1)
      notes.push(`The hub of ${names} has a waist of ${waist.toFixed(1)} mm, too thin to cut from card.`);
    const through = between.reduce((sum, panel) => sum + assembly.panels[panel].thickness, 0) + 0.3;
    const shoulder = wide + 2 * SHOULDER;
    const net = hubNet(
      `hub of ${names}`,
      assembly.panels[between[0]].piece,
      Math.max(waist, 1),
      shoulder,
      through,
    );
    return { panels: between, points, hole: wide, waist, shoulder, net };
  });
}

/** Where nothing may be glued: around every hub, on both of its parts. */
export function keepOutsOf(hubs: readonly Hub[]): KeepOut[] {
  return hubs.flatMap(({ panels, points, shoulder }) =>
    panels.map((panel, i) => ({ panel, at: points[i], radius: shoulder / 2 + CLEAR })),
  );
}

/** Width of the hole around a point, or null where there is none. */
function holeAt(card: Shape, at: Point): number | null {
  const ring = card.holes.find((hole) => inside(hole, at));
  if (ring === undefined) return null;
  return 2 * Math.min(...edgesOf(ring).map((edge) => distanceTo(edge, at)));
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
