import { spoken } from '../../text/phrases.js';
import { type Html, html, trusted } from '../pages/html.js';
import type { StudyCharts } from './study-charts.js';

/** What drives which score; for each score, what drives it, which way, and how it answers to each dim. The first is open. */
export function sensitivityCharts({ map, scores, lines }: StudyCharts): Html {
  const drawn = scores.filter(({ effects, responses }) => effects !== null || responses !== null);
  const idle = scores.filter(({ effects, responses }) => effects === null && responses === null);
  return html`${drawing(map)}
${drawing(lines)}
${drawn.map(
  (
    { score, effects, trends, responses, reason },
    i,
  ) => html`<details${trusted(i === 0 ? ' open' : '')}><summary>${score.name}</summary>
${effects === null && reason !== '' ? html`<p class="quiet">What drives it is not drawn: ${reason}.</p>` : ''}${[effects, trends, responses].map(drawing)}</details>
`,
)}${
  idle.length === 0
    ? ''
    : html`<p class="quiet">Not drawn: ${spoken(idle.map(({ score, reason }) => `${score.name} (${reason})`))}.</p>`
}`;
}

/** A chart as a figure; nothing where there is none. Charts escape what is written in them. */
export function drawing(svg: string | null): Html {
  return svg === null
    ? html``
    : html`<figure>${trusted(svg)}</figure>
`;
}
