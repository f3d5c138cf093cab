import { addPart } from '../../edit/add-part.js';
import { el, svg } from '../../report/live/dom.js';
import type { Model } from './model.js';
import type { Place } from './place.js';
import type { Sent } from './sent.js';

type Starters = Extract<Sent, { tell: 'starters' }>['starters'];

/** The kinds of part that can stand on a crease or a panel: click one in the figure, or choose it by name. */
export function addView(model: Model): HTMLElement {
  const choice = el('select', {
    'aria-label': 'Crease or panel to add a part on',
    change: () => {
      const [kind, name] = choice.value.split('\n');
      model.pick(name === undefined ? null : { kind: kind === 'crease' ? 'crease' : 'panel', name });
    },
  });
  const offers = el('div', { class: 'starters' });
  // The button that was pressed is gone: who goes by keys goes on from here.
  const added = () => choice.focus({ preventScroll: true });
  let names = '';
  model.motion.watch((motion) => {
    if (motion === null) return;
    const places: Place[] = [
      ...motion.creases.map(({ name }): Place => ({ kind: 'crease', name })),
      ...motion.panels
        .filter(({ role }) => role === 'card')
        .map(({ name }): Place => ({ kind: 'panel', name })),
    ];
    const now = places.map(({ kind, name }) => `${kind}\n${name}`).join('\t');
    if (now === names) return;
    names = now;
    const group = (kind: Place['kind'], words: string) =>
      el(
        'optgroup',
        { label: words },
        ...places
          .filter((place) => place.kind === kind)
          .map(({ name }) => el('option', { value: `${kind}\n${name}` }, name)),
      );
    choice.replaceChildren(
      el('option', { value: '' }, 'choose, or click in the figure'),
      group('crease', 'creases'),
      group('panel', 'panels'),
    );
    choice.value = '';
  });
  model.picked.watch((place) => {
    choice.value = place === null ? '' : `${place.kind}\n${place.name}`;
    offers.replaceChildren(
      ...(place === null ? [] : [el('p', { class: 'quiet' }, `What can stand on ${place.name} …`)]),
    );
  });
  model.starters.watch((sent) => {
    if (sent === null) return;
    const { starters } = sent;
    offers.replaceChildren(
      ...(starters.length === 0
        ? [el('p', { class: 'quiet' }, 'Nothing can stand there.')]
        : starters.map((starter) => card(starter, model, added))),
    );
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

/** @param added told once it is */
function card(
  { title, part, picture, trouble }: Starters[number],
  model: Model,
  added: () => void,
): HTMLElement {
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
        svg('path', { d, 'fill-rule': 'evenodd', class: tone === 9 ? 'card-new' : `card-${tone}` }),
      ),
    ),
    el('span', {}, title),
    ...(trouble === '' ? [] : [el('span', { class: 'trouble' }, trouble)]),
  );
}
