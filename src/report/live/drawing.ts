import type { Assembly } from '../../motion/assembly.js';
import { printable, svg } from './dom.js';
import { pictureOf } from './picture.js';

/** A figure as a little drawing in SVG, hidden parts painted over; described by `about`. */
export function drawing(assembly: Assembly, poses: Float64Array, about: string): SVGSVGElement {
  const { panels, box } = pictureOf(assembly, poses);
  const pieces = [...new Set(assembly.panels.map(({ piece }) => piece))];
  return svg(
    'svg',
    {
      viewBox: box.map((v) => v.toFixed(1)).join(' '),
      role: 'img',
      class: 'drawing',
      'aria-label': printable(about),
    },
    ...panels.map(({ panel, d }) => {
      const order = pieces.indexOf(assembly.panels[panel].piece);
      return svg('path', {
        d,
        'fill-rule': 'evenodd',
        class: `card-${order === 0 ? 0 : 1 + ((order - 1) % 4)}`,
      });
    }),
  );
}
