import { threeDigits } from '../charts/text.js';
import { titled } from '../words/numbers.js';
import { prepared } from './canvas.js';
import { type Column, varies } from './columns.js';
import { colour, el, onColoursChanged, oncePerFrame, svg } from './dom.js';
import { frontOf } from './front.js';
import { onAny } from './signal.js';
import type { Study } from './study.js';
import { ticks } from './ticks.js';

const HEIGHT = 400;
const MARGIN = { left: 56, right: 16, top: 14, bottom: 40 };
/** So many of the heaviest wants are held against one another for the first view. */
const MOST_COMPARED = 5;
/** A click picks the nearest dummy within so many px. */
const REACH = 14;

/** Any two columns against each other, a point for each dummy, the front in colour. Click to pick. */
export function scatter(study: Study): HTMLElement {
  const usable = study.columns.flatMap((column, place) => (varies(column) && !column.options ? [place] : []));
  if (usable.length < 2)
    return el('p', {}, 'There are no two scores that differ between dummies: there is nothing to trade off.');
  const [across, up] = tradedWants(study, usable);
  const xPick = columnChoice('Across', across, usable, study, () => redraw());
  const yPick = columnChoice('Up', up, usable, study, () => redraw());
  const canvas = el('canvas', { 'aria-hidden': 'true' });
  const over = svg('svg', { role: 'img', class: 'over' });
  const board = el('div', { class: 'board scatter' }, canvas, over);
  const walk = el('input', { type: 'range', min: 0, step: 1, 'aria-label': 'Walk along the front' });
  const note = el('p', { class: 'quiet' });

  const picked = () => [xPick, yPick].map(({ value }) => study.columns[Number(value)]);
  const axes = (): readonly [Axis, Axis] => {
    const [x, y] = picked();
    return [
      new Axis(x, MARGIN.left, board.clientWidth - MARGIN.right),
      new Axis(y, HEIGHT - MARGIN.bottom, MARGIN.top),
    ];
  };
  const front = () => {
    const [x, y] = picked();
    return frontOf(study, x, y);
  };
  const draw = () => {
    if (board.clientWidth === 0) return;
    const [x, y] = axes();
    const places = front();
    drawPoints(canvas, study, x, y);
    drawOver(over, study, x, y, places);
    standOn(walk, study, places, x.column);
    note.textContent = aboutFront(x.column, y.column, places.length);
  };
  const redraw = oncePerFrame(draw);
  walk.addEventListener('input', () => {
    const place = front()[Number(walk.value)];
    if (place !== undefined) study.chosen.value = place;
  });
  board.addEventListener('click', (event) => {
    const { left, top } = board.getBoundingClientRect();
    const [x, y] = axes();
    const place = nearest(study.shown.value, x, y, event.clientX - left, event.clientY - top);
    if (place !== null) study.chosen.value = place;
  });
  onAny([study.shown, study.chosen, study.beside], redraw);
  new ResizeObserver(redraw).observe(board);
  onColoursChanged(redraw);
  addEventListener('beforeprint', draw);
  return el(
    'div',
    {},
    el('div', { class: 'row' }, el('label', {}, 'Up', yPick), el('label', {}, 'Across', xPick)),
    board,
    el('label', { class: 'walk' }, 'Walk along the front', walk),
    note,
  );
}

function columnChoice(
  way: string,
  place: number,
  usable: readonly number[],
  { columns }: Study,
  change: () => void,
): HTMLSelectElement {
  const choice = el(
    'select',
    { 'aria-label': `${way} the chart`, change },
    ...usable.map((each) => el('option', { value: each }, titled(columns[each]))),
  );
  choice.value = String(place);
  return choice;
}

/** Puts the walk where the dummy on show stands on the front, or next to it. */
function standOn(walk: HTMLInputElement, study: Study, front: readonly number[], x: Column): void {
  const { value: chosen } = study.chosen;
  const at = front.indexOf(chosen);
  walk.max = String(Math.max(0, front.length - 1));
  walk.disabled = front.length < 2;
  walk.value = String(at < 0 ? nearestAlong(front, x, chosen) : at);
  walk.setAttribute(
    'aria-valuetext',
    at < 0 ? 'not on the front' : `${study.nameOf(front[at])}, ${at + 1} of ${front.length}`,
  );
}

class Axis {
  readonly #room: number;

  constructor(
    readonly column: Column,
    readonly from: number,
    readonly to: number,
  ) {
    this.#room = 0.04 * (column.most - column.least);
  }

