import { expect, test } from 'vitest';
import { wilson } from '../../../src/insight/sensitivity/wilson.js';
import type { StudyInsight } from '../../../src/insight/study-insight.js';
import { plainSample, sensitivityOf } from '../../../src/insight/study-sensitivity.js';
import { dummyLines } from '../../../src/report/charts/dummy-lines.js';
import { failuresChart } from '../../../src/report/charts/failures-chart.js';
import { scoreCharts } from '../../../src/report/charts/score-charts.js';
import { chartFiles, studyCharts } from '../../../src/report/charts/study-charts.js';
import { fileName } from '../../../src/report/file-name.js';
import { reportPage } from '../../../src/report/pages/page.js';
import type { StudyReport } from '../../../src/report/study-report.js';
import { insightSummary } from '../../../src/report/words/insight-summary.js';
import { rankedByHand } from '../../../src/study/ranking.js';
import { scoresOf } from '../../../src/study/scores.js';
import { StudyTable } from '../../../src/study/table.js';
import { tally } from '../../../src/study/tally.js';
import { DIMS, fakeRow, fakeVectors, LAYOUT } from '../../study/fake.js';
import { readSvg } from './svg.js';
import { turning } from './turning.js';

const EVIL = '<script>alert(1)</script>"&';
const index = { first: 0.4, firstLow: 0.3, firstHigh: 0.5, total: 0.6, totalLow: 0.5, totalHigh: 0.7 };
const end = (value: number, failure: string | null) => ({ value, failure });

/** What might have been measured of the made-up figure of the tests. */
function insight(): StudyInsight {
  const scores = scoresOf(LAYOUT);
  const sides = { below: 0.3, above: 0.3 };
  const nudge = { change: 0.3, reason: null, from: 'both sides' as const, sides, surrogate: 0.2 };
  const nowhere = { below: null, above: null };
  const choice = { change: null, reason: 'a choice has no +1', from: null, sides: nowhere, surrogate: null };
  const local = {
    safe: [
      { range: { low: end(50, `${EVIL} locks`), high: end(80, null) }, reason: null },
      { range: { low: end(0, null), high: end(50, 'cannot be built') }, reason: null },
      { range: null, reason: 'a choice has no range' },
    ],
    nudges: DIMS.map(({ options }, dim) =>
      scores.map(() =>
        options ? { ...choice, verdict: null } : { ...nudge, verdict: (['agrees', 'differs'] as const)[dim] },
      ),
    ),
  };
  return {
    hand: { mm: 0.3, degrees: 0.5 },
    free: [
      { name: 'mast', kind: 'real', unit: 'mm', min: 40, max: 100, start: 60 },
      { name: 'lean', kind: 'real', unit: 'degrees', min: 0, max: 60, start: 20 },
      { name: 'boat', kind: 'choice', unit: '', options: ['punt', 'barge'] },
    ],
    global: {
      indices: DIMS.map(() => scores.map(() => ({ index, reason: null, droppedShare: 0 }))),
      from: scores.map(({ name }) => (name === 'ease' ? 'surrogate' : 'scoring')),
      note: 'From 600 dummies scored for this (120 base points).',
    },
    robust: [
      { candidate: 3, works: wilson(20, 40) },
      { candidate: 7, works: wilson(30, 40) },
    ],
    best: {
      candidate: 7,
      insight: {
        cuts: [{ part: EVIL, field: 'glue left', unit: 'degrees', value: 60, closedOn: false }],
        rooms: [{ range: { low: end(-0.4, `${EVIL} locks`), high: end(1.5, null) }, reason: null }],
        tolerance: {
          works: wilson(30, 40),
          failures: [{ failure: `${EVIL} locks`, count: 10 }],
          asDrawn: null,
        },
        causes: {
          causes: [
            { name: `${EVIL}: glue left`, explains: 0.2, chance: 0.01, cured: wilson(5, 10), reason: null },
            {
              name: 'other',
              explains: 0,
              chance: 0.5,
              cured: null,
              reason: 'not among the errors cut again',
            },
          ],
          reason: null,
        },
        parts: [{ part: EVIL, cured: wilson(10, 10) }],
      },
    },
    local: [7, 3].map((candidate) => ({ candidate, ...local })),
    surrogate: {
      why: 'plain JavaScript',
      learnt: 900,
      heldOut: scores.map(() => ({ rows: 200, explained: 0.9, atLeast: 0.8, rms: 1.5 })),
    },
    plain: [],
    runs: 1234,
  };
}

