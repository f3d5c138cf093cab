import { describe, expect, it } from 'vitest';
import { isoSheet } from '../../src/figure/iso216.js';

// ISO 216, trimmed sizes in mm (from memory).
const SHEETS = [
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

describe('sheets of ISO 216', () => {
  it.each(SHEETS)('%s is %d × %d mm', (name, width, height) => {
    expect(isoSheet(name)).toEqual({ width, height });
    expect(isoSheet(`${name.toLowerCase()} portrait`)).toEqual({ width, height });
    expect(isoSheet(`${name} landscape`)).toEqual({ width: height, height: width });
  });

  it.each(['A11', 'A', 'C5', 'A4 upright', '', 'A04', 'XA4'])('%j is none', (name) => {
    expect(isoSheet(name)).toBeUndefined();
  });
});
