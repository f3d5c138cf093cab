import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Crossing, newCrossing } from '../../../src/geometry/crossing.js';
import { ClashTest } from '../../../src/score/clash/clash.js';
import { Rubs } from '../../../src/score/clash/rubs.js';
import { assemble, open, type PlainPart, rectangle } from '../../support/assemble.js';

const D = 8;
const RADIANS = Math.PI / 180;
const bendOf = () => D;

/** A V-fold, and an arm 10 mm broad that is glued on its left panel and reaches beyond. */
const flap: PlainPart[] = [
  { name: 'v', kind: 'v-fold', at: 100, glue: [60, 60], panels: [70, 70], feet: [60, 60], ridge: 60 },
  {
    name: 'arm',
    kind: 'glued-piece',
    on: 'v left',
    at: [30, 10],
    outline: { polygon: rectangle(10, 60) },
  },
];
const assembly = assemble(flap);
const arm = assembly.panels.findIndex(({ name }) => name === 'arm');
const left = assembly.panels.findIndex(({ name }) => name === 'v left');

const crossing = (push: number, degrees: number, at: readonly [number, number] = [5, 60]): Crossing => ({
  ...newCrossing(),
  push,
  depth: push / Math.sin(degrees * RADIANS),
  angle: degrees * RADIANS,
  ax: at[0],
  ay: at[1],
});

describe('card that is bent aside', () => {
  it('pushes back as a strip held at one end: F = 3 D b w/L³ (Timoshenko and Gere, F L³ = 3 E I w)', () => {
    const rubs = new Rubs(assembly, bendOf, 0.5);
    const { free, nx, ny } = overhang();
    expect(free).toBeGreaterThan(10);
    // A rectangle of 10 by 60 mm is so broad square to the way to where it is held; the push spreads over twice that way.
    const broad = Math.min(2 * free, 10 * Math.abs(ny) + 60 * Math.abs(nx));
    expect(rubs.stiffness(arm, 5, 60)).toBeCloseTo((3 * D * broad) / free ** 3, 6);
  });

  it('is not where it is held: on its glue, a tab, a page', () => {
    const rubs = new Rubs(assembly, bendOf, 0.5);
    expect(rubs.stiffness(arm, 5, 2)).toBe(Number.POSITIVE_INFINITY);
    expect(rubs.stiffness(0, -50, 50)).toBe(Number.POSITIVE_INFINITY);
    const tab = assembly.panels.findIndex(({ role }) => role === 'tab');
    expect(rubs.stiffness(tab, 0, 0)).toBe(Number.POSITIVE_INFINITY);
  });

  it('rubs up to that force and 2 mm; from 45° to 60° less and less, and beyond it hooks', () => {
    const [soft, stiff] = [new Rubs(assembly, bendOf, 0.5), new Rubs(assembly, () => 100 * D, 0.5)];
    const of = (rubs: Rubs, degrees: number) => rubs.allowed(arm, 0, crossing(9, degrees));
    expect(of(soft, 30)).toBe(2);
    expect(of(stiff, 30)).toBeCloseTo(0.5 / stiff.stiffness(arm, 5, 60), 9);
    expect(of(soft, 52.5)).toBeCloseTo(1, 9);
    expect(of(soft, 60)).toBe(0);
    expect(of(soft, 90)).toBe(0);
  });

  it('lies on what it meets at less than 10°, though it be held', () => {
    const rubs = new Rubs(assembly, bendOf, 0.5);
    const of = (degrees: number) => rubs.allowed(arm, 0, crossing(9, degrees, [5, 2]));
    expect(of(5)).toBe(3);
    expect(of(15)).toBeCloseTo(1.5, 9);
    expect(of(25)).toBe(0);
  });

  it('is excused no less for softer card, and nothing leaps as it turns', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 89, noNaN: true }),
        fc.double({ min: 1, max: 100, noNaN: true }),
        fc.double({ min: 1, max: 3, noNaN: true }),
        (degrees, bend, more) => {
          const rubs = new Rubs(assembly, () => bend, 0.5);
          const stiffer = new Rubs(assembly, () => bend * more, 0.5);
          const here = rubs.allowed(arm, 0, crossing(9, degrees));
          expect(stiffer.allowed(arm, 0, crossing(9, degrees))).toBeLessThanOrEqual(here + 1e-12);
          expect(Math.abs(rubs.allowed(arm, 0, crossing(9, degrees + 1e-6)) - here)).toBeLessThan(1e-5);
        },
      ),
    );
  });
});

describe('leaves that run through one another past a ridge', () => {
  // On either panel of a V-fold, both so large that they go on past its ridge.
  const leaf = (on: 'left' | 'right'): PlainPart => ({
    name: `leaf ${on}`,
    kind: 'glued-piece',
    on: `v ${on}`,
    at: [20, 20],
    outline: {
      polygon: [
        [-15, -15],
        [15, -15],
        [15, 16],
        [-15, 16],
      ],
    },
  });

  it('catch, though the crease between their panels closes a loop', () => {
    const leaves = assemble([flap[0], leaf('left'), leaf('right')]);
    const rubs = new Rubs(leaves, bendOf, 0.5);
    expect(new ClashTest().run(leaves, open(leaves), 0.3, rubs).worst).not.toBeNull();
  });
});

/** How far the middle of the arm's end is from the panel that it is glued on, mm, and in which direction. */
function overhang() {
  const { outline } = assembly.panels[left];
  // The arm lies at (30, 10) on the panel, upright.
  const [px, py] = [35, 70];
  const found = { free: Number.POSITIVE_INFINITY, nx: 0, ny: 0 };
  for (let i = 0, j = outline.length - 2; i < outline.length; j = i, i += 2) {
    const [ex, ey] = [outline[i] - outline[j], outline[i + 1] - outline[j + 1]];
    const t = ((px - outline[j]) * ex + (py - outline[j + 1]) * ey) / (ex * ex + ey * ey);
    const at = Math.min(1, Math.max(0, t));
    const [dx, dy] = [px - outline[j] - at * ex, py - outline[j + 1] - at * ey];
    const free = Math.hypot(dx, dy);
    if (free < found.free) Object.assign(found, { free, nx: dx / free, ny: dy / free });
  }
  return found;
}
