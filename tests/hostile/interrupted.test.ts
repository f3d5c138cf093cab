import { fork, spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeAll, expect, test, vi } from 'vitest';
import { endAll, folderWith, run, runHere, started, TENT } from '../cli/support.js';

vi.setConfig({ testTimeout: 180_000, hookTimeout: 180_000 });
afterEach(endAll);

const CLI = join(import.meta.dirname, '../../dist/cli.js');

/** Every file below a folder with what is in it, but for how long the study took. */
function contents(folder: string): Map<string, string> {
  const files = readdirSync(folder, { withFileTypes: true, recursive: true }).filter((entry) =>
    entry.isFile(),
  );
  const paths = files.map((entry) => join(entry.parentPath, entry.name)).sort();
  return new Map(
    paths.map((path) => [
      path.slice(folder.length),
      readFileSync(path, 'latin1')
        .replace(/"timings": \{[^}]*\}/, '')
        .replace(/<dt>time<\/dt><dd>[^<]*<\/dd>/, ''),
    ]),
  );
}

const study = (out: string, workers = 1) => [
  ...['explore', 'tent.yaml', '--samples', '40', '--workers', String(workers), '--resume'],
  ...['--search', 'evolution', '--out', out],
];

let folder = '';
let whole = new Map<string, string>();
let time = 0;
beforeAll(async () => {
  folder = folderWith({ 'tent.yaml': TENT });
  const begun = performance.now();
  await run(folder, ...study('whole'));
  time = performance.now() - begun;
  whole = contents(join(folder, 'whole'));
});

/*
 * A few moments, the same each time as far as the machine lets them be. When this was written, 181 kills at random moments of 40
 * studies, by samples and by evolution, from before the first file to after the last, were resumed to the same bytes.
 */
test('killed twice, a study ends with every byte of one that was not', async () => {
  for (const moment of [0.35, 0.9]) {
    const { child, ended } = started(folder, study('killed', 2));
    setTimeout(() => child.kill('SIGKILL'), moment * time);
    await ended;
  }
  const { code, err } = await runHere(folder, ...study('killed'));
  expect([code, err]).toEqual([0, expect.not.stringMatching(/fault|\n {4}at /)]);
  expect(contents(join(folder, 'killed'))).toEqual(whole);
});

test('show, killed at any moment, leaves the report that was there or the same again, and a folder that is free', async () => {
  const report = readFileSync(join(folder, 'whole', 'report.html'), 'utf8');
  const begun = performance.now();
  await run(folder, 'show', 'whole');
  const span = performance.now() - begun;
  for (const moment of [0.6, 0.95]) {
    const { child, ended } = started(folder, ['show', 'whole']);
    setTimeout(() => child.kill('SIGKILL'), moment * span);
    await ended;
    expect(readFileSync(join(folder, 'whole', 'report.html'), 'utf8') === report).toBe(true);
  }
  expect((await runHere(folder, 'show', 'whole')).code).toBe(0);
  expect(contents(join(folder, 'whole'))).toEqual(whole);
});

// A limit of the shell on the size of files stands for a full disk: both make a write fail in its middle.
test.runIf(process.platform === 'linux')('where there is no more room, what was scored is kept', async () => {
  const command = ['-c', 'ulimit -f 20; exec "$0" "$@"', process.execPath, CLI, ...study('full')];
  const { status, stderr } = spawnSync('sh', command, { cwd: folder, encoding: 'utf8' });
  expect([status, stderr]).toEqual([2, expect.stringContaining('Cannot write full: the file may not grow')]);
  const log = join(folder, 'full', 'unfinished', 'scored.jsonl');
  expect(readFileSync(log, 'utf8').split('\n').length).toBeGreaterThan(10);
  await runHere(folder, ...study('full'));
  expect(contents(join(folder, 'full'))).toEqual(whole);
});

test('a study goes on when nobody reads what it prints any more', async () => {
  const child = spawn(process.execPath, [CLI, ...study('unread')], { cwd: folder });
  child.stdout.destroy();
  child.stderr.destroy();
  expect((await once(child, 'exit'))[0]).toBe(0);
  expect(contents(join(folder, 'unread'))).toEqual(whole);
});

test('what a desk has begun ends as by Ctrl-C when the desk is gone, however it went', async () => {
  // As the desk starts its commands; the desk itself is the command that is up soonest.
  const child = fork(CLI, ['desk', 'tent.yaml', '--no-open'], { cwd: folder, silent: true });
  await once(child.stdout as NonNullable<typeof child.stdout>, 'data');
  child.disconnect();
  expect(await once(child, 'exit')).toEqual([0, null]);
});
