import { mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { takeLock } from './study-lock.js';
import { StudyLog } from './study-log.js';

/**
 * The folder of a study. What is not finished lies in its own folder `unfinished` and is gone at the end, so that the
 * results beside it always belong together.
 */
export class StudyFolder {
  readonly path: string;
  readonly #unfinished: string;
  readonly #giveBack: () => void;

  /**
   * Makes the folder if need be, and keeps other runs out of it until `close`.
   * @throws StudyError when another run is writing to it; an error of the file system when it can't be written
   */
  constructor(path: string) {
    this.path = path;
    this.#unfinished = join(path, 'unfinished');
    mkdirSync(this.#unfinished, { recursive: true });
    this.#giveBack = takeLock(join(this.#unfinished, 'lock'));
  }

  /** The path of a result. */
  file(name: string): string {
    return join(this.path, name);
  }

  /** What an earlier run left unfinished, or null. */
  openLog(): { log: StudyLog; heading: unknown } | null {
    return StudyLog.open(this.#logPath);
  }

  /** Starts a new log; whatever an earlier run left unfinished is dropped. */
  createLog(heading: unknown): StudyLog {
    rmSync(this.#statePath, { force: true });
    return StudyLog.create(this.#logPath, heading);
  }

  /** Keeps the state of the search after so many told candidates. */
  saveState(told: number, search: unknown): void {
    writeWhole(this.#statePath, JSON.stringify({ told, search }));
  }

  /** The state kept last, or null when there is none that can be read. */
  savedState(): { told: number; search: unknown } | null {
    try {
      const { told, search } = JSON.parse(readFileSync(this.#statePath, 'utf8'));
      return Number.isInteger(told) ? { told, search } : null;
    } catch {
      return null;
    }
  }

  /** Drops what was unfinished, once the results are written. The log goes first: without it nothing is resumed. */
  dropUnfinished(): void {
    rmSync(this.#logPath, { force: true });
    rmSync(this.#unfinished, { force: true, recursive: true });
  }

  /** Lets other runs in. */
  close(): void {
    this.#giveBack();
  }

  get #logPath(): string {
    return join(this.#unfinished, 'scored.jsonl');
  }

  get #statePath(): string {
    return join(this.#unfinished, 'search.json');
  }
}

/** Writes a file so that it appears whole or not at all. */
export function writeWhole(path: string, text: string): void {
  writeFileSync(`${path}.part`, text);
  renameSync(`${path}.part`, path);
}
