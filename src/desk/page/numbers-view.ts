import { duplicatePart, freeName, twinPart } from '../../edit/add-part.js';
import { fixDim, makeDim, makeRange, writeOut } from '../../edit/make-range.js';
import { dimNames, mentionsIn, writtenParts } from '../../edit/mentions.js';
import { goingWith, removePart } from '../../edit/remove.js';
import { renameDim, renamePart } from '../../edit/rename.js';
import { valueAt } from '../../figure/text/check.js';
import type { Path } from '../../figure/text/input-error.js';
import type { FigureSource } from '../../figure/text/source.js';
import { withValue } from '../../figure/text/yaml-write.js';
import { el, printable } from '../../report/live/dom.js';
import { sensibleRange } from '../../tune/sensible-range.js';
import type { Setting } from '../../tune/settings.js';
import { withValues } from '../../tune/with-values.js';
import type { Model } from './model.js';
import { settingLabel } from './setting-label.js';

/** Every dim and every number and word of a part, in one list by part. */
export function numbersView(model: Model): HTMLElement {
  const list = el('div', { class: 'numbers' });
  const open = new Set<string>(['']);
  let shape = '';
  let rows = new Map<string, Row>();
  const rebuild = () => {
    const rest = model.rest.value;
    if (rest === null) return;
    const now = JSON.stringify(
      rest.settings.map(({ name, kind, bounds, isWritten, options }) => [
        name,
        kind,
        bounds,
        isWritten,
        options,
      ]),
    );
    if (now === shape) {
      for (const setting of rest.settings) rows.get(setting.name)?.refresh(setting.now);
      return;
    }
    shape = now;
    const focused = document.activeElement?.getAttribute('data-key') ?? null;
    rows = new Map();
    const source = model.source();
    const parts = writtenParts(source);
    const groups = ['', ...parts.map(({ name }) => name)].map((part) => group(part, rest.settings, source));
    list.replaceChildren(...groups);
    if (focused !== null) list.querySelector<HTMLElement>(`[data-key="${CSS.escape(focused)}"]`)?.focus();
  };
  const group = (part: string, settings: readonly Setting[], source: FigureSource): HTMLElement => {
    const own = settings.filter(({ place }) =>
      part === ''
        ? place[0] === 'dims'
        : place[0] === 'parts' && valueAt(source, ['parts', place[1], 'name']) === part,
    );
    const lines = own.map((setting) => {
      const row = rowOf(setting, part, model, source);
      rows.set(setting.name, row);
      return row.row;
    });
    const told = part === '' ? arithmetic(source) : following(part, source, model);
    if (part === '' && lines.length + told.length === 0)
      told.push(
        el('p', { class: 'follows quiet' }, 'None yet: make a range of any number, and explore can try it.'),
      );
    const details = el(
      'details',
      { class: 'group', 'data-part': part },
      el('summary', {}, part === '' ? 'Dims of the figure' : printable(part)),
      ...(part === '' ? [] : [partButtons(part, model)]),
      ...lines,
      ...told,
    );
    details.open = open.has(part);
    details.addEventListener('toggle', () => {
      if (details.open) open.add(part);
      else open.delete(part);
      if (details.open && part !== '') model.part.value = part;
    });
    return details;
  };
  model.rest.watch(rebuild);
  model.refused.watch(() => {
    for (const setting of model.rest.value?.settings ?? []) rows.get(setting.name)?.refresh(setting.now);
  });
  model.part.watch((part) => {
    if (part === null) return;
    open.add(part);
    for (const details of list.querySelectorAll<HTMLDetailsElement>('details.group')) {
      details.classList.toggle('chosen', details.dataset.part === part);
      if (details.dataset.part !== part) continue;
      details.open = true;
      // Where all is one column, that would take the figure out of sight.
      const pane = details.closest('.pane');
      if (pane !== null && pane.scrollHeight > pane.clientHeight)
        details.scrollIntoView({ block: 'nearest' });
    }
  });
  return el('section', { class: 'pane', 'aria-label': 'Numbers' }, el('h2', {}, 'Numbers'), list);
}

