import { rSquared } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { heldOut } from '../../src/search/held-out.js';

// Rows: one objective, the violation, soundness, one kind of failure.
const truths = [
  [1, 0, 1, 0],
  [2, 0, 1, 0],
  [4, 3, 0, 0],
  [NaN, 9, 0, 0],
].map((row) => Float32Array.from(row));
const said = [
  [1, 0, 0.9, 0.1],
  [3, 0, 0.4, 0.2],
  [4, 2, 0.4, 0.3],
  [8, 8, 0.2, 0.4],
];
const result = heldOut(truths, (row, column) => said[row][column], 2);

describe('held-out error', () => {
  it('explains variance as R squared does, over what was computed', () => {
    // Mean 7/3, squares about it 42/9; one miss of 1: 1 - 9/42.
    expect(result.objectives).toEqual([expect.closeTo(1 - 9 / 42, 9)]);
    expect(result.objectives[0]).toBeCloseTo(
      rSquared(
        [
          [1, 1],
          [3, 2],
          [4, 4],
        ],
        (x) => x,
      ),
      9,
    );
    expect(result.rows).toBe(4);
  });

  it('counts pairs in the right order, ties by half', () => {
    // Sound 0.9, 0.4 against not 0.4, 0.2: three pairs right, one tied. Of the failure there is only one kind.
    expect(result.ordered).toEqual([3.5 / 4, null]);
  });

  it('takes the logarithm of the odds given to what came true', () => {
    const wanted = -(Math.log(0.9) + Math.log(0.4) + Math.log(0.6) + Math.log(0.8)) / 4;
    expect(result.logLoss[0]).toBeCloseTo(wanted, 9);
  });

  it('of nothing is nothing, not zero', () => {
    expect(heldOut([], () => 0, 2)).toEqual({ rows: 0, objectives: [null], ordered: [], logLoss: [] });
  });
});
