import { expect, test } from 'vitest';
import { sensitivityRows } from '../../../src/insight/sensitivity/sensitivity.js';

const index = { first: 0.3, firstLow: 0.2, firstHigh: 0.4, total: 0.5, totalLow: 0.4, totalHigh: 0.6 };

const error = { rows: 50, explained: 0.9, atLeast: 0.8, rms: 2 };

test('a row to each dim and score, numbers or a reason', () => {
  const rows = sensitivityRows(
    ['mast', 'fold'],
    ['swing', 'clash'],
    [
      [
        { index, reason: null, droppedShare: 0 },
        { index: null, reason: 'does not vary', droppedShare: 0 },
      ],
      [
        { index, reason: null, droppedShare: 0.124 },
        { index: null, reason: 'does not vary', droppedShare: 0.004 },
      ],
    ],
    [
      [
        { value: -0.7, reason: null },
        { value: null, reason: 'does not vary' },
      ],
      [
        { value: null, reason: 'a choice has no order' },
        { value: null, reason: 'does not vary' },
      ],
    ],
    ['surrogate', null],
    [error, null],
  );
  expect(rows.map((row) => `${row.dim}/${row.score}`)).toEqual([
    'mast/swing',
    'mast/clash',
    'fold/swing',
    'fold/clash',
  ]);
  expect(rows[0]).toEqual({
    dim: 'mast',
    score: 'swing',
    ...index,
    from: 'surrogate',
    heldOut: error,
    rankCorrelation: -0.7,
    reason: '',
  });
  expect(rows[1]).toMatchObject({ from: null, heldOut: null });
  expect(rows[1]).toMatchObject({
    first: null,
    totalHigh: null,
    rankCorrelation: null,
    reason: 'does not vary',
  });
  expect(rows[2].reason).toBe(
    'no rank correlation: a choice has no order; 12 % of the base points left out, as not computed',
  );
  expect(rows[3].reason).toBe('does not vary; under 1 % of the base points left out, as not computed');
});
