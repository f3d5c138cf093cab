import type { FailureCauses } from '../../insight/hand/failure-causes.js';
import { framed } from './frame.js';
import { intervalBars } from './interval-bars.js';
import { percent } from './text.js';

/**
 * Which cut to take most care with: for each error, the share of failed dummies that would have worked, had this one been
 * exact, with its 95 % interval. Errors that were not put to the proof are counted, not drawn.
 */
export function failureCausesChart({ causes, reason }: FailureCauses, note: string): string {
  const tried = causes.filter((cause) => cause.cured !== null);
  const bars = tried.map(({ name, cured }) => ({
    name,
    value: cured?.share ?? null,
    low: cured?.low ?? null,
    high: cured?.high ?? null,
    reason: '',
    tip: cured === null ? '' : `${percent(cured.share)} (${percent(cured.low)} to ${percent(cured.high)})`,
  }));
  const title = 'Which cut causes the failures';
  const worst = tried[0]?.cured;
  if (!worst) {
    const why = `Nothing to draw: ${reason ?? 'no error was put to the proof'}.`;
    return framed({ title, description: why, caption: [why, note], panels: [] });
  }
  const rest = causes.length - tried.length;
  const caption = [
    worst.count > 0
      ? `Take most care over ${tried[0].name}: made exact, it would have saved ${percent(worst.share)} of the failed dummies.`
      : 'No single cut made exact would have saved a failed dummy.',
    'Bar: the failed dummies that work when cut again with this error alone made 0; line: 95 % interval. Bars need not add up to 100 %: two errors can be needed for one failure.',
    rest > 0 ? `Less guilty by their looks, and not put to the proof: ${rest} more.` : '',
    note,
  ];
  return framed({
    title,
    description: bars.map((bar) => `${bar.name}: ${bar.tip}.`).join(' '),
    caption,
    panels: [intervalBars(bars, 'failed dummies that it would have saved (%)', inHundred)],
  });
}

function inHundred(share: number): string {
  return String(Math.round(100 * share));
}
