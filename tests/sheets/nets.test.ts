import { describe, expect, it } from 'vitest';
import type { Line } from '../../src/geometry/line.js';
import { areaOf, type Ring } from '../../src/geometry/plane.js';
import { Assembly } from '../../src/motion/assembly.js';
import { POSE } from '../../src/motion/pose.js';
import { fromBehind } from '../../src/sheets/nets/fold-sense.js';
import { assemble } from '../support/assemble.js';
import { figures, plan, post } from './figures.js';

/** Panels made by hand, each at its place in the plane of the left page; they don't move. */
function byHand(
  panels: readonly { name: string; ring: readonly number[] }[],
  folds: readonly { between: [string, string]; lines: [Line, Line] }[],
): Assembly {
  const assembly = new Assembly({ width: 150, height: 210 }, () => 0.3);
  for (const { name, ring } of panels) {
    const index = assembly.addPanel({ name, part: 'made', piece: 'made', outline: ring });
    assembly.open.set([1, 0, 0, -75, 0, 1, 0, 100, 0, 0, 1, 0], index * POSE);
  }
  folds.forEach(({ between, lines }, i) => {
    assembly.addJoint({
      kind: 'crease',
      between: between.map((name) => assembly.panelNamed(name, '')) as [number, number],
      lines,
      closesLoop: i >= panels.length - 1,
      of: 'fold',
    });
  });
  return assembly;
}

const square = [0, 0, 10, 0, 10, 10, 0, 10];
const right: Line = { x0: 10, y0: 0, x1: 10, y1: 10 };
const left: Line = { x0: 0, y0: 0, x1: 0, y1: 10 };
const above: Line = { x0: 0, y0: 10, x1: 10, y1: 10 };
const below: Line = { x0: 0, y0: 0, x1: 10, y1: 0 };

const made = (assembly: Assembly) => {
  const { pieces, warnings, bonds, steps } = plan(assembly, { paper: 'A3' });
  return { pieces: pieces.filter(({ net }) => net.piece === 'made'), warnings, bonds, steps };
};

describe('a box across the gutter', () => {
  /**
   * By hand: glued 30 and 20 mm from the gutter, the side that stands at 30 is 20 wide and the other 30, so the net is
   * 60 long and 8 + 20 + 30 + 8 = 66 across, with its four corners cut off by 8 mm.
   */
  it('has the net that a ruler gives', () => {
    const { pieces } = plan(
      assemble([{ name: 'box', kind: 'parallel-fold', shape: 'box', at: 40, length: 60, glue: [30, 20] }]),
      { paper: 'A3' },
    );
    const box = pieces.find(({ net }) => net.piece === 'box');
    expect(box?.lines.contours).toHaveLength(1);
    const ring = box?.lines.contours[0] ?? [];
    // Eight corners: four of the tabs' ends, four at the ends of their creases.
    expect(ring).toHaveLength(8);
    const [xs, ys] = [0, 1].map((axis) => ring.map((p) => p[axis]));
    expect(Math.max(...xs) - Math.min(...xs)).toBeCloseTo(60, 6);
    expect(Math.max(...ys) - Math.min(...ys)).toBeCloseTo(66, 6);
    expect(areaOf(ring)).toBeCloseTo(60 * 66 - (4 * (8 * 8)) / 2, 6);
    const creases = (box?.lines.creases ?? []).map(({ segment: [[, y]] }) => y - Math.min(...ys));
    expect(creases.sort((a, b) => a - b).map((y) => Math.min(y, 66 - y).toFixed(6))).toEqual(
      [8, Math.min(28, 38), 8].map((y) => y.toFixed(6)),
    );
    expect(box?.lines.slits).toEqual([]);
  });
});

describe('a figure that locks before it moves', () => {
  it('still has its creases, told half open, and says that it locks', () => {
    // Two sides of 20 mm cannot bridge 60 mm.
    const { pieces, warnings } = plan(
      assemble([
        { name: 'tent', kind: 'parallel-fold', at: 40, length: 60, glue: [30, 30], widths: [20, 20] },
      ]),
      { paper: 'A3' },
    );
    expect(warnings[0]).toMatch(/locks at page angle 180\.0° \('tent'\)/);
    expect(pieces[0].net.folds.map(({ sense }) => sense)).toEqual(['valley']);
    expect(pieces[1].lines.contours).toHaveLength(1);
  });
});

