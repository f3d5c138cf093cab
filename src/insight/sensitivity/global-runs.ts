import type { Variable } from '../../search/evaluator.js';
import { hashText, type Random, stream } from '../../search/random.js';
import { Sobol } from '../../search/sobol.js';
import { Space } from '../../search/variables.js';
import type { ScoredPoint } from '../surrogate-scores.js';
import type { Batch, PointSource } from './batch.js';
import { dimsWorthALook, morrisScreening } from './morris.js';
import { saltelliRows } from './saltelli.js';
import { indicesOfAll, type SobolResult } from './sobol-indices.js';
import { DOES_NOT_VARY, varies } from './varies.js';

/** Dummies scored for indices, for each that the study itself has scored. */
export const FOR_INDICES = 0.6;
/** With fewer base points than this the intervals are too wide to say anything. Common practice, no source. */
const LEAST_BASE = 64;
/** With fewer base points than this for all dims, those that hardly matter are set aside first. */
const ENOUGH_BASE = 128;
/** Walks of the screening: 4 to 10 are common practice. */
const WALKS = 6;
/** A dim is set aside if it moves no score by more than this share of what the strongest dim does there. */
const SHARE = 0.1;
/** What was set aside is looked at all the same where all of it together has a greater total index than this. */
const TOGETHER = 0.01;
/** The Sobol points here have at most so many dims. */
const MOST_SOBOL = 256;
/** A surrogate learns nothing that can be trusted from fewer plain dummies than this. No source. */
export const LEAST_LEARNT = 200;
/** Of what is scored here, so many dummies are kept to learn from: a million would tell little more, and fill the memory. */
const MOST_KEPT = 10_000;

const HARDLY =
  'set aside: in a screening it moved no score by more than a tenth of what the strongest dim does';
const SET_ASIDE = `${HARDLY}, and all that were set aside have no total index above ${TOGETHER} together`;
const NOT_KNOWN = `${HARDLY}; what all that were set aside do together could not be measured`;

/** What was scored to see which dims drive which scores. */
export interface GlobalRuns {
  /** From true scoring, [dim][score]. */
  readonly indices: readonly (readonly SobolResult[])[];
  /** Dummies scored for it: all, or as many as are worth learning from. */
  readonly points: readonly ScoredPoint[];
  /** How the indices came about, in a sentence. */
  readonly note: string;
}

/**
 * Which dims drive which scores over the whole of their ranges: Sobol indices from true scoring.
 *
 * The budget is told in runs, so that the same is measured whatever the machine, the number of workers or an
 * interruption; it is a share of what the study itself has scored, and so one of its time. It gives budget / (dims + 2)
 * base points. If that is fewer than 128, a screening (Morris, 6 walks) first says which dims move no score: they are asked
 * about as one, and the rest of the budget is spent on the others. A few walks can miss what a dim does in a corner of the
 * ranges: where those set aside do matter as one, each is asked about, too, on the first 64 base points. If there would be
 * fewer than 64, the rest of the budget goes into plain samples, for a surrogate to learn from. Dims that hang on others by
 * arithmetic are not varied by themselves.
 *
 * @param batch all scores of vectors of dim values
 * @param budget most runs
 * @param plain how many plain samples the study has scored already
 */
export async function globalRuns(
  batch: Batch,
  variables: readonly Variable[],
  seed: number,
  budget: number,
  plain: number,
): Promise<GlobalRuns> {
  const dims = variables.length;
  const runs = new KeptRuns(batch, new Space(variables));
  const all = variables.map((_, dim) => dim);
  let looked = all;
  let left = budget;
  if (baseOf(left, dims) < ENOUGH_BASE && WALKS * (dims + 1) < left / 2) {
    looked = await worthALook(runs, dims, stream(seed, 'screening'));
    left -= WALKS * (dims + 1);
  }
  const aside = all.filter((dim) => !looked.includes(dim));
  const base = baseOf(left, looked.length + Math.min(1, aside.length));
  return base >= LEAST_BASE
    ? indicesFrom(runs, looked, aside, base, seed)
    : plainOnly(runs, dims, plain + left >= LEAST_LEARNT ? left : 0, seed);
}

/** Scores rows of the unit cube, and keeps them for a surrogate to learn from. */
class KeptRuns {
  readonly points: ScoredPoint[] = [];
  readonly #batch: Batch;
  readonly #space: Space;
  /** Groups of this measurement, apart from those of the study. */
  #group = -1;

  constructor(batch: Batch, space: Space) {
    this.#batch = batch;
    this.#space = space;
  }

  /**
   * @param inAGroup how many rows belong together: one base point, one walk
   * @param isPlain whether a row is a plain sample, by its place in its group
   */
  async score(
    rows: readonly Float64Array[],
    inAGroup: number,
    isPlain: (place: number) => boolean,
  ): Promise<Float64Array[]> {
    const answers = await this.#batch(rows.map((unit) => this.#space.toValues(unit)));
    rows.slice(0, Math.max(0, MOST_KEPT - this.points.length)).forEach((unit, i) => {
      const at = i % inAGroup;
      const plain = isPlain(at);
      this.points.push({
        unit: this.#space.snap(unit.slice()),
        scores: answers[i],
        plain,
        group: this.#group,
      });
      if (at === inAGroup - 1) this.#group--;
    });
    return answers;
  }
}

