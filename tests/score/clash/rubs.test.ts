import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Crossing, newCrossing } from '../../../src/geometry/crossing.js';
import { ClashTest } from '../../../src/score/clash/clash.js';
import { Contacts } from '../../../src/score/clash/contacts.js';
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

describe('a plate on two posts, of which the second has to meet it', () => {
  const post = (name: string, at: number): PlainPart => ({
    ...{ name, kind: 'v-fold', at, glue: [84, 45], panels: [45, 84], feet: [74, 36], ridge: 55 },
    // Up to 20 mm high where the plate lies.
    outlines: {
      left: {
        polygon: [
          [0, 0],
          [74, 0],
          [72, 20],
          [42, 20],
          [55 * Math.SQRT1_2, 55 * Math.SQRT1_2],
        ],
      },
    },
  });
  const stood = (high: number, apart = 45) =>
    assemble([
      post('near', 45),
      post('far', 45 + apart),
      {
        name: 'plate',
        kind: 'plate',
        supports: ['near', 'far'].map((name) => ({
          panel: `${name} left`,
          line: [
            [58, high],
            [68, high],
          ],
        })),
        margin: 10,
      },
    ]);
  const meets = (high: number) => {
    const figure = stood(high);
    const rubs = new Rubs(figure, bendOf, 0.5);
    const [plate, far] = ['plate', 'far left'].map((name) =>
      figure.panels.findIndex((panel) => panel.name === name),
    );
    // As they cross square to each other, 1 mm beside the middle of the hinge on the post.
    return rubs.allowed(far, plate, { ...crossing(9, 90, [63, high - 1]), bx: 99, by: 99 });
  };

  it('is pierced beside a hinge that misses by the edge of a post that ends there', () => {
    expect(meets(20)).toBe(Number.POSITIVE_INFINITY);
  });

  it('is caught by a post that goes on past the hinge, as it does itself', () => {
    expect(meets(12)).toBe(0);
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

describe('card that meets only where no hand shuts the book', () => {
  it('presses, and is no catch', () => {
    // Between rigid panels it is a catch wherever it is.
    const contacts = new Contacts();
    const of = (rubs: Rubs | null, pageAngle: number) => {
      contacts.start(open(assembly), 0.3, rubs);
      return contacts.note(
        contacts.add(arm, left, () => true),
        crossing(9, 90),
        pageAngle,
      );
    };
    const rubs = new Rubs(assembly, bendOf, 0.5);
    expect([of(rubs, 1.9), of(rubs, 2.1), of(null, 1.9)]).toEqual([false, true, true]);
  });
});
