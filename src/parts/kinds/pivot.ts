import * as z from 'zod';
import { outsideOf } from '../../geometry/ring-distance.js';
import type { Assembly } from '../../motion/assembly.js';
import { CannotBuild } from '../../motion/cannot-build.js';
import type { Flat } from '../attach.js';
import { length, name, size, word } from '../fields.js';
import { growAround } from '../grow.js';
import { pointInOpen } from '../open-place.js';
import { partKind } from '../part.js';
import { pointOn } from '../spots.js';

/** A hole that is nearer to an edge than it may be by less than this is so by rounding, mm. */
const ROUNDED = 1e-6;

/** Two flat parts joined by a hub: a paper rivet, whose waist stands in a hole and whose shoulders hold it there. */
export const pivot = partKind({
  kind: 'pivot',
  fields: z.strictObject({
    /** The two panels; at least one is a link. */
    between: z.tuple([name(), name()]),
    /** Where the hub sits on the first of them. */
    at: pointOn('between.0'),
    /** Where it sits on the second; where that is in the open figure, if not given. */
    meets: pointOn('between.1').optional(),
    /** Diameters of hole, waist and shoulders, mm. */
    hole: size().prefault(4),
    waist: size().prefault(3.6),
    shoulder: size().prefault(9),
    /** Least card between the hole and an edge, mm. */
    margin: length().prefault(1.5),
    /** Which way a limb bends here that is drawn straight: to which side, seen from its first part on its face. */
    bends: word('left', 'right').optional(),
  }),
  build(partName, f, assembly) {
    const [a, b] = f.between.map((panel, i) => assembly.panelNamed(panel, `between.${i}`));
    const { hole, waist, shoulder } = f;
    if (waist >= hole)
      throw new CannotBuild(
        `a waist of ${waist.toFixed(2)} mm does not turn in a hole of ${hole.toFixed(2)} mm`,
        'waist',
      );
    if (shoulder <= hole)
      throw new CannotBuild(
        `shoulders of ${shoulder.toFixed(2)} mm slip through a hole of ${hole.toFixed(2)} mm`,
        'shoulder',
      );
    if (!assembly.chains.holds(a, b))
      throw new CannotBuild(
        'neither of its two panels is a link: both are placed already, and nothing could turn',
        'between',
        true,
      );
    const pointA: Flat = [f.at[0], assembly.panels[a].up * f.at[1]];
    const pointB: Flat =
      f.meets === undefined
        ? pointInOpen(assembly, a, pointA, b)
        : [f.meets[0], assembly.panels[b].up * f.meets[1]];
    const margin = assembly.handCut ? 0 : f.margin;
    for (const [panel, place] of [
      [a, pointA],
      [b, pointB],
    ] as const) {
      growAround(assembly, panel, circleAround(place, Math.max(shoulder / 2, hole / 2 + f.margin)), 'round');
      mustHoldHole(assembly, panel, place, hole / 2 + margin);
    }
    const play = hole - waist;
    assembly.addJoint({
      kind: 'pivot',
      part: partName,
      between: [a, b],
      points: [[...pointA], [...pointB]],
      play,
      hub: { hole, waist, shoulder },
      closesLoop: true,
    });
    assembly.chains.addJoint(
      { kind: 'pivot', a, b, pointA, pointB, play },
      partName,
      assembly.steps.length,
      f.bends === undefined ? null : f.bends === 'left' ? 1 : -1,
    );
  },
  byHand: {
    // A hub is made to turn in its hole, so that the play is as meant.
    exact: ['hole', 'waist', 'shoulder', 'margin'],
    drawn(f, assembly) {
      if (f.meets !== undefined) return { fields: f };
      const [a, b] = f.between.map((panel, i) => assembly.panelNamed(panel, `between.${i}`));
      const [x, y] = pointInOpen(assembly, a, [f.at[0], assembly.panels[a].up * f.at[1]], b);
      return { fields: { ...f, meets: [x, assembly.panels[b].up * y] } };
    },
  },
});

const CHORDS = 16;

function circleAround([x, y]: Flat, radius: number): number[] {
  return Array.from({ length: CHORDS }, (_, i) => (2 * Math.PI * i) / CHORDS).flatMap((angle) => [
    x + radius * Math.cos(angle),
    y + radius * Math.sin(angle),
  ]);
}

function mustHoldHole(assembly: Assembly, panel: number, place: Flat, room: number): void {
  const { name, outline, holes } = assembly.panels[panel];
  const toEdge = Math.min(-outsideOf(outline, place), ...holes.map((hole) => outsideOf(hole, place)));
  if (toEdge < room - ROUNDED)
    throw new CannotBuild(
      toEdge <= 0
        ? `its hole lies off the card of '${name}'`
        : `its middle lies ${toEdge.toFixed(2)} mm from an edge of '${name}'; its hole and margin need ${room.toFixed(2)} mm`,
      'at',
    );
}
