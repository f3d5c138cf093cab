/**
 * Exact two-sided rank-sum test of Wilcoxon, Mann and Whitney (H. B. Mann, D. R. Whitney, "On a test of whether one of two
 * random variables is stochastically larger than the other", Annals of Mathematical Statistics 18, 1947): how likely two
 * samples of the same kind differ so much in their ranks by chance. Ties share their middle rank; all ways to split the
 * pooled ranks are counted, so the answer is exact with ties too.
 *
 * @param a, b at most ten values each; infinities count as least and greatest
 * @returns the chance, 0 to 1: 1 for samples that do not differ
 * @example rankSum([1, 2, 3, 4, 5], [6, 7, 8, 9, 10]) // 2 / 252
 */
export function rankSum(a: readonly number[], b: readonly number[]): number {
  if (a.length === 0 || b.length === 0) return 1;
  const ranks = midranks([...a, ...b]);
  const total = ranks.reduce((sum, rank) => sum + rank, 0);
  const expected = (total * a.length) / ranks.length;
  const off = Math.abs(ranks.slice(0, a.length).reduce((sum, rank) => sum + rank, 0) - expected);
  let as = 0;
  let all = 0;
  const choose = (from: number, left: number, sum: number): void => {
    if (left === 0) {
      all++;
      // Ranks are halves at the finest.
      if (Math.abs(sum - expected) > off - 1e-6) as++;
      return;
    }
    for (let i = from; i <= ranks.length - left; i++) choose(i + 1, left - 1, sum + ranks[i]);
  };
  choose(0, a.length, 0);
  return as / all;
}

/** The rank of each value, from 1; equal ones share the middle of theirs. */
function midranks(values: readonly number[]): number[] {
  return values.map((value) => {
    const below = values.filter((other) => other < value).length;
    const equal = values.filter((other) => other === value).length;
    return below + (equal + 1) / 2;
  });
}
