import { readFileSync } from 'node:fs';
import type { Browser } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { readFigure } from '../../src/figure/read.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { livePage } from '../../src/report/pages/live-page.js';
import { pageData } from '../../src/report/pages/page-data.js';
import { limitRows, wantRows } from '../../src/report/words/scorecard-rows.js';
import { Scorer } from '../../src/score/scorer.js';
import { NOTHING_MADE, oarsman, smallStudy } from '../report/live/study.js';
import { launched, type Opened, opened, SKIPPED } from './chromium.js';
import {
  blueIn,
  boundsIn,
  chosenIn,
  countIn,
  pageAngleIn,
  posesIn,
  putBack,
  scorecardIn,
  vectorIn,
} from './reading.js';

const source = oarsman();
const figure = compileFigure(source);
const scorer = new Scorer(figure);
const COUNT = 80;
const report = smallStudy(source, COUNT);
const html = livePage(pageData(report, source, NOTHING_MADE));

let browser: Browser;
beforeAll(async () => {
  if (!SKIPPED) browser = await launched();
});
afterAll(() => browser?.close());

describe.skipIf(SKIPPED)('the report in a browser', { timeout: 60_000 }, () => {
  // One page for all of them, put back in between: to open one takes seconds where space is drawn by software.
  let at: Opened;
  beforeAll(async () => {
    at = await opened(browser, html);
  });
  const showAll = () => at.page.getByRole('button', { name: 'Clear filters' }).click();
  afterEach(async () => {
    // Whatever a test does: no complaint, and nothing asked of disk or network.
    expect(at.complaints).toEqual([]);
    expect(at.requests).toEqual([]);
    await putBack(at.page);
  });

  const slider = () => at.page.getByLabel('Page angle, degrees');
  /** Compares what is drawn with the poses of the kernel in Node: sines may differ in their last bit between engines. */
  const expectPoses = async (view: number, vector: Float64Array, pageAngle: number) => {
    const { panels, frames } = scorer.poses(vector);
    const { poses } = frames.find((frame) => frame.pageAngle === pageAngle) ?? { poses: [] };
    const drawn = await posesIn(at.page, view);
    expect(drawn.map(({ name }) => name)).toEqual(panels.map(({ name }) => name));
    drawn.forEach(({ pose }, k) => {
      pose.forEach((value, i) => {
        expect(Math.abs(value - poses[k][i])).toBeLessThan(1e-6);
      });
    });
  };

  test('opens with the best dummy on show, and little pictures of the best', async () => {
    expect(await at.page.locator('#chosen-title').textContent()).toBe(`Dummy ${report.ranking[0] + 1}`);
    expect(await vectorIn(at.page)).toEqual(report.table.vector(report.ranking[0]));
    const working = report.ranking.filter((candidate) => report.table.outcome(candidate) === 'works');
    expect(await at.page.locator('.ranking tbody th').allTextContents()).toEqual(
      working.slice(0, 20).map((candidate) => `dummy ${candidate + 1}`),
    );
    await showAll();
    expect(await at.page.locator('.ranking tbody tr').count()).toBe(20);
    await expect.poll(() => at.page.locator('.ranking tbody svg').count()).toBe(20);
  });

  test('the slider puts every panel where check --poses says', async () => {
    for (const pageAngle of [180, 130, 64, 2, 0]) {
      await slider().fill(String(pageAngle));
      await expectPoses(0, await vectorIn(at.page), pageAngle);
    }
  });

  test('arrow keys move the slider, and turn the figure', async () => {
    await slider().focus();
    await at.page.keyboard.press('ArrowLeft');
    expect(await pageAngleIn(at.page)).toBe(119.5);
    const canvas = at.page.locator('.stage canvas');
    await canvas.focus();
    const before = await canvas.screenshot();
    await at.page.keyboard.press('ArrowRight');
    expect((await canvas.screenshot()).equals(before)).toBe(false);
  });

  test('play moves the page, and stops when told to', async () => {
    const play = at.page.getByRole('button', { name: 'Play' });
    await play.click();
    await expect.poll(() => pageAngleIn(at.page)).toBeLessThan(115);
    await at.page.getByRole('button', { name: 'Stop' }).click();
    const stopped = await pageAngleIn(at.page);
    await at.page.evaluate(
      () => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))),
    );
    expect(await pageAngleIn(at.page)).toBe(stopped);
  });

  test('two dummies open together', async () => {
    await at.page.getByRole('button', { name: 'Keep this one beside the next' }).click();
    await at.page.getByRole('button', { name: 'Next' }).click();
    await slider().fill('88');
    await expect
      .poll(() => at.page.locator('#chosen-title').textContent())
      .toBe(`Dummy ${report.ranking[1] + 1}`);
    await expect.poll(() => at.page.locator('.labels .corner').count()).toBe(2);
    await expectPoses(0, report.table.vector(report.ranking[1]), 88);
    await expectPoses(1, report.table.vector(report.ranking[0]), 88);
    expect(await at.page.locator('.labels .corner').allTextContents()).toEqual([
      `dummy ${report.ranking[1] + 1}`,
      `dummy ${report.ranking[0] + 1}`,
    ]);
  });

  test('dims that are dragged score as they do in Node, and can be taken back', async () => {
    for (const name of ['swing (°)', 'tall (mm)']) {
      await at.page.getByLabel(name, { exact: true }).focus();
      for (let press = 0; press < 5; press++) await at.page.keyboard.press('ArrowRight');
    }
    await at.page.getByLabel('way', { exact: true }).selectOption('start');
    const vector = await vectorIn(at.page);
    expect(vector).not.toEqual(report.table.vector(report.ranking[0]));
    const card = scorer.score(vector);
    const rows = [...wantRows(card, figure.wantsOf(vector)), ...limitRows(card)];
    await expect
      .poll(() => scorecardIn(at.page))
      .toEqual(rows.map(({ name, value, asked, met }) => [name, value, asked, met ? 'met' : 'NOT MET']));
    await slider().fill('100');
    await expectPoses(0, vector, 100);
    await at.page.getByRole('button', { name: 'Undo changes' }).click();
    expect(await vectorIn(at.page)).toEqual(report.table.vector(report.ranking[0]));
  });

  test('a number typed is taken exactly, and how hard the page turns follows it', async () => {
    await at.page.getByText('How hard its page turns').click();
    const curve = () => at.page.locator('.turning-line').getAttribute('d');
    const before = await curve();
    await at.page.getByLabel('reach (mm), exactly').fill('51.375');
    await at.page.getByLabel('tall (mm), exactly').fill('70.25');
    await at.page.keyboard.press('Enter');
    const reach = figure.free.findIndex(({ name }) => name === 'reach');
    expect((await vectorIn(at.page))[reach]).toBe(51.375);
    await expect.poll(curve).not.toBe(before);
  });

  test('the changed figure can be taken away as a file that means the same', async () => {
    await at.page.getByLabel('reach (mm), exactly').fill('51.375');
    await at.page.keyboard.press('Enter');
    const vector = await vectorIn(at.page);
    const [download] = await Promise.all([
      at.page.waitForEvent('download'),
      at.page.getByRole('button', { name: 'Save as figure file' }).click(),
    ]);
    expect(download.suggestedFilename()).toBe('oarsman-changed.yaml');
    const taken = compileFigure(parseFigure(readFileSync(await download.path(), 'utf8'), 'taken.yaml'));
    expect(new Scorer(taken).score(taken.start)).toEqual(scorer.score(vector));
    // The browser asks for the file that the page has made, and for nothing else.
    expect(at.requests.splice(0).every((url) => url.startsWith('blob:'))).toBe(true);
  });

  test('a catch is marked on the slider, jumped to, and lights up with its depth', async () => {
    const caught = report.ranking.findIndex((candidate) => {
      const { clash } = scorer.score(report.table.vector(candidate));
      return clash.firstPageAngle !== null && (clash.deepest ?? 0) > 1;
    });
    const card = scorer.score(report.table.vector(report.ranking[caught]));
    await at.page.evaluate((place) => {
      globalThis.dummyrun.study.chosen.value = place;
    }, caught);
    await at.page.getByRole('button', { name: 'Go to the first catch' }).click();
    expect(await pageAngleIn(at.page)).toBeCloseTo(card.clash.firstPageAngle ?? Number.NaN, 6);
    await at.page.getByRole('button', { name: 'To the deepest' }).click();
    // The page's dims are rounded: where a catch is as deep over a stretch, the deepest place is found a step elsewhere.
    const deepest = card.clash.pageAngle ?? Number.NaN;
    expect(Math.abs((await pageAngleIn(at.page)) - deepest)).toBeLessThanOrEqual(2.5);
    const [label] = await at.page.locator('.labels .catch').allTextContents();
    expect(label).toMatch(/^catch, \d+\.\d\d mm deep$/);
    const mark = at.page.locator('.marks .first');
    const left = await mark.evaluate((element) => (element as HTMLElement).style.left);
    expect(Number.parseFloat(left)).toBeCloseTo(((card.clash.firstPageAngle ?? 0) / 180) * 100, 3);
  });

  test('hovering names the part', async () => {
    await at.page.getByLabel('Bring out').selectOption('man left');
    const box = await at.page.locator('.stage canvas').boundingBox();
    if (box === null) throw new Error('no canvas');
    const names = new Set<string>();
    for (let step = 2; step <= 8; step++) {
      await at.page.mouse.move(box.x + (box.width * step) / 10, box.y + (box.height * (11 - step)) / 12);
      await at.page.evaluate(
        () => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))),
      );
      for (const name of await at.page.locator('.labels .name').allTextContents()) names.add(name);
    }
    const panels = scorer.poses(figure.start).panels.map(({ name }) => name);
    expect(names.size).toBeGreaterThan(1);
    for (const name of names) expect(panels).toContain(name);
  });

  test('brushing an axis filters the table, the count and the filter fields', async () => {
    await showAll();
    const wants = report.layout.wants.findIndex(({ name }) => name === 'he leans');
    const leans = report.ranking.map((candidate) =>
      report.layout.wantValue(report.table.numbers(candidate), wants),
    );
    const board = at.page.locator('.lines');
    await board.scrollIntoViewIfNeeded();
    await at.page.locator('.heads.names').getByText('he leans').scrollIntoViewIfNeeded();
    const box = await board.boundingBox();
    if (box === null) throw new Error('no board');
    const heads = await at.page.locator('.heads.names span').allTextContents();
    const x = box.x + ((heads.indexOf('he leans (°)') + 0.5) * box.width) / heads.length;
    await at.page.mouse.move(x, box.y + 0.9 * box.height);
    await at.page.mouse.down();
    await at.page.mouse.move(x, box.y + 0.5 * box.height, { steps: 4 });
    await at.page.mouse.up();
    const bounds = await boundsIn(at.page, 'he leans');
    const inside = leans.filter((value) => bounds && value >= bounds.low && value <= bounds.high);
    expect(inside.length).toBeGreaterThan(0);
    expect(inside.length).toBeLessThan(leans.length);
    expect(await at.page.locator('.filters [role=status]').textContent()).toContain(
      `${inside.length} of ${COUNT}`,
    );
    expect(await at.page.locator('.ranking tbody tr').count()).toBe(Math.min(20, inside.length));
    expect(await at.page.getByLabel('he leans (°), at least').inputValue()).not.toBe('');
    // A press on the axis lets all pass again.
    await at.page.mouse.click(x, box.y + 0.2 * box.height);
    expect(await countIn(at.page)).toBe(COUNT);
  });

  test('filters by keyboard do the same', async () => {
    await showAll();
    await at.page.getByText('Filter by dims and scores').click();
    await at.page.getByLabel('spread (mm), at least').fill('30');
    await at.page.keyboard.press('Tab');
    const kept = report.ranking.filter((candidate) => report.table.vector(candidate)[0] >= 30);
    expect(await countIn(at.page)).toBe(kept.length);
    await at.page.getByLabel('Only those that work').check();
    const working = kept.filter((candidate) => report.table.outcome(candidate) === 'works');
    expect(await countIn(at.page)).toBe(working.length);
    await at.page.getByRole('button', { name: 'Clear filters' }).click();
    expect(await countIn(at.page)).toBe(COUNT);
  });

  test('walking along the front, or clicking a point, selects everywhere', async () => {
    await showAll();
    await at.page.getByLabel('Fails at').selectOption('catch');
    await at.page.getByLabel('Up the chart').selectOption('oars part (°)');
    await at.page.getByLabel('Across the chart').selectOption('he stands tall (mm)');
    const board = at.page.locator('.scatter');
    const front = board.locator('circle.front');
    await expect.poll(() => front.count()).toBeGreaterThan(1);
    await at.page.getByRole('slider', { name: 'Walk along the front' }).focus();
    await at.page.keyboard.press('Home');
    await at.page.keyboard.press('End');
    const ends: number[] = [];
    for (const point of [front.last(), front.first()]) {
      await board.scrollIntoViewIfNeeded();
      const box = await point.boundingBox();
      if (box === null) throw new Error('no point');
      if (ends.length > 0) await at.page.mouse.click(box.x + box.width / 2, box.y + box.height / 2);
      await expect
        .poll(async () => (await board.locator('circle.chosen').boundingBox())?.x)
        .toBeCloseTo(box.x + box.width / 2 - 10.25, 0);
      const place = await chosenIn(at.page);
      ends.push(place);
      const name = `dummy ${report.ranking[place] + 1}`;
      expect(await at.page.locator('#chosen-title').textContent()).toBe(name.replace('d', 'D'));
      expect(await at.page.locator('.ranking button[aria-pressed=true]').textContent()).toBe(name);
      expect(await vectorIn(at.page)).toEqual(report.table.vector(report.ranking[place]));
    }
    expect(ends[0]).not.toBe(ends[1]);
  });

  test('a heading sorts the table, what is better first', async () => {
    await showAll();
    await at.page.getByRole('button', { name: 'he leans (°)' }).click();
    const head = at.page.locator('th[aria-sort]');
    expect(await head.getAttribute('aria-sort')).toBe('descending');
    const column = 5;
    const cells = await at.page.locator(`.ranking tbody tr td:nth-child(${column + 1})`).allTextContents();
    const values = cells.map((text) => Number(text.replace('−', '-')));
    expect(values).toEqual([...values].sort((a, b) => b - a));
  });

  test('those that fail at something are shown at a press', async () => {
    const button = at.page.getByRole('button', { name: 'Show them: they fail at oars part' });
    await button.click();
    const place = report.layout.wants.findIndex(({ name }) => name === 'oars part');
    const failing = report.ranking.filter(
      (candidate) => report.table.outcome(candidate) === 'fails' && report.table.met(candidate)[place] === 0,
    );
    expect(await countIn(at.page)).toBe(failing.length);
  });

  test('on paper there are stills of the opening', async () => {
    await at.page.emulateMedia({ media: 'print' });
    await at.page.evaluate(() => dispatchEvent(new Event('beforeprint')));
    expect(await at.page.locator('.stills svg').count()).toBe(5);
    expect(await at.page.locator('.stage').isVisible()).toBe(false);
    expect(await at.page.locator('.stills').isVisible()).toBe(true);
  });
});

