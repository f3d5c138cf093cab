import fc from 'fast-check';
import * as polyclip from 'polyclip-ts';
import { describe, expect, it } from 'vitest';
import {
  areaOf,
  boxOf,
  distanceTo,
  edgesOf,
  movedRing,
  movedShape,
  type Point,
  type Ring,
  turnedBy,
} from '../../src/geometry/plane.js';
import { grown, solid } from '../../src/geometry/region.js';
import { lettersFit } from '../../src/sheets/drawn/labels.js';
import { packOnFewest } from '../../src/sheets/layout/fewest-sheets.js';
import { FOOTER } from '../../src/sheets/layout/layout.js';
import { packRectangles, RATES } from '../../src/sheets/layout/maxrects.js';
import { maskOf, nest } from '../../src/sheets/layout/nest.js';
import { SheetError } from '../../src/sheets/layout/paper.js';
import { assemble } from '../support/assemble.js';
import { example, figures, plan, table } from './figures.js';

describe('packing', () => {
  const box = fc.record({
    width: fc.double({ min: 1, max: 100, noNaN: true }),
    height: fc.double({ min: 1, max: 100, noNaN: true }),
    fixed: fc.boolean(),
  });

  it('keeps boxes inside, apart by the spacing, and turned only where they may be', () => {
    fc.assert(
      fc.property(
        fc.array(box, { minLength: 1, maxLength: 25 }),
        fc.double({ min: 0, max: 8, noNaN: true }),
        (boxes, spacing) => {
          for (const rate of RATES) {
            const packed = packRectangles(boxes, 120, 110, spacing, rate);
            const placed = packed.map(({ box: own, bin, x, y, turned }) => {
              if (own.fixed) expect(turned).toBe(false);
              return { bin, x, y, w: turned ? own.height : own.width, h: turned ? own.width : own.height };
            });
            placed.forEach((a, i) => {
              expect(a.x).toBeGreaterThan(-1e-6);
              expect(a.y).toBeGreaterThan(-1e-6);
              expect(a.x + a.w).toBeLessThan(120 + 1e-4);
              expect(a.y + a.h).toBeLessThan(110 + 1e-4);
              for (const b of placed.slice(i + 1)) {
                if (a.bin !== b.bin) continue;
                const across = Math.max(b.x - a.x - a.w, a.x - b.x - b.w);
                const up = Math.max(b.y - a.y - a.h, a.y - b.y - b.h);
                expect(Math.max(across, up)).toBeGreaterThan(spacing - 1e-4);
              }
            });
          }
        },
      ),
      { numRuns: 60 },
    );
  });

  it('needs no more sheets than must be, where that is plain to see', () => {
    const square = (n: number, width: number, height: number) =>
      Array.from({ length: n }, () => ({ width, height, fixed: false }));
    const sheets = (n: number, width: number, height: number, spacing: number) =>
      packOnFewest(square(n, width, height), 120, 120, spacing).length;
    // Twelve of 30 × 40 fill 120 × 120; six of 40 × 60 likewise.
    expect(sheets(12, 30, 40, 0)).toBe(1);
    expect(sheets(6, 40, 60, 0)).toBe(1);
    expect(sheets(7, 40, 60, 0)).toBe(2);
    // Spacing counts between boxes, not at the edges: 3 × 38 + 2 × 3 = 120.
    expect(sheets(9, 38, 38, 3)).toBe(1);
    expect(sheets(10, 38, 38, 3)).toBe(2);
  });
});

describe('packing by boxes', () => {
  it('goes on to the next sheet where a strip is all that is left of one', () => {
    const [wide, tall] = [
      { width: 190, height: 210, fixed: true },
      { width: 92, height: 140, fixed: false },
    ];
    expect(packRectangles([wide, tall], 190, 257, 5, RATES[0]).map(({ bin }) => bin)).toEqual([0, 1]);
  });
});

