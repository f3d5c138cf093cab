import type { Embedded, PageData } from '../live/data.js';
import { packed } from '../live/packed.js';
import { liveScript } from './bundle.js';
import { type Html, html, trusted } from './html.js';
import { LIVE_STYLE } from './live-style.js';
import { wholePage } from './shell.js';
import { STYLE } from './style.js';

/**
 * The report of a study as one file that needs no network: the figure moves, the charts answer, the dims can be dragged.
 * Its content-security policy lets nothing run or load but its own script and style sheet, by their hashes.
 */
export function livePage(data: PageData): string {
  const { title, summary, sections, failures, plain, facts } = data;
  // Of one dummy there is nothing to choose from.
  const several = data.candidates.count > 1;
  // The verdict and the moving figure first; the paragraphs after.
  const [verdict, ...found] = summary;
  return wholePage(
    several ? `${title}: report of a study` : title,
    STYLE + LIVE_STYLE,
    html`<h1>${title}</h1>
${verdict === undefined ? '' : html`<p class="verdict">${unbroken(verdict)}</p>`}
<noscript><p class="quiet">The figure moves by a script of this page's own, which does not run here. What follows stands still.</p>
${plain}</noscript>
<section id="dummy" aria-labelledby="dummy-head"><h2 id="dummy-head">The dummy on show</h2></section>
${
  found.length === 0
    ? ''
    : html`<section aria-labelledby="found-head"><h2 id="found-head">What the study found</h2>
<div class="summary">
${found.map(
  (sentence) => html`<p class="${sentence.startsWith('·') ? 'item' : ''}">${unbroken(sentence)}</p>
`,
)}</div>
</section>`
}
${several ? html`<section id="choice" aria-labelledby="choice-head" tabindex="-1"><h2 id="choice-head">The choice</h2></section>` : ''}
${sections.map(
  ({ id, title: head, body }) => html`<section aria-labelledby="${id}-head"><h2 id="${id}-head">${head}</h2>
${body}
</section>
`,
)}
${
  several
    ? html`<section aria-labelledby="fails-head"><h2 id="fails-head">What fails</h2>
${failures}
<div id="failures"></div>
</section>`
    : ''
}
<section aria-labelledby="made-head"><h2 id="made-head">How this was made</h2>
<dl>${facts.map(
      ([term, what]) => html`<dt>${term}</dt><dd>${what}</dd>
`,
    )}</dl>
<p class="quiet">Every number here comes from scoring a whole opening of the figure; what a surrogate has estimated is marked so. Force and bow are those of typical card, not measured on yours: cut a dummy before you trust it.</p>
</section>`,
    { data: embedded(data), code: liveScript() },
  );
}

/** Keeps a number and its unit on one line. */
function unbroken(sentence: string): string {
  return sentence.replace(/(\d) (mm|%)/g, '$1\u00a0$2');
}

/** What the script reads, as JSON in which no letter can end the element that holds it. */
function embedded({ figure, better, limits, stages, scored, underWay, art, candidates }: PageData): Html {
  const written: Embedded = {
    ...{ figure, better, limits, stages, scored, underWay, art },
    candidates: packed(candidates),
  };
  return trusted(JSON.stringify(written).replace(/</g, '\\u003c'));
}
