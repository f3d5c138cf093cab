// Scores a dozen vectors with workers that have little memory; at 9 a worker fills it all, the first time or always.
import { WorkerPool } from '../../dist/src/study/pool.js';

const [, , folder, always] = process.argv;
const pool = new WorkerPool({
  file: new URL('fake-worker.mjs', import.meta.url).pathname,
  data: { folder, troubles: { 9: { trouble: 'fills its memory', always: always === 'always' } } },
  workers: 2,
  limit: 100_000,
});
const answers = [];
const vectors = Array.from({ length: 12 }, (_, i) => Float64Array.of(i));
for await (const answer of pool.run(vectors, new AbortController().signal)) answers.push(answer);
console.log(JSON.stringify(answers));
await pool.close();
