#!/usr/bin/env node
/**
 * How quick the live report is, in a headless Chromium that draws in space by software:
 *
 *   node bench/report-page.mjs [results/ferryman/report.html]
 *
 * Script time of each frame while the page is played, turned, changed and brushed (without what the browser then takes to
 * draw it), the time to the first picture, the size of the file and the memory in use.
 */
import { existsSync, statSync } from 'node:fs';
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { softwareBrowser } from '../scripts/software-browser.mjs';

const [path = 'results/ferryman/report.html'] = process.argv.slice(2);
if (!existsSync(path)) {
  console.error(`There is no ${path}: explore the ferryman first, or give the report.html of a study.`);
  process.exit(2);
}
const browser = await softwareBrowser(undefined, ['--enable-precise-memory-info', '--js-flags=--expose-gc']);
const page = await browser.newPage({ viewport: { width: 1400, height: 900 } });
await page.addInitScript(() => {
  const ask = requestAnimationFrame.bind(globalThis);
  globalThis.frames_ = [];
  globalThis.requestAnimationFrame = (work) =>
    ask((now) => {
      const start = performance.now();
      work(now);
      globalThis.frames_.push(performance.now() - start);
      globalThis.firstFrame_ ??= performance.now();
    });
});
await page.goto(pathToFileURL(resolve(path)).href);
await page.waitForFunction('globalThis.firstFrame_ !== undefined');

const frames = async (work) => {
  await page.evaluate('globalThis.frames_ = []');
  await work();
  await page.waitForTimeout(300);
  const times = (await page.evaluate('globalThis.frames_')).sort((a, b) => a - b);
  const at = (share) => times[Math.min(times.length - 1, Math.floor(share * times.length))].toFixed(1);
  return `median ${at(0.5)} ms, 95 % under ${at(0.95)} ms, of ${times.length} frames`;
};
const heap = async () => {
  await page.evaluate('gc()');
  return page.evaluate('performance.memory.usedJSHeapSize / 1e6');
};
const dragged = async (box, from, by) => {
  await page.mouse.move(box.x + from[0], box.y + from[1]);
  await page.mouse.down();
  for (let step = 1; step <= 30; step++)
    await page.mouse.move(box.x + from[0] + by[0] * step, box.y + from[1] + by[1] * step);
  await page.mouse.up();
};

console.log(`size            ${(statSync(path).size / 1e6).toFixed(2)} MB`);
console.log(`first picture   ${(await page.evaluate('globalThis.firstFrame_')).toFixed(0)} ms`);
console.log(`memory          ${(await heap()).toFixed(1)} MB`);
const play = page.getByRole('button', { name: /^(Play|Stop)$/ });
const played = await frames(async () => {
  await play.click();
  await page.waitForTimeout(4000);
  await play.click();
});
console.log(`played          ${played}`);
const canvas = await page.locator('.stage canvas').boundingBox();
console.log(`turned          ${await frames(() => dragged(canvas, [200, 200], [5, 1]))}`);
const changed = await frames(async () => {
  await page.locator('.dim input[type=range]').first().focus();
  for (let press = 0; press < 25; press++) await page.keyboard.press('ArrowRight');
});
console.log(`dim changed     ${changed}`);
const lines = page.locator('.lines');
await lines.scrollIntoViewIfNeeded();
const board = await lines.boundingBox();
console.log(`brushed         ${await frames(() => dragged(board, [40, 300], [0, -6]))}`);
for (let turn = 0; turn < 40; turn++) await page.getByRole('button', { name: 'Next', exact: true }).click();
console.log(`memory after    ${(await heap()).toFixed(1)} MB`);
await browser.close();
