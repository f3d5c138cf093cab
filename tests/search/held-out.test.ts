import { rSquared } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { heldOut, heldOutError } from '../../src/search/held-out.js';
import { stream } from '../../src/search/random.js';

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

describe('held-out error of one score', () => {
  const random = stream(1, 'scores');
  const truth = Array.from({ length: 300 }, () => 50 + 10 * random.normal());
  const off = truth.map((value) => value + 4 * random.normal());

  it('is the share of the variance and a root mean square in the unit of the score, with what is certain', () => {
    const error = heldOutError(truth, off, stream(1, 'bootstrap'));
    // Errors of 4 on a spread of 10: 1 − 16/100.
    expect(Math.abs((error?.explained ?? 0) - 0.84)).toBeLessThan(0.04);
    expect(Math.abs((error?.rms ?? 0) - 4)).toBeLessThan(0.4);
    expect(error?.explained).toBeCloseTo(
      rSquared(
        truth.map((value, i) => [off[i], value]),
        (x) => x,
      ),
      9,
    );
    expect(error?.atLeast).toBeLessThan(error?.explained ?? 0);
    expect(error?.atLeast).toBeGreaterThan(0.75);
    expect(error?.rows).toBe(300);
  });

  it('leaves out what is not known, and of too few or of what never varies tells nothing', () => {
    const gaps = truth.map((value, i) => (i < 200 ? Number.NaN : value));
    expect(heldOutError(gaps, off, stream(1, 'bootstrap'))?.rows).toBe(100);
    expect(heldOutError(truth.slice(0, 20), off.slice(0, 20), stream(1, 'bootstrap'))).toBeNull();
    expect(
      heldOutError(
        truth.map(() => 5),
        off,
        stream(1, 'bootstrap'),
      ),
    ).toBeNull();
  });
});
