import { capital } from '../../text/phrases.js';
import { decimal } from '../words/numbers.js';
import { findings, limitRows, type ScoreRow, wantRows } from '../words/scorecard-rows.js';
import { verdict } from '../words/scorecard-words.js';
import { el } from './dom.js';
import type { Dummy } from './dummy.js';
import type { Signal } from './signal.js';

/** A dummy that is on show, as it is now, and what it is called. */
export interface Judged {
  readonly name: () => string;
  readonly dummy: Pick<Dummy, 'card' | 'wants'>;
  readonly scored: Signal<number>;
}

/** Whether the dummy on show works, in a sentence. */
export function verdictView({ name, dummy, scored }: Judged): HTMLElement {
  const said = el('p', { class: 'said', role: 'status' });
  scored.watch(() => {
    const { card } = dummy;
    const worth =
      card.desirability === null ? '' : ` Desirability ${decimal(card.desirability, 3)}, of at most 1.`;
    said.textContent = `${capital(verdict(name(), card))}${worth}`;
    said.classList.toggle('works', card.works);
  });
  return said;
}

/** What is found of it, and how it stands to each want and limit. */
export function scorecardView({ dummy, scored }: Judged): HTMLElement {
  const found = el('ul', { class: 'findings' });
  const rows = el('tbody');
  scored.watch(() => {
    const { card, wants } = dummy;
    found.replaceChildren(...findings(card).map((sentence) => el('li', {}, capital(sentence))));
    const built = card.cannotBuild === null;
    rows.replaceChildren(...(built ? [...wantRows(card, wants), ...limitRows(card)].map(line) : []));
  });
  return el(
    'section',
    { class: 'scorecard', 'aria-label': 'Scorecard' },
    el('h4', {}, 'Scorecard'),
    found,
    el(
      'table',
      {},
      el('caption', { class: 'hidden' }, 'Wants and limits of the dummy on show'),
      el('thead', {}, el('tr', {}, ...['', 'value', 'asked', ''].map((head) => el('td', {}, head)))),
      rows,
    ),
  );
}

function line({ name, value, asked, met, reason }: ScoreRow): HTMLElement {
  const row = el(
    'tr',
    { class: met ? 'met' : 'missed' },
    el('th', { scope: 'row' }, name),
    el('td', {}, value),
    el('td', { class: 'asked' }, asked),
    el('td', { class: 'mark' }, met ? 'met' : 'NOT MET'),
  );
  if (reason !== '') row.title = reason;
  return row;
}
