/** Whether dist/ is whole, and was built from what is here now. Uses only Node itself. */
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';

export const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..');

/** What the packages are installed from. */
export const VERSIONS = ['package.json', 'package-lock.json'];

const STAMP = 'dist/.dummyrun-built';

/** Files below a folder, as paths from the project: it may be moved or copied, and stays what it was. */
function filesUnder(folder) {
  return readdirSync(join(ROOT, folder), { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(ROOT, join(entry.parentPath ?? entry.path, entry.name)).replaceAll(sep, '/'))
    .sort();
}

/** One hash for names and contents of files. */
export function hashOf(files) {
  const hash = createHash('sha256');
  for (const file of files) {
    const content = readFileSync(join(ROOT, file));
    hash.update(`${file}\n${content.length}\n`).update(content);
  }
  return hash.digest('hex');
}

/** Hash of all that dist/ is built from. */
export function sourcesHash() {
  const settings = ['tsconfig.json', 'tsconfig.page.json', 'scripts/bundle.mjs', 'scripts/third-party.mjs'];
  return hashOf([...VERSIONS, ...settings, ...filesUnder('src'), ...filesUnder('workers')]);
}

/** Notes what dist/ was built from, and which files there must be for it to run. */
export function stampBuild(from) {
  const files = filesUnder('dist').filter((file) => !file.startsWith('dist/src/') && file !== STAMP);
  const sizes = Object.fromEntries(files.map((file) => [file, statSync(join(ROOT, file)).size]));
  writeFileSync(join(ROOT, STAMP), JSON.stringify({ from, files: sizes }));
}

/**
 * What is wrong with dist/, if anything.
 * @returns null, or `{ why, runs }`: a line about it, and whether what is there runs all the same
 */
export function faultOfBuild() {
  // Installed as a package there are no sources: what came with it is all there is.
  if (!existsSync(join(ROOT, 'src'))) return null;
  if (!existsSync(join(ROOT, 'dist/cli.js'))) return { why: 'dist/ is not built', runs: false };
  let stamp;
  try {
    stamp = JSON.parse(readFileSync(join(ROOT, STAMP), 'utf8'));
  } catch {
    return { why: 'dist/ has no record of what it was built from', runs: false };
  }
  for (const [file, size] of Object.entries(stamp.files ?? {})) {
    const found = statSync(join(ROOT, file), { throwIfNoEntry: false });
    if (found === undefined) return { why: `${file} is missing`, runs: false };
    if (found.size !== size) return { why: `${file} is not as it was built`, runs: false };
  }
  if (stamp.from !== sourcesHash()) return { why: 'dist/ was built from other sources', runs: true };
  return null;
}

/** The first installed package that is no longer there, as a path; null when all are there. */
export function missingPackage() {
  if (!existsSync(join(ROOT, 'src'))) return null;
  const record = 'node_modules/.package-lock.json';
  let installed;
  try {
    installed = JSON.parse(readFileSync(join(ROOT, record), 'utf8'));
  } catch {
    return record;
  }
  const folders = Object.keys(installed.packages ?? {});
  return folders.find((folder) => !existsSync(join(ROOT, folder, 'package.json'))) ?? null;
}
