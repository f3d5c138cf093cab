import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { STALL } from '../edit/support.js';
import { launched, SKIPPED } from './chromium.js';
import { pageOf, type Served, settled, startDesk } from './desk-support.js';

vi.setConfig({ testTimeout: 240_000, hookTimeout: 120_000 });

const MARKUP = '<img src=x onerror="globalThis.hit=1">';
/** The stall with markup for the names of a part, a want and a place; and an outline of a drawing that is elsewhere. */
const HOSTILE = STALL.replaceAll('sail', `'${MARKUP}'`)
  .replaceAll(/'(<img[^']*)' (left|right)/g, "'$1 $2'")
  .replace('the arm turns', '"<script>globalThis.hit=1</script>"')
  .replace('the \'<img src=x onerror="globalThis.hit=1">\' rises', 'it rises');

const folder = mkdtempSync(join(tmpdir(), 'desk-others-'));
const file = join(folder, 'stall.yaml');
const text = () => readFileSync(file, 'utf8');
const longer = STALL.replace('length: 120', 'length: 110');

let browser: Browser;
let served: Served;
let page: Page;
const complaints: string[] = [];

const shows = async (on: Page, wanted: string) => {
  await on.waitForFunction((now) => globalThis.desk?.text.value === now, wanted, { polling: 50 });
};
const keep = (on: Page, wanted: string) => on.evaluate((now) => globalThis.desk.keep(now), wanted);
/** Keeps a text on the page before its desk can have seen what happens to the file meanwhile. */
async function keepUnseen(meanwhile: () => void, wanted: string): Promise<void> {
  served.program.kill('SIGSTOP');
  meanwhile();
  await keep(page, wanted);
  served.program.kill('SIGCONT');
}

describe.skipIf(SKIPPED)('a desk that is not alone', () => {
  beforeAll(async () => {
    writeFileSync(file, HOSTILE);
    browser = await launched();
    served = await startDesk(folder, 'stall.yaml');
    page = await pageOf(browser, served.address, complaints);
  });
  afterAll(async () => {
    await browser?.close();
    served?.program.kill('SIGINT');
  });

  it('shows a figure full of markup as text', async () => {
    await settled(page, text);
    expect(await page.locator('.bar .verdict').textContent()).toMatch(
      /^Market stall (?:works|does not work)/,
    );
    expect(await page.locator('.group summary').allTextContents()).toContain(MARKUP);
    await page.selectOption('.add select', `panel\n${MARKUP} left`);
    await page.locator('.starter').first().waitFor();
    await page.evaluate((part) => {
      globalThis.desk.part.value = part;
    }, MARKUP);
    await page.focus('.stage-grip');
    for (const name of ['Write', 'Ask', 'Scorecard']) await page.click(`[role=tab]:has-text("${name}")`);
    await page.click('button:has-text("Show the chart larger")');
    await page.keyboard.press('Escape');
    expect(await page.locator('img, script:not([src])').count()).toBe(0);
    expect(await page.evaluate(() => 'hit' in globalThis)).toBe(false);
  });

  it('shows an edit of another program, and of a second tab, in every tab', async () => {
    writeFileSync(file, STALL);
    await shows(page, STALL);
    const second = await pageOf(browser, served.address, complaints);
    await shows(second, STALL);
    await keep(second, longer);
    await shows(page, longer);
    await page.click('.bar button:has-text("Undo")');
    await shows(second, STALL);
    await second.close();
  });

  it('shows an edit that is made at a second desk on the file', async () => {
    const other = await startDesk(folder, 'stall.yaml');
    const elsewhere = await pageOf(browser, other.address, complaints);
    await shows(elsewhere, STALL);
    await keep(elsewhere, longer);
    await shows(page, longer);
    await keep(page, STALL);
    await shows(elsewhere, STALL);
    const ended = new Promise((resolve) => other.program.once('close', resolve));
    await elsewhere.close();
    expect(await ended).toBe(0);
  });

  it('asks whose text it shall be where another program was first, or has taken the file away', async () => {
    await keepUnseen(() => writeFileSync(file, longer), HOSTILE);
    await page.click('dialog[open] button:has-text("Take what the file has now")');
    await shows(page, longer);
    await keepUnseen(() => rmSync(file), STALL);
    await page.click('dialog[open] button:has-text("Write what was made here")');
    // The page has shown it all the while.
    await expect.poll(() => existsSync(file) && text()).toBe(STALL);
    await settled(page, text);
    rmSync(file);
    await page.click('button:has-text("Bring back the figure that was here")');
    await shows(page, STALL);
  });

  it('complains of nothing', () => {
    expect(complaints).toEqual([]);
  });
});
