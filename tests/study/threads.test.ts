import { fileURLToPath } from 'node:url';
import { afterEach, expect, test, vi } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { rowWords } from '../../src/report/words/row-words.js';
import { Scorer } from '../../src/score/scorer.js';
import { figurePool, rowsIn } from '../../src/study/figure-pool.js';
import { ScoringFailure, WorkerPool } from '../../src/study/pool.js';
import { Layout, type Row } from '../../src/study/row.js';
import { TENT } from '../cli/support.js';

const file = fileURLToPath(new URL('which-thread.mjs', import.meta.url));
const never = new AbortController().signal;

/** What one thread of a pool, closed again, answers to a number. */
async function answerOf(data: string, lasting: boolean, value = 0): Promise<string> {
  const pool = new WorkerPool<string>({ file, data, workers: 1, lasting });
  const answers: string[] = [];
  for await (const answer of pool.run([Float64Array.of(value)], never))
    answers.push(answer instanceof ScoringFailure ? answer.reason : answer);
  await pool.close();
  return answers.join();
}

afterEach(() => vi.useRealTimers());

test('a thread serves one pool after another, each with its own data', async () => {
  const [, thread] = (await answerOf('one', true)).split(' in ');
  expect(await answerOf('two', true)).toBe(`two in ${thread}`);
});

test('one of a pool that does not share serves no other', async () => {
  expect(await answerOf('one', false)).not.toBe(await answerOf('one', false));
});

test('where something went wrong the thread is not handed on', async () => {
  const before = await answerOf('one', true);
  expect(await answerOf('one', true, -1)).toBe('scoring failed: below 0');
  expect(await answerOf('one', true)).not.toBe(before);
});

test('two pools at a time have each their own threads', async () => {
  const [one, two] = await Promise.all([answerOf('same', true), answerOf('same', true)]);
  expect(one).not.toBe(two);
});

test('after a while that nobody takes it, a thread ends', async () => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
  const before = await answerOf('one', true);
  vi.advanceTimersByTime(61_000);
  expect(await answerOf('one', true)).not.toBe(before);
});

test('figures that one thread tries one after another have the scores of their own', async () => {
  const lower = TENT.replace('from: 20, to: 140', 'from: 20, to: 70');
  for (const text of [TENT, lower, TENT]) {
    const source = parseFigure(text, 'tent.yaml');
    const figure = compileFigure(source);
    const scorer = new Scorer(figure);
    const layout = new Layout(scorer.score(figure.start));
    const vectors = [0.2, 0.5, 0.9].map((at) =>
      Float64Array.from(figure.free, (dim) => (dim.kind === 'real' ? dim.min + at * (dim.max - dim.min) : 1)),
    );
    const pool = figurePool(source, 1);
    const rows: Row[] = [];
    for await (const row of rowsIn(pool, layout, vectors, never)) rows.push(row);
    await pool.close();
    const cards = vectors.map((vector) => scorer.score(vector));
    expect(rows).toEqual(cards.map((card) => layout.rowOf(card, rowWords(card))));
  }
});
