import { describe, expect, it } from 'vitest';
import { PAPERS, paperNamed } from '../../src/sheets/paper.js';

/** Sizes of ISO 216:2007, series A and B, and of ANSI/ASME Y14.1 A and B (8.5 × 11, 11 × 17 inches); from memory. */
const SIZES: [string, number, number][] = [
  ['A0', 841, 1189],
  ['A1', 594, 841],
  ['A2', 420, 594],
  ['A3', 297, 420],
  ['A4', 210, 297],
  ['A5', 148, 210],
  ['A6', 105, 148],
  ['B0', 1000, 1414],
  ['B1', 707, 1000],
  ['B2', 500, 707],
  ['B3', 353, 500],
  ['B4', 250, 353],
  ['B5', 176, 250],
  ['B6', 125, 176],
  ['Letter', 215.9, 279.4],
  ['Tabloid', 279.4, 431.8],
];

describe('paper', () => {
  it.each(SIZES)('%s is %d × %d mm', (name, width, height) => {
    const paper = paperNamed(name.toLowerCase());
    expect(paper.width).toBeCloseTo(width, 6);
    expect(paper.height).toBeCloseTo(height, 6);
  });

  it('is listed smallest first, so that the first that takes a piece is the least', () => {
    expect(PAPERS).toHaveLength(SIZES.length);
    const areas = PAPERS.map(({ width, height }) => width * height);
    expect(areas).toEqual([...areas].sort((a, b) => a - b));
  });

  it('may be given by its size', () => {
    expect(paperNamed('320x450')).toMatchObject({ width: 320, height: 450 });
    expect(paperNamed(' 215.5 × 300 ')).toMatchObject({ width: 215.5, height: 300 });
    for (const bad of ['', 'A', 'A7', '10x10', '1e9x1', 'NaNxNaN', '-300x200', '300x', '4000x300'])
      expect(() => paperNamed(bad), bad).toThrow(/no sheet is called/);
  });
});