describe('nesting by outlines', () => {
  const angle: Ring = [
    [0, 0],
    [40, 0],
    [40, 15],
    [15, 15],
    [15, 40],
    [0, 40],
  ];
  const ways = (ring: Ring, spacing = 0) =>
    [0, 90, 180, 270].map((turn) =>
      maskOf(
        grown([solid(ring)], spacing / 2).map((shape) => movedShape(turnedBy(turn), shape)),
        1,
      ),
    );

  it('lays two angles into each other where their boxes take two sheets', () => {
    const own = ways(angle);
    expect(nest([{ ways: own }, { ways: own }], 57, 57, 1)?.map(({ sheet }) => sheet)).toEqual([0, 0]);
    const box = { width: 40, height: 40, fixed: false };
    expect(packOnFewest([box, box], 57, 57, 0)).toHaveLength(2);
  });

  it('leaves the spacing between any two, measured from edge to edge', () => {
    const spike: Ring = [
      [0, 0],
      [30, 3],
      [5, 12],
    ];
    const items = [angle, spike, angle, spike, spike, angle].map((ring) => ({ ring, ways: ways(ring, 4) }));
    const found = nest(items, 94, 94, 1) ?? [];
    expect(found).toHaveLength(6);
    const rings = found.map(({ item, sheet, way, x, y }) => {
      const turned = movedRing(turnedBy(90 * way), item.ring);
      const { left, low } = boxOf(turned);
      // The lower left corner of the box with half the spacing around it.
      return { sheet, ring: turned.map(([u, v]): Point => [u - left + 2 + x, v - low + 2 + y]) };
    });
    rings.forEach((a, i) => {
      for (const b of rings.slice(i + 1)) {
        if (a.sheet !== b.sheet) continue;
        const apart = Math.min(
          ...a.ring.flatMap((p) => edgesOf(b.ring).map((edge) => distanceTo(edge, p))),
          ...b.ring.flatMap((p) => edgesOf(a.ring).map((edge) => distanceTo(edge, p))),
        );
        expect(apart).toBeGreaterThan(3.9);
        expect(polyclip.intersection([mutable(a.ring)], [mutable(b.ring)])).toEqual([]);
      }
    });
  });

  it('tells where something fits no sheet', () => {
    expect(nest([{ ways: ways(angle) }], 39, 39, 1)).toBeNull();
  });
});

describe('copies', () => {
  it('of all pieces are there, numbered, and what has no room beside it for its letters has them elsewhere', () => {
    const { sheets, pieces } = plan(example('tightrope'), { paper: 'A4', copies: 3 });
    const placed = sheets.flatMap((sheet) => sheet.placed);
    for (const piece of pieces)
      expect(
        placed
          .filter((own) => own.piece === piece)
          .map(({ copy }) => copy)
          .sort(),
      ).toEqual([1, 2, 3]);
    for (const { placed: own, paper } of sheets)
      expect(lettersFit(own, paper.width, paper.height)).toBe(true);
  });
});

describe.each(Object.keys(figures))('sheets of %s', (name) => {
  it('hold all within their margins, and nothing overlaps (polyclip-ts)', () => {
    const { sheets, pieces } = plan(figures[name](), { paper: 'A4', margin: 12, spacing: 4 });
    expect(sheets.flatMap(({ placed }) => placed)).toHaveLength(pieces.length);
    for (const { paper, placed } of sheets) {
      const rings = placed.map(({ piece, place }) => movedRing(place, piece.lines.contours[0]));
      rings.forEach((ring, i) => {
        const { left, low, right, high } = boxOf(ring);
        expect(left).toBeGreaterThan(12 - 1e-6);
        expect(low).toBeGreaterThan(12 + FOOTER - 1e-6);
        expect(right).toBeLessThan(paper.width - 12 + 1e-6);
        expect(high).toBeLessThan(paper.height - 12 + 1e-6);
        // Not mirrored: what runs counter-clockwise on the piece does so on the sheet.
        expect(areaOf(placed[i].place.flip === 1 ? ring : [])).toBeGreaterThan(0);
        for (const other of rings.slice(i + 1))
          expect(polyclip.intersection([mutable(ring)], [mutable(other)])).toEqual([]);
      });
    }
  });
});

const mutable = (ring: readonly (readonly [number, number])[]) =>
  ring.map(([x, y]): [number, number] => [x, y]);

