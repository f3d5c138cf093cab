import type { Done } from './change.js';
import type { Setting } from './settings.js';

/**
 * What a maker would call one idea: the numbers that are changed, and which way, and the words. Of points of a line or an outline
 * only whose they are, and whether it is an edge of it that is set, a corner, or the whole: which of its corners is no other idea.
 */
function ideaOf(done: readonly Done[], settings: readonly Setting[]): string {
  const changed = done.flatMap(({ move, amount }) => {
    const { because } = move.ties.find((tie) => tie.because !== 'equal' && tie.because !== 'shuts') ?? {};
    return move.steps.map(({ setting, by }) => {
      const { place } = settings[setting];
      const [corner, axis] = place.slice(-2);
      if (typeof corner === 'number' && typeof axis === 'number')
        return `${place.slice(0, -2)} ${because ?? 'point'}`;
      return `${place} ${move.kind === 'word' ? by : Math.sign(by * amount)}`;
    });
  });
  return [...new Set(changed)].sort().join(' and ');
}

/** Of several ways to do the same thing the first. */
export function differentIdeas<Way extends { readonly done: readonly Done[] }>(
  ways: readonly Way[],
  settings: readonly Setting[],
): Way[] {
  const known = new Set<string>();
  return ways.filter(({ done }) => {
    const idea = ideaOf(done, settings);
    if (known.has(idea)) return false;
    known.add(idea);
    return true;
  });
}
