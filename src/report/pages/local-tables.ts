import type { StudyInsight } from '../../insight/study-insight.js';
import { WORKS, wantScoresOf } from '../../study/scores.js';
import type { StudyReport } from '../study-report.js';
import { COMMAND } from '../words/command.js';
import { safeWords, signed } from '../words/insight-words.js';
import { withUnit } from '../words/numbers.js';
import { MARKS, nudgeMark } from '../words/surrogate-words.js';

import { type Html, html } from './html.js';

/** For each of the top dummies but the best, a table: how far each of its dims may go, and what a nudge of it does. */
export function localTables({ insight, layout, table, ranking, dims }: StudyReport): Html {
  if (insight === null || insight.local.length === 0) return html``;
  const few =
    insight.local.length < insight.robust.length
      ? html`<p class="quiet">${insight.local.length < 2 ? 'The dims of the other top dummies have not been walked' : 'Those of the rest have not been walked'}: measuring takes no longer than scoring did. ‘${COMMAND} check --tolerance’ tells it of one dummy.</p>
`
      : html``;
  if (insight.local.length < 2) return few;
  const scores = wantScoresOf(layout)
    .map((score, place) => ({ ...score, place }))
    .filter(({ name }) => name !== WORKS.name);
  const rowsOf = ({ candidate, safe, nudges }: StudyInsight['local'][number]) =>
    insight.free.map((dim, i) => {
      const value = table.vector(candidate)[i];
      const { options } = dims[i];
      const [range, beyond] = safeWords(dim, safe[i], value);
      return html`<tr><th scope="row" class="word">${dim.name}</th><td>${options === null ? withUnit(value, dim.unit) : options[value]}</td>
${scores.map(({ place, unit }) => html`<td>${nudgeCell(nudges[i][place], unit)}</td>`)}
<td class="word">${safe[i].range === null ? '' : range.replace(/, now .*/, '')}</td><td class="word">${beyond || range}</td></tr>
`;
    });
  return html`<h3>The other top dummies</h3>
<p class="quiet">For one unit more of a dim, the change of each score; and how far it may go, the others as they are. ${MARKS}</p>
${insight.local.slice(1).map(
  (
    local,
  ) => html`<details><summary>Dummy ${local.candidate + 1}, rank ${ranking.indexOf(local.candidate) + 1}</summary>
<div class="scroll" tabindex="0" role="region" aria-label="Dims of dummy ${local.candidate + 1}"><table>
<thead><tr><th scope="col" class="word">dim</th><th scope="col">now</th>
${scores.map(({ name }) => html`<th scope="col">${name}</th>`)}
<th scope="col" class="word">works from … to</th><th scope="col" class="word">beyond</th></tr></thead>
<tbody>
${rowsOf(local)}</tbody></table></div></details>
`,
)}${few}`;
}

function nudgeCell(nudge: StudyInsight['local'][number]['nudges'][number][number], unit: string): string {
  const { change } = nudge;
  if (change === null) return '–';
  return `${signed(change, unit)}${nudgeMark(nudge)}`;
}
