import { randomBytes } from 'node:crypto';
import { hostname } from 'node:os';
import { Worker } from 'bullmq';
import { StudyError } from '../disk/error.js';
import { quoted } from '../figure/text/input-error.js';
import type { Address } from './address.js';
import { first } from './lenders.js';
import { LentFigures } from './lent-figures.js';
import { markOf, ownLikeness, whyUnlike } from './likeness.js';
import {
  type AnswerMessage,
  MOST_FIGURE,
  numbersIn,
  type ParcelMessage,
  parcelMessage,
  trialOut,
} from './messages.js';
import { connected, PREFIX, type Tell } from './redis.js';
import { answersKey, figureKey, lendersIn, queueName, refusalKey, studiesIn } from './roster.js';

/** How often a lender says that it is there, ms. */
const SAY_EVERY = 2_000;
/** A parcel whose lender was not heard of for so long goes to another one; and how often that is looked at, ms. */
const LOCKED = 5_000;
const LOOK_FOR_DEAD = 1_500;
/** Parcels at hand beside those that are being scored, so that no worker waits for the next. */
const AHEAD = 1;
/** Answers that nobody takes fade after this, ms. */
const KEPT = 3_600_000;
/** A lender waits for its Redis as long as it is left to: some weeks, ms. */
const PATIENCE = 2 ** 31 - 1;

export interface LendOptions {
  readonly address: Address;
  readonly workers: number;
  readonly tell: Tell;
  /** Ends it, once what is in hand is scored. */
  readonly stop: AbortSignal;
}

/**
 * Lends the cores of this machine to studies, until it is stopped.
 * @returns how many candidates it has scored
 * @throws StudyError when there is no Redis to be used, or when a study refuses its answers
 */
export async function lend({ address, workers, tell, stop }: LendOptions): Promise<number> {
  const likeness = ownLikeness();
  const id = idOf(hostname());
  const connection = await connected(address, tell, PATIENCE);
  const { redis } = connection;
  const lenders = lendersIn(redis);
  const studies = studiesIn(redis);
  let there = new Set<string>();
  let scored = 0;
  let refused: string | null = null;
  const over = new AbortController();
  const end = () => over.abort();
  stop.addEventListener('abort', end, { once: true });
  if (stop.aborted) end();
  const hurry = new AbortController();
  const figures = new LentFigures(workers, (sha256) => redis.getrange(figureKey(sha256), 0, MOST_FIGURE));

  async function say(): Promise<void> {
    if (redis.status !== 'ready' || over.signal.aborted) return;
    try {
      await lenders.enter({ id, workers, likeness });
      const all = await studies.all();
      const fresh = [...all.values()].filter(({ id }) => !there.has(id));
      there = new Set(all.keys());
      const greetings = fresh.map((study) => greeting(study.figure, whyUnlike(study.likeness, likeness)));
      for (const line of first(greetings, 'studies')) tell(line);
      const why = await redis.getrange(refusalKey(id), 0, 200);
      if (why !== '') {
        refused = why;
        over.abort();
      }
    } catch {
      // Redis is away: that is told where parcels are asked for.
    }
  }

  async function answerTo({ study, figure, parcel, vectors, inShort }: ParcelMessage): Promise<void> {
    if (!there.has(study) && !(await studies.has(study))) return;
    const numbers = vectors.map(numbersIn).filter((vector) => vector !== null);
    let trials: AnswerMessage['trials'] = [];
    try {
      if (numbers.length === vectors.length)
        trials = (await figures.score(figure, numbers, inShort, hurry.signal))?.map(trialOut) ?? [];
    } catch (error) {
      tell(`A figure could not be scored here: ${quoted(error instanceof Error ? error.message : '')}`);
    }
    // In a hurry it has scored a part at most, and nobody waits for that.
    if (hurry.signal.aborted) return;
    const answer: AnswerMessage = { parcel, lender: id, trials };
    const key = answersKey(study);
    await redis.multi().rpush(key, JSON.stringify(answer)).pexpire(key, KEPT).exec();
    scored += trials.length;
  }

  connection.onBack(() => void say());
  await say();
  const worker = new Worker(
    queueName(markOf(likeness)),
    async ({ data }) => {
      const message = parcelMessage.safeParse(data).data;
      // What is no parcel is nobody's: it goes out of the queue with that.
      if (message !== undefined) await answerTo(message);
    },
    {
      connection: redis,
      prefix: PREFIX,
      concurrency: workers + AHEAD,
      lockDuration: LOCKED,
      stalledInterval: LOOK_FOR_DEAD,
      // With its own fifteen seconds it would be idle for as long after each time that Redis was gone.
      runRetryDelay: 1000,
      maxStalledCount: 1_000_000,
      removeOnComplete: { count: 0 },
      removeOnFail: { count: 0 },
    },
  );
  // Both are told of where the connection is: what a worker says of it may hold the password.
  worker.on('error', () => {});
  worker.on('failed', () => {});
  const timer = setInterval(() => void say(), SAY_EVERY);
  try {
    if (!over.signal.aborted)
      await new Promise((resolve) => over.signal.addEventListener('abort', resolve, { once: true }));
    if (refused !== null) hurry.abort();
    clearInterval(timer);
    // Without Redis nothing can be given back; what was in hand then goes to others by itself.
    const reachable = redis.status === 'ready';
    if (reachable) await lenders.leave(id).catch(() => {});
    await worker.close(!reachable).catch(() => {});
  } finally {
    clearInterval(timer);
    stop.removeEventListener('abort', end);
    hurry.abort();
    await figures.close();
    connection.close();
  }
  if (refused !== null) throw new StudyError(`A study refuses this lender: ${quoted(refused)}`);
  return scored;
}

/** What a lender tells of a study that it sees first. */
function greeting(figure: string, why: string | null): string {
  return why === null
    ? `Lending to a study of ${quoted(figure)}.`
    : `A study of ${quoted(figure)} refuses this lender: ${why}.`;
}

/** A name for this lender: its machine's, and a word that no other has. */
function idOf(host: string): string {
  const name = host
    .split('.')[0]
    .replace(/[^\w-]/g, '-')
    .slice(0, 40);
  return `${name === '' ? 'lender' : name}-${randomBytes(3).toString('hex')}`;
}
