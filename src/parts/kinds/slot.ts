import * as z from 'zod';
import { CannotBuild } from '../../motion/cannot-build.js';
import { name } from '../fields.js';
import { cutHole, points } from '../outline.js';
import { outlineOn } from '../outline-forms.js';
import { partKind } from '../part.js';

/** A hole that another part passes through, and must stay inside through the whole opening. */
export const slot = partKind({
  kind: 'slot',
  fields: z.strictObject({
    /** The panel with the hole, and the hole's outline on it. */
    on: name(),
    outline: outlineOn('on'),
    /** The panel that passes through. */
    passes: name(),
  }),
  build(_, f, assembly) {
    const on = assembly.panelNamed(f.on, 'on');
    const passing = assembly.panelNamed(f.passes, 'passes');
    const panel = assembly.panels[on];
    if (panel.body === assembly.panels[passing].body)
      throw new CannotBuild(`'${f.passes}' is glued to '${f.on}' and can't pass through it`, 'passes', true);
    const hole = Float64Array.from(points(f.outline.polygon ?? [], panel.up));
    cutHole(panel, hole, 'slot', 'outline');
    assembly.addJoint({ kind: 'slot', between: [passing, on], hole: panel.holes.length - 1 });
  },
});
