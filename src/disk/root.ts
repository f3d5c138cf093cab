import { createHash } from 'node:crypto';
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

/** A page of the docs, as a path. */
export const docsFile = (name: string): string => fileURLToPath(new URL(`docs/${name}`, ROOT));

/** The program is not whole, in words for the person who started it. */
export class NotBuilt extends Error {
  override name = 'NotBuilt';
}

/**
 * A file that building makes, as a path.
 * @throws NotBuilt when it is not there
 */
export function builtFile(name: string): string {
  const file = fileURLToPath(new URL(`dist/${name}`, ROOT));
  if (!existsSync(file))
    throw new NotBuilt(`${file} is missing. Build the program again with 'npm run build'.`);
  return file;
}

/** The file of a worker: a worker thread can't load TypeScript. */
export const workerFile = (name: string): string => builtFile(`workers/${name}.js`);

/** SHA-256 of what a worker thread scores by: where it is another, so may every score be, though the version is the same. */
export function scoringHash(): string {
  return createHash('sha256')
    .update(readFileSync(workerFile('score')))
    .digest('hex');
}
