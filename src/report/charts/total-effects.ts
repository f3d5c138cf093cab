import type { SensitivityRow } from '../../insight/sensitivity/sensitivity.js';
import { spoken } from '../../text/phrases.js';
import { framed } from './frame.js';
import { intervalBars } from './interval-bars.js';
import { threeDigits } from './text.js';

/**
 * Which dims drive one score: a bar for each dim's total effect, a ring for its effect alone, and 95 % intervals.
 * @param rows the rows of the sensitivity table for this score
 * @param note said after the caption, such as where the numbers come from; may be empty
 */
export function totalEffectsChart(score: string, rows: readonly SensitivityRow[], note: string): string {
  const sorted = [...rows].sort((a, b) => (b.total ?? -1) - (a.total ?? -1));
  const bars = sorted.map((row) => ({
    name: row.dim,
    value: row.total,
    low: row.totalLow,
    high: row.totalHigh,
    ring: row.first,
    reason: row.reason,
    tip: row.total === null ? row.reason : said(row),
  }));
  const idle = sorted.filter((row) => row.totalHigh !== null && row.totalHigh < 0.01).map((row) => row.dim);
  const first = sorted.find((row) => row.total !== null);
  const caption = [
    first === undefined
      ? 'No effect could be measured.'
      : `Read the longest bar first: ${first.dim} drives ${score} most.`,
    'Bar: the share of the spread of the score that would be left if all other dims were known; ring: the share that the dim explains alone. A bar far past its ring acts through other dims. Line: 95 % interval.',
    idle.length > 0 ? `Of no account here: ${few(idle)}.` : '',
    note,
  ];
  return framed({
    title: `What drives ${score}`,
    description: bars.map((bar) => `${bar.name}: ${bar.tip}.`).join(' '),
    caption,
    panels: [intervalBars(bars, `share of the variance of ${score}`, threeDigits)],
  });
}

/** The first few names, and how many more there are. */
function few(names: readonly string[]): string {
  const most = 4;
  return names.length <= most
    ? spoken(names)
    : spoken([...names.slice(0, most), `${names.length - most} more`]);
}

function said(row: SensitivityRow): string {
  const [total, low, high] = [row.total, row.totalLow, row.totalHigh].map((value) =>
    threeDigits(value ?? Number.NaN),
  );
  return `total effect ${total} (${low} to ${high}), alone ${threeDigits(row.first ?? Number.NaN)}`;
}
