import { parseHTML } from 'linkedom';
import { expect, test } from 'vitest';
import type { StudyDim } from '../../../src/insight/study-sensitivity.js';
import { plainSample, sensitivityOf } from '../../../src/insight/study-sensitivity.js';
import { reportPage } from '../../../src/report/pages/page.js';
import type { StudyReport } from '../../../src/report/study-report.js';
import { summaryOf } from '../../../src/report/words/summary.js';
import { StudyTable } from '../../../src/study/table.js';
import { tally } from '../../../src/study/tally.js';
import { DIMS, fakeCard, fakeRow, fakeVectors, LAYOUT } from '../../study/fake.js';
import { turning } from '../charts/turning.js';

function report(vectors: Float64Array[], dims: StudyDim[] = DIMS, name = 'sailor'): StudyReport {
  const table = new StudyTable(3, LAYOUT);
  for (const vector of vectors) table.add({ stage: 'sample', vector, row: fakeRow(vector) });
  const all = table.where(() => true);
  const worth = (candidate: number) =>
    table.outcome(candidate) === 'works' ? 1 + LAYOUT.desirability(table.numbers(candidate)) : 0;
  const study = {
    name,
    layout: LAYOUT,
    dims,
    better: ['more', 'more'] as const,
    table,
    ranking: all.toSorted((a, b) => worth(b) - worth(a)),
    different: [],
    spread: all,
    turned: { name: 'dummy 1', turning: turning(['mast'], [3]) },
    hindrances: [],
    plain: plainSample(table, all, LAYOUT),
    sensitivity: sensitivityOf(plainSample(table, all, LAYOUT), dims, LAYOUT),
    insight: null,
    underWay: null,
    robust: [],
  };
  const nearest = fakeCard(table.vector(study.ranking[0]));
  const works = table.outcome(study.ranking[0]) === 'works';
  return { ...study, summary: summaryOf(study, works ? null : nearest, []), facts: [['seed', '1']] };
}

const FIGURE = { file: 'sailor.yaml', text: 'figure: sailor', data: null, marks: {} };
const documentOf = (study: StudyReport) => parseHTML(reportPage(study, FIGURE)).document;

test('what the policy would block is not there in the first place', () => {
  const document = documentOf(report(fakeVectors(100)));
  expect(document.querySelectorAll('link, img, iframe, [src], [style], [onload]').length).toBe(0);
  expect(document.querySelectorAll('script').length).toBe(2);
});

test('it refers to nothing outside itself, but for what its libraries call things', () => {
  const page = reportPage(report(fakeVectors(100)), FIGURE).replace(/<script>[\s\S]*<\/script>/, '');
  const outside = page.match(/https?:[^"' <]*/g)?.filter((url) => url !== 'http://www.w3.org/2000/svg');
  expect(outside ?? []).toEqual([]);
});

test('names from a figure file stay text, in tables and in charts', () => {
  const evil = '<script>alert(1)</script>"><img src=x onerror=alert(1)>';
  const dims = DIMS.map((dim, i) =>
    i === 2 ? { ...dim, options: [evil, 'barge'] } : { ...dim, name: `${evil}${i}` },
  );
  const document = documentOf(report(fakeVectors(200), dims, evil));
  expect(document.querySelectorAll('img').length).toBe(0);
  expect(document.querySelectorAll('script').length).toBe(2);
  expect(document.querySelector('h1')?.textContent).toBe(evil);
});

test('the table ranks 50 at most, with dims, wants and verdict', () => {
  const document = documentOf(report(fakeVectors(120)));
  const rows = [...document.querySelectorAll('tbody tr')];
  expect(rows.length).toBe(50);
  const headers = [...document.querySelectorAll('thead th')].map((th) => th.textContent);
  expect(headers).toEqual([
    'rank',
    'dummy',
    'desirability',
    'swing (mm)',
    'ease (°)',
    'verdict',
    'mast (mm)',
    'lean (°)',
    'boat',
  ]);
  for (const row of rows) expect(row.children.length).toBe(headers.length);
});

test('a chart of the trade-off, of each score that varies, and of what fails', () => {
  const document = documentOf(report(fakeVectors(200)));
  const titles = [...document.querySelectorAll('svg > title')].map((title) => title.textContent);
  expect(titles).toContain('swing against ease');
  for (const score of ['works', 'desirability', 'swing', 'ease', 'overhang']) {
    expect(titles.filter((title) => title?.includes(score)).length).toBeGreaterThanOrEqual(2);
  }
  expect(titles).toContain('What fails how often');
  expect(document.body.textContent).toContain('Not drawn: pile (no rank correlation: does not vary)');
});

test('where nothing works, it says what fails most often, which is nearest and what is wrong with it', () => {
  const tall = fakeVectors(60).map(([mast, lean, boat]) => Float64Array.of(85 + mast / 10, lean / 2, boat));
  const { summary, ranking } = report(tall);
  expect(summary[0]).toBe('None of 60 dummies works.');
  expect(summary[1]).toBe("What fails most often is 'overhang' (100 %).");
  expect(summary[2]).toBe(`The nearest is dummy ${ranking[0] + 1}. What is wrong with it:`);
  expect(summary[3]).toMatch(/^· overhang: \d+\.\d\d mm, at most 0\.00 mm$/);
});

test('counts in the summary are those of the table', () => {
  const study = report(fakeVectors(500));
  const works = study.table.where((candidate) => study.table.outcome(candidate) === 'works').length;
  const unbuilt = study.table.where((candidate) => study.table.vector(candidate)[1] > 50).length;
  expect(study.summary[0]).toMatch(new RegExp(`^${works} of 500 dummies work`));
  expect(study.summary.join(' ')).toContain(`${Math.round(unbuilt / 5)} % of them can't be built at all`);
  // The mast sticks out where it is tall: the fewer work the larger it is.
  expect(study.summary.join(' ')).toContain('The larger mast is, the fewer work');
});

test('one candidate alone makes a report too', () => {
  const document = documentOf(report(fakeVectors(1)));
  expect(document.querySelectorAll('tbody tr').length).toBe(1);
});

test('why dummies could not be built is told of all, or of how many', () => {
  const study = report(fakeVectors(200));
  const { notBuilt } = tally(study.table, LAYOUT, study.spread);
  expect(notBuilt).toBeGreaterThan(2);
  const textOf = (count: number) =>
    documentOf({ ...study, hindrances: [{ reason: 'the mast lies off the page', count }] }).body.textContent;
  expect(textOf(notBuilt)).toContain(`${notBuilt} dummies: the mast lies off the page.`);
  expect(textOf(notBuilt)).not.toContain('Why the first');
  expect(textOf(2)).toContain('Why the first 2 that could not be built could not:');
});
