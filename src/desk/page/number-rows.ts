import { fixDim, makeDim, makeRange, writeOut } from '../../edit/make-range.js';
import { renameDim } from '../../edit/rename.js';
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

/** A dim, or a number or word of a part, to be changed. */
export interface Row {
  readonly row: HTMLElement;
  /** Shows it as it is now. */
  refresh(setting: Setting): void;
}

/** @param part whose it is; empty for a dim */
export function rowOf(setting: Setting, part: string, model: Model, source: FigureSource): Row {
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
    refresh({ now }) {
      select.value = String(setting.options.indexOf(now));
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
  let value = Number(setting.now);
  const refresh = ({ now }: Setting) => {
    value = Number(now);
    // What is in the hand stays there.
    if (slider.matches(':active')) return;
    slider.value = String(value);
    // Nobody cuts a hundredth of a millimetre; the file has all of it.
    number.value = String(Math.round(100 * value) / 100);
    number.title = Number(number.value) === value ? '' : `In the file: ${value}`;
  };
  refresh(setting);
  return {
    row: el(
      'div',
      { class: 'dim' },
      el('span', { 'aria-hidden': 'true' }, `${label}${shownUnit}`),
      slider,
      number,
      rangeWays(setting, named, () => value, model, source),
    ),
    refresh,
  };
}

/** Makes a range of a number, or a number of a range; further ways for a dim. @param value it has now */
function rangeWays(
  setting: Setting,
  named: string,
  value: () => number,
  model: Model,
  source: FigureSource,
): HTMLElement {
  const { name, place } = setting;
  const isDim = place[0] === 'dims';
  const another: Way = ['Rename', () => rename(name, model)];
  const written = valueAt(source, place);
  if (isDim && typeof written === 'object') {
    const { from, to } = written as { from: number; to: number };
    return more(`${from} to ${to}`, named, [
      ['Fix it here', () => fix(name, value(), model)],
      ['Other ends …', () => otherEnds(place, { from, to }, name, model)],
      another,
    ]);
  }
  const range: Way = ['Make it a range', () => intoRange(setting, named, value(), model)];
  if (!isDim)
    return more('more', named, [range, ['Make it a dim', () => intoDim(setting, named, value(), model)]]);
  const out = () => void model.edit((file) => writeOut(file, name), `${name} stands where it was used`);
  return more('more', named, [range, ['Write it out', out], another]);
}

function fix(dim: string, value: number, model: Model): void {
  model.edit((file) => fixDim(file, dim, value), `${dim} is fixed at ${value}`);
}

function intoRange(setting: Setting, named: string, value: number, model: Model): void {
  const range = sensibleRange(value, setting.unit, {});
  const far = Math.max(5, Math.abs(value) / 4);
  const from = Math.min(value, Math.round(Math.max(range.low, value - far)));
  const to = Math.max(value, Math.round(Math.min(range.high, value + far)));
  model.edit(
    (file) => makeRange(spelledOut(file, setting, value), [setting.place], { from, to }).text,
    `${named} may now go from ${from} to ${to}: explore tries it. It is a dim of the figure now`,
  );
}

function intoDim(setting: Setting, named: string, value: number, model: Model): void {
  model.edit(
    (file) => makeDim(spelledOut(file, setting, value), [setting.place]).text,
    `${named} is a dim now: others may follow it`,
  );
}

/** The file with a number in it that it leaves out. */
const spelledOut = (file: FigureSource, { place, isWritten }: Setting, value: number): FigureSource =>
  isWritten ? file : { ...file, text: withValue(file.text, place, value) };

function rename(dim: string, model: Model): void {
  const to = prompt(`Another name for the dim ${dim}`, dim);
  if (to !== null) model.edit((source) => renameDim(source, dim, to), `${dim} is now ${to}`);
}

/** Asks for both ends of a range at once, as they are shown. */
function otherEnds(place: Path, { from, to }: { from: number; to: number }, dim: string, model: Model): void {
  const typed = prompt(`${dim} goes from … to …`, `${from} to ${to}`);
  if (typed === null) return;
  // In 10-40 the stroke is no minus.
  const ends = typed.match(/(?<![\d.])-?\d+(?:\.\d+)?/g)?.map(Number) ?? [];
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

/** Something that can be done, as a person says it. */
type Way = readonly [words: string, go: () => void];

function more(words: string, named: string, choices: readonly Way[]): HTMLElement {
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
