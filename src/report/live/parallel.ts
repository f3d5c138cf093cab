import { titled } from '../words/numbers.js';
import { Brush } from './brush.js';
import { cell } from './cells.js';
import { varies } from './columns.js';
import { el, onColoursChanged, oncePerFrame, svg } from './dom.js';
import { type Bounds, withBounds } from './filters.js';
import { Lines } from './lines.js';
import { onAny } from './signal.js';
import type { Study } from './study.js';
import { Upright } from './upright.js';

const HEIGHT = 320;
const COLUMN = 72;
/** A click picks the nearest line within so many px. */
const REACH = 12;

/** Every dummy as a line across upright axes; drag along an axis to filter, click a line to pick it. */
export function parallel(study: Study): HTMLElement {
  const places = study.columns.flatMap((column, place) =>
    varies(column) && column.kind !== 'limit' ? [place] : [],
  );
  const uprights = places.map((place) => new Upright(study.columns[place], HEIGHT));
  const row = (texts: readonly string[], kind: string) =>
    el('div', { class: `heads ${kind}` }, ...texts.map((text) => el('span', {}, text)));
  const lines = new Lines(el('canvas', { 'aria-hidden': 'true' }));
  const over = svg('svg', { role: 'img', class: 'over' });
  const board = el('div', { class: 'board lines' }, lines.canvas, over);

  const draw = () => {
    const { clientWidth: width } = board;
    if (width === 0) return;
    const xs = places.map((_, axis) => ((axis + 0.5) * width) / places.length);
    lines.draw(study, uprights, xs, width, HEIGHT);
    drawOver(over, study, places, uprights, xs);
  };
  const redraw = oncePerFrame(draw);
  new Brush(board, {
    axisAt(px) {
      const along = (px * places.length) / board.clientWidth;
      const axis = Math.min(places.length - 1, Math.max(0, Math.floor(along)));
      return { axis, far: Math.abs(along - axis - 0.5) * (board.clientWidth / places.length) };
    },
    brushed(axis, from, to) {
      study.filters.value = withBounds(study.filters.value, places[axis], uprights[axis].between(from, to));
    },
    clicked(px, py) {
      const picked = nearest(study, uprights, (px * places.length) / board.clientWidth - 0.5, py);
      if (picked !== null) study.chosen.value = picked;
    },
    cleared(axis) {
      study.filters.value = withBounds(study.filters.value, places[axis], null);
    },
  });
  onAny([study.shown, study.chosen, study.beside], redraw);
  new ResizeObserver(redraw).observe(board);
  onColoursChanged(redraw);
  addEventListener('beforeprint', draw);

  const wide = el(
    'div',
    { class: 'parallel' },
    row(
      places.map((place) => titled(study.columns[place])),
      'names',
    ),
    row(
      uprights.map(({ top }) => top),
      'ends',
    ),
    board,
    row(
      uprights.map(({ bottom }) => bottom),
      'ends',
    ),
  );
  wide.style.minWidth = `${places.length * COLUMN}px`;
  return el(
    'div',
    {},
    el(
      'div',
      { class: 'scroll', tabindex: 0, role: 'region', 'aria-label': 'Dims and scores of every dummy' },
      wide,
    ),
    el(
      'p',
      { class: 'quiet' },
      'Each line is a dummy. Drag along an axis to keep only what lies there, click an axis to let all pass again, click a line to pick it. The filters above do the same without a pointer.',
    ),
  );
}

function drawOver(
  over: SVGSVGElement,
  { filters, shown, chosen, columns }: Study,
  places: readonly number[],
  uprights: readonly Upright[],
  xs: readonly number[],
): void {
  over.setAttribute('viewBox', `0 0 ${over.clientWidth} ${HEIGHT}`);
  over.setAttribute(
    'aria-label',
    `${shown.value.length} dummies across ${places.map((place) => columns[place].name).join(', ')}`,
  );
  over.replaceChildren(
    ...uprights.flatMap((upright, axis) => {
      const bounds = filters.value.bounds.get(places[axis]);
      const value = columns[places[axis]].values[chosen.value];
      const y = upright.at(chosen.value);
      return [
        svg('line', { x1: xs[axis], x2: xs[axis], y1: upright.high, y2: upright.low, class: 'axis' }),
        ...(bounds ? brushMarks(upright, bounds, xs[axis]) : []),
        ...upright.optionMarks.map(({ at, text }) => svg('text', { x: xs[axis] + 6, y: at + 4 }, text)),
        Number.isNaN(y) || columns[places[axis]].options
          ? ''
          : svg(
              'text',
              {
                x: xs[axis] + (axis < places.length - 1 ? 7 : -7),
                y: y - 5,
                'text-anchor': axis < places.length - 1 ? 'start' : 'end',
                class: 'value',
              },
              cell(columns[places[axis]], value),
            ),
      ];
    }),
  );
}

function brushMarks(upright: Upright, bounds: Bounds, x: number): SVGElement[] {
  return upright
    .spans(bounds)
    .map(([from, to]) =>
      svg('rect', { x: x - 7, width: 14, y: from, height: Math.max(2, to - from), class: 'brush' }),
    );
}

/** The line that passes nearest to a point; `axis` may lie between two axes. */
function nearest({ shown }: Study, uprights: readonly Upright[], axis: number, py: number): number | null {
  const left = Math.min(uprights.length - 1, Math.max(0, Math.floor(axis)));
  const right = Math.min(uprights.length - 1, left + 1);
  const share = Math.min(1, Math.max(0, axis - left));
  let best: number | null = null;
  let least = REACH;
  for (const place of shown.value) {
    const y = (1 - share) * uprights[left].at(place) + share * uprights[right].at(place);
    const far = Math.abs(y - py);
    if (far < least) {
      least = far;
      best = place;
    }
  }
  return best;
}
