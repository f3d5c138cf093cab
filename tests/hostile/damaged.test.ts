import { execFileSync, spawnSync } from 'node:child_process';
import {
  chmodSync,
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import * as z from 'zod';
import { readJson } from '../../src/disk/read-json.js';
import { version } from '../../src/disk/root.js';
import { finishedIn } from '../../src/study/begin.js';
import { endAll, folderWith, runHere, TENT } from '../cli/support.js';

vi.setConfig({ testTimeout: 120_000, hookTimeout: 120_000 });
afterAll(endAll);

/** A finished study, and a place for copies of it. */
let folder = '';
let good = '';
let log = '';
beforeAll(async () => {
  folder = folderWith({ 'tent.yaml': TENT });
  good = join(folder, 'good');
  await runHere(folder, 'explore', 'tent.yaml', '--samples', '60', '--search', 'samples', '--out', 'good');
  log = readFileSync(join(good, 'scored.jsonl'), 'utf8');
});

let copies = 0;
function copyWith(record: string | Buffer): string {
  const copy = join(folder, `copy-${++copies}`);
  cpSync(good, copy, { recursive: true });
  writeFileSync(join(copy, 'scored.jsonl'), record);
  return copy;
}

/** What is wrong with a study of which this is the record; '' for nothing, null where there is no study. */
function damageOf(record: string | Buffer): string | null {
  const copy = join(folder, 'copy');
  if (!existsSync(copy)) mkdirSync(copy);
  for (const name of ['study.json', 'sensitivity.json']) cpSync(join(good, name), join(copy, name));
  writeFileSync(join(copy, 'scored.jsonl'), record);
  const found = finishedIn(copy, version());
  found?.log.close();
  return found === null ? null : (found.damage ?? '');
}

describe('a part of a study is not taken for the whole', () => {
  test('the whole is whole', () => {
    expect(damageOf(log)).toBe('');
  });

  test('cut short anywhere, it is damaged or none', () => {
    const bytes = Buffer.from(log);
    // At each end of a line, beside it, and at places in between.
    const ends = [...bytes.keys()]
      .filter((i) => bytes[i] === 10)
      .filter((_, line) => line % 6 < 2)
      .flatMap((i) => [i, i + 1, i + 2]);
    const between = Array.from({ length: 20 }, (_, i) => Math.floor(((i + 0.5) / 20) * bytes.length));
    for (const length of [...ends, ...between].filter((length) => length < bytes.length))
      expect([length, damageOf(bytes.subarray(0, length))]).not.toEqual([length, '']);
  });

  test('a digit, a line, or the order of two changed, or more behind it, is damage', () => {
    const lines = log.trimEnd().split('\n');
    const joined = (changed: string[]) => `${changed.join('\n')}\n`;
    const swapped = lines.toSpliced(3, 2, lines[4], lines[3]);
    const digit = lines.toSpliced(5, 1, lines[5].replace(/(\d\.\d)\d/, '$10'));
    const renumbered = lines
      .toSpliced(4, 1)
      .map((line, i) => (i >= 4 && line.startsWith('[') ? line.replace(/^\[\d+/, `[${i - 1}`) : line));
    for (const changed of [swapped, digit, renumbered, lines.toSpliced(-1, 1), [...lines, lines[1]]])
      expect(damageOf(joined(changed))).not.toBe('');
    expect(damageOf(joined(lines.slice(0, 31)))).toBe('of 60 dummies 30 can be read');
    expect(damageOf(joined(renumbered))).toBe('of 60 dummies 59 can be read');
    expect(damageOf(joined(digit))).toBe('scored.jsonl has been changed since it was written');
  });

  test('a study of before there was a last line is whole if it has as many dummies as study.json says', () => {
    const old = log.replace('"study 2"', '"study 1"').trimEnd().split('\n').slice(0, -1);
    expect(damageOf(`${old.join('\n')}\n`)).toBe('');
    expect(damageOf(`${old.slice(0, 41).join('\n')}\n`)).toBe('of 60 dummies 40 can be read');
    // JSON has numbers that no figure file can hold.
    expect(damageOf(log.replace('"grammage":240', '"grammage":1e999'))).toBeNull();
    // A new one that has lost its last line is not passed off as an old one.
    expect(damageOf(log.slice(0, log.indexOf('{"end"')))).toMatch(/does not say how many dummies there were/);
  });

  test('show and sheets refuse it; asked for, they give what is left as what it is', async () => {
    const copy = copyWith(`${log.split('\n').slice(0, 21).join('\n')}\n`);
    const before = readdirSync(copy).sort();
    for (const args of [
      ['show', copy],
      ['sheets', copy],
    ]) {
      const { code, err } = await runHere(folder, ...args);
      expect([code, err]).toEqual([2, expect.stringContaining('is damaged: of 60 dummies 20 can be read')]);
    }
    expect(readdirSync(copy).sort()).toEqual(before);
    const { code, err } = await runHere(folder, 'show', copy, '--damaged');
    expect([code, err]).toEqual([0, expect.stringContaining('of 60 dummies 20 can be read')]);
    expect(readdirSync(copy).sort()).toEqual([...before, 'report-damaged.html'].sort());
    const made = await runHere(folder, 'sheets', copy, '--damaged', '--out', 'sheets');
    expect(made.out).toContain('of what is left of its study');
    expect(made.out).toContain('  This is what is left of a damaged study: of 60 dummies 20 can be read.');
  });
});

describe.skipIf(process.platform === 'win32')(
  'what is no file in the place of one is refused, not waited for',
  () => {
    const pipe = (path: string) => execFileSync('mkfifo', [path]);
    const device = (path: string) => symlinkSync('/dev/zero', path);
    const inPlace = (name: string, put: (path: string) => void) => {
      const copy = copyWith(log);
      mkdirSync(join(copy, 'unfinished'), { recursive: true });
      rmSync(join(copy, name), { force: true });
      put(join(copy, name));
      return copy;
    };
    test.each([
      ['scored.jsonl', pipe, 'show', 'is no plain file'],
      ['scored.jsonl', device, 'sheets', 'is no plain file'],
      ['unfinished/lock', pipe, 'show', 'is no plain file'],
      ['unfinished/lock', device, 'show', 'is no plain file'],
      ['unfinished/scored.jsonl', pipe, 'explore', 'is no plain file'],
      ['sensitivity.json', pipe, 'sheets', 'is not the one that was written'],
    ])('in place of %s', async (name, put, command, told) => {
      const copy = inPlace(name, put);
      const { code, out, err } =
        command === 'explore'
          ? await runHere(folder, 'explore', 'tent.yaml', '--resume', '--out', copy)
          : await runHere(folder, command, copy);
      expect([code, out, err]).toEqual([2, '', expect.stringContaining(told)]);
    });

    test('of what a study can do without nothing is said', () => {
      for (const put of [pipe, device]) {
        const copy = inPlace('study.json', put);
        expect(readJson(join(copy, 'study.json'), z.unknown())).toBeNull();
        const found = finishedIn(copy, version());
        found?.log.close();
        expect(found?.damage).toBeNull();
      }
    });

    test('a file without end is read no further than a file of its kind may go', () => {
      const copy = copyWith(log);
      // It takes no room on the disk, and would take all memory: a line longer than any, a file of JSON larger than any.
      for (const name of ['study.json', 'scored.jsonl']) truncateSync(join(copy, name), 40 * 2 ** 30);
      const found = finishedIn(copy, version());
      found?.log.close();
      expect(found?.damage).toBe('scored.jsonl has been changed since it was written');
      expect(readJson(join(copy, 'study.json'), z.unknown())).toBeNull();
    });
  },
);

// Root may write anywhere; so it becomes somebody else, whom the folder is not.
const uid = process.getuid?.() === 0 ? 65534 : undefined;
test.skipIf(process.platform === 'win32')('sheets of a study on a read-only disk go elsewhere', () => {
  const readOnly = mkdtempSync(join(tmpdir(), 'dummyrun-read-only-'));
  const elsewhere = mkdtempSync(join(tmpdir(), 'dummyrun-elsewhere-'));
  cpSync(good, join(readOnly, 'study'), { recursive: true });
  for (const path of [join(readOnly, 'study'), readOnly]) chmodSync(path, 0o555);
  chmodSync(elsewhere, 0o777);
  const cli = join(import.meta.dirname, '../../dist/cli.js');
  const args = [cli, 'sheets', join(readOnly, 'study'), '--paper', 'A3', '--out', join(elsewhere, 'sheets')];
  const { status, stderr } = spawnSync(process.execPath, args, { encoding: 'utf8', uid, cwd: elsewhere });
  expect([status, stderr]).toEqual([0, '']);
  expect(existsSync(join(elsewhere, 'sheets'))).toBe(true);
  const shown = spawnSync(process.execPath, [cli, 'show', join(readOnly, 'study')], {
    encoding: 'utf8',
    uid,
  });
  expect([shown.status, shown.stderr]).toEqual([2, expect.stringContaining('Cannot write')]);
  for (const path of [readOnly, join(readOnly, 'study')]) chmodSync(path, 0o755);
});
