import { GRADES } from '../../card/grade.js';
import { OUTCOMES } from '../../study/row.js';
import { titled } from '../words/numbers.js';
import { cell } from './cells.js';
import type { Column } from './columns.js';
import { el } from './dom.js';
import { Pictures } from './pictures.js';
import type { Study } from './study.js';

const ROWS = 20;

/** What the table is sorted by: rank (null) or a column. */
interface Order {
  readonly column: number | null;
  readonly falling: boolean;
}

/** The dummies that pass the filters, with a little picture of each. A row's button shows it. */
export function ranking(study: Study): HTMLElement {
  const pictures = new Pictures(study);
  const columns = ['desirability', 'want', 'dim', 'limit'].flatMap((kind) =>
    study.columns.flatMap((column, place) => (column.kind === kind ? [place] : [])),
  );
  let order: Order = { column: null, falling: false };
  let first = 0;
  let sorted: readonly number[] = [];

  const body = el('tbody');
  const heads = [null, ...columns].map((place) => headOf(study, place, () => sort(place)));
  const where = el('span', { role: 'status' });
  const turn = (by: number) => () => {
    first += by * ROWS;
    refresh();
  };
  const before = el('button', { type: 'button', click: turn(-1) }, 'Better ones');
  const after = el('button', { type: 'button', click: turn(1) }, 'More');

  const refresh = () => {
    first = Math.max(0, Math.min(first, ROWS * Math.floor((sorted.length - 1) / ROWS)));
    const page = sorted.slice(first, first + ROWS);
    body.replaceChildren(...page.map((place) => rowOf(study, place, columns, pictures)));
    where.textContent =
      sorted.length === 0
        ? 'None passes the filters.'
        : `${first + 1} to ${first + page.length} of ${sorted.length.toLocaleString('en')}`;
    before.disabled = first === 0;
    after.disabled = first + ROWS >= sorted.length;
    mark();
  };
  const mark = () => {
    for (const row of body.rows) {
      const isChosen = Number(row.dataset.place) === study.chosen.value;
      row.classList.toggle('chosen', isChosen);
      row.classList.toggle('beside', Number(row.dataset.place) === study.beside.value);
      row.querySelector('button')?.setAttribute('aria-pressed', String(isChosen));
    }
  };
  const show = () => {
    sorted = sortedBy(study, order);
    first = 0;
    for (const { head, place } of heads) {
      if (place === order.column) head.setAttribute('aria-sort', order.falling ? 'descending' : 'ascending');
      else head.removeAttribute('aria-sort');
    }
    refresh();
  };
  const sort = (column: number | null) => {
    order = { column, falling: order.column === column ? !order.falling : wantsFalling(study, column) };
    show();
  };
  study.shown.watch(show);
  study.chosen.watch((place) => {
    // Picked elsewhere: the table turns to its row.
    const at = sorted.indexOf(place);
    if (at >= 0 && (at < first || at >= first + ROWS)) {
      first = ROWS * Math.floor(at / ROWS);
      refresh();
    } else mark();
  });
  study.beside.watch(mark);
  return el(
    'div',
    { class: 'ranking' },
    // Beside the table and not in it: a table is as wide as all its columns, of which a narrow page shows some.
    el(
      'p',
      { class: 'quiet' },
      'Best first, or sorted by the heading that you press. Numbers of dummies are those of candidates.csv, which holds all of them.',
    ),
    tableOf(
      heads.map(({ head }) => head),
      body,
    ),
    el('div', { class: 'buttons' }, before, after, where),
  );
}

/** The heading of a column, or of the rank (null), that sorts by it. */
function headOf(
  { columns }: Study,
  place: number | null,
  click: () => void,
): { readonly head: HTMLElement; readonly place: number | null } {
  const name = place === null ? 'rank' : titled(columns[place]);
  return { head: el('th', { scope: 'col' }, el('button', { type: 'button', click }, name)), place };
}

function tableOf([rank, ...rest]: readonly HTMLElement[], body: HTMLElement): HTMLElement {
  const words = ['dummy', 'verdict'].map((word) => el('th', { scope: 'col', class: 'word' }, word));
  return el(
    'div',
    { class: 'scroll', tabindex: 0, role: 'region', 'aria-label': 'Ranked table' },
    el(
      'table',
      {},
      el('caption', { class: 'hidden' }, 'Dummies, ranked'),
      el('thead', {}, el('tr', {}, rank, el('td', {}), ...words, ...rest)),
      body,
    ),
  );
}

function rowOf(
  study: Study,
  place: number,
  columns: readonly number[],
  pictures: Pictures,
): HTMLTableRowElement {
  const { candidates } = study;
  const wants = study.figure.wants.length;
  const met = (column: Column, index: number) =>
    column.kind === 'want' || column.kind === 'limit'
      ? candidates.met[place * (wants + study.limits.length) + index] === 1
      : true;
  const firstWant = study.columns.findIndex(({ kind }) => kind === 'want');
  const firstLimit = study.columns.findIndex(({ kind }) => kind === 'limit');
  const built = ['works', 'fails'].includes(OUTCOMES[candidates.outcome[place]]);
  return el(
    'tr',
    { 'data-place': place },
    el('td', {}, candidates.rank[place].toLocaleString('en')),
    el('td', { class: 'picture' }, pictures.of(place)),
    el(
      'th',
      { scope: 'row', class: 'word' },
      el(
        'button',
        {
          type: 'button',
          click: () => {
            study.chosen.value = place;
          },
        },
        study.nameOf(place),
      ),
    ),
    el('td', { class: 'word' }, verdictOf(study, place)),
    ...columns.map((at) => {
      const column = study.columns[at];
      const index = column.kind === 'want' ? at - firstWant : wants + at - firstLimit;
      return el(
        'td',
        { class: built && !met(column, index) ? 'missed' : '' },
        cell(column, column.values[place]),
      );
    }),
  );
}

function verdictOf(study: Study, place: number): string {
  const outcome = OUTCOMES[study.candidates.outcome[place]];
  if (outcome === 'works' && GRADES[study.candidates.grade[place]] === 'stiff') return 'works, stiff';
  return outcome === 'fails' ? `fails at ${study.missedBy(place).join(', ')}` : outcome;
}

/** A first press sorts by what is better first. */
function wantsFalling({ columns }: Study, place: number | null): boolean {
  return place !== null && columns[place].better === 'more';
}

function sortedBy({ shown, columns }: Study, { column, falling }: Order): readonly number[] {
  if (column === null) return falling ? [...shown.value].reverse() : shown.value;
  const { values } = columns[column];
  const way = falling ? -1 : 1;
  // What was not computed comes last, whichever way.
  return [...shown.value].sort((a, b) => {
    const [x, y] = [values[a], values[b]];
    if (Number.isNaN(x) || Number.isNaN(y)) return Number(Number.isNaN(x)) - Number(Number.isNaN(y));
    return way * (x - y) || a - b;
  });
}
