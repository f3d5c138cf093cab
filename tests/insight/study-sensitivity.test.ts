import { expect, test } from 'vitest';
import { plainSample, type StudyDim, sensitivityOf } from '../../src/insight/study-sensitivity.js';
import { scoresOf } from '../../src/study/scores.js';
import { StudyTable } from '../../src/study/table.js';
import { DIMS, fakeRow, fakeVectors, LAYOUT } from '../study/fake.js';

function rowsFor(dims: StudyDim[], vectors: Float64Array[]) {
  const table = new StudyTable(3, LAYOUT);
  // The choice is handed on as it is; what is scored has two boats only.
  for (const vector of vectors) {
    table.add({
      stage: 'sample',
      vector,
      row: fakeRow(Float64Array.of(vector[0], vector[1], vector[2] % 2)),
    });
  }
  const rows = sensitivityOf(
    plainSample(
      table,
      table.where(() => true),
      LAYOUT,
    ),
    dims,
    LAYOUT,
  );
  return (dim: string, score: string) => rows.find((row) => row.dim === dim && row.score === score);
}

test('a row for each dim and score; a score that only ever falls with a dim has −1', () => {
  const row = rowsFor(DIMS, fakeVectors(300));
  for (const { name } of DIMS) {
    for (const score of ['works', 'desirability', 'swing', 'ease', 'overhang', 'pile'])
      expect(row(name, score)).toBeDefined();
  }
  expect(row('lean', 'ease')?.rankCorrelation).toBeCloseTo(-1, 12);
  expect(row('mast', 'pile')).toMatchObject({
    rankCorrelation: null,
    reason: 'no rank correlation: does not vary',
  });
});

test('works counts as 1 and 0, what is not built as 0, what is not scored not at all', () => {
  const table = new StudyTable(3, LAYOUT);
  // Works up to a lean of 50°, is not built beyond; at 56° and more the scoring fails.
  for (let lean = 1; lean <= 60; lean++) {
    const vector = Float64Array.of(60, lean, 0);
    table.add({
      stage: 'sample',
      vector,
      row: lean < 56 ? fakeRow(vector) : LAYOUT.failed('the worker died'),
    });
  }
  const row = sensitivityOf(
    plainSample(
      table,
      table.where(() => true),
      LAYOUT,
    ),
    DIMS,
    LAYOUT,
  ).find(({ dim, score }) => dim === 'lean' && score === 'works');
  // Of 1 … 55 against fifty ones and five zeros: Spearman's formula with tied ranks, by hand. Ranks of works: zeros
  // share 3, ones share 30.5; covariance = Σ(rank lean − 28)(rank works − 28) = 50·(25.5 − 28)·2.5 + 5·(53 − 28)·(−25)
  // = −3437.5; squares 55(55² − 1)/12 = 13860 and 50·2.5² + 5·25² = 3437.5; so −3437.5/√(13860·3437.5) = −0.49801.
  expect(row?.rankCorrelation).toBeCloseTo(-0.49801, 5);
});

test('a choice between three words has no order; between numbers it has that of the numbers', () => {
  const vectors = fakeVectors(300).map(([mast, lean], i) => Float64Array.of(mast, lean, i % 3));
  const words = rowsFor([DIMS[0], DIMS[1], { name: 'boat', unit: '', options: ['a', 'b', 'c'] }], vectors);
  expect(words('boat', 'overhang')).toMatchObject({ rankCorrelation: null });
  expect(words('boat', 'overhang')?.reason).toContain('no order');
  const up = rowsFor([DIMS[0], DIMS[1], { name: 'boat', unit: '', options: [1, 2, 5] }], vectors);
  const down = rowsFor([DIMS[0], DIMS[1], { name: 'boat', unit: '', options: [5, 2, 1] }], vectors);
  const trend = up('boat', 'overhang')?.rankCorrelation ?? 0;
  expect(trend).not.toBe(0);
  expect(down('boat', 'overhang')?.rankCorrelation).toBeCloseTo(-trend, 12);
});

test('plain samples that were scored for the indices count like those of the study', () => {
  const vectors = fakeVectors(300);
  const table = new StudyTable(3, LAYOUT);
  const whole = new StudyTable(3, LAYOUT);
  for (const [i, vector] of vectors.entries()) {
    const entry = { stage: 'sample', vector, row: fakeRow(vector) };
    whole.add(entry);
    if (i < 100) table.add(entry);
  }
  const rest = vectors.slice(100).map((_, i) => ({
    vector: [...whole.vector(100 + i)],
    scores: scoresOf(LAYOUT).map((score) => {
      const [value] = score.of(whole, [100 + i]);
      return Number.isNaN(value) ? null : value;
    }),
  }));
  const all = (of: StudyTable) => of.where(() => true);
  const joined = plainSample(table, all(table), LAYOUT, rest);
  expect(joined).toEqual(plainSample(whole, all(whole), LAYOUT));
  expect(joined.size).toBe(300);
});
