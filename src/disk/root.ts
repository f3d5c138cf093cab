import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** The folder of the program: the nearest with a package, whether its sources run (in tests) or what was made of them. */
const ROOT = nearestPackage(new URL('.', import.meta.url));

function nearestPackage(folder: URL): URL {
  const above = new URL('..', folder);
  if (existsSync(new URL('package.json', folder)) || above.href === folder.href) return folder;
  return nearestPackage(above);
}

/** The version of the program, as its package says. */
export function version(): string {
  return JSON.parse(readFileSync(new URL('package.json', ROOT), 'utf8')).version;
}

/**
 * A file that building makes, as a path.
 * @throws Error when it is not built
 */
export function builtFile(name: string): string {
  const file = fileURLToPath(new URL(`dist/${name}`, ROOT));
  if (!existsSync(file)) throw new Error(`${file} is missing: run 'npm run build' first`);
  return file;
}

/** The file of a worker: a worker thread can't load TypeScript. */
export const workerFile = (name: string): string => builtFile(`workers/${name}.js`);
