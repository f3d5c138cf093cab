import { el } from '../../report/live/dom.js';
import type { Offer } from '../messages.js';
import type { Model } from './model.js';

/** Dummies or remedies, each to be tried on or taken over; and a way back from what was tried on. */
export function offerRows(offers: readonly Offer[], model: Model): HTMLElement[] {
  if (offers.length === 0) return [];
  const button = (words: string, title: string, click: () => void) =>
    el('button', { type: 'button', 'aria-label': `${words} ${title}`, click }, words);
  const back = el(
    'button',
    {
      type: 'button',
      click: () => {
        const { value: text } = model.text;
        if (text !== null) model.tryOn(text, 'As it was');
      },
    },
    'Put back what was tried on',
  );
  model.tried.watch((isTried) => {
    back.disabled = !isTried;
  });
  return [
    ...offers.map(({ title, about, text }) =>
      el(
        'li',
        {},
        el('strong', {}, title),
        el('span', { class: 'quiet' }, about),
        button('Try on', title, () =>
          model.tryOn(text, `${title} is tried on: take it over, or put it back`),
        ),
        button('Take over', title, () => {
          model.keep(text);
          model.said.value = `${title} is taken over; undo brings back what was`;
        }),
      ),
    ),
    el('li', {}, back),
  ];
}
