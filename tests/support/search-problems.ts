import type { Scored, Variable } from '../../src/search/evaluator.js';
import { frontOf } from '../../src/search/pareto.js';
import { Search, type SearchOptions, type Stage } from '../../src/search/search.js';

/** A published test function: its variables, and how it scores one vector of their values. */
export interface Problem {
  variables: Variable[];
  score: (values: Float64Array) => Scored;
}

export const real = (name: string, min: number, max: number, step?: number): Variable => ({
  name,
  kind: 'real',
  min,
  max,
  step,
});

export const scored = (objectives: number[], violation = 0): Scored => ({
  objectives: Float64Array.from(objectives),
  violation,
});

/** E. Zitzler, K. Deb, L. Thiele, Evolutionary Computation 8(2), 2000: functions T1 and T2, with 30 variables. */
function zdt(curve: (share: number) => number): Problem {
  return {
    variables: Array.from({ length: 30 }, (_, i) => real(`x${i + 1}`, 0, 1)),
    score: (x) => {
      const g = 1 + (9 / 29) * x.subarray(1).reduce((a, b) => a + b);
      return scored([x[0], g * curve(x[0] / g)]);
    },
  };
}
export const ZDT1 = zdt((share) => 1 - Math.sqrt(share));
export const ZDT2 = zdt((share) => 1 - share * share);

/** Binh and Korn 1997, in the form of K. Deb, "Multi-Objective Optimization using Evolutionary Algorithms", 2001. */
export const BNH: Problem = {
  variables: [real('x', 0, 5), real('y', 0, 3)],
  score: ([x, y]) =>
    scored(
      [4 * x * x + 4 * y * y, (x - 5) ** 2 + (y - 5) ** 2],
      Math.max(0, (x - 5) ** 2 + y * y - 25) + Math.max(0, 7.7 - (x - 8) ** 2 - (y + 3) ** 2),
    ),
};

/** Srinivas and Deb 1994. */
export const SRN: Problem = {
  variables: [real('x', -20, 20), real('y', -20, 20)],
  score: ([x, y]) =>
    scored(
      [2 + (x - 2) ** 2 + (y - 1) ** 2, 9 * x - (y - 1) ** 2],
      Math.max(0, x * x + y * y - 225) + Math.max(0, x - 3 * y + 10),
    ),
};

/** What a search asked for, in order, and how it scored. */
export interface Run {
  vectors: Float64Array[];
  stages: Stage[];
  scored: Scored[];
}

/** Runs a search to its end. */
export async function run(problem: Problem, options: SearchOptions): Promise<Run> {
  const search = new Search(problem.variables, options);
  const all: Run = { vectors: [], stages: [], scored: [] };
  for (let asked = await search.ask(); asked; asked = await search.ask()) {
    const scores = asked.batch.map(problem.score);
    for (const vector of asked.batch) all.stages.push(asked.stage) && all.vectors.push(vector);
    all.scored.push(...scores);
    search.tell(scores);
  }
  return all;
}

/** Objectives of the non-dominated ones that break no limit. */
export function front({ scored }: Run): Float64Array[] {
  return frontOf(scored).map((i) => scored[i].objectives);
}
