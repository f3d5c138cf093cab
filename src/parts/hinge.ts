import * as z from 'zod';
import type { Line } from '../geometry/line.js';
import type { Assembly } from '../motion/assembly.js';
import { CannotBuild } from '../motion/cannot-build.js';
import { worldPoint } from '../motion/pose.js';
import { cardSide, lengthOf, unit } from './attach.js';
import { name, type Resolved } from './fields.js';
import { growAround } from './grow.js';
import { lineOn } from './spots.js';

/** A line on a panel along which something is hinged: from point to point, [along its foot, up from its foot], mm. */
export const hingeFields = z.strictObject({
  panel: name(),
  line: lineOn('panel'),
});

/** A hinge line as the assembly knows it. */
export interface Hinge {
  readonly panel: number;
  readonly line: Line;
}

/** Finds the panel and turns the line into its own coordinates; `field` is what to blame. */
export function hingeOn(assembly: Assembly, f: Resolved<z.output<typeof hingeFields>>, field: string): Hinge {
  const panel = assembly.panelNamed(f.panel, `${field}.panel`);
  const { up } = assembly.panels[panel];
  const [[x0, y0], [x1, y1]] = f.line;
  const line = { x0, y0: up * y0, x1, y1: up * y1 };
  if (lengthOf(line) < 0.01) throw new CannotBuild('a hinge line of no length', `${field}.line`);
  return { panel, line };
}

/** The two ends of a hinge line in space. */
export function endsInSpace(poses: Float64Array, hinge: Hinge, from: Float64Array, to: Float64Array): void {
  worldPoint(poses, hinge.panel, hinge.line.x0, hinge.line.y0, from);
  worldPoint(poses, hinge.panel, hinge.line.x1, hinge.line.y1, to);
}

/**
 * On which side of a hinge line its panel stands: where the panel's own foot is, however much card reaches past the line; 0
 * where the hinge is that foot, or nothing tells.
 */
function sideOfFoot({ joints }: Assembly, { panel, line }: Hinge): 1 | -1 | 0 {
  const foot = joints.find(({ kind, between }) => kind === 'crease' && between.includes(panel));
  if (foot?.kind !== 'crease') return 0;
  const { x0, y0, x1, y1 } = foot.lines[foot.between.indexOf(panel)];
  const [ex, ey] = unit(line);
  const off = ex * ((y0 + y1) / 2 - line.y0) - ey * ((x0 + x1) / 2 - line.x0);
  return Math.abs(off) < 1e-6 ? 0 : off > 0 ? 1 : -1;
}

/**
 * Adds the creases between a panel that ends at a hinge and one that goes on beyond it (a plate, a page), for the two
 * sides of the latter: `<label> left` and `<label> right` of its line. Which way the fold turns is read off the
 * half-open figure, since open and shut it may be flat.
 */
export function addHingeCreases(assembly: Assembly, label: string, ending: Hinge, through: Hinge): void {
  const endingSide =
    sideOfFoot(assembly, ending) || cardSide(assembly.panels[ending.panel].outline, ending.line) || 1;
  for (const [word, side] of [
    ['left', 1],
    ['right', -1],
  ] as const)
    assembly.addCrease(
      {
        name: `${label} ${word}`,
        between: [ending.panel, through.panel],
        lines: [ending.line, through.line],
        sides: [endingSide, side],
        sense: side,
      },
      true,
    );
  const { x0, y0, x1, y1 } = ending.line;
  growAround(assembly, ending.panel, [x0, y0, x1, y1]);
}
