import { cardArea } from '../geometry/polygon.js';
import type { Assembly } from '../motion/assembly.js';

/** What a dummy asks of its maker. */
export interface Labour {
  /** Card of all pieces, tabs included, cm². */
  readonly card: number;
  /** Pieces to cut out. */
  readonly pieces: number;
  /** Places to glue: tabs, and pieces glued on flat. */
  readonly glueJoints: number;
}

/** Counts what a dummy takes; the pages themselves are there already. */
export function labourOf({ panels, joints }: Assembly): Labour {
  const own = panels.filter(({ part }) => part !== 'page');
  return {
    card: own.reduce((sum, panel) => sum + cardArea(panel), 0) / 100,
    pieces: new Set(own.map(({ piece }) => piece)).size,
    glueJoints: joints.filter(({ kind }) => kind === 'glue').length,
  };
}
