import { counted } from '../../text/phrases.js';
import type { StudyCharts } from '../charts/study-charts.js';
import type { StudyReport } from '../study-report.js';
import { COMMAND } from '../words/command.js';
import { notDeserved } from '../words/insight-summary.js';
import { handInWords, tightestCuts } from '../words/insight-words.js';
import { chartFigure, type Html, html } from './html.js';
import { localTables } from './local-tables.js';

/** How exact the best must be cut, how far its dims may go and which way to nudge them; or why that is not known. */
export function handCharts(report: StudyReport, { best }: StudyCharts): Html {
  const { insight, table, underWay } = report;
  if (underWay !== null) return html`<p class="quiet">Not measured yet.</p>`;
  if (insight === null)
    return html`<p class="quiet">Not measured: the study ended before. ‘${COMMAND} check --tolerance’ tells it of one dummy.</p>`;
  if (insight.best === null)
    return html`${chartFigure(best.robustness)}<p class="quiet">Not measured, since ${notDeserved(table.size)}. ‘${COMMAND} check --tolerance’ tells it of one dummy.</p>`;
  const { cuts, rooms } = insight.best.insight;
  const { hand } = insight;
  const tight = tightestCuts(cuts, rooms, hand);
  return html`<p>Cut by hand, each of ${counted(cuts.length, 'length, angle and place', 'lengths, angles and places')} of the parts is off by an error of its own: ${handInWords(hand)}. What card can give is no failure; near a flat state it gives little, and 1° stops a fold some 10° short of it.</p>
${chartFigure(best.robustness)}${chartFigure(best.failures)}${chartFigure(best.causes)}${
  tight.length === 0
    ? ''
    : html`<div class="scroll" tabindex="0" role="region" aria-label="How exact"><table>
<caption>The cuts that allow the least error, all others exact.</caption>
<thead><tr><th scope="col" class="word">cut</th><th scope="col">off by up to</th><th scope="col" class="word">beyond</th></tr></thead>
<tbody>
${tight.map(
  ([
    cut,
    off,
    beyond,
  ]) => html`<tr><td class="word">${cut}</td><td>${off}</td><td class="word">${beyond}</td></tr>
`,
)}</tbody></table></div>
`
}${chartFigure(best.safe)}${best.nudges.map(
  ({ score, svg }, i) =>
    html`${
      i === 0
        ? chartFigure(svg)
        : html`<details><summary>Nudges of ${score}</summary>
${chartFigure(svg)}</details>
`
    }`,
)}${localTables(report)}`;
}
