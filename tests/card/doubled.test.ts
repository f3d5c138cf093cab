import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { bendAcross, gluedTogether, pullAcross } from '../../src/card/doubled.js';
import { plateStiffness } from '../../src/card/stock.js';

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const plate = (pull: number, thickness: number) => ({ pull, bend: plateStiffness(pull, thickness) });

describe('card glued on card', () => {
  test('two alike bend as one plate of twice the thickness: D grows as the cube', () => {
    const one = plate(900, 0.3);
    const both = gluedTogether(one, 0.3, one, 0.3);
    expect(both.pull).toBe(1800);
    expect(both.bend).toBeCloseTo(plateStiffness(1800, 0.6), 9);
    expect(both.bend / one.bend).toBeCloseTo(8, 9);
  });

  test('unlike ones share the neutral plane that a sum over thin sheets finds', () => {
    const [one, on] = [plate(900, 0.3), plate(2000, 0.5)];
    // Layers 1/1000 as thick, each with its own E, about the plane where the pulls balance.
    const sheets = [
      ...Array.from({ length: 1000 }, (_, k) => ({ at: 0.3 * ((k + 0.5) / 1000), pull: 0.9 })),
      ...Array.from({ length: 1000 }, (_, k) => ({ at: 0.3 + 0.5 * ((k + 0.5) / 1000), pull: 2 })),
    ];
    const total = sheets.reduce((sum, { pull }) => sum + pull, 0);
    const neutral = sheets.reduce((sum, { at, pull }) => sum + at * pull, 0) / total;
    const bend = sheets.reduce((sum, { at, pull }) => sum + pull * (at - neutral) ** 2, 0);
    expect(gluedTogether(one, 0.3, on, 0.5).bend / bend).toBeCloseTo(1, 4);
  });

  test('what is the same all over stays what it is; what is stiffer anywhere is stiffer', () => {
    fc.assert(
      fc.property(
        fc.array(number(1, 100), { minLength: 2, maxLength: 24 }),
        fc.nat(23),
        number(0, 50),
        (strips, at, more) => {
          expect(bendAcross(strips.map(() => 8))).toBeCloseTo(8, 9);
          expect(pullAcross(strips.map(() => 8))).toBeCloseTo(8, 9);
          const stiffer = strips.map((each, k) => (k === at % strips.length ? each + more : each));
          for (const mean of [bendAcross, pullAcross]) {
            expect(mean(stiffer)).toBeGreaterThanOrEqual(mean(strips) - 1e-9);
            expect(mean(strips)).toBeGreaterThanOrEqual(Math.min(...strips) - 1e-9);
            expect(mean(strips)).toBeLessThanOrEqual(Math.max(...strips) + 1e-9);
          }
        },
      ),
    );
  });

  test.each([
    ['its middle half', 0.25, 0.75, 8],
    ['its middle fifth', 0.4, 0.6, 8],
    ['all but its ends', 0.1, 0.9, 4],
    ['one half', 0, 0.5, 3],
  ])(
    'doubled on %s, it bows at the load at which the strip itself does, or at up to a seventh more',
    (_, from, to, times) => {
      const strips = Array.from({ length: 400 }, (__, k) => (k >= 400 * from && k < 400 * to ? times : 1));
      const bound = Math.PI ** 2 * bendAcross(strips);
      const load = loadOf((s) => (s >= from && s < to ? times : 1));
      expect(bound / load).toBeGreaterThan(0.999);
      expect(bound / load).toBeLessThan(1.15);
    },
  );
});

/** The load at which a strip of length 1 between hinges bows: y'' = −T y/B, shot from one end until it meets the other. */
function loadOf(stiffness: (s: number) => number): number {
  const misses = (load: number): number => {
    let [y, slope] = [0, 1];
    const step = 1 / 4000;
    for (let k = 0; k < 4000; k++) {
      slope -= ((load * y) / stiffness((k + 0.5) * step)) * step;
      y += slope * step;
      if (y < 0) return y;
    }
    return y;
  };
  let [low, high] = [1, 200];
  for (let i = 0; i < 50; i++) {
    const middle = (low + high) / 2;
    if (misses(middle) > 0) low = middle;
    else high = middle;
  }
  return low;
}
