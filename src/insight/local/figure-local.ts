import type { FreeDim } from '../../figure/dims.js';
import type { Variable } from '../../search/evaluator.js';
import { Space } from '../../search/variables.js';
import { variablesOf } from '../../study/figure-variables.js';
import type { Batch, Verdicts } from '../sensitivity/batch.js';
import type { ScoreSlopes, ScoreSurrogate } from '../surrogate-scores.js';
import { type Nudge, nudges } from './nudge.js';
import { type CheckedNudge, checkedNudges } from './nudge-check.js';
import { type SafeRange, safeRangesOfEach, type Walk } from './safe-range.js';

/** Half of the stretch over which a nudge is measured, mm or degrees: short beside any bend of a score. */
const REACH = 0.1;
/** Ends of safe ranges are found to within this. */
const FINE = { mm: 0.05, degrees: 0.1, '': 0.05 } as const;
/** A range is walked in so many steps, but none longer than 1 mm or 1°. */
const STEPS = 20;

/** What each score does per +1 mm or +1° of each free dim of a candidate, others as they are: [dim][score]. */
export function nudgesOf(
  scores: Batch,
  variables: readonly Variable[],
  vector: Float64Array,
): Promise<Nudge[][]> {
  return nudges(scores, variables, vector, REACH);
}

/** How far each free dim of some candidates may go while it works, others as they are, and what fails first: [candidate][dim]. */
export function safeRangesOf(
  verdicts: Verdicts,
  free: readonly FreeDim[],
  variables: readonly Variable[],
  candidates: readonly Float64Array[],
): Promise<SafeRange[][]> {
  return safeRangesOfEach(verdicts, variables, candidates, free.map(walkOf));
}

/** What a maker asks of the dims of one candidate: how far each may go, and which way to nudge it. */
export interface LocalInsight {
  /** For each free dim. */
  readonly safe: readonly SafeRange[];
  /** [free dim][score], scores as in `scoresOf`. */
  readonly nudges: readonly (readonly CheckedNudge[])[];
}

/**
 * Safe ranges and nudges of some candidates, by true scoring; the nudges checked against the gradient of a surrogate.
 * @param surrogate asked for when ranges are known; gives null where there is none to check with
 */
export async function localInsights(
  trials: { readonly verdicts: Verdicts; readonly scores: Batch },
  { free }: { readonly free: readonly FreeDim[] },
  candidates: readonly Float64Array[],
  surrogate: () => Promise<ScoreSurrogate | null>,
): Promise<LocalInsight[]> {
  // A figure may be cut by hand without a dim that could be changed.
  if (free.length === 0) return candidates.map(() => ({ safe: [], nudges: [] }));
  const variables = variablesOf({ free });
  const space = new Space(variables);
  const safe = await safeRangesOf(trials.verdicts, free, variables, candidates);
  const found: LocalInsight[] = [];
  for (const [c, vector] of candidates.entries()) {
    const nudges = await nudgesOf(trials.scores, variables, vector);
    const gradient = (await surrogate())?.slopes(space.toUnit(vector));
    found.push({ safe: safe[c], nudges: byDim(nudges, gradient) });
  }
  return found;
}

/** Each score's nudges checked, and back in their order: [dim][score]. */
function byDim(nudges: readonly (readonly Nudge[])[], gradient: ScoreSlopes | undefined): CheckedNudge[][] {
  const scores = nudges[0].map((_, score) =>
    checkedNudges(
      nudges.map((byScore) => byScore[score]),
      nudges.map((_, dim) => gradient?.slopes[dim][score] ?? Number.NaN),
      nudges.map((_, dim) => gradient?.sure[dim][score] ?? false),
    ),
  );
  return nudges.map((_, dim) => scores.map((checked) => checked[dim]));
}

function walkOf(dim: FreeDim): Walk {
  if (dim.kind === 'choice') return { coarse: 1, tolerance: 1 };
  return {
    coarse: Math.max(FINE[dim.unit], Math.min(1, (dim.max - dim.min) / STEPS)),
    tolerance: FINE[dim.unit],
  };
}
