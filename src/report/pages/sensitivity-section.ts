import { spoken } from '../../text/phrases.js';
import type { StudyCharts } from '../charts/study-charts.js';
import { chartFigure, type Html, html, trusted } from './html.js';

/** What drives which score; for each score, what drives it, which way, and how it answers to each dim. The first is open. */
export function sensitivityCharts({ map, scores, lines }: StudyCharts): Html {
  const drawn = scores.filter(({ effects, responses }) => effects !== null || responses !== null);
  const idle = scores.filter(({ effects, responses }) => effects === null && responses === null);
  return html`${chartFigure(map)}
${chartFigure(lines)}
${drawn.map(
  (
    { score, effects, trends, responses, reason },
    i,
  ) => html`<details${trusted(i === 0 ? ' open' : '')}><summary>${score.name}</summary>
${effects === null && reason !== '' ? html`<p class="quiet">What drives it is not drawn: ${reason}.</p>` : ''}${[effects, trends, responses].map(chartFigure)}</details>
`,
)}${
  idle.length === 0
    ? ''
    : html`<p class="quiet">Not drawn: ${spoken(idle.map(({ score, reason }) => `${score.name} (${reason})`))}.</p>`
}`;
}