/** Dims that follow from others, to be read only. */
function arithmetic(source: FigureSource): HTMLElement[] {
  const dims = (valueAt(source, ['dims']) ?? {}) as { [name: string]: unknown };
  return Object.entries(dims).flatMap(([name, value]) =>
    typeof value === 'string' ? [el('p', { class: 'follows quiet' }, `${name} = ${value}`)] : [],
  );
}

/** Fields of a part that follow dims: what they say, and the way to the dim. */
function following(part: string, source: FigureSource, model: Model): HTMLElement[] {
  const own = writtenParts(source).find(({ name }) => name === part);
  if (own === undefined) return [];
  const dims = new Set(dimNames(source));
  return mentionsIn(source)
    .filter(({ kind, path }) => kind === 'number' && path[0] === 'parts' && path[1] === own.path[1])
    .map(({ path, text }) => {
      const label = settingLabel([part, ...path.slice(2)].join('.'), part);
      if (!dims.has(text)) return el('p', { class: 'follows quiet' }, `${label} = ${text}`);
      const go = el('button', { type: 'button', class: 'to-dim', title: `Go to the dim ${text}` }, text);
      go.addEventListener('click', () => {
        model.part.value = null;
        const row = document.querySelector<HTMLElement>(`.numbers [data-key="${CSS.escape(text)}"]`);
        row?.closest('details')?.setAttribute('open', '');
        row?.focus();
      });
      return el('p', { class: 'follows quiet' }, `${label} = `, go);
    });
}

