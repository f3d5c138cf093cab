import { mean } from 'simple-statistics';
import { stream } from '../../search/random.js';
import type { CutOutcome } from './robustness.js';
import { type CutError, inUnits } from './tolerance.js';

/** One for so many that the study has scored is cut for a first look, and no more than so many. */
const SCORED_FOR_EACH = 60;
const MOST = 32;
/** Of these, one in so many is from the top of the ranking. */
const FROM_TOP = 4;
/** All are cut so often; fewer dummies would be all chance. */
const FIRST_LOOK = 5;
/** So many are looked at again, till each is cut so often. */
const LOOKED_AT_AGAIN = { candidates: 12, dummies: 12 };

/**
 * Which candidates deserve a look at what the hand makes of them: the first of the ranking, the maker's own, and more from all that
 * work, evenly by what they are worth as drawn. The first alone lie close together and close to limits: of 2,000 ferrymen (three seeds) the best
 * of the first eight is worth 0.33 cut by hand, the best of these 0.51 (`npm run bench -- search`).
 * @param ranking those that work, best first
 * @param own the maker's, null where there is none
 * @param worth what each is worth as drawn
 * @param scored how many candidates the study has scored
 * @returns each once, the first of the ranking first
 */
export function contenders(
  ranking: readonly number[],
  own: number | null,
  worth: (candidate: number) => number,
  scored: number,
): number[] {
  if (ranking.length === 0) return [];
  const count = Math.min(MOST, Math.ceil(scored / SCORED_FOR_EACH));
  const top = Math.ceil(count / FROM_TOP);
  const byWorth = Float64Array.from(ranking, worth);
  const order = Uint32Array.from(ranking.keys()).sort((a, b) => byWorth[b] - byWorth[a] || a - b);
  const even = Array.from(
    { length: count - top },
    (_, k) => ranking[order[Math.floor(((k + 0.5) * order.length) / (count - top))]],
  );
  const mine = ranking.filter((candidate) => candidate === own);
  return [...new Set([...ranking.slice(0, top), ...mine, ...even])];
}

/**
 * Which of the contenders are worth most cut by hand, by successive halving (K. Jamieson, A. Talwalkar, AISTATS 2016, from
 * memory): all are cut a few times, with the same errors; those worth least leave, and the rest is cut more often. What is told of those
 * that stay is measured with other errors, so that nobody is praised for luck.
 * @param errors what errs in each contender
 * @param cut what comes of dummies of contenders, given their errors in mm and degrees
 * @param stay how many are wanted
 * @returns the best first, as far as such a look can tell; all, as they were, where there are no more than wanted
 */
export async function finalists(
  contending: readonly number[],
  errors: (candidate: number) => readonly CutError[],
  cut: (dummies: readonly { candidate: number; errors: Float64Array }[]) => Promise<readonly CutOutcome[]>,
  stay: number,
  seed: number,
): Promise<number[]> {
  if (contending.length <= stay) return [...contending];
  const rounds = [
    { dummies: FIRST_LOOK, left: Math.max(stay, LOOKED_AT_AGAIN.candidates) },
    { dummies: LOOKED_AT_AGAIN.dummies, left: stay },
  ];
  let left = contending.map((candidate) => ({ candidate, worths: [] as number[] }));
  for (const { dummies, left: staying } of rounds) {
    const asked = left.map(({ candidate, worths }) => {
      const cuts = errors(candidate);
      const random = stream(seed, 'a first look');
      const all = Array.from({ length: dummies }, () => Float64Array.from(cuts, () => random.normal()));
      return all.slice(worths.length).map((each) => ({ candidate, errors: inUnits(each, cuts) }));
    });
    const outcomes = await cut(asked.flat());
    let from = 0;
    for (const [i, { worths }] of left.entries())
      for (const end = from + asked[i].length; from < end; from++) worths.push(outcomes[from].worth);
    left = left.sort((a, b) => mean(b.worths) - mean(a.worths)).slice(0, staying);
  }
  return left.map(({ candidate }) => candidate);
}
