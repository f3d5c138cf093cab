import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { placeNames, SLOTS } from '../../../src/report/charts/place-names.js';
import {
  label,
  percent,
  quantity,
  shorten,
  textWidth,
  threeDigits,
  wrap,
} from '../../../src/report/charts/text.js';
import { spoken } from '../../../src/text/phrases.js';

describe('labels', () => {
  test('what fits stays, what does not loses its middle', () => {
    expect(shorten('mast height', 200, 12)).toBe('mast height');
    expect(shorten('left arm counter-fold angle', 100, 12)).toMatch(/^left.*….*angle$/);
  });

  test('no line is wider than asked, whatever the text', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: 'grapheme', maxLength: 80 }),
        fc.integer({ min: 30, max: 300 }),
        (text, width) => {
          expect(textWidth(shorten(text, width, 12), 12)).toBeLessThanOrEqual(width);
          for (const line of wrap(text, width, 12)) expect(textWidth(line, 12)).toBeLessThanOrEqual(width);
          expect(label(text, width, 12, 2).split('\n').length).toBeLessThanOrEqual(2);
        },
      ),
      { seed: 1 },
    );
  });
});

describe('numbers', () => {
  test.each([
    [0, '0'],
    [-0.0001, '−0.0001'],
    [-2.34567, '−2.35'],
    [12345.6, '12300'],
    [0.1 + 0.2, '0.3'],
  ])('%d is written %s', (value, text) => {
    expect(threeDigits(value)).toBe(text);
  });

  test('with units, shares and lists', () => {
    expect([quantity(-2, '°'), quantity(2.5, 'mm'), quantity(3, '')]).toEqual(['−2°', '2.5 mm', '3']);
    expect(percent(0.126)).toBe('13 %');
    expect([spoken([]), spoken(['a']), spoken(['a', 'b']), spoken(['a', 'b', 'c'])]).toEqual([
      '',
      'a',
      'a and b',
      'a, b and c',
    ]);
  });
});

describe('placeNames', () => {
  test('no name covers another, a point, or the edge', () => {
    const points = fc.array(
      fc.record({
        name: fc.constantFrom('a', 'dummy 12', 'the longest of the names'),
        px: fc.integer({ min: 0, max: 400 }),
        py: fc.integer({ min: 0, max: 300 }),
      }),
      { maxLength: 30 },
    );
    fc.assert(
      fc.property(points, (named) => {
        const slots = placeNames(named, 400, 300, 11);
        const boxes = named.flatMap(({ name, px, py }, k) => {
          const slot = slots[k];
          if (slot === null) return [];
          const { dx, dy, anchor } = SLOTS[slot];
          const width = textWidth(name, 11);
          const left = px + dx - { start: 0, end: width, middle: width / 2 }[anchor];
          return [{ left, right: left + width, top: py + dy - 5.5, bottom: py + dy + 5.5 }];
        });
        boxes.forEach((a, i) => {
          expect(a.left).toBeGreaterThanOrEqual(0);
          expect(a.right).toBeLessThanOrEqual(400);
          for (const b of boxes.slice(i + 1)) {
            expect(a.right <= b.left || b.right <= a.left || a.bottom <= b.top || b.bottom <= a.top).toBe(
              true,
            );
          }
          for (const { px, py } of named)
            expect(px > a.left && px < a.right && py > a.top && py < a.bottom).toBe(false);
        });
      }),
      { seed: 1 },
    );
  });

  test('a lone point is named on its right, at the right edge on its left', () => {
    expect(placeNames([{ name: 'dummy 1', px: 50, py: 50 }], 400, 300, 11)).toEqual([0]);
    expect(placeNames([{ name: 'dummy 1', px: 395, py: 50 }], 400, 300, 11)).toEqual([1]);
  });
});
