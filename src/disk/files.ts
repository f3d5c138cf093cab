import { existsSync, lstatSync, mkdirSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { StudyError } from './error.js';

/** Makes a folder and those above it. (Node's own `recursive` never comes back from where no folder can be made, as in /proc.) */
export function makeFolder(path: string): void {
  if (existsSync(path) && statSync(path).isDirectory()) return;
  if (dirname(path) !== path) makeFolder(dirname(path));
  try {
    mkdirSync(path);
  } catch (error) {
    // Another run may have been quicker.
    if (!existsSync(path) || !statSync(path).isDirectory()) throw error;
  }
}

/**
 * A folder below another, made if need be. A link in its place is not followed: what a stranger has packed into a folder of
 * results must not lead out of it.
 * @returns its path
 * @throws StudyError for a link; an error of the file system where it can't be made
 */
export function folderIn(folder: string, name: string): string {
  const path = join(folder, name);
  if (lstatSync(path, { throwIfNoEntry: false })?.isSymbolicLink())
    throw new StudyError(`${path} is a link to elsewhere. Remove it, or choose another folder with --out.`);
  makeFolder(resolve(path));
  return path;
}

/** Writes a file so that it appears whole or not at all. */
export function writeWhole(path: string, contents: string | Uint8Array): void {
  const part = clearPart(path);
  writeFileSync(part, contents, { flag: 'wx' });
  renameSync(part, path);
}

/** The path beside a file at which it is written before it is renamed; what a killed run, or a stranger, left there is gone. */
export function clearPart(path: string): string {
  const part = `${path}.part`;
  rmSync(part, { force: true });
  return part;
}
