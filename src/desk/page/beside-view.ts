import { untrimPanel } from '../../edit/remove.js';
import { el } from '../../report/live/dom.js';
import { decimal } from '../../report/words/numbers.js';
import type { Model } from './model.js';
import type { BesideSent } from './sent.js';

/** What is looked at beside the scorecard: how hard the page turns, what is tied, and the card that trims have taken. */
export function besideView(model: Model): HTMLElement {
  const large = el('dialog', { class: 'large', 'aria-label': 'How hard the page turns' });
  const close = el('button', { type: 'button', click: () => large.close() }, 'Close');
  const chart = el('div', { class: 'chart' });
  const larger = el(
    'button',
    {
      type: 'button',
      'aria-label': 'Show the chart larger: how hard the page turns',
      click: () => {
        const drawn = picture(model.beside.value);
        if (drawn === null) return;
        large.replaceChildren(drawn, close);
        large.showModal();
      },
    },
    'Show the chart larger',
  );
  const turn = unfolded('How hard the page turns', el('div', {}, chart, larger));
  const ties = el('ul', { class: 'plain' });
  const tied = unfolded('What is tied', ties);
  const trims = el('ul', { class: 'plain' });
  const trimmed = unfolded('Card lost to trims', trims);
  model.beside.watch((beside) => {
    const drawn = picture(beside);
    chart.replaceChildren(...(drawn === null ? [] : [drawn]));
    turn.hidden = drawn === null;
    ties.replaceChildren(...(beside?.ties ?? []).map((said) => el('li', {}, said)));
    if (beside?.ties.length === 0)
      ties.append(el('li', { class: 'quiet' }, 'Nothing: each number may go by itself.'));
    trims.replaceChildren(...(beside?.trims ?? []).map((trim) => trimOf(trim, model)));
    trimmed.hidden = (beside?.trims.length ?? 0) === 0;
  });
  return el('section', { 'aria-label': 'Force, ties and trims' }, turn, trimmed, tied, large);
}

const unfolded = (head: string, inside: HTMLElement): HTMLElement =>
  el('details', { open: head !== 'What is tied' }, el('summary', {}, head), inside);

function trimOf({ panel, lost, share }: BesideSent['trims'][number], model: Model): HTMLElement {
  return el(
    'li',
    {},
    `${panel}: ${decimal(lost, 1)} mm², ${decimal(share, 1)} % of it. `,
    el(
      'button',
      {
        type: 'button',
        'aria-label': `Put back the card of ${panel}`,
        click: () => model.edit((source) => untrimPanel(source, panel), `${panel} has its card again`),
      },
      'Put back',
    ),
  );
}

/** The chart, read as a picture: nothing of it runs. */
function picture(beside: BesideSent | null): Element | null {
  if (beside === null) return null;
  const { documentElement } = new DOMParser().parseFromString(beside.turnChart, 'image/svg+xml');
  if (documentElement.localName !== 'svg') return null;
  // The whole is one picture with a description; what its marks are called inside tells nobody anything.
  for (const mark of documentElement.querySelectorAll('[aria-label]')) mark.removeAttribute('aria-label');
  return document.importNode(documentElement, true);
}
