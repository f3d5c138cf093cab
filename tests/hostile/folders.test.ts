import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, expect, test, vi } from 'vitest';
import { writeCsv } from '../../src/disk/csv.js';
import { writeWhole } from '../../src/disk/files.js';
import { isChartFile } from '../../src/report/charts/study-charts.js';
import { StudyFolder } from '../../src/study/folder.js';
import { StudyLog } from '../../src/study/log.js';
import { endAll, folderWith, runHere, TENT } from '../cli/support.js';

vi.setConfig({ testTimeout: 120_000 });
afterEach(endAll);

const newFolder = () => mkdtempSync(join(tmpdir(), 'dummyrun-folders-'));

test('a maker who has a folder called unfinished keeps what is in it', () => {
  const out = newFolder();
  mkdirSync(join(out, 'unfinished', 'drafts'), { recursive: true });
  writeFileSync(join(out, 'unfinished', 'notes.txt'), 'mine');
  const folder = new StudyFolder(out);
  folder.createLog({}).close();
  folder.saveState(1, {});
  folder.dropUnfinished();
  folder.close();
  expect(readdirSync(join(out, 'unfinished')).sort()).toEqual(['drafts', 'notes.txt']);
});

test('what killed runs left among the unfinished is gone with the rest', () => {
  const out = newFolder();
  mkdirSync(join(out, 'unfinished'));
  for (const name of ['scored.jsonl.part', 'search.json.part', 'lock.4711', 'lock.4711.dead'])
    writeFileSync(join(out, 'unfinished', name), '');
  const folder = new StudyFolder(out);
  folder.createLog({}).close();
  folder.dropUnfinished();
  folder.close();
  expect(readdirSync(out)).toEqual([]);
});

test('among charts, a drawing of the maker is none of ours', () => {
  expect(
    ['boat.svg', 'best.svg', 'trends.svg', 'effects.svg', 'all-dummies.png'].filter(isChartFile),
  ).toEqual([]);
  expect(
    [
      'all-dummies.svg',
      'effects-on.svg',
      'best-causes.svg',
      'trends-of-he-leans-2.svg',
      'best-safe-ranges.svg.part',
    ].map(isChartFile),
  ).toEqual([true, true, true, true, true]);
});

test('a link where our own folder would be is not followed', () => {
  const [out, elsewhere] = [newFolder(), newFolder()];
  symlinkSync(elsewhere, join(out, 'unfinished'));
  expect(() => new StudyFolder(out)).toThrow(/unfinished is a link to elsewhere/);
  expect(readdirSync(elsewhere)).toEqual([]);
  // The folder of the results itself may well be a link: that is the maker's wish.
  symlinkSync(elsewhere, join(out, 'results'));
  new StudyFolder(join(out, 'results')).close();
});

test('a link where a file is written before it is renamed is not followed', async () => {
  const out = newFolder();
  const victim = join(newFolder(), 'precious.txt');
  writeFileSync(victim, 'mine');
  for (const name of ['report.html', 'table.csv', 'scored.jsonl'])
    symlinkSync(victim, join(out, `${name}.part`));
  writeWhole(join(out, 'report.html'), 'report');
  await writeCsv(join(out, 'table.csv'), ['a'], [[1]]);
  StudyLog.create(join(out, 'scored.jsonl'), {}).close();
  expect(readFileSync(victim, 'utf8')).toBe('mine');
  expect(readdirSync(out).sort()).toEqual(['report.html', 'scored.jsonl', 'table.csv']);
});

test('a file that turns out to be no log of ours is left as it was', () => {
  const file = join(newFolder(), 'scored.jsonl');
  writeFileSync(file, 'a diary\nof many lines\n');
  StudyLog.open(file)?.log.close();
  expect(readFileSync(file, 'utf8')).toBe('a diary\nof many lines\n');
});

