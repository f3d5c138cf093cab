/**
 * Whether anything comes of what is lent. Whoever meddles with a queue may see to it that nothing does, and a study is not to
 * wait for that for ever.
 */
export class Usefulness {
  readonly #late: number;
  /** When an answer was of use last, or none was to be expected. */
  #since = performance.now();
  #gaveUp = false;

  /** @param late ms after which nothing is expected any more */
  constructor(late: number) {
    this.#late = late;
  }

  /** An answer was of use. */
  used(): void {
    this.#since = performance.now();
    this.#gaveUp = false;
  }

  /** Nobody lends, or nothing is to be answered: who was of no use before is so still. */
  idle(): void {
    if (!this.#gaveUp) this.#since = performance.now();
  }

  get isNone(): boolean {
    return performance.now() - this.#since > this.#late;
  }

  /** @returns whether that is new since there was an answer of use */
  giveUp(): boolean {
    const isNew = !this.#gaveUp;
    this.#gaveUp = true;
    return isNew;
  }
}
