import type { Comparison } from '../../compare/compare.js';
import type { Run } from '../../compare/measures.js';
import { turningOf } from '../../score/force/turning.js';
import { frontOfTwo } from '../../search/front-of-two.js';
import { frontsChart, type VariantFront } from '../charts/compare-fronts.js';
import { TURN_TITLE, turnsChart } from '../charts/turn-chart.js';
import { heaviestTwo, type WantAxis } from '../charts/want-axes.js';
import { betterOf } from '../report-of.js';
import { amount, chanceInWords, valueInWords, verdictInWords } from '../words/compare-words.js';
import { type Html, html, trusted } from './html.js';
import { wholePage } from './shell.js';
import { STYLE } from './style.js';

/** Its tables have no best row, their rows have names, and they are wide. */
const OWN_STYLE = `${STYLE}
main{max-width:74rem}
tbody tr:first-child{background:none}
tbody th{min-width:15rem;font-weight:400}
td.wins{font-weight:600;color:var(--accent)}
`;
/** Marks of dummies that are not on a front: more only blacken the paper. */
const MOST_OTHERS = 300;

/** The page of a comparison: one file that needs no network and runs no script. */
export function comparePage(comparison: Comparison, facts: readonly (readonly [string, string])[]): string {
  const names = comparison.variants.map(({ name }) => name);
  const title = `${names.join(' against ')}`;
  return wholePage(
    title,
    OWN_STYLE,
    html`<h1>${title}</h1>
${verdictInWords(comparison).map(
  (sentence, i) => html`<p${trusted(i === 0 ? ' class="verdict"' : '')}>${sentence}</p>
`,
)}
<section aria-labelledby="weighed"><h2 id="weighed">Who wins at what</h2>
${table(comparison)}
</section>
<section aria-labelledby="fronts"><h2 id="fronts">What costs what</h2>
${fronts(comparison)}
</section>
<section aria-labelledby="best"><h2 id="best">The best dummy of each</h2>
${bests(comparison)}
</section>
<section aria-labelledby="turn"><h2 id="turn">${TURN_TITLE}</h2>
${turns(comparison)}
</section>
<section aria-labelledby="made"><h2 id="made">How this was made</h2>
<dl>${facts.map(
      ([term, what]) => html`<dt>${term}</dt><dd>${what}</dd>
`,
    )}</dl>
</section>`,
  );
}

function table(comparison: Comparison): Html {
  const { variants, weighed, seeds } = comparison;
  return html`<div class="scroll" tabindex="0" role="region" aria-label="Who wins at what"><table>
<caption>Medians over ${seeds.length} seeds, with the least and the greatest. Pieces and joints are the figure’s own: the base, hubs and hinge strips are not counted.</caption>
<thead><tr><th scope="col" class="word">measure</th>${variants.map(
    ({ name }) => html`<th scope="col">${name}</th>`,
  )}<th scope="col" class="word">winner</th><th scope="col">by</th><th scope="col" class="word">how sure</th></tr></thead>
<tbody>
${weighed.map(
  (each) => html`<tr><th scope="row" class="word">${each.name}, ${each.better} is better</th>${variants.map(
    (_, i) =>
      html`<td class="${i === each.winner ? 'wins' : ''}">${valueInWords(each.medians[i], each.spans[i], each.unit)}</td>`,
  )}<td class="word">${each.winner === null ? '–' : variants[each.winner].name}</td><td>${
    each.by === null ? '–' : amount(each.by, each.unit)
  }</td><td class="word">${chanceInWords(each)}</td></tr>
`,
)}</tbody></table></div>`;
}

/** The fronts over the two wants that weigh most. */
function fronts({ variants, layouts, runs }: Comparison): Html {
  const { wants } = variants[0].figure;
  const both = heaviestTwo(wants, wants.map(betterOf));
  if (both === null) return html`<p>There are fewer than two wants: nothing costs anything else.</p>`;
  const axes = both.map(({ axis }) => axis);
  const drawn = variants.map(({ name }, variant): VariantFront => {
    const layout = layouts[variant];
    const points = runs
      .filter((run) => run.variant === variant)
      .flatMap(({ table }) =>
        table
          .where((candidate) => table.outcome(candidate) === 'works')
          .map((candidate) => {
            const numbers = table.numbers(candidate);
            const [px, py] = both.map(({ value }) => value(layout, numbers));
            return { x: px, y: py };
          }),
      );
    return { name, ...split(points, axes) };
  });
  const note = 'All seeds together.';
  return html`<figure>${trusted(frontsChart(axes[0], axes[1], drawn, note))}</figure>`;
}

