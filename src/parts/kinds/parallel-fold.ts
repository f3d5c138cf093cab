import * as z from 'zod';
import type { Line } from '../../geometry/line.js';
import type { Assembly } from '../../motion/assembly.js';
import { CannotBuild } from '../../motion/cannot-build.js';
import { LOCKS_BEYOND, shutWay } from '../../motion/forced.js';
import { planarStep } from '../../motion/planar.js';
import { parallelStep } from '../../motion/pose.js';
import { type Flat, lineBetween, moved, mustLieOnCrease, type Stance, takeStance } from '../attach.js';
import type { Stretch } from '../by-hand.js';
import { secondFootClosedOn } from '../close-on.js';
import { gluedField, name, piece, type Resolved, size, word } from '../fields.js';
import { addFoot, type Foot } from '../foot.js';
import { outlineOfEach, shapeOf } from '../outline.js';
import { type Completed, partKind } from '../part.js';
import { bothOf, pairOf, type Shut, shut } from '../shut.js';
import { placeAlong } from '../spots.js';
import { addTab, tabFields } from '../tab.js';

const fields = z.strictObject({
  shape: word('tent', 'box', 'layer').prefault('tent'),
  /** The crease it bridges. */
  on: name().prefault('gutter'),
  /** Where it begins, mm along the crease from the crease's start, and how long it is. */
  at: placeAlong('on', 'length', 0),
  length: size(),
  /** Distances of its feet from the crease, mm. */
  glue: pairOf(size),
  /** Widths of its two panels, mm. A box needs none: they follow from the feet. */
  widths: pairOf(size).optional(),
  /** Widths of the floating panels, mm: only for a layer. */
  layers: pairOf(size).optional(),
  /** Into the fold's angle, away from the crease, or out of it. */
  points: word('in', 'out').prefault('in'),
  outlines: outlineOfEach,
  tab: tabFields,
  glued: gluedField(),
  piece: piece().optional(),
});

/**
 * Panels whose creases all run parallel to the crease they bridge.
 * - tent: two panels from foot to foot, meeting at a ridge.
 * - box: a tent whose panels are as wide as the opposite feet are far, so that each stays parallel to the other page.
 * - layer: a tent that carries two floating panels, each with a wall at its outer edge. The wall is parallel to the
 *   tent's panel and as wide, so that page, tent, floating panel and wall are a parallelogram, and the floating panel
 *   stays parallel to its page.
 */
export const parallelFold = partKind({
  kind: 'parallel-fold',
  fields,
  complete,
  build(partName, given, assembly) {
    const f = { ...given, ...sizesOf(given) };
    const crease = assembly.creaseNamed(f.on, 'on');
    mustLieOnCrease(assembly, crease, f.at, 'at', 'its beginning');
    mustLieOnCrease(assembly, crease, f.at + f.length, 'length', 'its end');
    const tent = addTent(assembly, partName, f, f.sides, takeStance(crease, f.at, 'end'));
    if (f.layers === undefined) addRidge(assembly, tent, tent.panels, tent.widths, -1);
    else addLayers(assembly, tent, f.layers);
  },
  byHand: {
    // The panels of a box are cut to the feet as they are drawn, and glued where they come to be glued.
    drawn: (f) => ({
      fields: f.shape === 'box' ? { ...f, shape: 'tent', widths: sizesOf(f).sides } : f,
    }),
    closing: {
      field: ({ glued }) => (glued === 'by measure' ? null : 'glue.1'),
      settle(drawn, cut) {
        const of = (each: typeof cut) => {
          const { glue, sides } = sizesOf(each);
          return { feet: glue, sides };
        };
        const { feet, sides } = of(drawn);
        const way = shutWay(feet, sides, drawn.points, LOCKS_BEYOND.mm);
        const foot = secondFootClosedOn({ feet, sides }, of(cut), way);
        return { ...cut, glue: [of(cut).feet[0], Math.max(0.01, foot)] as [number, number] };
      },
    },
    edges: (partName, f) =>
      WORDS.map((side, i) => ({
        field: `outlines.${side}`,
        panel: `${partName} ${side}`,
        creases: [0, sizesOf(f).sides[i]].map(
          (up): Stretch => [
            [0, up],
            [f.length, up],
          ],
        ),
      })),
  },
});

type Written = Resolved<z.output<typeof fields>>;
type Sizes = Pick<Written, 'shape' | 'glue' | 'widths' | 'layers' | 'points'>;
type Pair = readonly [number, number];

