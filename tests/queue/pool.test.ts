import { cpSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Worker } from 'bullmq';
import { Redis } from 'ioredis';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { addressOf } from '../../src/queue/address.js';
import { markOf, ownLikeness } from '../../src/queue/likeness.js';
import { type ParcelMessage, trialOut } from '../../src/queue/messages.js';
import { QueuePool } from '../../src/queue/queue-pool.js';
import { PREFIX } from '../../src/queue/redis.js';
import { answersKey, queueName } from '../../src/queue/roster.js';
import { Scorer } from '../../src/score/scorer.js';
import { type FigurePool, figurePool, type Trial } from '../../src/study/figure-pool.js';
import type { ScoringFailure, WorkerPool } from '../../src/study/pool.js';
import { Layout } from '../../src/study/row.js';
import { endAll, folderWith, started, TENT } from '../cli/support.js';
import { later, OwnRedis, SKIPPED, stopAll } from './redis.js';

const source = parseFigure(TENT, 'tent.yaml');
const figure = compileFigure(source);
const layout = new Layout(new Scorer(figure).score(figure.start));

/** Tents spread over their ranges: many of them can't be built. */
const TENTS = Array.from({ length: 500 }, (_, i) =>
  Float64Array.of(10 + ((i * 0.618) % 1) * 50, 20 + ((i * 0.414) % 1) * 120, i % 3),
);

const never = new AbortController().signal;
let local: (Trial | ScoringFailure)[] = [];
let redis: OwnRedis;
let pool: QueuePool | undefined;
let told: string[] = [];

async function opened(waits: { patience?: number; late?: number } = {}): Promise<QueuePool> {
  told = [];
  pool = await QueuePool.open({
    address: addressOf(redis.address),
    source,
    figure: figure.name,
    layout,
    tell: (line) => told.push(line),
    ...waits,
  });
  return pool;
}

async function answersOf(from: FigurePool, count: number, at: Record<number, () => unknown> = {}) {
  const answers: (Trial | ScoringFailure)[] = [];
  for await (const answer of from.run(TENTS.slice(0, count), never)) {
    answers.push(answer);
    await at[answers.length]?.();
  }
  return answers;
}

const lender = () => started('.', ['lend', redis.address, '--workers', '1']);
async function untilTold(words: RegExp): Promise<void> {
  while (!told.some((line) => words.test(line))) await later(20);
}

