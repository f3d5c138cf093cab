import { addPart } from '../../edit/add-part.js';
import { el, svg } from '../../report/live/dom.js';
import type { Model } from './model.js';
import type { Place } from './place.js';
import type { Starter } from './starters.js';

/** The kinds of part that can stand on a crease or a panel: click one in the figure, or choose it by name. */
export function addView(model: Model): HTMLElement {
  const choice = placeChoice(model);
  const offers = el('div', { class: 'starters' });
  const tell = (words: string) => offers.replaceChildren(el('p', { class: 'quiet' }, words));
  // The button that was pressed is gone: who goes by keys goes on from here.
  const added = () => choice.focus({ preventScroll: true });
  model.picked.watch((place) => {
    if (place === null) offers.replaceChildren();
    else tell(`What can stand on ${place.name} …`);
  });
  model.starters.watch((sent) => {
    if (sent === null) return;
    const { starters } = sent;
    if (starters.length === 0) tell('Nothing can stand there.');
    else offers.replaceChildren(...starters.map((starter) => card(starter, model, added)));
  });
  const section = el(
    'section',
    { class: 'add', 'aria-label': 'Add a part' },
    el('div', { class: 'row' }, el('h2', {}, 'Add a part'), el('label', {}, 'on', choice)),
    offers,
    el(
      'p',
      { class: 'quiet' },
      'Plates, struts, limbs on hubs, slots and layers join several places: write them in the text (Write), or begin with a pattern that has one.',
    ),
  );
  // Before there is a figure there is nothing to stand on.
  section.hidden = true;
  model.motion.watch((motion) => {
    if (motion !== null) section.hidden = false;
  });
  return section;
}

/** A list of all creases and panels that a part can stand on. */
function placeChoice(model: Model): HTMLSelectElement {
  const choice = el('select', {
    'aria-label': 'Crease or panel to add a part on',
    change: () => {
      const [kind, name] = choice.value.split('\n');
      model.pick(name === undefined ? null : { kind: kind === 'crease' ? 'crease' : 'panel', name });
    },
  });
  let known = '';
  model.motion.watch((motion) => {
    if (motion === null) return;
    const creases = motion.creases.map(({ name }) => name);
    const panels = motion.panels.filter(({ role }) => role === 'card').map(({ name }) => name);
    const now = JSON.stringify([creases, panels]);
    if (now === known) return;
    known = now;
    const group = (kind: Place['kind'], words: string, names: readonly string[]) =>
      el(
        'optgroup',
        { label: words },
        ...names.map((name) => el('option', { value: valueOfPlace({ kind, name }) }, name)),
      );
    choice.replaceChildren(
      el('option', { value: '' }, 'choose, or click in the figure'),
      group('crease', 'creases', creases),
      group('panel', 'panels', panels),
    );
    choice.value = '';
  });
  model.picked.watch((place) => {
    choice.value = place === null ? '' : valueOfPlace(place);
  });
  return choice;
}

/** Names have no line ends. */
const valueOfPlace = ({ kind, name }: Place): string => `${kind}\n${name}`;

/** @param added told once it is */
function card({ title, part, picture, trouble }: Starter, model: Model, added: () => void): HTMLElement {
  return el(
    'button',
    {
      type: 'button',
      class: 'starter',
      click: () => {
        if (!model.edit((source) => addPart(source, part), `${part.name} is added`)) return;
        model.pick(null);
        model.part.value = part.name;
        added();
      },
    },
    svg(
      'svg',
      { viewBox: picture.box.join(' '), 'aria-hidden': 'true', class: 'drawing' },
      ...picture.paths.map(({ d, tone }) =>
        svg('path', { d, 'fill-rule': 'evenodd', class: `card-${tone}` }),
      ),
    ),
    el('span', {}, title),
    ...(trouble === '' ? [] : [el('span', { class: 'trouble' }, trouble)]),
  );
}
