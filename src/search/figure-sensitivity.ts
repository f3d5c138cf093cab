import type { Variable } from './evaluator.js';
import { hashText, stream } from './random.js';
import type { Batch, PointSource } from './sensitivity/batch.js';
import { dimsWorthALook, morrisScreening } from './sensitivity/morris.js';
import { type SobolResult, sobolSensitivity } from './sensitivity/sobol-indices.js';
import { Sobol } from './sobol.js';
import { Space } from './variables.js';

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

const SET_ASIDE =
  'set aside: in a screening it moved no score by more than a tenth of what the strongest dim does';

export interface GlobalSensitivity {
  /** [dim][score] */
  readonly indices: readonly (readonly SobolResult[])[];
  /** How the indices came about, in a sentence. */
  readonly note: string;
}

/**
 * Which dims drive which scores over the whole of their ranges: Sobol indices from true scoring.
 *
 * A budget of runs gives budget / (dims + 2) base points. If that is fewer than 128, a screening (Morris, 6 walks) first
 * sets aside dims that move no score; they then stay at the middle of their ranges, and the rest of the budget is spent
 * on the others. Dims that hang on others by arithmetic are not varied by themselves.
 *
 * @param batch all scores of vectors of dim values
 * @param budget most runs
 */
export async function globalSensitivity(
  batch: Batch,
  variables: readonly Variable[],
  seed: number,
  budget: number,
): Promise<GlobalSensitivity> {
  const space = new Space(variables);
  const dims = variables.length;
  const inUnits: Batch = (rows) => batch(rows.map((row) => space.toValues(row)));
  const scores = (await inUnits([new Float64Array(dims).fill(0.5)]))[0].length;
  const all = variables.map((_, dim) => dim);
  const none = (reason: string) => all.map(() => unmeasured(reason, scores));

  let looked = all;
  let left = budget;
  if (baseOf(left, dims) < ENOUGH_BASE && WALKS * (dims + 1) < left / 2) {
    const screened = await morrisScreening(inUnits, dims, WALKS, stream(seed, 'screening'));
    looked = dimsWorthALook(screened, SHARE);
    left -= WALKS * (dims + 1);
  }
  const base = baseOf(left, looked.length);
  if (base < LEAST_BASE) {
    const least = LEAST_BASE * (dims + 2);
    const reason = `too few runs for indices: ${least} would be enough`;
    return { indices: none(reason), note: `Not measured: ${reason}.` };
  }

  const few: Batch = (rows) =>
    inUnits(
      rows.map((row) => {
        const unit = new Float64Array(dims).fill(0.5);
        for (const [i, dim] of looked.entries()) unit[dim] = row[i];
        return unit;
      }),
    );
  const measured = await sobolSensitivity(few, looked.length, {
    count: base,
    point: pointsIn(2 * looked.length, seed),
    random: stream(seed, 'bootstrap of indices'),
  });
  const indices = none(SET_ASIDE);
  for (const [i, dim] of looked.entries()) indices[dim] = measured[i];
  const runs = base * (looked.length + 2);
  const aside = dims - looked.length;
  return {
    indices,
    note: `From ${runs.toLocaleString('en')} dummies scored for this (${base} base points)${aside > 0 ? `; ${aside} of ${dims} dims were set aside by a screening` : ''}.`,
  };
}

const baseOf = (runs: number, dims: number): number => Math.floor(runs / (dims + 2));

function unmeasured(reason: string, scores: number): SobolResult[] {
  return Array.from({ length: scores }, () => ({ index: null, reason, droppedShare: 0 }));
}

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