describe.skipIf(SKIPPED)('a study whose cores are lent over a queue', () => {
  /** Lends throughout. */
  let stays: ReturnType<typeof lender>;
  let here: WorkerPool<Trial>;

  beforeAll(async () => {
    redis = await OwnRedis.started();
    here = figurePool(source, 1);
    local = await answersOf(here, TENTS.length);
  });
  afterEach(async () => {
    await pool?.close();
    pool = undefined;
  });
  afterAll(async () => {
    endAll();
    stopAll();
    await here.close();
  });

  test('has the scores of one machine, whoever dies, joins late or is started anew', async () => {
    const pool = await opened();
    expect(told).toEqual([expect.stringContaining('Nobody lends yet')]);
    const dies = lender();
    stays = lender();
    let late: typeof stays | undefined;
    const answers = await answersOf(pool, TENTS.length, {
      // In the middle of a batch, with parcels in its hands.
      150: () => {
        dies.child.kill('SIGKILL');
        late = lender();
      },
    });
    expect(answers).toEqual(local);
    const again = await answersOf(pool, TENTS.length, {
      // More parcels are on their way, which nobody remembers afterwards.
      100: async () => {
        await redis.stop();
        await untilTold(/does not answer: waiting for it/);
        await redis.start();
      },
    });
    expect(again).toEqual(local);
    // The last answers may come before it is told that they do.
    await untilTold(/answers again/);
    expect(told).toContainEqual(expect.stringMatching(/^Lent: 2 workers \(\S+ 1, \S+ 1\)\.$/));
    late?.child.kill('SIGKILL');
    await pool.close();
    expect(told).toContainEqual(expect.stringMatching(/^Scored by \S+ [\d,]+/));
  });

  test('takes nothing from lenders that answer rubbish, or score otherwise', async () => {
    const pool = await opened();
    const ofOther = trialOut(local[0]);
    const answered: Record<string, (message: ParcelMessage) => string> = {
      noise: () => '\u0000 not even JSON {',
      prototype: ({ parcel }) =>
        `{"__proto__":{"works":true},"parcel":${parcel},"lender":"prototype","trials":[{}]}`,
      short: ({ parcel }) => JSON.stringify({ parcel, lender: 'short', trials: [ofOther] }),
      silent: ({ parcel }) => JSON.stringify({ parcel, lender: 'silent', trials: [] }),
      // Well-formed, and of this figure, but of another tent.
      swapped: ({ parcel, vectors }) =>
        JSON.stringify({ parcel, lender: 'swapped', trials: vectors.map(() => ofOther) }),
    };
    const connection = new Redis(redis.port, '127.0.0.1', { maxRetriesPerRequest: null });
    // One lender that answers in all these ways in turn, and is quicker than the other one.
    const ways = Object.values(answered);
    let turn = 0;
    const stranger = new Worker<ParcelMessage>(
      queueName(markOf(ownLikeness())),
      async ({ data }) => {
        await connection.rpush(answersKey(data.study), ways[turn++ % ways.length](data));
        if (turn === 2 * ways.length) void stranger.close();
      },
      { connection, prefix: PREFIX, removeOnComplete: { count: 0 } },
    );
    try {
      expect(await answersOf(pool, TENTS.length)).toEqual(local);
    } finally {
      await stranger.close();
      connection.disconnect();
    }
    expect(turn).toBeGreaterThanOrEqual(ways.length);
    expect(told).toContain('short is refused: it answered what is no score of this figure.');
    expect(told).toContain('swapped is refused: it scores otherwise than this machine.');
  });

  test('goes on where others take its places in Redis for something else, or stop its queue', async () => {
    const pool = await opened({ late: 500 });
    const connection = new Redis(redis.port, '127.0.0.1');
    const queue = `${PREFIX}:${queueName(markOf(ownLikeness()))}`;
    const [figureOfIt] = await connection.keys(`${PREFIX}:figure:*`);
    const study = (await connection.smembers(`${PREFIX}:studies`))[0];
    try {
      const answers = await answersOf(pool, 300, {
        50: async () => {
          await connection.set(figureOfIt, '{}');
          for (const key of [answersKey(study), `${PREFIX}:lenders`, `${PREFIX}:studies`, `${queue}:wait`])
            await connection.multi().del(key).set(key, 'something else').exec();
        },
        200: () => connection.hset(`${queue}:meta`, 'paused', '1'),
      });
      expect(answers).toEqual(local.slice(0, 300));
      expect(told).toContainEqual(expect.stringMatching(/this machine scores meanwhile/));
    } finally {
      await connection.del(`${queue}:meta`);
      connection.disconnect();
    }
  });

  test('refuses lenders of another version, and both say why', async () => {
    const folder = folderWith({});
    const dist = join(import.meta.dirname, '../../dist');
    cpSync(dist, join(folder, 'dist'), { recursive: true });
    symlinkSync(join(dist, '../node_modules'), join(folder, 'node_modules'));
    writeFileSync(join(folder, 'package.json'), JSON.stringify({ version: '9.9.9', type: 'module' }));
    await opened();
    const other = started(folder, ['lend', redis.address, '--workers', '1'], {
      program: join(folder, 'dist/cli.js'),
    });
    await untilTold(/^\S+ is refused: it runs version 9\.9\.9, this is \d+\.\d+\.\d+\.$/);
    await later(100);
    other.child.kill('SIGINT');
    expect((await other.ended).err).toMatch(/refuses this lender: it runs version \S+, this is 9\.9\.9\./);
  });

  test('scores itself what no lender can', async () => {
    const pool = await opened();
    // Where there are no dims every worker throws.
    const batch = [TENTS[0], new Float64Array(0), TENTS[1]];
    const both: unknown[][] = [[], []];
    for await (const answer of pool.run(batch, never)) both[0].push(answer);
    for await (const answer of here.run(batch, never)) both[1].push(answer);
    expect(both[0]).toEqual(both[1]);
  });

  test('ends with a whole beginning when Redis is gone for long', async () => {
    const pool = await opened({ patience: 300 });
    const answers = await answersOf(pool, TENTS.length, { 150: () => redis.stop() });
    await redis.start();
    expect(pool.lost.aborted).toBe(true);
    expect(answers.length).toBeGreaterThanOrEqual(150);
    expect(answers.length).toBeLessThan(TENTS.length);
    expect(answers).toEqual(local.slice(0, answers.length));
    expect(told.join('\n')).toMatch(/has not answered for/);
  });

  test('a lender that is stopped ends well, and says how much it did', async () => {
    const pool = await opened();
    expect(await answersOf(pool, 200)).toEqual(local.slice(0, 200));
    stays.child.kill('SIGINT');
    const { code, out, err } = await stays.ended;
    expect([code, out]).toEqual([0, expect.stringMatching(/^Scored [\d,]+ dummies for others\.\n$/)]);
    expect(err).toMatch(/Lending to a study of 'tent'\./);
    expect(err).toMatch(/does not answer: waiting for it/);
  });
});