const SVG = '<svg width="100mm" height="100mm" viewBox="0 0 100 100"><path id="p" d="M0 0H9V9H0Z"/></svg>';
/** Its sides reach 12 mm past the page when it is shut. It has a flag from a drawing. */
const TOO_WIDE = `page: A5
parts:
  - { name: tent, kind: parallel-fold, at: 40, length: 60, glue: [30, 30], widths: [130, 130] }
  - { name: flag, kind: glued-piece, on: tent left, at: [5, 5], outline: { svg: art/flag.svg, path: p } }
`;

test('tune takes drawings along into its folder, whatever the figure file is called, and replaces no figure file', async () => {
  // A line end in the name of the file is none in the remarks of the remedies.
  const name = 'wide\nfigure: bird.yaml';
  const folder = folderWith({ [name]: TOO_WIDE });
  mkdirSync(join(folder, 'art'));
  writeFileSync(join(folder, 'art', 'flag.svg'), SVG);
  const first = await runHere(folder, 'tune', name, '--trials', '60', '--out', 'out');
  expect([first.code, first.err]).toEqual([0, '']);
  const remedy = join(folder, 'out', 'remedy-1.yaml');
  const text = readFileSync(remedy, 'utf8');
  expect(text).toContain('# Remedy 1 for wide figure: bird.yaml');
  expect(readFileSync(join(folder, 'out', 'art', 'flag.svg'), 'utf8')).toBe(SVG);
  expect(readdirSync(folder).sort()).toEqual(['art', name, 'out'].sort());

  const again = await runHere(folder, 'tune', 'out/remedy-1.yaml', '--out', 'out', '--trials', '10');
  expect([again.code, again.err]).toEqual([2, expect.stringContaining('remedy-1.yaml itself lies')]);
  expect(readFileSync(remedy, 'utf8')).toBe(text);
});

test('check does not write poses over the figure file', async () => {
  const folder = folderWith({ 'tent.yaml': TENT });
  const { code, err } = await runHere(folder, 'check', 'tent.yaml', '--poses', './tent.yaml');
  expect([code, err]).toEqual([2, expect.stringContaining('--poses  found the figure file itself')]);
  expect(readFileSync(join(folder, 'tent.yaml'), 'utf8')).toBe(TENT);
});

test.runIf(existsSync('/proc/self'))(
  'sheets that have nowhere to go are refused, not waited for',
  async () => {
    const { code, err } = await runHere(
      folderWith({ 'tent.yaml': TENT }),
      'sheets',
      'tent.yaml',
      '--out',
      '/proc/out',
    );
    expect([code, err]).toEqual([2, expect.stringContaining('no folder can be made there')]);
  },
);

test("a stranger's folder of results is shown, or refused in words", async () => {
  const folder = folderWith({ 'tent.yaml': TENT });
  await runHere(folder, 'explore', 'tent.yaml', '--samples', '40', '--search', 'samples', '--out', 'out');
  const log = join(folder, 'out', 'scored.jsonl');
  const lines = readFileSync(log, 'utf8').trimEnd().split('\n');
  const [, stage, vector, outcome, figures, met, words] = JSON.parse(lines[3]);
  const shown = async (entry: unknown[]) => {
    writeFileSync(log, [...lines.slice(0, 3), JSON.stringify(entry), ''].join('\n'));
    const { code, err } = await runHere(folder, 'show', 'out', '--damaged');
    expect(err).not.toMatch(/fault|\n {4}at /);
    return code;
  };
  // What is no entry ends the log; what is one, but of another figure, is refused.
  expect(await shown([2, { a: 1 }, vector, outcome, figures, met, words])).toBe(0);
  expect(await shown([2, stage, vector, '__proto__', null, met, words])).toBe(0);
  // A dim beyond its range, and an option that there is not.
  expect(await shown([2, stage, [1000, ...vector.slice(1)], outcome, figures, met, words])).toBe(2);
  expect(await shown([2, stage, [...vector.slice(0, -1), 3], outcome, figures, met, words])).toBe(2);
  expect(await shown([2, stage, [...vector, 1], outcome, figures, met, words])).toBe(2);
  expect(await shown([2, stage, vector, outcome, [...figures, 1], met, words])).toBe(2);
});
