import { compileFigure } from '../../../src/figure/figure.js';
import { readFigure } from '../../../src/figure/read.js';
import { type FigureSource, parseFigure } from '../../../src/figure/text/source.js';
import type { PageData } from '../../../src/report/live/data.js';
import { html } from '../../../src/report/pages/html.js';
import { pageData } from '../../../src/report/pages/page-data.js';
import type { StudyReport } from '../../../src/report/study-report.js';
import { turningOf } from '../../../src/score/force/turning.js';
import { Scorer } from '../../../src/score/scorer.js';
import { rankedStudy } from '../../../src/study/ranking.js';
import { Layout, type Row } from '../../../src/study/row.js';
import { StudyTable } from '../../../src/study/table.js';

export const OARSMAN = 'tests/report/live/oarsman.yaml';

/** A small study without workers: candidates strewn through the ranges by a plain generator, scored and ranked. */
export function smallStudy(source: FigureSource, count: number, scoreEvery = 1): StudyReport {
  const figure = compileFigure(source);
  const scorer = new Scorer(figure);
  const layout = new Layout(scorer.score(figure.start));
  const table = new StudyTable(figure.free.length, layout);
  const random = minimalStandard(7);
  let row: Row | null = null;
  for (let i = 0; i < count; i++) {
    const vector = Float64Array.from(figure.free, (dim) =>
      dim.kind === 'choice'
        ? Math.floor(random() * dim.options.length)
        : dim.min + random() * (dim.max - dim.min),
    );
    // Scoring takes most of the time; where only the number of rows matters, a score serves for several.
    if (row === null || i % scoreEvery === 0) row = layout.rowOf(scorer.score(vector));
    table.add({ stage: 'spread', vector, row });
  }
  const all = table.where(() => true);
  const ranking = rankedStudy(table, layout);
  return {
    name: figure.name,
    summary: ['A small study.'],
    layout,
    dims: figure.free.map((dim) => ({
      name: dim.name,
      unit: dim.unit,
      options: dim.kind === 'choice' ? dim.options : null,
    })),
    better: figure.wants.map(({ least, target }) =>
      target !== undefined ? null : least === undefined ? 'less' : 'more',
    ),
    table,
    ranking,
    different: [],
    spread: all,
    hindrances: [],
    plain: { size: 0, dims: [], scores: [] },
    sensitivity: [],
    insight: null,
    underWay: null,
    robust: [],
    turned: { name: `dummy ${ranking[0] + 1}`, turning: turningOf(figure, table.vector(ranking[0])) },
    facts: [['seed', '7']],
  };
}

/** Park and Miller's minimal standard generator (Communications of the ACM 31, 1988): numbers from 0 to below 1. */
function minimalStandard(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 16807) % 2147483647;
    return state / 2147483647;
  };
}

export const oarsman = (): FigureSource => readFigure(OARSMAN);

export const figureOf = (yaml: string): FigureSource => parseFigure(yaml, 'test.yaml');

/** No charts made beforehand. */
export const NOTHING_MADE = { sections: [], failures: html``, plain: html`` };

/** The page of a small study, with one chart of its own. */
export function smallPage(source: FigureSource, count: number, scoreEvery = 1): PageData {
  const sections = [{ id: 'dims', title: 'Which dim matters', body: html`<p>A chart would stand here.</p>` }];
  return pageData(smallStudy(source, count, scoreEvery), source, { ...NOTHING_MADE, sections });
}
