/** Bundles the program, its workers and the script of the live page: a file that is not sought and read costs no time. */
import { appendFileSync, writeFileSync } from 'node:fs';
import { builtinModules } from 'node:module';
import { join } from 'node:path';
import { build } from 'esbuild';
import { ROOT, sourcesHash, stampBuild } from './built.mjs';
import { asPage, asRemark, packagesIn } from './third-party.mjs';

const from = sourcesHash();

const shared = {
  absWorkingDir: ROOT,
  outdir: 'dist',
  metafile: true,
  // All licences are gathered in one place; what packages put beside their code is a part of them only.
  legalComments: 'none',
  bundle: true,
  target: 'es2022',
  logLevel: 'warning',
};

// With the kernel. Stops where anything of Node is imported.
const live = await build({
  ...shared,
  entryPoints: { live: 'src/report/live/main.ts' },
  minify: true,
  format: 'iife',
  platform: 'browser',
  charset: 'ascii',
});
// A report is handed on without the rest of the program: the licences of what its script holds go with it.
appendFileSync(join(ROOT, 'dist/live.js'), `${asRemark(packagesIn(ROOT, [live.metafile]))}\n`);

// The desk's page, and the kernel in its worker: served by the program, never handed on by themselves.
const desk = await build({
  ...shared,
  entryPoints: { desk: 'src/desk/page/main.ts', 'desk-worker': 'src/desk/page/worker.ts' },
  minify: true,
  format: 'iife',
  platform: 'browser',
  charset: 'ascii',
});

const forNode = {
  ...shared,
  format: 'esm',
  // Of a package that offers several forms the one for any machine: what some offer Node can't stand in a module.
  platform: 'neutral',
  mainFields: ['module', 'main'],
  sourcemap: 'linked',
};
const program = await build({
  ...forNode,
  entryPoints: { cli: 'src/cli.ts', index: 'src/index.ts' },
  // A command loads its own chunks only.
  splitting: true,
  chunkNames: 'chunks/[name]-[hash]',
  // What is not a module, or loads files of its own, stays where it is; and so do Node's own modules, by either name.
  external: [
    ...[
      '@tensorflow/*',
      '@hono/node-server',
      'bullmq',
      'cli-progress',
      'commander',
      'dejavu-fonts-ttf',
      'hono',
      'ioredis',
      'pdfkit',
      'piscina',
      'ws',
    ],
    ...['node:*', ...builtinModules],
  ],
});
// A worker is one file: it loads no chunk later.
const worker = await build({
  ...forNode,
  entryPoints: { 'workers/score': 'workers/score.ts' },
  external: ['node:*'],
});

const bundles = [live, desk, program, worker].map(({ metafile }) => metafile);
writeFileSync(join(ROOT, 'THIRD-PARTY.md'), asPage(packagesIn(ROOT, bundles)));
stampBuild(from);
