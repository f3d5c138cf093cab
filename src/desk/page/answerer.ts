import { EditFault } from '../../edit/edit-fault.js';
import type { MoveFinding } from '../../edit/move-number.js';
import { InputError } from '../../figure/text/input-error.js';
import { CannotBuild } from '../../motion/cannot-build.js';
import { moveInWords } from '../../report/words/move-words.js';
import { besideOf } from './beside.js';
import { Kernel } from './kernel.js';
import type { Asked, Sent } from './sent.js';
import { type Candidate, draggedMotion, motionOf, scoreOf } from './shown.js';

/** How long nothing else is asked before what is dragged is scored, and how long it goes without at most, ms. */
const PAUSE = 60;
const LONGEST_WITHOUT = 300;

/** Answers what a page asks of a kernel, in as many parts as there are; the last tells that the next may be asked. */
export class Answerer {
  readonly #kernel = new Kernel();
  readonly #tell: (sent: Sent, ...transfer: Transferable[]) => void;
  /** What is dragged and not scored yet; since when. */
  #owed: { readonly id: number; readonly candidate: Candidate; readonly since: number } | null = null;
  #pause: ReturnType<typeof setTimeout> | undefined;

  constructor(tell: (sent: Sent, ...transfer: Transferable[]) => void) {
    this.#tell = tell;
  }

  answer(asked: Asked): void {
    const { id } = asked;
    this.#telling(id, () => this.#answer(asked));
    this.#tell({ tell: 'ready', id });
  }

  #telling(id: number, work: () => void): void {
    try {
      work();
    } catch (error) {
      if (error instanceof InputError)
        this.#tell({ tell: 'fault', id, message: error.message, line: error.line, column: error.column });
      else if (error instanceof EditFault || error instanceof CannotBuild)
        this.#tell({ tell: 'stuck', id, why: error.message });
      // Whatever else goes wrong, the next question is answered.
      else this.#tell({ tell: 'stuck', id, why: `the figure could not be worked out: ${String(error)}` });
    }
  }

  #answer(asked: Asked): void {
    const kernel = this.#kernel;
    const { id } = asked;
    if (asked.ask === 'text') {
      this.#dropOwed();
      kernel.read(asked.text, asked.file, asked.drawings);
      this.#show(id, { figure: kernel.figure, vector: kernel.figure.start });
    } else if (asked.ask === 'drag') {
      const { changes, findings } = kernel.dragged(asked.paths, asked.values);
      this.#tell({ tell: 'dragged', id, said: saidOf(findings) });
      this.#drag(id, kernel.changed(changes), asked.pageAngle);
    } else if (asked.ask === 'hold') kernel.hold(asked.ties);
    else if (asked.ask === 'read') kernel.read(asked.text, asked.file, asked.drawings, asked.reading);
    else if (asked.ask === 'place') {
      const { paths, values } = asked;
      const { findings, text } = kernel.placed(paths, values);
      const said = saidOf(findings);
      this.#tell({ tell: 'placed', id, paths, values, said, text, reading: kernel.reading });
    } else if (asked.ask === 'rest') this.#tell(kernel.rest(id));
    else if (asked.ask === 'ties')
      this.#tell({ tell: 'ties', id, reading: kernel.reading, ties: kernel.findTies() });
    else if (asked.ask === 'flat') this.#tell(kernel.flat(id));
    else if (asked.ask === 'beside') this.#tell(besideOf(id, kernel));
    else this.#tell({ tell: 'starters', id, on: asked.on, starters: kernel.starters(asked.on) });
  }

  /** The motion first. */
  #show(id: number, candidate: Candidate): void {
    try {
      const motion = motionOf(id, candidate, this.#kernel.source);
      this.#tell(motion, motion.frames.buffer);
    } catch (error) {
      if (!(error instanceof CannotBuild)) throw error;
    }
    this.#tell(scoreOf(id, candidate));
  }

  /** The motion at once; the score in the next pause, or now and then where there is none. */
  #drag(id: number, candidate: Candidate, pageAngle: number): void {
    const since = this.#owed?.since ?? performance.now();
    this.#dropOwed();
    this.#owed = { id, candidate, since };
    try {
      const motion = draggedMotion(id, candidate, this.#kernel.source, pageAngle);
      this.#tell(motion, motion.frames.buffer);
    } catch (error) {
      if (!(error instanceof CannotBuild)) throw error;
      this.#score();
      return;
    }
    if (performance.now() - since > LONGEST_WITHOUT) this.#score();
    else this.#pause = setTimeout(() => this.#score(), PAUSE);
  }

  #score(): void {
    const owed = this.#owed;
    this.#dropOwed();
    if (owed !== null) this.#telling(owed.id, () => this.#tell(scoreOf(owed.id, owed.candidate)));
  }

  #dropOwed(): void {
    clearTimeout(this.#pause);
    this.#owed = null;
  }
}

/** In words, each once: of a point two numbers may have moved the same. */
const saidOf = (findings: readonly MoveFinding[]): string[] => [...new Set(findings.map(moveInWords))];
