/**
 * What each way of searching finds on an example, over several seeds, at equal numbers of scored candidates: the
 * hypervolume of the candidates that work, and the share that does; and what the best is worth cut by hand, the mean
 * desirability of fresh dummies: of the contenders that a study has, and of the first eight as drawn.
 *
 *   node bench/search.mjs [seeds=10] [candidates=2000,10000] [ways] [example=ferryman]
 *
 * Fixed beforehand: objectives are 1 − desirability of each want, 0 to 1; the reference is all ones; only working
 * candidates count. Seconds are wall time with two workers, training and scoring overlapping as in a study: at equal wall
 * time, compare a way with one that had as many more candidates as it was quicker.
 */
import { fileURLToPath } from 'node:url';
import { readFigure } from '../dist/src/figure/read.js';
import { contenders, finalists } from '../dist/src/insight/hand/contenders.js';
import { cutByHand, cutErrors, HAND } from '../dist/src/insight/hand/figure-tolerance.js';
import { robustnessOf } from '../dist/src/insight/hand/robustness.js';
import { FigureTrials } from '../dist/src/insight/trials.js';
import { Scorer } from '../dist/src/score/scorer.js';
import { hypervolume } from '../dist/src/search/hypervolume.js';
import { frontOf } from '../dist/src/search/pareto.js';
import { Search } from '../dist/src/search/search.js';
import { tensorBackend } from '../dist/src/search/tensor-backend.js';
import { figurePool } from '../dist/src/study/figure-pool.js';
import { variablesOf } from '../dist/src/study/figure-variables.js';
import { rankedStudy } from '../dist/src/study/ranking.js';
import { Layout } from '../dist/src/study/row.js';
import { Sampler } from '../dist/src/study/sampler.js';
import { scoredOf } from '../dist/src/study/study.js';
import { StudyTable } from '../dist/src/study/table.js';
import { example } from './examples.mjs';

const [seeds = '10', budgets = '2000,10000', asked = 'samples,evolution,surrogate', name = 'ferryman'] =
  process.argv.slice(2);
const figure = example(name);
const layout = new Layout(new Scorer(figure).score(figure.start));
const data = readFigure(fileURLToPath(new URL(`../examples/${name}.yaml`, import.meta.url)));
const pool = figurePool(data, 2);
const never = new AbortController().signal;
const variables = variablesOf(figure);
// What the maker's file has is scored first and bred from, as in a study.
const own = figure.start;
const ways = {
  samples: async (seed, budget) => new Sampler(variables, seed, budget),
  evolution: async (seed, budget) => new Search(variables, { seed, budget, own }),
  surrogate: async (seed, budget) =>
    new Search(variables, { seed, budget, own, surrogate: await tensorBackend() }),
};

// So that no way pays for the workers' warming up.
await run(await ways.samples(0, 400));
for (const budget of budgets.split(',').map(Number))
  for (const way of asked.split(',')) {
    const runs = [];
    for (let seed = 1; seed <= Number(seeds); seed++) runs.push(await run(await ways[way](seed, budget)));
    const told = (key, digits) => {
      const values = runs.map((each) => each[key]);
      const mean = values.reduce((sum, v) => sum + v) / values.length;
      const spread = Math.sqrt(
        values.reduce((sum, v) => sum + (v - mean) ** 2, 0) / (values.length - 1 || 1),
      );
      return `${mean.toFixed(digits)} ± ${(spread / Math.sqrt(values.length)).toFixed(digits)}`;
    };
    console.log(
      `  ${String(budget).padStart(6)} ${way.padEnd(10)} hypervolume ${told('volume', 4)}, share that works ${told('share', 3)}, ${told('seconds', 1)} s; cut by hand ${told('byHand', 3)}, of the first eight ${told('firstEight', 3)}`,
    );
  }

await pool.close();

async function run(search) {
  const from = performance.now();
  const table = new StudyTable(variables.length, layout);
  for (let asked = await search.ask(); asked !== null; asked = await search.ask()) {
    const scored = [];
    for await (const { row } of pool.run(asked.batch, never, asked.inShort)) {
      table.add({ stage: asked.stage, vector: asked.batch[scored.length], row });
      scored.push(scoredOf(layout, table, table.size - 1));
    }
    search.tell(scored);
  }
  const seconds = (performance.now() - from) / 1000;
  const working = table
    .where((candidate) => table.outcome(candidate) === 'works')
    .map((candidate) => scoredOf(layout, table, candidate));
  const front = frontOf(working).map((i) => working[i].objectives);
  const works = (candidate) => table.outcome(candidate) === 'works';
  const ranking = rankedStudy(table, layout).filter(works);
  const desirability = (candidate) => layout.desirability(table.numbers(candidate));
  return {
    byHand: await worthOf(table, contenders(ranking, works(0) ? 0 : null, desirability, table.size)),
    firstEight: await worthOf(table, ranking.slice(0, 8)),
    volume: front.length === 0 ? 0 : hypervolume(front, new Array(front[0].length).fill(1)),
    share: working.length / table.size,
    seconds,
  };
}

/** What the best of some candidates is worth cut by hand, as found by a first look at them, and measured by other dummies. */
async function worthOf(table, contending) {
  if (contending.length === 0) return 0;
  const trials = new FigureTrials(pool, layout, never);
  const errorsOf = (candidate) => cutErrors(figure.template(table.vector(candidate)).cuts, HAND);
  const cut = (dummies) =>
    trials.outcomes(
      dummies.map(({ candidate, errors }) => Float64Array.of(...table.vector(candidate), ...errors)),
    );
  const [best] = await finalists(contending, errorsOf, cut, 1, 1);
  const { verdicts, outcomes } = trials.cutDummies(table.vector(best).slice());
  await cutByHand(errorsOf(best), verdicts, 200, 1);
  // The first is the candidate as drawn.
  return robustnessOf(outcomes.slice(1)).expected;
}
