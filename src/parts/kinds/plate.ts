import * as z from 'zod';
import { cutToSide } from '../../geometry/convex-cut.js';
import type { Line } from '../../geometry/line.js';
import { outsideOf } from '../../geometry/ring-distance.js';
import type { Assembly } from '../../motion/assembly.js';
import { CannotBuild } from '../../motion/cannot-build.js';
import { hingedStep } from '../../motion/hinged.js';
import { lengthOf, lineBetween, unit } from '../attach.js';
import type { Stretch } from '../by-hand.js';
import { gluedField, length, piece, point } from '../fields.js';
import { addHingeCreases, endsInSpace, type Hinge, hingeFields, hingeOn } from '../hinge.js';
import { shapeOf } from '../outline.js';
import { outlineOn } from '../outline-forms.js';
import { partKind } from '../part.js';
import { addSupportMisfits } from '../support-misfit.js';
import { addTab, tabFields } from '../tab.js';

/** Card beyond the hinge lines where the file says nothing, mm. */
const MARGIN = 5;

const supportFields = hingeFields.extend({
  /** Where the line lies on the plate, mm; as in the open figure if not given. Only after the first support. */
  meets: z.tuple([point(), point()]).optional(),
});

/**
 * A flat part hinged to two or more supports, each by a line on the support's panel; a page may be one of them. The
 * first two lines place the plate. Where the lines lie on the plate follows from the open figure, as it is drawn.
 * (A plate that is glued on flat is a glued piece.)
 */
export const plate = partKind({
  kind: 'plate',
  fields: z.strictObject({
    /** Lines on the supports along which it is hinged. */
    supports: z
      .array(supportFields)
      .min(2, {
        error:
          'two supports or more (one alone lets a plate swing loose; to glue a plate on flat, use kind: glued-piece)',
      })
      .max(50),
    /**
     * Card beyond the hinge lines on every side, mm, where no outline is drawn. If not given, 5; and none beyond the line of a support whose
     * card goes on past it, as the plate would go through that.
     */
    margin: length().optional(),
    /** Drawn with the first hinge line along x from (0, 0), and the second towards +y. */
    outline: outlineOn().optional(),
    tab: tabFields,
    glued: gluedField(),
    piece: piece().optional(),
  }),
  build(partName, f, assembly) {
    const hinges = f.supports.map((support, i) => hingeOn(assembly, support, `supports.${i}`));
    const own = linesOnPlate(assembly.open, hinges);
    f.supports.forEach(({ meets }, i) => {
      if (meets === undefined) return;
      if (i === 0)
        throw new CannotBuild(
          "the first support's line lies along x on the plate, by definition",
          'supports.0.meets',
          true,
        );
      own[i] = lineBetween(meets[0], meets[1]);
    });
    const plateIndex = assembly.addPanel({
      name: partName,
      part: partName,
      piece: f.piece ?? partName,
      ...shapeOf(
        f.outline,
        around(
          own,
          f.margin ?? MARGIN,
          hinges.map((hinge) => f.margin === undefined && goesOn(assembly, hinge)),
        ),
      ),
    });
    const misfits = hinges
      .slice(1)
      .map((hinge) => addSupportMisfits(assembly, partName, 'support', hinge.panel));
    assembly.addStep(hingedStep(partName, plateIndex, hinges, own, misfits[0]));

    hinges.forEach((hinge, i) => {
      const support = assembly.panels[hinge.panel];
      const [ex, ey] = unit(own[i]);
      const joint = addTab(
        assembly,
        {
          name: `${partName} tab ${i + 1}`,
          part: support.part,
          piece: support.piece,
          receiver: plateIndex,
          panel: hinge.panel,
          line: own[i],
          panelLine: hinge.line,
          // Inner is towards the other hinge lines: +y of the first, −y of the rest.
          inner: ex > 0 === (i === 0) ? [-ey, ex] : [ey, -ex],
        },
        f.tab,
      );
      const made = assembly.joints[joint];
      if (made.kind === 'crease' && i > 0) made.closesLoop = true;
      addHingeCreases(assembly, `${partName} hinge ${i + 1}`, hinge, { panel: plateIndex, line: own[i] });
    });
  },
  byHand: {
    drawn(f, assembly) {
      const hinges = f.supports.map((support, i) => hingeOn(assembly, support, `supports.${i}`));
      const own = linesOnPlate(assembly.open, hinges);
      const supports = f.supports.map((support, i) => ({
        ...support,
        meets: i === 0 ? undefined : (support.meets ?? stretchOf(own[i])),
      }));
      return { fields: { ...f, supports } };
    },
    closing: {
      field: ({ supports, glued }) =>
        glued === 'by measure' ? null : `supports.${supports.length - 1}.meets`,
      // Its last line comes to lie elsewhere by as much as the support does in the shut book.
      settle(drawn, cut, assembly, drawing) {
        const last = cut.supports.length - 1;
        const off = cut.supports[last].meets;
        const meant = linesWhenShut(drawing, drawn.supports)?.[last];
        const there = linesWhenShut(assembly, cut.supports)?.[last];
        if (off === undefined || meant === undefined || there === undefined) return cut;
        const [from, to] = [stretchOf(meant), stretchOf(there)];
        const at = (end: 0 | 1): [number, number] => [
          off[end][0] + to[end][0] - from[end][0],
          off[end][1] + to[end][1] - from[end][1],
        ];
        const supports = cut.supports.map((support, i) =>
          i === last
            ? { ...support, meets: [at(0), at(1)] as [[number, number], [number, number]] }
            : support,
        );
        return { ...cut, supports };
      },
    },
    edges(partName, { supports: [first, ...rest] }) {
      const [[x0, y0], [x1, y1]] = first.line;
      const own: Stretch = [
        [0, 0],
        [Math.hypot(x1 - x0, y1 - y0), 0],
      ];
      const others = rest.flatMap(({ meets }) => (meets === undefined ? [] : [meets]));
      return [{ field: 'outline', panel: partName, creases: [own, ...others] }];
    },
  },
});

