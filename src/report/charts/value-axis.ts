import * as Plot from '@observablehq/plot';
import { TEXT_SIZE } from './style.js';
import { threeDigits } from './text.js';

/**
 * The axis of a score below a chart, with its name in the middle.
 * @param format how a number on it is written
 * @param ticks where, or about how many
 */
export const valueAxis = (
  label: string,
  format: (value: number) => string = threeDigits,
  ticks: number | number[] = 6,
) =>
  Plot.axisX({
    label,
    labelAnchor: 'center',
    labelArrow: 'none',
    labelOffset: 42,
    tickSize: 4,
    ticks,
    tickFormat: format,
    fontSize: TEXT_SIZE,
  });
