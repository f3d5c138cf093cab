import { addWant, askOfWant, removeWant, writtenWants } from '../../edit/wants.js';
import { InputError } from '../../figure/text/input-error.js';
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
  const add = el(
    'button',
    {
      type: 'button',
      click: () => {
        const on = model.motion.value?.panels.find(({ name }) => name === panel.value);
        if (on === undefined || Number.isNaN(value.valueAsNumber)) return;
        const want = newWant(chosen(), on, value.valueAsNumber);
        model.edit((source) => addWant(source, want), `It is wanted now: ${want.name}`);
      },
    },
    'Want it',
  );
  let shown = '';
  const refresh = () => {
    if (model.fault.value !== null || model.text.value === null) return;
    let wants: ReturnType<typeof writtenWants>;
    try {
      wants = writtenWants(model.source());
    } catch (error) {
      // Its fault is told as soon as the worker has read it.
      if (error instanceof InputError) return;
      throw error;
    }
    const now = JSON.stringify(wants);
    if (now === shown) return;
    shown = now;
    none.hidden = wants.length > 0;
    list.replaceChildren(...wants.map((want, place) => row(want, place, model)));
  };
  onAny([model.text, model.rest, model.refused], refresh);
  model.motion.watch((motion) => {
    const names = (motion?.panels ?? []).filter(({ part, role }) => part !== 'page' && role === 'card');
    const all = names.map(({ name }) => name);
    if (motion === null || all.join('\n') === [...panel.options].map((each) => each.value).join('\n')) return;
    const kept = panel.value;
    panel.replaceChildren(...all.map((name) => el('option', { value: name }, printable(name))));
    if (all.includes(kept)) panel.value = kept;
  });
  model.part.watch((part) => {
    const own = model.motion.value?.panels.find((each) => each.part === part && part !== 'page');
    if (own !== undefined && own.role === 'card') panel.value = own.name;
  });
  return el(
    'details',
    { open: true },
    el('summary', {}, 'What it should do'),
    none,
    list,
    el('div', { class: 'row new-want' }, panel, kind, el('label', {}, asked, value, unit), add),
  );
}

function row(
  { name, asked }: ReturnType<typeof writtenWants>[number],
  place: number,
  model: Model,
): HTMLElement {
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
