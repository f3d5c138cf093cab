import { el } from '../../report/live/dom.js';
import type { Offer } from '../messages.js';
import type { Model } from './model.js';

/** Dummies or remedies that a command has found, each to be tried on or taken over; and a way back from what was tried on. */
export function offersView(model: Model): HTMLElement {
  const list = el('ul', { class: 'offers' });
  const back = el('button', { type: 'button', click: () => putBack(model) }, 'Put back what was tried on');
  model.tried.watch((isTried) => {
    back.disabled = !isTried;
  });
  let shown = '[]';
  model.asking.watch((asking) => {
    if (asking === null) return;
    const { offers } = asking;
    const now = JSON.stringify(offers);
    // Drawn anew only where it is something else: else no button could be reached while a command runs.
    if (now === shown) return;
    shown = now;
    const rows = offers.map((offer) => row(offer, model));
    list.replaceChildren(...rows, ...(rows.length > 0 ? [el('li', {}, back)] : []));
  });
  return list;
}

function putBack(model: Model): void {
  const { value: text } = model.text;
  if (text !== null) model.tryOn(text, 'As it was');
}

function row({ title, about, text }: Offer, model: Model): HTMLElement {
  const button = (words: string, click: () => void) =>
    el('button', { type: 'button', 'aria-label': `${words} ${title}`, click }, words);
  return el(
    'li',
    {},
    el('strong', {}, title),
    el('span', { class: 'quiet' }, about),
    button('Try on', () => model.tryOn(text, `${title} is tried on: take it over, or put it back`)),
    button('Take over', () => {
      model.keep(text);
      model.said.value = `${title} is taken over; undo brings back what was`;
    }),
  );
}
