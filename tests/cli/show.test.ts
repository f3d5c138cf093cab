import { cpSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeAll, expect, test } from 'vitest';
import { endAll, folderWith, runHere, TENT } from './support.js';

afterEach(endAll);

/** A study that nobody has touched: each test has a copy. */
let studied = '';
beforeAll(async () => {
  studied = folderWith({ 'tent.yaml': TENT });
  await runHere(studied, 'explore', 'tent.yaml', '--samples', '70', '--out', 'out');
});
const withStudy = (): string => {
  const folder = folderWith({});
  cpSync(studied, folder, { recursive: true });
  return folder;
};

test('show writes the very report that explore wrote, without the figure file', async () => {
  const folder = withStudy();
  const path = join(folder, 'out', 'report.html');
  const report = readFileSync(path, 'utf8');
  rmSync(path);
  rmSync(join(folder, 'tent.yaml'));
  const { code, out } = await runHere(folder, 'show', 'out');
  expect([code, out.trim()]).toEqual([0, join('out', 'report.html')]);
  expect(readFileSync(path, 'utf8') === report).toBe(true);
  // Also when nothing tells any more how long the study took.
  rmSync(join(folder, 'out', 'study.json'));
  expect((await runHere(folder, 'show', 'out')).code).toBe(0);
});

test('where there is no finished study it says so, and leaves nothing behind', async () => {
  const folder = folderWith({ 'tent.yaml': TENT });
  mkdirSync(join(folder, 'empty'));
  mkdirSync(join(folder, 'torn'));
  writeFileSync(join(folder, 'torn', 'scored.jsonl'), '{"format":"study 1"}\n');
  // Nor in the figure file itself, which may be given by mistake.
  for (const name of ['nowhere', 'empty', 'torn', 'tent.yaml']) {
    const { code, err } = await runHere(folder, 'show', name);
    expect([code, err]).toEqual([2, expect.stringContaining(`There is no finished study in ${name}.`)]);
  }
});

test('what was measured and has been changed by another hand is not passed off as measured', async () => {
  const folder = withStudy();
  const path = join(folder, 'out', 'sensitivity.json');
  const report = readFileSync(join(folder, 'out', 'report.html'), 'utf8');
  const measured = JSON.parse(readFileSync(path, 'utf8'));
  for (const changed of [{ ...measured, free: [] }, null]) {
    writeFileSync(path, JSON.stringify(changed));
    const { code, err } = await runHere(folder, 'show', 'out');
    expect([code, err]).toEqual([
      2,
      expect.stringContaining('sensitivity.json is not the one that was written'),
    ]);
  }
  // What was scored is as it was, so the rest may be shown; beside the good report, not in its place.
  const shown = await runHere(folder, 'show', 'out', '--damaged');
  expect([shown.code, shown.out]).toEqual([0, `${join('out', 'report-damaged.html')}\n`]);
  expect(shown.err).toContain('This is what is left of a damaged study: sensitivity.json is not');
  expect(readFileSync(join(folder, 'out', 'report.html'), 'utf8') === report).toBe(true);
  expect(readFileSync(join(folder, 'out', 'report-damaged.html'), 'utf8')).toContain(
    'left of a damaged study',
  );
  const made = await runHere(folder, 'sheets', 'out', '--damaged', '--paper', 'A3', '--out', 'sheets');
  expect([made.code, made.err]).toEqual([0, '']);
  expect(made.out).toMatch(/Before you cut\n {2}This is what is left of a damaged study/);
});

test('a study of another version is not shown as if it were of this one', async () => {
  const folder = withStudy();
  const log = join(folder, 'out', 'scored.jsonl');
  writeFileSync(log, readFileSync(log, 'utf8').replace(/"version":"[^"]*"/, '"version":"0.0.1"'));
  const { code, err } = await runHere(folder, 'show', 'out');
  expect([code, err]).toEqual([2, expect.stringContaining("made by version '0.0.1'")]);
});

test.each([
  [['force', 'strain'], /How hard the page turns is not known of \d+: they were scored before it was kept/],
  [['fold length'], /An earlier dummyrun has scored this study/],
])('a study from before %s was judged is shown, and says what it is', async (judged, said) => {
  const folder = withStudy();
  const [log, study] = ['scored.jsonl', 'study.json'].map((name) => join(folder, 'out', name));
  const { wants, limits, ...rest } = JSON.parse(readFileSync(study, 'utf8'));
  const gone = limits.flatMap(({ name }: { name: string }, i: number) => (judged.includes(name) ? [i] : []));
  expect(gone).toHaveLength(judged.length);
  const without = (values: unknown[], from: number) => values.filter((_, i) => !gone.includes(i - from));
  const [heading, ...lines] = readFileSync(log, 'utf8').trim().split('\n').slice(0, -1);
  const rows = lines.map((line) => {
    const [number, stage, vector, outcome, figures, met, words] = JSON.parse(line);
    // The grade came with the force.
    const kept = without(judged.includes('force') ? figures.slice(0, -1) : figures, 2 + 2 * wants.length);
    return JSON.stringify([number, stage, vector, outcome, kept, without(met, wants.length), words]);
  });
  const { scoring, ...old } = JSON.parse(heading);
  writeFileSync(log, [JSON.stringify({ ...old, format: 'study 1' }), ...rows, ''].join('\n'));
  const before = limits.filter((_: unknown, i: number) => !gone.includes(i));
  writeFileSync(study, JSON.stringify({ ...rest, wants, limits: before }));
  rmSync(join(folder, 'out', 'sensitivity.json'));
  const { code, err } = await runHere(folder, 'show', 'out');
  expect([code, err]).toEqual([0, expect.stringContaining('An earlier dummyrun has scored this study')]);
  expect(readFileSync(join(folder, 'out', 'report.html'), 'utf8')).toMatch(said);
  expect(scoring).toMatch(/^[0-9a-f]{64}$/);
});
