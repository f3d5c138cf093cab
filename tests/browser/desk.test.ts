import { type ChildProcess, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { launched, SKIPPED } from './chromium.js';
import { pageOf, seen, settled, startDesk } from './desk-support.js';

vi.setConfig({ testTimeout: 240_000, hookTimeout: 120_000 });

const folder = mkdtempSync(join(tmpdir(), 'desk-page-'));
const file = join(folder, 'dancer.yaml');
const text = () => (existsSync(file) ? readFileSync(file, 'utf8') : '');

let browser: Browser;
let program: ChildProcess;
let page: Page;
const complaints: string[] = [];

/** Waits until the file says so, and the page shows it. */
async function fileSays(found: string | RegExp): Promise<void> {
  await expect.poll(text, { timeout: 60_000 }).toMatch(found);
  await settled(page, text);
}

const press = async (selector: string, key = 'Enter') => {
  await page.focus(selector);
  await page.keyboard.press(key);
};
/** The key that moves the slider of a dim, which may stand at the end of its range. */
const arrowFor = (dim: string) =>
  page
    .locator(`[data-key="${dim}"]`)
    .evaluate((slider) =>
      Number((slider as HTMLInputElement).value) < Number((slider as HTMLInputElement).max)
        ? 'ArrowRight'
        : 'ArrowLeft',
    );
/** Chooses an option of a list by the arrow key. */
const goDownTo = async (selector: string, option: string) => {
  await page.focus(selector);
  const names = await page.locator(`${selector} option`).allTextContents();
  for (let i = 0; i < names.indexOf(option); i++) await page.keyboard.press('ArrowDown');
};
const verdict = () => page.textContent('.bar .verdict');
const done = () => page.locator('.ask button:has-text("Tune"):not(:disabled)').waitFor({ timeout: 200_000 });
const tab = (name: string) => `[role=tab]:has-text("${name}")`;
const undo = '.bar button:has-text("Undo")';

/** The tent of the pattern without its arms: what is asked of it costs half as much. */
const BARE_TENT = `figure: arms on counter-folds
page: A5 portrait
card: { grammage: 240, bulk: 1.25 }
dims:
  foot: { from: 20, to: 36, start: 28 }
  slack: { from: 12, to: 32, start: 22 }
  side: foot + slack
parts:
  - { name: tent, kind: parallel-fold, at: 20, length: 170, glue: [foot, foot], widths: [side, side] }
wants:
  - { name: it rises, kind: rise, panel: tent left, least: 30 }
limits:
  pile: 3
`;

describe.skipIf(SKIPPED)('the desk, from an empty folder', () => {
  beforeAll(async () => {
    browser = await launched();
    const served = await startDesk(folder, 'dancer.yaml');
    program = served.program;
    page = await pageOf(browser, served.address, complaints);
  });
  afterAll(async () => {
    await browser?.close();
    program?.kill('SIGINT');
  });

  it('begins with a pattern', async () => {
    await press('.pattern:has-text("two arms")');
    await fileSays('figure: arms on counter-folds');
    expect(await verdict()).toContain('works');
  });

  it('shows what another program writes: the arms taken off', async () => {
    writeFileSync(file, BARE_TENT);
    await settled(page, text);
    expect(await page.textContent('.side-score')).toContain('it rises');
    expect(await verdict()).toContain('works');
  });

  it('adds a counter-fold where the figure is clicked, and by keys, and an arm on that', async () => {
    const before = text();
    const found = /kind: counter-fold, on: tent ridge, at: 85/;
    // The middle of the ridge, as the right side of the tent sees it.
    await page.mouse.click(...(await seen(page, 'tent right', [85, -50])));
    await page.click('.starter:has-text("Counter-fold")');
    await fileSays(found);
    await page.click(undo);
    await expect.poll(text).toBe(before);
    await settled(page, text);
    await goDownTo('.add select', 'tent ridge');
    await press('.starter:has-text("Counter-fold")');
    await fileSays(found);
    await page.selectOption('.add select', 'panel\ncounter-fold left');
    await page.click('.starter:has-text("Arm")');
    await fileSays(/name: arm\n/);
    expect(await verdict()).toContain('works');
  });

  it('drags its tip in the figure till it catches, by mouse and by keys, and undoes to the byte', async () => {
    const before = text();
    const tip = '.stage-grip[data-key^="arm corner 3"]';
    const { x, y } = (await page.locator(tip).boundingBox()) ?? { x: Number.NaN, y: Number.NaN };
    await page.mouse.move(x + 12, y + 12);
    await page.mouse.down();
    await page.mouse.move(...(await seen(page, 'arm', [30, 0])), { steps: 3 });
    await page.mouse.move(...(await seen(page, 'arm', [40, 0])));
    expect(await page.textContent('.held-at')).toMatch(/^arm, corner 3: (?:39|40)\.\d+ mm, −?[01]\.\d+ mm/);
    await page.mouse.up();
    await fileSays(/\[12, -3\], \[(?:39|40)[.,]/);
    expect(await verdict()).toContain('does not work');
    await page.click(undo);
    await expect.poll(text).toBe(before);
    await settled(page, text);
    for (const far of [20, 25, 30, 35, 40]) {
      await press(tip, 'Shift+ArrowRight');
      await fileSays(`[12, -3], [${far}, 0]`);
    }
    expect(await verdict()).toContain('does not work');
  });

  it('turns the page to the catch that is clicked, and rings its place', async () => {
    for (const go of [() => page.click('.catches .catch'), () => press('.catches .catch')]) {
      await page.focus('.page-angle input');
      await page.keyboard.press('Home');
      await go();
      await expect.poll(() => page.textContent('.angle')).toBe('180.0°');
      await page.locator('.labels .ring').waitFor({ state: 'attached' });
    }
    const [said] = (await page.locator('.catches .catch').allTextContents()) as [string];
    expect(said).toMatch(/^right page catches on arm from 180\.0°, 3\.\d+ mm deep at 180\.0°$/);
  });

  it('tries on a remedy and takes it over, which can be undone', async () => {
    const before = text();
    await press(tab('Scorecard'), 'ArrowLeft');
    await press('.ask button:has-text("Tune")');
    await done();
    await page.click('.offers button:has-text("Try on") >> nth=0');
    await expect.poll(verdict).toContain('counter-folds works');
    expect(text()).toBe(before);
    await press('.offers button:has-text("Put back")');
    await expect.poll(verdict).toContain('does not work');
    await page.click('.offers button:has-text("Take over") >> nth=0');
    await fileSays('trims:');
    await page.click(undo);
    await expect.poll(text).toBe(before);
    await press('.offers button:has-text("Take over") >> nth=0');
    await fileSays('trims:');
    expect(await verdict()).toContain('counter-folds works');
  });

  it('shows what the cut costs, how hard the page turns, and what is tied', async () => {
    await page.click(tab('Scorecard'));
    await page.click('button:has-text("Show the chart larger")');
    expect(await page.textContent('dialog.large')).toContain(
      'How hard the page turns: arms on counter-folds',
    );
    await page.keyboard.press('Escape');
    expect(await page.textContent('.side-score')).toMatch(/arm: \d+\.\d mm², \d\.\d % of it/);
    expect(await page.textContent('.side-score')).toContain('What is tied');
  });

  it('makes ranges of two numbers', async () => {
    await page.selectOption('[aria-label="More for arm turn"]', { label: 'Make it a range' });
    const found = /arm_turn: \{ from: 34, to: 56, start: 45 \}/;
    await fileSays(found);
    await page.click(undo);
    await expect.poll(text).not.toMatch(found);
    await settled(page, text);
    await goDownTo('[aria-label="More for arm turn"]', 'Make it a range');
    await fileSays(found);
    await goDownTo('[aria-label="More for counter-fold side"]', 'Make it a range');
    await fileSays(/counter_fold_side: \{ from: 10, to: 20, start: 15 \}/);
  });

  it('explores them, with the best so far while it runs; it is stopped, and the best taken over', async () => {
    await page.click(tab('Ask'));
    await page.fill('.ask input', '4000');
    await page.click('.ask button:has-text("Explore")');
    await page.locator('.offers strong:has-text("Best so far: dummy")').waitFor();
    await press('.ask button:has-text("Stop")');
    await done();
    expect(await page.textContent('.progress')).toContain('Interrupted after');
    expect(await page.textContent('.offers li')).toMatch(/^Dummy \d+rank 1, works, desirability 0\.\d{3}/);
    const before = text();
    // The first dummy is the file's own: it may well be the best of so few, and to take it over changes nothing.
    const other = page.locator('.offers li').filter({ hasNotText: /^Dummy 1rank/ });
    await other.locator('button:has-text("Take over")').first().click();
    await expect.poll(text).not.toBe(before);
    await settled(page, text);
    expect(await verdict()).toContain('counter-folds works');
    expect(await page.textContent('.files')).toContain('report.html');
  });

  it('prints sheets, says how exact it must be cut, and compares with a state that was kept', async () => {
    await press('.ask button:has-text("Sheets")');
    await done();
    const sheets = await page.getAttribute('.files a:has-text("sheets.pdf")', 'href');
    const answer = await page.request.get(new URL(String(sheets), page.url()).href);
    expect([answer.status(), (await answer.body()).subarray(0, 4).toString()]).toEqual([200, '%PDF']);
    await page.click('.ask button:has-text("Keep this state")');
    await page.fill('.ask input', '20');
    await page.click('.ask button:has-text("Compare"):not(:disabled)');
    await expect.poll(() => page.textContent('.files'), { timeout: 120_000 }).toContain('compare.html');
    await done();
    await page.click('.ask button:has-text("Tolerance")');
    await page.locator('.ask button:has-text("Stop"):not(:disabled)').waitFor();
    await done();
    expect(await page.textContent('.progress')).toContain('Cut by hand');
  });

  it('says what the command says', async () => {
    const { stdout } = spawnSync(process.execPath, [join(process.cwd(), 'dist/cli.js'), 'check', file]);
    const said = String(await verdict());
    expect(stdout.toString().toLowerCase()).toContain(said.toLowerCase());
  });

  it('makes a twin of a part, takes it away, and moves a dim by its slider with keys', async () => {
    const before = text();
    await page.click('.group[data-part="arm"] button:has-text("Twin")');
    await fileSays('name: arm twin');
    await press('.group[data-part="arm twin"] button:has-text("Remove")');
    await expect.poll(text).toBe(before);
    await settled(page, text);
    await press('[data-key="slack"]', await arrowFor('slack'));
    await expect.poll(text).not.toBe(before);
    await page.keyboard.press('Control+z');
    await expect.poll(text).toBe(before);
    await settled(page, text);
  });

  it('fixes a range where its slider stands now', async () => {
    const before = text();
    const start = () => /arm_turn: \{.*start: ([\d.]+)/.exec(text())?.[1];
    const from = start();
    await press('[data-key="arm_turn"]', await arrowFor('arm_turn'));
    await expect.poll(start).not.toBe(from);
    const to = start();
    await settled(page, text);
    await page.selectOption('[aria-label="More for arm_turn"]', { label: 'Fix it here' });
    await fileSays(`arm_turn: ${to}\n`);
    await press(undo);
    await press(undo);
    await expect.poll(text).toBe(before);
  });

  it('drags a corner of a piece that lies flat as it is cut', async () => {
    const before = text();
    await settled(page, text);
    await page.locator('.flat select').selectOption('arm');
    const grip = page.locator('.grip[data-key^="arm corner 2"]');
    await grip.scrollIntoViewIfNeeded();
    const box = await grip.boundingBox();
    if (box === null) throw new Error('the corner is not to be seen');
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    await page.mouse.down();
    await page.mouse.move(box.x + 10, box.y + 20, { steps: 4 });
    await page.mouse.up();
    await expect.poll(text).not.toBe(before);
    await settled(page, text);
    await press('.grip[data-key^="arm corner 2"]', 'ArrowUp');
    await press(undo);
    await press(undo);
    await expect.poll(text).toBe(before);
  });

  it('says of a fault in the text what the command says, and where', async () => {
    const before = text();
    await page.click(tab('Write'));
    await page.click('.cm-content');
    await page.keyboard.press('Control+End');
    await page.keyboard.type('limitz: 3');
    await page.locator('.bar .verdict', { hasText: "did you mean 'limits'?" }).waitFor();
    await page.locator('.cm-lintRange-error').waitFor();
    await page.keyboard.press('Control+z');
    await expect.poll(text).toBe(before);
  });

  it('has nothing that axe finds wrong, in light and dark, also on a tablet', async () => {
    await page.evaluate(readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8'));
    for (const [colorScheme, width, tabs] of [
      ['light', 1280, ['Scorecard', 'Write', 'Ask']],
      ['dark', 1280, ['Scorecard']],
      ['light', 820, ['Ask']],
    ] as const) {
      await page.emulateMedia({ colorScheme });
      await page.setViewportSize({ width, height: 800 });
      for (const name of tabs) {
        await page.click(tab(name));
        const { violations } = await page.evaluate(() => globalThis.axe.run({ resultTypes: ['violations'] }));
        expect(violations.map(({ id, nodes }) => [id, nodes[0].html, nodes[0].failureSummary])).toEqual([]);
      }
    }
  });

  it('complains of nothing, and the program ends when the page is closed', async () => {
    expect(complaints).toEqual([]);
    const ended = new Promise((resolve) => program.once('close', resolve));
    await page.close();
    expect(await ended).toBe(0);
  });
});
