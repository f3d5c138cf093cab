import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { csvParse } from 'd3-dsv';
import { afterEach, beforeAll, expect, test } from 'vitest';
import { explore } from '../../src/cli/explore.js';
import { type Ended, endAll, folderWith, runHere, started, TENT } from './support.js';

afterEach(endAll);

const TABLES = ['candidates.csv', 'ranking.csv', 'sensitivity.csv'];
const RESULTS = [
  'best-1.glb',
  'best-2.glb',
  'best-3.glb',
  'candidates.csv',
  'charts',
  'ranking.csv',
  'report.html',
  'scored.jsonl',
  'sensitivity.csv',
  'sensitivity.json',
  'study.json',
];

const tablesIn = (folder: string) => TABLES.map((name) => readFileSync(join(folder, name), 'utf8'));
const rowsIn = (folder: string, name: string) => csvParse(readFileSync(join(folder, name), 'utf8'));

/** Waits until a run has scored so many candidates. */
async function untilScored(folder: string, count: number): Promise<void> {
  const log = join(folder, 'unfinished', 'scored.jsonl');
  while (!existsSync(log) || readFileSync(log, 'utf8').split('\n').length < count + 2) {
    await new Promise((later) => setTimeout(later, 5));
  }
}

/** A study of one worker that nobody disturbed, for all that is compared with it; written where studies go. */
const folder = folderWith({ 'tent.yaml': TENT });
const results = join(folder, 'results', 'tent');
const COMMON = ['explore', 'tent.yaml', '--samples', '120'];
let whole: Ended;
beforeAll(async () => {
  whole = await runHere(folder, ...COMMON, '--workers', '1');
});

test('explore writes tables whose every row is what the formulas say', async () => {
  const { code, out } = whole;
  expect(code).toBe(0);
  expect(readdirSync(results).sort()).toEqual(RESULTS);

  const rows = rowsIn(results, 'candidates.csv');
  expect(rows.columns.slice(0, 6)).toEqual(['candidate', 'stage', 'works', 'foot', 'side', 'long']);
  expect(rows.map(({ candidate }) => Number(candidate))).toEqual(
    Array.from({ length: 120 }, (_, i) => i + 1),
  );
  for (const row of rows) {
    const [foot, side, long] = [row.foot, row.side, row.long].map(Number);
    expect(foot >= 10 && foot <= 60 && side >= 20 && side <= 140 && [40, 60, 90].includes(long)).toBe(true);
    if (side < foot) {
      // The sides don't reach one another across the open page: it can't move, so nothing was measured.
      expect(row).toMatchObject({ works: 'false', 'stands (mm)': '', 'overhang (mm)': '' });
      expect(row.reason).not.toBe('');
      continue;
    }
    // A side stands square to its page where the ridge is right above its foot, and is highest there; page angles are
    // looked at every 2°. Shut, the ridge lies foot + side from the gutter, and A5 is 148 mm wide (ISO 216).
    expect(Number(row['stands (mm)']) / side).toBeCloseTo(1, 2.5);
    expect(Number(row['overhang (mm)'])).toBeCloseTo(Math.max(0, foot + side - 148), 6);
    expect(row.works).toBe(String(Number(row['stands (mm)']) >= 40 && foot + side <= 148));
    // Of what fails by its motion the search may leave the rest, and then says so.
    const isWhole = row['catch (mm)'] !== '';
    if (!isWhole) expect(row).toMatchObject({ works: 'false', desirability: '', violation: '' });
    expect(row.reason).toBe(
      isWhole ? '' : 'not looked at further, since it fails already by how it moves and lies shut',
    );
  }
  const working = rows.filter(({ works }) => works === 'true').length;
  expect(out.split('\n')[0]).toMatch(new RegExp(`^${working} of 120 dummies work`));

  const ranking = rowsIn(results, 'ranking.csv');
  expect(ranking.map((row) => JSON.stringify(row)).sort()).toEqual(
    rows.map((row) => JSON.stringify(row)).sort(),
  );
  expect(ranking.findIndex(({ works }) => works === 'false')).toBe(working);
  expect(out).toContain(`The best is dummy ${ranking[0].candidate}:`);

  // What is said to show the best again does so.
  const command = out.split('\n').find((line) => line.startsWith('  npx dummyrun check'));
  expect(command).toMatch(/ --rank 1 --open$/);
  const args = (command ?? '').trim().split(' ').slice(2, -1);
  const check = await runHere(folder, ...args, '--json');
  expect(check.code).toBe(0);
  expect(JSON.parse(check.out).desirability).toBeCloseTo(Number(ranking[0].desirability), 8);
  const second = await runHere(folder, ...args.slice(0, -1), '2');
  expect(second.out.split('\n')[0]).toBe(`Rank 2: dummy ${ranking[1].candidate} of its study.`);
  const beyond = await runHere(folder, ...args.slice(0, -1), '121');
  expect([beyond.code, beyond.err.trim()]).toEqual([2, '--rank  found 121; give a place from 1 to 120']);

  const study = JSON.parse(readFileSync(join(results, 'study.json'), 'utf8'));
  expect(study).toMatchObject({ finished: true, seed: 1, samples: 120, scored: 120, works: working });
  expect(study.dims.map(({ name }: { name: string }) => name)).toEqual(['foot', 'side', 'long']);
});