function report(measured: StudyInsight | null): StudyReport {
  const table = new StudyTable(3, LAYOUT);
  for (const vector of fakeVectors(200)) table.add({ stage: 'sample', vector, row: fakeRow(vector) });
  const all = table.where(() => true);
  const plain = plainSample(table, all, LAYOUT);
  return {
    name: 'sailor',
    layout: LAYOUT,
    dims: DIMS,
    better: ['more', 'more'],
    table,
    ranking: [7, 3, ...all.filter((candidate) => candidate !== 7 && candidate !== 3)],
    different: [],
    spread: all,
    turned: { name: EVIL, turning: turning([EVIL], [3]) },
    hindrances: [{ reason: `${EVIL} lies off the page`, count: 3 }],
    plain,
    sensitivity: sensitivityOf(plain, DIMS, LAYOUT, measured),
    insight: measured,
    underWay: null,
    robust: measured?.robust ?? [],
    summary: [],
    facts: [],
  };
}

test('every chart is well-formed, says what to read, and has a safe name of its own', () => {
  const files = chartFiles(studyCharts(report(insight())));
  expect(new Set(files.map(({ name }) => name)).size).toBe(files.length);
  expect(files.map(({ name }) => name)).toEqual(
    expect.arrayContaining([
      'effects-of-all-dims.svg',
      'all-dummies.svg',
      'effects-on-works.svg',
      'trends-of-swing.svg',
      'responses-of-swing.svg',
      'best-force.svg',
      'best-robustness.svg',
      'best-failures.svg',
      'best-causes.svg',
      'best-safe-ranges.svg',
      'best-nudges-of-swing.svg',
    ]),
  );
  for (const { name, svg } of files) {
    const { title, description, counts } = readSvg(svg);
    expect(
      [title, description].every((text) => text.length > 5),
      name,
    ).toBe(true);
    expect(counts.get('script') ?? 0).toBe(0);
  }
});

test('without insight there are trends and curves, and it is said that the rest was not measured', () => {
  const plain = report(null);
  expect(chartFiles(studyCharts(plain)).map(({ name }) => name)).not.toContain('best-safe-ranges.svg');
  const page = reportPage(plain, { file: 'sailor.yaml', text: 'figure: sailor', data: null, marks: {} });
  expect(page).toContain('Not measured: the study ended before.');
  expect(insightSummary(plain)).toEqual([]);
});

test('the page shows what was measured, and names from a figure file stay text', () => {
  const page = reportPage(report(insight()), {
    file: 'sailor.yaml',
    text: 'figure: sailor',
    data: null,
    marks: {},
  });
  expect(page.split('<script>alert(1)').length).toBe(1);
  expect(page).toContain('The cuts that allow the least error, all others exact.');
  expect(page).toContain('robustness (%)');
  expect(page).toContain('<summary>Dummy 4, rank 2</summary>');
});

test('what a surrogate has said is marked, with its held-out error', () => {
  const files = chartFiles(studyCharts(report(insight())));
  const words = (name: string) => {
    const svg = files.find((file) => file.name === name)?.svg ?? '';
    return readSvg(svg).texts.join(' ');
  };
  expect(words('effects-on-ease.svg')).toContain(
    'From a surrogate, not from scoring: on 200 dummies that it had not learnt from, it explains 90 % of the spread (80 % for certain), off by 1.5°',
  );
  expect(words('effects-on-swing.svg')).toContain('From 600 dummies scored for this');
  expect(words('effects-of-all-dims.svg')).toContain('≈0.60');
  expect(words('effects-of-all-dims.svg')).toContain('≈: from a surrogate');
  const nudges = words('best-nudges-of-swing.svg');
  expect(nudges).toContain('+0.3 mm (?)');
  expect(nudges).toContain('it bears out 1 of the 2 larger ones; 1 it does not');
});

