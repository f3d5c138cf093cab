import * as z from 'zod';
import { StudyError } from '../disk/error.js';
import type { Scored, Variable } from '../search/evaluator.js';
import type { HeldOut } from '../search/held-out.js';
import { Search, type SearchState } from '../search/search.js';
import { type TensorBackend, tensorBackend } from '../search/tensor-backend.js';
import { Sampler } from './sampler.js';
import type { Asker } from './study.js';

/** Ways to search: plain samples; samples, then evolution; and that with a surrogate that screens what is scored. */
export const SEARCH_WAYS = ['samples', 'evolution', 'surrogate'] as const;
export type SearchWay = (typeof SEARCH_WAYS)[number];

export interface SearchPlan {
  readonly way: SearchWay;
  readonly seed: number;
  /** How many candidates are scored in all; null when it is time that ends the study. */
  readonly samples: number | null;
  /** Values of the dims that are scored first of all, and bred from. */
  readonly own?: Float64Array;
}

/** What an interrupted study has kept: how far its search was told, the state then, and the record up to there. */
export interface KeptSearch {
  readonly told: number;
  readonly state: unknown;
  readonly record: () => Iterable<{ vector: ArrayLike<number>; scored: Scored }>;
}

const numbers = z.array(z.array(z.number()));
const searchState: z.ZodType<SearchState> = z.object({
  batches: z.array(z.int().min(1)),
  sampled: z.int().min(0),
  learnt: z
    .object({
      scales: z.array(z.object({ mean: z.number(), deviation: z.number() })),
      nets: z.array(z.object({ steps: z.int(), values: numbers, slopes: numbers, squares: numbers })),
    })
    .nullable(),
});

/** The backend of TensorFlow.js that a way of searching computes with; null where it needs none. */
export async function backendFor(way: SearchWay): Promise<TensorBackend | null> {
  return way === 'surrogate' ? await tensorBackend() : null;
}

/**
 * The search of a study, from its beginning or from where it was kept.
 * @param backend as `backendFor` gives it
 * @throws StudyError when what was kept is no state of such a search
 */
export function searchFor(
  variables: readonly Variable[],
  { way, seed, samples, own }: SearchPlan,
  backend: TensorBackend | null,
  kept: KeptSearch | null,
): Asker & { check?(): Promise<HeldOut | null> } {
  const budget = samples ?? Number.POSITIVE_INFINITY;
  if (way === 'samples') return new Sampler(variables, seed, budget, kept?.told, own);
  const options = { seed, budget, own, ...(backend === null ? {} : { surrogate: backend }) };
  if (kept === null) return new Search(variables, options);
  const state = searchState.safeParse(kept.state).data;
  const told = state?.batches.reduce((sum, size) => sum + size, 0);
  if (state === undefined || told !== kept.told)
    throw new StudyError(
      "The file unfinished/search.json in the study's folder is not as this program wrote it. Delete it, and --resume goes on without.",
    );
  return Search.restore(variables, options, state, kept.record());
}
