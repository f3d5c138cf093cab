import { compileFigure, type Figure } from '../../src/figure/figure.js';
import { parseFigure } from '../../src/figure/text/source.js';
import type { Batch, Verdicts } from '../../src/insight/sensitivity/batch.js';
import { whatFails } from '../../src/report/words/what-fails.js';
import { Scorer } from '../../src/score/scorer.js';
import { variablesOf } from '../../src/study/figure-variables.js';
import { Layout } from '../../src/study/row.js';
import { scoresOf, scoresOfRow } from '../../src/study/scores.js';

/** A tent over the gutter of a page of 148 by 210 mm, and trials of it without worker threads. */
export function tentTrials(dims: string, feet = '[feet, feet]', widths = '[wide, wide]', more = '') {
  const figure = compileFigure(
    parseFigure(
      `page: A5
dims: ${dims}
parts:
  - { name: tent, kind: parallel-fold, at: 40, length: 60, glue: ${feet}, widths: ${widths} }
${more}`,
      'tent.yaml',
    ),
  );
  return { figure, ...trialsOf(figure) };
}

export function trialsOf(figure: Figure) {
  const scorer = new Scorer(figure);
  const layout = new Layout(scorer.score(figure.start));
  const scores: Batch = async (rows) =>
    rows.map((row) => scoresOfRow(layout, layout.rowOf(scorer.score(row))));
  const verdicts: Verdicts = async (rows) => rows.map((row) => whatFails(scorer.score(row)));
  const template = figure.template(figure.start);
  const cutVerdicts: Verdicts = async (errors) =>
    errors.map((each) => whatFails(scorer.scoreCut(template, each, figure.start)));
  return {
    scores,
    verdicts,
    cutVerdicts,
    template,
    variables: variablesOf(figure),
    names: scoresOf(layout).map(({ name }) => name),
  };
}
