import { OUTCOMES } from '../../study/row.js';
import { share } from '../words/numbers.js';

import { byId, el } from './dom.js';
import { NO_FILTERS } from './filters.js';
import type { Study } from './study.js';

/** How the candidates of the page came out and what they fail at; a press of a button shows those. */
export function failuresView(study: Study): HTMLElement {
  const { candidates } = study;
  const names = [...study.figure.wants, ...study.limits].map(({ name }) => name);
  const counts = names.map(() => 0);
  const outcomes = OUTCOMES.map(() => 0);
  for (let place = 0; place < candidates.count; place++) {
    outcomes[candidates.outcome[place]]++;
    if (OUTCOMES[candidates.outcome[place]] !== 'fails') continue;
    names.forEach((_, i) => {
      counts[i] += 1 - candidates.met[place * names.length + i];
    });
  }
  const built = outcomes[0] + outcomes[1];
  const rows = names
    .map((name, i) => ({ name, i, count: counts[i] }))
    .filter(({ count }) => count > 0)
    .sort((a, b) => b.count - a.count)
    .map(({ name, i, count }) =>
      el(
        'tr',
        {},
        el('th', { scope: 'row', class: 'word' }, name),
        el('td', {}, count.toLocaleString('en')),
        el('td', {}, share(count, built)),
        el(
          'td',
          {},
          el(
            'button',
            {
              type: 'button',
              'aria-label': `Show them: they fail at ${name}`,
              click: () => {
                study.filters.value = { ...NO_FILTERS, failsAt: i };
                byId('choice').scrollIntoView();
                byId('choice').focus();
              },
            },
            'Show them',
          ),
        ),
      ),
    );
  if (rows.length === 0)
    return el('p', {}, `Nothing fails among the ${built.toLocaleString('en')} dummies of this page.`);
  return el(
    'table',
    { class: 'failures' },
    el(
      'caption',
      {},
      `Of ${built.toLocaleString('en')} dummies in this page that could be built, picked ones among them; one may fail at several things.`,
    ),
    el(
      'thead',
      {},
      el(
        'tr',
        {},
        ...['fails at', 'dummies', 'share', ''].map((head, i) =>
          el(head === '' ? 'td' : 'th', i === 0 ? { class: 'word' } : {}, head),
        ),
      ),
    ),
    el('tbody', {}, ...rows),
  );
}
