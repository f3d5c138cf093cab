import { sortIntoFronts } from './pareto.js';

/** What ranking needs to know of a scored candidate. */
export interface Rankable {
  /** Breaks no limit and meets every want. */
  readonly works: boolean;
  /** 0 when it breaks no limit, else how far it does, summed; infinite when it could not be scored. */
  readonly violation: number;
  /** Overall desirability, 0 to 1. */
  readonly desirability: number;
  /** For each want, how far it is from being wholly met, 0 to 1: to be minimised. */
  readonly objectives: Float64Array;
}

/**
 * The order of candidates, best first, as their places in the list: first those that work, then those that only miss a
 * want, both by non-dominated front (see `sortIntoFronts`) and inside a front by desirability; then those that break a
 * limit, by how far. Ties keep the order of the list.
 */
export function rank(candidates: readonly Rankable[]): number[] {
  const fronts = sortIntoFronts(
    candidates.map(({ objectives, violation }) => ({ objectives, violation: Math.max(0, violation) })),
  );
  const group = ({ works, violation }: Rankable) => (works ? 0 : violation === 0 ? 1 : 2);
  return candidates
    .map((_, place) => place)
    .sort((a, b) => {
      const [x, y] = [candidates[a], candidates[b]];
      return group(x) - group(y) || fronts[a] - fronts[b] || y.desirability - x.desirability || a - b;
    });
}
