import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, expect, test } from 'vitest';
import { endAll, folderWith, run, TENT } from './support.js';

afterEach(endAll);

test('show writes the very report that explore wrote, without the figure file', async () => {
  const folder = folderWith({ 'tent.yaml': TENT });
  await run(folder, 'explore', 'tent.yaml', '--samples', '150', '--out', 'out');
  const path = join(folder, 'out', 'report.html');
  const report = readFileSync(path, 'utf8');
  rmSync(path);
  rmSync(join(folder, 'tent.yaml'));
  const { code, out } = await run(folder, 'show', 'out');
  expect([code, out.trim()]).toEqual([0, join('out', 'report.html')]);
  expect(readFileSync(path, 'utf8') === report).toBe(true);
  // Also when nothing tells any more how long the study took.
  rmSync(join(folder, 'out', 'study.json'));
  expect((await run(folder, 'show', 'out')).code).toBe(0);
});

test('where there is no finished study it says so, and leaves nothing behind', async () => {
  const folder = folderWith({ 'tent.yaml': TENT });
  mkdirSync(join(folder, 'empty'));
  mkdirSync(join(folder, 'torn'));
  writeFileSync(join(folder, 'torn', 'scored.jsonl'), '{"format":"study 1"}\n');
  for (const name of ['nowhere', 'empty', 'torn']) {
    const { code, err } = await run(folder, 'show', name);
    expect([code, err]).toEqual([2, expect.stringContaining(`There is no finished study in ${name}.`)]);
  }
});

test('what was measured and has been changed by another hand is left out, and the rest is shown', async () => {
  const folder = folderWith({ 'tent.yaml': TENT });
  await run(folder, 'explore', 'tent.yaml', '--samples', '60', '--out', 'out');
  const path = join(folder, 'out', 'sensitivity.json');
  const measured = JSON.parse(readFileSync(path, 'utf8'));
  const { global: _, ...without } = measured;
  for (const changed of [
    without,
    { ...measured, free: [] },
    { ...measured, plain: [{ vector: [1] }] },
    null,
  ]) {
    writeFileSync(path, JSON.stringify(changed));
    const shown = await run(folder, 'show', 'out');
    expect([shown.code, shown.err]).toEqual([0, '']);
  }
  const made = await run(folder, 'sheets', 'out', '--out', 'sheets');
  expect([made.code, made.err]).toEqual([0, '']);
  expect(existsSync(join(folder, 'sheets'))).toBe(true);
});

test('a study of another version is not shown as if it were of this one', async () => {
  const folder = folderWith({ 'tent.yaml': TENT });
  await run(folder, 'explore', 'tent.yaml', '--samples', '20', '--out', 'out');
  const log = join(folder, 'out', 'scored.jsonl');
  writeFileSync(log, readFileSync(log, 'utf8').replace(/"version":"[^"]*"/, '"version":"0.0.1"'));
  const { code, err } = await run(folder, 'show', 'out');
  expect([code, err]).toEqual([2, expect.stringContaining("made by version '0.0.1'")]);
});
