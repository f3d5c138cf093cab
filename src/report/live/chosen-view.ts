import { capital } from '../../text/phrases.js';
import { el } from './dom.js';
import type { Study } from './study.js';

/** Which dummy is on show, with ways to the next one and to a second beside it. */
export function chosenView(study: Study): HTMLElement {
  const title = el('h3', { id: 'chosen-title', tabindex: -1 });
  const rank = el('p', { class: 'quiet' });
  const step = (by: number) => () => {
    const { value: shown } = study.shown;
    const next = shown[shown.indexOf(study.chosen.value) + by];
    study.chosen.value = next ?? (by > 0 ? shown[0] : shown[shown.length - 1]) ?? study.chosen.value;
  };
  const besideButton = el('button', {
    type: 'button',
    click: () => {
      study.beside.value = study.beside.value === null ? study.chosen.value : null;
    },
  });
  const refresh = () => {
    const place = study.chosen.value;
    const { candidates } = study;
    title.textContent = capital(`${study.nameOf(place)}${study.changed ? ', changed by you' : ''}`);
    rank.textContent = `Rank ${candidates.rank[place].toLocaleString('en')} of ${study.scored.toLocaleString('en')}; found by: ${study.stages[candidates.stage[place]]}.`;
    const other = study.beside.value;
    besideButton.textContent =
      other === null ? 'Keep this one beside the next' : `Take away ${study.nameOf(other)}`;
  };
  study.chosen.watch(refresh);
  study.vector.watch(refresh);
  study.beside.watch(refresh);
  return el(
    'div',
    { class: 'chosen-head' },
    el('div', {}, title, rank),
    el(
      'div',
      { class: 'buttons' },
      el('button', { type: 'button', click: step(-1) }, 'Previous'),
      el('button', { type: 'button', click: step(1) }, 'Next'),
      besideButton,
    ),
  );
}
