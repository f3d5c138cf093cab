import { Presets, SingleBar } from 'cli-progress';
import { counted, share } from '../report/words.js';

/** How often a plain line is written where there is no terminal, ms. */
const PLAIN_EVERY = 10_000;

/** The first few tell how long workers take to start, not how long there is left. */
const STEADY = 50;

/** Shows how far a study is: a bar in a terminal, else a plain line now and then. All of it goes to standard error. */
export class Progress {
  readonly #total: number;
  readonly #started = performance.now();
  readonly #bar: SingleBar | null;
  #begun = false;
  #plainAt = this.#started;

  constructor(total: number) {
    this.#total = total;
    this.#bar = process.stderr.isTTY
      ? new SingleBar(
          {
            stream: process.stderr,
            format: '{bar} {value} of {total}  {rate}  {works}  {left}',
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
      this.#bar?.start(this.#total, scored, this.#words(scored, fresh, working));
    }
    this.#bar?.update(scored, this.#words(scored, fresh, working));
    const now = performance.now();
    if (this.#bar !== null || now - this.#plainAt < PLAIN_EVERY) return;
    this.#plainAt = now;
    const { rate, works, left } = this.#words(scored, fresh, working);
    console.error(
      `${scored.toLocaleString('en')} of ${counted(this.#total, 'dummy', 'dummies')}, ${rate}, ${works}, ${left}`,
    );
  }

  stop(): void {
    this.#bar?.stop();
  }

  #words(scored: number, fresh: number, working: number) {
    const rate = fresh / ((performance.now() - this.#started) / 1000);
    return {
      rate: `${rate < 10 ? rate.toFixed(1) : Math.round(rate)} a second`,
      works: scored === 0 ? '' : `${share(working, scored)} work`,
      left: fresh < STEADY ? '' : `${duration((this.#total - scored) / rate)} left`,
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
