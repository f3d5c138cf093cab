import { createHash } from 'node:crypto';
import { closeSync, constants, fstatSync, openSync, readSync, statSync } from 'node:fs';
import { StudyError } from './error.js';

/** Bytes read at once. */
const BLOCK = 1 << 20;

/** What stands in the place of a file and is none: a pipe or a device would be waited for, or read, without end. */
export class NoPlainFile extends StudyError {
  constructor(path: string) {
    super(`${path} is no plain file, but a folder, a pipe or a device. Take it away.`);
  }
}

/**
 * Opens a plain file to read, links followed. Never waits: what is in a folder may come from a stranger.
 * @returns its number, to be closed
 * @throws NoPlainFile; an error of the file system where it can't be opened
 */
export function openPlain(path: string): number {
  // Asked before, since to open a device may already do something; and after, since it may be another by then.
  if (!statSync(path).isFile()) throw new NoPlainFile(path);
  const file = openSync(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
  if (fstatSync(file).isFile()) return file;
  closeSync(file);
  throw new NoPlainFile(path);
}

/**
 * The first bytes of a plain file, which may say that it is shorter than it is.
 * @param most at most so many
 */
export function readStart(path: string, most: number): Buffer {
  const file = openPlain(path);
  try {
    const blocks: Buffer[] = [];
    for (let left = most; left > 0; left -= blocks[blocks.length - 1].length) {
      const block = Buffer.alloc(Math.min(BLOCK, left));
      const count = readSync(file, block);
      if (count === 0) break;
      blocks.push(block.subarray(0, count));
    }
    return Buffer.concat(blocks);
  } finally {
    closeSync(file);
  }
}

/** A whole plain file of at most so many bytes; null when it is larger. */
export function readWhole(path: string, most: number): Buffer | null {
  const start = readStart(path, most + 1);
  return start.length > most ? null : start;
}

/** SHA-256 of what is in a plain file; empty when there is none that can be read. */
export function hashOfFile(path: string): string {
  let file: number;
  try {
    file = openPlain(path);
  } catch {
    return '';
  }
  try {
    const hash = createHash('sha256');
    const block = Buffer.alloc(BLOCK);
    // No longer than it says it is: some files of the system never end.
    for (let left = fstatSync(file).size; left > 0; ) {
      const count = readSync(file, block, 0, Math.min(BLOCK, left), null);
      if (count === 0) break;
      hash.update(block.subarray(0, count));
      left -= count;
    }
    return hash.digest('hex');
  } finally {
    closeSync(file);
  }
}
