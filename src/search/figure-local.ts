import type { FreeDim } from '../figure/dims.js';
import type { Variable } from './evaluator.js';
import type { Batch, Verdicts } from './sensitivity/batch.js';
import { type Nudge, nudges } from './sensitivity/nudge.js';
import { type SafeRange, safeRanges, type Walk } from './sensitivity/safe-range.js';

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

/** How far each free dim of a candidate may go while it works, others as they are, and what fails first beyond. */
export function safeRangesOf(
  verdicts: Verdicts,
  free: readonly FreeDim[],
  variables: readonly Variable[],
  vector: Float64Array,
): Promise<SafeRange[]> {
  const walks = free.map((dim): Walk => {
    if (dim.kind === 'choice') return { coarse: 1, tolerance: 1 };
    return {
      coarse: Math.max(FINE[dim.unit], Math.min(1, (dim.max - dim.min) / STEPS)),
      tolerance: FINE[dim.unit],
    };
  });
  return safeRanges(verdicts, variables, vector, walks);
}
