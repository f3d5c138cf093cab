// npm run mutate [-- WORD]: changes one formula at a time, as tests/mutations.mjs lists them, and runs the tests that concern
// it. A change that no test notices survives: then a test is missing. With a word, only changes of files with it in the path.
//
// The change is made in what is loaded, never in a file, so that it may be stopped at any time.
//
// Mutation testers that generate their changes don't fit: they leave numbers alone (a weight, a divisor, a slope), and make
// thousands of changes of which a list can't be kept.
import { fork } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { dirname, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { startVitest } from 'vitest/node';
import { MUTATIONS } from '../tests/mutations.mjs';

const SELF = fileURLToPath(import.meta.url);
const ROOT = resolve(dirname(SELF), '..');
/** A change may make a loop endless: after so many seconds of one's own tests it counts as noticed. */
const PATIENCE = 300;
/** Runs at a time: more than these only wait for memory. */
const MOST_AT_ONCE = 4;

const TOLD = {
  passed: 'SURVIVED',
  failed: 'noticed ',
  hangs: 'hangs   ',
  broken: 'NO CODE ',
  unused: 'UNUSED  ',
};

const [, , word = '', single] = process.argv;
const changes = MUTATIONS.flatMap(({ file, tests, changes: pairs }) =>
  pairs.map(([from, to]) => ({ file, tests, from, to })),
).filter(({ file }) => file.includes(word));

if (single !== undefined) process.send(await runTests(changes[Number(single)]), () => process.exit());
else process.exitCode = await runAll();

/** All changes, as many at a time as there are cores. @returns the exit code */
async function runAll() {
  const faults = faultsOfList();
  if (faults.length > 0) {
    console.error(faults.join('\n'));
    return 2;
  }
  const started = Date.now();
  const plain = await inProcess(-1);
  if (plain !== 'passed') {
    console.error(`The tests don't pass as they are (${plain}): mend that first.`);
    return 2;
  }
  const survived = [];
  let next = 0;
  const lane = async () => {
    while (next < changes.length) {
      const at = next++;
      const outcome = await inProcess(at);
      const { file, from, to } = changes[at];
      console.log(`${TOLD[outcome]} ${file}: ${oneLine(from)}  →  ${oneLine(to)}`);
      if (outcome !== 'failed' && outcome !== 'hangs') survived.push(at);
    }
  };
  await Promise.all(Array.from({ length: Math.min(MOST_AT_ONCE, availableParallelism()) }, lane));
  const minutes = ((Date.now() - started) / 60_000).toFixed(1);
  console.log(`${changes.length} changes, ${survived.length} survived, ${minutes} minutes`);
  return survived.length > 0 ? 1 : 0;
}

function oneLine(text) {
  return text.replace(/\s+/g, ' ');
}

/** What of the list no longer fits the code. */
function faultsOfList() {
  if (changes.length === 0) return [`tests/mutations.mjs: no file in the list has '${word}' in its path`];
  const faults = [];
  for (const { file, tests, from, to } of changes) {
    const say = (fault) => faults.push(`tests/mutations.mjs: ${file}: ${fault}`);
    for (const test of tests) if (!existsSync(resolve(ROOT, test))) say(`there is no ${test}`);
    if (!existsSync(resolve(ROOT, file))) say('there is no such file');
    else {
      const times = readFileSync(resolve(ROOT, file), 'utf8').split(from).length - 1;
      if (times !== 1) say(`'${oneLine(from)}' is found ${times} times; it must be found once`);
    }
    if (from === to) say(`'${oneLine(from)}' is changed to itself`);
  }
  return [...new Set(faults)];
}

/** Runs the tests of one change in a process of its own; −1: those of all changes, with nothing changed. */
function inProcess(at) {
  return new Promise((done) => {
    const child = fork(SELF, [word, String(at)], { stdio: ['ignore', 'ignore', 'inherit', 'ipc'] });
    let outcome = 'broken';
    const limit = at < 0 ? 10 * PATIENCE : PATIENCE;
    const timer = setTimeout(() => {
      outcome = 'hangs';
      child.kill('SIGKILL');
    }, 1000 * limit);
    child.on('message', (message) => {
      outcome = message;
    });
    child.on('exit', () => {
      clearTimeout(timer);
      done(outcome);
    });
  });
}

/**
 * Runs the tests with a change made.
 * @returns passed, failed, broken where the changed file is no code, or unused where no test loads it
 */
async function runTests(change) {
  const plugin = change && making(change);
  const tests = change?.tests ?? [...new Set(changes.flatMap((each) => each.tests))];
  const vitest = await startVitest(
    'test',
    tests,
    { root: ROOT, watch: false, reporters: [{}], bail: 1, maxWorkers: 1, pool: 'threads', execArgv: [] },
    { plugins: change === undefined ? [] : [plugin] },
  );
  const modules = vitest.state.getTestModules();
  if (modules.length !== tests.length) return 'broken';
  const errors = modules.flatMap((each) => [
    ...each.errors(),
    ...[...each.children.allTests('failed')].flatMap((test) => test.result().errors),
  ]);
  if (errors.some(({ name, message }) => name === 'ReferenceError' || message.includes('PARSE_ERROR')))
    return 'broken';
  if (plugin?.made === false) return 'unused';
  return errors.length > 0 ? 'failed' : 'passed';
}

/** Makes a change in its file as that is loaded; `made` tells whether it was. */
function making({ file, from, to }) {
  const changed = resolve(ROOT, file);
  const plugin = {
    name: 'mutate',
    enforce: 'pre',
    made: false,
    transform(code, id) {
      if (id.split('?')[0] !== changed || !code.includes(from)) return undefined;
      plugin.made = true;
      return code.replace(from, () => to);
    },
  };
  return plugin;
}
