import { duplicatePart, freeName, twinPart } from '../../edit/add-part.js';
import { goingWith, removePart } from '../../edit/remove.js';
import { renamePart } from '../../edit/rename.js';
import type { FigureSource } from '../../figure/text/source.js';
import { el } from '../../report/live/dom.js';
import type { Model } from './model.js';

/** What can be done with a whole part: another name, one more of it, a twin, away with it. */
export function partButtons(part: string, model: Model): HTMLElement {
  const name = el('input', { type: 'text', value: part, 'aria-label': `Name of ${part}`, maxlength: 60 });
  const button = (words: string, click: () => void) =>
    el('button', { type: 'button', click, 'aria-label': `${words} ${part}` }, words);
  const rename = () => {
    if (model.edit((source) => renamePart(source, part, name.value), `${part} is now ${name.value}`))
      model.part.value = name.value;
  };
  name.addEventListener('keydown', ({ key }) => {
    if (key === 'Enter') rename();
  });
  return el(
    'div',
    { class: 'buttons small' },
    name,
    button('Rename', rename),
    button('Duplicate', () =>
      again(part, model, (source, to) => duplicatePart(source, part, to), `${part} is there twice`),
    ),
    button('Twin', () =>
      again(`${part} twin`, model, (source, to) => twinPart(source, part, to), `${part} has a twin`),
    ),
    button('Remove', () => remove(part, model)),
  );
}

/** Adds a part made from another one, and chooses it. @param stem what it is called if that name is free */
function again(
  stem: string,
  model: Model,
  make: (source: FigureSource, to: string) => string,
  said: string,
): void {
  let to = stem;
  const isMade = model.edit((source) => {
    to = freeName(source, stem);
    return make(source, to);
  }, said);
  if (isMade) model.part.value = to;
}

function remove(part: string, model: Model): void {
  model.edit((source) => {
    const { parts, places, wants, trims, art } = goingWith(source, part);
    const also = [
      ...parts.filter((each) => each !== part),
      ...wants.map((want) => `the want '${want}'`),
      ...places.map((place) => `the place '${place}'`),
      ...(trims > 0 ? [`${trims} trims`] : []),
      ...(art > 0 ? [`${art} drawings`] : []),
    ];
    // What cannot be done is said before anything is asked.
    const without = removePart(source, part);
    if (also.length > 0 && !confirm(`With ${part} go: ${also.join(', ')}. Remove them all?`))
      return source.text;
    model.part.value = null;
    return without;
  }, `${part} is removed; undo brings it back`);
}
