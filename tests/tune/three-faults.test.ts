import { expect, test } from 'vitest';
import { parseFigure } from '../../src/figure/text/source.js';
import { threeFaults } from '../broken/three-faults.js';
import { textWorks, tuned } from './support.js';

test('a figure of more than twenty panels with three faults of different kinds is freed, each remedy as it is written', async () => {
  const [{ text, panels, faults }] = threeFaults(1);
  expect(panels).toBeGreaterThanOrEqual(20);
  expect(new Set(faults.map(({ kind }) => kind)).size).toBe(3);
  const { remedies } = await tuned(parseFigure(text, 'spoilt.yaml'), {}, 2500);
  expect(remedies.length).toBeGreaterThan(0);
  for (const { text: freed, card } of remedies) {
    expect(card.works).toBe(true);
    expect(textWorks(freed)).toBe(true);
  }
  // No more is changed than was spoilt.
  expect(Math.min(...remedies.map(({ changes }) => changes.length))).toBeLessThanOrEqual(3);
}, 120_000);