function partButtons(part: string, model: Model): HTMLElement {
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

interface Row {
  readonly row: HTMLElement;
  refresh(value: number | string): void;
}

function rowOf(setting: Setting, part: string, model: Model, source: FigureSource): Row {
  return setting.kind === 'word' ? wordRow(setting, part, model) : numberRow(setting, part, model, source);
}

function wordRow(setting: Setting, part: string, model: Model): Row {
  const label = settingLabel(setting.name, part);
  const select = el(
    'select',
    {
      'data-key': setting.name,
      'aria-label': `${part} ${label}`.trim(),
      change: () => {
        const value = setting.options[Number(select.value)];
        model.edit((source) => withValues(source, [{ setting, value }]));
      },
    },
    ...setting.options.map((option, i) => el('option', { value: i }, printable(String(option)))),
  );
  select.value = String(setting.options.indexOf(setting.now));
  return {
    row: el('div', { class: 'dim' }, el('span', {}, label), select),
    refresh(value) {
      select.value = String(setting.options.indexOf(value));
    },
  };
}

function numberRow(setting: Setting, part: string, model: Model, source: FigureSource): Row {
  const { place, bounds, unit, step } = setting;
  const label = settingLabel(setting.name, part);
  const named = `${part} ${label}`.trim();
  const shownUnit = unit === 'degrees' ? ' (°)' : unit === '' ? '' : ` (${unit})`;
  const by = step ?? 0.5;
  const slider = el('input', {
    type: 'range',
    min: Math.floor(bounds.low / by) * by,
    max: Math.ceil(bounds.high / by) * by,
    step: by,
    'data-key': setting.name,
    'aria-label': `${named}${shownUnit}`,
    input: () => {
      number.value = slider.value;
      model.drag(place, within(slider.valueAsNumber));
    },
    change: () => model.drop(place, within(slider.valueAsNumber)),
  });
  const within = (value: number) => Math.min(bounds.high, Math.max(bounds.low, value));
  const number = el('input', {
    type: 'number',
    step: 'any',
    'aria-label': `${named}, exactly`,
    change: () => {
      if (!Number.isNaN(number.valueAsNumber)) model.drop(place, number.valueAsNumber);
    },
  });
  const refresh = (value: number | string) => {
    // What is in the hand stays there.
    if (slider.matches(':active')) return;
    slider.value = String(value);
    // Nobody cuts a hundredth of a millimetre; the file has all of it.
    number.value = String(Math.round(100 * Number(value)) / 100);
    number.title = Number(number.value) === value ? '' : `In the file: ${value}`;
  };
  refresh(setting.now);
  return {
    row: el(
      'div',
      { class: 'dim' },
      el('span', { 'aria-hidden': 'true' }, `${label}${shownUnit}`),
      slider,
      number,
      rangeButton(setting, named, model, source),
    ),
    refresh,
  };
}

/** Makes a range of a number, or a number of a range; opens further ways for a dim. */
function rangeButton(
  { name, place, now, unit, isWritten }: Setting,
  named: string,
  model: Model,
  source: FigureSource,
): HTMLElement {
  const isRange = place[0] === 'dims' && typeof valueAt(source, place) === 'object';
  const value = Number(now);
  if (isRange) {
    const { from, to } = valueAt(source, place) as { from: number; to: number };
    return more(`${from} to ${to}`, named, [
      ['Fix it here', () => model.edit((file) => fixDim(file, name, value), `${name} is fixed at ${value}`)],
      ['Other ends …', () => otherEnds(place, { from, to }, name, model)],
      ['Rename', () => rename(name, model)],
    ]);
  }
  const range = sensibleRange(value, unit, {});
  const low = Math.round(Math.max(range.low, value - Math.max(5, Math.abs(value) / 4)));
  const high = Math.round(Math.min(range.high, value + Math.max(5, Math.abs(value) / 4)));
  /** With the number in it, where the file leaves it out. */
  const spelledOut = (file: FigureSource) =>
    isWritten ? file : { ...file, text: withValue(file.text, place, value) };
  const choices: [string, () => void][] = [
    [
      'Make it a range',
      () => {
        model.edit((file) => {
          return makeRange(spelledOut(file), [place], {
            from: Math.min(low, value),
            to: Math.max(high, value),
          }).text;
        }, `${named} may now go from ${low} to ${high}: explore tries it. It is a dim of the figure now`);
      },
    ],
  ];
  if (place[0] !== 'dims')
    choices.push([
      'Make it a dim',
      () => {
        model.edit(
          (file) => makeDim(spelledOut(file), [place]).text,
          `${named} is a dim now: others may follow it`,
        );
      },
    ]);
  else
    choices.push(
      [
        'Write it out',
        () => void model.edit((file) => writeOut(file, name), `${name} stands where it was used`),
      ],
      ['Rename', () => rename(name, model)],
    );
  return more('more', named, choices);
}

function rename(dim: string, model: Model): void {
  const to = prompt(`Another name for the dim ${dim}`, dim);
  if (to !== null) model.edit((source) => renameDim(source, dim, to), `${dim} is now ${to}`);
}

/** Asks for both ends of a range at once, as they are shown. */
function otherEnds(place: Path, { from, to }: { from: number; to: number }, dim: string, model: Model): void {
  const typed = prompt(`${dim} goes from … to …`, `${from} to ${to}`);
  if (typed === null) return;
  const ends = typed.match(/-?\d+(?:\.\d+)?/g)?.map(Number) ?? [];
  if (ends.length !== 2) {
    model.said.value = `'${typed}' is no range: give two numbers, as in ${from} to ${to}`;
    return;
  }
  const [low, high] = ends[0] <= ends[1] ? ends : [ends[1], ends[0]];
  model.edit(
    ({ text }) => withValue(withValue(text, [...place, 'from'], low), [...place, 'to'], high),
    `${dim} goes from ${low} to ${high}`,
  );
}

function more(
  words: string,
  named: string,
  choices: readonly (readonly [string, () => void])[],
): HTMLElement {
  const select = el(
    'select',
    {
      class: 'more',
      'aria-label': `More for ${named}`,
      change: () => {
        const chosen = choices[Number(select.value)];
        select.value = '';
        chosen?.[1]();
      },
    },
    el('option', { value: '' }, words),
    ...choices.map(([choice], i) => el('option', { value: i }, choice)),
  );
  return select;
}
