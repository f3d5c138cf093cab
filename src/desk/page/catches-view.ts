import { el } from '../../report/live/dom.js';
import type { Stage } from '../../report/live/stage.js';
import { withUnit } from '../../report/words/numbers.js';
import type { Model } from './model.js';

/** Every two panels that catch, in closing order; a click turns the page there and rings the place. */
export function catchesView(model: Model, stage: () => Stage | null): HTMLElement {
  const list = el('ol', { class: 'catches' });
  const none = el('p', { class: 'quiet' });
  /** While something is dragged, only its score is known. */
  const sayNone = () => {
    const isFree = (model.score.value?.card.clash.deepest ?? 0) === 0;
    none.hidden = model.rest.value === null || model.rest.value.catches.length > 0;
    none.textContent = isFree ? 'Nothing catches.' : 'It catches: where is told once it is let go.';
  };
  model.score.watch(sayNone);
  model.rest.watch((rest) => {
    const catches = rest?.catches ?? [];
    sayNone();
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
                const panels = model.motion.value?.panels ?? [];
                const parts = [one, other].map((panel) => panels.find(({ name }) => name === panel)?.part);
                // The page itself has nothing to take hold of.
                model.part.value = parts.find((part) => part !== undefined && part !== 'page') ?? null;
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
