import { addWant, askOfWant, removeWant, type WrittenWant, writtenWants } from '../../edit/wants.js';
import { InputError } from '../../figure/text/input-error.js';
import type { Panel } from '../../motion/assembly.js';
import { el, printable } from '../../report/live/dom.js';
import { onAny } from '../../report/live/signal.js';
import type { Model } from './model.js';
import { newWant, WANT_KINDS } from './new-want.js';

const WORDS = { least: 'at least', most: 'at most', target: 'about' } as const;

/** What the figure should do: each want with what is asked of it, to be changed or taken away; and one more to be said. */
export function wantsView(model: Model): HTMLElement {
  const list = el('ul', { class: 'plain wants' });
  const none = el(
    'p',
    { class: 'quiet' },
    'Nothing yet: any figure that breaks no limit is as good as any other.',
  );
  let wants: readonly WrittenWant[] = [];
  const draw = () => {
    none.hidden = wants.length > 0;
    list.replaceChildren(...wants.map((want, place) => row(want, place, model)));
  };
  onAny([model.text, model.rest], () => {
    const now = wantsNow(model);
    // Drawn anew only where something else is wanted: else no field could be gone through.
    if (now === null || JSON.stringify(now) === JSON.stringify(wants)) return;
    wants = now;
    draw();
  });
  // A number that was not taken goes back.
  model.refused.watch(draw);
  return el(
    'details',
    { open: true },
    el('summary', {}, 'What it should do'),
    none,
    list,
    newWantView(model),
  );
}

/** null while the text has a fault: that is told as soon as the worker has read it. */
function wantsNow(model: Model): readonly WrittenWant[] | null {
  if (model.fault.value !== null || model.text.value === null) return null;
  try {
    return writtenWants(model.source());
  } catch (error) {
    if (error instanceof InputError) return null;
    throw error;
  }
}

/** One more want: of which panel, what, and how much. */
function newWantView(model: Model): HTMLElement {
  const panel = el('select', { 'aria-label': 'Panel that should do something' });
  const kind = el(
    'select',
    { 'aria-label': 'What it should do', change: () => take() },
    ...WANT_KINDS.map(({ words }, i) => el('option', { value: i }, words)),
  );
  const asked = el('span', {});
  const value = el('input', { type: 'number', step: 'any', 'aria-label': 'How much' });
  const unit = el('span', {});
  const chosen = () => WANT_KINDS[Number(kind.value)];
  const take = () => {
    asked.textContent = WORDS[chosen().field];
    value.value = String(chosen().usual);
    unit.textContent = chosen().unit;
  };
  take();
  const add = () => {
    const on = model.motion.value?.panels.find(({ name }) => name === panel.value);
    if (on === undefined || Number.isNaN(value.valueAsNumber)) return;
    const want = newWant(chosen(), on, value.valueAsNumber);
    model.edit((source) => addWant(source, want), `It is wanted now: ${want.name}`);
  };
  model.motion.watch((motion) => {
    const names = (motion?.panels ?? []).filter(isPartsCard).map(({ name }) => name);
    if (motion === null || names.join('\n') === [...panel.options].map((each) => each.value).join('\n'))
      return;
    const kept = panel.value;
    panel.replaceChildren(...names.map((name) => el('option', { value: name }, printable(name))));
    if (names.includes(kept)) panel.value = kept;
  });
  model.part.watch((part) => {
    const own = model.motion.value?.panels.find((each) => each.part === part);
    if (own !== undefined && isPartsCard(own)) panel.value = own.name;
  });
  return el(
    'div',
    { class: 'row new-want' },
    panel,
    kind,
    el('label', {}, asked, value, unit),
    el('button', { type: 'button', click: add }, 'Want it'),
  );
}

const isPartsCard = ({ part, role }: Pick<Panel, 'part' | 'role'>): boolean =>
  part !== 'page' && role === 'card';

function row({ name, asked }: WrittenWant, place: number, model: Model): HTMLElement {
  const numbers = asked.map(({ field, value }) => {
    const input = el('input', {
      type: 'number',
      step: 'any',
      value,
      'aria-label': `${name}: ${WORDS[field]}`,
      change: () => {
        if (Number.isNaN(input.valueAsNumber)) return;
        model.edit(
          (source) => askOfWant(source, place, field, input.valueAsNumber),
          `${name}: ${WORDS[field]} ${input.value}`,
        );
      },
    });
    return el('label', {}, WORDS[field], input);
  });
  return el(
    'li',
    {},
    el('span', {}, name),
    ...numbers,
    el(
      'button',
      {
        type: 'button',
        'aria-label': `Remove the want ${name}`,
        click: () =>
          model.edit(
            (source) => removeWant(source, place),
            `${name} is no longer wanted; undo brings it back`,
          ),
      },
      'Remove',
    ),
  );
}
