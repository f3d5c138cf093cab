import { z } from 'zod';
import { CannotBuild } from '../motion/cannot-build.js';
import { lineBetween, unit } from './attach.js';
import { endAlong } from './chain-end.js';
import { name } from './fields.js';
import { hingeFields, hingeOn } from './hinge.js';
import { pointInOpen } from './open-place.js';
import { partKind } from './part.js';
import { addTab, tabFields } from './tab.js';

/** The far end of a chain, creased and glued to a page or another part. Pulled too far it lifts, and that is reported. */
export const gluedEnd = partKind({
  kind: 'glued-end',
  about: 'the end of a link, creased and glued to a page or another part; pulled too far it lifts',
  fields: z.strictObject({
    /** The link, and the line on it where it ends and is creased. */
    end: hingeFields,
    /** The panel that it is glued to, there where the line lies in the open figure. */
    to: name(),
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
    const place = lineBetween(
      pointInOpen(assembly, end.panel, [line.x0, line.y0], to),
      pointInOpen(assembly, end.panel, [line.x1, line.y1], to),
    );
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
        anchored: true,
      },
      partName,
      assembly.steps.length,
    );
  },
});
