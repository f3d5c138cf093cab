import { expect, test } from 'vitest';
import * as style from '../../../src/report/charts/style.js';

/** Contrast of two colours. Source: WCAG 2.2, definitions of relative luminance and of contrast ratio. */
function contrast(a: string, b: string): number {
  const luminance = (colour: string) => {
    const [red, green, blue] = [1, 3, 5].map((at) => {
      const c = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
      return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
  };
  const [dark, light] = [luminance(a), luminance(b)].sort((x, y) => x - y);
  return (light + 0.05) / (dark + 0.05);
}

test('the formula: black on white is 21, #767676 on white just passes 4.5', () => {
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 10);
  expect(contrast('#767676', '#ffffff')).toBeCloseTo(4.54, 2);
});

test('text has a contrast of 4.5 or more (AA): on paper, and ink on the darkest cell', () => {
  for (const text of [style.INK, style.QUIET, style.ACCENT]) {
    expect(contrast(text, style.PAPER)).toBeGreaterThanOrEqual(4.5);
  }
  expect(contrast(style.INK, style.TINT)).toBeGreaterThanOrEqual(4.5);
});

test('marks have a contrast of 3 or more (AA): bars on paper, intervals on bars', () => {
  expect(contrast(style.BAR, style.PAPER)).toBeGreaterThanOrEqual(3);
  expect(contrast(style.INK, style.BAR)).toBeGreaterThanOrEqual(3);
});
