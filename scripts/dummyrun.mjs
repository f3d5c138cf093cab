#!/usr/bin/env node
/**
 * What `npx dummyrun` starts: the compiled program, which is set up first where it is missing or was built from other
 * sources. It stands here, and not in dist, since npx links to it once and never looks again: a link to a file that is
 * not built yet, or that a later build writes anew without leave to run, would stay broken.
 */
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { faultOfBuild, missingPackage } from './built.mjs';

if (missingPackage() !== null || faultOfBuild() !== null) {
  const setup = fileURLToPath(new URL('setup.mjs', import.meta.url));
  // What the set-up prints goes to the error output: the program's own may be read by another program.
  const { status } = spawnSync(process.execPath, [setup], { stdio: ['ignore', 2, 2] });
  if (status !== 0) {
    const runs = missingPackage() === null && faultOfBuild()?.runs === true;
    if (!runs) process.exit(status ?? 1);
    console.error('What was built before runs instead.');
  }
}
try {
  await import(new URL('../dist/cli.js', import.meta.url).href);
} catch (error) {
  // The program says itself what is wrong, once it runs. Before that it may not find, or not be let read, its own files.
  console.error(`The program cannot start: ${error.message}.`);
  process.exitCode = 4;
}
