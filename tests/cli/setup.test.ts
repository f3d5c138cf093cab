import { spawnSync } from 'node:child_process';
import {
  chmodSync,
  copyFileSync,
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';

const SCRIPTS = join(import.meta.dirname, '../../scripts');
const above = mkdtempSync(join(tmpdir(), 'dummyrun-setup-'));
let count = 0;
let project = '';

const at = (path: string) => join(project, path);
const write = (path: string, text: string) => writeFileSync(at(path), text);

/** A small project with the real scripts of set-up: one package of its own, and a program that says what it was built from. */
beforeAll(() => {
  project = join(above, 'first');
  for (const folder of ['scripts', 'src', 'workers', 'helper']) mkdirSync(at(folder), { recursive: true });
  for (const file of ['setup.mjs', 'built.mjs', 'dummyrun.mjs'])
    copyFileSync(join(SCRIPTS, file), at(`scripts/${file}`));
  write('helper/package.json', '{ "name": "helper", "version": "1.0.0" }');
  dependOn('file:helper');
  for (const file of ['tsconfig.json', 'tsconfig.page.json', 'scripts/third-party.mjs']) write(file, '');
  write('src/word.txt', 'ridge');
  write(
    'scripts/bundle.mjs',
    `import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
     import { sourcesHash, stampBuild } from './built.mjs';
     mkdirSync('dist/workers', { recursive: true });
     writeFileSync('dist/workers/score.js', '// a worker');
     writeFileSync('dist/cli.js', 'console.log(' + JSON.stringify(readFileSync('src/word.txt', 'utf8')) + ')');
     stampBuild(sourcesHash());`,
  );
  // Both ways to be set up from nothing; then all tests begin with copies, which must not need it again.
  expect(ran('dummyrun.mjs')).toMatchObject({ status: 0, out: 'ridge\n' });
});

beforeEach(() => {
  project = copied(`project ${++count}`);
});

/** A copy of the project that was set up first. */
function copied(name: string): string {
  const copy = join(above, name);
  cpSync(join(above, 'first'), copy, { recursive: true, verbatimSymlinks: true });
  return copy;
}

afterAll(() => {
  spawnSync('chmod', ['-R', 'u+w', above]);
  rmSync(above, { recursive: true, force: true });
});

/** Writes the package and its lock file; npm links a folder of the project without a network. */
function dependOn(helper: string): void {
  const dependencies = { helper };
  const own = { name: 'small', version: '1.0.0', dependencies };
  write('package.json', JSON.stringify({ ...own, scripts: { build: 'node scripts/bundle.mjs' } }));
  const found = helper.startsWith('file:')
    ? { 'node_modules/helper': { resolved: 'helper', link: true }, helper: { version: '1.0.0' } }
    : { 'node_modules/helper': { version: '1.0.0', resolved: helper } };
  const lock = { name: 'small', version: '1.0.0', lockfileVersion: 3, packages: { '': own, ...found } };
  write('package-lock.json', JSON.stringify(lock));
}

function ran(script: string, more: { uid?: number } = {}) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [at(`scripts/${script}`)], {
    encoding: 'utf8',
    env: { ...process.env, npm_config_cache: join(above, 'cache'), npm_config_fetch_retries: '0' },
    ...more,
  });
  return { status, out: stdout, err: stderr };
}

const SILENT = { status: 0, out: '', err: '' };

describe('set-up', () => {
  test('leaves packages and a program, and nothing else', () => {
    expect(existsSync(at('node_modules/helper/package.json'))).toBe(true);
    for (const left of ['.setting-up', '.setting-up-packages', '.setting-up-before'])
      expect(existsSync(at(left))).toBe(false);
  });

  test('does nothing in a project that was renamed or copied', () => {
    expect(ran('setup.mjs')).toEqual(SILENT);
    const renamed = join(above, `renamed ${count}`);
    renameSync(project, renamed);
    project = renamed;
    expect(ran('dummyrun.mjs')).toEqual({ ...SILENT, out: 'ridge\n' });
  });

  test('that can not install leaves the packages that were there', () => {
    // Nobody listens there: as without a network.
    dependOn('http://127.0.0.1:9/helper-1.0.0.tgz');
    const { status, err } = ran('setup.mjs');
    expect(status).toBe(4);
    expect(err).toContain('What was installed before is still there.');
    expect(existsSync(at('node_modules/helper/package.json'))).toBe(true);
    expect(existsSync(at('.setting-up-packages'))).toBe(false);
    dependOn('file:helper');
    expect(ran('dummyrun.mjs')).toEqual({ status: 0, out: 'ridge\n', err: '' });
  });

  test('that was ended between taking the old packages away and moving the new ones in finds the old ones', () => {
    renameSync(at('node_modules'), at('.setting-up-before'));
    expect(ran('setup.mjs')).toEqual(SILENT);
    expect(existsSync(at('node_modules/helper/package.json'))).toBe(true);
  });

  test.each([
    ['a package', 'node_modules/helper', 'node_modules/helper is missing. Installing from the lock file'],
    ['a worker', 'dist/workers/score.js', 'dist/workers/score.js is missing: building again'],
    ['the whole program', 'dist', 'Building'],
  ])('tells that %s is missing, and puts it back', (_, path, line) => {
    rmSync(at(path), { recursive: true });
    const { status, out, err } = ran('dummyrun.mjs');
    expect({ status, out }).toEqual({ status: 0, out: 'ridge\n' });
    expect(err).toContain(line);
    expect(existsSync(at(path))).toBe(true);
  });

  test('tells that a file of the program was cut short, and builds it again', () => {
    write('dist/cli.js', '');
    const { out, err } = ran('dummyrun.mjs');
    expect(err).toContain('dist/cli.js is not as it was built: building again');
    expect(out).toBe('ridge\n');
  });

  test('builds again what was built from other sources', () => {
    write('src/word.txt', 'gutter');
    expect(ran('dummyrun.mjs')).toEqual({
      status: 0,
      out: 'gutter\n',
      err: 'dist/ was built from other sources: building again …\n',
    });
  });

  // Root may write anywhere; so it becomes somebody else, whom the folder is not.
  const uid = process.getuid?.() === 0 ? 65534 : undefined;
  test.skipIf(process.platform === 'win32')(
    'on a read-only disk says so in a line, and runs what was built before',
    () => {
      write('src/word.txt', 'gutter');
      for (const folder of [above, project]) chmodSync(folder, 0o555);
      try {
        const { status, out, err } = ran('dummyrun.mjs', { uid });
        expect({ status, out }).toEqual({ status: 0, out: 'ridge\n' });
        expect(err).toMatch(
          /^dist\/ was built from other sources\. It can't be set up in .*EACCES.*\nWhat was built before runs instead\.\n$/,
        );
        rmSync(at('dist/cli.js'));
        expect(ran('setup.mjs', { uid }).status).toBe(4);
      } finally {
        for (const folder of [above, project]) chmodSync(folder, 0o755);
      }
    },
  );
});

test('every version is exact: what is built with tomorrow is what was tried today', () => {
  const own = JSON.parse(readFileSync(join(SCRIPTS, '../package.json'), 'utf8'));
  for (const kind of ['dependencies', 'devDependencies', 'optionalDependencies'])
    for (const [name, version] of Object.entries(own[kind]))
      expect(version, name).toMatch(/^\d+\.\d+\.\d+(-[\w.]+)?$/);
});
