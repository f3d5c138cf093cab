import { execFileSync } from 'node:child_process';
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, expect, test } from 'vitest';
import { ScoringFailure, WorkerPool } from '../../src/study/pool.js';

const FAKE = fileURLToPath(new URL('fake-worker.mjs', import.meta.url));

type Troubles = Record<number, { trouble: string; always?: boolean }>;

let pool: WorkerPool<number> | undefined;

function started(workers: number, troubles: Troubles = {}, file = FAKE): WorkerPool<number> {
  const folder = mkdtempSync(join(tmpdir(), 'dummyrun-pool-'));
  pool = new WorkerPool<number>({ file, data: { folder, troubles }, workers, limit: 1000 });
  return pool;
}

afterEach(() => pool?.close());

const vectors = (count: number) => Array.from({ length: count }, (_, i) => Float64Array.of(i));

async function answersOf(pool: WorkerPool<number>, count: number, stop = new AbortController().signal) {
  const answers: (number | string)[] = [];
  for await (const answer of pool.run(vectors(count), stop)) {
    answers.push(answer instanceof ScoringFailure ? answer.reason : answer);
  }
  return answers;
}

test.each([1, 3])('%i workers answer in the order of the batch', async (workers) => {
  const answers = await answersOf(started(workers), 50);
  expect(answers).toEqual(vectors(50).map(([value]) => 2 * value));
});

test.each(['throws', 'dies', 'hangs'])('nothing is lost where a worker %s once', async (trouble) => {
  const answers = await answersOf(started(2, { 9: { trouble } }), 20);
  expect(answers).toEqual(vectors(20).map(([value]) => 2 * value));
});

test.each([
  ['throws', 'scoring failed: no 9'],
  ['dies', 'scoring failed: worker exited with code: 7'],
  ['sleeps', 'scoring took longer than 1 s'],
])('only the candidate at which every worker %s is given up, with the reason', async (trouble, reason) => {
  const answers = await answersOf(started(2, { 9: { trouble, always: true } }), 20);
  expect(answers).toEqual(vectors(20).map(([value]) => (value === 9 ? reason : 2 * value)));
});

// In a process of its own, whose workers have 48 MB each.
test.each([
  ['once', 18],
  ['always', { reason: expect.stringContaining('out of memory') }],
])('a worker that runs out of memory %s takes nothing with it', (how, ninth) => {
  const crowded = fileURLToPath(new URL('crowded.mjs', import.meta.url));
  const folder = mkdtempSync(join(tmpdir(), 'dummyrun-crowded-'));
  const told = execFileSync(process.execPath, ['--max-old-space-size=48', crowded, folder, how], {
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'ignore'],
  });
  expect(JSON.parse(told)).toEqual(Array.from({ length: 12 }, (_, i) => (i === 9 ? ninth : 2 * i)));
});

test('workers that cannot start are a fault, not twenty failed candidates', async () => {
  await expect(answersOf(started(2, {}, '/nowhere/missing.mjs'), 20)).rejects.toThrow('cannot start');
});

test('when stopped, it ends at once with the answers of a whole beginning', async () => {
  const stop = new AbortController();
  const pool = started(2, { 30: { trouble: 'hangs', always: true } });
  const answers: (number | ScoringFailure)[] = [];
  for await (const answer of pool.run(vectors(40), stop.signal)) {
    answers.push(answer);
    if (answers.length === 10) stop.abort();
  }
  // What was in hand may still come, how much hangs on the machine; the candidate that hangs never does.
  expect(answers.length).toBeLessThanOrEqual(30);
  expect(answers).toEqual(vectors(answers.length).map(([value]) => 2 * value));
});

test('whoever stops reading leaves no worker at work', async () => {
  const pool = started(2);
  for await (const answer of pool.run(vectors(400), new AbortController().signal)) if (answer === 8) break;
  // The pool is free again at once: what is left is not waited for.
  expect(await answersOf(pool, 3)).toEqual([0, 2, 4]);
});

test('an empty batch has no answers', async () => {
  expect(await answersOf(started(1), 0)).toEqual([]);
});