  at(value: number): number {
    const { least, most } = this.column;
    const share = (value - least + this.#room) / (most - least + 2 * this.#room);
    return this.from + share * (this.to - this.from);
  }

  ticks(apart: number): { at: number; text: string }[] {
    const { least, most } = this.column;
    const count = Math.max(2, Math.abs(this.to - this.from) / apart);
    return ticks(least, most, count).map((value) => ({ at: this.at(value), text: threeDigits(value) }));
  }
}

/** The two wants to begin with: of the heaviest, those between which there is most to choose; else what there is. */
function tradedWants(study: Study, usable: readonly number[]): readonly [number, number] {
  const { columns, figure } = study;
  const weight = (place: number) =>
    figure.wants.find(({ name }) => name === columns[place].name)?.weight ?? 0;
  const wants = usable
    .filter((place) => columns[place].kind === 'want')
    .sort((a, b) => weight(b) - weight(a));
  const heaviest = wants.slice(0, MOST_COMPARED);
  let best: readonly [number, number] | null = null;
  let longest = 0;
  for (const [i, across] of heaviest.entries())
    for (const up of heaviest.slice(i + 1)) {
      const { length } = frontOf(study, columns[across], columns[up]);
      if (length <= longest) continue;
      longest = length;
      best = [across, up];
    }
  const rest = usable.filter((place) => columns[place].kind !== 'want').reverse();
  const [across, up] = [...wants, ...rest];
  return best ?? [across, up];
}

function drawPoints(canvas: HTMLCanvasElement, { candidates, shown }: Study, x: Axis, y: Axis): void {
  const width = x.to + MARGIN.right;
  const paint = prepared(canvas, width, HEIGHT);
  const passes = new Uint8Array(candidates.count);
  for (const place of shown.value) passes[place] = 1;
  const dots = (those: number, side: number, fill: string, alpha: number) => {
    paint.fillStyle = fill;
    paint.globalAlpha = alpha;
    for (let place = 0; place < candidates.count; place++)
      if (passes[place] === those)
        paint.fillRect(
          x.at(x.column.values[place]) - side / 2,
          y.at(y.column.values[place]) - side / 2,
          side,
          side,
        );
  };
  dots(0, 2, colour('quiet'), 0.25);
  dots(1, 3, colour('ink'), candidates.count > 2000 ? 0.45 : 0.65);
}

function drawOver(over: SVGSVGElement, study: Study, x: Axis, y: Axis, front: readonly number[]): void {
  const { shown, chosen, beside } = study;
  const mark = (place: number, r: number, kind: string) => {
    const [cx, cy] = [x.at(x.column.values[place]), y.at(y.column.values[place])];
    return Number.isNaN(cx + cy) ? '' : svg('circle', { cx, cy, r, class: kind });
  };
  const bottom = HEIGHT - MARGIN.bottom;
  over.setAttribute('viewBox', `0 0 ${x.to + MARGIN.right} ${HEIGHT}`);
  over.setAttribute(
    'aria-label',
    `${titled(y.column)} against ${titled(x.column)}: ${shown.value.length} points.`,
  );
  over.replaceChildren(
    ...x
      .ticks(90)
      .flatMap(({ at, text }) => [
        svg('line', { x1: at, x2: at, y1: MARGIN.top, y2: bottom, class: 'grid' }),
        svg('text', { x: at, y: bottom + 16, 'text-anchor': 'middle' }, text),
      ]),
    ...y
      .ticks(60)
      .flatMap(({ at, text }) => [
        svg('line', { x1: MARGIN.left, x2: x.to, y1: at, y2: at, class: 'grid' }),
        svg('text', { x: MARGIN.left - 8, y: at + 4, 'text-anchor': 'end' }, text),
      ]),
    svg('text', { x: x.to, y: bottom + 34, 'text-anchor': 'end', class: 'title' }, `${titled(x.column)} →`),
    svg('text', { x: MARGIN.left + 6, y: MARGIN.top + 6, class: 'title' }, `↑ ${titled(y.column)}`),
    ...front.map((place) => mark(place, 4.5, 'front')),
    beside.value === null ? '' : mark(beside.value, 8, 'beside'),
    mark(chosen.value, 9, 'chosen'),
  );
}

/** The place in the front that lies nearest to a candidate across the chart. */
function nearestAlong(front: readonly number[], { values }: Column, place: number): number {
  const far = front.map((each) => Math.abs(values[each] - values[place]));
  return Math.max(0, far.indexOf(Math.min(...far)));
}

function nearest(places: readonly number[], x: Axis, y: Axis, px: number, py: number): number | null {
  let best: number | null = null;
  let least = REACH * REACH;
  for (const place of places) {
    const far = (x.at(x.column.values[place]) - px) ** 2 + (y.at(y.column.values[place]) - py) ** 2;
    if (far < least) {
      least = far;
      best = place;
    }
  }
  return best;
}

function aboutFront(x: Column, y: Column, count: number): string {
  if (x.better === null || y.better === null) return 'Between these two there is nothing to trade off.';
  const corner = `${y.better === 'more' ? 'upper' : 'lower'} ${x.better === 'more' ? 'right' : 'left'}`;
  return `Better lies to the ${corner}. In colour, those ${count} that no other beats in both of these values.`;
}
