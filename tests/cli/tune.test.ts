import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { csvParse } from 'd3-dsv';
import { afterEach, beforeAll, expect, test, vi } from 'vitest';
import { BREAKS, brokenText } from '../broken/breaks.js';
import { type Ended, endAll, folderWith, runHere, started } from './support.js';

afterEach(endAll);

/** Shut, its sides reach 30 + 130 mm from the gutter; a leaf of A5 is 148 mm wide. */
const TOO_WIDE = `page: A5
parts:
  - { name: tent, kind: parallel-fold, at: 40, length: 60, glue: [30, 30], widths: [130, 130] }
wants:
  - { name: stands, kind: rise, panel: tent left, least: 40 }
`;

const broken = (name: string): string => {
  const found = BREAKS.find(({ file }) => file.includes(name));
  if (found === undefined) throw new Error(`no broken figure ${name}`);
  return brokenText(found);
};

/** With its sides held, only its feet can free it. */
const SIDES_HELD = ['--hold', 'tent.widths.0', '--hold', 'tent.widths.1'];

/** One run that nobody disturbed, for all that is said of it; written where remedies go. */
const folder = folderWith({ 'wide.yaml': TOO_WIDE });
const REMEDIES = join('results', 'wide', 'remedies');
let whole: Ended;
beforeAll(async () => {
  whole = await runHere(folder, 'tune', 'wide.yaml');
});

test('says what is wrong, writes each remedy, proved, with the list of changes', async () => {
  const { code, out } = whole;
  expect(code).toBe(0);
  expect(out).toMatch(/What is wrong, in the order.*\n {2}1\. Overhang: 12\.00 mm/);
  expect(out).toContain('1. tent.');
  const results = join(folder, REMEDIES);
  const remedies = readdirSync(results).filter((name) => name.startsWith('remedy-'));
  expect(remedies.length).toBeGreaterThan(1);
  for (const name of remedies) expect((await runHere(folder, 'check', join(REMEDIES, name))).code).toBe(0);
  const rows = csvParse(readFileSync(join(results, 'changes.csv'), 'utf8'));
  expect(new Set(rows.map(({ file }) => file))).toEqual(new Set(remedies));
  // 18 + 130 mm is the very edge of the leaf, over which every other hand-cut side sticks out: half a millimetre less is taken.
  expect(rows[0]).toMatchObject({ remedy: '1', from: '30', to: '17.5', unit: 'mm' });
  expect(out).toMatch(
    /Cut by hand \(errors of 0\.3 mm and 0\.3° by standard deviation\), 3\d of 40 dummies work\. As drawn tent\.glue\.0 30 → 18 mm .* would do, but then (1[5-9]|2[0-5]) of 40/,
  );
  expect(existsSync(join(results, 'unfinished'))).toBe(false);
});

test('--json prints what tune.json holds', async () => {
  const { out } = await runHere(folder, 'tune', 'wide.yaml', ...SIDES_HELD, '--json', '--out', 'here');
  const json = JSON.parse(out);
  expect(json).toEqual(JSON.parse(readFileSync(join(folder, 'here', 'tune.json'), 'utf8')));
  expect(json).toMatchObject({ format: 'tune 1', works: false, finished: true });
  expect(json.remedies[0]).toMatchObject({ cost: { price: 1, amount: 12 }, scorecard: { works: true } });
});

test('a figure that works has nothing to free; one that nothing frees says what stands in the way', async () => {
  const folder = folderWith({ 'fine.yaml': TOO_WIDE.replaceAll('130', '80'), 'wide.yaml': TOO_WIDE });
  const fine = await runHere(folder, 'tune', 'fine.yaml');
  expect([fine.code, fine.out]).toEqual([0, 'fine works as it is: there is nothing to free.\n']);
  const held = await runHere(folder, 'tune', 'wide.yaml', '--hold', 'tent');
  expect(held.code).toBe(1);
  expect(held.out).toMatch(/No remedy was found[\s\S]*still stands in the way:\n {2}· overhang: 12\.00 mm/);
});

test('arithmetic that gives no number as the figure starts is freed by what it follows from', async () => {
  const text = TOO_WIDE.replace('parts:', 'dims:\n  a: { from: -10, to: 5 }\n  foot: sqrt(a) + 30\nparts:')
    .replace('[30, 30]', '[foot, foot]')
    .replaceAll('130', '80');
  const { code, out } = await runHere(folderWith({ 'rooted.yaml': text }), 'tune', 'rooted.yaml');
  expect(code).toBe(0);
  expect(out).toContain("1. It cannot be built: the arithmetic of dim 'foot' gives no number here");
  expect(out).toMatch(/1\. a −2\.5 → 0/);
});

test('--keep-glued offers only what can be done to a finished dummy', async () => {
  const mast = `page: A5
parts:
  - { name: sail, kind: v-fold, at: 120, glue: [60, 60], panels: [68, 68], feet: [40, 40], ridge: 200 }
`;
  const folder = folderWith({ 'mast.yaml': mast, 'roof.yaml': broken('15-roof') });
  // A ridge can be cut shorter; a foot that is glued elsewhere would have to come off.
  const trimmed = await runHere(folder, 'tune', 'mast.yaml', '--trials', '60', '--keep-glued');
  expect(trimmed.code).toBe(0);
  expect(trimmed.out).toMatch(/1\. sail\.ridge 200 → \d/);
  expect((await runHere(folder, 'tune', 'roof.yaml', '--trials', '60', '--keep-glued')).code).toBe(1);
  expect((await runHere(folder, 'tune', 'roof.yaml', '--trials', '60')).code).toBe(0);
});