test('the same bytes for a seed with any number of workers, other ones for another seed', async () => {
  await runHere(folder, ...COMMON, '--workers', '3', '--out', '3');
  await runHere(folder, ...COMMON, '--seed', '2', '--out', 'other');
  const one = tablesIn(results);
  expect(tablesIn(join(folder, '3'))).toEqual(one);
  expect(tablesIn(join(folder, 'other'))[0]).not.toBe(one[0]);
  const study = (path: string) => {
    const { timings, ...rest } = JSON.parse(readFileSync(join(path, 'study.json'), 'utf8'));
    return [timings.workers, rest];
  };
  expect(study(results)).toEqual([1, study(join(folder, '3'))[1]]);
});

test('killed twice, it ends with the bytes of a run that never was', async () => {
  const killed = join(folder, 'killed');
  for (const [round, count] of [0, 60].entries()) {
    const { child, ended } = started(folder, [
      ...[...COMMON, '--out', 'killed'],
      ...['--resume', '--workers', String(round + 1)],
    ]);
    await untilScored(killed, count);
    child.kill('SIGKILL');
    await ended;
    // A machine that is slow has written the page of what goes on.
    expect(readdirSync(killed).filter((name) => name !== 'report.html')).toEqual(['unfinished']);
  }
  // The seed and the samples need not be said again.
  expect((await runHere(folder, 'explore', 'tent.yaml', '--out', 'killed', '--resume')).code).toBe(0);
  expect(tablesIn(killed)).toEqual(tablesIn(results));
  expect(readdirSync(killed).sort()).toEqual(RESULTS);

  const again = await runHere(folder, 'explore', 'tent.yaml', '--out', 'killed', '--resume');
  expect([again.code, again.out]).toEqual([0, expect.stringContaining('finished')]);
  expect(readdirSync(killed).sort()).toEqual(RESULTS);
});

test('Ctrl-C ends cleanly with what there is, ranked; a second run is kept out; both go on', async () => {
  const folder = folderWith({ 'tent.yaml': TENT });
  const common = ['explore', 'tent.yaml', '--samples', '20000', '--out', 'out'];
  const { child, ended } = started(folder, common);
  const out = join(folder, 'out');
  await untilScored(out, 20);
  const second = await runHere(folder, ...common);
  expect([second.code, second.out]).toEqual([2, '']);
  expect(second.err).toContain(`Another run (process ${child.pid})`);
  child.kill('SIGINT');
  const first = await ended;
  expect(first.code).toBe(130);
  const scored = rowsIn(out, 'candidates.csv').length;
  expect(scored).toBeGreaterThanOrEqual(20);
  expect(scored).toBeLessThan(20_000);
  expect(rowsIn(out, 'ranking.csv').length).toBe(scored);
  expect(first.out).toContain(`Interrupted after ${scored.toLocaleString('en')} of 20,000 dummies.`);
  expect(JSON.parse(readFileSync(join(out, 'study.json'), 'utf8'))).toMatchObject({
    finished: false,
    scored,
  });

  const other = await runHere(folder, 'explore', 'tent.yaml', '--samples', '300', '--out', 'out', '--resume');
  expect([other.code, other.err]).toEqual([2, expect.stringContaining('--samples 20000')]);
  // Without --resume it starts anew, and replaces its own files only.
  writeFileSync(join(out, 'notes.txt'), 'mine');
  expect((await runHere(folder, 'explore', 'tent.yaml', '--samples', '30', '--out', 'out')).code).toBe(0);
  expect(rowsIn(out, 'candidates.csv').length).toBe(30);
  expect(readdirSync(out).sort()).toEqual([...RESULTS, 'notes.txt'].sort());
});

