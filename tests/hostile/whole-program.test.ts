import fc from 'fast-check';
import { expect, test, vi } from 'vitest';
import { gauntlet, mustBeHarmless, mustBeSound, mustBeWords, mustBeXml, STAGES } from './gauntlet.js';
import { bentFigure, scribbledFigure, soundFigures, spoiltFigure } from './mutations.js';

/*
 * A small and always equal part of a long run: some fifty thousand spoilt files went through the whole program when this was
 * written. To run more, change the numbers of runs and leave the seed out.
 */

vi.setConfig({ testTimeout: 120_000 });
const sound = soundFigures();

test('what looks for faults finds them', () => {
  expect(() => mustBeSound({ clash: [1, Number.NaN] })).toThrow('NaN at .clash.1');
  expect(() => mustBeWords('it rises undefined mm')).toThrow("'undefined'");
  expect(() => mustBeXml('<svg><title>a & b</title></svg>')).toThrow();
  expect(() => mustBeHarmless('<p onclick="x()">')).toThrow('onclick');
  expect(() => mustBeHarmless('<h1><script>alert(1)</script></h1>')).toThrow('<script>');
  expect(() => mustBeHarmless('<h1>&lt;script></h1>')).not.toThrow();
});

test('a figure whose every name is hostile goes through the whole program', async () => {
  const named = sound.find((text) => text.includes('</script>')) ?? '';
  expect((await gauntlet(named, STAGES)).end).toBe('card');
});

test('whatever numbers stand in a figure file, there is a refusal, a named reason or a sound score', async () => {
  const ends = new Set<string>();
  await fc.assert(
    fc.asyncProperty(bentFigure(sound), async (text) => {
      ends.add((await gauntlet(text, ['poses', 'words', 'cut', 'models', 'report'])).end);
    }),
    { numRuns: 40, seed: 1 },
  );
  expect(ends).toEqual(new Set(['refused', 'no card', 'card']));
});

test('figures bent out of shape are tuned, trimmed and laid out without a fault', async () => {
  await fc.assert(
    fc.asyncProperty(bentFigure(sound), async (text) => {
      await gauntlet(text, ['trims', 'sheets', 'tune']);
    }),
    { numRuns: 5, seed: 5 },
  );
});

test.each([
  ['values out of place', spoiltFigure(sound)],
  ['letters out of place', scribbledFigure(sound)],
])('a figure file with %s is refused in words, or is a figure', async (_, files) => {
  const ends = new Set<string>();
  await fc.assert(
    fc.asyncProperty(files, async (text) => {
      ends.add((await gauntlet(text, ['poses', 'words'])).end);
    }),
    { numRuns: 60, seed: 3 },
  );
  expect(ends).toContain('refused');
  expect(ends).toContain('card');
});
