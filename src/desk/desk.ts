import { troubleOf } from '../disk/error.js';
import { begun, edited, type History, redone, textNow, undone } from '../edit/history.js';
import { patterns } from '../figure/patterns/index.js';
import { DeskFile } from './desk-file.js';
import { drawingsFor } from './drawings.js';
import type { FileNow, Request, Told } from './messages.js';

/** Tells all pages, or the one that has asked. */
export interface Tell {
  all(told: Told): void;
  one(told: Told): void;
}

/**
 * One figure file with all the texts that it has had since the desk was opened. Pages come and go, and may be several:
 * what one of them does, all are told.
 */
export class Desk {
  readonly file: DeskFile;
  #history: History | null;
  #revision = 1;
  /** The last one that another program has made. */
  #theirs = 0;
  /** An edit that could not be written, as the file had been changed meanwhile. */
  #waiting: string | null = null;
  #kept: string | null = null;

  /** @throws InputError for a file that cannot be used */
  constructor(path: string) {
    this.file = new DeskFile(path);
    this.#history = isBlank(this.file.known) ? null : begun(this.file.known ?? '');
  }

  /** A state of the file that the maker wants to compare with. */
  get kept(): string | null {
    return this.#kept;
  }

  get text(): string | null {
    return this.file.known === null || this.#history === null ? null : textNow(this.#history);
  }

  now(): FileNow {
    const { text } = this;
    const history = this.#history;
    return {
      tell: 'file',
      file: this.file.path,
      revision: this.#revision,
      theirs: this.#theirs,
      text,
      drawings: text === null ? {} : drawingsFor(this.file.path, text),
      canUndo: history !== null && (history.at > 0 || text === null),
      canRedo: history !== null && history.at < history.texts.length - 1,
      kept: this.#kept !== null,
    };
  }

  /** Does what a page asks of the file. */
  answer(asked: Exclude<Request, { do: 'ask' | 'stop' }>, tell: Tell): void {
    const history = this.#history;
    if (asked.do === 'begin') this.#begin(asked.pattern, tell);
    else if (history === null) tell.one({ tell: 'refused', why: 'There is no figure file yet.' });
    else if (asked.do === 'write') {
      // Made from a text that is no longer there.
      if (asked.from < this.#theirs) this.#ask(asked.text, tell);
      else if (asked.from !== this.#revision) {
        tell.one({
          tell: 'refused',
          why: 'Another page has changed the figure first; this edit is not kept.',
        });
        tell.one(this.now());
      } else this.#put(edited(history, asked.text), tell);
    } else if (asked.do === 'undo') {
      // A file that is gone comes back as it was.
      this.#put(this.file.known === null ? history : undone(history), tell);
    } else if (asked.do === 'redo') this.#put(redone(history), tell);
    else if (asked.do === 'settle') this.#settle(asked.take, history, tell);
    else {
      this.#kept = textNow(history);
      tell.all(this.now());
    }
  }

  /** What a page that comes while there is a conflict is told of it. */
  get conflict(): Told | null {
    if (this.#waiting === null) return null;
    const now = this.file.changed();
    return { tell: 'conflict', theirs: now === undefined ? this.file.known : now };
  }

  /** Looks whether another program has changed the file, and tells. */
  look(tell: Pick<Tell, 'all'>): void {
    if (this.#waiting !== null) return;
    const now = this.file.changed();
    if (now === undefined) return;
    this.file.accept();
    if (this.#history !== null) this.#history = now === null ? this.#history : edited(this.#history, now);
    else if (!isBlank(now)) this.#history = begun(now ?? '');
    this.#revision++;
    this.#theirs = this.#revision;
    tell.all(this.now());
  }

  #begin(name: string, tell: Tell): void {
    const pattern = patterns.find((each) => each.name === name);
    if (pattern === undefined) {
      tell.one({ tell: 'refused', why: 'There is no such pattern.' });
      return;
    }
    this.look(tell);
    if (!isBlank(this.file.known)) {
      tell.one({ tell: 'refused', why: 'The figure file is begun already.' });
      return;
    }
    const back = this.#history;
    this.#put(back === null ? begun(pattern.text) : edited(back, pattern.text), tell);
  }

  #put(history: History, tell: Tell): void {
    const text = textNow(history);
    try {
      if (!this.#written(text)) {
        this.#ask(text, tell);
        return;
      }
    } catch (error) {
      const why = error instanceof Error ? troubleOf(error) : String(error);
      tell.one({
        tell: 'refused',
        why: `The figure file cannot be written (${why}): this edit is not kept.`,
      });
      // The page goes back to what there is, lest it wait for an edit that never comes.
      tell.one(this.now());
      return;
    }
    this.#history = history;
    this.#revision++;
    tell.all(this.now());
  }

  /** Asks which text shall be: one that a page has made, or what another program has written since. */
  #ask(ours: string, tell: Tell): void {
    this.#waiting = ours;
    if (this.conflict !== null) tell.all(this.conflict);
  }

  #written(text: string): boolean {
    return text === this.file.known ? this.file.changed() === undefined : this.file.write(text);
  }

  #settle(take: 'ours' | 'theirs', history: History, tell: Tell): void {
    const ours = this.#waiting;
    if (ours === null) {
      tell.one(this.now());
      return;
    }
    this.#waiting = null;
    const theirs = this.file.accept();
    // Both stay within reach of undo, whichever it is.
    if (take === 'ours') {
      this.#history = theirs === null ? history : edited(history, theirs);
      this.#put(edited(this.#history, ours), tell);
    } else if (theirs !== null) this.#put(edited(edited(history, ours), theirs), tell);
    else {
      this.#history = edited(history, ours);
      this.#revision++;
      tell.all(this.now());
    }
  }
}

/** Whether there is no file, or nothing in it: then there is a figure to begin. */
const isBlank = (text: string | null): boolean => text === null || text.trim() === '';
