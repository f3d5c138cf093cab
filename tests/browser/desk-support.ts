import { type ChildProcess, spawn } from 'node:child_process';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { COMPILE_LATE } from '../support/compile-late.js';

/** A desk that the program serves, as a maker starts it. */
export interface Served {
  readonly program: ChildProcess;
  readonly address: string;
}

export async function startDesk(cwd: string, file: string): Promise<Served> {
  const command = [COMPILE_LATE, join(process.cwd(), 'dist/cli.js'), 'desk', file, '--no-open'];
  const program = spawn(process.execPath, command, { cwd, stdio: ['ignore', 'pipe', 'inherit'] });
  const address = await new Promise<string>((resolve) => {
    let said = '';
    program.stdout?.on('data', (chunk: Buffer) => {
      said += chunk;
      const found = /http:\S+/.exec(said)?.[0];
      if (found !== undefined) resolve(found);
    });
  });
  return { program, address };
}

/** A page of a desk, with all that it complains of. */
export async function pageOf(browser: Browser, address: string, complaints: string[]): Promise<Page> {
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  page.setDefaultTimeout(60_000);
  page.on('pageerror', (error) => complaints.push(String(error)));
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  page.on('dialog', (dialog) => void dialog.accept());
  await page.goto(address);
  return page;
}

/** Waits until the page has worked out all that it shows of the text that the file has now. */
export async function settled(page: Page, text: () => string): Promise<void> {
  for (;;) {
    await page.waitForFunction(
      (now) => globalThis.desk?.text.value === now && globalThis.desk.isIdle,
      text(),
      // Asked at every frame, it would have every frame drawn.
      { polling: 50 },
    );
    if ((await page.evaluate(() => globalThis.desk.text.value)) === text()) return;
  }
}

/** Where a point of a panel is seen in the moving figure, px of the page. */
export function seen(page: Page, panel: string, point: readonly [number, number]): Promise<[number, number]> {
  return page.evaluate(
    ([name, at]) => {
      const { stage } = globalThis;
      const [x, y] = stage.seenAt(name, at) ?? [Number.NaN, Number.NaN];
      const { left, top } = stage.element.getBoundingClientRect();
      const { clientLeft, clientTop } = stage.element;
      return [left + clientLeft + x, top + clientTop + y] as [number, number];
    },
    [panel, point] as const,
  );
}

/** What the desk's page puts up for its tests. */
declare global {
  var desk: {
    readonly isIdle: boolean;
    readonly text: { readonly value: string | null };
    readonly part: { value: string | null };
    keep(text: string): void;
  };
  var stage: {
    readonly element: {
      readonly clientLeft: number;
      readonly clientTop: number;
      getBoundingClientRect(): { readonly left: number; readonly top: number };
    };
    seenAt(panel: string, point: readonly [number, number]): readonly [number, number] | null;
  };
}
