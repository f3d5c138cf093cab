import type { Figure } from '../../figure/figure.js';
import { type TurningForce, turningIn } from '../../score/force/turning.js';
import type { Motion } from '../../view/motion.js';
import { hardestInWords } from '../words/force-words.js';
import { withUnit } from '../words/numbers.js';
import { el, svg } from './dom.js';
import type { Signal } from './signal.js';

/** The room of the curve, and of the whole drawing around it. */
const [WIDE, HIGH, LEFT, BELOW, ABOVE] = [260, 110, 34, 16, 6];

/** How hard the page of the dummy on show is to turn, as its dims are now. Drawn while it is unfolded. */
export function turnView(
  figure: Figure,
  motionNow: () => Motion | null,
  scored: Signal<number>,
): HTMLElement {
  const inside = el('div');
  const details = el('details', { class: 'turning' }, el('summary', {}, 'How hard its page turns'), inside);
  const refresh = () => {
    if (!details.open) return;
    const motion = motionNow();
    const turning = motion && turningIn(figure, motion.assembly, motion.opening);
    if (turning === null) {
      inside.replaceChildren(el('p', {}, 'It never opens flat, so there is no page to turn.'));
      return;
    }
    const hardest = hardestInWords(turning.score);
    inside.replaceChildren(
      drawn(turning, hardest),
      el(
        'p',
        { class: 'quiet' },
        `${hardest} Above 0 the page pushes back when it is shut. Typical card, not measured on yours.`,
      ),
    );
  };
  details.addEventListener('toggle', refresh);
  scored.watch(refresh);
  return details;
}

/** Force in sum over page angle, open on the left; dashed is what is easy, and what jams. */
function drawn({ curve, easy, hard }: TurningForce, words: string): SVGSVGElement {
  const { pageAngles, total } = curve;
  const most = Math.max(1.2 * easy, ...total.map(Math.abs));
  const x = (pageAngle: number) => (WIDE * (180 - pageAngle)) / 180;
  const y = (newtons: number) => (HIGH * (1 - newtons / most)) / 2;
  const level = (newtons: number, name: string) =>
    svg('path', { d: `M0 ${y(newtons).toFixed(1)}H${WIDE}`, class: name });
  const bounds = [easy, hard].filter((bound) => bound <= most).flatMap((bound) => [bound, -bound]);
  const text = (at: readonly [number, number], anchor: string, said: string) =>
    svg('text', { x: at[0], y: at[1], 'text-anchor': anchor }, said);
  return svg(
    'svg',
    {
      viewBox: `${-LEFT} ${-ABOVE} ${WIDE + LEFT + ABOVE} ${HIGH + BELOW + ABOVE}`,
      role: 'img',
      'aria-label': `How hard its page turns. ${words}`,
    },
    level(0, 'turning-zero'),
    ...bounds.map((bound) => level(bound, 'turning-bound')),
    svg('path', {
      d: `M${total.map((newtons, k) => `${x(pageAngles[k]).toFixed(1)} ${y(newtons).toFixed(1)}`).join('L')}`,
      class: 'turning-line',
    }),
    text([-4, y(easy) + 3], 'end', withUnit(easy, 'N')),
    text([-4, y(0) + 3], 'end', '0'),
    ...[180, 90, 0].map((at) =>
      text([x(at), HIGH + BELOW - 4], at === 180 ? 'start' : at === 0 ? 'end' : 'middle', `${at}°`),
    ),
  );
}
