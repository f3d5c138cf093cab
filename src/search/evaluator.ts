/**
 * What search may know of scoring, and nothing more: the dims that vary, and how each candidate came out. Whether worker
 * threads score or a published test function is all one to it.
 */

/** One free dim of a study, as search sees it. */
export type Variable =
  /** With a step, the values are min + k * step, up to max. */
  | { name: string; kind: 'real'; min: number; max: number; step?: number }
  /** The value is one of 0 to options - 1, in no order. */
  | { name: string; kind: 'choice'; options: number };

/** What search may know of a scored candidate. */
export interface Scored {
  /** To be minimised; NaN where not computed. */
  objectives: Float64Array;
  /** 0 where nothing is broken that must be kept to, else how far, summed; infinite where that is not known. */
  violation: number;
  /** 0 or 1 for each kind of failure. */
  failures?: Float64Array;
}
