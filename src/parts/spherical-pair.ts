import { CRUMPLED } from '../card/bow.js';
import type { Line } from '../geometry/line.js';
import type { Assembly } from '../motion/assembly.js';
import { CannotBuild } from '../motion/cannot-build.js';
import { LOCKS_BEYOND } from '../motion/forced.js';
import { counterStep, type SphericalFold, sphericalStep, sphericalWay } from '../motion/spherical.js';
import { addFootCreases, besideOf, fromCrease, lineBetween, moved, type Stance } from './attach.js';
import { type OutlineFields, shapeOf } from './outline.js';
import { addTab, type TabFields } from './tab.js';

export const RADIANS = Math.PI / 180;

/** Two panels that meet at a ridge and stand on two lines through one vertex of a crease. */
export interface SphericalPair {
  readonly name: string;
  readonly piece: string;
  readonly stance: Stance;
  /** Angles of the two lines from the crease, and sectors of the two panels, radians. */
  readonly glue: readonly [number, number];
  readonly sectors: readonly [number, number];
  readonly points: 'in' | 'out';
  /** Lengths of card along the two lines and along the ridge, measured from the vertex, and where card begins. */
  readonly feet: readonly [number, number];
  readonly ridge: number;
  readonly start: number;
  readonly outlines?: { readonly left?: OutlineFields; readonly right?: OutlineFields };
  /** Glued on by tabs, or cut from the parents' own sheet (then it moves by reflection). */
  readonly joined: { readonly tab: TabFields } | 'same sheet';
}

/**
 * Adds the panels `<name> left` and `<name> right`, the crease `<name> ridge` and the creases at the feet.
 * 'in' points into the fold's angle: away from e across the plane of both lines, so det(L, R, c) has the opposite
 * sign to det(L, R, e), which is that of (n₁ × n₂)·e.
 */
export function addSphericalPair(assembly: Assembly, pair: SphericalPair): void {
  const { name, stance, sectors, start, ridge } = pair;
  const branch = (pair.points === 'in' ? -stance.sense : stance.sense) as 1 | -1;
  const receivers = [stance.footings[0].panel, stance.footings[1].panel] as const;
  const directions = [
    fromCrease(stance.footings[0], pair.glue[0]),
    fromCrease(stance.footings[1], pair.glue[1]),
  ] as const;
  const ups = [1, -1] as const;
  const words = ['left', 'right'] as const;

  const panels = words.map((word, i) => {
    const p = sectors[i];
    const foot = pair.feet[i];
    const standard: [number, number][] = [
      [foot, 0],
      [ridge * Math.cos(p), ridge * Math.sin(p)],
    ];
    if (start > 0) standard.push([start * Math.cos(p), start * Math.sin(p)], [start, 0]);
    else standard.push([0, 0]);
    return assembly.addPanel({
      name: `${name} ${word}`,
      part: name,
      piece: pair.piece,
      ...shapeOf(pair.outlines?.[word], standard, ups[i]),
    });
  }) as [number, number];

  const common = {
    part: name,
    on: receivers,
    panels,
    vertex: [stance.footings[0].at, stance.footings[1].at] as const,
    direction: directions,
  };
  if (pair.joined === 'same sheet')
    assembly.addStep(counterStep({ ...common, crease: stance.footings[0].along, diagonal: pair.glue[0] }));
  else {
    const fold: SphericalFold = {
      ...common,
      glue: pair.glue,
      sectors,
      branch,
      points: pair.points,
      flatSide: stance.flatSide,
      reach: ridge,
      misfit: assembly.addMisfit({
        part: name,
        of: 'forced',
        joint: 'ridge',
        panels: panels.map((panel) => assembly.panels[panel].name),
        locksBeyond: 2 * Math.sin(LOCKS_BEYOND.radians / 2) * ridge,
      }),
    };
    assembly.addStep(sphericalStep(fold));
    assembly.folds.push({
      part: name,
      piece: pair.piece,
      on: receivers,
      panels,
      feet: pair.glue,
      sides: sectors,
      way: sphericalWay(fold),
      vertex: true,
      marks: directions,
      along: stance.footings[0].along,
      length: (pair.feet[0] + pair.feet[1] + 2 * ridge) / 4,
      inner: Math.max(start, CRUMPLED),
    });
  }

  words.forEach((word, i) => {
    const footing = stance.footings[i];
    const receiverLine = lineBetween(
      moved(footing.at, directions[i], start),
      moved(footing.at, directions[i], pair.feet[i]),
    );
    const panelLine: Line = { x0: start, y0: 0, x1: pair.feet[i], y1: 0 };
    // The side of the line on which the parent crease runs: e, less what of it lies along the line.
    const inner = squareTo(footing.along, directions[i]);
    const foot = {
      receiver: receivers[i],
      panel: panels[i],
      line: receiverLine,
      panelLine,
      inner,
    };
    if (pair.joined === 'same sheet')
      assembly.addJoint({
        kind: 'crease',
        between: [receivers[i], panels[i]],
        lines: [receiverLine, panelLine],
        closesLoop: false,
        of: 'fold',
      });
    else
      addTab(
        assembly,
        { ...foot, name: `${name} ${word} tab`, part: name, piece: pair.piece, ...besideOf(stance, footing) },
        pair.joined.tab,
      );
    const flatSide = i === 0 ? stance.flatSide : stance.otherFlatSide;
    addFootCreases(assembly, {
      name: `${name} ${word} foot`,
      receiver: foot.receiver,
      panel: foot.panel,
      lines: [receiverLine, panelLine],
      inner,
      faceSide: (pair.points === 'in' ? flatSide : -flatSide) as 1 | -1,
      panelSide: ups[i],
    });
  });

  const ridgeLines = ups.map((up, i) => ({
    x0: start * Math.cos(sectors[i]),
    y0: up * start * Math.sin(sectors[i]),
    x1: ridge * Math.cos(sectors[i]),
    y1: up * ridge * Math.sin(sectors[i]),
  })) as [Line, Line];
  assembly.addJoint({
    kind: 'crease',
    between: panels,
    lines: ridgeLines,
    closesLoop: true,
    of: 'fold',
  });
  // n₁ ∝ L − (L·c) c and n₂ ∝ R − (R·c) c, so (n₁ × n₂)·c has the sign of det(L, R, c): the branch.
  assembly.addCrease({
    name: `${name} ridge`,
    between: panels,
    lines: ridgeLines,
    sides: [-1, 1],
    sense: branch,
  });
}

/** The unit direction square to `line` nearest to `direction`. */
function squareTo(direction: readonly [number, number], line: readonly [number, number]): [number, number] {
  const along = direction[0] * line[0] + direction[1] * line[1];
  const x = direction[0] - along * line[0];
  const y = direction[1] - along * line[1];
  const length = Math.hypot(x, y);
  if (length < 1e-9)
    throw new CannotBuild('a glue line along the crease itself leaves no room for a panel', 'glue');
  return [x / length, y / length];
}
