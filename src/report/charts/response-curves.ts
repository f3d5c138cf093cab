import * as Plot from '@observablehq/plot';
import type { Response, ResponsePoint } from '../../insight/sensitivity/response.js';
import { framed, type Panel } from './frame.js';
import { ACCENT, INK, LINE, QUIET, SMALL_SIZE, WIDTH } from './style.js';
import { axisTitle, label, quantity, threeDigits } from './text.js';

export interface ResponsePanel {
  dim: string;
  /** mm, °, or empty. */
  unit: string;
  /** For a choice, what its options are called, in order. */
  options?: readonly string[];
  response: Response;
}

const COLUMNS = 3;
const PANEL_WIDTH = (WIDTH - 16) / COLUMNS;
const PANEL_HEIGHT = 204;

/**
 * How one score answers to each dim: the middle of the dummies as a line, the 10 to 90 % spread (for a share, its 95 %
 * interval) as a band. All panels have one scale of the score, so that they compare.
 * @param kind what the responses hold: quantiles of a score, or the share of dummies for which something is true
 */
export function responseCurvesChart(
  score: string,
  unit: string,
  kind: 'quantiles' | 'share',
  responses: readonly ResponsePanel[],
  note: string,
): string {
  const all = responses.flatMap(({ response }) => response.points);
  const isShare = kind === 'share';
  const domain = isShare ? shareSpan(all) : span(all);
  const what = isShare
    ? 'Line: the share of dummies; band: its 95 % interval.'
    : 'Line: half of the dummies lie above it; band: 8 of 10 lie within, spread by all other dims.';
  return framed({
    title: `How ${score} answers to each dim`,
    description: responses.map((panel) => described(panel, unit)).join(' '),
    caption: [
      'Look for lines that climb or fall: those dims move the score. A level line is a dim of no account by itself.',
      what,
      note,
    ],
    panels: responses.map((panel, k) => ({
      x: 8 + (k % COLUMNS) * PANEL_WIDTH,
      y: Math.floor(k / COLUMNS) * PANEL_HEIGHT,
      ...curve(panel, axisTitle(score, isShare ? '%' : unit), domain, isShare ? percentage : threeDigits),
    })),
  });
}

const percentage = (share: number) => threeDigits(100 * share);

function curve(
  { dim, unit, options, response }: ResponsePanel,
  title: string,
  domain: number[],
  format: (value: number) => string,
): Panel {
  const { points, reason } = response;
  const ends = points.length > 0 ? [points[0].at, points[points.length - 1].at] : [0, 1];
  // A choice is drawn as upright bars at whole numbers; half a step beside them keeps them off the edges.
  const x = options ? [-0.5, options.length - 0.5] : ends;
  const marks = options
    ? [
        Plot.ruleX(points, {
          x: 'at',
          y1: 'low',
          y2: 'high',
          stroke: ACCENT,
          strokeWidth: 8,
          strokeOpacity: 0.25,
        }),
        Plot.dot(points, { x: 'at', y: 'middle', fill: ACCENT, r: 4 }),
      ]
    : [
        Plot.areaY(points, { x: 'at', y1: 'low', y2: 'high', fill: ACCENT, fillOpacity: 0.2 }),
        Plot.lineY(points, { x: 'at', y: 'middle', stroke: ACCENT, strokeWidth: 2 }),
      ];
  return {
    width: PANEL_WIDTH,
    height: PANEL_HEIGHT,
    plot: {
      marginLeft: 44,
      marginRight: 12,
      marginTop: 26,
      marginBottom: 52,
      x: { type: 'linear', domain: x, label: null },
      y: { domain, nice: true, label: null },
      marks: [
        ...(reason === null ? [Plot.gridY({ stroke: LINE, strokeOpacity: 1, ticks: 4 })] : []),
        Plot.axisY({ ticks: 4, tickSize: 0, tickFormat: format, fontSize: SMALL_SIZE }),
        Plot.axisX({
          // Without points there is no scale to write.
          ticks: reason !== null ? [] : options ? options.map((_, k) => k) : 4,
          tickSize: 4,
          tickFormat: (value: number) =>
            options
              ? label(options[value] ?? '', (PANEL_WIDTH - 60) / options.length, SMALL_SIZE, 1)
              : threeDigits(value),
          fontSize: SMALL_SIZE,
          label: label(axisTitle(dim, unit), PANEL_WIDTH - 60, SMALL_SIZE, 1),
          labelAnchor: 'center',
          labelArrow: 'none',
          labelOffset: 40,
        }),
        Plot.text([title], {
          frameAnchor: 'top-left',
          dx: -40,
          dy: -20,
          text: (line: string) => label(line, PANEL_WIDTH - 20, SMALL_SIZE, 1),
          fill: QUIET,
          fontSize: SMALL_SIZE,
        }),
        ...marks,
        Plot.text(reason === null ? [] : [label(reason, PANEL_WIDTH - 70, SMALL_SIZE, 4)], {
          frameAnchor: 'middle',
          text: (line: string) => line,
          fill: INK,
          fontStyle: 'italic',
          fontSize: SMALL_SIZE,
        }),
      ],
    },
  };
}

function span(points: readonly ResponsePoint[]): number[] {
  if (points.length === 0) return [0, 1];
  const low = Math.min(...points.map((point) => point.low));
  const high = Math.max(...points.map((point) => point.high));
  return high > low ? [low, high] : [low - 1, high + 1];
}

/** From 0 to the highest share there is: one of 3 % would lie on the floor of 0 to 1. */
function shareSpan(points: readonly ResponsePoint[]): number[] {
  return [0, points.length === 0 ? 1 : Math.max(...points.map((point) => point.high))];
}

function described({ dim, unit, response }: ResponsePanel, scoreUnit: string): string {
  const [first, last] = [response.points[0], response.points.at(-1)];
  if (first === undefined || last === undefined) return `${dim}: ${response.reason}.`;
  return `${dim} from ${quantity(first.at, unit)} to ${quantity(last.at, unit)}: from ${quantity(first.middle, scoreUnit)} to ${quantity(last.middle, scoreUnit)}.`;
}
