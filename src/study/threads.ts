import { Piscina } from 'piscina';

/** How long threads that nobody uses are kept, ms. */
const KEPT = 60_000;

/** Threads that nobody uses, by their file and how many they are. They keep no process alive. */
const idle = new Map<string, Threads>();
const keyOf = (file: string, workers: number) => `${workers} ${file}`;

/**
 * Threads that run one worker file. Those that are given back serve whoever takes as many of that file next: a thread takes a second of
 * processor time until it has started and V8 has compiled what is hot.
 */
export class Threads {
  readonly #piscina: Piscina;
  readonly #key: string;
  #kept: NodeJS.Timeout | undefined;
  /** Why none of them starts; null while some do. */
  cannotStart: Error | null = null;
  /** Told once none of them starts. */
  onCannotStart: () => void = () => {};

  /** Starts them at once. @param data what each is given as it starts */
  constructor(file: string, workers: number, data: unknown) {
    this.#key = keyOf(file, workers);
    this.#piscina = new Piscina({
      filename: file,
      workerData: data,
      minThreads: workers,
      maxThreads: workers,
      recordTiming: false,
    });
    this.#piscina.on('error', (error: Error) => {
      // A worker that dies between two parcels is replaced. Where none is left, they die as they start, and Piscina
      // would keep every parcel waiting.
      if (this.#piscina.threads.length > 0) return;
      this.cannotStart = new Error(`the workers cannot start: ${error.message}`, { cause: error });
      if (idle.get(this.#key) === this) idle.delete(this.#key);
      this.onCannotStart();
    });
  }

  /** Those that were given back, or else new ones. */
  static taken(file: string, workers: number, data: unknown): Threads {
    const key = keyOf(file, workers);
    const found = idle.get(key);
    if (found === undefined) return new Threads(file, workers, data);
    idle.delete(key);
    clearTimeout(found.#kept);
    return found;
  }

  /** @throws what the worker threw; an AbortError when it was given up, which ends the thread that was at it */
  run<Answer>(task: unknown, signal: AbortSignal): Promise<Answer> {
    return this.#piscina.run(task, { signal });
  }

  /** Keeps them for whoever takes them next, for a while. Nothing must run in them. */
  async giveBack(): Promise<void> {
    if (this.cannotStart !== null || idle.has(this.#key)) return this.end();
    this.onCannotStart = () => {};
    idle.set(this.#key, this);
    this.#kept = setTimeout(() => {
      idle.delete(this.#key);
      void this.end();
    }, KEPT).unref();
  }

  async end(): Promise<void> {
    await this.#piscina.destroy();
  }
}
