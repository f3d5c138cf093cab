// npm run oracle [-- COUNT [SEED]]: random figures through the program and through the kernel of tests/oracle, which was written
// from the docs alone. Prints what they say differently, each with its figure.
import { mkdirSync } from 'node:fs';
import { build } from 'esbuild';

const [count = '200', seed = '1', step = '2'] = process.argv.slice(2);
mkdirSync('dist', { recursive: true });
await build({
  entryPoints: ['tests/oracle/run.ts'],
  outfile: 'dist/oracle.mjs',
  bundle: true,
  platform: 'node',
  format: 'esm',
  packages: 'external',
  logLevel: 'error',
});
const { run } = await import('../dist/oracle.mjs');
process.exitCode = run(Number(count), Number(seed), Number(step), console.log).disagreeing > 0 ? 1 : 0;
