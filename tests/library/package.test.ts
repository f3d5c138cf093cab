import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';

/**
 * The package that `npm pack` makes, unpacked where npm would put it, with what it depends on linked beside it: npm itself
 * would fetch that anew.
 */
const project = mkdtempSync(join(tmpdir(), 'dummyrun-package-'));
const installed = join(project, 'node_modules/dummyrun');

// Threads are kept for a minute: what they keep alive is ended before.
const run = (args: readonly string[]) =>
  spawnSync(process.execPath, args, { cwd: project, encoding: 'utf8', timeout: 50_000 });

beforeAll(() => {
  const packed = execFileSync('npm', ['pack', '--ignore-scripts', '--json', '--pack-destination', project], {
    encoding: 'utf8',
    shell: process.platform === 'win32',
  });
  const [{ filename }]: { filename: string }[] = JSON.parse(packed);
  mkdirSync(installed, { recursive: true });
  execFileSync('tar', ['xzf', join(project, filename), '-C', installed, '--strip-components=1']);
  const { dependencies }: { dependencies: Record<string, string> } = JSON.parse(
    readFileSync('package.json', 'utf8'),
  );
  for (const name of Object.keys(dependencies)) {
    const link = join(project, 'node_modules', name);
    mkdirSync(dirname(link), { recursive: true });
    symlinkSync(resolve('node_modules', name), link, 'junction');
  }
  writeFileSync(join(project, 'package.json'), '{ "type": "module" }');
});

describe('the package', () => {
  it('runs its command without a build', () => {
    const { status, stdout, stderr } = run([
      join(installed, 'scripts/dummyrun.mjs'),
      'check',
      join(installed, 'examples/stuck-drummer.yaml'),
    ]);
    expect(stderr).toBe('');
    expect(stdout).toContain('does not work');
    expect(status).toBe(1);
  });

  it('can be imported, and scores in worker threads', () => {
    writeFileSync(
      join(project, 'use.js'),
      `import { explore, parse } from 'dummyrun';
const tent = parse('page: A5\\ndims: { side: { from: 31, to: 60 } }\\nparts: [{ name: tent, kind: parallel-fold, at: 40, length: 60, glue: [30, 30], widths: [side, side] }]');
let count = 0;
for await (const dummy of explore(tent, { samples: 12, workers: 1 })) if (dummy.dims.side > 30) count++;
console.log(count);`,
    );
    const { status, stdout, stderr } = run(['use.js']);
    expect(stderr).toBe('');
    expect(stdout).toBe('12\n');
    expect(status).toBe(0);
  });

  it('has types that a strict compiler takes', () => {
    writeFileSync(
      join(project, 'use.ts'),
      `import { read, score, type Scorecard } from 'dummyrun';
const card: Scorecard = score(read('figure.yaml'), { high: 18 });
const depth: number | null = card.clash.deepest;
// @ts-expect-error a scorecard has no such field
card.colour;
export { depth };`,
    );
    const compiler = resolve('node_modules/typescript/bin/tsc');
    const options = ['--noEmit', '--strict', '--module', 'nodenext', '--target', 'es2023', '--skipLibCheck'];
    const { stdout, status } = run([compiler, ...options, 'use.ts']);
    expect(stdout).toBe('');
    expect(status).toBe(0);
  });

  it('brings licences, docs and examples, and no sources or tests', () => {
    for (const name of ['LICENSE', 'CHANGELOG.md', 'THIRD-PARTY.md', 'README.md', 'docs', 'examples'])
      expect(existsSync(join(installed, name)), name).toBe(true);
    for (const name of ['src', 'tests', 'dist/cli.js.map', 'bench'])
      expect(existsSync(join(installed, name)), name).toBe(false);
  });
});
