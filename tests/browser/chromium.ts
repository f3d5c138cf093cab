import { existsSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { type Browser, type BrowserContextOptions, chromium, type Page } from 'playwright-core';
import { COMPILE_LATE } from '../support/compile-late.js';

const EXECUTABLE = '/usr/bin/chromium';

/** Whether to leave out the tests in a browser: where there is none, but never in CI. */
export const SKIPPED = !existsSync(EXECUTABLE) && process.env.CI === undefined;
if (SKIPPED) console.warn(`Skipped: the tests of the report in a browser, as there is no ${EXECUTABLE}.`);

/** Starts Chromium without a screen, drawing in space by software. */
export function launched(...more: string[]): Promise<Browser> {
  return chromium.launch({
    executablePath: EXECUTABLE,
    args: [
      '--headless',
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      '--use-angle=swiftshader',
      '--enable-unsafe-swiftshader',
      `--js-flags=${COMPILE_LATE}`,
      ...more,
    ],
  });
}

/** A page opened from a file on disk, with all that it complained of and all that it asked for. */
export interface Opened {
  readonly page: Page;
  readonly complaints: string[];
  readonly requests: string[];
  close(): Promise<void>;
}

export async function opened(
  browser: Browser,
  html: string,
  options: BrowserContextOptions = {},
): Promise<Opened> {
  const file = join(mkdtempSync(join(tmpdir(), 'dummyrun-')), 'report.html');
  writeFileSync(file, html);
  const context = await browser.newContext({ viewport: { width: 1000, height: 700 }, ...options });
  const page = await context.newPage();
  const complaints: string[] = [];
  const requests: string[] = [];
  page.on('console', (message) => {
    // What the software renderer says of its own speed is no complaint of the page.
    if (message.type() === 'error' || (message.type() === 'warning' && !message.text().includes('GPU stall')))
      complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(String(error)));
  page.on('dialog', (dialog) => {
    complaints.push(`dialog: ${dialog.message()}`);
    void dialog.dismiss();
  });
  page.on('request', (request) => requests.push(request.url()));
  const url = pathToFileURL(file).href;
  await page.goto(url);
  requests.splice(requests.indexOf(url), 1);
  return { page, complaints, requests, close: () => context.close() };
}
