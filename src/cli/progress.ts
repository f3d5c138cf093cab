import { Presets, SingleBar } from 'cli-progress';
import { share } from '../report/words/numbers.js';

import { counted } from '../text/phrases.js';
import { tell } from './print.js';

/** How often a plain line is written where there is no terminal, ms. */
const PLAIN_EVERY = 10_000;

/** The first few tell how long workers take to start, not how long there is left. */
const STEADY = 50;

/** Shows how far a study is: a bar in a terminal, else a plain line now and then. All of it goes to standard error. */
export class Progress {
  readonly #total: number | null;
  readonly #seconds: number;
  readonly #started = performance.now();
  readonly #bar: SingleBar | null;
  #begun = false;
  #plainAt = this.#started;
  #note = '';
  #noted = '';

  /**
   * @param total how many will be scored; null when it is time that ends the study
   * @param seconds after which it ends, if so
   */
  constructor(total: number | null, seconds: number | null = null) {
    this.#total = total;
    this.#seconds = seconds ?? Number.POSITIVE_INFINITY;
    this.#bar = process.stderr.isTTY
      ? new SingleBar(
          {
            stream: process.stderr,
            format: '{bar} {scored}  {rate}  {works}  {left}  {note}',
            hideCursor: true,
            clearOnComplete: true,
            stopOnComplete: false,
            fps: 5,
          },
          Presets.rect,
        )
      : null;
  }

  /**
   * @param scored how many are scored by now
   * @param fresh how many of them this run has scored itself
   * @param working how many work
   */
  update(scored: number, fresh: number, working: number): void {
    if (!this.#begun) {
      this.#begun = true;
      this.#bar?.start(1, 0, this.#words(scored, fresh, working));
    }
    this.#bar?.update(this.#share(scored), this.#words(scored, fresh, working));
    const now = performance.now();
    if (this.#bar !== null || now - this.#plainAt < PLAIN_EVERY) return;
    this.#plainAt = now;
    const { scored: count, rate, works, left } = this.#words(scored, fresh, working);
    tell([count, rate, works, left].filter((words) => words !== '').join(', '));
    if (this.#note !== this.#noted) tell(`  ${this.#note}`);
    this.#noted = this.#note;
  }

  /** What there is to say besides, until there is something else: behind the bar, or below the next plain line. */
  note(words: string): void {
    this.#note = words;
  }

  stop(): void {
    this.#bar?.stop();
  }

  get #elapsed(): number {
    return (performance.now() - this.#started) / 1000;
  }

  /** How much of the whole is done, 0 to 1: of the count, or of the time, whichever is further. */
  #share(scored: number): number {
    return Math.min(
      1,
      Math.max(this.#total === null ? 0 : scored / this.#total, this.#elapsed / this.#seconds),
    );
  }

  #words(scored: number, fresh: number, working: number) {
    const rate = fresh / this.#elapsed;
    const left = Math.min(
      this.#seconds - this.#elapsed,
      this.#total === null ? Number.POSITIVE_INFINITY : (this.#total - scored) / rate,
    );
    const dummies = (count: number) => counted(count, 'dummy', 'dummies');
    return {
      scored:
        this.#total === null ? dummies(scored) : `${scored.toLocaleString('en')} of ${dummies(this.#total)}`,
      rate: `${rate < 10 ? rate.toFixed(1) : Math.round(rate)} a second`,
      works: scored === 0 ? '' : `${share(working, scored)} work`,
      left: fresh < STEADY ? '' : `${duration(Math.max(0, left))} left`,
      note: this.#note,
    };
  }
}

/** A time in words. @example duration(75) // '1 min 15 s' */
export function duration(seconds: number): string {
  const whole = Math.round(seconds);
  if (whole < 60) return `${whole} s`;
  if (whole < 3600) return `${Math.floor(whole / 60)} min ${whole % 60} s`;
  return `${Math.floor(whole / 3600)} h ${Math.floor((whole % 3600) / 60)} min`;
}
