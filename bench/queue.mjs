#!/usr/bin/env node
/**
 * How far a study on a queue scales: measures what a parcel costs Redis and the machine of the study, and what the core that
 * decides takes for each candidate; then plays a study on many cores through with these times.
 *
 *   npm run bench -- queue
 *
 * Needs `redis-server`. The model: batches follow one another; a batch ends when its last answer is in. Within a batch the
 * machine of the study, Redis and the cores work beside one another, so the slowest of the three sets the pace; then come the
 * last parcels and one way there and back. Times are of processors, so that a busy machine measures the same.
 */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Queue, Worker } from 'bullmq';
import { build } from 'esbuild';
import { Redis } from 'ioredis';

/** What one candidate takes to score, ms: see DEVELOPERS.md. */
const FIGURES = { 'little tent': 0.4, ferryman: 3.1, tightrope: 12 };
const CORES = [10, 100, 1000];
const BUDGETS = [1e5, 1e6, 1e7];
/** One way between two machines, ms. */
const WAY = 1;
const LARGEST_PARCEL = 64;

const server = createServer().listen(0, '127.0.0.1');
await once(server, 'listening');
const { port } = server.address();
server.close();
const dir = mkdtempSync(join(tmpdir(), 'dummyrun-bench-'));
const daemon = spawn('redis-server', [
  '--port',
  `${port}`,
  '--bind',
  '127.0.0.1',
  '--save',
  '',
  '--dir',
  dir,
]);
daemon.on('error', () => {
  console.error('There is no redis-server. Debian has it: apt-get install redis-server.');
  process.exit(1);
});
const redis = new Redis(port, '127.0.0.1', { maxRetriesPerRequest: null });
redis.on('error', () => {});
await redis.ping();

/** Seconds of processor that Redis has used. */
async function usedByRedis() {
  const info = await redis.info('cpu');
  return ['used_cpu_user', 'used_cpu_sys'].reduce(
    (sum, name) => sum + Number(new RegExp(`${name}:([\\d.]+)`).exec(info)[1]),
    0,
  );
}
const memoryOfRedis = async () => Number(/used_memory:(\d+)/.exec(await redis.info('memory'))[1]);
const own = () => process.cpuUsage().user + process.cpuUsage().system;

/** A parcel there and its answer back, as they are: ms of processor for Redis, and for the machine of the study. */
async function measured(candidates, count) {
  const queue = new Queue('bench', {
    connection: redis,
    prefix: 'bench',
    streams: { events: { maxLen: 100 } },
  });
  await queue.waitUntilReady();
  const vectors = Array.from({ length: candidates }, () => Buffer.alloc(8 * 8, 1).toString('base64'));
  const trial = {
    outcome: 'fails',
    numbers: Buffer.alloc(25 * 8, 1).toString('base64'),
    met: '1'.repeat(12),
  };
  const trials = vectors.map(() => ({
    ...trial,
    words: ['sail left and mast', '', '', ''],
    failure: 'sail left catches on mast',
  }));
  const opts = { removeOnComplete: true };
  const before = await memoryOfRedis();
  const [redisAt, ownAt] = [await usedByRedis(), own()];
  const study = 'x'.repeat(36);
  for (let i = 0; i < count; i += 50)
    await queue.addBulk(
      Array.from({ length: 50 }, (_, k) => ({
        name: 'parcel',
        data: { study, parcel: i + k, vectors },
        opts: { ...opts, jobId: `j-${i + k}` },
      })),
    );
  const ownOut = own() - ownAt;
  const waiting = (await memoryOfRedis()) - before;
  let done = 0;
  const worker = new Worker(
    'bench',
    async ({ data }) => {
      await redis
        .multi()
        .rpush('answers', JSON.stringify({ parcel: data.parcel, trials }))
        .pexpire('answers', 1e6)
        .exec();
      done++;
    },
    { connection: redis, prefix: 'bench', concurrency: 8, removeOnComplete: { count: 0 } },
  );
  while (done < count) await new Promise((later) => setTimeout(later, 20));
  await worker.close();
  const ownIn = own();
  for (let got = await redis.lpop('answers', 100); got; got = await redis.lpop('answers', 100))
    for (const text of got) JSON.parse(text).trials.map(({ numbers }) => Buffer.from(numbers, 'base64'));
  const study_ = (ownOut + own() - ownIn) / 1000 / count;
  const redis_ = (1000 * ((await usedByRedis()) - redisAt)) / count;
  await queue.close();
  return { redis: redis_, study: study_, bytes: waiting / count };
}

