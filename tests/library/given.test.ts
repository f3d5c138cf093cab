import { expect, test } from 'vitest';
import { compare, explore, parse, read, score, sheets, tune } from '../../src/index.js';
import { TENT } from '../cli/support.js';

const figure = parse(TENT);

test('who writes without types is told what was meant', async () => {
  expect(() => parse(5 as never)).toThrow('found 5; give the text of a figure file');
  expect(() => read(null as never)).toThrow('found an object; give the path of a figure file');
  for (const none of [undefined, {}, { data: {} }] as never[]) {
    expect(() => score(none)).toThrow('found no figure');
    await expect(sheets(none)).rejects.toThrow('found no figure');
    await expect(tune(none)).rejects.toThrow('found no figure');
    await expect(compare([none, none])).rejects.toThrow('found no figure');
  }
  // A hole in a list is no part.
  const { data } = figure as { data: object };
  expect(() => score({ ...figure, data: { ...data, parts: Array(1) } } as never)).toThrow(
    'parts.0: found nothing',
  );
});

test('options beyond their bounds are refused, and waited for no thread that never comes', async () => {
  const given = [
    { samples: 0 },
    { seed: -1 },
    { workers: Number.NaN },
    { workers: 1e6 },
    { seconds: 0 },
    { search: 'x' },
  ];
  for (const options of given)
    await expect(explore(figure, options as never).next()).rejects.toThrow(/^found s|^found w/);
  await expect(tune(figure, { trials: 1.5 })).rejects.toThrow('found trials 1.5');
  await expect(compare([figure, figure], { samples: -1 })).rejects.toThrow('found samples -1');
  await expect(compare([])).rejects.toThrow('found figures 0');
  await expect(sheets(figure, {}, { margin: '' as never })).rejects.toThrow('a margin of  cannot be');
  await expect(explore(figure, { folder: '/dev/null/x' }).next()).rejects.toThrow('Cannot write /dev/null');
});

test('whoever changes what was given back changes nothing for the next', () => {
  const before = JSON.stringify(score(figure));
  const spoil = (part: object): void => {
    for (const [name, value] of Object.entries(part))
      if (typeof value === 'object' && value !== null) spoil(value);
      else (part as Record<string, unknown>)[name] = 'spoilt';
  };
  spoil(score(figure));
  expect(JSON.stringify(score(figure))).toBe(before);
});
