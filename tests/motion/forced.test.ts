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
const lockOf = (part: PlainPart, give: number) =>
  open(assemble([part], { width: 150, height: 210 }, give), 2, give).lock?.pageAngle;

describe('a fold cut a little off', () => {
  it('is pressed flat between the pages, with all that it is off as its misfit', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 30, max: 80, noNaN: true }),
        fc.double({ min: 30, max: 80, noNaN: true }),
        fc.double({ min: 5, max: 30, noNaN: true }),
        fc.double({ min: -0.45, max: 0.45, noNaN: true }),
        (g1, g2, wider, off) => {
          // At p₁ + p₂ + g₁ + g₂ = 360° the open figure is a double root: keep a degree away from it.
          const more = Math.min(wider, 179 - g1 - g2);
          const v = vFold([g1, g2], [g2 + more, g1 + more + off]);
          const t = tent([g1 / 2, g2 / 2], [g2 / 2 + more, g1 / 2 + more + off]);
          for (const [part, gap] of [
            [v, 2 * Math.sin((Math.abs(off) * RADIANS) / 2) * 60],
            [t, Math.abs(off)],
          ] as const) {
            const assembly = assemble([part]);
            const opening = open(assembly);
            expect(opening.lock).toBeNull();
            expect(findOutOfBook(assembly, opening).out).toBeLessThan(0.01);
            expect(opening.misfitsAt(90)[0]).toBeCloseTo(gap, 4);
            expect(opening.misfitsAt(30)[0]).toBeLessThan(1e-6);
          }
        },
      ),
      { numRuns: 60 },
    );
  });

  it('by 1° on either side stops some 10° short of shut', () => {
    for (const part of [
      vFold([60, 60], [64, 65]),
      vFold([60, 61], [64, 64]),
      vFold([80, 45], [50, 86]),
      vFold([80, 45], [50, 84]),
      { ...vFold([60, 60], [80, 81]), points: 'out' },
    ]) {
      const lock = lockOf(part, 0.5);
      expect(lock).toBeGreaterThan(8);
      expect(lock).toBeLessThan(22);
    }
  });

  it('by four times as much stops twice as far from shut, where the card gives nothing', () => {
    const [little, much] = [0.25, 1].map((off) => lockOf(vFold([60, 60], [64, 64 + off]), 1e-5) ?? 0);
    expect(much / little).toBeCloseTo(2, 1);
    const [narrow, wide] = [0.1, 0.4].map((off) => lockOf(tent([25, 25], [40, 40 + off]), 1e-5) ?? 0);
    expect(wide / narrow).toBeCloseTo(2, 1);
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
