import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { csvParse } from 'd3-dsv';
import { expect, test } from 'vitest';
import { toleranceOf } from '../../src/cli/tolerance.js';
import { compileFigure } from '../../src/figure/figure.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { Scorer } from '../../src/score/scorer.js';
import { onOneCore } from '../support/one-core.js';
import { folderWith, runHere, TENT } from './support.js';

const folder = folderWith({ 'tent.yaml': TENT });
const check = (...args: string[]) => runHere(folder, 'check', 'tent.yaml', ...args);
const BY_MEASURE = TENT.replace('widths: [side, side] }', 'widths: [side, side], glued: by measure }');

/** What the command says and prints as data, of a figure as it starts. */
async function cutOf(text: string, hand = {}) {
  const source = parseFigure(text, 'tent.yaml');
  const figure = compileFigure(source);
  const card = new Scorer(figure).score(figure.start);
  const { words, json } = await onOneCore(() => toleranceOf(source, figure, figure.start, card, hand));
  // The data as a reader of the file gets them.
  return { out: words.join('\n'), tolerance: JSON.parse(JSON.stringify(json)) };
}

test('says in words how many work, what fails, which cuts, how far and which way; and as data the same', async () => {
  const { out, tolerance } = await cutOf(BY_MEASURE, { sigmaMm: 1.2 });
  expect(out).toMatch(
    /^ {2}[\d.]+ % \(\d\d to \d\d %\) of 400 dummies shut and open without a jam; [\d.]+ % \(\d\d to \d\d %\) work: they also do all that is wanted\.$/m,
  );
  expect(out).toMatch(/^ {2}[\d.]+ % +tent is hard to shut$/m);
  expect(out).toMatch(/^ {2}tent, all of it +100 %/m);
  expect(out).toMatch(/^ {2}Desirability to be expected, a dummy that fails counted 0: 0\.\d+\.$/m);
  // 15 N at the edge of an A5 page shut a tent that is some 2.5 mm off.
  expect(out).toMatch(/^ {2}tent: widths left +up to 2\.[45]\d mm +beyond: tent is hard to shut$/m);
  // foot 35, side 80: it stands 80 mm where 40 are wanted, and may reach to the edge of A5, 148 mm (ISO 216).
  expect(out).toMatch(
    /side +40\.0\d mm to 113\.00 mm, now 80\.00 mm +below: misses 'stands'; above: tent left sticks out when shut/,
  );
  // Past 80 mm the want is wholly met, and more of it earns nothing more: a corner.
  expect(out).toMatch(
    /\+1 mm of side +desirability \+0\.00\d \(corner: \+0\.00\d below, 0\.000 above\), stands \+1\.00 mm/,
  );
  expect(tolerance.works.share).toBeLessThan(0.9);
  const { safeRanges, nudges, cuts } = tolerance;
  expect(safeRanges.map(({ dim }: { dim: string }) => dim)).toEqual(['foot', 'side', 'long']);
  expect(safeRanges[2]).toMatchObject({ range: null, reason: 'a choice has no range' });
  // Whether it works is yes or no: that has no slope.
  expect(nudges[1].changes.map(({ score }: { score: string }) => score)).not.toContain('works');
  expect(nudges[1].changes.find(({ score }: { score: string }) => score === 'stands').change).toBeCloseTo(
    1,
    1,
  );
  expect(cuts[0]).toMatchObject({ part: 'tent', field: 'at', unit: 'mm', value: 30 });
});

test('check --tolerance prints it for other hands, too', async () => {
  const { code, out } = await check('--tolerance', '--json', '--sigma-mm', '0.1', '--sigma-degrees', '0');
  expect(code).toBe(0);
  const { works, tolerance } = JSON.parse(out);
  expect(works).toBe(true);
  // Closed on, a tent shuts whatever its sides are off.
  expect(tolerance.works.share).toBe(1);
  expect(tolerance.sigma).toEqual({ mm: 0.1, degrees: 0 });
});

test('a figure that fails as drawn says so, one that cannot be built is not cut', async () => {
  const failing = await check('--tolerance', '--set', 'foot=55', '--set', 'side=100');
  expect(failing.code).toBe(1);
  expect(failing.out).toContain('Cut exactly as drawn it fails, too: tent left sticks out when shut.');
  expect(failing.out).toContain('the figure itself fails: tent left sticks out when shut');
  const refused = await check('--tolerance', '--sigma-mm', '-1');
  expect([refused.code, refused.out]).toEqual([2, '']);
  expect(refused.err).toContain('Give a number from 0 to 10.');
});

