import { execFileSync, spawnSync } from 'node:child_process';
import { accessSync, constants, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';

const ROOT = join(import.meta.dirname, '../..');
const { bin, version } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8'));

test('npx finds a file that is there before anything is built, and may run it', () => {
  // npx makes its link once: to a file of dist it would break, now and at the next build.
  expect(bin).toEqual({ dummyrun: 'scripts/dummyrun.mjs' });
  accessSync(join(ROOT, bin.dummyrun), constants.X_OK);
  expect(execFileSync(process.execPath, [join(ROOT, bin.dummyrun), '--version'], { encoding: 'utf8' })).toBe(
    `${version}\n`,
  );
});

test.runIf(process.platform === 'linux')(
  'where too few files may be open, it is said in a line, and no figure is judged',
  () => {
    // With 22 it cannot start; with 29 it can, and finds no more of its own files.
    for (const most of [22, 29]) {
      const command = `ulimit -n ${most}; exec "$0" "$@"`;
      const args = [join(ROOT, bin.dummyrun), 'explore', 'examples/heron.yaml', '--out', '/proc/none'];
      const { status, stderr } = spawnSync('sh', ['-c', command, process.execPath, ...args], {
        cwd: ROOT,
        encoding: 'utf8',
      });
      expect([status, stderr]).toEqual([
        4,
        expect.stringMatching(/^The program cannot .*too many.* files.*\n$/),
      ]);
    }
  },
);
