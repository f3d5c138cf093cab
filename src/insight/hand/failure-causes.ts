import { answerAll, type Verdicts } from '../sensitivity/batch.js';
import { type Share, wilson } from '../sensitivity/wilson.js';
import { type CutDummy, type CutError, inUnits } from './tolerance.js';

/** What one cut error has to do with the failures. */
export interface FailureCause {
  name: string;
  /**
   * The part of the variance of "works or fails" that this error explains by itself: first-order, from the dummies
   * already cut. 0 when it explains no more than chance would.
   */
  explains: number;
  /** How likely chance alone makes an error look at least so guilty, if it has nothing to do with the failures. */
  chance: number;
  /** Of the failed dummies cut again with this one error made 0 and all others kept: how many then work. */
  cured: Share | null;
  /** Why `cured` is null. */
  reason: string | null;
}

export interface FailureCauses {
  /** The worst cause first; empty when `reason` says why. */
  causes: FailureCause[];
  reason: string | null;
}

/**
 * Which cut errors cause the failures. In two steps, since cutting again costs a run for each failure and error:
 *
 * 1. *Suspects*, free of runs. With z the error in standard deviations, z and (z² − 1)/√2 are the first two orthonormal
 *    Hermite polynomials H₁, H₂. Let F be 1 for a failed dummy, p its mean. The part of V(F) = p(1 − p) that z explains
 *    by itself is Σₖ cₖ² / V(F), cₖ = E[F Hₖ(z)] (Parseval), and cₖ = p(1 − p) dₖ with dₖ the mean of Hₖ among the
 *    failed less that among the working. So d₁ finds an error that fails in one direction, d₂ one that fails by its
 *    size, and `explains` is their p(1 − p)(d₁² + d₂²), less the 2(1/n + 1/m) that n failed and m working dummies give
 *    by chance. For an innocent error (d₁² + d₂²) / (1/n + 1/m) is chi-square with 2 degrees of freedom, whose chance
 *    to exceed x is exp(−x/2).
 * 2. *Proof*. Association is not cause, and an error that acts only through another is invisible to step 1 when both are
 *    symmetric. So failed dummies are cut again with the suspect error made 0. The share cured says how many failures
 *    this one error was needed for. Shares don't add up to 1: two errors that fail a dummy together each cure it, two
 *    that each fail it alone cure nothing.
 *
 * @param verdicts takes errors in mm and degrees, one to each cut
 * @param suspects how many errors are put to the proof, those that explain most; or which, by their places among the cuts,
 *   where the maker of the figure knows better than step 1 whom to suspect
 * @param failed at most how many failed dummies are cut again for each
 */
export async function failureCauses(
  cuts: readonly CutError[],
  dummies: readonly CutDummy[],
  verdicts: Verdicts,
  suspects: number | readonly number[],
  failed: number,
): Promise<FailureCauses> {
  const guilty = dummies.filter((dummy) => dummy.failure !== null);
  if (guilty.length === 0) return { causes: [], reason: 'no dummy failed' };

  const causes = cuts.map((cut, k) => ({ ...suspicion(dummies, k), k, name: cut.name }));
  const ranked = causes.filter(({ k }) => cuts[k].sigma > 0);
  ranked.sort((a, b) => a.chance - b.chance || b.explains - a.explains || a.k - b.k);
  const known = typeof suspects === 'number' ? ranked.slice(0, suspects).map(({ k }) => k) : suspects;
  const tried = ranked.filter(({ k }) => known.includes(k));
  const order = [...tried, ...ranked.filter(({ k }) => !known.includes(k))];
  const again = guilty.slice(0, failed);
  const rows = tried.flatMap(({ k }) =>
    again.map((dummy) => {
      const errors = dummy.errors.slice();
      errors[k] = 0;
      return inUnits(errors, cuts);
    }),
  );
  const answers = await answerAll(verdicts, rows);

  const results = order.map(({ name, explains, chance }, rank): FailureCause => {
    if (rank >= tried.length) {
      return { name, explains, chance, cured: null, reason: 'not among the errors cut again' };
    }
    const mine = answers.slice(rank * again.length, (rank + 1) * again.length);
    const cured = wilson(mine.filter((failure) => failure === null).length, again.length);
    return { name, explains, chance, cured, reason: null };
  });
  results.sort((a, b) => (b.cured?.share ?? -1) - (a.cured?.share ?? -1));
  return { causes: results, reason: null };
}

/** Step 1 for error number k. */
function suspicion(dummies: readonly CutDummy[], k: number): { explains: number; chance: number } {
  const sums = { failed: [0, 0, 0], working: [0, 0, 0] };
  for (const { errors, failure } of dummies) {
    const sum = failure === null ? sums.working : sums.failed;
    sum[0] += 1;
    sum[1] += errors[k];
    sum[2] += (errors[k] ** 2 - 1) / Math.SQRT2;
  }
  const [n, m] = [sums.failed[0], sums.working[0]];
  // All failed: there is nothing to compare with, and no error stands out.
  if (n === 0 || m === 0) return { explains: 0, chance: 1 };
  const d1 = sums.failed[1] / n - sums.working[1] / m;
  const d2 = sums.failed[2] / n - sums.working[2] / m;
  const byChance = 1 / n + 1 / m;
  const square = d1 * d1 + d2 * d2;
  const p = n / (n + m);
  return {
    explains: Math.max(0, p * (1 - p) * (square - 2 * byChance)),
    chance: Math.exp(-square / byChance / 2),
  };
}
