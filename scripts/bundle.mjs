/** Bundles the program, its workers and the script of the live page: a file that is not sought and read costs no time. */
import { builtinModules } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const shared = {
  absWorkingDir: join(dirname(fileURLToPath(import.meta.url)), '..'),
  outdir: 'dist',
  bundle: true,
  target: 'es2022',
  logLevel: 'warning',
};

// With the kernel. Stops where anything of Node is imported.
await build({
  ...shared,
  entryPoints: { live: 'src/report/live/main.ts' },
  minify: true,
  format: 'iife',
  platform: 'browser',
  charset: 'ascii',
  legalComments: 'none',
});

const forNode = {
  ...shared,
  format: 'esm',
  // Of a package that offers several forms the one for any machine: what some offer Node can't stand in a module.
  platform: 'neutral',
  mainFields: ['module', 'main'],
  sourcemap: 'linked',
};
await build({
  ...forNode,
  entryPoints: { cli: 'src/cli.ts' },
  // A command loads its own chunks only.
  splitting: true,
  chunkNames: 'chunks/[name]-[hash]',
  // What is not a module, or loads files of its own, stays where it is; and so do Node's own modules, by either name.
  external: [
    ...['@tensorflow/*', 'cli-progress', 'commander', 'dejavu-fonts-ttf', 'pdfkit', 'piscina'],
    ...['node:*', ...builtinModules],
  ],
});
// A worker is one file: it loads no chunk later.
await build({
  ...forNode,
  entryPoints: { 'workers/score': 'workers/score.ts' },
  external: ['node:*'],
});
