import type { StudyReport } from '../study-report.js';
import { decimal, titled } from '../words/numbers.js';

import { type Html, html } from './html.js';

const MOST_ROWS = 50;

/** The best candidates, best first: their dims, their wants, and what is not met. */
export function rankingTable({ layout, dims, table, ranking, robust: known }: StudyReport): Html {
  const shown = ranking.slice(0, MOST_ROWS);
  const named = [...layout.wants, ...layout.limits].map(({ name }) => name);
  const robust = new Map(known.map(({ candidate, works }) => [candidate, works.share]));
  const rows = shown.map((candidate, place) => {
    const numbers = table.numbers(candidate);
    const met = table.met(candidate);
    const outcome = table.outcome(candidate);
    const missed = layout.missed({ outcome, numbers, met }).map((place) => named[place]);
    const stiff = outcome === 'works' && layout.grade(numbers) === 'stiff';
    const verdict = outcome === 'fails' ? `not met: ${missed.join(', ')}` : stiff ? 'works, stiff' : outcome;
    return html`<tr><th scope="row">${place + 1}</th><td>${candidate + 1}</td><td>${cellOf(layout.desirability(numbers), 3)}</td>${
      robust.size > 0 ? html`<td>${cellOf(100 * (robust.get(candidate) ?? Number.NaN), 0)}</td>` : ''
    }
${layout.wants.map(
  ({ unit }, want) =>
    html`<td class="${met[want] === 1 ? '' : 'missed'}">${cellOf(layout.wantValue(numbers, want), unit === 'mm' ? 2 : 1)}</td>`,
)}
<td class="word">${verdict}</td>
${dims.map(({ options }, dim) => html`<td>${dimCell(table.vector(candidate)[dim], options)}</td>`)}</tr>
`;
  });
  return html`<div class="scroll" tabindex="0" role="region" aria-label="Ranked table"><table>
<caption>The best ${shown.length} of ${ranking.length}. Numbers of dummies are those of candidates.csv; ranking.csv holds all columns.</caption>
<thead><tr><th scope="col">rank</th><th scope="col">dummy</th><th scope="col">desirability</th>${robust.size > 0 ? html`<th scope="col">robustness (%)</th>` : ''}
${layout.wants.map((want) => html`<th scope="col">${titled(want)}</th>`)}
<th scope="col" class="word">verdict</th>
${dims.map((dim) => html`<th scope="col">${titled(dim)}</th>`)}</tr></thead>
<tbody>
${rows}</tbody></table></div>`;
}

function dimCell(value: number, options: readonly (string | number)[] | null): string {
  return options === null ? decimal(value, 2) : String(options[value]);
}

function cellOf(value: number, decimals: number): string {
  return Number.isNaN(value) ? '–' : decimal(value, decimals);
}
