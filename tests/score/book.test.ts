import { describe, expect, it } from 'vitest';
import { type Assembly, LEFT_PAGE } from '../../src/motion/assembly.js';
import { POSE, writePose } from '../../src/motion/pose.js';
import { findOutOfBook, findOverhangs } from '../../src/score/book.js';
import { measureFlatness } from '../../src/score/flat.js';
import { assemble, open, type PlainPart, rectangle } from '../support/assemble.js';

const PAGE = { width: 100, height: 150 };
const RADIANS = Math.PI / 180;

const piece = (name: string, on: string, at: [number, number], wide: number, high: number): PlainPart => ({
  name,
  kind: 'glued-piece',
  on,
  at,
  outline: {
    polygon: rectangle(wide, high),
  },
});

/**
 * A tent over the gutter. Its ridge stands at g cos(φ/2) + √(w² − g² sin²(φ/2)) from the gutter at page angle φ, for feet g
 * and sides w: the triangle of gutter, foot and ridge.
 */
const tent = (name: string, feet: number, width: number): PlainPart => ({
  name,
  kind: 'parallel-fold',
  at: 20,
  length: 50,
  glue: [feet, feet],
  widths: [width, width],
});
const ridgeAt = (feet: number, width: number, pageAngle: number): number => {
  const half = (pageAngle / 2) * RADIANS;
  return feet * Math.cos(half) + Math.sqrt(width ** 2 - (feet * Math.sin(half)) ** 2);
};

/** A card 10 mm wide and 20 mm high that goes where it is put at each page angle (degrees), its plane parallel to the left page. */
function addCard(
  assembly: Assembly,
  part: string,
  at: (pageAngle: number) => [number, number, number],
): void {
  const panel = assembly.addPanel({
    name: `${part} card`,
    part,
    piece: part,
    outline: [0, 0, 10, 0, 10, 20, 0, 20],
  });
  assembly.addStep({
    part,
    place(poses) {
      const [x, y, z] = at(Math.acos(-poses[POSE]) / RADIANS);
      writePose(poses, panel, x, y, z, 1, 0, 0, 0, 1, 0);
    },
  });
}

const overhangs = (assembly: Assembly, below: number) =>
  findOverhangs(assembly, open(assembly), below).map(({ panel, edge, past, pageAngle }) => ({
    panel: assembly.panels[panel].name,
    edge,
    past: Number(past.toFixed(6)),
    pageAngle,
  }));

describe('card that sticks out of the shut book', () => {
  it('is told past each edge, the farthest part first', () => {
    const pieces = [
      piece('wing', 'right page', [80, 50], 32, 10), // 80 + 32 − 100
      piece('flag', 'left page', [-50, 130], 10, 27), // 130 + 27 − 150
      piece('root', 'right page', [40, -4], 10, 20),
      piece('hook', 'left page', [-5, 90], 8, 10), // −5 + 8
    ];
    const told = [
      { panel: 'wing', edge: 'fore-edge', past: 12, pageAngle: 0 },
      { panel: 'flag', edge: 'head', past: 7, pageAngle: 0 },
      { panel: 'root', edge: 'foot', past: 4, pageAngle: 0 },
      { panel: 'hook', edge: 'spine', past: 3, pageAngle: 0 },
    ];
    expect(overhangs(assemble([...pieces].reverse(), PAGE), 0)).toEqual(told);
    pieces.forEach((each, i) => {
      const assembly = assemble([each], PAGE);
      expect(overhangs(assembly, 0)).toEqual([told[i]]);
      const shut = measureFlatness(assembly, open(assembly)).shut;
      expect(shut?.overhang).toBeCloseTo(told[i].past, 9);
      expect(assembly.panels[shut?.overhanging ?? 0].name).toBe(told[i].panel);
    });
  });

  it('is for a tent what its foot and its side are longer than the page together', () => {
    expect(overhangs(assemble([tent('hut', 45, 62)], PAGE), 0)).toEqual([
      {
        panel: expect.stringMatching(/^hut (left|right)$/),
        edge: 'fore-edge',
        past: 45 + 62 - 100,
        pageAngle: 0,
      },
    ]);
    const fitting = assemble([tent('hut', 40, 60)], PAGE);
    expect(overhangs(fitting, 0)).toEqual([]);
    expect(measureFlatness(fitting, open(fitting)).shut?.overhang).toBeLessThan(1e-6);
  });
});

