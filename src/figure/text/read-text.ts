import { NoPlainFile, readWhole } from '../../disk/read-file.js';
import type { InputError } from './input-error.js';

/** Makes the error for a file that cannot be used. */
export type Refuse = (found: string, remedy: string) => InputError;

/**
 * Reads a file of at most so many bytes as UTF-8 text.
 * @param keepMark whether a byte order mark stays at its start; else it is left out
 */
export function readText(path: string, most: number, refuse: Refuse, keepMark = false): string {
  const bytes = readBytes(path, most, refuse);
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: keepMark }).decode(bytes);
  } catch {
    const before = bytes.toString('utf8').split('\ufffd', 1)[0];
    const line = before.split('\n').length;
    throw refuse(`bytes that are not UTF-8 text, on line ${line}`, 'save it with the encoding UTF-8');
  }
}

/** Reads a plain file of at most so many bytes. */
export function readBytes(path: string, most: number, refuse: Refuse): Buffer {
  let bytes: Buffer | null;
  try {
    bytes = readWhole(path, most);
  } catch (error) {
    if (error instanceof NoPlainFile) throw refuse('what is not a file', 'give the name of a file');
    throw refuse(troubleOf(error), 'give the name of a file that can be read');
  }
  if (bytes === null) throw refuse(`more than ${most} bytes`, `keep it under ${most}`);
  return bytes;
}

/** What the system says of a file, in words. */
export function troubleOf(error: unknown): string {
  const code = (error as NodeJS.ErrnoException).code ?? '';
  if (code === 'ENOENT' || code === 'ENOTDIR') return 'no such file';
  if (code === 'EACCES' || code === 'EPERM') return 'a file that may not be read';
  return `a file that cannot be read (${code})`;
}
