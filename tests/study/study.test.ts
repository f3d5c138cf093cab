import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { StudyError } from '../../src/disk/error.js';
import { begun, finishedBefore, resumed, type StudySettings } from '../../src/study/begin.js';
import type { Trial } from '../../src/study/figure-pool.js';
import { StudyFolder } from '../../src/study/folder.js';
import { ScoringFailure } from '../../src/study/pool.js';
import { Sampler } from '../../src/study/sampler.js';
import { searchFor } from '../../src/study/search-way.js';
import { runStudy, scoredOf } from '../../src/study/study.js';
import { StudyTable } from '../../src/study/table.js';
import { fakeRow, LAYOUT } from './fake.js';

const VARIABLES = [
  { name: 'mast', kind: 'real' as const, min: 40, max: 100 },
  { name: 'lean', kind: 'real' as const, min: 0, max: 60 },
  { name: 'boat', kind: 'choice' as const, options: 2 },
];
const SOURCE = { file: 'sailor.yaml', text: 'figure: sailor', data: null, marks: {} };
const SETTINGS: StudySettings = {
  figure: 'abc',
  seed: 3,
  samples: 40,
  version: '1',
  scoring: 'kernel',
  search: 'samples',
  backend: null,
};

test('the search is told by how much a dummy misses a want, and that of one scored in short nothing is known', () => {
  const told = (change: (row: ReturnType<typeof fakeRow>) => void) => {
    const row = fakeRow(Float64Array.of(90, 20, 0));
    change(row);
    const table = new StudyTable(3, LAYOUT);
    table.add({ stage: 'evolve', vector: Float64Array.of(90, 20, 0), row });
    return scoredOf(LAYOUT, table, 0).violation;
  };
  // It sticks out by 10 mm, which is one unit; at 20° it is worth 0.51 of the swing.
  const swing = 2 + 2;
  expect(told(() => {})).toBeCloseTo(1, 9);
  expect(
    told((row) => {
      row.met[0] = 0;
      row.numbers[swing] = 0.2;
    }),
  ).toBeCloseTo(1.3, 9);
  expect(
    told((row) => {
      row.met[0] = 0;
      row.numbers[swing] = 0.5;
    }),
  ).toBeCloseTo(1.001, 9);
  expect(
    told((row) => {
      row.met[0] = 0;
      row.numbers[swing] = Number.NaN;
    }),
  ).toBeCloseTo(2, 9);
  expect(
    told((row) => {
      row.numbers[0] = Number.NaN;
    }),
  ).toBe(Number.POSITIVE_INFINITY);
});

const newFolder = () => join(mkdtempSync(join(tmpdir(), 'dummyrun-study-')), 'out');

/** Runs a study, or goes on with it, until it has scored `most` more candidates. */
async function run(path: string, most: number, settings = SETTINGS, broken = -1) {
  const folder = new StudyFolder(path);
  try {
    return await runIn(folder, most, settings, broken);
  } finally {
    folder.close();
  }
}

async function runIn(folder: StudyFolder, most: number, settings: StudySettings, broken: number) {
  const log = resumed(folder, settings)?.log ?? begun(folder, settings, SOURCE);
  const stop = new AbortController();
  let scored = 0;
  const pool = {
    async *run(batch: readonly Float64Array[]): AsyncGenerator<Trial | ScoringFailure> {
      for (const vector of batch) {
        if (scored === most) {
          stop.abort();
          return;
        }
        yield scored++ === broken
          ? new ScoringFailure('the worker hung')
          : { row: fakeRow(vector), failure: null };
      }
    },
  };
  try {
    const told = folder.savedState(log.size)?.told ?? 0;
    const search = new Sampler(VARIABLES, settings.seed, settings.samples ?? 0, told);
    const seen: number[] = [];
    const study = runStudy({ folder, log, search, told, pool, layout: LAYOUT, dims: 3, stop: stop.signal });
    let step = await study.next();
    for (; !step.done; step = await study.next()) seen.push(step.value.size);
    const { table, finished } = step.value;
    return {
      table,
      finished,
      scored,
      seen,
      log: readFileSync(folder.file('unfinished/scored.jsonl'), 'utf8'),
    };
  } finally {
    log.close();
  }
}

test('a study scores all its candidates, once each, in the order of a Sobol sequence', async () => {
  const { table, finished, scored, seen } = await run(newFolder(), 1000);
  expect([finished, scored, table.size]).toEqual([true, 40, 40]);
  expect(seen).toEqual(Array.from({ length: 40 }, (_, i) => i + 1));
  const again = new Sampler(VARIABLES, 3, 40);
  const asked = await again.ask();
  expect(asked?.batch.map((vector) => [...vector])).toEqual(
    Array.from({ length: 40 }, (_, i) => [...table.vector(i)]),
  );
});

test('stopped anywhere, any number of times, it ends with the same record and scores nothing twice', async () => {
  const whole = await run(newFolder(), 1000);
  await fc.assert(
    fc.asyncProperty(fc.array(fc.integer({ min: 0, max: 13 }), { maxLength: 3 }), async (stops) => {
      const path = newFolder();
      let scored = 0;
      for (const most of stops) {
        const part = await run(path, most);
        scored += part.scored;
        expect(part.finished).toBe(false);
        expect(part.table.size).toBe(scored);
      }
      const last = await run(path, 1000);
      expect([last.finished, scored + last.scored]).toEqual([true, 40]);
      expect(last.log).toBe(whole.log);
      expect(last.seen).toEqual(whole.seen);
    }),
    { numRuns: 20 },
  );
});