/** The lines of supports in the shut book; null where they don't lie apart there. */
function linesWhenShut(
  assembly: Assembly,
  supports: readonly Parameters<typeof hingeOn>[1][],
): Line[] | null {
  try {
    const hinges = supports.map((support, i) => hingeOn(assembly, support, `supports.${i}`));
    return linesOnPlate(assembly.openedTo(0), hinges);
  } catch (error) {
    if (error instanceof CannotBuild) return null;
    throw error;
  }
}

const stretchOf = ({ x0, y0, x1, y1 }: Line): Stretch => [
  [x0, y0],
  [x1, y1],
];

/** Where the hinge lines lie on the plate, in these poses: the first along x from the origin, the second at +y. */
function linesOnPlate(poses: Float64Array, hinges: readonly Hinge[]): Line[] {
  const from = new Float64Array(3);
  const to = new Float64Array(3);
  endsInSpace(poses, hinges[0], from, to);
  const long = lengthOf(hinges[0].line);
  const origin = [...from];
  const x = [0, 1, 2].map((i) => (to[i] - from[i]) / long);
  endsInSpace(poses, hinges[1], from, to);
  const d = [0, 1, 2].map((i) => from[i] - origin[i]);
  const along = dot(d, x);
  const across = d.map((di, i) => di - along * x[i]);
  const wide = Math.hypot(...across);
  if (wide < 0.01)
    throw new CannotBuild('in the open figure, its first two hinge lines lie on one line', 'supports.1.line');
  const y = across.map((v) => v / wide);
  return hinges.map((hinge, i) => {
    endsInSpace(poses, hinge, from, to);
    const start = [...from].map((v, j) => v - origin[j]);
    const end = [...to].map((v, j) => v - origin[j]);
    const line = { x0: dot(start, x), y0: dot(start, y), x1: dot(end, x), y1: dot(end, y) };
    if (lengthOf(line) < 0.01)
      throw new CannotBuild(
        'in the open figure, this hinge line stands square to the plate',
        `supports.${i}.line`,
      );
    return line;
  });
}

/** A rectangle around the hinge lines, with a margin; cut off at the lines at which the plate ends, where all others lie to one side. */
function around(lines: readonly Line[], margin: number, ends: readonly boolean[]): [number, number][] {
  const xs = lines.flatMap((line) => [line.x0, line.x1]);
  const ys = lines.flatMap((line) => [line.y0, line.y1]);
  const [left, right] = [Math.min(...xs) - margin, Math.max(...xs) + margin];
  const [low, high] = [Math.min(...ys) - margin, Math.max(...ys) + margin];
  let ring: Float64Array = Float64Array.of(left, low, right, low, right, high, left, high);
  for (const [i, line] of lines.entries()) {
    const [ex, ey] = unit(line);
    const off = (x: number, y: number) => ex * (y - line.y0) - ey * (x - line.x0);
    const others = lines
      .filter((_, other) => other !== i)
      .flatMap((other) => [off(other.x0, other.y0), off(other.x1, other.y1)]);
    const side = Math.min(...others) >= 0 ? 1 : Math.max(...others) <= 0 ? -1 : 0;
    if (!ends[i] || side === 0) continue;
    ring = cutToSide(ring, line, side);
  }
  return Array.from({ length: ring.length / 2 }, (_, k) => [ring[2 * k], ring[2 * k + 1]]);
}

/** Card this near past a hinge line is an edge that was cut a hair off, mm. */
const PAST = 1;

/** Whether the card of a support goes on past its hinge line, so that it lies on both sides of it somewhere. */
function goesOn({ panels }: Assembly, { panel, line }: Hinge): boolean {
  const [ex, ey] = unit(line);
  const { outline, holes } = panels[panel];
  const onCard = (x: number, y: number) =>
    outsideOf(outline, [x, y]) < 0 && holes.every((hole) => outsideOf(hole, [x, y]) > 0);
  return [0.1, 0.3, 0.5, 0.7, 0.9].some((share) => {
    const [x, y] = [line.x0 + share * (line.x1 - line.x0), line.y0 + share * (line.y1 - line.y0)];
    return onCard(x - PAST * ey, y + PAST * ex) && onCard(x + PAST * ey, y - PAST * ex);
  });
}

const dot = (a: readonly number[], b: readonly number[]): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