describe('card that sticks out below a page angle', () => {
  it('is looked at there to the very degree, between the frames as well', () => {
    // It rises past the head by 12 mm · sin φ, most of all at the page angle that was set.
    const assembly = assemble([], PAGE);
    addCard(assembly, 'kite', (pageAngle) => [-60, 130 + 12 * Math.sin(pageAngle * RADIANS), 5]);
    for (const below of [30, 47.3, 61]) {
      const [found, ...others] = findOverhangs(assembly, open(assembly), below);
      expect(others).toEqual([]);
      expect(found).toMatchObject({ edge: 'head', pageAngle: below });
      expect(found.past).toBeCloseTo(12 * Math.sin(below * RADIANS), 9);
    }
    // Beyond 90° it sinks again: the frame at 90° shows it farthest out.
    expect(findOverhangs(assembly, open(assembly), 133)[0]).toMatchObject({ pageAngle: 90 });
    expect(findOverhangs(assembly, open(assembly), 0)).toEqual([]);
  });

  it('is measured at the fore-edge by its distance from the gutter, wherever the page stands', () => {
    // On the bisector of the two pages it goes out, as they turn, to 3 mm · sin φ beyond the reach of the page.
    const assembly = assemble([], PAGE);
    addCard(assembly, 'moth', (pageAngle) => {
      const half = (pageAngle / 2) * RADIANS;
      const reach = 100 + 3 * Math.sin(pageAngle * RADIANS);
      return [-reach * Math.cos(half), 60, reach * Math.sin(half)];
    });
    const [found] = findOverhangs(assembly, open(assembly), 80);
    expect(found).toMatchObject({ edge: 'fore-edge', pageAngle: 80 });
    expect(found.past).toBeCloseTo(3 * Math.sin(80 * RADIANS), 9);
    // A tent over the same page is shut farther out than it stands.
    const hut = assemble([tent('hut', 45, 62)], PAGE);
    expect(findOverhangs(hut, open(hut), 80)[0].past).toBeCloseTo(ridgeAt(45, 62, 0) - 100, 5);
  });

  it('is told part by part, each where it is worst', () => {
    const assembly = assemble([], PAGE);
    addCard(assembly, 'kite', (pageAngle) => [-60, 130 + 12 * Math.sin(pageAngle * RADIANS), 5]);
    addCard(assembly, 'mole', (pageAngle) => [-60, -9 * Math.cos(pageAngle * RADIANS), 8]);
    addCard(assembly, 'stone', () => [-60, 60, 11]);
    const found = findOverhangs(assembly, open(assembly), 90);
    expect(found.map(({ panel, edge, pageAngle }) => [assembly.panels[panel].part, edge, pageAngle])).toEqual(
      [
        ['kite', 'head', 90],
        ['mole', 'foot', 0],
      ],
    );
    expect(found.map(({ past }) => past)).toEqual([expect.closeTo(12, 9), expect.closeTo(9, 9)]);
  });

  it('past the spine counts only in the shut book', () => {
    const hook = () =>
      assemble(
        [piece('hook', 'left page', [-5, 90], 8, 10), piece('stone', 'right page', [60, 40], 10, 10)],
        PAGE,
      );
    const opening = open(hook());
    expect(findOverhangs(hook(), opening, 120).map(({ edge, pageAngle }) => [edge, pageAngle])).toEqual([
      ['spine', 0],
    ]);
  });

  it('is not told of page angles that a figure never reaches', () => {
    // Its sides differ by 10 mm: it locks where its feet have come as near as 7, which is 3 mm less: 2 · 40 sin(φ/2) = 7 mm.
    const hut = { ...tent('hut', 40, 60), widths: [60, 50] };
    const assembly = assemble([hut, piece('flag', 'left page', [-50, 130], 10, 27)], PAGE);
    const opening = open(assembly);
    const locks = (2 * Math.asin(7 / 80)) / RADIANS;
    expect(opening.lock?.pageAngle).toBeCloseTo(locks, 1);
    // The last frame before it is that at 12°.
    expect(findOverhangs(assembly, opening, 10)).toEqual([]);
    const flag = findOverhangs(assembly, opening, 12).find(({ edge }) => edge === 'head');
    expect(flag?.past).toBeCloseTo(7, 9);
  });
});

describe('card that leaves the wedge between the pages', () => {
  it('is told by how far it lies behind either page', () => {
    const sinking = assemble([], PAGE);
    addCard(sinking, 'mole', (pageAngle) => [-60, 60, -4 * Math.sin(pageAngle * RADIANS)]);
    expect(findOutOfBook(sinking, open(sinking))).toEqual({
      out: expect.closeTo(4, 9),
      pageAngle: 90,
      panel: sinking.panelNamed('mole card', ''),
    });
    // Still at 30 mm beside the gutter and 30 mm up, its corner lies 30 cos φ + 30 sin φ behind the right page.
    const still = assemble([], PAGE);
    addCard(still, 'kite', () => [20, 60, 30]);
    const found = findOutOfBook(still, open(still));
    expect([44, 46]).toContain(found.pageAngle);
    expect(found.out).toBeCloseTo(30 * (Math.cos(44 * RADIANS) + Math.sin(44 * RADIANS)), 9);
  });

  it('is nothing for what is glued on the pages, and for a tent', () => {
    const assembly = assemble([tent('hut', 40, 60), piece('flag', 'left page', [-50, 110], 10, 20)], PAGE);
    expect(assembly.panels.some(({ body }) => body === LEFT_PAGE)).toBe(true);
    expect(findOutOfBook(assembly, open(assembly))).toEqual({ out: 0, pageAngle: null, panel: null });
  });
});