test.each([
  [['--hold', 'tant'], '--hold'],
  [['--price', 'tent'], "such as 'mast=3'"],
  [['--price', 'tent=-1'], "such as 'mast=3'"],
  [['--price', 'tant=2'], '--price'],
  [['--trials', 'many'], 'whole number'],
])('%j is refused in words', async (args, message) => {
  const { code, err } = await runHere(folderWith({ 'wide.yaml': TOO_WIDE }), 'tune', 'wide.yaml', ...args);
  expect(code).toBe(2);
  expect(err).toContain(message);
});

test('drawings go along with the remedies, since a figure file looks for them beside itself', async () => {
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="30mm" height="20mm" viewBox="0 0 30 20"><path id="flag" d="M0 20 L30 20 L30 0 L0 0 Z"/></svg>`;
  const text = `${TOO_WIDE.replace(
    'wants:',
    '  - { name: flag, kind: glued-piece, on: tent left, at: [5, 5], outline: { svg: art/flag.svg, path: flag } }\nwants:',
  )}`;
  const folder = folderWith({ 'wide.yaml': text });
  const args = ['tune', 'wide.yaml', ...SIDES_HELD];
  mkdirSync(join(folder, 'art'));
  writeFileSync(join(folder, 'art', 'flag.svg'), svg);
  expect((await runHere(folder, ...args, '--out', 'out')).code).toBe(0);
  expect(readFileSync(join(folder, 'out', 'art', 'flag.svg'), 'utf8')).toBe(svg);
  expect((await runHere(folder, 'check', 'out/remedy-1.yaml')).code).toBe(0);

  // A drawing that was changed goes along again; but where tune never wrote, one of that name is the maker's.
  const wider = svg.replace('L30 20 L30 0', 'L29 20 L29 0');
  writeFileSync(join(folder, 'art', 'flag.svg'), wider);
  expect((await runHere(folder, ...args, '--out', 'out')).code).toBe(0);
  expect(readFileSync(join(folder, 'out', 'art', 'flag.svg'), 'utf8')).toBe(wider);
  mkdirSync(join(folder, 'mine', 'art'), { recursive: true });
  writeFileSync(join(folder, 'mine', 'art', 'flag.svg'), 'mine');
  const refused = await runHere(folder, ...args, '--out', 'mine');
  expect(refused.code).toBe(2);
  expect(refused.err).toContain('--out  found mine, where another drawing is called art/flag.svg');
  expect(readFileSync(join(folder, 'mine', 'art', 'flag.svg'), 'utf8')).toBe('mine');
  expect(existsSync(join(folder, 'mine', 'remedy-1.yaml'))).toBe(false);
});

test('killed at any moment, it goes on to the same remedies, with any number of workers; but not with other options', async () => {
  const args = ['tune', 'wide.yaml', '--out', 'killed', '--resume'];
  const { child, ended } = started(folder, [...args, '--workers', '1']);
  await untilScored(join(folder, 'killed'), 60);
  child.kill('SIGKILL');
  await ended;
  // A run that was begun with other options is another one, and not gone on with.
  const other = await runHere(folder, ...args, '--keep-glued');
  expect([other.code, other.err]).toEqual([2, expect.stringContaining('is another one')]);
  expect((await runHere(folder, ...args, '--workers', '2')).code).toBe(0);
  const files = (name: string) => readdirSync(join(folder, name)).sort();
  expect(files('killed')).toEqual(files(REMEDIES));
  for (const name of files(REMEDIES)) {
    const read = (out: string) => readFileSync(join(folder, out, name), 'utf8').replaceAll(out, '…');
    expect(read('killed')).toBe(read(REMEDIES));
  }
});

test('Ctrl-C keeps and tells what came nearest, and --resume goes on from there', async () => {
  const folder = folderWith({ 'roof.yaml': broken('15-roof') });
  // The tent that stops it is held, so that the search goes on and on.
  const args = ['roof.yaml', '--hold', 'shed', '--trials', '100000', '--out', 'out', '--workers', '1'];
  const before = process.listeners('SIGINT');
  const running = runHere(folder, 'tune', ...args);
  await untilScored(join(folder, 'out'), 30);
  // As the system would do at Ctrl-C, but for the handlers that are not the command's.
  for (const handler of process.listeners('SIGINT')) if (!before.includes(handler)) handler('SIGINT');
  const { code, out, err } = await running;
  expect(code).toBe(130);
  expect(err).toContain('Ending: what was found so far is written. Ctrl-C again ends at once.');
  expect(err).toContain('To go on with it, give the same command with --resume.');
  const told = JSON.parse(readFileSync(join(folder, 'out', 'tune.json'), 'utf8'));
  expect(told).toMatchObject({ finished: false, works: false, nearest: { scorecard: { works: false } } });
  expect(told.tried).toBeGreaterThanOrEqual(30);
  expect(out).toContain('No remedy was found');
  expect(existsSync(join(folder, 'out', 'remedies.html'))).toBe(true);
  expect(existsSync(join(folder, 'out', 'unfinished'))).toBe(true);

  const more = args.map((arg) => (arg === '100000' ? String(told.tried + 5) : arg));
  const resumed = await runHere(folder, 'tune', ...more, '--resume', '--json');
  expect(resumed.code).toBe(1);
  expect(resumed.err).not.toContain('nothing to go on with');
  expect(JSON.parse(resumed.out)).toMatchObject({ tried: told.tried + 5, finished: false });
});

/** Waits until a run has kept so many scores. */
async function untilScored(out: string, count: number): Promise<void> {
  const log = join(out, 'unfinished', 'scored.jsonl');
  await vi.waitUntil(() => existsSync(log) && readFileSync(log, 'utf8').split('\n').length > count + 1, {
    timeout: 60_000,
    interval: 20,
  });
}
