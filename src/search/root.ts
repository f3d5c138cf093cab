import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** The folder of the program: the same whether its sources run (in tests) or what was compiled of them. */
const ROOT = new URL(import.meta.url.endsWith('.ts') ? '../../' : '../../../', import.meta.url);

/** The version of the program, as its package says. */
export function version(): string {
  return JSON.parse(readFileSync(new URL('package.json', ROOT), 'utf8')).version;
}

/**
 * The compiled file of a worker: a worker thread can't load TypeScript.
 * @throws Error when it is not built
 */
export function workerFile(name: string): string {
  const file = fileURLToPath(new URL(`dist/workers/${name}.js`, ROOT));
  if (!existsSync(file)) throw new Error(`${file} is missing: run 'npm run build' first`);
  return file;
}
