import type { Cost, Done } from './change.js';
import type { Setting } from './settings.js';

interface Way {
  readonly done: readonly Done[];
  readonly cost: Pick<Cost, 'amount'>;
}

/**
 * Of several ways, the best first, those that are ideas of their own: not the same done otherwise, and not the same with more changes
 * that spare nothing.
 */
export function differentIdeas<One extends Way>(ways: readonly One[], settings: readonly Setting[]): One[] {
  const told: { changes: ReadonlySet<string>; amount: number }[] = [];
  return ways.filter(({ done, cost: { amount } }) => {
    const changes = changesIn(done, settings);
    const isTold = told.some(
      (other) => other.amount <= amount && [...other.changes].every((each) => changes.has(each)),
    );
    if (!isTold) told.push({ changes, amount });
    return !isTold;
  });
}

/**
 * The changes as a maker would tell them apart: the numbers that are changed, and which way, and the words. Of points of a line or an
 * outline only whose they are, and whether it is an edge of it that is set, a corner, or the whole: which of its corners is no other idea.
 */
function changesIn(done: readonly Done[], settings: readonly Setting[]): Set<string> {
  const changes = done.flatMap(({ move, amount }) => {
    const { because = 'point' } =
      move.ties.find((tie) => tie.because !== 'equal' && tie.because !== 'shuts') ?? {};
    return move.steps.map(({ setting, by }) => {
      const { place } = settings[setting];
      const [corner, axis] = place.slice(-2);
      if (typeof corner === 'number' && typeof axis === 'number') return `${place.slice(0, -2)} ${because}`;
      return `${place} ${move.kind === 'word' ? by : Math.sign(by * amount)}`;
    });
  });
  return new Set(changes);
}
