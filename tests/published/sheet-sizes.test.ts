import { describe, expect, it } from 'vitest';
import { isoSheet } from '../../src/figure/iso216.js';
import { PAPERS, paperNamed } from '../../src/sheets/layout/paper.js';

/** Trimmed sizes of ISO 216:2007, series A and B, mm; from memory. */
const ISO = [
  ['A0', 841, 1189],
  ['A1', 594, 841],
  ['A2', 420, 594],
  ['A3', 297, 420],
  ['A4', 210, 297],
  ['A5', 148, 210],
  ['A6', 105, 148],
  ['A7', 74, 105],
  ['A8', 52, 74],
  ['A9', 37, 52],
  ['A10', 26, 37],
  ['B0', 1000, 1414],
  ['B1', 707, 1000],
  ['B2', 500, 707],
  ['B3', 353, 500],
  ['B4', 250, 353],
  ['B5', 176, 250],
  ['B6', 125, 176],
  ['B7', 88, 125],
  ['B8', 62, 88],
  ['B9', 44, 62],
  ['B10', 31, 44],
] as const;

/** Those to print on, and sizes A and B of ANSI/ASME Y14.1 (8.5 × 11 and 11 × 17 inches); from memory. */
const SIZES: (readonly [string, number, number])[] = [
  ...ISO.filter(([name]) => /^[AB][0-6]$/.test(name)),
  ['Letter', 215.9, 279.4],
  ['Tabloid', 279.4, 431.8],
];

describe('sheets of ISO 216', () => {
  it.each(ISO)('%s is %d × %d mm', (name, width, height) => {
    expect(isoSheet(name)).toEqual({ width, height });
    expect(isoSheet(`${name.toLowerCase()} portrait`)).toEqual({ width, height });
    expect(isoSheet(`${name} landscape`)).toEqual({ width: height, height: width });
  });

  it.each(['A11', 'A', 'C5', 'A4 upright', '', 'A04', 'XA4'])('%j is none', (name) => {
    expect(isoSheet(name)).toBeUndefined();
  });
});

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
