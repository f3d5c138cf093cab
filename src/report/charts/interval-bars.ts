import * as Plot from '@observablehq/plot';
import type { Panel } from './frame.js';
import { BAR, INK, LINE, PAPER, QUIET, SMALL_SIZE, TEXT_SIZE, WIDTH } from './style.js';
import { label } from './text.js';
import { valueAxis } from './value-axis.js';

/** A row of a bar chart: a number with its interval, or the reason why there is none. */
export interface IntervalBar {
  name: string;
  value: number | null;
  low: number | null;
  high: number | null;
  /** A second number of the same kind, drawn as a ring. */
  ring?: number | null;
  reason: string;
  /** What the tip says beside the name. */
  tip: string;
}

const NAME_WIDTH = 200;
const ROW = 30;

/** Bars from 0 with an interval across each end, in the order given; a reason stands where there is no number. */
export function intervalBars(
  bars: readonly IntervalBar[],
  axis: string,
  format: (value: number) => string,
): Panel {
  const known = bars.filter((bar) => bar.value !== null);
  const unknown = bars.filter((bar) => bar.value === null);
  const most = Math.max(0.1, ...known.map((bar) => Math.max(bar.value ?? 0, bar.high ?? 0, bar.ring ?? 0)));
  const least = Math.min(0, ...known.map((bar) => Math.min(bar.value ?? 0, bar.low ?? 0, bar.ring ?? 0)));
  return {
    width: WIDTH,
    height: bars.length * ROW + 56,
    plot: {
      marginLeft: NAME_WIDTH + 28,
      marginRight: 30,
      marginTop: 6,
      marginBottom: 50,
      x: { domain: [least, most], nice: true, label: null },
      y: { type: 'band', domain: bars.map((bar) => bar.name), label: null, padding: 0.35 },
      marks: [
        Plot.gridX({ stroke: LINE, strokeOpacity: 1 }),
        valueAxis(axis, format),
        Plot.axisY({
          tickSize: 0,
          tickFormat: (name: string) => label(name, NAME_WIDTH, TEXT_SIZE),
          fontSize: TEXT_SIZE,
          lineHeight: 1.05,
        }),
        Plot.barX(known, { y: 'name', x: 'value', fill: BAR, title: said }),
        Plot.ruleY(known, { y: 'name', x1: 'low', x2: 'high', stroke: INK, strokeWidth: 1.5 }),
        Plot.tickX(known, { y: 'name', x: 'low', stroke: INK, inset: 4 }),
        Plot.tickX(known, { y: 'name', x: 'high', stroke: INK, inset: 4 }),
        Plot.dot(
          known.filter((bar) => bar.ring !== null && bar.ring !== undefined),
          { y: 'name', x: 'ring', r: 4, fill: PAPER, stroke: INK, strokeWidth: 1.5 },
        ),
        Plot.ruleX([0], { stroke: INK }),
        Plot.text(unknown, {
          y: 'name',
          x: 0,
          dx: 8,
          text: (bar: IntervalBar) => label(bar.reason, WIDTH - NAME_WIDTH - 80, SMALL_SIZE),
          textAnchor: 'start',
          fill: QUIET,
          fontSize: SMALL_SIZE,
          fontStyle: 'italic',
        }),
      ],
    },
  };
}

function said(bar: IntervalBar): string {
  return `${bar.name}: ${bar.tip}`;
}
