import { el } from '../../report/live/dom.js';
import type { Offer, Question } from '../messages.js';
import type { Model } from './model.js';
import { offerRows } from './offer-rows.js';

const QUESTIONS: readonly (readonly [Question['what'], string, string])[] = [
  ['explore', 'Explore', 'tries many dummies within the ranges, and ranks them'],
  ['tune', 'Tune', 'why it is stuck, and the smallest changes that free it'],
  ['tolerance', 'Tolerance', 'how exact it must be cut'],
  ['sheets', 'Sheets', 'true-scale sheets to cut, and a guide to gluing'],
  ['compare', 'Compare', 'which wins, the figure as it is or the state that was kept'],
];

/** The program's other commands, run from here: into the same folders, with the same words. */
export function askView(model: Model): HTMLElement {
  const samples = el('input', {
    type: 'number',
    min: 20,
    max: 1_000_000,
    value: 400,
    'aria-label': 'Dummies to explore or compare',
  });
  const stop = el('button', { type: 'button', click: () => model.ask({ do: 'stop' }) }, 'Stop');
  const buttons = QUESTIONS.map(([what, words, about]) => {
    const button = el(
      'button',
      {
        type: 'button',
        click: () => {
          const counts = what === 'explore' || what === 'compare';
          const count = samples.valueAsNumber;
          model.ask({ do: 'ask', what, ...(counts && Number.isInteger(count) ? { samples: count } : {}) });
        },
      },
      words,
    );
    return {
      what,
      button,
      row: el('div', { class: 'question' }, button, el('span', { class: 'quiet' }, about)),
    };
  });
  const keep = el('button', { type: 'button', click: () => model.ask({ do: 'keep' }) }, 'Keep this state');
  const said = el('pre', {
    class: 'progress',
    role: 'log',
    'aria-label': 'What the command says',
    tabindex: 0,
  });
  const files = el('ul', { class: 'files' });
  const offers = el('ul', { class: 'offers' });
  let shown = '';
  /** What is offered is drawn anew only where it is something else: else no button could be reached while a command runs. */
  const offer = (all: readonly Offer[]) => {
    const now = JSON.stringify(all);
    if (now === shown) return;
    shown = now;
    offers.replaceChildren(...offerRows(all, model));
  };
  const refresh = () => {
    const asking = model.asking.value;
    const runs = asking?.tell === 'running';
    stop.disabled = !runs;
    for (const { what, button } of buttons)
      button.disabled =
        runs || model.fault.value !== null || (what === 'compare' && model.file.value?.kept !== true);
  };
  model.file.watch(refresh);
  model.fault.watch(refresh);
  model.asking.watch((asking) => {
    refresh();
    if (asking === null) return;
    said.textContent =
      asking.lines.slice(asking.tell === 'running' ? -6 : 0).join('\n') || `${asking.what} …`;
    offer(asking.offers);
    files.replaceChildren(
      ...(asking.tell === 'done' ? asking.files : []).map(({ name, address }) =>
        el('li', {}, el('a', { href: address, target: '_blank', rel: 'noopener noreferrer' }, name)),
      ),
    );
  });
  return el(
    'section',
    { class: 'ask', 'aria-label': 'Ask' },
    el('label', { title: 'By explore and compare' }, 'Dummies to explore or compare', samples),
    ...buttons.map(({ row }) => row),
    el('div', { class: 'buttons' }, keep, stop),
    files,
    offers,
    said,
  );
}
