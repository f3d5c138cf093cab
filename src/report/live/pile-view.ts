import { withUnit } from '../words/numbers.js';

import { el, svg } from './dom.js';
import type { PileMap } from './pile-map.js';
import type { Signal } from './signal.js';

/** Card this thick is drawn solid, mm; thinner card lets what lies under it show. */
const SOLID = 1.6;

/** The pile of card when shut, seen through the page: the darker, the thicker. Drawn while it is unfolded. */
export function pileView(mapNow: () => PileMap | null, scored: Signal<number>): HTMLElement {
  const inside = el('div');
  const details = el('details', { class: 'pile' }, el('summary', {}, 'The pile of card when shut'), inside);
  const refresh = () => {
    if (!details.open) return;
    const map = mapNow();
    inside.replaceChildren(
      ...(map === null
        ? [el('p', {}, 'It never shuts, so there is no pile to show.')]
        : [drawn(map), el('p', { class: 'quiet' }, inWords(map))]),
    );
  };
  details.addEventListener('toggle', refresh);
  scored.watch(refresh);
  return details;
}

function drawn({ panels, page, at, thickest }: PileMap): SVGSVGElement {
  const [x, y, width, height] = page;
  const margin = 0.06 * width;
  return svg(
    'svg',
    {
      viewBox: `${x - margin} ${y - margin} ${width + 2 * margin} ${height + 2 * margin}`,
      role: 'img',
      'aria-label': `Pile of card when shut. ${inWords({ panels, page, at, thickest })}`,
    },
    svg('rect', { x, y, width, height, class: 'pile-page' }),
    ...panels.map(({ d, thickness }) =>
      svg('path', {
        d,
        'fill-rule': 'evenodd',
        class: 'pile-panel',
        'fill-opacity': Math.min(1, thickness / SOLID),
      }),
    ),
    ...(at === null ? [] : [svg('circle', { cx: at[0], cy: at[1], r: 0.025 * width, class: 'pile-mark' })]),
  );
}

function inWords({ thickest, at, page }: PileMap): string {
  if (at === null) return 'Nothing lies between the pages.';
  const fromGutter = withUnit(-at[0], 'mm');
  const fromFoot = withUnit(-at[1], 'mm');
  const width = page[2];
  const where = -at[0] < width / 2 ? 'nearer the gutter' : 'nearer the fore-edge';
  return `Thickest: ${withUnit(thickest, 'mm')}, ${where}, ${fromGutter} from the gutter and ${fromFoot} from the foot of the page. The gutter is on the right.`;
}