test('a figure whose every dim is fixed is cut by hand, too: it has no ranges to walk', async () => {
  const fixed = TENT.replace(/foot: .*/, 'foot: 35')
    .replace(/side: .*/, 'side: 80')
    .replace(/long: .*/, 'long: 40');
  const { out, tolerance } = await cutOf(fixed);
  expect(out).toMatch(/of 400 dummies shut and open/);
  expect(out).not.toMatch(/Safe ranges|Nudges/);
  expect(tolerance).toMatchObject({ safeRanges: [], nudges: [] });
});

test('explore measures indices, robustness, safe ranges and nudges: the same bytes with 1 and 2 workers, and shown again', async () => {
  const common = ['explore', 'tent.yaml', '--samples', '1000', '--search', 'samples'];
  await runHere(folder, ...common, '--workers', '1', '--out', '1');
  // Ended when all was scored and nothing measured, then gone on with: what is scored once need not be scored again.
  mkdirSync(join(folder, '2', 'unfinished'), { recursive: true });
  const scored = readFileSync(join(folder, '1', 'scored.jsonl'), 'utf8')
    .trimEnd()
    .split('\n')
    .slice(0, -1);
  writeFileSync(join(folder, '2', 'unfinished', 'scored.jsonl'), `${scored.join('\n')}\n`);
  expect((await runHere(folder, ...common, '--workers', '2', '--out', '2', '--resume')).code).toBe(0);
  const files = (name: string) => {
    const charts = readdirSync(join(folder, name, 'charts')).map((chart) => join('charts', chart));
    return ['ranking.csv', 'sensitivity.csv', 'sensitivity.json', ...charts.sort()];
  };
  expect(files('1')).toEqual(files('2'));
  for (const file of files('1'))
    expect(readFileSync(join(folder, '1', file), 'utf8'), file).toBe(
      readFileSync(join(folder, '2', file), 'utf8'),
    );

  const rows = csvParse(readFileSync(join(folder, '1', 'sensitivity.csv'), 'utf8'));
  const row = (dim: string, score: string) => rows.find((each) => each.dim === dim && each.score === score);
  // How long the tent is changes nothing but what it does not reach.
  expect(row('long', 'stands')).toMatchObject({ 'total index': '0', 'total low': '0', 'total high': '0' });
  expect(Number(row('side', 'stands')?.['total low'])).toBeGreaterThan(0.6);
  // Nothing is known of a catch where the page never opens.
  expect(row('side', 'catch')).toMatchObject({
    'total index': '',
    reason: expect.stringMatching(/^does not vary; \d+ % of the base points left out, as not computed$/),
  });

  const ranking = csvParse(readFileSync(join(folder, '1', 'ranking.csv'), 'utf8'));
  const cut = ranking.filter(({ robustness }) => robustness !== '');
  expect(cut).toEqual(ranking.slice(0, 8));
  const worth = cut.map((row) => Number(row['expected desirability']));
  expect(worth).toEqual(worth.toSorted((a, b) => b - a));
  // The best has its safe ranges and nudges, checked against a gradient.
  const { local, surrogate, plain } = JSON.parse(readFileSync(join(folder, '1', 'sensitivity.json'), 'utf8'));
  // More than the best only as far as all that is measured takes no more dummies than the study scored.
  expect(local.map(({ candidate }: { candidate: number }) => String(candidate + 1))).toEqual([
    cut[0].candidate,
  ]);
  for (const { safe, nudges } of local) {
    expect(safe[1].range.low.value).toBeGreaterThanOrEqual(40);
    // The tent stands as high as its side is wide.
    const [, , stands] = nudges[1];
    expect(stands).toMatchObject({ verdict: 'agrees' });
    expect(stands.change).toBeCloseTo(1, 1);
  }
  expect(surrogate.heldOut[2].explained).toBeGreaterThan(0.9);
  expect(row('side', 'stands')?.['indices from']).toBe('scoring');
  expect(Number(row('side', 'stands')?.['surrogate explains'])).toBe(surrogate.heldOut[2].explained);
  // 600 runs, less 6 walks of 4 for the screening, are 115 base points of 3 + 2: two plain samples to each.
  expect(plain).toHaveLength(230);
  const names = readdirSync(join(folder, '1', 'charts'));
  expect(names).toEqual(
    expect.arrayContaining(['effects-on-stands.svg', 'best-safe-ranges.svg', 'best-causes.svg']),
  );
  for (const name of names) expect(name).toMatch(/^[a-z0-9-]{1,60}\.svg$/);

  // The report of another day has all of it, too.
  const out = join(folder, '1');
  const before = readFileSync(join(out, 'report.html'), 'utf8');
  expect(before).toContain('How exact it must be cut');
  expect(before).toContain('What fails first when it is cut by hand');
  expect((await runHere(folder, 'show', '1')).code).toBe(0);
  const section = (html: string) => /How exact it must be cut[\s\S]*?<\/section>/.exec(html)?.[0];
  expect(section(readFileSync(join(out, 'report.html'), 'utf8'))).toBe(section(before));
});
