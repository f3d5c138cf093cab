import type { Variable } from '../../search/evaluator.js';
import { hashText, stream } from '../../search/random.js';
import { Sobol } from '../../search/sobol.js';
import { Space } from '../../search/variables.js';
import type { ScoredPoint, ScoreSurrogate } from '../surrogate-scores.js';
import type { Batch, PointSource } from './batch.js';
import { surrogateIndices } from './by-surrogate.js';
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
/** The Sobol points here have at most so many dims. */
const MOST_SOBOL = 256;
/** A surrogate learns nothing that can be trusted from fewer plain dummies than this. No source. */
const LEAST_LEARNT = 200;
/** Of what is scored here, so many dummies are kept to learn from: a million would tell little more, and fill the memory. */
const MOST_KEPT = 10_000;

/** What was set aside is looked at all the same where all of it together has a greater total index than this. */
const TOGETHER = 0.01;

const SET_ASIDE = `set aside: in a screening it moved no score by more than a tenth of what the strongest dim does, and all that were set aside have no total index above ${TOGETHER} together`;
const NOT_KNOWN =
  'set aside: in a screening it moved no score by more than a tenth of what the strongest dim does; what all that were set aside do together could not be measured';

/** What was scored to see which dims drive which scores. */
export interface GlobalRuns {
  /** From true scoring, [dim][score]. */
  readonly indices: readonly (readonly SobolResult[])[];
  /** Dummies scored for it: all, or as many as are worth learning from. */
  readonly points: readonly ScoredPoint[];
  /** How the indices came about, in a sentence. */
  readonly note: string;
}

export interface GlobalSensitivity {
  /** [dim][score] */
  readonly indices: readonly (readonly SobolResult[])[];
  /** For each score, what its indices were taken from; null where it has none. */
  readonly from: readonly ('scoring' | 'surrogate' | null)[];
  readonly note: string;
}

/**
 * Which dims drive which scores over the whole of their ranges: Sobol indices from true scoring.
 *
 * The budget is told in runs, so that the same is measured whatever the machine, the number of workers or an
 * interruption; it is a share of what the study itself has scored, and so one of its time. It gives budget / (dims + 2)
 * base points. If that is fewer than 128, a screening (Morris, 6 walks) first says which dims move no score: they are asked
 * about as one, and the rest of the budget is spent on the others. A few walks can miss what a dim does in a corner of the
 * ranges: where those set aside do matter as one, each is asked about, too, on the first 64 base points. If there would be fewer than 64, the rest of the budget
 * goes into plain samples, for a surrogate to learn from. Dims that hang on others by arithmetic are not varied by
 * themselves.
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
  const space = new Space(variables);
  const dims = variables.length;
  const all = variables.map((_, dim) => dim);
  const points: ScoredPoint[] = [];
  /** Groups of this measurement, apart from those of the study. */
  let group = -1;
  const scored = async (units: Float64Array[], inAGroup: number, isPlain: (place: number) => boolean) => {
    const answers = await batch(units.map((unit) => space.toValues(unit)));
    units.slice(0, Math.max(0, MOST_KEPT - points.length)).forEach((unit, i) => {
      const at = i % inAGroup;
      points.push({ unit: space.snap(unit.slice()), scores: answers[i], plain: isPlain(at), group });
      if (at === inAGroup - 1) group--;
    });
    return answers;
  };

  let looked = all;
  let left = budget;
  if (baseOf(left, dims) < ENOUGH_BASE && WALKS * (dims + 1) < left / 2) {
    const screened = await morrisScreening(
      (rows) => scored(rows, dims + 1, () => false),
      dims,
      WALKS,
      stream(seed, 'screening'),
    );
    looked = dimsWorthALook(screened, SHARE);
    left -= WALKS * (dims + 1);
  }
  const aside = all.filter((dim) => !looked.includes(dim));
  const groups = [...looked.map((dim) => [dim]), ...(aside.length > 0 ? [aside] : [])];
  const base = baseOf(left, groups.length);
  if (base >= LEAST_BASE) {
    const point = pointsIn(2 * dims, seed);
    const rows = saltelliRows(base, dims, point, groups);
    // A and B are plain samples.
    const answers = await scored(rows, groups.length + 2, (place) => place < 2);
    const measured = indicesOfAll(answers, groups.length, stream(seed, 'bootstrap of indices'));
    const indices: (readonly SobolResult[])[] = all.map(() => []);
    for (const [i, dim] of looked.entries()) indices[dim] = measured[i];
    const note = (runs: number, more: string) =>
      `From ${runs.toLocaleString('en')} dummies scored for this (${base} base points)${more}.`;
    if (aside.length === 0) return { indices, points, note: note(rows.length, '') };

    const together = measured[looked.length];
    if (!together.some(({ index }) => index !== null && index.total > TOGETHER)) {
      for (const dim of aside) indices[dim] = together.map(setAside);
      const told = `; ${aside.length} of ${dims} dims were set aside by a screening`;
      return { indices, points, note: note(rows.length, told) };
    }
    const own = saltelliRows(
      LEAST_BASE,
      dims,
      point,
      aside.map((dim) => [dim]),
    );
    const width = aside.length + 2;
    const isKnown = (row: number) => row % width < 2;
    const fresh = await scored(
      own.filter((_, row) => !isKnown(row)),
      aside.length,
      () => false,
    );
    const complete = own.map((_, row) => {
      const at = Math.floor(row / width);
      return isKnown(row)
        ? answers[at * (groups.length + 2) + (row % width)]
        : fresh[at * aside.length + (row % width) - 2];
    });
    const each = indicesOfAll(complete, aside.length, stream(seed, 'bootstrap of what was set aside'));
    for (const [i, dim] of aside.entries()) indices[dim] = each[i];
    const told = `; ${aside.length} of ${dims} dims, which a screening had set aside, were asked about on ${LEAST_BASE} of them`;
    return { indices, points, note: note(rows.length + fresh.length, told) };
  }
  const least = WALKS * (dims + 1) + LEAST_BASE * (dims + 2);
  const study = Math.ceil(least / FOR_INDICES).toLocaleString('en');
  const reason = `too few runs for indices: a study of ${study} dummies would be enough`;
  const more = plain + left >= LEAST_LEARNT ? left : 0;
  const point = pointsIn(dims, seed);
  const units = Array.from({ length: Math.max(1, more) }, (_, index) => {
    const unit = new Float64Array(dims);
    point(index, unit);
    return unit;
  });
  const [first] = await scored(units, 1, () => true);
  const byScore = Array.from(first, (_, score): SobolResult => {
    const still = more > 1 && !varies(points.map(({ scores }) => scores[score]));
    return { index: null, reason: still ? DOES_NOT_VARY : reason, droppedShare: 0 };
  });
  return { indices: all.map(() => byScore), points, note: `Not measured: ${reason}.` };
}