const baseOf = (runs: number, groups: number): number => Math.floor(runs / (groups + 2));
const isSample = (place: number): boolean => place < 2;
const isNone = (): boolean => false;

async function worthALook(runs: KeptRuns, dims: number, random: Random): Promise<number[]> {
  const screened = await morrisScreening((rows) => runs.score(rows, dims + 1, isNone), dims, WALKS, random);
  return dimsWorthALook(screened, SHARE);
}

/** Indices of the dims looked at, and of those set aside as one, or one by one where they do matter. */
async function indicesFrom(
  runs: KeptRuns,
  looked: readonly number[],
  aside: readonly number[],
  base: number,
  seed: number,
): Promise<GlobalRuns> {
  const dims = looked.length + aside.length;
  const point = pointsIn(2 * dims, seed);
  const groups = [...looked.map((dim) => [dim]), ...(aside.length > 0 ? [aside] : [])];
  const width = groups.length + 2;
  const answers = await runs.score(saltelliRows(base, dims, point, groups), width, isSample);
  const measured = indicesOfAll(answers, groups.length, stream(seed, 'bootstrap of indices'));
  const indices: (readonly SobolResult[])[] = Array.from({ length: dims }, () => []);
  for (const [i, dim] of looked.entries()) indices[dim] = measured[i];
  const found = (count: number, more: string): GlobalRuns => ({
    indices,
    points: runs.points,
    note: `From ${count.toLocaleString('en')} dummies scored for this (${base} base points)${more}.`,
  });
  if (aside.length === 0) return found(answers.length, '');

  const of = `${aside.length} of ${dims} dims`;
  const together = measured[looked.length];
  if (!together.some(({ index }) => index !== null && index.total > TOGETHER)) {
    for (const dim of aside) indices[dim] = together.map(setAside);
    return found(answers.length, `; ${of} were set aside by a screening`);
  }
  const alone = aside.map((dim) => [dim]);
  const rows = saltelliRows(LEAST_BASE, dims, point, alone);
  const placeOf = (row: number) => row % (alone.length + 2);
  // A and B of these base points are known.
  const fresh = await runs.score(
    rows.filter((_, row) => !isSample(placeOf(row))),
    alone.length,
    isNone,
  );
  const complete = rows.map((_, row) => {
    const at = Math.floor(row / (alone.length + 2));
    const place = placeOf(row);
    return isSample(place) ? answers[at * width + place] : fresh[at * alone.length + place - 2];
  });
  const each = indicesOfAll(complete, alone.length, stream(seed, 'bootstrap of what was set aside'));
  for (const [i, dim] of aside.entries()) indices[dim] = each[i];
  return found(
    answers.length + fresh.length,
    `; ${of}, which a screening had set aside, were asked about on ${LEAST_BASE} of them`,
  );
}

/** What is said of a dim that was set aside, from what all that were do together. */
const setAside = ({ index, droppedShare }: SobolResult): SobolResult => ({
  index: null,
  reason: index === null ? NOT_KNOWN : SET_ASIDE,
  droppedShare,
});

/** Plain samples, where there are too few runs for indices: one at least, which tells how many scores there are. */
async function plainOnly(runs: KeptRuns, dims: number, more: number, seed: number): Promise<GlobalRuns> {
  const least = WALKS * (dims + 1) + LEAST_BASE * (dims + 2);
  const study = Math.ceil(least / FOR_INDICES).toLocaleString('en');
  const reason = `too few runs for indices: a study of ${study} dummies would be enough`;
  const point = pointsIn(dims, seed);
  const units = Array.from({ length: Math.max(1, more) }, (_, index) => {
    const unit = new Float64Array(dims);
    point(index, unit);
    return unit;
  });
  const [first] = await runs.score(units, 1, () => true);
  const byScore = Array.from(first, (_, score): SobolResult => {
    const still = more > 1 && !varies(runs.points.map(({ scores }) => scores[score]));
    return { index: null, reason: still ? DOES_NOT_VARY : reason, droppedShare: 0 };
  });
  const indices = Array.from({ length: dims }, () => byScore);
  return { indices, points: runs.points, note: `Not measured: ${reason}.` };
}

/** Points other than those of the study's own samples; random ones where the Sobol points have too few dims. */
export function pointsIn(dims: number, seed: number): PointSource {
  if (dims <= MOST_SOBOL) {
    const sobol = new Sobol(dims, hashText(`${seed}/sensitivity`));
    return (index, out) => sobol.point(index, out);
  }
  return (index, out) => {
    const random = stream(seed, `sensitivity ${index}`);
    for (let i = 0; i < out.length; i++) out[i] = random.next();
  };
}
