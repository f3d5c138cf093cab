import type { FreeDim } from '../../figure/dims.js';
import { decimal, titled } from '../words/numbers.js';

import { el, printable } from './dom.js';
import type { Study } from './study.js';

/** The dims of the chosen dummy, to drag; and the figure file as changed, to take away. */
export function changeView(study: Study): HTMLElement {
  const { figure } = study;
  const set = (place: number, value: number) => {
    const vector = study.vector.value.slice();
    vector[place] = value;
    study.vector.value = vector;
  };
  const rows = figure.free.map((dim, place) => dimRow(dim, (value) => set(place, value)));
  const undo = el(
    'button',
    {
      type: 'button',
      click: () => {
        study.vector.value = study.vectorOf(study.chosen.value);
      },
    },
    'Undo changes',
  );
  study.vector.watch((vector) => {
    rows.forEach(({ refresh }, place) => {
      refresh(vector[place]);
    });
    undo.disabled = !study.changed;
  });
  const download = el(
    'button',
    {
      type: 'button',
      click: () =>
        save(
          `${figure.name}-${study.changed ? 'changed' : study.nameOf(study.chosen.value)}.yaml`.replace(
            /[^\p{L}\p{N}._-]/gu,
            '-',
          ),
          figure.toYaml(study.vector.value),
        ),
    },
    'Save as figure file',
  );
  return el(
    'section',
    { class: 'change', 'aria-label': 'Try a change' },
    el('h4', {}, 'Try a change'),
    rows.length === 0
      ? el('p', {}, 'This figure has no dim that is free to vary.')
      : el('div', { class: 'dims' }, ...rows.map(({ row }) => row)),
    el('div', { class: 'buttons' }, undo, download),
  );
}

interface DimRow {
  readonly row: HTMLElement;
  refresh(value: number): void;
}

function dimRow(dim: FreeDim, set: (value: number) => void): DimRow {
  return dim.kind === 'choice' ? choiceRow(dim, set) : rangeRow(dim, set);
}

function choiceRow(dim: FreeDim & { kind: 'choice' }, set: (value: number) => void): DimRow {
  const select = el(
    'select',
    { 'aria-label': dim.name, change: () => set(Number(select.value)) },
    ...dim.options.map((option, place) => el('option', { value: place }, printable(String(option)))),
  );
  return {
    row: el('label', { class: 'dim' }, el('span', {}, dim.name), select),
    refresh(value) {
      select.value = String(value);
    },
  };
}

function rangeRow(dim: FreeDim & { kind: 'real' }, set: (value: number) => void): DimRow {
  const step = dim.step ?? fineStep(dim.max - dim.min);
  const name = titled(dim);
  const slider = el('input', {
    type: 'range',
    min: dim.min,
    max: dim.max,
    step,
    'aria-label': name,
    input: () => set(Math.min(dim.max, Number(slider.value))),
  });
  const number = el('input', {
    type: 'number',
    min: dim.min,
    max: dim.max,
    step: 'any',
    'aria-label': `${name}, exactly`,
    change: () => {
      const typed = number.valueAsNumber;
      set(Number.isNaN(typed) ? Number(slider.value) : Math.min(dim.max, Math.max(dim.min, typed)));
    },
  });
  return {
    row: el('div', { class: 'dim' }, el('span', { 'aria-hidden': 'true' }, name), slider, number),
    refresh(value) {
      slider.value = String(value);
      number.value = decimal(value, 2).replace('−', '-');
    },
  };
}

/** A round step of about a two-hundredth of a range. */
function fineStep(range: number): number {
  return 10 ** Math.round(Math.log10(range / 200));
}

function save(name: string, text: string): void {
  const url = URL.createObjectURL(new Blob([text], { type: 'application/yaml' }));
  el('a', { href: url, download: name }).click();
  // The browser reads the blob after this turn of its loop.
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}
