#!/usr/bin/env node
/**
 * How soon a drag of the ferryman gives a new picture, in a real page: from the move of the pointer to the frame in which the
 * figure is drawn anew, ms. Needs Chromium, and is run by itself: `node bench/desk-drag.mjs [CHROMIUM]`.
 */
import { copyFileSync, cpSync, mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { servedDesk } from '../scripts/served-desk.mjs';
import { softwareBrowser } from '../scripts/software-browser.mjs';

const MOVES = 40;
const folder = mkdtempSync(join(tmpdir(), 'bench-desk-'));
copyFileSync('examples/ferryman.yaml', join(folder, 'ferryman.yaml'));
cpSync('examples/art', join(folder, 'art'), { recursive: true });
const { desk: program, address } = await servedDesk(
  join(process.cwd(), 'dist/cli.js'),
  folder,
  'ferryman.yaml',
);
const browser = await softwareBrowser(process.argv[2]);
const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
await page.goto(address);
const settled = () => page.waitForFunction(() => globalThis.desk?.rest.value && globalThis.desk.isIdle);
await settled();

for (const [what, part, grip] of [
  ['a dim: his place along the boat', 'man', 'man apex'],
  ['a number of a part: a corner of his oar', 'port oar', 'port oar corner 1 '],
]) {
  await page.evaluate((name) => {
    globalThis.desk.part.value = name;
  }, part);
  await settled();
  const box = await page.locator(`.stage-grip[data-key^="${grip}"]`).first().boundingBox();
  const [x, y] = [box.x + 12, box.y + 12];
  await page.mouse.move(x, y);
  await page.mouse.down();
  // In the page: from one move of the pointer to the motion that it asks for, and to the frame in which that is drawn.
  const times = await page.evaluate(
    async ([px, py, moves]) => {
      const held = document.querySelector('.stage-grip.held');
      const found = { motion: [], drawn: [] };
      for (let i = 0; i < moves; i++) {
        await new Promise((go) => setTimeout(go, 120));
        const before = globalThis.desk.motion.value.id;
        const start = performance.now();
        const [clientX, clientY] = [px + 1.5 * (i % 8), py + (i % 5)];
        held.dispatchEvent(new PointerEvent('pointermove', { clientX, clientY, pointerId: 1 }));
        const came = await new Promise((resolve) => {
          const look = () => {
            if (globalThis.desk.motion.value.id !== before) resolve(true);
            else if (performance.now() - start > 1000) resolve(false);
            else setTimeout(look, 1);
          };
          look();
        });
        // Where it snapped to the same place, nothing has moved.
        if (!came) continue;
        found.motion.push(performance.now() - start);
        await new Promise((frame) => requestAnimationFrame(() => requestAnimationFrame(frame)));
        found.drawn.push(performance.now() - start);
      }
      return found;
    },
    [x, y, MOVES],
  );
  await page.mouse.up();
  const middle = (all) => all.sort((a, b) => a - b)[Math.floor(all.length / 2)].toFixed(0);
  const most = (all) => all.sort((a, b) => a - b)[Math.floor(0.9 * all.length)].toFixed(0);
  const said = Object.entries(times).map(
    ([name, all]) => `${name} after ${middle(all)} ms (9 of 10 within ${most(all)})`,
  );
  console.log(`${what}: ${said.join(', ')}; ${times.motion.length} moves`);
  await page.keyboard.press('Control+z');
  await settled();
}
await browser.close();
program.kill('SIGINT');
