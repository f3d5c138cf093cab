import * as Plot from '@observablehq/plot';
import type { SafeEnd, SafeRange } from '../../insight/local/safe-range.js';
import { framed } from './frame.js';
import { ACCENT, INK, PAPER, QUIET, SMALL_SIZE, TEXT_SIZE, WIDTH } from './style.js';
import { label, quantity, shorten, textWidth } from './text.js';

export interface SafeRow {
  dim: string;
  /** mm or °; empty for a choice. */
  unit: string;
  /** The range of the dim in the figure; for a choice, null. */
  bounds: { min: number; max: number } | null;
  /** The candidate's value. */
  value: number;
  safe: SafeRange;
}

const NAME_WIDTH = 170;
const LEFT = NAME_WIDTH + 66;
const RIGHT = 62;
const TRACK = WIDTH - LEFT - RIGHT;
const ROW = 58;
/** What fails may take so many lines; each but the first makes all rows higher by a line. */
const LINES = 3;
const LINE_HEIGHT = 12;

/**
 * How far each dim of one candidate may go: the dim's whole range as a thin track, the safe part of it thick, its value as
 * a ring, and below each end what fails first beyond it. Each track has its own scale, written at its ends.
 * @param note said after the caption, such as the coarse step of the search; may be empty
 */
export function safeRangesChart(rows: readonly SafeRow[], note: string): string {
  const drawn = rows.map(placed);
  const tracks = drawn.filter((row) => row.bounds !== null);
  const bars = drawn.filter((row) => row.low !== null);
  const tightest = bars.reduce<Placed | null>(
    (best, row) => (best && best.share <= row.share ? best : row),
    null,
  );
  const caption = [
    tightest === null
      ? 'No safe range could be told.'
      : `Mind the shortest bar: ${tightest.dim} may only go from ${tightest.words}.`,
    'Track: the whole range of the dim; bar: within it every limit holds while the other dims stay as they are; ring: the value now. Below each end: what fails first beyond it.',
    note,
  ];
  const lines = Math.max(
    1,
    ...drawn.flatMap(({ lowText, highText }) => [lowText, highText].map((each) => each.split('\n').length)),
  );
  const more = (lines - 1) * LINE_HEIGHT;
  const text = (dx: number, dy: number, anchor: 'start' | 'middle' | 'end', fill: string) => ({
    dx,
    dy,
    y: 'dim',
    textAnchor: anchor,
    fill,
    fontSize: SMALL_SIZE,
  });
  const below = { lineAnchor: 'top', lineHeight: LINE_HEIGHT / SMALL_SIZE } as const;
  return framed({
    title: 'How far each dim may go',
    description: drawn.map((row) => `${row.dim}: ${row.words}.`).join(' '),
    caption,
    panels: [
      {
        width: WIDTH,
        height: rows.length * (ROW + more) + 12,
        plot: {
          marginLeft: LEFT,
          marginRight: RIGHT,
          marginTop: 6,
          marginBottom: 6,
          x: { domain: [0, 1], axis: null },
          y: { type: 'band', domain: rows.map((row) => row.dim), label: null },
          marks: [
            Plot.axisY({
              tickSize: 0,
              dx: -56,
              tickFormat: (name: string) => label(name, NAME_WIDTH, TEXT_SIZE),
              fontSize: TEXT_SIZE,
              lineHeight: 1.05,
            }),
            Plot.ruleY(tracks, { y: 'dim', x1: 0, x2: 1, stroke: QUIET, strokeWidth: 1 }),
            Plot.ruleY(bars, {
              y: 'dim',
              x1: 'low',
              x2: 'high',
              stroke: ACCENT,
              strokeWidth: 9,
              title: (row: Placed) => `${row.dim}: ${row.words}`,
            }),
            Plot.dot(tracks, { y: 'dim', x: 'at', r: 4.5, fill: PAPER, stroke: INK, strokeWidth: 2 }),
            Plot.text(tracks, { x: 0, text: 'minText', ...text(-8, 0, 'end', QUIET) }),
            Plot.text(tracks, { x: 1, text: 'maxText', ...text(8, 0, 'start', QUIET) }),
            Plot.text(bars, { x: 'middle', text: 'rangeText', ...text(0, -14, 'middle', INK) }),
            Plot.text(bars, { x: 0, text: 'lowText', ...text(0, 9, 'start', QUIET), ...below }),
            Plot.text(bars, { x: 1, text: 'highText', ...text(0, 9, 'end', QUIET), ...below }),
            ...[true, false].map((tracked) =>
              Plot.text(
                drawn.filter((row) => row.low === null && (row.bounds !== null) === tracked),
                {
                  x: 0,
                  text: 'reasonText',
                  ...text(0, tracked ? 15 : 0, 'start', QUIET),
                  fontStyle: 'italic',
                },
              ),
            ),
          ],
        },
      },
    ],
  });
}

