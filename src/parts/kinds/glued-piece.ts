import * as z from 'zod';
import { fixedStep } from '../../motion/pose.js';
import { angle, name, piece, word } from '../fields.js';
import { shapeOf } from '../outline.js';
import { outlineOn } from '../outline-forms.js';
import { partKind } from '../part.js';
import { RADIANS } from '../spherical-pair.js';
import { pointOn } from '../spots.js';

/** A flat piece glued on a panel: an arm on a counter-fold's triangle, a sail on a tent. It moves with the panel. */
export const gluedPiece = partKind({
  kind: 'glued-piece',
  fields: z.strictObject({
    /** The panel it is glued on. */
    on: name(),
    /** Where its own (0, 0) lies on that panel: [along the foot, up from the foot], mm. */
    at: pointOn('on'),
    /** How far it is turned from the panel's foot, towards up, degrees. */
    turn: angle().prefault(0),
    outline: outlineOn(),
    /** The face of that panel on which it is glued. */
    face: word('front', 'back').prefault('front'),
    piece: piece().optional(),
  }),
  build(partName, f, assembly) {
    const on = assembly.panelNamed(f.on, 'on');
    const { up } = assembly.panels[on];
    const panel = assembly.addPanel({
      name: partName,
      part: partName,
      piece: f.piece ?? partName,
      gluedTo: on,
      ...shapeOf(f.outline, [], up),
    });
    assembly.addJoint({ kind: 'glue', between: [on, panel], face: f.face === 'back' ? -1 : 1 });
    assembly.addStep(fixedStep(partName, panel, on, [f.at[0], up * f.at[1]], up * f.turn * RADIANS));
  },
  byHand: { edges: (partName) => [{ field: 'outline', panel: partName, creases: [] }] },
});
