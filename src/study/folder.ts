import { readdirSync, renameSync, rmdirSync, rmSync } from 'node:fs';
import { join, resolve } from 'node:path';
import * as z from 'zod';
import { explained, StudyError } from '../disk/error.js';
import { folderIn, makeFolder, writeWhole } from '../disk/files.js';
import { hashOfFile } from '../disk/read-file.js';
import { readJson } from '../disk/read-json.js';
import { takeLock } from './lock.js';
import { type Opened, StudyLog } from './log.js';

/** The log of a finished study. */
export const KEPT_LOG = 'scored.jsonl';
/** What runs leave in their folder `unfinished`, or beside it when they are killed: the lock is given back by `close`. */
const UNFINISHED = /^(?:(?:scored\.jsonl|search\.json)(?:\.part)?|lock\.\d+(?:\.dead)?)$/;

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
    makeFolder(resolve(path));
    this.#unfinished = folderIn(path, 'unfinished');
    this.#giveBack = takeLock(join(this.#unfinished, 'lock'));
  }

  /** The path of a result. */
  file(name: string): string {
    return join(this.path, name);
  }

  /**
   * What an earlier run left unfinished, to go on with; null when it left nothing.
   * @param otherwise in what way a log with this heading is of another run than the one asked for; null where it is of that
   * @throws StudyError when it is of another run
   */
  leftLog(otherwise: (heading: unknown) => string | null): Opened | null {
    const opened = StudyLog.open(this.#logPath);
    if (opened === null) return null;
    const how = otherwise(opened.heading);
    if (how !== null) {
      opened.log.close();
      throw new StudyError(
        `The unfinished run in ${this.path} is another one: ${how}. Start anew without --resume, or choose another folder with --out.`,
      );
    }
    opened.log.cut();
    return opened;
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

  /**
   * The state kept last. Null when there is none that can be used: the search is then told of the whole log again.
   * @param scored how many candidates the log holds
   */
  savedState(scored: number): { told: number; search: unknown } | null {
    const saved = z.object({ told: z.int().min(0).max(scored), search: z.unknown() });
    return readJson(this.#statePath, saved);
  }

  /**
   * Keeps the log of a study that is finished, to show it again, and drops the rest.
   * @param withFiles names of results that belong to it: it is shown again with these very ones only
   */
  keepLog(log: StudyLog, withFiles: readonly string[]): void {
    log.finish(Object.fromEntries(withFiles.map((name) => [name, hashOfFile(this.file(name))])));
    renameSync(this.#logPath, this.file(KEPT_LOG));
    this.dropUnfinished();
  }

  /** Drops the log of an earlier study, whose results are there no longer. */
  dropKeptLog(): void {
    rmSync(this.file(KEPT_LOG), { force: true });
  }

  /**
   * Drops what was unfinished, once the results are written. The log goes first: without it nothing is resumed. A maker's
   * own folder may be called `unfinished`, too: what is not ours stays.
   */
  dropUnfinished(): void {
    rmSync(this.#logPath, { force: true });
    for (const name of readdirSync(this.#unfinished))
      if (UNFINISHED.test(name)) rmSync(join(this.#unfinished, name), { force: true });
  }

  /** Lets other runs in. */
  close(): void {
    this.#giveBack();
    try {
      rmdirSync(this.#unfinished);
    } catch {
      // It holds what there is to go on with, or is gone.
    }
  }

  get #logPath(): string {
    return join(this.#unfinished, 'scored.jsonl');
  }

  get #statePath(): string {
    return join(this.#unfinished, 'search.json');
  }
}

/**
 * Does something in the folder of a study, while other runs are kept out.
 * @throws StudyError for a folder that can't be written, in words; and whatever `use` throws
 */
export async function inFolder<T>(path: string, use: (folder: StudyFolder) => T | Promise<T>): Promise<T> {
  try {
    const folder = new StudyFolder(path);
    try {
      return await use(folder);
    } finally {
      folder.close();
    }
  } catch (error) {
    throw explained(error, path);
  }
}
