import { appendFileSync, mkdtempSync, readFileSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type Entry, StudyLog } from '../../src/study/log.js';

const path = () => join(mkdtempSync(join(tmpdir(), 'dummyrun-log-')), 'scored.jsonl');
const HEADING = { seed: 7 };

const entry = (value: number, reason = ''): Entry => ({
  stage: 'sample',
  vector: Float64Array.of(value, 0.1 + 0.2),
  row: {
    outcome: 'fails',
    numbers: Float64Array.of(value / 3 + 0, Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY),
    met: Uint8Array.of(0, 1),
    words: ['', reason],
  },
});

function reopened(file: string): StudyLog {
  const opened = StudyLog.open(file);
  if (opened === null) throw new Error('there should be a log');
  expect(opened.heading).toEqual(HEADING);
  return opened.log;
}

test('entries come back bit by bit, NaN and infinities too, in one run and in the next', () => {
  fc.assert(
    fc.property(
      fc.array(
        fc.tuple(fc.double({ noNaN: true, noDefaultInfinity: true }), fc.string({ unit: 'grapheme' })),
        { maxLength: 20 },
      ),
      (rows) => {
        const file = path();
        const log = StudyLog.create(file, HEADING);
        // Dims are finite, and −0 never gets into a row: see `rowOf`.
        const entries = rows.map(([value, reason]) => entry(value + 0, reason));
        for (const each of entries) log.append(each);
        expect(entries.map((_, i) => log.at(i))).toEqual(entries);
        log.close();
        const again = reopened(file);
        expect(again.size).toBe(entries.length);
        expect(entries.map((_, i) => again.at(i))).toEqual(entries);
        again.close();
      },
    ),
    { numRuns: 30 },
  );
});

test('killed at any byte, it holds all whole entries and goes on as if never cut', () => {
  const file = path();
  const log = StudyLog.create(file, HEADING);
  for (let i = 0; i < 3; i++) log.append(entry(i, 'ä€'));
  log.close();
  const whole = readFileSync(file);
  const ends = [...whole.keys()].filter((i) => whole[i] === 10).map((i) => i + 1);
  for (let length = ends[0]; length <= whole.length; length++) {
    writeFileSync(file, whole);
    truncateSync(file, length);
    const cut = reopened(file);
    expect(cut.size).toBe(ends.filter((end) => end <= length).length - 1);
    while (cut.size < 3) cut.append(entry(cut.size, 'ä€'));
    cut.close();
    expect(readFileSync(file)).toEqual(whole);
  }
});

test('a block of zeros, as a power cut leaves it, and what follows it are dropped', () => {
  const file = path();
  const log = StudyLog.create(file, HEADING);
  log.append(entry(1));
  log.close();
  const whole = readFileSync(file);
  appendFileSync(file, Buffer.concat([Buffer.alloc(64), Buffer.from('\n[1,"late"]\n')]));
  const again = reopened(file);
  expect(again.size).toBe(1);
  again.cut();
  again.close();
  expect(readFileSync(file)).toEqual(whole);
});

test('lines longer than what is read at once are read', () => {
  const file = path();
  const log = StudyLog.create(file, HEADING);
  const long = entry(1, 'x'.repeat(3_000_000));
  log.append(long);
  log.append(entry(2));
  log.close();
  const again = reopened(file);
  expect([again.at(0), again.at(1)]).toEqual([long, entry(2)]);
  again.close();
});

test('no log, and a heading cut short, are nothing to go on with', () => {
  const file = path();
  expect(StudyLog.open(file)).toBeNull();
  writeFileSync(file, '{"seed"');
  expect(StudyLog.open(file)).toBeNull();
});
