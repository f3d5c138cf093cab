import * as z from 'zod';
import type { Assembly } from '../../motion/assembly.js';
import { CannotBuild } from '../../motion/cannot-build.js';
import { parallelStep } from '../../motion/pose.js';
import { cardSide, lengthOf, unit } from '../attach.js';
import { size } from '../fields.js';
import { hingeFields, hingeOn } from '../hinge.js';
import { partKind } from '../part.js';

/** A flap of the same card, creased to an edge of a panel and turned over onto it: it covers a hub, or strengthens. */
export const coverFlap = partKind({
  kind: 'cover-flap',
  fields: z.strictObject({
    /** The edge along which it is creased. */
    edge: hingeFields,
    /** How far it reaches over the panel, mm. */
    depth: size(),
  }),
  build(partName, f, assembly) {
    const { panel, line } = hingeOn(assembly, f.edge, 'edge');
    const [ex, ey] = unit(line);
    const long = lengthOf(line);
    const { piece, outline, name } = assembly.panels[panel];
    const side = cardSide(outline, line);
    if (side === 0) throw new CannotBuild(`this line is no edge of '${name}'`, 'edge.line');
    const cut = Math.min(f.depth, 0.2 * long);
    const flap = assembly.addPanel({
      name: partName,
      part: partName,
      piece,
      gluedTo: panel,
      outline: [0, 0, long, 0, long - cut, f.depth, cut, f.depth],
    });
    const lines: [typeof line, typeof line] = [line, { x0: 0, y0: 0, x1: long, y1: 0 }];
    assembly.addJoint({ kind: 'crease', between: [panel, flap], lines, closesLoop: false, of: 'fold' });
    assembly.addJoint({ kind: 'glue', between: [panel, flap] });
    const onto: [number, number] = [-side * ey, side * ex];
    assembly.addStep({
      ...parallelStep(partName, flap, panel, [line.x0, line.y0], panel, [ex, ey], onto),
      hangsOn: panel,
    });
  },
});

/** Whether a panel is a cover flap: what it is creased to is what it is glued to. */
export const isCoverFlap = ({ joints, panels }: Assembly, k: number): boolean =>
  joints.some(
    ({ kind, between }) =>
      kind === 'crease' && between[1] === k && panels[between[0]].body === panels[k].body,
  );
