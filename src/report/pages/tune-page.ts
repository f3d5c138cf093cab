import type { Figure } from '../../figure/figure.js';
import { turningOf } from '../../score/force/turning.js';
import type { Trouble } from '../../tune/diagnosis.js';
import type { Remedy, Tuned } from '../../tune/tune.js';
import { TURN_TITLE, turnsChart } from '../charts/turn-chart.js';
import { withUnit } from '../words/numbers.js';
import {
  costsInWords,
  handInRemedy,
  motionInWords,
  remedyInShort,
  tieInWords,
  tiesInWords,
  troubleInWords,
} from '../words/tune-words.js';

import { type Html, html, trusted } from './html.js';
import { wholePage } from './shell.js';
import { STYLE } from './style.js';
import { pictureOf, type Sight } from './tune-picture.js';

const OWN_STYLE = `${STYLE}
.side{display:grid;grid-template-columns:repeat(auto-fill,minmax(19rem,1fr));gap:1.5rem}
.side figure{margin:0}
.side figcaption{font:14px/1.4 system-ui,sans-serif;color:var(--ink);overflow-wrap:anywhere}
.side figcaption p{margin:.25rem 0}
`;

/** The page of a figure that was tuned: what is wrong with it, as it is stuck, and beside it each remedy. */
export function tunePage(
  figure: Figure,
  tuned: Tuned,
  remedies: readonly { readonly figure: Figure; readonly file: string }[],
): string {
  const sight = sightOf(tuned);
  const angle = withUnit(sight.pageAngle, 'degrees');
  const stuck = pictureOf(figure, sight);
  return wholePage(
    `${figure.name}: why it is stuck`,
    OWN_STYLE,
    html`<h1>${figure.name}</h1>
<p class="verdict">${verdict(tuned)}</p>
<section aria-labelledby="wrong"><h2 id="wrong">What is wrong, in the order in which it comes as the page closes</h2>
<ol>${tuned.troubles.map((trouble) => html`<li>${troubleInWords(trouble)}</li>`)}</ol>
${stuck === null ? '' : html`<figure>${stuck.drawn}<figcaption>As it is, at a page angle of ${angle}, seen from the foot of the page.${stuck.isColoured ? ' Coloured is what is named first.' : ''}${stuck.isRinged ? ' Ringed is the place.' : ''}</figcaption></figure>`}
</section>
<section aria-labelledby="remedies"><h2 id="remedies">Remedies, the smallest first</h2>
${
  remedies.length === 0
    ? html`<p>None was found in ${tuned.tried} trials.</p>`
    : html`<div class="side">${remedies.map(({ figure: freed, file }, i) => remedyFigure(figure, tuned, tuned.remedies[i], freed, file, i + 1, sight))}</div>`
}
</section>
<section aria-labelledby="turn"><h2 id="turn">${TURN_TITLE}</h2>
<figure>${trusted(turns(figure, remedies))}</figure>
</section>
${
  tuned.ties.length === 0
    ? ''
    : html`<section aria-labelledby="tied"><h2 id="tied">Taken as tied</h2>
${tiesInWords(tuned.ties).map((line) => html`<p>${line}</p>`)}
</section>`
}`,
  );
}

/** More lines than these could not be told apart. */
const MOST_TURNS = 5;

/** As it is, and with the smallest remedies. */
const turns = (figure: Figure, remedies: readonly { readonly figure: Figure }[]): string =>
  turnsChart(
    [figure, ...remedies.slice(0, MOST_TURNS).map(({ figure: freed }) => freed)].map((each, i) => ({
      name: i === 0 ? 'as it is' : `remedy ${i}`,
      turning: turningOf(each, each.start),
    })),
    remedies.length > MOST_TURNS ? `Of ${remedies.length} remedies the ${MOST_TURNS} smallest.` : '',
  );

function verdict({ card, remedies }: Tuned): string {
  if (card.works) return 'It works as it is: there is nothing to free.';
  return remedies.length === 0
    ? 'It does not work, and nothing that was tried frees it.'
    : `It does not work. The smallest remedy: ${remedyInShort(remedies[0])}.`;
}

function remedyFigure(
  figure: Figure,
  tuned: Tuned,
  remedy: Remedy,
  freed: Figure,
  file: string,
  number: number,
  sight: Sight,
): Html {
  const name = file.split(/[/\\]/).at(-1) ?? file;
  const panels = [...remedy.cuts, ...remedy.cardLosses].map(({ panel }) => panel);
  // Of a figure that can't be built there is no card beside which to draw what is gone.
  const isDrawn = panels.length > 0 && tuned.card.cannotBuild === null;
  const lost = isDrawn ? { from: figure, panels } : undefined;
  return html`<figure>${pictureOf(freed, { ...sight, marks: [], lost })?.drawn ?? ''}<figcaption><p><strong>${number}. ${remedyInShort(remedy)}</strong></p>
${costsInWords(remedy).map((line) => html`<p><strong>${line}</strong></p>`)}${remedy.ties.map((tie) => html`<p>${tieInWords(tie)}</p>`)}<p>${motionInWords(tuned, remedy)}</p>${handInRemedy(remedy).map((line) => html`<p>${line}</p>`)}
${lost === undefined ? '' : html`<p>Dashed is the card that it takes.</p>`}<p><a href="${name}">${name}</a></p></figcaption></figure>`;
}

/** Shut far enough to see what happens on the way, open enough to see in. */
const LEAST_ANGLE = 12;
/** Where there is no place to look at. */
const NOWHERE: Pick<Sight, 'pageAngle' | 'isNamed'> = { pageAngle: 90, isNamed: () => false };

/** Where to look: at the first trouble that has a place. */
function sightOf({ troubles, card }: Tuned): Sight {
  const first = troubles.find(({ kind }) => kind !== 'does not fit' && kind !== 'no card');
  const { pageAngle, isNamed } = first === undefined ? NOWHERE : placeOf(first);
  const { between, points } = card.clash;
  const isCatch = first?.kind === 'catches' && between !== null && points !== null;
  return {
    pageAngle: Math.max(LEAST_ANGLE, pageAngle),
    isNamed,
    marks: isCatch ? between.map((panel, i) => ({ panel, at: points[i] })) : [],
  };
}

/** Where a trouble is, and which panels are named in it. */
function placeOf(trouble: Trouble): Pick<Sight, 'pageAngle' | 'isNamed'> {
  const among =
    (...names: readonly string[]) =>
    (panel: string) =>
      names.includes(panel);
  switch (trouble.kind) {
    case 'catches':
      return { pageAngle: trouble.worstAt, isNamed: among(...trouble.between) };
    case 'stops':
      return { pageAngle: trouble.pageAngle, isNamed: among(...trouble.at.panels) };
    case 'binds':
      return { pageAngle: trouble.worstAt, isNamed: among(trouble.at.part, ...trouble.at.panels) };
    case 'pokes out':
      return { pageAngle: trouble.worstAt, isNamed: among(trouble.part) };
    case 'limit': {
      const { finding } = trouble.limit;
      return { pageAngle: finding?.pageAngle ?? 0, isNamed: among(...(finding?.panels ?? [])) };
    }
    default:
      return NOWHERE;
  }
}
