import { frontOfTwo } from '../../search/front-of-two.js';
import { type TradeOffPoint, tradeOffChart } from '../charts/trade-off.js';
import { heaviestTwo, type WantAxis } from '../charts/want-axes.js';
import type { StudyReport } from '../study-report.js';
import { type Html, html, trusted } from './html.js';

/** More points than this only blacken the paper. */
const MOST_POINTS = 1500;

/** The trade-off between the two wants that weigh most, over the best candidates; in words where there is none. */
export function tradeOff(report: StudyReport): Html {
  const { layout, better, table, ranking } = report;
  const drawn = heaviestTwo(layout.wants, better);
  if (drawn === null)
    return html`<p>This figure has fewer than two wants: there is nothing to trade off.</p>`;

  const working = ranking.filter((candidate) => table.outcome(candidate) === 'works');
  const candidates = (working.length > 1 ? working : ranking).slice(0, MOST_POINTS);
  const [x, y] = drawn.map(({ axis, value }) => ({
    axis,
    value: (candidate: number) => value(layout, table.numbers(candidate)),
  }));
  const front = frontOf(candidates, [x, y]);
  const points = candidates.map(
    (candidate): TradeOffPoint => ({
      name: String(candidate + 1),
      x: orNull(x.value(candidate)),
      y: orNull(y.value(candidate)),
      front: front.has(candidate),
    }),
  );
  const note = `Drawn: the best ${candidates.length} ${working.length > 1 ? 'of the dummies that work' : 'dummies, though they do not work'}.`;
  return html`<figure>${trusted(tradeOffChart(x.axis, y.axis, points, note))}</figure>`;
}

interface Side {
  axis: WantAxis;
  value(candidate: number): number;
}

/** Those that no other beats in the two wants as they are drawn: desirability would call all that is more than enough equal. */
function frontOf(candidates: readonly number[], [x, y]: readonly Side[]): Set<number> {
  const known = candidates.filter((candidate) => !Number.isNaN(x.value(candidate) + y.value(candidate)));
  const sided = ({ axis, value }: Side) => ({ better: axis.better, value });
  return new Set(frontOfTwo(known, sided(x), sided(y)));
}

function orNull(value: number): number | null {
  return Number.isNaN(value) ? null : value;
}
