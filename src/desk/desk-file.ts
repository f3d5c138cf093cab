import { randomBytes } from 'node:crypto';
import {
  chmodSync,
  existsSync,
  linkSync,
  lstatSync,
  readdirSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { InputError } from '../figure/text/input-error.js';
import { type Refuse, readText } from '../figure/text/read-text.js';
import { MOST_BYTES } from '../figure/text/source.js';

/** No write takes longer, ms. */
const LONGEST_WRITE = 60_000;

/** How the names of parts of a file begin. */
const partsOf = (file: string): string => `.${basename(file)}.`;

/** The figure file on the disk: read, written whole or not at all, and never over what another program has written. */
export class DeskFile {
  /** As it was named. */
  readonly path: string;
  /** What it held when it was last read or written here; null where there is none. */
  #known: string | null;

  /** @throws InputError for a file that cannot be used */
  constructor(path: string) {
    this.path = path;
    this.#known = this.#read();
    this.#dropParts();
  }

  get known(): string | null {
    return this.#known;
  }

  /** What it holds now, if that is not what was last known; else undefined. A file that cannot be read counts as gone. */
  changed(): string | null | undefined {
    let now: string | null = null;
    try {
      now = this.#read();
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
    }
    return now === this.#known ? undefined : now;
  }

  /** Takes what it holds now as known. */
  accept(): string | null {
    const now = this.changed();
    if (now !== undefined) this.#known = now;
    return this.#known;
  }

  /**
   * Writes it, so that it appears whole or not at all.
   * @returns false where it holds something else than was last known: then nothing is written
   */
  write(text: string): boolean {
    if (this.changed() !== undefined) return false;
    // A link stays a link: what it leads to is written.
    const file = existsSync(this.path) ? realpathSync(this.path) : this.path;
    const part = join(dirname(file), `${partsOf(file)}${randomBytes(6).toString('hex')}.part`);
    try {
      if (this.#known === null) {
        writeFileSync(part, text, { flag: 'wx' });
        // Fails where a file has appeared meanwhile, which renaming would replace.
        if (!linked(part, file)) writeFileSync(file, text, { flag: 'wx' });
      } else {
        writeFileSync(part, text, { flag: 'wx' });
        // Whoever may write the figure may go on to: a new file would be made by what this user grants.
        chmodSync(part, statSync(file).mode);
        renameSync(part, file);
      }
    } finally {
      rmSync(part, { force: true });
    }
    this.#known = text;
    return true;
  }

  /** Removes what desks that were killed in the middle of writing have left; another may be writing just now. */
  #dropParts(): void {
    const file = existsSync(this.path) ? realpathSync(this.path) : this.path;
    const folder = dirname(file);
    if (!existsSync(folder)) return;
    for (const name of readdirSync(folder)) {
      if (!name.startsWith(partsOf(file)) || !/\.[0-9a-f]{12}\.part$/.test(name)) continue;
      const since = Date.now() - (lstatSync(join(folder, name), { throwIfNoEntry: false })?.mtimeMs ?? 0);
      if (since > LONGEST_WRITE) rmSync(join(folder, name), { force: true });
    }
  }

  #read(): string | null {
    if (!existsSync(this.path)) return null;
    // As it is: a byte order mark and all.
    const refuse: Refuse = (found, remedy) => new InputError({ file: this.path, found, remedy });
    return readText(this.path, MOST_BYTES, refuse, true);
  }
}

/** @returns false on a disk that knows no links */
function linked(part: string, file: string): boolean {
  try {
    linkSync(part, file);
    return true;
  } catch (error) {
    if (/^(EPERM|ENOTSUP|ENOSYS)$/.test((error as NodeJS.ErrnoException).code ?? '')) return false;
    throw error;
  }
}
