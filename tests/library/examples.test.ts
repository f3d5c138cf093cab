import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import * as library from '../../src/index.js';
import { onOneCore } from '../support/one-core.js';

const text = readFileSync('src/index.ts', 'utf8');
const AsyncFunction = (async () => {}).constructor as new (
  ...code: string[]
) => (...args: unknown[]) => Promise<void>;

/** Each exported function with the example in its docstring. */
const examples = Array.from(
  text.matchAll(/@example\n((?: \* .*\n)+) \*\/\nexport (?:const|async function\*?|function) (\w+)/g),
  ([, lines, name]) => ({ name, code: lines.replaceAll(/^ \* /gm, '') }),
);

describe('the library', () => {
  it('has an example for every function', () => {
    const functions = Object.entries(library).flatMap(([name, value]) =>
      typeof value === 'function' && !/^[A-Z]/.test(name) ? [name] : [],
    );
    expect(examples.map(({ name }) => name)).toEqual(
      expect.arrayContaining(functions.filter((name) => name !== 'scorecardInWords')),
    );
  });

  it.each(examples)('runs the example of $name', async ({ code }) => {
    const names = Object.keys(library);
    const example = new AsyncFunction(...names, 'figure', `{${code}}`);
    const figure = code.includes('const figure =') ? undefined : library.read('examples/heron.yaml');
    await onOneCore(() => example(...Object.values(library), figure));
  });
});

const TENT = `page: A5
dims: { side: { from: 31, to: 60, start: 40 } }
parts: [{ name: tent, kind: parallel-fold, at: 40, length: 60, glue: [30, 30], widths: [side, side] }]
wants: [{ name: rises, kind: rise, panel: tent left, least: 20 }]
`;

describe('explore', () => {
  it('yields every dummy as it is scored, and gives them back best first', async () => {
    const study = library.explore(library.parse(TENT), { samples: 40, workers: 1 });
    const seen: library.Dummy[] = [];
    let step = await study.next();
    for (; !step.done; step = await study.next()) seen.push(step.value);
    const ranked = step.value;
    expect(seen.map(({ number }) => number)).toEqual(Array.from({ length: 40 }, (_, i) => i + 1));
    expect([...ranked].sort((a, b) => a.number - b.number)).toEqual(seen);
    expect(ranked[0].outcome).toBe('works');
    // On the open page a tent over feet of 30 stands √(w² − 30²) high; while it closes a side may stand upright, w high.
    for (const { dims, wants } of seen) {
      expect(wants.rises).toBeGreaterThan(Math.sqrt(Number(dims.side) ** 2 - 900) - 1e-6);
      expect(wants.rises).toBeLessThan(Number(dims.side) + 1e-6);
    }
    const again: library.Dims[] = [];
    for await (const { dims } of library.explore(library.parse(TENT), { samples: 40, workers: 2 }))
      again.push(dims);
    expect(seen.map(({ dims }) => dims)).toEqual(again);
  });

  it('ends when the loop is left', async () => {
    let count = 0;
    for await (const _ of library.explore(library.parse(TENT), { samples: 1e6, workers: 1 }))
      if (++count === 5) break;
    expect(count).toBe(5);
  });
});

it('a scorecard is not changed by a later call', () => {
  const figure = library.read('examples/stuck-drummer.yaml');
  const card = library.score(figure);
  const before = structuredClone(card);
  library.score(figure);
  library.score(library.parse(TENT), { side: 50 });
  expect(card).toEqual(before);
});

it('a dim that there is not is refused by name', () => {
  expect(() => library.score(library.parse(TENT), { sid: 50 })).toThrow(library.InputError);
});

it('tuning takes no more of a panel than is asked for', async () => {
  const cutsWith = async (more: object) => {
    const tuned = await library.tune(library.read('examples/stuck-drummer.yaml'), {
      trials: 1,
      workers: 1,
      ...more,
    });
    return tuned?.remedies.filter(({ cuts }) => cuts.length > 0).length;
  };
  expect([await cutsWith({}), await cutsWith({ mostCut: 0 })]).toEqual([2, 0]);
});

it('weighs as many seeds as can be counted out, no more', async () => {
  const seeds = Array.from({ length: 11 }, (_, i) => i + 1);
  await expect(library.compare([library.parse(TENT), library.parse(TENT)], { seeds })).rejects.toThrow(
    'at most 10',
  );
});