describe('layout', () => {
  it('makes two leaves of a spread that is too wide, and one page of one that fits', () => {
    const names = (paper: string) => plan(assemble(table), { paper }).pieces.map(({ net }) => net.name);
    expect(names('A4').slice(0, 2)).toEqual(['base page, left leaf', 'base page, right leaf']);
    expect(names('A3')[0]).toBe('base page');
  });

  it('says which sheet would take a piece that is too large', () => {
    const wide = () => plan(assemble(table, { width: 200, height: 280 }), { paper: 'A4' });
    expect(wide).toThrow(SheetError);
    expect(wide).toThrow(
      /'base page, (left|right) leaf' takes 2\d\d × 280 mm and A4 leaves room for 190 × 257 mm: take B4 or larger/,
    );
    expect(() => plan(assemble(table), { paper: '90x90' })).toThrow(/takes .* take B5 or larger/);
    expect(() => plan(assemble(table), { paper: 'A44' })).toThrow(/no sheet is called 'A44'/);
    expect(() => plan(assemble(table), { paper: '20x30' })).toThrow(SheetError);
    expect(() => plan(assemble(table), { margin: Number.NaN })).toThrow(/a margin/);
    expect(() => plan(assemble(table), { copies: 1.5 })).toThrow(/whole number/);
  });

  it('runs the grain along, or across, the line on which each piece stands', () => {
    for (const grain of ['along', 'across'] as const) {
      const { sheets } = plan(example('heron'), { paper: 'A3', cardOf: () => ({ thickness: 0.3, grain }) });
      for (const { placed } of sheets)
        for (const { piece, place } of placed) {
          const { folds, areas } = piece.net;
          const feet = folds.filter(({ between }) => between.some((area) => areas[area].kind === 'tab'));
          const all = piece.net.piece === 'page' ? folds : feet;
          if (all.length === 0) continue;
          const turned = all.map(({ line }) => movedRing(place, line));
          const long = turned.map(([[ax, ay], [bx, by]]) => [Math.abs(bx - ax), Math.abs(by - ay)]);
          const [dx, dy] = long.reduce((a, b) =>
            Math.hypot(...(b as [number, number])) > Math.hypot(...(a as [number, number])) + 1e-6 ? b : a,
          );
          // The sheet's grain runs along its long side: up.
          expect(grain === 'along' ? dx : dy, piece.net.name).toBeLessThan(1e-6);
        }
    }
  });

  it('puts pieces of different card on different sheets', () => {
    const { sheets } = plan(example('heron'), {
      paper: 'A3',
      cardOf: (piece) => ({
        thickness: piece === 'page' ? 0.5 : 0.3,
        grammage: piece === 'page' ? 350 : 240,
      }),
    });
    for (const { card, placed } of sheets)
      for (const { piece } of placed) expect(piece.net.piece === 'page').toBe(card.grammage === 350);
  });

  it('gangs copies: as many of each, all letters once a copy', () => {
    const one = plan(example('ferryman'), { paper: 'A3' });
    const four = plan(example('ferryman'), { paper: 'A3', copies: 4 });
    const all = four.sheets.flatMap(({ placed }) => placed);
    expect(all).toHaveLength(4 * one.pieces.length);
    for (const { number } of one.pieces)
      expect(
        all
          .filter(({ piece }) => piece.number === number)
          .map(({ copy }) => copy)
          .sort(),
      ).toEqual([1, 2, 3, 4]);
    expect(four.sheets.length).toBeLessThanOrEqual(4 * one.sheets.length);
  });

  it('turns a slanted piece so that it takes least room', () => {
    // A strut at 30° on the page would need a box of 52 × 30 and more; it is cut upright.
    const { sheets } = plan(
      assemble([
        {
          name: 'bar',
          kind: 'glued-piece',
          on: 'left page',
          at: [-80, 50],
          outline: {
            polygon: [
              [0, 0],
              [51.96, 30],
              [46.96, 38.66],
              [-5, 8.66],
            ],
          },
        },
      ]),
      { paper: 'A3' },
    );
    const bar = sheets.flatMap(({ placed }) => placed).find(({ piece }) => piece.net.name === 'bar');
    const { left, low, right, high } = boxOf(
      movedRing(bar?.place ?? { c: 1, s: 0, x: 0, y: 0, flip: 1 }, bar?.piece.lines.contours[0] ?? []),
    );
    expect([right - left, high - low].sort((a, b) => a - b)[0]).toBeCloseTo(10, 2);
    expect([right - left, high - low].sort((a, b) => a - b)[1]).toBeCloseTo(60, 2);
  });
});

describe('the base', () => {
  const names = (base: 'none' | 'sheet' | 'leaves', paper: string) => {
    const { sheets, template } = plan(assemble(table), { base, paper });
    const on = (some: typeof sheets) =>
      some.flatMap(({ placed }) => placed.map(({ piece }) => piece.net.name));
    return { cut: on(sheets), template: on(template) };
  };

  it('may be left out: then its glue lines are on a template, to prick through', () => {
    const { cut, template } = names('none', 'A4');
    expect(cut).toEqual(['near', 'far', 'board']);
    expect(template.sort()).toEqual(['base page, left leaf', 'base page, right leaf']);
  });

  it('is one sheet with a fold, or two leaves, as asked', () => {
    expect(names('leaves', 'A3').cut.slice(0, 2)).toEqual(['base page, left leaf', 'base page, right leaf']);
    expect(names('sheet', 'A3').cut).toContain('base page');
    expect(() => names('sheet', 'A4')).toThrow(/'base page' takes 300 × 210 mm .* take .* or larger/);
  });
});
