/**
 * Whole studies of a small figure by plain sampling: what one more candidate costs, and the most memory of the process with all
 * its workers, for more and more candidates. Both should stay as they are but for the table, some 200 bytes a candidate.
 *
 *   node bench/candidates.mjs [counts=1000,10000,100000]
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const [counts = '1000,10000,100000'] = process.argv.slice(2);
const cli = fileURLToPath(new URL('../dist/cli.js', import.meta.url));
const figure = fileURLToPath(new URL('little-tent.yaml', import.meta.url));
const tellMemory = `data:text/javascript,
  import { isMainThread } from 'node:worker_threads';
  if (isMainThread) process.on('exit', () => console.error('most memory', process.resourceUsage().maxRSS));`;

const folder = mkdtempSync(join(tmpdir(), 'dummyrun-'));
try {
  let before = { count: 0, seconds: 0 };
  for (const count of counts.split(',').map(Number)) {
    const from = performance.now();
    const { status, stderr } = spawnSync(
      process.execPath,
      [
        '--import',
        tellMemory,
        cli,
        'explore',
        figure,
        '--search',
        'samples',
        '--samples',
        String(count),
        '--out',
        folder,
      ],
      { encoding: 'utf8' },
    );
    if (status !== 0) throw new Error(stderr);
    const seconds = (performance.now() - from) / 1000;
    const kilobytes = Number(/most memory (\d+)/.exec(stderr)[1]);
    const each = (1000 * (seconds - before.seconds)) / (count - before.count);
    console.log(
      `  ${String(count).padStart(9)} candidates: ${seconds.toFixed(1)} s, ${Math.round(kilobytes / 1024)} MB${before.count > 0 ? `; each more ${each.toFixed(2)} ms` : ''}`,
    );
    before = { count, seconds };
  }
} finally {
  rmSync(folder, { recursive: true });
}
