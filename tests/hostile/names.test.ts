import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { csvParseRows } from 'd3-dsv';
import { afterEach, expect, test, vi } from 'vitest';
import { endAll, folderWith, runHere } from '../cli/support.js';
import { readPdf } from '../sheets/read-pdf.js';
import { mustBeDxf, mustBeHarmless, mustBeXml } from './gauntlet.js';

vi.setConfig({ testTimeout: 180_000 });
afterEach(endAll);

const filesBelow = (folder: string): string[] =>
  readdirSync(folder, { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name));

test('whatever names a figure file holds and bears, results lie in their folder and are text to every program', async () => {
  const around = folderWith({});
  const folder = join(around, 'Mein Ordner – 渡し');
  mkdirSync(folder);
  const name = '=cmd|x <b>"&.yaml';
  const text = readFileSync('tests/hostile/figures/names.yaml', 'utf8');
  writeFileSync(join(folder, name), text);
  // The same with no ranges, of which little is scored.
  const fixed = "@fixed' ]]>.yaml";
  writeFileSync(
    join(folder, fixed),
    text.replaceAll(/\{ from: (\d+), to: \d+.*\}$/gm, '$1').replace(/, '@SUM.*\]/, ']'),
  );
  const work = [
    ['explore', name, '--samples', '20', '--search', 'samples', '--workers', '1', '--out', 'out'],
    ['sheets', name, '--out', 'out/sheets'],
    ['tune', name, '--trials', '60', '--workers', '1', '--out', 'out/tuned'],
    ['compare', name, fixed, '--samples', '10', '--workers', '1', '--out', 'out/compared'],
  ];
  for (const args of work) {
    const { code, err } = await runHere(folder, ...args);
    expect([args[0], code, err]).toEqual([args[0], 0, expect.not.stringMatching(/fault|\n {4}at /)]);
  }
  expect(readdirSync(around)).toEqual(['Mein Ordner – 渡し']);
  expect(readdirSync(folder).sort()).toEqual([name, fixed, 'out']);

  const read = { html: 0, svg: 0, dxf: 0, pdf: 0, csv: 0, json: 0 };
  for (const path of filesBelow(join(folder, 'out'))) {
    // A name that any system takes, and none of what Windows keeps for devices.
    expect(path.slice(folder.length)).toMatch(/^(\/[a-z0-9-]+)+\.[a-z]+$/);
    expect(path).not.toMatch(/\/(con|prn|aux|nul|com\d|lpt\d)\./);
    const text = readFileSync(path, 'utf8');
    if (path.endsWith('.html')) read.html += Number(mustBeHarmless(text) === undefined);
    if (path.endsWith('.svg')) read.svg += Number(mustBeXml(text) === undefined);
    if (path.endsWith('.dxf')) read.dxf += Number(mustBeDxf(text) === undefined);
    if (path.endsWith('.pdf')) read.pdf += Math.sign((await readPdf(readFileSync(path))).length);
    if (path.endsWith('.json')) read.json += Number(JSON.parse(text) !== null);
    if (!path.endsWith('.csv')) continue;
    read.csv++;
    // What a spreadsheet would take for a formula (OWASP, "CSV Injection", from memory): all but plain numbers.
    for (const cell of csvParseRows(text).flat())
      if (!Number.isFinite(Number(cell))) expect(cell).not.toMatch(/^[=+\-@\t\r]/);
  }
  for (const count of Object.values(read)) expect(count).toBeGreaterThan(1);
});
