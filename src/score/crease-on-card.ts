import type { Line } from '../geometry/line.js';
import { shareOnCard } from '../geometry/on-card.js';
import { type Assembly, isPage } from '../motion/assembly.js';
import { receiversOf } from './receivers.js';

/** The crease of which the least lies on card: per cent, on the first of two panels. */
export interface CreaseOnCard {
  readonly share: number;
  readonly between: readonly [number, number];
}

/**
 * Of all creases, inside pieces, where tabs are glued and where a tongue's neck leaves its link, the one of which the least lies on card
 * on one of its sides; what a tab is glued to stands in its place. Null where there is no crease but the gutter.
 */
export function leastCreaseOnCard(assembly: Assembly): CreaseOnCard | null {
  const { panels, joints } = assembly;
  const receivers = receiversOf(assembly);
  let least: CreaseOnCard | null = null;
  const take = (line: Line, k: number, other: number) => {
    const share = 100 * shareOnCard(line, panels[k]);
    if (least === null || share < least.share) least = { share, between: [k, other] };
  };
  for (const joint of joints) {
    if (joint.kind === 'slide' && joint.neck !== undefined)
      take(joint.neck.lines[0], joint.neck.link, joint.between[0]);
    if (joint.kind !== 'crease' || joint.between.every(isPage)) continue;
    const sides = joint.between.map((k) => receivers.get(k) ?? k) as [number, number];
    sides.forEach((k, end) => {
      take(joint.lines[end], k, sides[1 - end]);
    });
  }
  return least;
}
