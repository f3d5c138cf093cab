import { beforeAll, describe, expect, it, vi } from 'vitest';
import type { Scored, Variable } from '../../src/search/evaluator.js';
import { hypervolume } from '../../src/search/hypervolume.js';
import { Search, type SearchOptions, type SearchState } from '../../src/search/search.js';
import { type TensorBackend, tensorBackend } from '../../src/search/tensor-backend.js';
import { front, type Problem, real, run, SRN, scored, ZDT1 } from '../support/search-problems.js';

// Training takes seconds where the machine is busy.
vi.setConfig({ testTimeout: 60_000 });

let backend: TensorBackend;
beforeAll(async () => {
  backend = await tensorBackend();
});

/** Mixed dims, limits, objectives that are missing where it fails, kinds of failure: all that a figure has. */
const FIGURE: Problem = {
  variables: [
    real('x', -3, 7),
    real('y', 0.1, 0.7),
    real('s', 0, 30, 2.5),
    { name: 'c', kind: 'choice', options: 3 },
  ],
  score: ([x, y, s, c]) => {
    const over = Math.max(0, x * y + s / 30 - 2);
    const under = Math.max(0, 0.5 - x - c);
    return {
      objectives:
        over + under > 1
          ? Float64Array.of(NaN, NaN)
          : Float64Array.of((x - 4) ** 2 + c, (s - 12) ** 2 / 30 + 0.7 - y),
      violation: over + under,
      failures: Float64Array.of(over > 0 ? 1 : 0, under > 0 ? 1 : 0),
    };
  },
};

interface Step {
  stage: string;
  vectors: number[][];
  scores: Scored[];
  state: string;
}

/** Every step of a search, with the state after it as JSON. */
async function steps(problem: Problem, options: SearchOptions): Promise<Step[]> {
  const search = new Search(problem.variables, options);
  const all: Step[] = [];
  for (let asked = await search.ask(); asked; asked = await search.ask()) {
    const scores = asked.batch.map(problem.score);
    search.tell(scores);
    all.push({
      stage: asked.stage,
      vectors: asked.batch.map((v) => Array.from(v)),
      scores,
      state: JSON.stringify(search.save()),
    });
  }
  return all;
}

