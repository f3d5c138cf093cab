// A worker for tests: answers each vector with its double, and misbehaves for values that it is told of.
import { existsSync, writeFileSync } from 'node:fs';
import { workerData } from 'node:worker_threads';

/** Whether this is the first time that any worker meets the value: a file remembers it. */
function firstTime(value) {
  const path = `${workerData.folder}/met-${value}`;
  if (existsSync(path)) return false;
  writeFileSync(path, '');
  return true;
}

export default function score({ vectors }) {
  return vectors.map((vector) => {
    const [value] = vector;
    const { trouble, always } = workerData.troubles[value] ?? {};
    if (trouble !== undefined && (always || firstTime(value))) {
      if (trouble === 'throws') throw new Error(`no ${value}`);
      if (trouble === 'dies') process.exit(7);
      if (trouble === 'hangs') for (;;);
      if (trouble === 'sleeps') Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0);
      if (trouble === 'fills its memory') for (const held = []; ; ) held.push(new Array(1e5).fill({}));
    }
    // Later candidates are quicker, so that order is not kept by luck.
    for (const end = performance.now() + 3 - value / 20; performance.now() < end; );
    return 2 * value;
  });
}
