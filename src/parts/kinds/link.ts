import * as z from 'zod';
import { CannotBuild } from '../../motion/cannot-build.js';
import { fixedStep } from '../../motion/pose.js';
import { name, piece, size } from '../fields.js';
import { shapeOf } from '../outline.js';
import { outlineOn } from '../outline-forms.js';
import { partKind } from '../part.js';
import { pointOn } from '../spots.js';

/**
 * A strip of card that turns on hubs: a limb, a pole. It is drawn where it lies in the open figure, on the plane of some
 * panel, and then goes where its joints take it. Each joint is a part of its own: a pivot, a glued end, a tongue.
 */
export const link = partKind({
  kind: 'link',
  fields: z.strictObject({
    /** The panel on whose plane it is drawn. */
    on: name().prefault('left page'),
    /** The middles of its two ends on that panel, mm: its own (0, 0), and the way that its x runs. */
    from: pointOn('on'),
    to: pointOn('on'),
    width: size(),
    /** Instead of a strip with blunted ends. */
    outline: outlineOn().optional(),
    piece: piece().optional(),
  }),
  build(partName, f, assembly) {
    const on = assembly.panelNamed(f.on, 'on');
    const { up } = assembly.panels[on];
    const [x0, y0] = f.from;
    const [dx, dy] = [f.to[0] - x0, up * (f.to[1] - y0)];
    const long = Math.hypot(dx, dy);
    if (long < 0.01) throw new CannotBuild('it has no length: its two ends are one point', 'to');
    const panel = assembly.addPanel({
      name: partName,
      part: partName,
      piece: f.piece ?? partName,
      ...shapeOf(f.outline, strip(long, f.width / 2)),
    });
    // Only where it is drawn: from here on it is the chain that places it.
    fixedStep(partName, panel, on, [x0, up * y0], Math.atan2(dy, dx)).place(
      assembly.open,
      assembly.openMisfits,
    );
    assembly.chains.addPanel(panel, partName);
  },
  byHand: {
    exact: ['from', 'to'],
    edges: (partName) => [{ field: 'outline', panel: partName, creases: [] }],
  },
});

/** A strip around two points, its ends cut at 45° so that they stay within half a width of the points. */
function strip(long: number, half: number): [number, number][] {
  const cut = half * Math.tan(Math.PI / 8);
  return [
    [-half, -cut],
    [-cut, -half],
    [long + cut, -half],
    [long + half, -cut],
    [long + half, cut],
    [long + cut, half],
    [-cut, half],
    [-half, cut],
  ];
}
