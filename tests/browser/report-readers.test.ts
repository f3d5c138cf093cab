import axe from 'axe-core';
import type { Browser, BrowserContextOptions } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { html } from '../../src/report/pages/html.js';
import { livePage } from '../../src/report/pages/live-page.js';
import { pageData } from '../../src/report/pages/page-data.js';
import { figureOf, NOTHING_MADE, oarsman, smallPage, smallStudy } from '../report/live/study.js';
import { launched, type Opened, opened, SKIPPED } from './chromium.js';
import { pageAngleIn, posesIn } from './reading.js';

const HOSTILE = '<img src=x onerror=alert(1)>';
const hostileFigure = figureOf(`figure: hostile
page: A5 portrait
dims:
  glue: { from: 50, to: 70, start: 60 }
  word: { choose: ['</script><script>alert(2)</script>', '"><b>bold</b>'] }
parts:
  - { name: "${HOSTILE}", kind: v-fold, at: 60, glue: [glue, glue], panels: [80, 80], feet: [40, 40], ridge: 40 }
wants:
  - { name: "<b onclick=alert(3)>rises</b>", kind: rise, panel: "${HOSTILE} left", least: 5 }
  - { name: "javascript:alert(4)", kind: turn, panel: "${HOSTILE} right", least: 5 }
`);

describe.skipIf(SKIPPED)('the report for every reader', { timeout: 60_000 }, () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launched();
  });
  afterAll(async () => {
    await browser.close();
  });

  const page = livePage(smallPage(oarsman(), 30));

  test.each<[string, BrowserContextOptions]>([
    ['in the light', { colorScheme: 'light' }],
    [
      'on a phone in the dark',
      { colorScheme: 'dark', viewport: { width: 390, height: 800 }, hasTouch: true, isMobile: true },
    ],
  ])('axe finds nothing serious %s, with all unfolded and a second dummy beside', async (_, options) => {
    const at = await opened(browser, page, options);
    await at.page.getByRole('button', { name: 'Keep this one beside the next' }).click();
    await at.page.locator('details').evaluateAll((all) => {
      for (const details of all) (details as HTMLDetailsElement).open = true;
    });
    // Through the debugger, which the page's policy does not bind.
    await at.page.evaluate(axe.source);
    const { violations } = await at.page.evaluate(async () => {
      return globalThis.axe.run(document, {
        runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
        resultTypes: ['violations'],
      });
    });
    const serious = violations.filter(({ impact }) => impact === 'serious' || impact === 'critical');
    expect(serious.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' | ')}`)).toEqual([]);
    expect(at.complaints).toEqual([]);
    await at.close();
  });

  describe('opened once', () => {
    let at: Opened;
    beforeAll(async () => {
      at = await opened(browser, page);
    });
    afterAll(() => at.close());

    test('every control can be reached by Tab, and shows that it is', async () => {
      const controls = await at.page
        .locator('button:not(:disabled), input:not(:disabled), select, summary, [tabindex="0"]')
        .evaluateAll((all) => all.filter((element) => element.checkVisibility()).length);
      const seen = await at.page.evaluate(() => {
        document.body.dataset.seen = '0';
        document.addEventListener('focusin', ({ target }) => {
          const outline = getComputedStyle(target as Element).outlineStyle;
          if (outline !== 'none') document.body.dataset.seen = String(Number(document.body.dataset.seen) + 1);
        });
        return 0;
      });
      expect(seen).toBe(0);
      for (let press = 0; press < controls; press++) await at.page.keyboard.press('Tab');
      expect(await at.page.locator('body').getAttribute('data-seen')).toBe(String(controls));
    });

    test('nothing is wider than a phone but what scrolls by itself', async () => {
      await at.page.setViewportSize({ width: 360, height: 740 });
      const [wide, window] = await at.page.evaluate(() => [document.documentElement.scrollWidth, innerWidth]);
      expect(wide).toBeLessThanOrEqual(window);
    });

    test('where little motion is asked for, play shows a still now and then', async () => {
      await at.page.emulateMedia({ reducedMotion: 'reduce' });
      await at.page.clock.install();
      await at.page.getByRole('button', { name: 'Play' }).click();
      await at.page.clock.runFor(800);
      expect(await pageAngleIn(at.page)).toBe(120);
      await at.page.clock.runFor(300);
      expect(await pageAngleIn(at.page)).toBe(105);
    });
  });

  test('hostile names stay text', async () => {
    const data = pageData(smallStudy(hostileFigure, 15), hostileFigure, {
      ...NOTHING_MADE,
      sections: [{ id: 'dims', title: HOSTILE, body: html`<p>${HOSTILE}</p>` }],
    });
    const at = await opened(browser, livePage({ ...data, stages: [HOSTILE], facts: [[HOSTILE, HOSTILE]] }));
    await at.page.locator('details').evaluateAll((all) => {
      for (const details of all) (details as HTMLDetailsElement).open = true;
    });
    await at.page.getByLabel('Bring out').selectOption(`${HOSTILE} left`);
    for (const step of [3, 4, 5, 6]) await at.page.mouse.move(90 * step, 60 * step);
    await at.page.locator('.ranking').getByRole('button').first().click();
    await at.page.getByText('<b onclick=alert(3)>rises</b>').first().click();
    expect(await at.page.locator('img, b').count()).toBe(0);
    expect(await at.page.locator('script').count()).toBe(2);
    expect(at.complaints).toEqual([]);
    expect(at.requests).toEqual([]);
    await at.close();
  });

  test('without drawing in space, the figure is drawn flat and still moves', async () => {
    const plain = await launched('--disable-3d-apis');
    const at = await opened(plain, page);
    const drawing = at.page.locator('.stage.flat svg').first();
    const before = await drawing.innerHTML();
    await at.page.getByLabel('Page angle, degrees').fill('60');
    await expect.poll(() => drawing.innerHTML()).not.toBe(before);
    expect(await at.page.locator('.stage.flat').textContent()).toContain("can't draw in space");
    expect(await posesIn(at.page)).toEqual([]);
    await plain.close();
  });
});
