import { z } from 'zod';
import type { Assembly, Line } from '../motion/assembly.js';
import { CannotBuild } from '../motion/cannot-build.js';
import { worldPoint } from '../motion/pose.js';
import { lengthOf } from './attach.js';
import { name, point, type Resolved } from './fields.js';

/** A line on a panel along which something is hinged: from point to point, [along its foot, up from its foot], mm. */
export const hingeFields = z.strictObject({
  panel: name(),
  line: z.tuple([point(), point()]),
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