describe('a search', () => {
  it('spends its budget to the last candidate, stage by stage, and asks for nothing twice', async () => {
    for (const budget of [1, 10, 64, 65, 700]) {
      const { vectors, stages } = await run(FIGURE, { seed: 3, budget });
      expect(vectors).toHaveLength(budget);
      expect(new Set(vectors.map((v) => v.join())).size).toBe(budget);
      const order = stages.filter((stage, i) => stage !== stages[i - 1]);
      expect(order).toEqual(
        ['sample', 'evolve', 'refine'].filter((stage) => order.some((name) => name === stage)),
      );
      if (budget === 700) expect(order).toHaveLength(3);
    }
  });

  it('asks only for values that there are', async () => {
    const { vectors } = await run(FIGURE, { seed: 4, budget: 500 });
    for (const [x, y, s, c] of vectors) {
      expect(x).toBeGreaterThanOrEqual(-3);
      expect(x).toBeLessThanOrEqual(7);
      expect(y).toBeGreaterThanOrEqual(0.1);
      expect(y).toBeLessThanOrEqual(0.7);
      expect(s % 2.5).toBe(0);
      expect([0, 1, 2]).toContain(c);
    }
  });

  it('does better than samples alone', async () => {
    const searched = await run(SRN, { seed: 1, budget: 600 });
    // A budget of 500 at most is sampled, so that this is a Sobol sequence and nothing else.
    const blind = new Search(SRN.variables, { seed: 1, budget: 10000 });
    const asked = await blind.ask();
    expect(asked?.batch).toHaveLength(500);
    const sampled = { vectors: [], stages: [], scored: (asked?.batch ?? []).map(SRN.score) };
    expect(front(searched).length).toBeGreaterThan(5 * front(sampled).length);
  });

  it('ends early when there is nothing new to ask for', async () => {
    const few: Variable[] = [
      { name: 'c', kind: 'choice', options: 5 },
      real('s', 0, 3, 1),
      real('fixed', 2, 2),
    ];
    const { vectors } = await run(
      { variables: few, score: ([c, s]) => scored([c, -s]) },
      { seed: 1, budget: 1000 },
    );
    // All twenty combinations, each once.
    expect(vectors).toHaveLength(20);
    expect(new Set(vectors.map((v) => v.join())).size).toBe(20);
  });

  it('goes on where nothing works, nothing was computed, or all score alike', async () => {
    const variables = FIGURE.variables;
    for (const score of [
      () => scored([NaN, NaN], Infinity),
      () => scored([NaN, NaN], NaN),
      () => scored([0, 0]),
    ]) {
      expect((await run({ variables, score }, { seed: 1, budget: 300 })).vectors).toHaveLength(300);
      expect(
        (await run({ variables, score }, { seed: 1, budget: 200, surrogate: backend })).vectors,
      ).toHaveLength(200);
    }
  });

  it('without a budget evolves for ever, and refines nothing', async () => {
    const search = new Search(ZDT1.variables, { seed: 1, budget: Infinity });
    const stages: string[] = [];
    for (let i = 0; i < 8; i++) {
      const asked = await search.ask();
      search.tell((asked?.batch ?? []).map(ZDT1.score));
      stages.push(asked?.stage ?? '');
    }
    expect(stages).toEqual(['sample', ...new Array(7).fill('evolve')]);
  });

  it('asks the same where of those asked in short it is told only that they fail', async () => {
    const askedOf = async (options: SearchOptions, told: (score: Scored, inShort: boolean) => Scored) => {
      const search = new Search(FIGURE.variables, options);
      const all: number[][] = [];
      let spared = 0;
      for (let asked = await search.ask(); asked; asked = await search.ask()) {
        const { batch, inShort } = asked;
        const scores = batch.map((vector) => told(FIGURE.score(vector), inShort));
        spared += inShort ? scores.filter(({ violation }) => violation > 0).length : 0;
        search.tell(scores);
        all.push(...batch.map((vector) => Array.from(vector)));
      }
      return { all, spared };
    };
    const nothingKnown = { objectives: Float64Array.of(NaN, NaN), violation: Infinity };
    const options = { seed: 5, budget: 600 };
    const whole = await askedOf(options, (score) => score);
    const short = await askedOf(options, (score, inShort) =>
      inShort && score.violation > 0 ? nothingKnown : score,
    );
    expect(short.spared).toBeGreaterThan(10);
    expect(short.all).toEqual(whole.all);
    // A surrogate learns from how far they fail.
    expect((await askedOf({ ...options, surrogate: backend }, (score) => score)).spared).toBe(0);
  });

  it('must be told of what it asked for, before it is asked again', async () => {
    const search = new Search(FIGURE.variables, { seed: 1, budget: 200 });
    expect(() => search.tell([])).toThrow('other candidates');
    const asked = await search.ask();
    await expect(search.ask()).rejects.toThrow('told of the last batch');
    expect(() => search.tell([scored([1, 2])])).toThrow('other candidates');
    search.tell((asked?.batch ?? []).map(FIGURE.score));
    await expect(search.ask()).resolves.toMatchObject({ stage: 'evolve' });
  });
});