test('in sentences: what desirability hangs on, how many work when cut by hand, what to take care over', () => {
  expect(insightSummary(report(insight()))).toEqual([
    'Over the whole ranges desirability hangs most on mast (0.60), lean (0.60) and boat (0.60): in brackets, the share of its spread that stays if all other dims are fixed.',
    'Cut by hand (errors of 0.3 mm and 0.5° by standard deviation), 75 % (60 to 86 %) of 40 dummies of the best still work.',
    'The first 2 did best of those cut by hand for a first look, and are ranked by the desirability to be expected of such dummies.',
    `Most that fail then fail first at this: ${EVIL} locks. Take most care over ${EVIL}: had all of it been exact, 100 % (72 to 100 %) of those that fail would have worked.`,
  ]);
});

test('robustness reorders what was cut by hand, and leaves the rest', () => {
  const share = (part: number) => ({ works: { share: part } });
  const worth = [0.9, 0.8, 0.7, 0.6];
  const ranked = rankedByHand([0, 1, 2, 3], (candidate) => worth[candidate], [
    { candidate: 0, ...share(0.1) },
    { candidate: 1, ...share(0.5) },
    { candidate: 2, ...share(0.5) },
  ]);
  expect(ranked).toEqual([1, 2, 0, 3]);
  expect(rankedByHand([2, 1, 0], () => 1, [])).toEqual([2, 1, 0]);
});

test('names of files hold nothing but small letters, digits and hyphens, and never meet', () => {
  const taken = new Set<string>();
  expect(fileName('nudges', 'Où est-il ?', 'svg', taken)).toBe('nudges-ou-est-il.svg');
  expect(fileName('nudges', 'ou est il', 'svg', taken)).toBe('nudges-ou-est-il-2.svg');
  expect(fileName('nudges', '../../etc/passwd', 'svg', taken)).toBe('nudges-etc-passwd.svg');
  expect(fileName('nudges', '舟', 'svg', taken)).toBe('nudges.svg');
  expect(fileName('nudges', 'x'.repeat(500), 'svg', taken)).toHaveLength(51);
});

/** All that is written in a chart, lines joined. */
const textOf = (svg: string): string => readSvg(svg).texts.join(' ');

test('where few work, what fails is not drawn as the best', () => {
  const all = report(null);
  const works = (candidate: number) => all.table.outcome(candidate) === 'works';
  const [three, others] = [all.ranking.filter(works).slice(0, 3), all.ranking.filter((each) => !works(each))];
  const drawn = dummyLines({ ...all, ranking: [...three, ...others] });
  expect(textOf(drawn)).toContain('Drawn: the best 3 and 0 more of 3 dummies that work.');
  expect(new Set(drawn.match(/>dummy \d+</g)).size).toBe(3);
});

test('a trend that chance alone would make is told as none', () => {
  const all = report(null);
  const weak = { ...all, sensitivity: all.sensitivity.map((row) => ({ ...row, rankCorrelation: 0.05 })) };
  for (const { trends } of scoreCharts(weak))
    expect(trends === null ? '' : textOf(trends)).toContain(
      'No dim moves it steadily: none by more than chance would.',
    );
});

test('what fails is counted in words that fit the count', () => {
  const { table, layout, spread } = report(null);
  const one = spread.filter((candidate) => table.outcome(candidate) === 'fails').slice(0, 1);
  expect(textOf(failuresChart(tally(table, layout, one)))).toContain(
    'Of 1 dummy that could be built, 1 fails, most often at overhang.',
  );
});