await measured(16, 200);
const small = await measured(1, 2000);
const large = await measured(LARGEST_PARCEL, 2000);
/** ms of processor for a parcel of so many. */
const parcel = (what, candidates) =>
  small[what] + ((large[what] - small[what]) * (candidates - 1)) / (LARGEST_PARCEL - 1);
await redis.quit();
daemon.kill('SIGKILL');

/** The search itself, on a made-up figure with two wants: ms of processor for each candidate it asks for and is told of. */
async function deciding(budget) {
  const search = new Search(
    Array.from({ length: 8 }, (_, i) => ({ name: `x${i}`, kind: 'real', min: 0, max: 1 })),
    { seed: 1, budget },
  );
  // Some twenty batches are enough: the time for each hardly grows after that.
  const enough = Math.min(budget, 48_000);
  let count = 0;
  const before = own();
  for (let asked = await search.ask(); asked && count < enough; asked = await search.ask()) {
    count += asked.batch.length;
    search.tell(
      asked.batch.map((x) => {
        const g = 1 + (9 / 7) * x.subarray(1).reduce((a, b) => a + b);
        return {
          objectives: Float64Array.of(x[0], g * (1 - (x[0] / g) ** 2)),
          violation: Math.max(0, x[1] - 0.8),
        };
      }),
    );
  }
  return (own() - before) / 1000 / count;
}
const bundled = await build({
  stdin: {
    contents:
      "export { Search } from './src/search/search.ts'; export { batchSize } from './src/search/batch-size.ts'; export { StudyLog } from './src/study/log.ts';",
    resolveDir: join(import.meta.dirname, '..'),
  },
  bundle: true,
  format: 'esm',
  platform: 'node',
  external: ['@tensorflow/*'],
  write: false,
});
const { Search, batchSize, StudyLog } = await import(
  `data:text/javascript;base64,${Buffer.from(bundled.outputFiles[0].text).toString('base64')}`
);

/** To keep a dummy in the log: ms of processor. */
function keepingTime() {
  const log = StudyLog.create(join(dir, 'scored.jsonl'), {});
  const vector = Float64Array.from({ length: 8 }, (_, i) => Math.sqrt(i + 2));
  const numbers = Float64Array.from({ length: 25 }, (_, i) => Math.round(1e9 * Math.sqrt(i + 2)) / 1e9);
  const row = {
    outcome: 'fails',
    numbers,
    met: new Uint8Array(12),
    words: ['sail left and mast', '', '', ''],
  };
  const before = own();
  for (let i = 0; i < 20_000; i++) log.append({ stage: 'evolve', vector, row });
  const time = (own() - before) / 1000 / 20_000;
  log.close();
  return time;
}
const keeping = keepingTime();

const show = (label, values) =>
  console.log(label.padEnd(44), ...values.map((value) => String(value).padStart(9)));
const three = (x) => Number(x.toPrecision(2));
for (const size of [1, LARGEST_PARCEL])
  show(`parcel of ${size}: ms Redis, ms study, kB waiting`, [
    three(parcel('redis', size)),
    three(parcel('study', size)),
    three((size === 1 ? small : large).bytes / 1000),
  ]);

show('a dummy kept in the log: ms', [three(keeping)]);
for (const budget of BUDGETS) {
  const decide = await deciding(budget);
  const batch = batchSize(budget);
  show(`${budget} dummies, batches of ${batch}: ms to decide each`, [three(decide)]);
  for (const [name, score] of Object.entries(FIGURES)) {
    const row = CORES.map((cores) => {
      // As `Errand` cuts: half of each core's share first, then less and less.
      let [left, redisTime, studyTime] = [batch, 0, 0];
      while (left > 0) {
        const size = Math.min(LARGEST_PARCEL, Math.ceil(left / (2 * cores)));
        left -= size;
        redisTime += parcel('redis', size);
        studyTime += parcel('study', size);
      }
      const busy = Math.max((batch * score) / Math.min(cores, batch), redisTime, studyTime + batch * keeping);
      const time = (budget / batch) * (batch * decide + busy + score + 2 * WAY);
      return `${duration(time / 1000)} (${Math.round((100 * budget * score) / cores / time)} %)`;
    });
    show(
      `  ${name}, ${score} ms: on ${CORES.join(', ')} cores`,
      row.map((text) => text.padStart(16)),
    );
  }
}

function duration(seconds) {
  return seconds < 120
    ? `${Math.round(seconds)} s`
    : seconds < 7200
      ? `${Math.round(seconds / 60)} min`
      : `${(seconds / 3600).toFixed(1)} h`;
}
