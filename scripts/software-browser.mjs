import { chromium } from 'playwright-core';

/**
 * Starts Chromium without a screen, drawing in space by software.
 * @param executablePath where it is, if not at its usual place
 * @param more what else it is told
 */
export const softwareBrowser = (executablePath = '/usr/bin/chromium', more = []) =>
  chromium.launch({
    executablePath,
    args: [
      '--headless',
      '--no-sandbox',
      '--disable-gpu',
      '--use-angle=swiftshader',
      '--enable-unsafe-swiftshader',
      ...more,
    ],
  });
