#!/usr/bin/env node
/**
 * Takes the pictures of the docs anew from what the program makes now: `npm run build && node scripts/pictures.mjs [CHROMIUM]`.
 * Look at each of them before it is committed.
 */
import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { servedDesk } from './served-desk.mjs';
import { softwareBrowser } from './software-browser.mjs';

const ROOT = join(import.meta.dirname, '..');
const PROGRAM = join(ROOT, 'dist/cli.js');
const folder = mkdtempSync(join(tmpdir(), 'pictures-'));
cpSync(join(ROOT, 'examples'), join(folder, 'examples'), { recursive: true });

const browser = await softwareBrowser(process.argv[2]);

/** Runs a command to its end; 1 means that the figure does not work. */
function run(...args) {
  const { status } = spawnSync(process.execPath, [PROGRAM, ...args], {
    cwd: folder,
    stdio: ['ignore', 'ignore', 'inherit'],
  });
  if (status > 1) throw new Error(`${args.join(' ')} ended with ${status}`);
}

async function take(name, width, height, address, prepare = async () => {}) {
  const page = await browser.newPage({ viewport: { width, height } });
  await page.goto(address);
  await prepare(page);
  await page.waitForTimeout(1000);
  await page.screenshot({ path: join(ROOT, 'docs', `${name}.png`) });
  await page.close();
}

const fileIn = (path) => pathToFileURL(join(folder, path)).href;

run('explore', 'examples/ferryman.yaml', '--out', 'report');
await take('report', 1400, 1130, fileIn('report/report.html'));

run('tune', 'examples/stuck-drummer.yaml', '--out', 'tuned');
await take('tune', 1000, 1220, fileIn('tuned/remedies.html'));

const variants = ['symmetric', 'asymmetric'].map((name) => `examples/variants/${name}.yaml`);
run('compare', ...variants, '--samples', '400', '--out', 'compared');
await take('compare', 1240, 1480, fileIn('compared/compare.html'));

const { desk, address } = await servedDesk(PROGRAM, folder, 'examples/stuck-drummer.yaml');
await take('desk', 1280, 800, address, async (page) => {
  await page.waitForFunction(() => globalThis.desk?.rest.value && globalThis.desk.isIdle);
  await page.click('button.catch');
});
desk.kill('SIGINT');
await browser.close();
