import * as Plot from '@observablehq/plot';
import { framed, type Panel } from './frame.js';
import { ACCENT, INK, QUIET, SMALL_SIZE, WIDTH } from './style.js';
import { shorten, textWidth, threeDigits } from './text.js';
import { axesOf, betterCorner, MARGINS, type WantAxis } from './want-axes.js';

/** What one variant reaches: its front, in order, and other dummies of it that work. */
export interface VariantFront {
  name: string;
  front: readonly { x: number; y: number }[];
  others: readonly { x: number; y: number }[];
}

/** Told apart by shape first, by colour second. */
const LOOKS = [
  { symbol: 'circle', colour: ACCENT, filled: true },
  { symbol: 'square', colour: INK, filled: true },
  { symbol: 'triangle', colour: QUIET, filled: true },
  { symbol: 'diamond', colour: ACCENT, filled: false },
  { symbol: 'circle', colour: INK, filled: false },
  { symbol: 'square', colour: QUIET, filled: false },
] as const;

const HEIGHT = 420;
const LEGEND = 26;

/** The fronts of several variants over one another, on the same axes. */
export function frontsChart(
  x: WantAxis,
  y: WantAxis,
  variants: readonly VariantFront[],
  note: string,
): string {
  const drawn = variants.filter(({ front }) => front.length > 0);
  const missing = variants.filter(({ front }) => front.length === 0).map(({ name }) => name);
  return framed({
    title: `${x.name} against ${y.name}, variant by variant`,
    description: drawn
      .map(
        ({ name, front }) =>
          `${name}: ${front.map((p) => `${threeDigits(p.x)}, ${threeDigits(p.y)}`).join('; ')}.`,
      )
      .join(' '),
    caption: [
      `Better lies to the ${betterCorner(x, y)}: where the line of one variant lies beyond that of another, it wins. Small marks are dummies that work but are beaten by one of their own variant.`,
      missing.length > 0 ? `Nothing works of ${missing.join(', ')}.` : '',
      note,
    ],
    panels: [legend(variants), plot(x, y, variants)],
  });
}

function plot(x: WantAxis, y: WantAxis, variants: readonly VariantFront[]): Panel {
  const marks = variants.flatMap(({ name, front, others }, i) => {
    const { symbol, colour, filled } = LOOKS[i % LOOKS.length];
    const titled = (points: readonly { x: number; y: number }[]) =>
      points.map((point) => ({
        ...point,
        title: `${name}: ${threeDigits(point.x)}, ${threeDigits(point.y)}`,
      }));
    const look = { x: 'x', y: 'y', symbol, stroke: colour, title: 'title' } as const;
    return [
      Plot.dot(titled(others), { ...look, r: 1.5, strokeOpacity: 0.5 }),
      Plot.line(front, { x: 'x', y: 'y', stroke: colour, strokeWidth: 1.2 }),
      Plot.dot(titled(front), { ...look, r: 4, fill: filled ? colour : 'none' }),
    ];
  });
  return {
    width: WIDTH,
    height: HEIGHT,
    y: LEGEND,
    plot: {
      ...MARGINS,
      x: { label: null, nice: true, ...roomWhereEmpty(variants) },
      y: { label: null, nice: true, ...roomWhereEmpty(variants) },
      marks: [...axesOf(x, y), ...marks],
    },
  };
}

/** Without any point there is no scale to find. */
const roomWhereEmpty = (variants: readonly VariantFront[]): { domain?: [number, number] } =>
  variants.every(({ front, others }) => front.length + others.length === 0) ? { domain: [0, 1] } : {};

function legend(variants: readonly VariantFront[]): Panel {
  const most = (WIDTH - 40) / variants.length - 34;
  let left = 30;
  const entries = variants.map(({ name }, i) => {
    const text = shorten(name, most, SMALL_SIZE);
    const entry = { x: left, text, look: LOOKS[i % LOOKS.length] };
    left += textWidth(text, SMALL_SIZE) + 34;
    return entry;
  });
  return {
    width: WIDTH,
    height: LEGEND,
    plot: {
      margin: 0,
      x: { domain: [0, WIDTH], range: [0, WIDTH], axis: null },
      y: { domain: [0, 1], axis: null },
      marks: [
        ...entries.map(({ x, look: { symbol, colour, filled } }) =>
          Plot.dot([{ x, y: 0.5 }], {
            x: 'x',
            y: 'y',
            r: 4,
            symbol,
            stroke: colour,
            fill: filled ? colour : 'none',
          }),
        ),
        Plot.text(entries, {
          x: 'x',
          y: () => 0.5,
          dx: 10,
          text: 'text',
          textAnchor: 'start',
          fontSize: SMALL_SIZE,
        }),
      ],
    },
  };
}