type Point = { x: number; y: number };

/** The points that no other beats in both wants, along the front; and some of the rest, evenly taken. */
function split(
  points: readonly Point[],
  [x, y]: readonly WantAxis[],
): Pick<VariantFront, 'front' | 'others'> {
  const unbeaten = frontOfTwo(
    [...points.keys()],
    { better: x.better, value: (place) => points[place].x },
    { better: y.better, value: (place) => points[place].y },
  );
  const front = unbeaten.map((place) => points[place]);
  const members = new Set(unbeaten);
  const others = points.filter((_, place) => !members.has(place));
  const every = Math.max(1, Math.ceil(others.length / MOST_OTHERS));
  return { front, others: others.filter((_, i) => i % every === 0) };
}

/** The best of each variant over all seeds: what it reaches, what it takes to make, and its dims. */
function bests(comparison: Comparison): Html {
  const columns = comparison.variants.map((_, variant) => bestInWords(comparison, variant));
  const rows = [...new Set(columns.flatMap((column) => [...column.keys()]))];
  if (rows.length === 0) return html`<p>Nothing works.</p>`;
  return html`<div class="scroll" tabindex="0" role="region" aria-label="The best dummy of each"><table>
<thead><tr><th scope="col" class="word"></th>${comparison.variants.map(
    ({ name }) => html`<th scope="col">${name}</th>`,
  )}</tr></thead>
<tbody>
${rows.map(
  (row) => html`<tr><th scope="row" class="word">${row}</th>${columns.map(
    (column) => html`<td>${column.get(row) ?? '–'}</td>`,
  )}</tr>
`,
)}</tbody></table></div>`;
}

/** How hard the page of the best of each is to turn. */
function turns(comparison: Comparison): Html {
  const bests = comparison.variants.flatMap(({ name, figure }, variant) => {
    const run = bestRun(comparison, variant);
    if (run === null || run.best === null) return [];
    return [{ name, turning: turningOf(figure, run.table.vector(run.best)) }];
  });
  return bests.length === 0
    ? html`<p>Nothing works.</p>`
    : html`<figure>${trusted(turnsChart(bests, 'The best dummy of each.'))}</figure>`;
}

function bestInWords(comparison: Comparison, variant: number): Map<string, string> {
  const run = bestRun(comparison, variant);
  if (run === null || run.best === null || run.labour === null) return new Map();
  const { table, best, labour } = run;
  const { figure } = comparison.variants[variant];
  const layout = comparison.layouts[variant];
  const values = figure.values(table.vector(best));
  return new Map([
    ...layout.wants.map(({ name, unit }, want): [string, string] => [
      name,
      amount(layout.wantValue(table.numbers(best), want), unit),
    ]),
    ['page', layout.grade(table.numbers(best)) ?? 'not known'],
    ['hardest force', forceOf(layout.force(table.numbers(best)))],
    ['card', amount(labour.card, 'cm²')],
    ['pieces', String(labour.pieces)],
    ['glue joints', String(labour.glueJoints)],
    ...figure.free.map(({ name, unit }): [string, string] => {
      const value = values.get(name) ?? '';
      return [`dim ${name}`, typeof value === 'number' ? amount(value, unit) : value];
    }),
  ]);
}

const forceOf = (force: number): string => (Number.isNaN(force) ? 'not known' : amount(force, 'N'));

/** The run whose best is the best of all seeds; null where nothing works. */
function bestRun({ runs, layouts }: Comparison, variant: number): Run | null {
  const worth = ({ table, best }: Run) =>
    best === null ? -1 : layouts[variant].desirability(table.numbers(best)) || 0;
  return runs
    .filter((run) => run.variant === variant && run.best !== null)
    .reduce<Run | null>((top, run) => (top === null || worth(run) > worth(top) ? run : top), null);
}