/** Its fields, with all that is left out of its sizes. */
type ParallelFields = Omit<Written, 'glue' | 'layers'> & {
  readonly glue: Pair;
  readonly layers: Pair | undefined;
};

/** Feet and sides, or what is wrong with the fields that should give them. */
function sizesOf({
  shape,
  glue,
  widths,
  layers,
  points,
}: Sizes): Shut & { readonly layers: Pair | undefined } {
  if ((shape === 'layer') !== (layers !== undefined))
    throw new CannotBuild(
      shape === 'layer'
        ? 'a layer needs the widths of its floating panels'
        : `a ${shape} has no floating panels`,
      'layers',
      true,
    );
  if (shape !== 'box')
    return {
      ...shut(glue, widths, points, 'widths'),
      layers: layers === undefined ? undefined : bothOf(layers),
    };
  if (widths !== undefined)
    throw new CannotBuild('the widths of a box follow from its feet; leave them out', 'widths', true);
  const feet = bothOf(glue);
  return { glue: feet, sides: [feet[1], feet[0]], filled: [], layers: undefined };
}

function complete(f: Sizes): Completed {
  const { glue, sides, layers, filled } = sizesOf(f);
  const widths = f.shape === 'box' ? undefined : sides;
  return { fields: { ...f, glue, widths, layers }, filled };
}

interface Tent {
  readonly name: string;
  readonly fields: ParallelFields;
  readonly stance: Stance;
  readonly panels: readonly [number, number];
  readonly widths: readonly [number, number];
  readonly piece: string;
}

const WORDS = ['left', 'right'] as const;
const UPS = [1, -1] as const;

function addTent(
  assembly: Assembly,
  partName: string,
  f: ParallelFields,
  widths: readonly [number, number],
  stance: Stance,
): Tent {
  const { footings } = stance;
  const piece = f.piece ?? partName;
  const panels = WORDS.map((word, i) =>
    assembly.addPanel({
      name: `${partName} ${word}`,
      part: partName,
      piece,
      ...shapeOf(f.outlines?.[word], rectangle(f.length, widths[i]), UPS[i]),
    }),
  ) as [number, number];
  const feet = footings.map((footing, i) => moved(footing.at, footing.inward, f.glue[i])) as [
    [number, number],
    [number, number],
  ];
  const on = [footings[0].panel, footings[1].panel] as const;
  const way = shutWay(f.glue, widths, f.points, LOCKS_BEYOND.mm);
  assembly.addStep(
    planarStep({
      part: partName,
      on,
      panels,
      foot: feet,
      direction: [footings[0].along, footings[1].along],
      inward: [footings[0].inward, footings[1].inward],
      distances: f.glue,
      widths,
      // With x̂ from foot to foot, x̂ × e points into the fold's angle where (n₁ × n₂)·e is positive.
      branch: (f.points === 'in' ? stance.sense : -stance.sense) as 1 | -1,
      way,
      flatSide: stance.flatSide,
      misfit: assembly.addMisfit({
        part: partName,
        of: 'forced',
        joint: 'ridge',
        panels: panels.map((panel) => assembly.panels[panel].name),
        locksBeyond: LOCKS_BEYOND.mm,
      }),
    }),
  );
  assembly.folds.push({
    part: partName,
    piece,
    on,
    panels,
    feet: f.glue,
    sides: widths,
    way,
    vertex: false,
    marks: feet,
    along: footings[0].along,
    length: f.length,
    inner: 0,
  });
  const tent = { name: partName, fields: f, stance, panels, widths, piece };
  for (const i of [0, 1] as const) addFootOf(assembly, tent, i, panels[i], feet[i], '');
  return tent;
}

/** Glues a panel that rises from a foot. */
function addFootOf(
  assembly: Assembly,
  tent: Tent,
  side: 0 | 1,
  panel: number,
  from: Flat,
  extra: string,
): void {
  const { name, fields: f, stance, piece } = tent;
  const { panel: receiver, along, inward } = stance.footings[side];
  const foot: Foot = {
    name: `${name}${extra} ${WORDS[side]}`,
    part: name,
    piece,
    stance,
    side,
    receiver,
    panel,
    lines: [lineBetween(from, moved(from, along, f.length)), { x0: 0, y0: 0, x1: f.length, y1: 0 }],
    inner: [-inward[0], -inward[1]],
    points: f.points,
  };
  addFoot(assembly, foot, { tab: f.tab });
}

