import type { Scored, Variable } from './evaluator.js';
import type { HeldOut } from './held-out.js';
import { Search, type SearchState } from './search.js';
import type { Asker } from './study.js';
import { Sampler } from './study-sampler.js';
import { type TensorBackend, tensorBackend } from './tensor-backend.js';

/** Ways to search: plain samples; samples, then evolution; and that with a surrogate that screens what is scored. */
export const SEARCH_WAYS = ['samples', 'evolution', 'surrogate'] as const;
export type SearchWay = (typeof SEARCH_WAYS)[number];

export interface SearchPlan {
  readonly way: SearchWay;
  readonly seed: number;
  /** How many candidates are scored in all; null when it is time that ends the study. */
  readonly samples: number | null;
}

/** What an interrupted study has kept: how far its search was told, the state then, and the record up to there. */
export interface KeptSearch {
  readonly told: number;
  readonly state: unknown;
  readonly record: () => Iterable<{ vector: ArrayLike<number>; scored: Scored }>;
}

/** The backend of TensorFlow.js that a way of searching computes with; null where it needs none. */
export async function backendFor(way: SearchWay): Promise<TensorBackend | null> {
  return way === 'surrogate' ? await tensorBackend() : null;
}

/**
 * The search of a study, from its beginning or from where it was kept.
 * @param backend as `backendFor` gives it
 */
export function searchFor(
  variables: readonly Variable[],
  { way, seed, samples }: SearchPlan,
  backend: TensorBackend | null,
  kept: KeptSearch | null,
): Asker & { check?(): Promise<HeldOut | null> } {
  const budget = samples ?? Number.POSITIVE_INFINITY;
  if (way === 'samples') return new Sampler(variables, seed, budget, kept?.told);
  const options = { seed, budget, ...(backend === null ? {} : { surrogate: backend }) };
  return kept === null
    ? new Search(variables, options)
    : Search.restore(variables, options, kept.state as SearchState, kept.record());
}
