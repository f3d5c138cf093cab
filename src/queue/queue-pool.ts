import { createHash, randomUUID } from 'node:crypto';
import { setMaxListeners } from 'node:events';
import { Queue } from 'bullmq';
import type { Redis } from 'ioredis';
import type { FigureSource } from '../figure/text/source.js';
import { type FigurePool, figurePool, type Trial } from '../study/figure-pool.js';
import type { ScoringFailure, WorkerPool } from '../study/pool.js';
import type { Layout } from '../study/row.js';
import type { Address } from './address.js';
import { Errand, type Parcel } from './errand.js';
import { Lenders } from './lenders.js';
import { type Likeness, markOf, ownLikeness } from './likeness.js';
import {
  type AnswerMessage,
  answerMessage,
  bytesOf,
  messageIn,
  type ParcelMessage,
  trialIn,
  trialOut,
} from './messages.js';
import {
  type Connection,
  clearPlaces,
  connected,
  inPlace,
  Late,
  PREFIX,
  SILENT,
  type Tell,
  within,
} from './redis.js';
import { answersKey, figureKey, lendersIn, queueName, refusalKey, studiesIn } from './roster.js';
import { Usefulness } from './usefulness.js';

/** How often it looks who lends, and what has become of parcels, ms. */
const LOOK_EVERY = 2_000;
/**
 * A parcel that a lender has held for so long is handed to another one, too; and where nothing of use is answered for so
 * long, this machine scores meanwhile, ms.
 */
const LATE = 60_000;
/** What lenders can't score in so many tries this machine scores itself. */
const MOST_TRIES = 3;
/** Parcels handed out for each worker that is lent, so that none waits for the next; and some at least. */
const AHEAD = 3;
const FEWEST_AHEAD = 8;
/** A Redis that is gone for longer than this ends the study as Ctrl-C does, ms. */
const PATIENCE = 10 * 60_000;
/** Answers taken in one message. */
const AT_ONCE = 100;
/** What is left behind in Redis fades after this, s. */
const KEPT = 3600;

export interface QueueOptions {
  readonly address: Address;
  readonly source: FigureSource;
  /** The figure's name, as lenders are told it. */
  readonly figure: string;
  readonly layout: Layout;
  readonly tell: Tell;
  /** ms; both for tests. */
  readonly patience?: number;
  readonly late?: number;
}

/**
 * A pool whose workers are lent by other machines, over a queue in Redis.
 *
 * Answers are checked, and the first of each lender against what this machine scores itself. Whatever does not come, or
 * can't be right, is handed to others, and after some tries scored here: so the answers are those of a pool of threads.
 */
export class QueuePool implements FigurePool {
  readonly #options: QueueOptions;
  readonly #id = randomUUID();
  readonly #likeness: Likeness = ownLikeness();
  readonly #lenders = new Lenders(this.#likeness);
  readonly #figure: string;
  readonly #figureMark: string;
  readonly #out = new Map<number, Parcel>();
  readonly #errands = new Set<Errand>();
  readonly #waiting = new Set<() => void>();
  readonly #closed = new AbortController();
  readonly #connection: Connection;
  readonly #answers: Redis;
  readonly #queue: Queue;
  #timer: NodeJS.Timeout | undefined;
  #looking = false;
  #toldNobody = false;
  readonly #late: number;
  readonly #lent: Usefulness;
  #helping = false;
  #toldRefusal = '';
  #numbered = 0;
  #most = 0;
  #fault: Error | null = null;
  /** A worker of this machine, to check by. */
  readonly #own: WorkerPool<Trial>;

