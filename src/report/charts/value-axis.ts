import * as Plot from '@observablehq/plot';
import { TEXT_SIZE } from './style.js';
import { figure } from './text.js';

/** The axis of a score below a chart, with its name in the middle. @param format how a number on it is written */
export const valueAxis = (label: string, format: (value: number) => string = figure) =>
  Plot.axisX({
    label,
    labelAnchor: 'center',
    labelArrow: 'none',
    labelOffset: 42,
    tickSize: 4,
    ticks: 6,
    tickFormat: format,
    fontSize: TEXT_SIZE,
  });
