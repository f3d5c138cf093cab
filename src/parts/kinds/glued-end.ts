import * as z from 'zod';
import type { Line } from '../../geometry/line.js';
import type { Assembly } from '../../motion/assembly.js';
import { CannotBuild } from '../../motion/cannot-build.js';
import { lengthOf, lineBetween, unit } from '../attach.js';
import { endAlong } from '../chain-end.js';
import { name } from '../fields.js';
import { type Hinge, hingeFields, hingeOn } from '../hinge.js';
import { pointInOpen } from '../open-place.js';
import { partKind } from '../part.js';
import { lineOn } from '../spots.js';
import { addTab, tabFields } from '../tab.js';

/** The far end of a chain, creased and glued to a page or another part. Pulled too far it lifts, and that is reported. */
export const gluedEnd = partKind({
  kind: 'glued-end',
  fields: z.strictObject({
    /** The link, and the line on it where it ends and is creased. */
    end: hingeFields,
    /** The panel that it is glued to, and where the line lies on it; where that is in the open figure, if not given. */
    to: name(),
    meets: lineOn('to').optional(),
    tab: tabFields,
  }),
  build(partName, f, assembly) {
    const end = hingeOn(assembly, f.end, 'end');
    const to = assembly.panelNamed(f.to, 'to');
    if (!assembly.chains.holds(end.panel))
      throw new CannotBuild(
        'only a link ends so; other parts have glue tabs of their own',
        'end.panel',
        true,
      );
    const { line } = end;
    endAlong(assembly, end.panel, line, 'end.line');
    const { up } = assembly.panels[to];
    const place =
      f.meets === undefined
        ? inOpen(assembly, end, to)
        : lineBetween([f.meets[0][0], up * f.meets[0][1]], [f.meets[1][0], up * f.meets[1][1]]);
    if (lengthOf(place) < 0.01) throw new CannotBuild('a line of no length to glue it along', 'meets');
    const [ex, ey] = unit(place);
    const { piece } = assembly.panels[end.panel];
    const index = addTab(
      assembly,
      {
        name: `${partName} tab`,
        part: partName,
        piece,
        receiver: to,
        panel: end.panel,
        line: place,
        panelLine: line,
        inner: [-ey, ex],
      },
      f.tab,
    );
    const joint = assembly.joints[index];
    if (joint.kind === 'crease') joint.closesLoop = true;
    assembly.chains.addJoint(
      {
        kind: 'crease',
        a: end.panel,
        b: to,
        lineA: [
          [line.x0, line.y0],
          [line.x1, line.y1],
        ],
        lineB: [
          [place.x0, place.y0],
          [place.x1, place.y1],
        ],
      },
      partName,
      assembly.steps.length,
    );
  },
  byHand: {
    drawn(f, assembly) {
      if (f.meets !== undefined) return { fields: f };
      const to = assembly.panelNamed(f.to, 'to');
      const { up } = assembly.panels[to];
      const { x0, y0, x1, y1 } = inOpen(assembly, hingeOn(assembly, f.end, 'end'), to);
      return {
        fields: {
          ...f,
          meets: [
            [x0, up * y0],
            [x1, up * y1],
          ],
        },
      };
    },
  },
});

/** Where the line at the end of a link lies on another panel in the open figure. */
function inOpen(assembly: Assembly, { panel, line }: Hinge, to: number): Line {
  return lineBetween(
    pointInOpen(assembly, panel, [line.x0, line.y0], to),
    pointInOpen(assembly, panel, [line.x1, line.y1], to),
  );
}
