import * as z from 'zod';
import { CannotBuild } from '../../motion/cannot-build.js';
import { hingedStep } from '../../motion/hinged.js';
import { lengthOf, unit } from '../attach.js';
import type { Stretch } from '../by-hand.js';
import { gluedField, piece, size } from '../fields.js';
import { addHingeCreases, endsInSpace, type Hinge, hingeFields, hingeOn } from '../hinge.js';
import { shapeOf } from '../outline.js';
import { outlineOn } from '../outline-forms.js';
import { partKind } from '../part.js';
import { addSupportMisfits } from '../support-misfit.js';
import { addTab, tabFields } from '../tab.js';

/**
 * One panel hinged at both ends, to panels that move already. Its height is the distance of the two lines in the open
 * figure, or as given; where the lines don't stay that far apart it binds, and the misfit says by how much.
 */
export const strut = partKind({
  kind: 'strut',
  fields: z.strictObject({
    foot: hingeFields,
    top: hingeFields,
    /** Distance from foot to top, mm; as drawn open if not given. */
    height: size().optional(),
    outline: outlineOn().optional(),
    tab: tabFields,
    glued: gluedField(),
    piece: piece().optional(),
  }),
  build(partName, f, assembly) {
    const foot = hingeOn(assembly, f.foot, 'foot');
    const top = hingeOn(assembly, f.top, 'top');
    const long = lengthOf(foot.line);
    const [along, drawn] = inPoses(assembly.open, foot, top);
    if (drawn < 0.01)
      throw new CannotBuild(
        'in the open figure its foot and top lie on one line, and nothing says which way it stands',
        'top.line',
      );
    const height = f.height ?? drawn;
    const width = lengthOf(top.line);
    const own = [
      { x0: 0, y0: 0, x1: long, y1: 0 },
      { x0: along, y0: height, x1: along + width, y1: height },
    ];
    const panel = assembly.addPanel({
      name: partName,
      part: partName,
      piece: f.piece ?? partName,
      ...shapeOf(f.outline, [
        [0, 0],
        [long, 0],
        [along + width, height],
        [along, height],
      ]),
    });
    const misfit = addSupportMisfits(assembly, partName, 'top', top.panel);
    assembly.addStep(hingedStep(partName, panel, [foot, top], own, misfit));
    [foot, top].forEach((hinge, i) => {
      const [ex, ey] = unit(hinge.line);
      const joint = addTab(
        assembly,
        {
          name: `${partName} ${i === 0 ? 'foot' : 'top'} tab`,
          part: partName,
          piece: f.piece ?? partName,
          receiver: hinge.panel,
          panel,
          line: hinge.line,
          panelLine: own[i],
          inner: [-ey, ex],
        },
        f.tab,
      );
      const made = assembly.joints[joint];
      if (made.kind === 'crease' && i === 1) made.closesLoop = true;
      addHingeCreases(assembly, `${partName} ${i === 0 ? 'foot' : 'top'}`, { panel, line: own[i] }, hinge);
    });
  },
  byHand: {
    drawn(f, assembly) {
      const [, drawn] = inPoses(
        assembly.open,
        hingeOn(assembly, f.foot, 'foot'),
        hingeOn(assembly, f.top, 'top'),
      );
      return { fields: { ...f, height: f.height ?? drawn } };
    },
    closing: {
      field: ({ glued }) => (glued === 'by measure' ? null : 'height'),
      // It comes to be higher by as much as its two lines lie farther apart in the shut book.
      settle(drawn, cut, assembly, drawing) {
        if (cut.height === undefined) return cut;
        const [meant, there] = [[drawing, drawn] as const, [assembly, cut] as const].map(
          ([of, { foot, top }]) =>
            inPoses(of.openedTo(0), hingeOn(of, foot, 'foot'), hingeOn(of, top, 'top'))[1],
        );
        return { ...cut, height: Math.max(0.01, cut.height + there - meant) };
      },
    },
    edges: (partName, f) => {
      const [[x0, y0], [x1, y1]] = f.foot.line;
      const long = Math.hypot(x1 - x0, y1 - y0);
      const across = (up: number): Stretch => [
        [0, up],
        [long, up],
      ];
      return [{ field: 'outline', panel: partName, creases: [across(0), across(f.height ?? 0)] }];
    },
  },
});

/** Where the top's line starts in these poses, seen from the foot's: along it, and away from it. */
function inPoses(poses: Float64Array, foot: Hinge, top: Hinge): [along: number, away: number] {
  const from = new Float64Array(3);
  const to = new Float64Array(3);
  endsInSpace(poses, foot, from, to);
  const origin = [...from];
  const long = lengthOf(foot.line);
  const x = [0, 1, 2].map((i) => (to[i] - from[i]) / long);
  endsInSpace(poses, top, from, to);
  const d = [0, 1, 2].map((i) => from[i] - origin[i]);
  const along = d[0] * x[0] + d[1] * x[1] + d[2] * x[2];
  return [along, Math.hypot(...d.map((v, i) => v - along * x[i]))];
}
