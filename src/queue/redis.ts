import type { Queue } from 'bullmq';
import { Redis } from 'ioredis';
import { StudyError } from '../disk/error.js';
import type { Address } from './address.js';

/** The first connection is there within this time, or the address is wrong, ms. */
const AT_FIRST = 10_000;
/** A Redis that gives no answer for so long is gone, ms: a network may end without a word. */
export const SILENT = 30_000;
/** How often it is asked, ms. */
const ASK_EVERY = 10_000;

/** All that the queue keeps begins with it. */
export const PREFIX = 'dummyrun';

/** What is said on the way, a line each. */
export type Tell = (line: string) => void;

/** A connection that comes back by itself. */
export interface Connection {
  readonly redis: Redis;
  /** Another one to the same Redis, for what waits. */
  another(): Redis;
  /** Given once Redis has been gone for longer than its patience. */
  readonly lost: AbortSignal;
  /** Does a task each time that Redis is back. */
  onBack(task: () => void): void;
  close(): void;
}

/**
 * Connects to a Redis, and says when it is gone and when it is back.
 * @param patience for how long it may be gone, ms
 * @throws StudyError when it can't be reached at first
 */
export async function connected(
  { options, told }: Address,
  tell: Tell,
  patience: number,
): Promise<Connection> {
  const redis = new Redis({
    ...options,
    lazyConnect: true,
    maxRetriesPerRequest: null,
    connectTimeout: AT_FIRST,
    retryStrategy: (times) => Math.min(200 * times, 2000),
  });
  let fault: Error | null = null;
  // Whatever it says is told here in words of our own: some of its errors hold the password.
  redis.on('error', (error: Error) => {
    fault = error;
  });
  try {
    await within(AT_FIRST, async () => {
      await redis.connect();
      await redis.ping();
    });
  } catch (error) {
    redis.disconnect();
    throw new StudyError(`Cannot use Redis at ${told}: ${reasonOf(fault ?? error)}`);
  }
  const lost = new AbortController();
  const tasks: (() => void)[] = [];
  let closing = false;
  let gone: NodeJS.Timeout | null = null;
  const leave = () => {
    if (gone !== null || closing) return;
    tell(`Redis at ${told} does not answer: waiting for it.`);
    gone = setTimeout(() => {
      tell(`Redis at ${told} has not answered for ${Math.round(patience / 1000)} s.`);
      lost.abort();
    }, patience);
  };
  redis.on('close', leave);
  redis.on('ready', () => {
    if (gone === null) return;
    clearTimeout(gone);
    gone = null;
    tell(`Redis at ${told} answers again.`);
    for (const task of tasks) task();
  });
  const asking = setInterval(() => {
    if (redis.status !== 'ready') return;
    within(SILENT, () => redis.ping()).catch((error: unknown) => {
      if (error instanceof Late && !closing) redis.disconnect(true);
    });
  }, ASK_EVERY);
  return {
    redis,
    another: () => {
      const other = redis.duplicate({ lazyConnect: false });
      other.on('error', () => {});
      return other;
    },
    lost: lost.signal,
    onBack: (task) => {
      tasks.push(task);
    },
    close() {
      closing = true;
      clearInterval(asking);
      if (gone !== null) clearTimeout(gone);
      redis.disconnect();
    },
  };
}

/** Does a task with a key. What another has put in its place, of another sort, is taken away. */
export async function inPlace<T>(redis: Redis, key: string, task: () => Promise<T>): Promise<T> {
  try {
    return await task();
  } catch (error) {
    if (!(error instanceof Error && error.message.startsWith('WRONGTYPE'))) throw error;
    await redis.del(key);
    return await task();
  }
}

/** Where BullMQ keeps its lists. */
const PLACES = [
  'wait',
  'paused',
  'active',
  'stalled',
  'stalled-check',
  'prioritized',
  'delayed',
  'completed',
  'failed',
].concat(['meta', 'marker', 'id', 'pc', 'events', 'limiter']);
/**
 * Takes away what stands in the places of a queue, where another has put something else. What lay in them is lost, and is
 * handed out again by whom it is of.
 */
export async function clearPlaces(queue: Queue, redis: Redis): Promise<void> {
  await redis.del(...PLACES.map((place) => queue.toKey(place))).catch(() => 0);
}

/** Time was up before an answer came. */
export class Late extends Error {}

/** @throws Late when time is up, and what the task throws */
export async function within<T>(ms: number, task: () => Promise<T>): Promise<T> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new Late()), ms);
  });
  const running = task();
  running.catch(() => {});
  try {
    return await Promise.race([running, late]);
  } finally {
    clearTimeout(timer);
  }
}

/** Causes that an address can have, by their codes, with what would do. */
const CAUSES: Readonly<Record<string, string>> = {
  ECONNREFUSED: 'nothing listens there. Start it, or give another address.',
  ENOTFOUND: 'there is no such host. Look at how it is written.',
  EAI_AGAIN: 'names of hosts cannot be looked up now. Look at the network.',
  EHOSTUNREACH: 'no way leads to that host. Look at the network.',
  ETIMEDOUT: 'it does not answer. Look at the network and at what is let through.',
  ECONNRESET: 'it hangs up. An address with TLS begins with rediss://, one without with redis://.',
  WRONGPASS: 'it knows no such user with that password.',
  NOAUTH: 'it asks for a password: give it before the host, as in redis://:password@host.',
  NOPERM: 'that user may not do what a queue needs.',
  DEPTH_ZERO_SELF_SIGNED_CERT:
    'its certificate is signed by itself: name the file of that certificate in the variable NODE_EXTRA_CA_CERTS.',
  SELF_SIGNED_CERT_IN_CHAIN:
    'its certificate comes from an authority of your own: name its file in the variable NODE_EXTRA_CA_CERTS.',
  UNABLE_TO_VERIFY_LEAF_SIGNATURE:
    'its certificate comes from an unknown authority: name its file in the variable NODE_EXTRA_CA_CERTS.',
  ERR_TLS_CERT_ALTNAME_INVALID: 'its certificate is for another host.',
  CERT_HAS_EXPIRED: 'its certificate has expired.',
};

function reasonOf(error: unknown): string {
  const message = error instanceof Error ? error.message : '';
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  const [word] = message.split(' ', 1);
  return CAUSES[code] ?? CAUSES[word] ?? 'it does not answer as Redis does. Look at address, port and TLS.';
}