  private constructor(options: QueueOptions, connection: Connection) {
    this.#options = options;
    this.#connection = connection;
    this.#late = options.late ?? LATE;
    this.#lent = new Usefulness(this.#late);
    this.#answers = connection.another();
    this.#queue = new Queue(queueName(markOf(this.#likeness)), {
      connection: connection.redis,
      prefix: PREFIX,
      streams: { events: { maxLen: 100 } },
    });
    this.#queue.on('error', () => {});
    this.#own = figurePool(options.source, 1);
    // Answers of many new lenders may be checked at once.
    setMaxListeners(0, this.#closed.signal);
    this.#figure = JSON.stringify(options.source);
    this.#figureMark = createHash('sha256').update(this.#figure).digest('hex');
  }

  /** @throws StudyError when there is no Redis to be used */
  static async open(options: QueueOptions): Promise<QueuePool> {
    const { address, tell, patience = PATIENCE } = options;
    const pool = new QueuePool(options, await connected(address, tell, patience));
    await pool.#begin();
    return pool;
  }

  async #begin(): Promise<void> {
    this.lost.addEventListener('abort', () => this.#wake(), { once: true });
    this.#connection.onBack(() => void this.#look());
    await this.#look();
    this.#timer = setInterval(() => void this.#look(), LOOK_EVERY);
    void this.#listen();
  }

  /** Given once Redis has been gone for long: then nothing is scored any more. */
  get lost(): AbortSignal {
    return this.#connection.lost;
  }

  /** The most workers that were lent at once. */
  get mostWorkers(): number {
    return this.#most;
  }

  /** Answers in the order of the batch, each as soon as it and all before it are there. Ends early when stopped, or lost. */
  async *run(
    batch: readonly Float64Array[],
    stop: AbortSignal,
    inShort = false,
  ): AsyncGenerator<Trial | ScoringFailure> {
    const errand = new Errand(batch, inShort);
    const wake = () => this.#wake();
    stop.addEventListener('abort', wake, { once: true });
    this.#errands.add(errand);
    try {
      this.#hand();
      while (!errand.isRead && !stop.aborted && !this.lost.aborted) {
        if (this.#fault) throw this.#fault;
        const woken = new Promise<void>((resolve) => this.#waiting.add(resolve));
        yield* errand.read();
        if (!errand.isRead && !stop.aborted && !this.lost.aborted) await woken;
      }
    } finally {
      stop.removeEventListener('abort', wake);
      this.#errands.delete(errand);
      const left = errand.parcels.filter(({ number }) => this.#out.delete(number));
      void this.#withdraw(left);
    }
  }

  /** Ends it, and takes out of Redis what was there for it. */
  async close(): Promise<void> {
    clearInterval(this.#timer);
    this.#closed.abort();
    const { redis } = this.#connection;
    this.#answers.disconnect();
    try {
      if (redis.status === 'ready')
        await within(5000, async () => {
          await this.#withdraw([...this.#out.values()]);
          await studiesIn(redis).leave(this.#id);
          await redis.del(answersKey(this.#id));
        });
    } catch {
      // It fades by itself.
    }
    if (this.#lenders.account !== '') this.#options.tell(this.#lenders.account);
    await this.#queue.close().catch(() => {});
    this.#connection.close();
    await this.#own.close();
  }

  #wake(): void {
    const waiting = [...this.#waiting];
    this.#waiting.clear();
    for (const each of waiting) each();
  }

  /** Hands out as many parcels as keep all busy who lend. */
  #hand(): void {
    const most = Math.max(FEWEST_AHEAD, AHEAD * this.#lenders.workers);
    // Nothing was to be answered until now: much may have been worked out here meanwhile.
    if (this.#out.size === 0) this.#lent.idle();
    const parcels: Parcel[] = [];
    for (const errand of this.#errands)
      while (this.#out.size < most) {
        const parcel = errand.next(this.#numbered, this.#lenders.workers);
        if (parcel === null) break;
        this.#numbered++;
        this.#out.set(parcel.number, parcel);
        parcels.push(parcel);
      }
    if (parcels.length > 0) void this.#send(parcels);
    if (parcels.length > 0 && this.#lent.isNone) void this.#help();
  }

  async #send(parcels: readonly Parcel[]): Promise<void> {
    const jobs = parcels.map((parcel) => {
      parcel.tries++;
      parcel.handed = performance.now();
      parcel.taken = null;
      const data: ParcelMessage = {
        study: this.#id,
        figure: this.#figureMark,
        parcel: parcel.number,
        vectors: parcel.vectors.map(bytesOf),
        inShort: parcel.inShort,
      };
      const opts = { jobId: this.#jobId(parcel), removeOnComplete: true, removeOnFail: true };
      return { name: 'parcel', data, opts };
    });
    await this.#asked(() => this.#queue.addBulk(jobs));
  }

  #jobId({ number, tries }: Parcel): string {
    return `${this.#id}-${number}-${tries}`;
  }

  /** Hands a parcel out once more, or scores it here. */
  #handAgain(parcel: Parcel): void {
    if (parcel.tries < MOST_TRIES) void this.#send([parcel]);
    else void this.#scoreHere(parcel);
  }

  async #withdraw(parcels: readonly Parcel[]): Promise<void> {
    if (this.#connection.redis.status !== 'ready') return;
    // Those in the hands of a lender stay: it finds that nobody waits for them.
    await Promise.all(parcels.map((parcel) => this.#queue.remove(this.#jobId(parcel)).catch(() => 0)));
  }

  /** What Redis gives; undefined where it refuses, which is told. */
  async #asked<T>(task: () => Promise<T>): Promise<T | undefined> {
    try {
      return await task();
    } catch (error) {
      const [word] = error instanceof Error ? error.message.split(' ', 1) : [''];
      if (word === 'WRONGTYPE') await clearPlaces(this.#queue, this.#connection.redis);
      if (this.#closed.signal.aborted || !/^[A-Z]+$/.test(word) || word === this.#toldRefusal)
        return undefined;
      this.#toldRefusal = word;
      this.#options.tell(
        word === 'WRONGTYPE'
          ? "Something else lay in the queue's place in Redis, and was taken away: look who may write there."
          : `Redis refuses to do what a queue needs (${word}): look at its memory, its rights and its role.`,
      );
      return undefined;
    }
  }

  /** Says that it is there, looks who lends, and what has become of parcels. */
  async #look(): Promise<void> {
    const { redis } = this.#connection;
    if (this.#looking || this.#closed.signal.aborted || redis.status !== 'ready') return;
    this.#looking = true;
    try {
      await this.#asked(async () => {
        await studiesIn(redis).enter({
          id: this.#id,
          figure: this.#options.figure,
          likeness: this.#likeness,
        });
        if ((await redis.expire(figureKey(this.#figureMark), KEPT)) === 0) await this.#leaveFigure();
        for (const line of this.#lenders.see(await lendersIn(redis).all())) this.#options.tell(line);
        this.#most = Math.max(this.#most, this.#lenders.workers);
        if (this.#lenders.workers === 0 && !this.#toldNobody) {
          this.#toldNobody = true;
          this.#options.tell(
            `Nobody lends yet: give 'dummyrun lend' the same address, on as many machines as you like.`,
          );
        }
        await this.#sweep();
      });
    } finally {
      this.#looking = false;
    }
    this.#hand();
    if (this.#lenders.workers === 0 || this.#out.size === 0) this.#lent.idle();
    else if (this.#lent.isNone) void this.#help();
  }

  async #leaveFigure(): Promise<void> {
    await this.#connection.redis.set(figureKey(this.#figureMark), this.#figure, 'EX', KEPT);
  }

  /** Scores here what was asked for first, as long as nothing comes of what is lent: someone may meddle with the queue. */
  async #help(): Promise<void> {
    if (this.#helping) return;
    this.#helping = true;
    if (this.#lent.giveUp())
      this.#options.tell('Nothing of use is answered by those who lend: this machine scores meanwhile.');
    while (this.#lent.isNone && !this.#closed.signal.aborted) {
      const first = [...this.#out.values()].find(({ answered }) => !answered);
      if (first === undefined) break;
      void this.#withdraw([first]);
      await this.#scoreHere(first);
    }
    this.#helping = false;
  }

  /** Hands parcels out again that have been lost, or that a lender holds for too long. */
  async #sweep(): Promise<void> {
    const before = performance.now() - LOOK_EVERY;
    const old = [...this.#out.values()].filter(({ handed, answered }) => handed < before && !answered);
    const states = await Promise.all(old.map((parcel) => this.#queue.getJobState(this.#jobId(parcel))));
    const now = performance.now();
    old.forEach((parcel, i) => {
      if (!this.#out.has(parcel.number) || parcel.answered || parcel.handed >= before) return;
      if (states[i] === 'active') {
        parcel.taken ??= now;
        if (now - parcel.taken > this.#late) this.#handAgain(parcel);
      } else if (states[i] === 'unknown' || states[i] === 'failed') {
        // Redis was started anew, or an answer was lost: no lender is to blame.
        parcel.tries = Math.min(parcel.tries, MOST_TRIES - 1);
        this.#handAgain(parcel);
      }
    });
  }

  /** Takes answers as they come. */
  async #listen(): Promise<void> {
    const key = answersKey(this.#id);
    while (!this.#closed.signal.aborted) {
      try {
        const first = await within(SILENT, () =>
          inPlace(this.#connection.redis, key, () => this.#answers.blpop(key, 5)),
        );
        if (first === null) continue;
        const more = (await this.#answers.lpop(key, AT_ONCE)) ?? [];
        for (const text of [first[1], ...more]) void this.#take(text);
        this.#hand();
      } catch (error) {
        if (this.#closed.signal.aborted) return;
        if (error instanceof Late) this.#answers.disconnect(true);
        await new Promise((resolve) => setTimeout(resolve, 500));
      }
    }
  }

  async #take(text: string): Promise<void> {
    const answer = messageIn(answerMessage, text);
    const parcel = answer === null ? undefined : this.#out.get(answer.parcel);
    // Nobody can be told what can't be read, and what is answered already is not needed twice.
    if (answer === null || parcel === undefined) return;
    parcel.answered = true;
    try {
      const trials = await this.#checked(answer, parcel);
      if (!this.#out.has(parcel.number)) return;
      parcel.answered = false;
      if (trials === null) this.#handAgain(parcel);
      else {
        this.#lenders.count(answer.lender, trials.length);
        this.#lent.used();
        this.#settle(parcel, trials);
      }
    } catch (error) {
      this.#fail(error);
    }
  }

  #settle(parcel: Parcel, trials: (Trial | ScoringFailure)[]): void {
    this.#out.delete(parcel.number);
    parcel.trials = trials;
    this.#hand();
    this.#wake();
  }

  /** The trials of an answer, once they are known to be right as far as that can be told; else null. */
  async #checked(
    { lender, trials }: AnswerMessage,
    { vectors, inShort }: Parcel,
  ): Promise<(Trial | ScoringFailure)[] | null> {
    if (this.#lenders.isRefused(lender)) return null;
    // It had no figure, since that was taken away or changed, or could not start: another may.
    if (trials.length === 0) {
      await this.#asked(() => this.#leaveFigure());
      return null;
    }
    const found = trials.map((trial) => (trial === null ? undefined : trialIn(trial, this.#options.layout)));
    if (found.length !== vectors.length || found.includes(null)) {
      await this.#refuse(lender, 'it answered what is no score of this figure');
      return null;
    }
    if (!this.#lenders.isKnown(lender)) {
      const scored = found.findIndex((trial) => trial);
      if (scored >= 0) {
        const [own] = await this.#scoredHere([vectors[scored]], inShort);
        if (JSON.stringify(own && trialOut(own)) !== JSON.stringify(trials[scored])) {
          await this.#refuse(lender, 'it scores otherwise than this machine');
          return null;
        }
      }
    }
    const checked: (Trial | ScoringFailure)[] = [];
    // What can't be scored elsewhere must fail here, too, and for the reason that it has here.
    for (const [i, trial] of found.entries())
      checked.push(trial ?? (await this.#scoredHere([vectors[i]], inShort))[0]);
    return checked;
  }

  async #refuse(lender: string, why: string): Promise<void> {
    if (!this.#lenders.refuse(lender, why)) return;
    this.#options.tell(`${lender} is refused: ${why}.`);
    await this.#asked(() => this.#connection.redis.set(refusalKey(lender), why, 'EX', 60));
  }

  async #scoreHere(parcel: Parcel): Promise<void> {
    this.#out.delete(parcel.number);
    try {
      this.#settle(parcel, await this.#scoredHere(parcel.vectors, parcel.inShort));
    } catch (error) {
      this.#fail(error);
    }
  }

  #fail(error: unknown): void {
    if (this.#closed.signal.aborted) return;
    this.#fault = error instanceof Error ? error : new Error(String(error));
    this.#wake();
  }

  async #scoredHere(vectors: readonly Float64Array[], inShort: boolean): Promise<(Trial | ScoringFailure)[]> {
    const trials: (Trial | ScoringFailure)[] = [];
    for await (const trial of this.#own.run(vectors, this.#closed.signal, inShort)) trials.push(trial);
    this.#closed.signal.throwIfAborted();
    return trials;
  }
}
