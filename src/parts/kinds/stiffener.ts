import * as z from 'zod';
import { fixedStep } from '../../motion/pose.js';
import { angle, name, piece, size, word } from '../fields.js';
import { points } from '../outline.js';
import { partKind } from '../part.js';
import { RADIANS } from '../spherical-pair.js';
import { pointOn } from '../spots.js';

/** A plain rectangle of card glued on a panel to keep it flat. */
export const stiffener = partKind({
  kind: 'stiffener',
  fields: z.strictObject({
    on: name(),
    /** Its corner on that panel, and its length and width from there, mm. */
    at: pointOn('on'),
    size: z.tuple([size(), size()]),
    /** How far it is turned from the panel's foot, towards up, degrees. */
    turn: angle().prefault(0),
    /** The face of that panel on which it is glued. */
    face: word('front', 'back').prefault('front'),
    piece: piece().optional(),
  }),
  build(partName, f, assembly) {
    const on = assembly.panelNamed(f.on, 'on');
    const { up } = assembly.panels[on];
    const [long, wide] = f.size;
    const panel = assembly.addPanel({
      name: partName,
      part: partName,
      piece: f.piece ?? partName,
      gluedTo: on,
      up,
      outline: points(
        [
          [0, 0],
          [long, 0],
          [long, wide],
          [0, wide],
        ],
        up,
      ),
    });
    assembly.addJoint({ kind: 'glue', between: [on, panel], face: f.face === 'back' ? -1 : 1 });
    assembly.addStep(fixedStep(partName, panel, on, [f.at[0], up * f.at[1]], up * f.turn * RADIANS));
  },
});
