import * as Plot from '@observablehq/plot';
import type { SensitivityRow } from '../../insight/sensitivity/sensitivity.js';
import { framed } from './frame.js';
import { INK, PAPER, QUIET, SMALL_SIZE, TEXT_SIZE, TINT, WIDTH } from './style.js';
import { label, threeDigits } from './text.js';

const NAME_WIDTH = 190;
const COLUMN = 82;
const ROW = 30;

/**
 * Total effects of all dims on all scores: a cell for each pair, darker for more, its number written in it.
 * @param rows the sensitivity table; dims and scores stand in the order in which they first come
 * @param note said after the caption; may be empty
 */
export function effectMap(rows: readonly SensitivityRow[], note: string): string {
  const dims = [...new Set(rows.map((row) => row.dim))];
  const scores = [...new Set(rows.map((row) => row.score))];
  const known = rows.filter((row) => row.total !== null);
  const unknown = rows.filter((row) => row.total === null);
  const width = Math.max(WIDTH, NAME_WIDTH + 44 + scores.length * COLUMN);
  const strongest = known.reduce<SensitivityRow | null>(
    (best, row) => (best === null || (row.total ?? 0) > (best.total ?? 0) ? row : best),
    null,
  );
  const caption = [
    'Read along a row to see what one dim touches, down a column to see what drives one score. In each cell: the total effect, as a share of the variance of the score.',
    strongest === null ? '' : `The strongest: ${strongest.dim} on ${strongest.score}.`,
    known.some((row) => row.from === 'surrogate')
      ? '≈: from a surrogate, not from scoring; the chart of the score tells how well it does.'
      : '',
    known.some((row) => (row.total ?? 0) > 1) ? 'More than 1: scatter; no share is.' : '',
    unknown.length > 0 ? 'A dash: not measured, for the reason in sensitivity.csv.' : '',
    note,
  ];
  const columns = Math.min(width - 16, NAME_WIDTH + 28 + scores.length * COLUMN * 1.4);
  return framed({
    title: 'Which dim drives which score',
    description: rows
      .map(
        (row) => `${row.dim} on ${row.score}: ${row.total === null ? row.reason : threeDigits(row.total)}.`,
      )
      .join(' '),
    caption,
    width,
    panels: [
      {
        width: columns,
        height: dims.length * ROW + 64,
        plot: {
          marginLeft: NAME_WIDTH + 28,
          marginRight: 0,
          marginTop: 58,
          marginBottom: 4,
          x: { type: 'band', domain: scores, label: null, padding: 0.04 },
          y: { type: 'band', domain: dims, label: null, padding: 0.08 },
          color: { type: 'linear', domain: [0, 1], range: [PAPER, TINT], clamp: true, interpolate: 'rgb' },
          marks: [
            Plot.axisX({
              anchor: 'top',
              tickSize: 0,
              tickFormat: (name: string) => label(name, COLUMN - 6, SMALL_SIZE, 3),
              fontSize: SMALL_SIZE,
              lineHeight: 1.1,
            }),
            Plot.axisY({
              tickSize: 0,
              tickFormat: (name: string) => label(name, NAME_WIDTH, TEXT_SIZE),
              fontSize: TEXT_SIZE,
              lineHeight: 1.05,
            }),
            Plot.cell(known, {
              x: 'score',
              y: 'dim',
              fill: 'total',
              stroke: QUIET,
              strokeWidth: 0.5,
              title: (row: SensitivityRow) => `${row.dim} on ${row.score}`,
            }),
            Plot.text(known, {
              x: 'score',
              y: 'dim',
              text: (row: SensitivityRow) =>
                `${row.from === 'surrogate' ? '≈' : ''}${(row.total ?? 0).toFixed(2)}`,
              fill: INK,
              fontSize: TEXT_SIZE,
            }),
            Plot.text(unknown, {
              x: 'score',
              y: 'dim',
              text: () => '–',
              fill: QUIET,
              fontSize: TEXT_SIZE,
              title: 'reason',
            }),
          ],
        },
      },
    ],
  });
}
