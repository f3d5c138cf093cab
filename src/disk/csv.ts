import { createWriteStream } from 'node:fs';
import { rename } from 'node:fs/promises';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { stringify } from 'csv-stringify';
import { clearPart } from './files.js';

/** What a cell may hold: null is empty. */
export type Cell = string | number | boolean | null;

/**
 * Writes a table row by row, so that memory stays flat however long it is. The file appears whole or not at all: it
 * is written beside itself and then renamed.
 *
 * A spreadsheet must not run what a figure file calls a dim (formula injection): text that starts like a formula gets an
 * apostrophe in front. Numbers, negative ones included, stay as they are. NaN and infinities become empty.
 */
export async function writeCsv(
  path: string,
  header: readonly string[],
  rows: Iterable<readonly Cell[]>,
): Promise<void> {
  const beside = clearPart(path);
  const table = stringify({
    header: true,
    columns: header.map((name, i) => ({ key: String(i), header: name })),
    escape_formulas: true,
    cast: {
      boolean: String,
      number: (value) => (Number.isFinite(value) ? String(value) : ''),
    },
  });
  await pipeline(Readable.from(rows), table, createWriteStream(beside, { flags: 'wx' }));
  await rename(beside, path);
}