describe('a counter-fold cut from its parents', () => {
  it('leaves no waste: creases along its diagonals, slits along its free edges', () => {
    const { pieces } = plan(
      assemble([
        { name: 'box', kind: 'parallel-fold', shape: 'box', at: 40, length: 60, glue: [30, 20] },
        { name: 'arm', kind: 'counter-fold', on: 'box ridge', at: 10, diagonal: 40, side: 15, length: 18 },
      ]),
      { paper: 'A3' },
    );
    const box = pieces.find(({ net }) => net.piece === 'box');
    // The box's own outline is not changed by it.
    expect(areaOf(box?.lines.contours[0] ?? [])).toBeCloseTo(60 * 66 - (4 * (8 * 8)) / 2, 4);
    expect(box?.lines.holes).toEqual([]);
    const length = ([[ax, ay], [bx, by]]: readonly [readonly number[], readonly number[]]) =>
      Math.hypot(bx - ax, by - ay);
    // By hand, law of cosines: the free edge from the end of the diagonal (15) to the end of the moving crease (18).
    const free = Math.sqrt(15 ** 2 + 18 ** 2 - 2 * 15 * 18 * Math.cos((40 * Math.PI) / 180));
    expect(box?.lines.slits.map(length).map((l) => l.toFixed(6))).toEqual([free.toFixed(6), free.toFixed(6)]);
    const creases = (box?.lines.creases ?? []).map(({ segment }) => length(segment).toFixed(6));
    // Two tabs, what is left of the ridge on either side, two diagonals and the moving crease.
    expect(creases.sort()).toEqual([60, 60, 10, 32, 15, 15, 18].map((l) => l.toFixed(6)).sort());
  });
});

describe('a piece that would overlap itself', () => {
  /** Five squares round one corner: the fifth would lie on the first. */
  const round = () =>
    byHand(
      ['p', 'q', 'r', 's', 't'].map((name) => ({ name, ring: square })),
      [
        { between: ['p', 'q'], lines: [right, left] },
        { between: ['q', 'r'], lines: [above, below] },
        { between: ['r', 's'], lines: [left, right] },
        { between: ['s', 't'], lines: [below, above] },
      ],
    );

  it('is cut in two, with a join tab, and says so', () => {
    const { pieces, warnings, bonds, steps } = made(round());
    expect(pieces).toHaveLength(2);
    expect(
      pieces.flatMap(({ net }) => net.areas.map(({ kind }) => kind)).filter((kind) => kind === 'join'),
    ).toHaveLength(1);
    expect(warnings.join(' ')).toMatch(
      /'p' and 't' would overlap when flat: 'made' is cut in two at the crease/,
    );
    expect(bonds.map(({ bond: { of } }) => of)).toEqual(['join']);
    expect(steps.map(({ kind }) => kind)).toEqual(['join']);
    // Glued out of sight: the front of the tab to the back of its neighbour.
    expect([bonds[0].bond.giver.face, bonds[0].bond.receiver.face]).toEqual([1, -1]);
  });

  it('of four squares is left in one', () => {
    const four = byHand(
      ['p', 'q', 'r', 's'].map((name) => ({ name, ring: square })),
      [
        { between: ['p', 'q'], lines: [right, left] },
        { between: ['q', 'r'], lines: [above, below] },
        { between: ['r', 's'], lines: [left, right] },
      ],
    );
    const { pieces, warnings } = made(four);
    expect(pieces).toHaveLength(1);
    // The squares at the ends touch along an edge without a crease: a slit, cut once.
    expect(pieces[0].lines.slits).toHaveLength(1);
    expect(areaOf(pieces[0].lines.contours[0])).toBeCloseTo(400, 6);
    expect(warnings.filter((line) => line.includes('overlap'))).toEqual([]);
  });

  it('that closes into a tube gets one join tab', () => {
    const tube = byHand(
      ['p', 'q', 'r', 's'].map((name) => ({ name, ring: square })),
      [
        { between: ['p', 'q'], lines: [right, left] },
        { between: ['q', 'r'], lines: [right, left] },
        { between: ['r', 's'], lines: [right, left] },
        { between: ['s', 'p'], lines: [right, left] },
      ],
    );
    const { pieces, warnings, steps } = made(tube);
    expect(pieces).toHaveLength(1);
    // By hand: four squares in a row and a mitred tab of 8 mm, its ends cut back by 0.4 of 10 mm.
    expect(areaOf(pieces[0].lines.contours[0])).toBeCloseTo(400 + ((10 + 2) / 2) * 8, 4);
    expect(warnings.join(' ')).toMatch(/a join tab closes them/);
    expect(steps.map(({ kind }) => kind)).toEqual(['close']);
  });

  const wheel: Parameters<typeof byHand>[1] = [
    { between: ['p', 'q'], lines: [right, left] },
    { between: ['q', 'r'], lines: [above, below] },
    { between: ['r', 's'], lines: [left, right] },
    { between: ['s', 'p'], lines: [below, above] },
  ];

  it('beside a loop of creases is cut beside the loop', () => {
    // Four squares closed round one corner by all four creases, and a fifth that lies on the first.
    const flap = { name: 't', ring: [0, 0, 10, 0, 10, -9, 0, -9] };
    const squares = ['p', 'q', 'r', 's'].map((name) => ({ name, ring: square }));
    const { pieces, warnings } = made(
      byHand([...squares, flap], [...wheel, { between: ['s', 't'], lines: [below, below] }]),
    );
    expect(warnings.join(' ')).toMatch(/cut in two at the crease between 's' and 't'/);
    expect(pieces.map(({ net }) => net.areas.length)).toEqual([4, 2]);
  });

  it('within a loop of creases cannot be made, and is named', () => {
    const panels = ['p', 'q', 'r', 's'].map((name) => ({
      name,
      ring: name === 'p' ? [0, 0, 10, 0, 10, 10, 14, 16, 0, 10] : square,
    }));
    expect(made(byHand(panels, wheel)).warnings.join(' ')).toMatch(
      /'p' and 'r' overlap when flat, and a loop of creases holds them together/,
    );
  });
});

