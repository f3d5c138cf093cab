/**
 * What each way of searching finds on the ferryman, over several seeds, at equal numbers of scored candidates: the
 * hypervolume of the candidates that work, and the share that does.
 *
 *   node bench/search.mjs [seeds=10] [candidates=2000,10000] [ways]
 *
 * Fixed beforehand: objectives are 1 − desirability of each want, 0 to 1; the reference is all ones; only working
 * candidates count. Seconds are processor time of one core, scoring and searching together: at equal wall time, compare
 * a way with one that had as many more candidates as it was quicker.
 */
import { Scorer } from '../dist/src/score/scorer.js';
import { hypervolume } from '../dist/src/search/hypervolume.js';
import { frontOf } from '../dist/src/search/pareto.js';
import { Search } from '../dist/src/search/search.js';
import { Sampler } from '../dist/src/search/study-sampler.js';
import { tensorBackend } from '../dist/src/search/tensor-backend.js';
import { example, variablesOf } from './examples.mjs';

const [seeds = '10', budgets = '2000,10000', asked = 'samples,evolution,surrogate'] = process.argv.slice(2);
const figure = example('ferryman');
const scorer = new Scorer(figure);
const variables = variablesOf(figure);
const ways = {
  samples: async (seed, budget) => new Sampler(variables, seed, budget),
  evolution: async (seed, budget) => new Search(variables, { seed, budget }),
  surrogate: async (seed, budget) =>
    new Search(variables, { seed, budget, surrogate: await tensorBackend() }),
};

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
      `  ${String(budget).padStart(6)} ${way.padEnd(10)} hypervolume ${told('volume', 4)}, share that works ${told('share', 3)}, ${told('seconds', 1)} s`,
    );
  }

async function run(search) {
  const from = process.cpuUsage();
  const working = [];
  let scored = 0;
  for (let batch = await search.ask(); batch !== null; batch = await search.ask()) {
    const told = batch.batch.map((vector) => {
      const card = scorer.score(vector);
      const objectives = Float64Array.from(card.wants, ({ desirability }) =>
        desirability === null ? Number.NaN : 1 - desirability,
      );
      if (card.works) working.push({ objectives, violation: 0 });
      const violation = card.cannotBuild === null ? card.violation : Number.POSITIVE_INFINITY;
      return { objectives, violation, failures: Float64Array.from(card.limits, ({ met }) => (met ? 0 : 1)) };
    });
    scored += told.length;
    search.tell(told);
  }
  const { user, system } = process.cpuUsage(from);
  const front = frontOf(working).map((i) => working[i].objectives);
  return {
    volume: front.length === 0 ? 0 : hypervolume(front, new Array(front[0].length).fill(1)),
    share: working.length / scored,
    seconds: (user + system) / 1e6,
  };
}
