import * as Plot from '@observablehq/plot';
import type { Layout } from '../../study/row.js';
import { unitSign } from '../words/numbers.js';
import { LINE, TEXT_SIZE } from './style.js';
import { axisTitle, shorten, threeDigits } from './text.js';
import { valueAxis } from './value-axis.js';

/** A score that the maker wants more or less of. */
export interface WantAxis {
  name: string;
  unit: string;
  better: 'more' | 'less';
}

/** A want as it is drawn against another: a target has no better side, so of that is drawn how well it is hit. */
export interface DrawnWant {
  readonly axis: WantAxis;
  /** Of the numbers of a row; NaN where it was not computed. */
  value(layout: Layout, numbers: Float64Array): number;
}

/**
 * The two wants that weigh most, of equals the first; null where there are fewer than two.
 * @param better of each want the side that is better, null where it has a target
 */
export function heaviestTwo(
  wants: readonly { readonly name: string; readonly unit: string; readonly weight: number }[],
  better: readonly ('more' | 'less' | null)[],
): readonly [DrawnWant, DrawnWant] | null {
  const [x, y] = wants
    .map((want, place) => ({ ...want, place }))
    .sort((a, b) => b.weight - a.weight || a.place - b.place)
    .map(({ name, unit, place }): DrawnWant => {
      const side = better[place];
      return side === null
        ? {
            axis: { name: `${name}, desirability`, unit: '', better: 'more' },
            value: (layout, numbers) => layout.wantDesirability(numbers, place),
          }
        : {
            axis: { name, unit: unitSign(unit), better: side },
            value: (layout, numbers) => layout.wantValue(numbers, place),
          };
    });
  return y === undefined ? null : [x, y];
}

/** The room that the axes of two wants take. */
export const MARGINS = { marginLeft: 62, marginRight: 30, marginTop: 30, marginBottom: 52 };

/** A grid and the axes of two wants against each other, each with the way that is better. */
export function axesOf(x: WantAxis, y: WantAxis): Plot.Markish[] {
  return [
    Plot.gridX({ stroke: LINE, strokeOpacity: 1, ticks: 6 }),
    Plot.gridY({ stroke: LINE, strokeOpacity: 1, ticks: 6 }),
    valueAxis(axisText(x, '→', '←')),
    Plot.axisY({ label: null, tickSize: 4, ticks: 6, tickFormat: threeDigits, fontSize: TEXT_SIZE }),
    Plot.text([axisText(y, '↑', '↓')], {
      frameAnchor: 'top-left',
      dx: -46,
      dy: -22,
      text: (line: string) => line,
      fontSize: TEXT_SIZE,
    }),
  ];
}

const axisText = ({ name, unit, better }: WantAxis, more: string, less: string): string =>
  `${axisTitle(shorten(name, 380, TEXT_SIZE), unit)}, better ${better === 'more' ? more : less}`;

/** Where on such axes it is best, in words. */
export const betterCorner = (x: WantAxis, y: WantAxis): string =>
  `${y.better === 'more' ? 'upper' : 'lower'} ${x.better === 'more' ? 'right' : 'left'}`;
