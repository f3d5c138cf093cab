import { wilson } from '../../insight/sensitivity/wilson.js';
import { framed } from './frame.js';
import { intervalBars } from './interval-bars.js';
import { percent } from './text.js';

/**
 * What fails first, and how often: a bar for each kind of failure, as a share of all dummies, with its 95 % interval.
 * @param title such as "What fails first in hand-cut dummies"
 * @param of how many dummies there were, failed or not; at least 1
 */
export function failureKindsChart(
  title: string,
  failures: readonly { failure: string; count: number }[],
  of: number,
  note: string,
): string {
  const sorted = [...failures].sort((a, b) => b.count - a.count);
  const bars = sorted.map(({ failure, count }) => {
    const { share, low, high } = wilson(count, of);
    const tip = `${percent(share)}, ${count} of ${of} (95 % interval ${percent(low)} to ${percent(high)})`;
    return { name: failure, value: share, low, high, reason: '', tip };
  });
  const failed = sorted.reduce((sum, { count }) => sum + count, 0);
  const caption = [
    bars.length === 0
      ? `Nothing to draw: none of ${of} dummies failed.`
      : `Mend the topmost first: ${bars[0].name}. ${failed} of ${of} dummies failed; each is counted once, at what failed first. Line: 95 % interval.`,
    note,
  ];
  return framed({
    title,
    description: bars.map((bar) => `${bar.name}: ${bar.tip}.`).join(' '),
    caption,
    panels:
      bars.length === 0
        ? []
        : [intervalBars(bars, 'share of all dummies (%)', (share) => String(Math.round(100 * share)))],
  });
}
