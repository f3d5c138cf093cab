import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeAll, expect, test, vi } from 'vitest';
import { explained } from '../../src/disk/error.js';
import { writeWhole } from '../../src/disk/files.js';
import { compileFigure } from '../../src/figure/figure.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { plainJson, plainLines, plainText } from '../../src/text/plain-text.js';
import { endAll, folderWith, runHere, TENT } from '../cli/support.js';

vi.setConfig({ testTimeout: 120_000, hookTimeout: 120_000 });
afterEach(endAll);

const CLI = join(import.meta.dirname, '../../dist/cli.js');
const ESCAPE = '\u001b]0;owned\u0007\u001b[2J\nWorks: yes';
const TURN = 'e\u202ednats';

let folder = '';
beforeAll(async () => {
  folder = folderWith({ 'tent.yaml': TENT });
  await runHere(folder, 'explore', 'tent.yaml', '--samples', '30', '--search', 'samples', '--out', 'out');
});

/** What no program may print: all that is no letter of its own, but for tabs and line ends between our own lines. */
function mustBePlain(...texts: string[]): void {
  for (const text of texts) expect(text).not.toMatch(/(?![\t\n])[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/u);
}

test('a text that is not ours keeps its letters and loses what steers a terminal or hides', () => {
  expect(plainText(ESCAPE)).toBe('\ufffd]0;owned\ufffd\ufffd[2J\ufffdWorks: yes');
  expect(plainText(TURN)).toBe('e\ufffddnats');
  expect(plainText('a\u2028b\ufeff\ud800')).toBe('a\ufffdb\ufffd\ufffd');
  expect(plainLines('a\r\n\tb\u0085')).toBe('a\r\n\tb\ufffd');
  // Scripts that are spelt with joiners, and letters beyond 16 bits.
  for (const name of ['می\u200cخواهم', '渡し', 'Überfahrt ⛵', '𝕐']) expect(plainText(name)).toBe(name);
});

test('data printed for programs reads back the same, with escapes for what is not shown', () => {
  const data = { name: `${ESCAPE}${TURN}\u009b\u{e0041}`, list: ['渡し'] };
  const text = plainJson(data);
  mustBePlain(text);
  expect(text).toContain('渡し');
  expect(JSON.parse(text)).toEqual(data);
});

test('a piece is named as a part is: at most 60 letters, and none that steer a terminal', () => {
  const refusal = (more: object) => {
    const v = {
      name: 'v',
      kind: 'v-fold',
      at: 60,
      glue: [60, 60],
      panels: [70, 70],
      feet: [40, 40],
      ridge: 30,
    };
    const text = JSON.stringify({ page: 'A5', parts: [{ ...v, ...more }] });
    try {
      compileFigure(parseFigure(text, 'pieces.yaml'));
      return 'none';
    } catch (error) {
      return (error as Error).message;
    }
  };
  expect(refusal({ piece: 'sail' })).toBe('none');
  for (const [name, words] of [
    ['a'.repeat(20_000), 'a name of 1 to 60 characters'],
    [ESCAPE, 'a name without control characters'],
    [TURN, 'a name without control characters'],
  ]) {
    const told = refusal({ piece: name });
    expect(told).toContain(words);
    mustBePlain(told);
    expect(told.length).toBeLessThan(1000);
  }
  // So is the name of a panel or crease on which a part stands.
  expect(refusal({ on: 'b'.repeat(20_000) })).toContain('a name of at most 120 characters');
});

test.skipIf(process.platform === 'win32')(
  'whatever a figure file is called, what is printed is plain lines of ours',
  async () => {
    const name = `${ESCAPE}${TURN}.yaml`.replaceAll('/', '');
    writeFileSync(join(folder, name), TENT);
    const work = [
      ['check', name],
      ['check', name, '--json'],
      ['check', name, `--${ESCAPE}`],
      ['new', `tent${ESCAPE}`, 'x.yaml'],
      ['explore', name, '--samples', '10', '--out', `out ${ESCAPE}`],
      ['show', `no ${ESCAPE}`],
      ['sheets', name, '--set', 'foot=20', '--set', 'side=40', '--out', `sheets ${ESCAPE}`],
    ];
    for (const args of work) {
      const { code, out, err } = await runHere(folder, ...args);
      mustBePlain(out, err);
      expect([args[0], code, `${out}${err}`.length > 0]).toEqual([
        args[0],
        expect.toBeOneOf([0, 1, 2]),
        true,
      ]);
      expect(`${out}${err}`).not.toMatch(/^Works: yes/m);
    }
  },
);

test('what a folder of results says of itself is printed as plain text, too', async () => {
  const theirs = join(folder, 'theirs');
  cpSync(join(folder, 'out'), theirs, { recursive: true });
  const log = join(theirs, 'scored.jsonl');
  const [heading, ...entries] = readFileSync(log, 'utf8').split('\n');
  const version = `${ESCAPE}${'9'.repeat(100_000)}`;
  writeFileSync(log, [JSON.stringify({ ...JSON.parse(heading), version }), ...entries].join('\n'));
  const { code, err } = await runHere(folder, 'show', 'theirs');
  expect([code, err]).toEqual([2, expect.stringContaining('was made by version')]);
  mustBePlain(err);
  expect(err.length).toBeLessThan(500);
});

test('nothing prints but by the one way that makes texts plain', () => {
  const src = join(import.meta.dirname, '../../src');
  const printing = readdirSync(src, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith('.ts'))
    .map((entry) => join(entry.parentPath, entry.name))
    .filter((file) => /\bconsole\.|\b(stdout|stderr)\.write/.test(readFileSync(file, 'utf8')));
  expect(printing).toEqual([join(src, 'cli/print.ts')]);
});

test.runIf(existsSync('/dev/full'))(
  'where what was found cannot be printed, no exit code says that it was',
  () => {
    for (const args of [
      ['check', 'tent.yaml'],
      ['check', 'tent.yaml', '--json'],
      ['--help'],
      ['show', 'out'],
    ]) {
      const shell = spawnSync('sh', ['-c', 'exec "$0" "$@" > /dev/full', process.execPath, CLI, ...args], {
        cwd: folder,
        encoding: 'utf8',
      });
      expect([shell.status, shell.stderr]).toEqual([
        4,
        'What was found cannot be printed: the disk is full.\n',
      ]);
    }
    // What is told beside the results may be lost: the exit code says it, too.
    const shell = spawnSync(
      'sh',
      ['-c', 'exec "$0" "$@" 2> /dev/full', process.execPath, CLI, 'check', 'none.yaml'],
      {
        cwd: folder,
      },
    );
    expect(shell.status).toBe(2);
  },
);

test('a folder in the way of a file is named', async () => {
  const out = 'blocked';
  mkdirSync(join(folder, out, 'report.html.part'), { recursive: true });
  const { code, err } = await runHere(folder, 'explore', 'tent.yaml', '--samples', '10', '--out', out);
  expect([code, err]).toEqual([
    2,
    expect.stringContaining('report.html.part: a folder of that name is in the way'),
  ]);
  // A folder in the place of the file itself, and of one that would be removed.
  mkdirSync(join(folder, out, 'page.html'));
  for (const work of [
    () => writeWhole(join(folder, out, 'page.html'), ''),
    () => rmSync(join(folder, out, 'page.html'), { force: true }),
  ])
    expect(told(work)).toContain('page.html: a folder of that name is in the way');
});

test('a folder that is gone is told apart from one that cannot be made', () => {
  expect(told(() => writeWhole(join(folder, 'gone', 'page.html'), ''))).toContain('the folder is gone');
  if (existsSync('/proc/self'))
    expect(told(() => mkdirSync('/proc/out'))).toContain('no folder can be made there');
});

function told(work: () => void): string {
  try {
    work();
    return '';
  } catch (error) {
    return String(explained(error, 'out'));
  }
}
