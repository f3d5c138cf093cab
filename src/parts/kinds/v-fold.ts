import * as z from 'zod';
import { CannotBuild } from '../../motion/cannot-build.js';
import { LOCKS_BEYOND, shutWay } from '../../motion/forced.js';
import { mustLieOnCrease, takeStance } from '../attach.js';
import type { Stretch } from '../by-hand.js';
import { secondFootClosedOn } from '../close-on.js';
import { angle, gluedField, length, name, piece, type Resolved, size, word } from '../fields.js';
import { outlineOfEach } from '../outline.js';
import { type Completed, partKind } from '../part.js';
import { bothOf, pairOf, type Shut, shut } from '../shut.js';
import { addSphericalPair, RADIANS } from '../spherical-pair.js';
import { glueAngle, placeAlong } from '../spots.js';
import { tabFields } from '../tab.js';

const fields = z.strictObject({
  /** The crease it stands over. */
  on: name().prefault('gutter'),
  /** Its apex: mm along the crease from the crease's start. May lie beyond the crease's ends if `start` cuts card away. */
  at: placeAlong('on'),
  /** Which way along the crease the glue angles are measured. */
  toward: word('end', 'start').prefault('end'),
  /** Angles of the two glue lines from the crease, degrees, or the lines. */
  glue: pairOf(
    glueAngle,
    'two angles, [left, right], or one; each may be the line itself, { from: place, to: place }',
  ),
  /** Angles at the apex between glue line and ridge, degrees. */
  panels: pairOf(() => angle(0.5, 179.5)).optional(),
  /** Into the fold's angle or out of it. */
  points: word('in', 'out').prefault('in'),
  /** Card along each glue line, mm from the apex. */
  feet: pairOf(size),
  /** Card along the ridge, mm from the apex. */
  ridge: size(),
  /** Card begins this far from the apex, mm. */
  start: length().prefault(0),
  outlines: outlineOfEach,
  tab: tabFields,
  glued: gluedField(),
  /** The piece it is cut with; its own name if not given. */
  piece: piece().optional(),
});

type Sizes = Pick<Resolved<z.output<typeof fields>>, 'glue' | 'panels' | 'points' | 'feet'>;

function sizesOf({ glue, panels, points, feet }: Sizes): Shut & { readonly feet: readonly [number, number] } {
  return { ...shut(glue, panels, points, 'panels'), feet: bothOf(feet) };
}

function complete(f: Sizes): Completed {
  const { glue, sides: panels, feet, filled } = sizesOf(f);
  return { fields: { ...f, glue, panels, feet }, filled };
}

/** Two panels meeting at a ridge, standing over a crease at angles to it. */
export const vFold = partKind({
  kind: 'v-fold',
  fields,
  complete,
  build(partName, f, assembly) {
    const { glue, sides, feet } = sizesOf(f);
    const crease = assembly.creaseNamed(f.on, 'on');
    if (f.start === 0) mustLieOnCrease(assembly, crease, f.at, 'at', 'its apex');
    for (const [i, foot] of feet.entries())
      if (foot <= f.start)
        throw new CannotBuild(`its foot ends at ${foot.toFixed(2)} mm, where its card begins`, `feet.${i}`);
    if (f.ridge <= f.start)
      throw new CannotBuild(`its ridge ends at ${f.ridge.toFixed(2)} mm, where its card begins`, 'ridge');
    addSphericalPair(assembly, {
      name: partName,
      piece: f.piece ?? partName,
      stance: takeStance(crease, f.at, f.toward),
      glue: [glue[0] * RADIANS, glue[1] * RADIANS],
      sectors: [sides[0] * RADIANS, sides[1] * RADIANS],
      points: f.points,
      feet,
      ridge: f.ridge,
      start: f.start,
      outlines: f.outlines,
      joined: { tab: f.tab },
    });
  },
  byHand: {
    closing: {
      field: ({ glued }) => (glued === 'by measure' ? null : 'glue.1'),
      settle(drawn, cut) {
        const of = (f: typeof cut) => {
          const { glue, sides } = sizesOf(f);
          return { feet: glue, sides };
        };
        const { feet, sides } = of(drawn);
        const way = shutWay(feet, sides, drawn.points, LOCKS_BEYOND.radians / RADIANS);
        const foot = secondFootClosedOn({ feet, sides }, of(cut), way);
        return { ...cut, glue: [of(cut).feet[0], Math.min(179.5, Math.max(0.5, foot))] as [number, number] };
      },
    },
    edges: (partName, f) => {
      const { start, ridge } = f;
      const { feet, sides: panels } = sizesOf(f);
      return (['left', 'right'] as const).map((side, i) => {
        const [c, s] = [Math.cos(panels[i] * RADIANS), Math.sin(panels[i] * RADIANS)];
        const foot: Stretch = [
          [start, 0],
          [feet[i], 0],
        ];
        const upRidge: Stretch = [
          [start * c, start * s],
          [ridge * c, ridge * s],
        ];
        return { field: `outlines.${side}`, panel: `${partName} ${side}`, creases: [foot, upRidge] };
      });
    },
  },
});
