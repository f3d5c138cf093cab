import { describe, expect, test } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { wilson } from '../../src/insight/sensitivity/wilson.js';
import { ownInWords } from '../../src/report/words/own-words.js';
import { Scorer } from '../../src/score/scorer.js';
import { Search } from '../../src/search/search.js';
import { variablesOf } from '../../src/study/figure-variables.js';
import { rankedStudy } from '../../src/study/ranking.js';
import { Layout } from '../../src/study/row.js';
import { Sampler } from '../../src/study/sampler.js';
import { type Asker, scoredOf } from '../../src/study/study.js';
import { StudyTable } from '../../src/study/table.js';

// Of the ranges nearly nothing works: a tent whose sides must be as wide as its feet to a tenth of a millimetre.
const figure = compileFigure(
  parseFigure(
    `page: A5
dims:
  foot: { from: 10, to: 60, start: 31.7 }
  side: { from: 10, to: 60, start: 31.7 }
  long: { from: 20, to: 90, start: 50 }
parts: [{ name: tent, kind: parallel-fold, at: 40, length: long, glue: [31.7, foot], widths: [side, 31.7] }]
wants: [{ name: long, kind: rise, panel: tent left, least: 1 }]
limits: { give: 0.05 }
`,
    'tent.yaml',
  ),
);
const variables = variablesOf(figure);

async function studied(search: Asker): Promise<{ table: StudyTable; layout: Layout }> {
  const scorer = new Scorer(figure);
  const layout = new Layout(scorer.score(figure.start));
  const table = new StudyTable(figure.free.length, layout);
  for (let asked = await search.ask(); asked !== null; asked = await search.ask()) {
    const { stage, batch } = asked;
    const first = table.size;
    for (const vector of batch) table.add({ stage, vector, row: layout.rowOf(scorer.score(vector)) });
    search.tell(batch.map((_, i) => scoredOf(layout, table, first + i)));
  }
  return { table, layout };
}

describe("the maker's own dummy", () => {
  test('is scored first, to the last digit, by every way to search', async () => {
    const own = figure.start;
    for (const search of [
      new Search(variables, { seed: 3, budget: 200, own }),
      new Sampler(variables, 3, 200, 0, own),
    ]) {
      const first = await search.ask();
      expect(first?.stage).toBe('own');
      expect([...(first?.batch[0] ?? [])]).toEqual([...own]);
    }
  });

  test('is what a search goes on from where nothing else works', async () => {
    const own = figure.start;
    const { table, layout } = await studied(new Search(variables, { seed: 3, budget: 300, own }));
    expect(table.size).toBe(300);
    expect(table.outcome(0)).toBe('works');
    // The rest are spread evenly or bred; what lies near the maker's own is not taken for evenly spread.
    expect(table.spread()).not.toContain(0);
    expect(table.spread().length).toBe(64);
    const ranking = rankedStudy(table, layout);
    expect(table.outcome(ranking[0])).toBe('works');
    expect(ownInWords({ table, layout, ranking, robust: [] }).join()).toMatch(/^Yours/);
    const own1st = { table, layout, ranking: [0, ...ranking.filter((place) => place !== 0)] };
    const works = wilson(1, 2);
    expect(ownInWords({ ...own1st, robust: [] })).toEqual([
      'Yours is the best: nothing that was tried does more.',
    ]);
    expect(ownInWords({ ...own1st, robust: [{ candidate: 0, works }] })).toEqual([
      'Yours is the best: nothing else that was cut by hand is worth more.',
    ]);
  });

  test('counts among the dummies that are asked for, none of which is asked twice', async () => {
    const { table } = await studied(new Search(variables, { seed: 5, budget: 120, own: figure.start }));
    const all = Array.from({ length: table.size }, (_, i) => table.vector(i).join());
    expect(table.size).toBe(120);
    expect(new Set(all).size).toBe(120);
    const alone = await studied(new Sampler(variables, 5, 1, 0, figure.start));
    expect(alone.table.size).toBe(1);
  });
});
