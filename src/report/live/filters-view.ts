import { GRADES } from '../../card/grade.js';
import { counted } from '../../text/phrases.js';
import { threeDigits } from '../charts/text.js';
import { decimal, titled } from '../words/numbers.js';

import { type Column, varies } from './columns.js';
import { el } from './dom.js';
import { type Bounds, forFailing, forWorking, NO_FILTERS, withBounds } from './filters.js';
import type { Study } from './study.js';

/** Filters on verdict, dims and scores, and how many pass. */
export function filtersView(study: Study): HTMLElement {
  const worksOnly = el('input', {
    type: 'checkbox',
    change: () => {
      study.filters.value = forWorking(study.filters.value, worksOnly.checked);
    },
  });
  const names = [...study.figure.wants, ...study.limits].map(({ name }) => name);
  const failsAt = el(
    'select',
    {
      change: () => {
        const at = failsAt.value === '' ? null : Number(failsAt.value);
        study.filters.value = forFailing(study.filters.value, at);
      },
    },
    el('option', { value: '' }, 'anything or nothing'),
    ...names.map((name, place) => el('option', { value: place }, name)),
  );
  const grade = el(
    'select',
    {
      change: () => {
        const asked = GRADES.find((each) => each === grade.value) ?? null;
        study.filters.value = { ...study.filters.value, grade: asked };
      },
    },
    el('option', { value: '' }, 'in any way'),
    ...GRADES.map((each) => el('option', { value: each }, each)),
  );
  const graded = study.candidates.grade.some((place) => place < GRADES.length);
  const clear = el(
    'button',
    {
      type: 'button',
      click: () => {
        study.filters.value = NO_FILTERS;
      },
    },
    'Clear filters',
  );
  const count = el('p', { role: 'status' });
  study.filters.watch((filters) => {
    worksOnly.checked = filters.worksOnly;
    failsAt.value = filters.failsAt === null ? '' : String(filters.failsAt);
    grade.value = filters.grade ?? '';
    clear.disabled =
      !filters.worksOnly && filters.grade === null && filters.failsAt === null && filters.bounds.size === 0;
  });
  study.shown.watch((shown) => {
    const all = study.candidates.count;
    const inPage =
      all === study.scored ? '' : ` in this page, of ${study.scored.toLocaleString('en')} scored`;
    count.textContent = `${shown.length.toLocaleString('en')} of ${counted(all, 'dummy', 'dummies')}${inPage} ${shown.length === 1 ? 'passes' : 'pass'}.`;
  });
  const fields = study.columns.map((column, place) =>
    varies(column) ? boundsField(study, column, place) : '',
  );
  return el(
    'div',
    { class: 'filters' },
    el(
      'div',
      { class: 'row' },
      el('label', {}, worksOnly, 'Only those that work'),
      el('label', {}, 'Fails at', failsAt),
      graded ? el('label', {}, 'Page', grade) : el('span', { class: 'quiet' }, UNGRADED),
      clear,
      count,
    ),
    el(
      'details',
      {},
      el('summary', {}, 'Filter by dims and scores'),
      el('div', { class: 'fields' }, ...fields),
    ),
  );
}

/** Such as in a study from before it was kept. */
const UNGRADED = 'How hard the page turns is not known of any dummy here.';

function boundsField(study: Study, column: Column, place: number): HTMLElement {
  return column.options === null ? rangeField(study, column, place) : choiceField(study, column, place);
}

function rangeField(study: Study, column: Column, place: number): HTMLElement {
  const put = (bounds: Bounds | null) => {
    study.filters.value = withBounds(study.filters.value, place, bounds);
  };
  const change = () => {
    const given = low.value !== '' || high.value !== '';
    put(
      given
        ? {
            low: low.value === '' ? Number.NEGATIVE_INFINITY : low.valueAsNumber,
            high: high.value === '' ? Number.POSITIVE_INFINITY : high.valueAsNumber,
          }
        : null,
    );
  };
  const input = (side: string) =>
    el('input', {
      type: 'number',
      step: 'any',
      'aria-label': `${titled(column)}, ${side}`,
      change,
    });
  const low = input('at least');
  const high = input('at most');
  study.filters.watch(({ bounds }) => {
    const mine = bounds.get(place);
    const range = mine && 'low' in mine ? mine : null;
    low.value = range && Number.isFinite(range.low) ? short(range.low) : '';
    high.value = range && Number.isFinite(range.high) ? short(range.high) : '';
  });
  const found = `${threeDigits(column.least)} to ${threeDigits(column.most)}`;
  return el('fieldset', {}, el('legend', {}, `${titled(column)}, ${found}`), low, ' to ', high);
}

function choiceField(study: Study, column: Column, place: number): HTMLElement {
  const boxes = (column.options ?? []).map((option) => ({
    option,
    box: el('input', {
      type: 'checkbox',
      change: () => {
        const ticked = boxes.flatMap(({ box }, i) => (box.checked ? [i] : []));
        const bounds = ticked.length === boxes.length ? null : { options: new Set(ticked) };
        study.filters.value = withBounds(study.filters.value, place, bounds);
      },
    }),
  }));
  study.filters.watch(({ bounds }) => {
    const mine = bounds.get(place);
    boxes.forEach(({ box }, i) => {
      box.checked = mine === undefined || !('options' in mine) || mine.options.has(i);
    });
  });
  return el(
    'fieldset',
    {},
    el('legend', {}, titled(column)),
    ...boxes.map(({ option, box }) => el('label', {}, box, option)),
  );
}

/** A number as an input field takes it. */
const short = (value: number): string => String(Number(decimal(value, 3).replace('−', '-')));
