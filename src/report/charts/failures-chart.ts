import { wilson } from '../../insight/sensitivity/wilson.js';
import type { Tally } from '../../study/tally.js';
import { counted } from '../../text/phrases.js';
import { framed } from './frame.js';
import { intervalBars } from './interval-bars.js';
import { percent } from './text.js';

/** How often each limit is broken and each want missed. */
export function failuresChart({ works, fails, failures }: Tally): string {
  const of = works + fails;
  const bars = failures.map(({ name, count }) => {
    const { share, low, high } = wilson(count, of);
    return { name, value: share, low, high, reason: '', tip: `${percent(share)}, ${count} of ${of}` };
  });
  return framed({
    title: 'What fails how often',
    description: bars.map(({ name, tip }) => `${name}: ${tip}.`).join(' '),
    caption: [
      `Of ${counted(of, 'dummy', 'dummies')} that could be built, ${counted(fails, 'fails', 'fail')}, most often at ${failures[0].name}.`,
      'One dummy may fail at several things and counts at each. Line: 95 % interval.',
    ],
    panels: [
      intervalBars(bars, 'share of the dummies that could be built (%)', (share) =>
        String(Math.round(100 * share)),
      ),
    ],
  });
}