describe.skipIf(SKIPPED)('the report of an example', { timeout: 60_000 }, () => {
  test.each(['ferryman', 'heron', 'tightrope'])(
    'opens, and moves the %s as the kernel does',
    async (name) => {
      const example = readFigure(`examples/${name}.yaml`);
      const study = smallStudy(example, 2);
      const at = await opened(browser, livePage(pageData(study, example, NOTHING_MADE)));
      const best = study.table.vector(study.ranking[0]);
      const { panels, frames } = new Scorer(compileFigure(example)).poses(best);
      const { pageAngle, poses } = frames[Math.floor(frames.length / 3)];
      await at.page.getByLabel('Page angle, degrees').fill(String(pageAngle));
      const drawn = await posesIn(at.page);
      expect(drawn.map(({ name }) => name)).toEqual(panels.map(({ name }) => name));
      for (const [k, { pose }] of drawn.entries())
        for (const [i, value] of pose.entries()) expect(Math.abs(value - poses[k][i])).toBeLessThan(1e-5);
      // Card is of warm colours; water is printed on the pages of two.
      const blue = await blueIn(at.page);
      if (name === 'tightrope') expect(blue).toBe(0);
      else expect(blue).toBeGreaterThan(0.1);
      expect(at.complaints).toEqual([]);
      expect(at.requests).toEqual([]);
      await at.close();
    },
  );
});
