import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findOutOfBook } from '../../src/score/book.js';
import { stream } from '../../src/search/random.js';
import { assemble, axisOf, open, type PlainPart } from '../support/assemble.js';

/** No outside source: what is checked is that the pages hold the fold, and the square root derived at `forcedBy`. */

const RADIANS = Math.PI / 180;
const vFold = (glue: [number, number], panels: [number, number]): PlainPart => ({
  name: 'fold',
  kind: 'v-fold',
  at: 100,
  glue,
  panels,
  feet: [50, 50],
  ridge: 60,
});
const tent = (glue: [number, number], widths: [number, number]): PlainPart => ({
  name: 'tent',
  kind: 'parallel-fold',
  at: 40,
  length: 80,
  glue,
  widths,
});

/** The page angle at which one part alone locks. */
const lockOf = (part: PlainPart) => open(assemble([part])).lock?.pageAngle ?? 0;

/** The page angle at which it first must be forced, degrees. */
function forcedFrom(part: PlainPart): number {
  const opening = open(assemble([part]), 0.1);
  const frame = Array.from({ length: opening.count }, (_, i) => i).find(
    (i) => opening.misfitsAt(i)[0] > 1e-6,
  );
  return frame === undefined ? 0 : opening.pageAngles[frame];
}

describe('a fold cut a little off', () => {
  it('is pressed flat between the pages, with all that it is off as its misfit', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 30, max: 80, noNaN: true }),
        fc.double({ min: 30, max: 80, noNaN: true }),
        fc.double({ min: 5, max: 30, noNaN: true }),
        fc.double({ min: -2, max: 2, noNaN: true }),
        (g1, g2, wider, off) => {
          // At p₁ + p₂ + g₁ + g₂ = 360° it is flat when open, too, and forced there: keep away from it.
          const more = Math.min(wider, 170 - g1 - g2);
          const v = vFold([g1, g2], [g2 + more, g1 + more + off]);
          const t = tent([g1 / 2, g2 / 2], [g2 / 2 + more, g1 / 2 + more + off]);
          for (const [part, gap] of [
            [v, 2 * Math.sin((Math.abs(off) * RADIANS) / 2) * 60],
            [t, Math.abs(off)],
          ] as const) {
            const assembly = assemble([part]);
            const opening = open(assembly);
            expect(opening.lock).toBeNull();
            expect(findOutOfBook(assembly, opening).out).toBeLessThan(0.3);
            expect(opening.misfitsAt(90)[0]).toBeCloseTo(gap, 4);
            expect(opening.misfitsAt(30)[0]).toBeLessThan(1e-6);
          }
        },
      ),
      { numRuns: 60 },
    );
  });

  it('by 1° on either side must be forced over the last 8 to 20°, and shuts', () => {
    for (const part of [
      vFold([60, 60], [64, 65]),
      vFold([60, 61], [64, 64]),
      vFold([80, 45], [50, 86]),
      vFold([80, 45], [50, 84]),
      { ...vFold([60, 60], [80, 81]), points: 'out' },
    ]) {
      expect(forcedFrom(part)).toBeGreaterThan(8);
      expect(forcedFrom(part)).toBeLessThan(20);
      expect(lockOf(part)).toBe(0);
    }
  });

  it('by four times as much must be forced twice as far from shut', () => {
    const [little, much] = [0.25, 1].map((off) => forcedFrom(vFold([60, 60], [64, 64 + off])));
    expect(much / little).toBeCloseTo(2, 1);
    const [narrow, wide] = [0.1, 0.4].map((off) => forcedFrom(tent([25, 25], [40, 40 + off])));
    expect(wide / narrow).toBeCloseTo(2, 1);
  });

  it('by more than 3 mm or 3° locks, the farther from shut the more it is off, and with no leap at 3', () => {
    const tents = [2.9, 3, 3.01, 3.1, 5].map((off) => lockOf(tent([20, 20], [30 + off, 30])));
    expect(tents.slice(0, 2)).toEqual([0, 0]);
    expect(tents[2]).toBeGreaterThan(0);
    expect(tents[2]).toBeLessThan(2);
    expect(tents[3]).toBeGreaterThan(tents[2]);
    expect(tents[4]).toBeGreaterThan(tents[3]);
    const folds = [2.9, 3.01, 3.1, 5].map((off) => lockOf(vFold([60, 60], [64, 64 + off])));
    expect(folds[0]).toBe(0);
    expect(folds[1]).toBeLessThan(2);
    expect(folds[3]).toBeGreaterThan(folds[2]);
  });

  it('leans as far as the page before it needs force: a tent of 20 and 20, 33 and 30 mm touches it at 24.6°', () => {
    const part = tent([20, 20], [33, 30]);
    const touches = forcedFrom(part);
    expect(touches).toBeGreaterThan(23.5);
    expect(touches).toBeLessThan(25);
  });

  it('carries what stands on it flat to shut, however little it is off', () => {
    const random = stream(1, 'little errors');
    const off = () => 0.02 * random.normal();
    for (let k = 0; k < 60; k++) {
      const boat = tent([28 + off(), 28 + off()], [40 + off(), 40 + off()]);
      const man = {
        ...vFold([60 + off(), 60 + off()], [120 + off(), 120 + off()]),
        on: 'tent ridge',
        at: 30,
        points: 'out',
      };
      const arm = {
        ...vFold([35 + off(), 35 + off()], [35 + off(), 35 + off()]),
        name: 'arm',
        on: 'fold left foot inner',
        at: 10,
        feet: [12, 12],
        ridge: 15,
      };
      const assembly = assemble([boat, man, arm]);
      const opening = open(assembly);
      expect(opening.lock).toBeNull();
      for (let panel = 0; panel < assembly.panels.length; panel++)
        expect(Math.abs(axisOf(assembly, opening.frame(90), assembly.panels[panel].name, 2)[2])).toBeCloseTo(
          1,
          9,
        );
    }
  });
});