/**
 * The crease in which two panels of a tent, or the floating panels on it, meet.
 * @param toParent −1 where the panels run back from the ridge towards the parents (their fold is turned against the
 * parents' own), +1 where they are parallel to the parents
 */
function addRidge(
  assembly: Assembly,
  tent: Tent,
  panels: readonly [number, number],
  heights: readonly [number, number],
  toParent: 1 | -1,
): void {
  const long = tent.fields.length;
  const lines = UPS.map((up, i) => ({ x0: 0, y0: up * heights[i], x1: long, y1: up * heights[i] })) as [
    Line,
    Line,
  ];
  assembly.addJoint({
    kind: 'crease',
    between: [panels[0], panels[1]],
    lines,
    closesLoop: true,
    of: 'fold',
  });
  const points = tent.fields.points === 'in' ? 1 : -1;
  assembly.addCrease({
    name: `${tent.name} ridge`,
    between: panels,
    lines,
    sides: toParent === 1 ? [1, -1] : [-1, 1],
    sense: (toParent === 1 ? tent.stance.sense : -points * tent.stance.sense) as 1 | -1,
  });
}

/** Adds the floating panels and their walls; the tent's panels are glued under them at the ridge. */
function addLayers(assembly: Assembly, tent: Tent, layers: readonly [number, number]): void {
  const { fields: f, stance, widths } = tent;
  const piece = `${tent.name} layer`;
  const floating = WORDS.map((word, i) =>
    assembly.addPanel({
      name: `${tent.name} layer ${word}`,
      part: tent.name,
      piece,
      outline: shapeOf(undefined, rectangle(f.length, layers[i]), UPS[i]).outline,
      up: UPS[i],
    }),
  ) as [number, number];
  const top: Line = { x0: 0, y0: 0, x1: f.length, y1: 0 };
  for (const i of [0, 1] as const) {
    const footing = stance.footings[i];
    const [ux, uy] = [footing.along, footing.inward];
    const ridge: Line = { x0: 0, y0: UPS[i] * widths[i], x1: f.length, y1: UPS[i] * widths[i] };
    // Its directions are the parent's; its place is the ridge.
    assembly.addStep(
      parallelStep(tent.name, floating[i], tent.panels[i], [0, ridge.y0], footing.panel, ux, [
        UPS[i] * uy[0],
        UPS[i] * uy[1],
      ]),
    );
    addTab(
      assembly,
      {
        name: `${tent.name} ${WORDS[i]} top tab`,
        part: tent.name,
        piece: tent.piece,
        receiver: floating[i],
        panel: tent.panels[i],
        line: top,
        panelLine: ridge,
        inner: [0, UPS[i]],
      },
      { ...f.tab, side: 'inner' },
    );

    const wall = assembly.addPanel({
      name: `${tent.name} wall ${WORDS[i]}`,
      part: tent.name,
      piece,
      outline: shapeOf(undefined, rectangle(f.length, widths[i]), UPS[i]).outline,
      up: UPS[i],
    });
    const from = moved(footing.at, footing.inward, f.glue[i] + layers[i]);
    assembly.addStep(parallelStep(tent.name, wall, footing.panel, from, tent.panels[i], [1, 0], [0, 1]));
    addFootOf(assembly, { ...tent, piece }, i, wall, from, ' wall');
    const edge: Line = { x0: 0, y0: UPS[i] * layers[i], x1: f.length, y1: UPS[i] * layers[i] };
    assembly.addJoint({
      kind: 'crease',
      between: [floating[i], wall],
      lines: [edge, ridge],
      closesLoop: true,
      of: 'fold',
    });
    // From the edge the floating panel lies towards −n of its parent, the wall towards the foot: the turn from one to
    // the other has the sense of the parents' fold on the left, and against it on the right.
    const points = f.points === 'in' ? 1 : -1;
    assembly.addCrease({
      name: `${tent.name} ${WORDS[i]} edge`,
      between: [floating[i], wall],
      lines: [edge, ridge],
      sides: [-UPS[i] as 1 | -1, -UPS[i] as 1 | -1],
      sense: (UPS[i] * points * stance.sense) as 1 | -1,
    });
  }
  addRidge(assembly, tent, floating, [0, 0], 1);
}

const rectangle = (long: number, wide: number): [number, number][] => [
  [0, 0],
  [long, 0],
  [long, wide],
  [0, wide],
];
