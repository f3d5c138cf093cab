import { expect, test } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { readFigure } from '../../src/figure/read.js';
import { Scorer } from '../../src/score/scorer.js';
import { Layout, type Row } from '../../src/study/row.js';
import { StudyTable } from '../../src/study/table.js';
import { turning } from '../report/charts/turning.js';
import { fakeCard, fakeRow, LAYOUT } from './fake.js';

const pushed = turning(['mast'], [3]);
if ('unknown' in pushed) throw new Error('a page that turns');
const { score: turningScore } = pushed;

const cellsOf = (layout: Layout, row: ReturnType<Layout['rowOf']>) =>
  Object.fromEntries(layout.headers.map((header, i) => [header, layout.cells(row)[i]]));

test('numbers stand under headers with their units', () => {
  const card = fakeCard(Float64Array.of(90, 30, 0));
  expect(cellsOf(LAYOUT, LAYOUT.rowOf(card))).toMatchObject({
    'swing (mm)': 45,
    'ease (degrees)': 63,
    'overhang (mm)': 10,
    'pile (mm)': 1.5,
    violation: 1,
    'not met': 'overhang',
    reason: '',
  });
});

test('what was not built has no numbers, and says why', () => {
  const row = fakeRow(Float64Array.of(60, 55, 0));
  const cells = cellsOf(LAYOUT, row);
  expect(row.outcome).toBe('not built');
  expect(Object.values(cells).filter((cell) => typeof cell === 'number' && !Number.isNaN(cell))).toEqual([
    0, 0,
  ]);
  expect(cells).toMatchObject({
    reason: 'the mast leans past the gutter',
    'not met': '',
    violation: Number.NaN,
  });
});

test('the grade has a column, and is empty where the page does not move or it was not kept', () => {
  const force = { ...turningScore, grade: 'stiff' as const };
  const row = LAYOUT.rowOf({ ...fakeCard(Float64Array.of(60, 20, 0)), force });
  expect(cellsOf(LAYOUT, row).grade).toBe('stiff');
  expect(LAYOUT.grade(row.numbers)).toBe('stiff');
  const unmoved = fakeRow(Float64Array.of(60, 20, 0));
  expect(cellsOf(LAYOUT, unmoved).grade).toBe('');
  // As rows were before it was kept.
  const old = { ...row, numbers: row.numbers.slice(0, -1) };
  const table = new StudyTable(3, LAYOUT);
  table.add({ stage: 'sample', vector: Float64Array.of(60, 20, 0), row: old });
  expect(LAYOUT.grade(table.numbers(0))).toBe(null);
  expect(LAYOUT.wantValue(table.numbers(0), 0)).toBe(LAYOUT.wantValue(row.numbers, 0));
  const { grade, ...rest } = cellsOf(LAYOUT, row);
  const { grade: none, ...oldRest } = cellsOf(LAYOUT, old);
  expect([grade, none]).toEqual(['stiff', '']);
  expect(oldRest).toEqual(rest);
});

test('a study that an earlier program has scored is refused for that, not as one of another figure', () => {
  const table = new StudyTable(3, LAYOUT);
  const vector = Float64Array.of(60, 20, 0);
  const row = fakeRow(vector);
  const entry = (more: Partial<Row>) => ({ stage: 'sample', vector, row: { ...row, ...more } });
  expect(() => table.add(entry({ met: row.met.slice(1) }))).toThrow(
    'Candidate 1 of the study was scored by an earlier program, which judged 3 wants and limits where this one judges 4.',
  );
  expect(() => table.add(entry({ numbers: row.numbers.slice(2) }))).toThrow('kept other numbers of a dummy');
  expect(() => table.add({ ...entry({}), vector: vector.slice(1) })).toThrow(
    'has 2 dims where its figure has 3',
  );
});

test('a scorecard of another figure is not put into the wrong columns in silence', () => {
  const card = fakeCard(Float64Array.of(60, 20, 0));
  expect(() => LAYOUT.rowOf({ ...card, limits: card.limits.toReversed() })).toThrow('fits no row');
  expect(() => LAYOUT.rowOf({ ...card, limits: card.limits.slice(1) })).toThrow('fits no row');
});

test.each(['ferryman', 'heron'])('every limit and want of the %s has its column, in its own unit', (name) => {
  const figure = compileFigure(readFigure(`examples/${name}.yaml`));
  const card = new Scorer(figure).score(figure.start);
  const layout = new Layout(card);
  const cells = cellsOf(layout, layout.rowOf(card));
  for (const { name, unit, value } of [...card.wants, ...card.limits]) {
    expect(cells[`${name} (${unit})`]).toBeCloseTo(value ?? Number.NaN, 8);
  }
});
