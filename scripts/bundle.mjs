/** Bundles the script of the live page, with the kernel, into dist/live.js. Stops where anything of Node is imported. */
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
await build({
  absWorkingDir: root,
  entryPoints: ['src/report/live/main.ts'],
  outfile: 'dist/live.js',
  bundle: true,
  minify: true,
  format: 'iife',
  platform: 'browser',
  target: 'es2022',
  charset: 'ascii',
  legalComments: 'none',
  logLevel: 'warning',
});