test('it goes on from a saved state of the search, and without one as well', async () => {
  const settings = { ...SETTINGS, samples: 1200 };
  const whole = await run(newFolder(), 5000, settings);
  const path = newFolder();
  await run(path, 700, settings);
  const folder = new StudyFolder(path);
  // After the first batch; the log holds more, of which the search has not been told.
  folder.saveState(512, 512);
  folder.close();
  const rest = await run(path, 5000, settings);
  expect(rest.log).toBe(whole.log);
  expect(rest.scored).toBe(500);
  expect(rest.table.size).toBe(1200);
});

test('a state saved after candidates that the log has lost is not used', () => {
  const folder = new StudyFolder(newFolder());
  folder.saveState(10, {});
  expect(folder.savedState(9)).toBeNull();
  expect(folder.savedState(10)).toEqual({ told: 10, search: {} });
  folder.close();
});

test('a study that had an end is finished for those who ask for that end, and for those who ask for none; others are told what is there', () => {
  const folder = new StudyFolder(newFolder());
  const asked = { figure: 'abc', seed: 3, version: '1', scoring: 'kernel' };
  const study = {
    finished: true,
    figure: 'Ferry',
    file: 'ferry.yaml',
    sha256: 'abc',
    seed: 3,
    search: 'samples',
    versions: { dummyrun: '1', scoring: 'kernel' },
    works: 2,
  };
  const ended = (samples: number | null) => {
    writeFileSync(folder.file('study.json'), JSON.stringify({ ...study, samples }));
    return (end?: number | null) => finishedBefore(folder, { ...asked, samples: end });
  };
  expect(ended(40)()).toEqual({ works: 2 });
  expect(ended(40)(40)).toEqual({ works: 2 });
  expect(() => ended(40)(null)).toThrow("holds a finished study of 'Ferry' ('ferry.yaml')");
  expect(() => ended(40)(null)).toThrow('it was begun with --samples 40. Start anew without --resume');
  // Null stands for a time.
  expect(ended(null)(null)).toEqual({ works: 2 });
  expect(() => ended(null)(40)).toThrow('it was begun with --for');
  expect(() => finishedBefore(folder, { ...asked, figure: 'def' })).toThrow('the figure file is another');
  expect(() => finishedBefore(folder, { ...asked, scoring: 'another' })).toThrow(
    'an earlier dummyrun has scored it',
  );
  writeFileSync(
    folder.file('study.json'),
    JSON.stringify({ ...study, samples: 40, versions: { dummyrun: '1' } }),
  );
  expect(() => finishedBefore(folder, asked)).toThrow('an earlier dummyrun has scored it');
  writeFileSync(folder.file('study.json'), '{ "finished": true }');
  expect(finishedBefore(folder, asked)).toBeNull();
  folder.close();
});

test('a study that a time should end is not gone on with to a count, and it says so', () => {
  const folder = new StudyFolder(newFolder());
  begun(folder, { ...SETTINGS, samples: null }, SOURCE).close();
  expect(() => resumed(folder, SETTINGS)).toThrow('it was begun with --for.');
  folder.close();
});

test('a state of the search that has been changed by another hand is refused in words', () => {
  const plan = { way: 'evolution', seed: 1, samples: 100 } as const;
  const from = (state: unknown) => () =>
    searchFor(VARIABLES, plan, null, { told: 3, state, record: () => [] });
  for (const state of [
    {},
    null,
    3,
    { batches: [2], sampled: 2, learnt: null },
    { batches: 'many', sampled: 3 },
  ])
    expect(from(state)).toThrow(/search\.json .* is not as this program wrote it\. Delete it/);
  expect(from(null)).toThrow(StudyError);
});

test('a candidate that could not be scored is kept with its reason, and known to be worse than all', async () => {
  const { table, log } = await run(newFolder(), 1000, SETTINGS, 5);
  expect(table.outcome(5)).toBe('not scored');
  expect(scoredOf(LAYOUT, table, 5).violation).toBe(Number.POSITIVE_INFINITY);
  expect(scoredOf(LAYOUT, table, 5).objectives.every(Number.isNaN)).toBe(true);
  expect(log.split('\n')[6]).toContain('the worker hung');
});

test.each([
  [{ ...SETTINGS, seed: 4 }, '--seed 3'],
  [{ ...SETTINGS, samples: 41 }, '--samples 40'],
  [{ ...SETTINGS, figure: 'abd' }, 'the figure file is another, or has changed since'],
  [{ ...SETTINGS, version: '2' }, "begun by version '1'"],
  [{ ...SETTINGS, scoring: 'another' }, 'an earlier dummyrun has scored it, or another build of this one'],
])('%o is another study', async (other, message) => {
  const path = newFolder();
  await run(path, 3);
  await expect(run(path, 3, other)).rejects.toThrow(message);
  // The refusal has not harmed what there was, nor kept the lock.
  expect((await run(path, 1000)).scored).toBe(37);
});

test('a record of other candidates than the search asks for is refused', async () => {
  const path = newFolder();
  await run(path, 3);
  const folder = new StudyFolder(path);
  const log = resumed(folder, SETTINGS)?.log;
  log?.append({
    stage: 'sample',
    vector: Float64Array.of(50, 20, 0),
    row: fakeRow(Float64Array.of(50, 20, 0)),
  });
  log?.close();
  folder.close();
  await expect(run(path, 1000)).rejects.toThrow('Candidate 4');
});
