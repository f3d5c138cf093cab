import { el } from '../../report/live/dom.js';
import type { Stage } from '../../report/live/stage.js';
import { withUnit } from '../../report/words/words.js';
import type { Model } from './model.js';

/** Every two panels that catch, in closing order; a click turns the page there and rings the place. */
export function catchesView(model: Model, stage: () => Stage | null): HTMLElement {
  const list = el('ol', { class: 'catches' });
  const none = el('p', { class: 'quiet' }, 'Nothing catches.');
  model.rest.watch((rest) => {
    const catches = rest?.catches ?? [];
    none.hidden = rest === null || catches.length > 0;
    stage()?.ring(null);
    list.replaceChildren(
      ...catches.map(({ between: [one, other], startsAt, pageAngle, depth, point }) =>
        el(
          'li',
          {},
          el(
            'button',
            {
              type: 'button',
              class: 'catch',
              click: () => {
                model.pageAngle.value = Math.round(2 * pageAngle) / 2;
                stage()?.ring({ panel: other, point });
                model.part.value = model.motion.value?.panels.find(({ name }) => name === one)?.part ?? null;
              },
            },
            `${one} catches on ${other} from ${withUnit(startsAt, 'degrees')}, ${withUnit(depth, 'mm')} deep at ${withUnit(pageAngle, 'degrees')}`,
          ),
        ),
      ),
    );
  });
  return el('section', { 'aria-label': 'Catches' }, el('h3', {}, 'Catches, as the page shuts'), none, list);
}
