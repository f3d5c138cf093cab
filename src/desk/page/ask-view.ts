import { el } from '../../report/live/dom.js';
import { onAny } from '../../report/live/signal.js';
import type { Question } from '../messages.js';
import type { Model } from './model.js';
import { offersView } from './offers-view.js';

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
  const ask = (what: Question['what']) => {
    const counts = what === 'explore' || what === 'compare';
    const count = samples.valueAsNumber;
    model.ask({ do: 'ask', what, ...(counts && Number.isInteger(count) ? { samples: count } : {}) });
  };
  const stop = el('button', { type: 'button', click: () => model.ask({ do: 'stop' }) }, 'Stop');
  const keep = el('button', { type: 'button', click: () => model.ask({ do: 'keep' }) }, 'Keep this state');
  const questions = QUESTIONS.map(([what, words, about]) => ({
    what,
    about,
    button: el('button', { type: 'button', click: () => ask(what) }, words),
  }));
  onAny([model.file, model.fault, model.asking], () => {
    const runs = model.asking.value?.tell === 'running';
    stop.disabled = !runs;
    for (const { what, button } of questions)
      button.disabled =
        runs || model.fault.value !== null || (what === 'compare' && model.file.value?.kept !== true);
  });
  return el(
    'section',
    { class: 'ask', 'aria-label': 'Ask' },
    el('label', { title: 'By explore and compare' }, 'Dummies to explore or compare', samples),
    ...questions.map(({ button, about }) =>
      el('div', { class: 'question' }, button, el('span', { class: 'quiet' }, about)),
    ),
    el('div', { class: 'buttons' }, keep, stop),
    filesView(model),
    offersView(model),
    progressView(model),
  );
}

/** What a command has left to open. */
function filesView(model: Model): HTMLElement {
  const files = el('ul', { class: 'files' });
  model.asking.watch((asking) => {
    if (asking === null) return;
    files.replaceChildren(
      ...(asking.tell === 'done' ? asking.files : []).map(({ name, address }) =>
        el('li', {}, el('a', { href: address, target: '_blank', rel: 'noopener noreferrer' }, name)),
      ),
    );
  });
  return files;
}

/** Lines that are shown of a command while it runs. */
const LAST = 6;

/** What a command says: while it runs its last lines. */
function progressView(model: Model): HTMLElement {
  const said = el('pre', {
    class: 'progress',
    role: 'log',
    'aria-label': 'What the command says',
    tabindex: 0,
  });
  model.asking.watch((asking) => {
    if (asking === null) return;
    const { tell, lines, what } = asking;
    said.textContent = lines.slice(tell === 'running' ? -LAST : 0).join('\n') || `${what} …`;
  });
  return said;
}