describe('hinges inside a panel', () => {
  it('are folded strips of their own, glued to both', () => {
    const { pieces, warnings, bonds } = plan(figures['plank on strips'](), { paper: 'A3' });
    const strips = pieces.filter(({ net }) => net.name.startsWith('hinge strip'));
    expect(strips).toHaveLength(2);
    for (const { net, lines, marks } of strips) {
      expect(net.areas.map(({ kind }) => kind)).toEqual(['tab', 'join']);
      // Two mitred wings, mirror images over one crease.
      expect(lines.creases).toHaveLength(1);
      expect(areaOf(lines.contours[0])).toBeCloseTo(2 * ((16 + 16 - 2 * 6.4) / 2) * 8, 3);
      expect(marks.map(({ receives }) => receives)).toEqual([false, false]);
    }
    expect(warnings.filter((line) => line.includes('a folded strip of its own'))).toHaveLength(2);
    expect(bonds.filter(({ bond: { of } }) => of === 'join')).toHaveLength(2);
  });
});

describe('hubs, slots and tongues', () => {
  it('are cut: holes at every pivot, a rivet each, the tongue at the end of its limb', () => {
    const walker = plan(assemble(limb()), { paper: 'A3' });
    const named = (name: string) => walker.pieces.find(({ net }) => net.name === name);
    const holes = (name: string) => named(name)?.lines.holes ?? [];
    expect(holes('pole')).toHaveLength(1);
    // A 36-sided hole of 4 mm across its corners.
    expect(-areaOf(holes('pole')[0])).toBeCloseTo((36 / 2) * 4 * Math.sin((2 * Math.PI) / 36), 6);
    const hub = walker.pieces.find(({ net }) => net.name.startsWith('hub of'));
    expect(hub).toBeDefined();
    const ring: Ring = hub?.lines.contours[0] ?? [];
    const wide = (axis: number) =>
      Math.max(...ring.map((p) => p[axis])) - Math.min(...ring.map((p) => p[axis]));
    // Shoulders 9 mm; the base and the two heads of half a shoulder each, on necks as long as two cards and 0.3 mm.
    expect(wide(1)).toBeCloseTo(9, 6);
    expect(wide(0)).toBeCloseTo(3.6 / Math.SQRT2 + 2 * (2 * 0.3 + 0.3) + 9, 6);
    const tongue = named('pole')?.net.areas.find(({ name }) => name === 'trail tail');
    expect(tongue).toBeDefined();
    expect(named('pole')?.net.folds).toHaveLength(1);
    expect(walker.steps.map(({ kind }) => kind)).toContain('tongue');
    expect(walker.steps.map(({ kind }) => kind)).toContain('hub');
  });
});

/** A board on two posts that trails a pole to a slit in the page. */
function limb() {
  return [
    post('near', 60),
    post('far', 100),
    {
      name: 'board',
      kind: 'plate',
      supports: ['near left', 'far left'].map((panel) => ({
        panel,
        line: [
          [40, 14],
          [56, 14],
        ],
      })),
      outline: {
        polygon: [
          [0, -3],
          [40, -3],
          [40, 43],
          [0, 43],
        ],
      },
    },
    { name: 'pole', kind: 'link', from: [-70, 108], to: [-70, 163], width: 8 },
    { name: 'hub', kind: 'pivot', between: ['board', 'pole'], at: [30, 34], meets: [0, 0], margin: 0.5 },
    {
      name: 'trail',
      kind: 'tongue',
      panel: 'pole',
      at: [55, 0],
      slit: {
        panel: 'left page',
        line: [
          [-70, 164],
          [-70, 118],
        ],
      },
    },
  ];
}

it('a mountain seen from behind is a valley, and the other way round', () => {
  const senses = ['mountain', 'valley', 'both ways', 'flat'] as const;
  expect(senses.map(fromBehind)).toEqual(['valley', 'mountain', 'both ways', 'flat']);
});
