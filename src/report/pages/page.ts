import type { FigureSource } from '../../figure/text/source.js';
import { tally } from '../../study/tally.js';
import { counted } from '../../text/phrases.js';
import { failuresChart } from '../charts/failures-chart.js';
import { studyCharts } from '../charts/study-charts.js';
import { TURN_TITLE } from '../charts/turn-chart.js';
import type { StudyReport } from '../study-report.js';
import { handCharts } from './hand-section.js';
import { chartFigure, type Html, html, trusted } from './html.js';
import { livePage } from './live-page.js';
import { pageData } from './page-data.js';
import { rankingTable } from './ranking-table.js';
import { sensitivityCharts } from './sensitivity-section.js';
import { tradeOff } from './trade-off-section.js';

/**
 * The report of a study, in one file that needs no network: see `livePage`. Where scripts don't run, the best dummies and
 * the trade-off stand still in it.
 */
export function reportPage(report: StudyReport, figure: FigureSource, charts = studyCharts(report)): string {
  const data = pageData(report, figure, {
    sections: [
      { id: 'turn', title: TURN_TITLE, body: chartFigure(charts.turn) },
      { id: 'dims', title: 'Which dim matters', body: sensitivityCharts(charts) },
      { id: 'hand', title: 'How exact it must be cut', body: handCharts(report, charts) },
    ],
    failures: failures(report),
    plain: html`<section aria-labelledby="best"><h2 id="best">The best dummies</h2>
${rankingTable(report)}
</section>
<section aria-labelledby="trade"><h2 id="trade">What costs what</h2>
${tradeOff(report)}
</section>`,
  });
  return livePage(data);
}

/** Reasons why dummies can't be built that are listed. */
const MOST_HINDRANCES = 6;

/** What fails how often, over the candidates that were spread evenly; picked ones fail less. */
function failures({ table, layout, ranking, spread, hindrances }: StudyReport): Html {
  const counts = tally(table, layout, spread);
  const { inShort } = tally(table, layout, ranking);
  const rest = [
    inShort > 0
      ? `${counted(inShort, 'dummy', 'dummies')} that the search tried, and that failed by how they move and lie shut or missed a want, were not looked at further: whether they catch, too, or are glued badly is not known.`
      : '',
    counts.notBuilt > 0
      ? `${counted(counts.notBuilt, 'more dummy', 'more dummies')} could not be built at all.`
      : '',
    counts.notScored > 0
      ? `${counted(counts.notScored, 'candidate')} could not be scored; candidates.csv says why.`
      : '',
  ].filter((sentence) => sentence !== '');
  const asked = hindrances.reduce((sum, { count }) => sum + count, 0);
  if (asked > 0 && asked < counts.notBuilt)
    rest.push(`Why the first ${asked} that could not be built could not:`);
  return html`${
    counts.failures.length === 0
      ? html`<p>Nothing fails among the ${counted(counts.works, 'dummy', 'dummies')} that could be built.</p>`
      : html`<figure>${trusted(failuresChart(counts))}</figure>`
  }${rest.map((sentence) => html`<p>${sentence}</p>`)}${
    hindrances.length === 0
      ? ''
      : html`<ul>${hindrances.slice(0, MOST_HINDRANCES).map(
          ({ reason, count }) => html`<li>${counted(count, 'dummy', 'dummies')}: ${reason}.</li>
`,
        )}</ul>`
  }`;
}
