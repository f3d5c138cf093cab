import { execFileSync } from 'node:child_process';
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
