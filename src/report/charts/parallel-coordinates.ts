import * as Plot from '@observablehq/plot';
import { framed } from './frame.js';
import { ACCENT, INK, QUIET, SMALL_SIZE, WIDTH } from './style.js';
import { label, quantity, shorten, threeDigits } from './text.js';

/** One upright axis: a dim or a score. */
export interface Axis {
  name: string;
  unit: string;
  min: number;
  max: number;
  /** For a choice, what its options are called; values are then option numbers. */
  options?: readonly string[];
}

/** One dummy across all axes. */
export interface Dummy {
  name: string;
  /** One to each axis; null where it could not be computed, and there the line is broken. */
  values: readonly (number | null)[];
  /** Drawn in the accent colour, on top. */
  best: boolean;
}

const COLUMN = 88;
const HEIGHT = 380;

interface Place {
  dummy: Dummy;
  axis: number;
  at: number;
  /** Unbroken stretches of one line have one number. */
  stretch: string;
}

/** Every dummy as a line across upright axes, each from its lowest to its highest value; the best in colour. */
export function parallelCoordinates(axes: readonly Axis[], dummies: readonly Dummy[], note: string): string {
  const width = Math.max(WIDTH, 70 + axes.length * COLUMN);
  const column = (width - 60) / axes.length;
  const places = (best: boolean) =>
    dummies.filter((dummy) => dummy.best === best).flatMap((d, k) => line(d, k, axes));
  const bestCount = dummies.filter((dummy) => dummy.best).length;
  const lines = (stretch: Place[], stroke: string, strokeOpacity: number, strokeWidth: number) =>
    Plot.line(stretch, {
      x: 'axis',
      y: 'at',
      z: 'stretch',
      stroke,
      strokeOpacity,
      strokeWidth,
      title: (place: Place) => place.dummy.name,
    });
  const ticks = axes.flatMap((axis, k) => ticksOf(axis).map(([at, text]) => ({ k, at, text })));
  const caption = [
    bestCount === 0
      ? 'Each line is one dummy.'
      : 'Each line is one dummy, the best in colour. Where the coloured lines run close together on an axis, the best agree on it; where they spread, it can be chosen for other reasons.',
    dummies.some((dummy) => dummy.values.includes(null)) ? 'A gap in a line: not computed.' : '',
    note,
  ];
  return framed({
    title: 'Every dummy, dim by dim and score by score',
    description: axes.map((axis, k) => described(axis, k, dummies)).join(' '),
    caption,
    width,
    panels: [
      {
        width,
        height: HEIGHT,
        plot: {
          marginLeft: 30 + column / 2,
          marginRight: 30 + column / 2,
          marginTop: 72,
          marginBottom: 28,
          x: { type: 'point', domain: axes.map((_, k) => k), padding: 0, axis: null },
          y: { domain: [0, 1], axis: null },
          marks: [
            Plot.text(axes, {
              x: (_: Axis, k: number) => k,
              y: 1,
              dy: -26,
              lineAnchor: 'bottom',
              text: (axis: Axis) => titled(axis, column - 18),
              fill: INK,
              fontSize: SMALL_SIZE,
              fontWeight: 600,
              title: 'name',
            }),
            lines(places(false), QUIET, 0.28, 1),
            Plot.ruleX(axes, { x: (_: Axis, k: number) => k, stroke: INK, y1: 0, y2: 1 }),
            lines(places(true), ACCENT, 1, 1.8),
            Plot.dot(places(true), { x: 'axis', y: 'at', r: 2.5, fill: ACCENT }),
            tickTexts(
              ticks.filter((tick) => tick.at === 0),
              13,
              column,
            ),
            tickTexts(
              ticks.filter((tick) => tick.at > 0),
              -11,
              column,
            ),
          ],
        },
      },
    ],
  });
}

function tickTexts(ticks: { k: number; at: number; text: string }[], dy: number, column: number) {
  return Plot.text(ticks, {
    x: 'k',
    y: 'at',
    dy,
    text: (tick: { text: string }) => shorten(tick.text, column - 6, SMALL_SIZE),
    fill: QUIET,
    fontSize: SMALL_SIZE,
  });
}

function titled({ name, unit, options }: Axis, width: number): string {
  const lines = label(name, width, SMALL_SIZE);
  return unit === '' || options ? lines : `${lines}\n(${unit})`;
}

function along({ min, max }: Axis, value: number): number {
  return max > min ? (value - min) / (max - min) : 0.5;
}

function ticksOf(axis: Axis): [number, string][] {
  if (axis.options) return axis.options.map((name, k) => [along(axis, k), name]);
  if (axis.max === axis.min) return [[0.5, threeDigits(axis.min)]];
  return [
    [0, threeDigits(axis.min)],
    [1, threeDigits(axis.max)],
  ];
}

function line(dummy: Dummy, number: number, axes: readonly Axis[]): Place[] {
  let gaps = 0;
  return dummy.values.flatMap((value, axis): Place[] => {
    if (value === null) {
      gaps++;
      return [];
    }
    return [{ dummy, axis, at: along(axes[axis], value), stretch: `${number}/${gaps}` }];
  });
}

function described(axis: Axis, k: number, dummies: readonly Dummy[]): string {
  const best = dummies.filter((dummy) => dummy.best).map((dummy) => dummy.values[k]);
  const known = best.filter((value) => value !== null);
  if (known.length === 0) return `${axis.name}: not computed for the best.`;
  const say = (value: number) => axis.options?.[value] ?? quantity(value, axis.unit);
  const [low, high] = [Math.min(...known), Math.max(...known)];
  return `${axis.name}: the best lie from ${say(low)} to ${say(high)}.`;
}
