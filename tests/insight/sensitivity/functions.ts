import type { Batch, Verdicts } from '../../../src/insight/sensitivity/batch.js';

/** A batch that computes each row by a plain function. */
export function batchOf(f: (row: Float64Array) => number[]): Batch {
  return async (rows) => rows.map((row) => Float64Array.from(f(row)));
}

/** Verdicts from a plain function, and how many rows and rounds they were asked. */
export function verdictsOf(
  f: (row: Float64Array) => string | null,
): Verdicts & { rows: number; rounds: number } {
  const verdicts = async (rows: Float64Array[]) => {
    verdicts.rows += rows.length;
    verdicts.rounds += 1;
    return rows.map(f);
  };
  verdicts.rows = 0;
  verdicts.rounds = 0;
  return verdicts;
}
