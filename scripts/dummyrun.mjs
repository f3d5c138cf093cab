#!/usr/bin/env node
/**
 * What `npx dummyrun` starts: the compiled program, which is set up first where it is missing. It stands here, and not in
 * dist, since npx links to it once and never looks again: a link to a file that is not built yet, or that a later build
 * writes anew without leave to run, would stay broken.
 */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const program = new URL('../dist/cli.js', import.meta.url);
if (!existsSync(program)) {
  const setup = fileURLToPath(new URL('setup.mjs', import.meta.url));
  // What the set-up prints goes to the error output: the program's own may be read by another program.
  const { status } = spawnSync(process.execPath, [setup], { stdio: ['ignore', 2, 2] });
  if (status !== 0) process.exit(status ?? 1);
}
await import(program.href);