describe.each([
  ['without a surrogate', false],
  ['with a surrogate', true],
])('the same bytes, %s', (_, learns) => {
  const options = (seed = 5): SearchOptions => ({
    seed,
    // To train takes long: no more of it than what comes after samples is asked for several times.
    budget: learns ? 450 : 600,
    surrogate: learns ? backend : undefined,
  });
  /** A search that nobody disturbed, for all that is compared with it. */
  let whole: Step[];
  beforeAll(async () => {
    whole = await steps(FIGURE, options());
  });

  it('for the same seed and scores, however long scoring takes; others for another seed', async () => {
    const search = new Search(FIGURE.variables, options());
    for (const { stage, vectors, scores, state } of whole) {
      const asked = await search.ask();
      expect(asked?.stage).toBe(stage);
      expect(asked?.batch.map((v) => Array.from(v))).toEqual(vectors);
      await new Promise((resume) => setTimeout(resume, 5));
      search.tell(scores);
      expect(JSON.stringify(search.save())).toBe(state);
    }
    expect(await search.ask()).toBeNull();
    const other = await new Search(FIGURE.variables, options(6)).ask();
    expect(other?.batch.map((v) => Array.from(v))).not.toEqual(whole[0].vectors);
  });

  it('after a stop at any batch, from its state and the record', async () => {
    expect(whole.length).toBeGreaterThan(6);
    for (let stop = 0; stop < whole.length; stop++) {
      const told = whole.slice(0, stop);
      const record = told.flatMap(({ vectors, scores }) =>
        vectors.map((vector, i) => ({ vector, scored: scores[i] })),
      );
      const state: SearchState =
        stop === 0 ? new Search(FIGURE.variables, options()).save() : JSON.parse(whole[stop - 1].state);
      const search = Search.restore(FIGURE.variables, options(), state, record);
      expect(JSON.stringify(search.save())).toBe(JSON.stringify(state));
      for (const { stage, vectors, scores, state: after } of whole.slice(stop, stop + 3)) {
        const asked = await search.ask();
        expect(asked?.stage).toBe(stage);
        expect(asked?.batch.map((v) => Array.from(v))).toEqual(vectors);
        search.tell(scores);
        expect(JSON.stringify(search.save())).toBe(after);
      }
    }
  });

  it('also when the state is kept while a batch is out', async () => {
    const search = new Search(FIGURE.variables, options());
    const [{ scores, state }] = whole;
    await search.ask();
    search.tell(scores);
    await search.ask();
    expect(JSON.stringify(search.save())).toBe(state);
  });
});

describe('the surrogate in a search', () => {
  it('is trained, and its error on what it never saw is told', async () => {
    const search = new Search(FIGURE.variables, { seed: 1, budget: 500, surrogate: backend });
    for (let asked = await search.ask(); asked; asked = await search.ask())
      search.tell(asked.batch.map(FIGURE.score));
    const check = await search.check();
    expect(check?.rows).toBeGreaterThan(30);
    expect(check?.rows).toBeLessThan(75);
    expect(check?.objectives[0]).toBeGreaterThan(0.5);
    expect(await new Search(FIGURE.variables, { seed: 1, budget: 500 }).check()).toBeNull();
  });

  it('finds a better front of ZDT1 than evolution that nothing screens', async () => {
    // Against (1, 5), out of 4 + 2/3. From as many candidates evolution alone comes to 3.1, samples alone to 1.5.
    const found = front(await run(ZDT1, { seed: 2, budget: 800, surrogate: backend }));
    expect(hypervolume(found, [1, 5])).toBeGreaterThan(3.5);
  });

  it('leaves no tensors behind', async () => {
    const before = backend.tf.memory().numTensors;
    const search = new Search(FIGURE.variables, { seed: 1, budget: 400, surrogate: backend });
    for (let asked = await search.ask(); asked; asked = await search.ask())
      search.tell(asked.batch.map(FIGURE.score));
    await search.check();
    expect(backend.tf.memory().numTensors).toBe(before);
  });

  it('refuses a record that is shorter than its state', () => {
    const state: SearchState = { batches: [64], sampled: 64, learnt: null };
    expect(() => Search.restore(FIGURE.variables, { seed: 1, budget: 500 }, state, [])).toThrow('shorter');
  });
});
