import * as Plot from '@observablehq/plot';
import type { Nudge } from '../../insight/local/nudge.js';
import { framed } from './frame.js';
import { BAR, INK, LINE, QUIET, SMALL_SIZE, TEXT_SIZE, WIDTH } from './style.js';
import { axisTitle, label, quantity, textWidth } from './text.js';
import { valueAxis } from './value-axis.js';

export interface NudgeRow {
  dim: string;
  /** mm or °; empty for a choice. */
  unit: string;
  nudge: Nudge;
  /** Said beside its number, such as that it is doubtful; may be empty. */
  mark: string;
}

const NAME_WIDTH = 210;
const ROW = 32;
const LEFT = NAME_WIDTH + 28;
const RIGHT = 30;
/** A change that is a lesser share of the largest than this is next to nothing: no bar of it would be seen. */
const FAINT = 1e-3;
/** Between a bar and its number, and between that and the names, px. */
const GAP = 16;

/**
 * Which way to nudge each dim of one candidate: a bar to the right raises the score, to the left lowers it.
 * The longest bar stands at the top.
 */
export function nudgeChart(score: string, unit: string, rows: readonly NudgeRow[], note: string): string {
  const size = ({ nudge }: NudgeRow) => (nudge.change === null ? -1 : Math.abs(nudge.change));
  const sorted = [...rows]
    .sort((a, b) => size(b) - size(a))
    .map((row) => ({ ...row, change: row.nudge.change }));
  const known = sorted.filter((row) => row.change !== null);
  const unknown = sorted.filter((row) => row.change === null);
  const most = Math.max(...known.map(size), 1e-9);
  const first = known[0];
  const told = (row: NudgeRow) =>
    size(row) > 0 && size(row) < FAINT * most ? 'next to nothing' : signed(row, unit);
  // Room beside the longest bar for its number: it may be as long as half of the chart less the longest of them.
  const half = (WIDTH - LEFT - RIGHT) / 2;
  const longest = Math.max(0, ...known.map((row) => textWidth(told(row), SMALL_SIZE)));
  const reach = (half / Math.max(half / 4, half - longest - GAP)) * most;
  const caption = [
    first === undefined || size(first) === 0
      ? 'No nudge changes the score.'
      : `Nudge the topmost dim first: ${step(first)} of ${first.dim} changes ${score} by ${signed(first, unit)}.`,
    'Bar: the change of the score for one unit more of the dim, all others as they are; one unit less changes it about as much the other way, but at a corner.',
    known.some((row) => row.nudge.from !== 'both sides')
      ? '(one side): at an end of its range, or where the other side could not be computed.'
      : '',
    note,
  ];
  return framed({
    title: `What a nudge does to ${score}`,
    description: sorted
      .map(
        (row) => `${step(row)} of ${row.dim}: ${row.change === null ? row.nudge.reason : signed(row, unit)}.`,
      )
      .join(' '),
    caption,
    panels: [
      {
        width: WIDTH,
        height: sorted.length * ROW + 56,
        plot: {
          marginLeft: LEFT,
          marginRight: RIGHT,
          marginTop: 6,
          marginBottom: 50,
          x: { domain: [-reach, reach], label: null },
          y: { type: 'band', domain: sorted.map((row) => row.dim), label: null, padding: 0.3 },
          marks: [
            Plot.gridX({ stroke: LINE, strokeOpacity: 1 }),
            valueAxis(`change of ${axisTitle(score, unit)} for one unit more`),
            Plot.axisY({
              tickSize: 0,
              tickFormat: (dim: string) => named(sorted.find((row) => row.dim === dim)),
              fontSize: TEXT_SIZE,
              lineHeight: 1.05,
            }),
            Plot.barX(known, {
              y: 'dim',
              x: 'change',
              fill: BAR,
              title: (row: NudgeRow) => `${step(row)} of ${row.dim}: ${signed(row, unit)}`,
            }),
            ...([1, -1] as const).map((way) =>
              Plot.text(
                known.filter((row) => (row.change ?? 0) >= 0 === way > 0),
                {
                  y: 'dim',
                  x: 'change',
                  dx: 5 * way,
                  textAnchor: way > 0 ? 'start' : 'end',
                  text: told,
                  fill: INK,
                  fontSize: SMALL_SIZE,
                },
              ),
            ),
            Plot.ruleX([0], { stroke: INK }),
            Plot.text(unknown, {
              y: 'dim',
              x: 0,
              dx: 8,
              text: (row: NudgeRow) =>
                label(row.nudge.reason ?? '', (WIDTH - NAME_WIDTH) / 2 - 50, SMALL_SIZE),
              textAnchor: 'start',
              fill: QUIET,
              fontSize: SMALL_SIZE,
              fontStyle: 'italic',
            }),
          ],
        },
      },
    ],
  });
}

function step({ unit }: NudgeRow): string {
  return unit === '' ? '+1' : `+${quantity(1, unit)}`;
}

function signed({ nudge, mark }: NudgeRow, unit: string): string {
  const change = nudge.change ?? Number.NaN;
  const side = nudge.from === 'both sides' ? '' : ' (one side)';
  return `${change > 0 ? '+' : ''}${quantity(change, unit)}${side}${mark}`;
}

function named(row: NudgeRow | undefined): string {
  if (row === undefined) return '';
  return row.nudge.change === null
    ? label(row.dim, NAME_WIDTH, TEXT_SIZE)
    : label(`${row.dim} ${step(row)}`, NAME_WIDTH, TEXT_SIZE);
}
