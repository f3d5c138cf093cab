import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { parseFigure } from '../../src/figure/text/source.js';
import { threeFaults } from '../broken/three-faults.js';
import { changesOf, textWorks, tuned } from './support.js';

test('a figure of more than twenty panels with three faults of different kinds is freed, each remedy as it is written', async () => {
  const [{ text, panels, faults }] = threeFaults(1);
  expect(panels).toBeGreaterThanOrEqual(20);
  expect(new Set(faults.map(({ kind }) => kind)).size).toBe(3);
  const { remedies } = await tuned(parseFigure(text, 'spoilt.yaml'), {}, 300);
  expect(remedies.length).toBeGreaterThan(0);
  for (const { text: freed, card } of remedies) {
    expect(card.works).toBe(true);
    expect(textWorks(freed)).toBe(true);
  }
  // No more is changed than was spoilt.
  expect(Math.min(...remedies.map(({ changes }) => changes.length))).toBeLessThanOrEqual(3);
}, 120_000);

test('a tab on the wrong side, that gets in the way of a fold close by, is turned', async () => {
  const barn = readFileSync('tests/broken/bases/barn.yaml', 'utf8').replace('side: outer', 'side: inner');
  expect(textWorks(barn)).toBe(false);
  const { remedies } = await tuned(parseFigure(barn, 'barn.yaml'), {}, 300);
  expect(remedies.map(changesOf)).toContainEqual(['barn.tab.side inner → outer']);
});
