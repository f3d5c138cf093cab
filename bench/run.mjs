#!/usr/bin/env node
/**
 * Runs the benches, one after the other, each in a process of its own:
 *
 *   npm run bench                      all of them (some minutes)
 *   npm run bench -- scoring search    some of them
 *
 * `report-page.mjs` needs a browser and the report of a study, `desk-drag.mjs` a browser: each is run by itself.
 */
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const BENCHES = [
  'scoring',
  'in-short',
  'panels',
  'rigid-body',
  'workers',
  'candidates',
  'sensitivity',
  'hand-model',
  'search',
  'queue',
];

const asked = process.argv.slice(2);
const unknown = asked.find((name) => !BENCHES.includes(name));
if (unknown !== undefined) {
  console.error(`No bench is called '${unknown}'; there are: ${BENCHES.join(', ')}.`);
  process.exit(2);
}
for (const name of asked.length > 0 ? asked : BENCHES) {
  console.log(`\n${name}`);
  const { status } = spawnSync(process.execPath, [fileURLToPath(new URL(`${name}.mjs`, import.meta.url))], {
    stdio: 'inherit',
  });
  if (status !== 0) process.exit(status ?? 1);
}
