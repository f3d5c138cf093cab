import type { Assembly } from '../motion/assembly.js';

/** What each tab is glued to: where something is creased to a tab, that stands for it. By their indices. */
export const receiversOf = ({ panels, joints }: Assembly): ReadonlyMap<number, number> =>
  new Map(
    joints.flatMap(({ kind, between: [on, k] }) =>
      kind === 'glue' && panels[k].role === 'tab' ? [[k, on] as const] : [],
    ),
  );
