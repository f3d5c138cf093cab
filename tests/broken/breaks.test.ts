import { describe, expect, it } from 'vitest';
import { BREAKS, brokenFigure, mended, works } from './breaks.js';

describe('the figures broken on purpose', () => {
  it('are twenty, each broken in a way of its own', () => {
    expect(BREAKS).toHaveLength(20);
    expect(new Set(BREAKS.map(({ way }) => way)).size).toBe(20);
  });

  it.each(BREAKS)('$file does not work: $way', (broken) => {
    expect(works(brokenFigure(broken))).toBe(false);
  });

  it.each(BREAKS)('$file works with its one value set back', (broken) => {
    expect(works(mended(broken))).toBe(true);
  });
});
