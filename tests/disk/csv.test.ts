import { mkdtempSync, readdirSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { csvParse, csvParseRows } from 'd3-dsv';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type Cell, writeCsv } from '../../src/disk/csv.js';

async function written(header: string[], rows: Iterable<Cell[]>): Promise<string> {
  const folder = mkdtempSync(join(tmpdir(), 'dummyrun-csv-'));
  await writeCsv(join(folder, 'table.csv'), header, rows);
  expect(readdirSync(folder)).toEqual(['table.csv']);
  return readFileSync(join(folder, 'table.csv'), 'utf8');
}

test('one line for each row; what is not a number is empty', async () => {
  const rows = [
    [1, -2.5, true, 'so'],
    [Number.NaN, null, false, ''],
    [Number.POSITIVE_INFINITY, 1e-9, true, 'x'],
  ];
  expect(await written(['a', 'b', 'c', 'd'], rows)).toBe('a,b,c,d\n1,-2.5,true,so\n,,false,\n,1e-9,true,x\n');
});

test('a table without rows still has its header', async () => {
  expect(await written(['a', 'b'], [])).toBe('a,b\n');
});

// The characters: OWASP, "CSV Injection" (from memory).
test.each(['=1+1', '+1', '-1', '@SUM(A1)', '\t=1', '\r=1'])('a spreadsheet does not run %j', async (text) => {
  const [row] = csvParse(await written([text], [[text]]));
  expect(row).toEqual({ [`'${text}`]: `'${text}` });
});

test('any other text, quotes and line breaks included, comes back through another reader (d3-dsv)', async () => {
  const text = fc.string({ unit: 'grapheme' }).filter((t) => !/^[=+\-@\t\r＝＋－＠]/u.test(t));
  await fc.assert(
    fc.asyncProperty(fc.array(fc.tuple(text, text), { minLength: 1 }), async (rows) => {
      expect(csvParseRows(await written(['a', 'b'], rows)).slice(1)).toEqual(rows);
    }),
    { numRuns: 50 },
  );
});
