import * as Plot from '@observablehq/plot';
import { extent } from 'simple-statistics';
import { framed } from './frame.js';
import { placeNames, SLOTS } from './place-names.js';
import { ACCENT, INK, PAPER, QUIET, SMALL_SIZE, WIDTH } from './style.js';
import { quantity, shorten } from './text.js';
import { axesOf, betterCorner, MARGINS, type WantAxis } from './want-axes.js';

export interface TradeOffPoint {
  name: string;
  /** Null where it could not be computed: such a dummy is counted, not drawn. */
  x: number | null;
  y: number | null;
  /** On the front: no other dummy is better in one want and as good in all others. */
  front: boolean;
}

const HEIGHT = 420;

type Drawn = TradeOffPoint & { x: number; y: number };

/** Two wants against each other, a ring for each dummy, the front in colour and named. */
export function tradeOffChart(
  x: WantAxis,
  y: WantAxis,
  points: readonly TradeOffPoint[],
  note: string,
): string {
  const drawn = points.filter((point): point is Drawn => point.x !== null && point.y !== null);
  const front = drawn.filter((point) => point.front).sort((a, b) => a.x - b.x);
  const domains = {
    x: roomFor(drawn.map((point) => point.x)),
    y: roomFor(drawn.map((point) => point.y)),
  };
  const missing = points.length - drawn.length;
  const caption = [
    `Better lies to the ${betterCorner(x, y)}. ${front.length === 0 ? 'No dummy is on the front.' : 'Along the front, in colour, more of one want costs some of another: choose there.'}`,
    missing > 0 ? `Not drawn, as not computed: ${missing} of ${points.length} dummies.` : '',
    note,
  ];
  return framed({
    title: `${x.name} against ${y.name}`,
    description: front
      .map((point) => `${point.name}: ${quantity(point.x, x.unit)}, ${quantity(point.y, y.unit)}.`)
      .join(' '),
    caption,
    panels: [
      {
        width: WIDTH,
        height: HEIGHT,
        plot: {
          ...MARGINS,
          x: { domain: domains.x, label: null },
          y: { domain: domains.y, label: null },
          marks: [
            ...axesOf(x, y),
            Plot.dot(
              drawn.filter((point) => !point.front),
              { x: 'x', y: 'y', r: 2.5, stroke: QUIET, strokeOpacity: 0.8, title: 'name' },
            ),
            Plot.dot(front, { x: 'x', y: 'y', r: 5, fill: ACCENT, stroke: PAPER, title: 'name' }),
            ...namesOf(front, domains),
          ],
        },
      },
    ],
  });
}

/** From the least to the most, with a margin so that no point lies on the edge. */
function roomFor(values: readonly number[]): [number, number] {
  if (values.length === 0) return [0, 1];
  const [low, high] = extent([...values]);
  const margin = high > low ? 0.06 * (high - low) : Math.max(1, 0.1 * Math.abs(high));
  return [low - margin, high + margin];
}

/** The names of the front beside their points, as far as there is room. */
function namesOf(front: readonly Drawn[], domains: { x: [number, number]; y: [number, number] }) {
  const along = (value: number, [low, high]: [number, number]) => (value - low) / (high - low);
  const { marginLeft, marginRight, marginTop, marginBottom } = MARGINS;
  const named = front.map((point) => ({
    name: shorten(point.name, 160, SMALL_SIZE),
    px: marginLeft + along(point.x, domains.x) * (WIDTH - marginLeft - marginRight),
    py: HEIGHT - marginBottom - along(point.y, domains.y) * (HEIGHT - marginTop - marginBottom),
  }));
  const slots = placeNames(named, WIDTH, HEIGHT - marginBottom, SMALL_SIZE);
  return SLOTS.map(({ dx, dy, anchor }, slot) =>
    Plot.text(
      front.filter((_, k) => slots[k] === slot),
      {
        x: 'x',
        y: 'y',
        dx,
        dy,
        textAnchor: anchor,
        text: (point: Drawn) => shorten(point.name, 160, SMALL_SIZE),
        fill: INK,
        fontSize: SMALL_SIZE,
      },
    ),
  );
}
