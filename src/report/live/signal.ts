/** A value that can be watched: picking anywhere selects everywhere, without the parts knowing of one another. */
export class Signal<T> {
  readonly #listeners: ((value: T) => void)[] = [];
  #value: T;

  constructor(value: T) {
    this.#value = value;
  }

  get value(): T {
    return this.#value;
  }

  set value(value: T) {
    if (Object.is(value, this.#value)) return;
    this.#value = value;
    for (const listener of this.#listeners) listener(value);
  }

  /** Calls back now and after each change. */
  watch(listener: (value: T) => void): void {
    this.#listeners.push(listener);
    listener(this.#value);
  }
}

/** Calls back now and after each change of any of them. */
export function onAny(signals: readonly { watch(listener: () => void): void }[], listener: () => void): void {
  for (const signal of signals) signal.watch(listener);
}