/** A row as it is drawn: places along its track from 0 to 1, and its texts. */
interface Placed {
  dim: string;
  bounds: SafeRow['bounds'];
  at: number | null;
  low: number | null;
  high: number | null;
  /** Of the whole range, how much is safe. */
  share: number;
  middle: number;
  minText: string;
  maxText: string;
  rangeText: string;
  lowText: string;
  highText: string;
  reasonText: string;
  words: string;
}

function placed({ dim, unit, bounds, value, safe }: SafeRow): Placed {
  const reason = safe.reason ?? '';
  const width = bounds ? bounds.max - bounds.min : 0;
  const along = (x: number) => (bounds && width > 0 ? (x - bounds.min) / width : 0.5);
  const none: Placed = {
    dim,
    bounds,
    at: bounds === null ? null : along(value),
    low: null,
    high: null,
    share: 1,
    middle: 0,
    minText: bounds === null ? '' : quantity(bounds.min, unit),
    maxText: bounds === null ? '' : quantity(bounds.max, unit),
    rangeText: '',
    lowText: '',
    highText: '',
    reasonText: shorten(reason, TRACK, SMALL_SIZE),
    words: reason,
  };
  if (safe.range === null || bounds === null) return none;

  const { low, high } = safe.range;
  const [lowest, highest] = [inward(low, Math.ceil), inward(high, Math.floor)];
  const rangeText = `${lowest} to ${highest}${unit === '°' ? '' : ' '}${unit}`;
  // The number stands over the middle of the bar, but not off the track.
  const half = textWidth(rangeText, SMALL_SIZE) / 2 / TRACK;
  const middle = Math.min(1 - half, Math.max(half, (along(low.value) + along(high.value)) / 2));
  const end = (side: SafeEnd) => (side.failure === null ? 'the range ends' : side.failure);
  // Each has half of the track, and what the other leaves of its own half.
  const room = (TRACK - 32) / 2;
  const short = (side: SafeEnd, other: SafeEnd) =>
    label(end(side), Math.max(room, 2 * room - textWidth(end(other), SMALL_SIZE)), SMALL_SIZE, LINES);
  return {
    ...none,
    low: along(low.value),
    high: along(high.value),
    share: width > 0 ? (high.value - low.value) / width : 1,
    middle,
    rangeText,
    lowText: short(low, high),
    highText: short(high, low),
    words: `${rangeText} (below: ${end(low)}; above: ${end(high)})`,
  };
}

/** An end to hundredths, rounded to the safe side where something fails beyond it. */
function inward({ value, failure }: SafeEnd, whole: (x: number) => number): string {
  // Round-off first: 6.9999999999 mm is 7 mm.
  const exact = Math.round(value * 1e8) / 1e6;
  const hundredths = failure === null ? Math.round(exact) : whole(exact);
  return String(hundredths / 100).replace('-', '−');
}
