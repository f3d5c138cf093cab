import type { Page } from 'playwright-core';

declare global {
  /** What the source of axe-core leaves in a page. */
  var axe: typeof import('axe-core');
  /** What the page lays open for tests. */
  var dummyrun: {
    study: {
      vectorOf(place: number): Float64Array;
      vector: { value: Float64Array };
      pageAngle: { value: number };
      chosen: { value: number };
      beside: { value: number | null };
      shown: { value: readonly number[] };
      filters: {
        value: {
          worksOnly: boolean;
          grade: string | null;
          failsAt: number | null;
          bounds: ReadonlyMap<number, { low: number; high: number }>;
        };
      };
      columns: readonly { name: string }[];
    };
    drawn(view: number): { name: string; matrix: number[] }[];
  };
}

/** The dims of the dummy on show. */
export const vectorIn = async (page: Page): Promise<Float64Array> =>
  Float64Array.from(await page.evaluate(() => Array.from(globalThis.dummyrun.study.vector.value)));

export const pageAngleIn = (page: Page): Promise<number> =>
  page.evaluate(() => globalThis.dummyrun.study.pageAngle.value);

export const chosenIn = (page: Page): Promise<number> =>
  page.evaluate(() => globalThis.dummyrun.study.chosen.value);

export const countIn = (page: Page): Promise<number> =>
  page.evaluate(() => globalThis.dummyrun.study.shown.value.length);

/** Shows what is shown when a page opens: the best as it was scored, nothing beside it, those that work, the top of the page. */
export async function putBack(page: Page): Promise<void> {
  await page.emulateMedia({ media: null });
  await page.evaluate(() => {
    const { study } = globalThis.dummyrun;
    study.filters.value = { worksOnly: true, grade: null, failsAt: null, bounds: new Map() };
    study.beside.value = null;
    study.chosen.value = 0;
    study.vector.value = study.vectorOf(0);
    study.pageAngle.value = 120;
    if (document.activeElement instanceof HTMLElement) document.activeElement.blur();
    scrollTo(0, 0);
  });
}

/** Where the panels of a view are drawn: their names and poses, as `check --poses` writes poses. */
export async function posesIn(page: Page, view = 0): Promise<{ name: string; pose: number[] }[]> {
  const drawn = await page.evaluate((at) => globalThis.dummyrun.drawn(at), view);
  // three's matrices run down their columns.
  return drawn.map(({ name, matrix: m }) => ({
    name,
    pose: [m[0], m[4], m[8], m[12], m[1], m[5], m[9], m[13], m[2], m[6], m[10], m[14]],
  }));
}

/** The bounds that a brush has left on a column. */
export const boundsIn = (page: Page, name: string): Promise<{ low: number; high: number } | null> =>
  page.evaluate((column) => {
    const { columns, filters } = globalThis.dummyrun.study;
    const place = columns.findIndex((each) => each.name === column);
    const bounds = filters.value.bounds.get(place);
    return bounds ? { low: bounds.low, high: bounds.high } : null;
  }, name);

/** The lines of the scorecard, cell by cell. */
export const scorecardIn = (page: Page): Promise<string[][]> =>
  page
    .locator('.scorecard tbody tr')
    .evaluateAll((rows) => rows.map((row) => [...row.children].map((cell) => cell.textContent ?? '')));

/** How much of the moving figure's picture is more blue than red, 0 to 1. */
export async function blueIn(page: Page): Promise<number> {
  const png = await page.locator('.stage canvas').screenshot();
  return page.evaluate(async (text) => {
    const bytes = Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
    const picture = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
    const canvas = document.createElement('canvas');
    Object.assign(canvas, { width: picture.width, height: picture.height });
    const pen = canvas.getContext('2d');
    if (pen === null) return Number.NaN;
    pen.drawImage(picture, 0, 0);
    const { data } = pen.getImageData(0, 0, picture.width, picture.height);
    let blue = 0;
    for (let i = 0; i < data.length; i += 4) if (data[i + 2] > data[i] + 10) blue++;
    return blue / (data.length / 4);
  }, png.toString('base64'));
}
