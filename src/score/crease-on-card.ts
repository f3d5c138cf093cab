import { shareOnCard } from '../geometry/on-card.js';
import type { Assembly } from '../motion/assembly.js';

/** The crease of which the least lies on card: per cent, on the first of two panels. */
export interface CreaseOnCard {
  readonly share: number;
  readonly between: readonly [number, number];
}

/**
 * Of all creases, inside pieces and where tabs are glued, the one of which the least lies on card on one of its sides; what
 * a tab is glued to stands in its place. Null where there is no crease but the gutter.
 */
export function leastCreaseOnCard({ panels, joints }: Assembly): CreaseOnCard | null {
  const receivers = new Map(
    joints.flatMap(({ kind, between: [on, k] }) => (kind === 'glue' ? [[k, on] as const] : [])),
  );
  let least: CreaseOnCard | null = null;
  for (const joint of joints) {
    if (joint.kind !== 'crease' || joint.between.every((k) => k < 2)) continue;
    const sides = joint.between.map((k) => (panels[k].role === 'tab' ? (receivers.get(k) ?? k) : k)) as [
      number,
      number,
    ];
    sides.forEach((k, end) => {
      const share = 100 * shareOnCard(joint.lines[end], panels[k]);
      if (least === null || share < least.share) least = { share, between: [k, sides[1 - end]] };
    });
  }
  return least;
}
