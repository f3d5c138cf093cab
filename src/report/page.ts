import { createHash } from 'node:crypto';
import { failuresChart, tally } from './failures.js';
import { type Html, html, trusted } from './html.js';
import { rankingTable } from './ranking-table.js';
import { sensitivityCharts } from './sensitivity-charts.js';
import type { StudyReport } from './study-report.js';
import { STYLE } from './style.js';
import { tradeOff } from './trade-off.js';
import { counted } from './words.js';

/**
 * The report of a study: one page that needs no network and runs no script. Its content-security policy forbids
 * everything but its own style sheet.
 */
export function reportPage(report: StudyReport): string {
  const { name, summary, facts } = report;
  const styleHash = createHash('sha256').update(STYLE).digest('base64');
  const policy = `default-src 'none'; style-src 'sha256-${styleHash}'; base-uri 'none'; form-action 'none'`;
  const page = html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${name}: report of a study</title>
<style>${trusted(STYLE)}</style>
</head>
<body>
<main>
<h1>${name}</h1>
${summary.map(
  (sentence) => html`<p class="verdict">${unbroken(sentence)}</p>
`,
)}
<section aria-labelledby="best"><h2 id="best">The best dummies</h2>
${rankingTable(report)}
</section>
<section aria-labelledby="trade"><h2 id="trade">What costs what</h2>
${tradeOff(report)}
</section>
<section aria-labelledby="dims"><h2 id="dims">Which dim matters</h2>
${sensitivityCharts(report)}
</section>
<section aria-labelledby="fails"><h2 id="fails">What fails</h2>
${failures(report)}
</section>
<section aria-labelledby="made"><h2 id="made">How this was made</h2>
<dl>${facts.map(
    ([term, what]) => html`<dt>${term}</dt><dd>${what}</dd>
`,
  )}</dl>
<p class="quiet">Every number here comes from scoring a whole opening of the figure, not from an estimate. The model leaves out how card bends and springs back: cut a dummy before you trust it.</p>
</section>
</main>
</body>
</html>
`;
  return page.text;
}

/** Keeps a number and its unit on one line. */
function unbroken(sentence: string): string {
  return sentence.replace(/(\d) (mm|%)/g, '$1\u00a0$2');
}

/** What fails how often, over the candidates that were spread evenly; picked ones fail less. */
function failures({ table, layout, spread }: StudyReport): Html {
  const counts = tally(table, layout, spread);
  const rest = [
    counts.notBuilt > 0
      ? `${counted(counts.notBuilt, 'more dummy', 'more dummies')} could not be built at all.`
      : '',
    counts.notScored > 0
      ? `${counted(counts.notScored, 'candidate')} could not be scored; candidates.csv says why.`
      : '',
  ].filter((sentence) => sentence !== '');
  return html`${
    counts.failures.length === 0
      ? html`<p>Nothing fails among the ${counts.works} dummies that were built.</p>`
      : html`<figure>${trusted(failuresChart(counts))}</figure>`
  }${rest.map((sentence) => html`<p>${sentence}</p>`)}`;
}
