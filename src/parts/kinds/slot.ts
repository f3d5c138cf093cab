import * as z from 'zod';
import { CannotBuild } from '../../motion/cannot-build.js';
import { name } from '../fields.js';
import { growAround } from '../grow.js';
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
    /** The panel that passes through: wherever it crosses the plane of the panel with the hole, it must be in the hole. */
    passes: name(),
    /** Page angles between which it must be in the hole, degrees; wherever it crosses that plane, if not given. */
    from: z.number().min(0).max(180).optional(),
    to: z.number().min(0).max(180).optional(),
  }),
  build(partName, f, assembly) {
    const on = assembly.panelNamed(f.on, 'on');
    const passing = assembly.panelNamed(f.passes, 'passes');
    const panel = assembly.panels[on];
    if (panel.body === assembly.panels[passing].body)
      throw new CannotBuild(`'${f.passes}' is glued to '${f.on}' and can't pass through it`, 'passes', true);
    if (f.outline.grow !== undefined)
      throw new CannotBuild(
        'a slot does not grow; the outline of the panel it is cut in may',
        'outline.grow',
        true,
      );
    const hole = Float64Array.from(points(f.outline.polygon ?? [], panel.up));
    growAround(assembly, on, Array.from(hole));
    cutHole(panel, hole, 'slot', 'outline');
    const span = f.from === undefined && f.to === undefined ? null : ([f.from ?? 180, f.to ?? 0] as const);
    assembly.addJoint({
      kind: 'slot',
      part: partName,
      between: [passing, on],
      hole: panel.holes.length - 1,
      span,
    });
  },
});
