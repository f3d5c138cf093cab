import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DEGREES, fourBarLoop, lackOf } from '../motion/loop-figures.js';

/**
 * Grashof (1883): with the shortest link s, the longest l and the others p and q, some link can turn right round if
 * and only if s + l ≤ p + q; it is the shortest, so that the crank turns when it, or the ground, is the shortest.
 */
function crankTurns([a, b, c, d]: number[]): boolean {
  const [s, p, q, l] = [a, b, c, d].sort((x, y) => x - y);
  return s + l < p + q && (s === a || s === d);
}

describe('Grashof’s condition', () => {
  it('sorts four-bars into those that turn and those that lock, as the loop finds them', () => {
    const length = fc.integer({ min: 200, max: 1200 }).map((n) => n / 10);
    const counts = { turn: 0, lock: 0 };
    fc.assert(
      fc.property(fc.tuple(length, length, length, length), fc.boolean(), (links, open) => {
        const [a, b, c, d] = links;
        const [s, p, q, l] = [...links].sort((x, y) => x - y);
        // At equality the links pass through a line, and neither verdict is stable.
        fc.pre(Math.abs(s + l - p - q) > 0.5);
        const start = Array.from({ length: 24 }, (_, i) => i / 4).find((t) => lackOf(a, b, c, d, t) < -0.1);
        fc.pre(start !== undefined);
        const { loop, turnTo } = fourBarLoop(links, start ?? 0, open ? 1 : -1);
        let worst = 0;
        for (let i = 1; i <= 180; i++) {
          turnTo((start ?? 0) + (2 * i) / DEGREES);
          worst = Math.max(worst, loop.gap);
        }
        const turns = crankTurns(links);
        counts[turns ? 'turn' : 'lock']++;
        expect(worst < 1e-3).toBe(turns);
      }),
      { numRuns: 150, seed: 11 },
    );
    // Both verdicts were put to the test.
    expect(Math.min(counts.turn, counts.lock)).toBeGreaterThan(20);
  });
});
