/**
 * What a search is spared by scoring in short what fails by its motion: processor time of the same candidates scored whole and
 * in short, batch by batch in turns; and how many were spared something. What the search asks for is the same either way.
 *
 *   node bench/in-short.mjs [candidates=1000] [examples=ferryman,heron,tightrope]
 */
import { Scorer } from '../dist/src/score/scorer.js';
import { Search } from '../dist/src/search/search.js';
import { variablesOf } from '../dist/src/study/figure-variables.js';
import { Layout } from '../dist/src/study/row.js';
import { scoredOf } from '../dist/src/study/study.js';
import { StudyTable } from '../dist/src/study/table.js';
import { cpu, example, samples } from './examples.mjs';

const [budget = '1000', names = 'ferryman,heron,tightrope'] = process.argv.slice(2);
for (const name of names.split(',')) {
  const figure = example(name);
  const scorer = new Scorer(figure);
  const layout = new Layout(scorer.score(figure.start));
  const search = new Search(variablesOf(figure), { seed: 1, budget: Number(budget), own: figure.start });
  const table = new StudyTable(figure.free.length, layout);
  // So that neither pays for V8's compiling.
  for (const vector of samples(figure, 200)) scorer.score(vector);
  const took = { whole: 0, short: 0 };
  let spared = 0;
  let round = 0;
  for (let asked = await search.ask(); asked !== null; asked = await search.ask()) {
    const { stage, batch, inShort } = asked;
    const whole = () => batch.map((vector) => scorer.score(vector));
    const short = () => (inShort ? batch.map((vector) => scorer.scoreInShort(vector)) : whole());
    let cards = [];
    const time = {
      whole: () => {
        took.whole += cpu(() => whole());
      },
      short: () => {
        took.short += cpu(() => {
          cards = short();
        });
      },
    };
    // In turns, and neither always first: what comes second finds caches warm.
    const order = round++ % 2 === 0 ? ['whole', 'short'] : ['short', 'whole'];
    for (const way of order) time[way]();
    spared += cards.filter(({ cannotBuild, violation }) => cannotBuild === null && violation === null).length;
    const told = cards.map((card, i) => {
      table.add({ stage, vector: batch[i], row: layout.rowOf(card) });
      return scoredOf(layout, table, table.size - 1);
    });
    search.tell(told);
  }
  const share = Math.round((100 * spared) / table.size);
  console.log(
    `  ${name}: ${share} % spared something, ${(took.whole / took.short).toFixed(2)} × as many a second`,
  );
}
