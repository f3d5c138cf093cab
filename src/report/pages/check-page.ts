import type { Figure } from '../../figure/figure.js';
import type { FigureSource } from '../../figure/text/source.js';
import type { NamedCatch } from '../../score/catches.js';
import { turningOf } from '../../score/force/turning.js';
import type { Scorecard } from '../../score/scorecard.js';
import { Layout } from '../../study/row.js';
import { StudyTable } from '../../study/table.js';
import { TURN_TITLE, turnChart } from '../charts/turn-chart.js';
import { betterOf, studyDims } from '../report-of.js';
import { withUnit } from '../words/numbers.js';
import { verdict } from '../words/scorecard-words.js';
import { html, trusted } from './html.js';
import { livePage } from './live-page.js';
import { pageData } from './page-data.js';

/**
 * The page of one dummy: it moves, its dims can be dragged, and every catch is listed in the order in which it comes as the
 * page closes.
 * @param facts what it was made with, as pairs of words
 */
export function checkPage(
  source: FigureSource,
  figure: Figure,
  vector: Float64Array,
  card: Scorecard,
  catches: readonly NamedCatch[],
  facts: readonly (readonly [string, string])[],
): string {
  const layout = new Layout(card);
  const table = new StudyTable(figure.free.length, layout);
  table.add({ stage: 'own', vector, row: layout.rowOf(card) });
  const about = {
    name: figure.name,
    summary: [verdict(figure.name, card)],
    layout,
    dims: studyDims(figure),
    better: figure.wants.map(betterOf),
    table,
    ranking: [0],
    underWay: null,
    facts,
  };
  const rows = catches.map(
    ({ between, depth, pageAngle, startsAt }) =>
      html`<tr><td>${withUnit(startsAt, 'degrees')}</td><td>${between.join(' and ')}</td><td>${withUnit(depth, 'mm')}</td><td>${withUnit(pageAngle, 'degrees')}</td></tr>
`,
  );
  const body = html`<table><thead><tr><th>begins at</th><th>between</th><th>depth</th><th>deepest at</th></tr></thead>
<tbody>${rows}</tbody></table>`;
  const title = 'Every catch, in the order in which it comes as the page closes';
  const turn = turnChart({ name: figure.name, turning: turningOf(figure, vector) });
  return livePage(
    pageData(about, source, {
      sections: [
        ...(catches.length === 0 ? [] : [{ id: 'catches', title, body }]),
        { id: 'turn', title: TURN_TITLE, body: html`<figure>${trusted(turn)}</figure>` },
      ],
      failures: html``,
      plain: html``,
    }),
  );
}