/**
 * Which scores a surrogate might tell more of: they vary, and no dim has an index. Empty where there are too few plain
 * dummies to learn from.
 */
export function scoresToLearn(indices: GlobalRuns['indices'], points: readonly ScoredPoint[]): number[] {
  const plain = points.filter((point) => point.plain);
  if (plain.length < LEAST_LEARNT) return [];
  return Array.from({ length: plain[0].scores.length }, (_, score) => score).filter(
    (score) =>
      indices.every((byScore) => byScore[score].index === null) &&
      varies(plain.map(({ scores }) => scores[score])),
  );
}

/** Indices from true scoring, and those of a surrogate where there are none. */
export async function withSurrogate(
  { indices, note }: GlobalRuns,
  surrogate: ScoreSurrogate | null,
  wanted: readonly number[],
  seed: number,
): Promise<GlobalSensitivity> {
  const dims = indices.length;
  const measured =
    surrogate === null
      ? []
      : await surrogateIndices(
          surrogate,
          wanted,
          dims,
          pointsIn(2 * dims, seed),
          stream(seed, 'bootstrap of the surrogate'),
        );
  const filled = indices.map((byScore, dim) =>
    byScore.map((result, score) => {
      const k = surrogate === null ? -1 : wanted.indexOf(score);
      if (k < 0) return result;
      const said = measured[dim][k];
      return said.index === null ? { ...said, reason: `${result.reason}; ${said.reason}` } : said;
    }),
  );
  const from = Array.from({ length: indices[0]?.length ?? 0 }, (_, score) =>
    filled.every((byScore) => byScore[score].index === null)
      ? null
      : surrogate !== null && wanted.includes(score)
        ? 'surrogate'
        : 'scoring',
  );
  const learnt = surrogate !== null && from.includes('surrogate') && !from.includes('scoring');
  return {
    indices: filled,
    from,
    note: learnt
      ? `From a surrogate that has learnt ${surrogate.learnt.toLocaleString('en')} dummies, since true scoring would take more runs.`
      : note,
  };
}

const baseOf = (runs: number, dims: number): number => Math.floor(runs / (dims + 2));

/** What is said of a dim that was set aside, from what all that were do together. */
const setAside = ({ index, droppedShare }: SobolResult): SobolResult => ({
  index: null,
  reason: index === null ? NOT_KNOWN : SET_ASIDE,
  droppedShare,
});

/** Points other than those of the study's own samples; random ones where the Sobol points have too few dims. */
function pointsIn(dims: number, seed: number): PointSource {
  if (dims <= MOST_SOBOL) {
    const sobol = new Sobol(dims, hashText(`${seed}/sensitivity`));
    return (index, out) => sobol.point(index, out);
  }
  return (index, out) => {
    const random = stream(seed, `sensitivity ${index}`);
    for (let i = 0; i < out.length; i++) out[i] = random.next();
  };
}
