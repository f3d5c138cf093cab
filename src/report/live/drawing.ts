import type { Assembly } from '../../motion/assembly.js';
import { pictureOf } from '../../view/picture.js';
import { printable, svg } from './dom.js';

/** A figure as a drawing in SVG, hidden parts painted over, the whole book or the figure close; described by `about`. */
export function drawing(
  assembly: Pick<Assembly, 'panels' | 'page'>,
  poses: Float64Array,
  about: string,
  room: 'whole' | 'close',
): SVGSVGElement {
  const picture = pictureOf(assembly, poses);
  const pieces = [...new Set(assembly.panels.map(({ piece }) => piece))];
  return svg(
    'svg',
    {
      viewBox: picture[room].map((v) => v.toFixed(1)).join(' '),
      role: 'img',
      class: 'drawing',
      'aria-label': printable(about),
    },
    ...picture.panels.map(({ panel, d }) => {
      const order = pieces.indexOf(assembly.panels[panel].piece);
      return svg('path', {
        d,
        'fill-rule': 'evenodd',
        class: `card-${order === 0 ? 0 : 1 + ((order - 1) % 4)}`,
      });
    }),
  );
}
