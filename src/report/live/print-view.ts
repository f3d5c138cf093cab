import { withUnit } from '../words/numbers.js';

import { el } from './dom.js';
import { drawing } from './drawing.js';
import type { Dummy } from './dummy.js';
import type { Study } from './study.js';

const STILLS = [180, 140, 100, 60, 20];

/** On paper the figure can't move: stills of its opening instead, drawn just before printing. */
export function printView(study: Study, dummy: Dummy): HTMLElement {
  const strip = el('div', { class: 'stills' });
  const draw = () => {
    const { motion } = dummy;
    const name = study.nameOf(study.chosen.value);
    strip.replaceChildren(
      ...(motion === null
        ? []
        : STILLS.filter((pageAngle) => pageAngle >= motion.least).map((pageAngle) =>
            el(
              'figure',
              {},
              drawing(motion.assembly, motion.at(pageAngle), `${name} at ${pageAngle}°`, 'whole'),
              el('figcaption', {}, withUnit(pageAngle, 'degrees')),
            ),
          )),
    );
  };
  addEventListener('beforeprint', draw);
  return strip;
}
