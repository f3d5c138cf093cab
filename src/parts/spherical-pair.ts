import { CRUMPLED } from '../card/bow.js';
import type { Line } from '../geometry/line.js';
import type { Assembly } from '../motion/assembly.js';
import { CannotBuild } from '../motion/cannot-build.js';
import { LOCKS_BEYOND, shutWay } from '../motion/forced.js';
import { counterStep, sphericalStep } from '../motion/spherical.js';
import { type Flat, fromCrease, lineBetween, moved, type Stance } from './attach.js';
import { addFoot, type Foot } from './foot.js';
import { type OutlineFields, shapeOf } from './outline.js';
import type { TabFields } from './tab.js';

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

const UPS = [1, -1] as const;
const WORDS = ['left', 'right'] as const;

/** A pair as it is being added. */
interface Placed extends SphericalPair {
  readonly panels: readonly [number, number];
  /** The panels on which it stands, and the unit directions of its two lines in their planes. */
  readonly on: readonly [number, number];
  readonly directions: readonly [Flat, Flat];
  /**
   * The sign of det(L, R, c). 'in' points into the fold's angle: away from e across the plane of both lines, so that it has the
   * opposite sign to det(L, R, e), which is that of (n₁ × n₂)·e.
   */
  readonly branch: 1 | -1;
}

/** Adds the panels `<name> left` and `<name> right`, the crease `<name> ridge` and the creases at the feet. */
export function addSphericalPair(assembly: Assembly, pair: SphericalPair): void {
  const { stance, glue } = pair;
  const [one, other] = stance.footings;
  const placed: Placed = {
    ...pair,
    panels: [addPanel(assembly, pair, 0), addPanel(assembly, pair, 1)],
    on: [one.panel, other.panel],
    directions: [fromCrease(one, glue[0]), fromCrease(other, glue[1])],
    branch: (pair.points === 'in' ? -stance.sense : stance.sense) as 1 | -1,
  };
  addMotion(assembly, placed);
  addFootOf(assembly, placed, 0);
  addFootOf(assembly, placed, 1);
  addRidge(assembly, placed);
}

/** A triangle from the vertex, or from where card begins; or as drawn. */
function addPanel(assembly: Assembly, pair: SphericalPair, i: 0 | 1): number {
  const { name, piece, sectors, feet, ridge, start } = pair;
  const [c, s] = [Math.cos(sectors[i]), Math.sin(sectors[i])];
  const standard: [number, number][] = [
    [feet[i], 0],
    [ridge * c, ridge * s],
  ];
  if (start > 0) standard.push([start * c, start * s], [start, 0]);
  else standard.push([0, 0]);
  return assembly.addPanel({
    name: `${name} ${WORDS[i]}`,
    part: name,
    piece,
    ...shapeOf(pair.outlines?.[WORDS[i]], standard, UPS[i]),
  });
}

/** The step that moves it, and what its card does where it is off: a counter-fold of its parents' own sheet is never off. */
function addMotion(assembly: Assembly, pair: Placed): void {
  const { name, piece, stance, panels, on, directions, glue, sectors, feet, ridge } = pair;
  const [{ at: first, along }, { at: second }] = stance.footings;
  const common = { part: name, on, panels, vertex: [first, second], direction: directions } as const;
  if (pair.joined === 'same sheet') {
    assembly.addStep(counterStep({ ...common, crease: along, diagonal: glue[0] }));
    return;
  }
  const way = shutWay(glue, sectors, pair.points, LOCKS_BEYOND.radians);
  assembly.addStep(
    sphericalStep({
      ...common,
      glue,
      sectors,
      branch: pair.branch,
      way,
      flatSide: stance.flatSide,
      reach: ridge,
      misfit: assembly.addMisfit({
        part: name,
        of: 'forced',
        joint: 'ridge',
        panels: panels.map((panel) => assembly.panels[panel].name),
        locksBeyond: 2 * Math.sin(LOCKS_BEYOND.radians / 2) * ridge,
      }),
    }),
  );
  assembly.folds.push({
    part: name,
    piece,
    on,
    panels,
    feet: glue,
    sides: sectors,
    way,
    vertex: true,
    marks: directions,
    along,
    // The mean of both panels' feet and ridges.
    length: (feet[0] + feet[1] + 2 * ridge) / 4,
    inner: Math.max(pair.start, CRUMPLED),
  });
}

/** Glues a panel along its line, or creases it there to the sheet that it is cut from. */
function addFootOf(assembly: Assembly, pair: Placed, side: 0 | 1): void {
  const { name, piece, stance, start, points } = pair;
  const footing = stance.footings[side];
  const direction = pair.directions[side];
  const feet = pair.feet[side];
  const foot: Foot = {
    name: `${name} ${WORDS[side]}`,
    part: name,
    piece,
    stance,
    side,
    receiver: pair.on[side],
    panel: pair.panels[side],
    lines: [
      lineBetween(moved(footing.at, direction, start), moved(footing.at, direction, feet)),
      { x0: start, y0: 0, x1: feet, y1: 0 },
    ],
    // The side of the line on which the parent crease runs: e, less what of it lies along the line.
    inner: squareTo(footing.along, direction),
    points,
  };
  addFoot(assembly, foot, pair.joined);
}

/** The crease in which both panels meet. */
function addRidge(assembly: Assembly, { name, panels, sectors, start, ridge, branch }: Placed): void {
  const lines = UPS.map((up, i): Line => {
    const [c, s] = [Math.cos(sectors[i]), up * Math.sin(sectors[i])];
    return { x0: start * c, y0: start * s, x1: ridge * c, y1: ridge * s };
  }) as [Line, Line];
  assembly.addJoint({ kind: 'crease', between: [panels[0], panels[1]], lines, closesLoop: true, of: 'fold' });
  // n₁ ∝ L − (L·c) c and n₂ ∝ R − (R·c) c, so (n₁ × n₂)·c has the sign of det(L, R, c): the branch.
  assembly.addCrease({ name: `${name} ridge`, between: panels, lines, sides: [-1, 1], sense: branch });
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