test('where much cannot be built, it says why, and where little was scored, what was not measured', async () => {
  const folder = folderWith({ 'tent.yaml': TENT.replace('foot: { from: 10,', 'foot: { from: -50,') });
  const { code, out } = await runHere(
    folder,
    'explore',
    'tent.yaml',
    '--samples',
    '60',
    '--search',
    'samples',
  );
  expect(code).toBe(0);
  const rows = rowsIn(join(folder, 'results', 'tent'), 'candidates.csv');
  const unbuilt = rows.filter(({ foot }) => Number(foot) < 0.01).length;
  expect(unbuilt).toBeGreaterThan(20);
  expect(out).toMatch(
    /% of them can't be built at all, most often for this: tent: 'foot' is [−-][\d.]+ here/,
  );
  expect(readFileSync(join(folder, 'results', 'tent', 'report.html'), 'utf8')).toMatch(
    new RegExp(`<li>${unbuilt} dummies: tent: `),
  );
  expect(out).toContain('Which dim desirability hangs on was not measured: too few runs');
  expect(out).toContain(
    'How exact it must be cut was not measured, since fewer than 1,000 dummies were scored',
  );
});

test('where nothing works, it says so, which limit fails most often, and what is wrong with the nearest', async () => {
  const folder = folderWith({
    'tent.yaml': TENT.replace('from: 20, to: 140', 'from: 100, to: 140').replace('from: 10,', 'from: 50,'),
  });
  const { code, out } = await runHere(folder, 'explore', 'tent.yaml', '--samples', '100');
  expect(code).toBe(1);
  expect(out).toContain('None of 100 dummies works.');
  expect(out).toMatch(
    /Of the \d+ dummies spread evenly through the ranges, what fails most often is 'overhang' \(100 %\)\./,
  );
  expect(out).toContain('  npx dummyrun tune tent.yaml\n');
  const rows = rowsIn(join(folder, 'results', 'tent'), 'candidates.csv');
  const reach = (row: (typeof rows)[number]) => Number(row.foot) + Number(row.side);
  const nearest = rows.toSorted((a, b) => reach(a) - reach(b))[0];
  expect(out).toContain(`The nearest is dummy ${nearest.candidate}.`);
  expect(out).toContain(`· overhang: ${(reach(nearest) - 148).toFixed(2)} mm, at most 0.00 mm`);
});

test.each([
  [['explore'], "missing required argument 'figure'"],
  [['explore', 'tent.yaml', '--samples', '1e3'], 'Give a whole number from 1'],
  [['explore', 'tent.yaml', '--seed', '-1'], 'Give a whole number from 0'],
  [['explore', 'tent.yaml', '--sample', '3'], "unknown option '--sample'"],
  [['explore', 'fixed.yaml'], 'fixed.yaml:5:3  dims: found no dim that is free'],
  [['explore', 'tent.yaml', '--out', 'tent.yaml'], 'a file of that name is in the way'],
  [['fold', 'tent.yaml'], "unknown command 'fold'"],
])('%j is refused in words', async (args, message) => {
  const fixed = TENT.replaceAll(/\{ from: (\d+).*/g, '$1').replace('{ choose: [40, 60, 90] }', '40');
  const folder = folderWith({ 'tent.yaml': TENT, 'fixed.yaml': fixed });
  const before = readdirSync(folder);
  const { code, out, err } = await runHere(folder, ...args);
  expect([code, out]).toEqual([2, '']);
  expect(err).toContain(message);
  expect(err).not.toContain('    at ');
  expect(readdirSync(folder)).toEqual(before);
});

test('a dim that is called as a column of the tables is refused', async () => {
  const text = TENT.replace('long:', 'works:').replace('length: long', 'length: works');
  const path = join(folderWith({ 'works.yaml': text }), 'works.yaml');
  await expect(explore(path, { resume: false, open: false })).rejects.toThrow(
    "works.yaml:7:10  dims.works: found the name 'works'",
  );
});

test.runIf(existsSync('/proc/self'))('where no folder can be made, it says so and what to do', async () => {
  const { code, err } = await runHere(
    folderWith({ 'tent.yaml': TENT }),
    'explore',
    'tent.yaml',
    '--out',
    '/proc/out',
  );
  expect([code, err]).toEqual([
    2,
    'Cannot write /proc/out: no folder can be made there. Choose another folder with --out.\n',
  ]);
});

test('--help can be followed, and is no mistake', async () => {
  const folder = folderWith({});
  for (const args of [['--help'], ['check', '--help']]) {
    const { code, out } = await runHere(folder, ...args);
    expect(code).toBe(0);
    expect(out).toContain('Usage: dummyrun');
  }
  expect((await runHere(folder, 'explore', '--help')).out).toMatch(/Example:\n {2}npx dummyrun explore /);
});
