import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { launched, SKIPPED } from './chromium.js';

vi.setConfig({ testTimeout: 240_000, hookTimeout: 120_000 });

const folder = mkdtempSync(join(tmpdir(), 'desk-page-'));
const file = join(folder, 'dancer.yaml');
const text = () => readFileSync(file, 'utf8');

let browser: Browser;
let program: ChildProcess;
let page: Page;
const complaints: string[] = [];

/** Waits until the file says so. */
async function fileSays(found: string | RegExp): Promise<void> {
  await expect.poll(() => (existsSync(file) ? text() : ''), { timeout: 60_000 }).toMatch(found);
}

/** Waits until the page has worked out all that it shows. */
const settled = async () => {
  await page.waitForFunction(() => document.querySelector('.group[data-part]:nth-child(2)') !== null, null, {
    timeout: 60_000,
  });
  await page.waitForTimeout(400);
};

describe.skipIf(SKIPPED)('the desk, from an empty folder', () => {
  beforeAll(async () => {
    browser = await launched();
    program = spawn(
      process.execPath,
      [join(process.cwd(), 'dist/cli.js'), 'desk', 'dancer.yaml', '--no-open'],
      {
        cwd: folder,
        stdio: ['ignore', 'pipe', 'inherit'],
      },
    );
    const address = await new Promise<string>((resolve) => {
      let said = '';
      program.stdout?.on('data', (chunk: Buffer) => {
        said += chunk;
        const found = /http:\S+/.exec(said)?.[0];
        if (found !== undefined) resolve(found);
      });
    });
    page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
    page.on('pageerror', (error) => complaints.push(String(error)));
    page.on('console', (message) => {
      if (message.type() === 'error') complaints.push(message.text());
    });
    page.on('dialog', (dialog) => void dialog.accept());
    await page.goto(address);
  });
  afterAll(async () => {
    await browser?.close();
    program?.kill('SIGINT');
  });

  it('begins with a pattern', async () => {
    await page.click('.pattern:has-text("two arms")');
    await fileSays('figure: arms on counter-folds');
    await settled();
    await expect.poll(() => page.textContent('.bar .verdict'), { timeout: 60_000 }).toContain('works');
  });

  it('adds a counter-fold by its crease, and an arm on that, by mouse and by keys', async () => {
    await page.selectOption('.add select', 'crease\ntent ridge');
    await page.click('.starter:has-text("Counter-fold")', { timeout: 60_000 });
    await fileSays(/kind: counter-fold, on: tent ridge, at: 85/);
    await page.selectOption('.add select', 'panel\ncounter-fold left');
    await page.focus('.starter:has-text("Arm")', { timeout: 60_000 });
    await page.keyboard.press('Enter');
    await fileSays(/name: arm\n/);
  });

  it('drags a corner by mouse and by keys, and undoes both to the byte', async () => {
    await settled();
    const before = text();
    await page.locator('.grip[data-key^="arm corner 3"]').waitFor({ timeout: 60_000 });
    const grip = page.locator('.grip[data-key^="arm corner 3"]');
    await grip.scrollIntoViewIfNeeded();
    const box = await grip.boundingBox();
    if (box === null) throw new Error('the corner is not to be seen');
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    await page.mouse.down();
    await page.mouse.move(box.x + 40, box.y + 10, { steps: 4 });
    await page.mouse.up();
    await expect.poll(text, { timeout: 60_000 }).not.toBe(before);
    const dragged = text();
    await settled();
    await page.waitForTimeout(1500);
    await page.focus('.grip[data-key^="arm corner 3"]');
    await page.keyboard.press('ArrowUp');
    await expect.poll(text, { timeout: 60_000 }).not.toBe(dragged);
    await page.keyboard.press('Control+z');
    await expect.poll(text, { timeout: 60_000 }).toBe(dragged);
    await page.click('.bar button:has-text("Undo")');
    await expect.poll(text, { timeout: 60_000 }).toBe(before);
  });

  it('moves a dim by its slider with keys', async () => {
    await page.focus('[data-key="slack"]');
    await page.keyboard.press('ArrowRight');
    await fileSays(/slack: \{ from: 12, to: 32, start: 22\.5 \}/);
  });

  it('says of a fault in the text what the command says, and where', async () => {
    const before = text();
    await page.click('[role=tab]:has-text("Write")');
    await page.click('.cm-content');
    await page.keyboard.press('Control+End');
    await page.keyboard.type('limitz: 3');
    await page.locator('.bar .verdict', { hasText: "did you mean 'limits'?" }).waitFor({ timeout: 60_000 });
    await page.locator('.cm-lintRange-error').waitFor();
    await page.keyboard.press('Control+z');
    await expect.poll(text, { timeout: 60_000 }).toBe(before);
  });

  it('has nothing that axe finds wrong, in light and dark, also on a tablet', async () => {
    await page.evaluate(readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8'));
    for (const [colorScheme, width] of [
      ['light', 1280],
      ['dark', 1280],
      ['light', 820],
    ] as const) {
      await page.emulateMedia({ colorScheme });
      await page.setViewportSize({ width, height: 800 });
      for (const tab of colorScheme === 'light' && width > 1000 ? ['Scorecard', 'Write', 'Ask'] : ['Ask']) {
        await page.click(`[role=tab]:has-text("${tab}")`);
        const { violations } = await page.evaluate(() => globalThis.axe.run());
        expect(violations.map(({ id, nodes }) => [id, nodes[0].html, nodes[0].failureSummary])).toEqual([]);
      }
    }
    await page.setViewportSize({ width: 1280, height: 800 });
  });

  it('complains of nothing, and the program ends when the page is closed', async () => {
    expect(complaints).toEqual([]);
    const ended = new Promise((resolve) => program.once('close', resolve));
    await page.close();
    expect(await ended).toBe(0);
  });
});
