import { basename, dirname } from 'node:path';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { resultsFolder } from '../../src/cli/results-folder.js';

test('a plain name is kept', () => {
  expect(resultsFolder('examples/ferryman.yaml')).toBe('results/ferryman');
  expect(resultsFolder('my figures/Fährmann 2.yml')).toBe('results/Fährmann 2');
});

// Reserved names: Microsoft, "Naming Files, Paths, and Namespaces" (from memory).
test.each([
  '..yaml',
  '...yaml',
  '.yaml',
  'con.yaml',
  'NUL.backup.yaml',
  'com1.yaml',
  'a:b.yaml',
  'x?.yaml',
  ' .yaml',
])('%j becomes a folder that every system can have', (name) => {
  const folder = basename(resultsFolder(name));
  expect(folder).toMatch(/^[\p{L}\p{N}_-][\p{L}\p{N} ._-]*$/u);
  expect(folder).not.toMatch(/^(con|nul|com1)(\.|$)|[. ]$/i);
});

test('whatever the file is called, results stay in results, and differ where the names do', () => {
  const name = fc
    .string({ unit: 'grapheme', minLength: 1, maxLength: 100 })
    .filter((text) => !text.includes('/'));
  fc.assert(
    fc.property(name, name, (a, b) => {
      const folder = resultsFolder(`${a}.yaml`);
      expect(dirname(folder)).toBe('results');
      expect(['', '.', '..']).not.toContain(basename(folder));
      expect(basename(folder).length).toBeLessThan(80);
      if (a !== b) expect(resultsFolder(`${b}.yaml`)).not.toBe(folder);
    }),
    { numRuns: 500 },
  );
});
