import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { readFigure } from '../../src/figure/read.js';

const HERON = readFileSync('examples/heron.yaml', 'utf8');
const utf8 = (text: string) => Buffer.from(text, 'utf8');

function read(bytes: Uint8Array) {
  const file = join(mkdtempSync(join(tmpdir(), 'dummyrun-encodings-')), 'Fähre (2) 渡し.yaml');
  writeFileSync(file, bytes);
  return readFigure(file);
}

test('a byte order mark and the line ends of Windows make no other figure', () => {
  const plain = read(utf8(HERON)).data;
  expect(read(utf8(`\ufeff${HERON}`)).data).toEqual(plain);
  const windows = read(utf8(HERON.replaceAll('\n', '\r\n')));
  expect(windows.data).toEqual(plain);
  const { free, toYaml, start } = compileFigure(windows);
  // Written again with its dims fixed, it is that figure still.
  const fixed = compileFigure(read(utf8(toYaml(start))));
  expect(fixed.free).toEqual([]);
  for (const { name } of free) expect(fixed.dims.map((dim) => dim.name)).toContain(name);
});

// Encodings that editors save in. UTF-16 of ASCII letters alone is UTF-8 with zeros between.
test.each<[string, Uint8Array, RegExp]>([
  ['UTF-16 with a mark', Buffer.from(`\ufeff${HERON}`, 'utf16le'), /not UTF-8 text, on line 1; save it with/],
  ['UTF-16 without', Buffer.from('page: A5', 'utf16le'), /:1:2 {2}found the control character U\+0000;/],
  ['Latin-1', Buffer.from('page: A5\nfigure: Fähre', 'latin1'), /not UTF-8 text, on line 2;/],
  [
    'half a letter',
    Uint8Array.from([...utf8('page: A5\n#'), 0xed, 0xa0, 0x80]),
    /not UTF-8 text, on line 2;/,
  ],
  [
    'lines ended by returns',
    utf8(HERON.replaceAll('\n', '\r')),
    /:1:\d+ {2}found a line that ends in a carriage/,
  ],
  ['a zero', utf8('page: A5\nfigure: he\0ron'), /:2:11 {2}found the control character U\+0000;/],
])('%s is refused with its line', (_, bytes, message) => {
  expect(() => read(bytes)).toThrow(message);
});
