import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { parseFigure } from '../../src/figure/text/source.js';
import type { Assembly } from '../../src/motion/assembly.js';
import { POSE, worldDirection, worldPoint, writePose } from '../../src/motion/pose.js';
import { addTab } from '../../src/parts/tab.js';
import { glueFaultInWords } from '../../src/report/words/finding-words.js';
import { findGlueFaults } from '../../src/score/glue.js';
import { Scorer } from '../../src/score/scorer.js';
import { assemble, open, type PlainPart, rectangle } from '../support/assemble.js';
import { areaBeyond, areaInCommon } from './areas.js';

type Point = readonly [number, number];

const faultsIn = (assembly: Assembly) => findGlueFaults(assembly, open(assembly, 30));
/** Each fault in words, with its area to a tenth of a mm². */
const told = (parts: readonly PlainPart[] | Assembly, page?: { width: number; height: number }) =>
  faultsIn('panels' in parts ? parts : assemble(parts, page)).map(
    (fault) => `${glueFaultInWords(fault)}: ${fault.area.toFixed(1)}`,
  );

const fold = (name: string, more: object = {}): PlainPart => ({
  name,
  kind: 'v-fold',
  at: 100,
  glue: [60, 60],
  panels: [70, 70],
  feet: [40, 40],
  ridge: 40,
  start: 12,
  ...more,
});
/** A tent whose feet stand 30 mm from the gutter; its tabs are square strips of 8 mm, on the inside. */
const tent = (name: string, at: number, more: object = {}): PlainPart => ({
  name,
  kind: 'parallel-fold',
  at,
  length: 50,
  glue: [30, 30],
  widths: [50, 50],
  tab: { width: 8, mitre: 90 },
  ...more,
});
const stiffener = (name: string, on: string, at: Point, size: Point, turn = 0): PlainPart => ({
  name,
  kind: 'stiffener',
  on,
  at,
  size,
  turn,
});
const piece = (
  name: string,
  on: string,
  at: Point,
  [wide, high]: Point,
  hole?: readonly Point[],
): PlainPart => ({
  name,
  kind: 'glued-piece',
  on,
  at,
  outline: {
    polygon: rectangle(wide, high),
    ...(hole && { holes: [hole] }),
  },
});

/**
 * A strip that stands square on a line of a panel, on its face (1) or behind it (−1), with a square tab to the left of the
 * line. It does not move against the panel; glue does not ask.
 */
function standOn(
  assembly: Assembly,
  name: string,
  on: string,
  from: Point,
  to: Point,
  width: number,
  side: 1 | -1 = 1,
) {
  const receiver = assembly.panelNamed(on, '');
  const long = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const [ex, ey] = [(to[0] - from[0]) / long, (to[1] - from[1]) / long];
  const outline = [0, 0, long, 0, long, 20, 0, 20];
  const panel = assembly.addPanel({ name, part: name, piece: name, outline });
  const [o, a] = [new Float64Array(3), new Float64Array(3)];
  assembly.addStep({
    part: name,
    place(poses) {
      worldPoint(poses, receiver, from[0], from[1], o);
      worldDirection(poses, receiver, ex, ey, a);
      const [nx, ny, nz] = [2, 6, 10].map((i) => side * poses[receiver * POSE + i]);
      writePose(poses, panel, o[0], o[1], o[2], a[0], a[1], a[2], nx, ny, nz);
    },
  });
  addTab(
    assembly,
    {
      name: `${name} tab`,
      part: name,
      piece: name,
      receiver,
      panel,
      line: { x0: from[0], y0: from[1], x1: to[0], y1: to[1] },
      panelLine: { x0: 0, y0: 0, x1: long, y1: 0 },
      inner: [-ey, ex],
    },
    { width, side: 'inner', mitre: 90 },
  );
}

describe('a glue tab', () => {
  it('on bare card is no fault', () => {
    expect(told([fold('sail')])).toEqual([]);
    expect(told([tent('hut', 20)])).toEqual([]);
  });

  it('that would hang over the edge of what receives it, or over the gutter, is cut back to it', () => {
    // Its feet stand 5 mm from the fore-edges, and its tabs, 8 mm wide and 60 mm long, lie outwards.
    const hut = tent('hut', 20, { length: 60, glue: [45, 45], tab: { width: 8, side: 'outer', mitre: 90 } });
    expect(told([hut], { width: 50, height: 100 })).toEqual([]);
    // Feet 6 mm from the gutter, tabs of 8 mm: 2 mm over it.
    expect(told([tent('hut', 20, { glue: [6, 6] })])).toEqual([]);
  });

  it('that lies beside the gutter has the other page moving under it', () => {
    // Feet 8 mm from the gutter, tabs of 8 mm: 2 mm of them lie within the margin.
    expect(told([tent('hut', 20, { glue: [8, 8] })])).toEqual([
      "'hut left tab' is glued on a crease at which 'right page' moves, or less than 2 mm from it: 100.0",
      "'hut right tab' is glued on a crease at which 'left page' moves, or less than 2 mm from it: 100.0",
    ]);
  });

  it('over a window in what receives it lies off card', () => {
    // Half of a window of 10 × 20 mm lies under the tab.
    const window: Point[] = [
      [15, 20],
      [25, 20],
      [25, 40],
      [15, 40],
    ];
    const assembly = assemble([piece('board', 'left page', [-60, 30], [50, 60], window)]);
    // The board covers what of the page shows through its window; so the page is cut away there.
    assembly.panels[0].holes.push(Float64Array.from(window.flatMap(([x, y]) => [x - 60, y + 30])));
    standOn(assembly, 'strip', 'board', [20, 10], [20, 50], 10);
    expect(told(assembly)).toEqual(["'strip tab' lies off the card of 'board': 100.0"]);
  });

  it('lies between the tab that is glued over it and the page, whichever of the two comes first', () => {
    // They share 10 mm of their length.
    const [near, far] = [tent('near', 20), tent('far', 60)];
    const between = (parts: PlainPart[]) => told(parts).filter((fault) => fault.includes(' lies between '));
    expect(between([near, far])).toEqual([
      "'near left tab' lies between 'far left tab' and 'left page', where they are glued together: 80.0",
      "'near right tab' lies between 'far right tab' and 'right page', where they are glued together: 80.0",
    ]);
    expect(between([far, near])).toEqual([
      "'far left tab' lies between 'near left tab' and 'left page', where they are glued together: 80.0",
      "'far right tab' lies between 'near right tab' and 'right page', where they are glued together: 80.0",
    ]);
  });

  it('has a stiffener under it where that was glued on the page first; else the stiffener has the tab', () => {
    // Both inside feet at 30 mm: the tab covers x from −30 to −22, the stiffener −26 to −16, both of them y from 30 to 60.
    const plank = stiffener('plank', 'left page', [-26, 30], [10, 30]);
    const between = (glued: string, other: string) =>
      `'${other}' lies between '${glued}' and 'left page', where they are glued together: 120.0`;
    expect(told([plank, tent('hut', 20)])).toEqual([between('hut left tab', 'plank')]);
    expect(told([tent('hut', 20), plank])).toEqual([between('plank', 'hut left tab')]);
  });

  it('may be glued on the stiffener instead', () => {
    const assembly = assemble([stiffener('plank', 'left page', [-60, 30], [40, 60])]);
    standOn(assembly, 'strip', 'plank', [20, 10], [20, 50], 8);
    expect(told(assembly)).toEqual([]);
  });
});

describe('a flat piece', () => {
  it('may be glued on a piece that is glued on a panel', () => {
    expect(
      told([
        piece('shield', 'left page', [-60, 30], [40, 40]),
        piece('badge', 'shield', [10, 10], [20, 20]),
        piece('stud', 'badge', [5, 5], [5, 5]),
      ]),
    ).toEqual([]);
  });

  it('has another between it and the panel where both are glued on the panel', () => {
    // 20 × 40 mm of them overlap.
    expect(
      told([
        piece('first', 'left page', [-60, 30], [40, 40]),
        piece('second', 'left page', [-40, 30], [40, 40]),
      ]),
    ).toEqual([
      "'first' lies between 'second' and 'left page', where they are glued together: 800.0",
      // Its last 2 mm lie at the gutter.
      "'second' is glued on a crease at which 'right page' moves, or less than 2 mm from it: 80.0",
    ]);
  });

  it('has nothing between it and its receiver where it only reaches beyond it', () => {
    // The arm is glued on the shield and lies over the plank, which lies beside the shield on the page.
    expect(
      told([
        piece('shield', 'left page', [-120, 30], [40, 40]),
        stiffener('plank', 'left page', [-70, 30], [10, 40]),
        piece('arm', 'shield', [20, 10], [60, 10]),
      ]),
    ).toEqual([]);
  });

  it('under a cover flap lies between the flap and its panel', () => {
    const flap: PlainPart = {
      name: 'flap',
      kind: 'cover-flap',
      edge: {
        panel: 'board',
        line: [
          [50, 0],
          [50, 60],
        ],
      },
      depth: 12,
    };
    const board = piece('board', 'left page', [-60, 30], [50, 60]);
    expect(told([board, flap])).toEqual([]);
    // Of the stud's 10 × 10 mm, 8 × 10 lie under the flap.
    expect(told([board, piece('stud', 'board', [36, 25], [10, 10]), flap])).toEqual([
      "'stud' lies between 'flap' and 'board', where they are glued together: 80.0",
    ]);
  });

  it('has what stands on its underside between it and its receiver', () => {
    const assembly = assemble([piece('board', 'left page', [-60, 30], [50, 60])]);
    standOn(assembly, 'strip', 'board', [20, 10], [20, 50], 8, -1);
    expect(told(assembly)).toEqual([
      "'strip tab' lies between 'board' and 'left page', where they are glued together: 320.0",
    ]);
  });

  it('has nothing to do with what is glued on the other face of its panel', () => {
    const sides = ([1, -1] as const).map((side) => {
      const assembly = assemble([fold('sail', { ridge: 90, feet: [90, 90], panels: [75, 75] })]);
      standOn(assembly, 'strip', 'sail left', [60, 5], [60, 30], 8, side);
      const on = assembly.panelNamed('sail left', '');
      const patch = assembly.addPanel({
        name: 'patch',
        part: 'patch',
        piece: 'patch',
        gluedTo: on,
        outline: [50, 10, 58, 10, 58, 25, 50, 25],
      });
      assembly.addJoint({ kind: 'glue', between: [on, patch] });
      assembly.addStep({
        part: 'patch',
        place: (poses) => void poses.copyWithin(patch * POSE, on * POSE, on * POSE + POSE),
      });
      return told(assembly);
    });
    // The patch lies on the face. The tab covers x from 52 to 60, the strip stands at 60: 2 mm beside the patch.
    expect(sides).toEqual([
      ["'strip tab' lies between 'patch' and 'sail left', where they are glued together: 90.0"],
      [],
    ]);
  });

  it('may reach beyond its panel, and cover a window', () => {
    const window: Point[] = [
      [10, 10],
      [30, 10],
      [30, 30],
      [10, 30],
    ];
    expect(
      told([
        piece('board', 'left page', [-60, 30], [50, 60], window),
        piece('pane', 'board', [5, 5], [30, 30]),
        piece('arm', 'board', [-30, 45], [40, 10]),
      ]),
    ).toEqual([]);
  });

  it('that does not touch what it is glued to is told, with all its area', () => {
    expect(
      told([piece('board', 'left page', [-60, 30], [50, 60]), piece('lost', 'board', [-30, 10], [20, 15])]),
    ).toEqual(["'lost' lies off the card of 'board': 300.0"]);
  });

  it('over a slot is told with what should pass through', () => {
    const parts: PlainPart[] = [
      tent('hut', 20),
      {
        name: 'gap',
        kind: 'slot',
        on: 'hut left',
        passes: 'hut right',
        outline: [
          [10, 20],
          [30, 20],
          [30, 24],
          [10, 24],
        ],
      },
    ];
    // Half of the slot's 20 × 4 mm.
    expect(told([...parts, piece('patch', 'hut left', [20, 10], [20, 20])])).toEqual([
      "'patch' is glued over the slot for 'hut right': 40.0",
    ]);
    expect(told([...parts, piece('patch', 'hut left', [20, 26], [20, 20])])).toEqual([]);
  });
});

describe('glue beside what moves', () => {
  // The left side of a tent, 50 × 50 mm: its foot along y = 0, its ridge along y = 50. It faces inwards, where the other
  // side folds on to it, and where its tab lies.
  const hut = tent('hut', 20);

  it.each([
    { what: 'ends 2 mm from the ridge', at: [10, 38] as const, faults: [] },
    {
      what: 'ends 0.5 mm from the ridge',
      at: [10, 39.5] as const,
      faults: [
        "'plank' is glued on a crease at which 'hut right' moves, or less than 2 mm from it: 30.0", // 20 × 1.5
      ],
    },
    { what: 'begins 2 mm from the foot', at: [10, 2] as const, faults: [] },
    {
      what: 'begins 1 mm from the foot',
      at: [10, 1] as const,
      faults: ["'plank' is glued on a crease at which 'hut left tab' moves, or less than 2 mm from it: 20.0"],
    },
  ])('on the inside of a fold: a stiffener that $what', ({ at, faults }) => {
    expect(told([hut, stiffener('plank', 'hut left', at, [20, 10])])).toEqual(faults);
  });

  it('is set by a strip that stands on its face, not by one that stands behind', () => {
    // The strip stands along x = 20, its tab towards 12; the plank begins at 21, 1 mm beside it, and at the strip's
    // last 3 mm.
    const faults = ([1, -1] as const).map((side) => {
      const assembly = assemble([hut, stiffener('plank', 'hut left', [21, 37], [10, 8])]);
      standOn(assembly, 'strip', 'hut left', [20, 10], [20, 40], 8, side);
      return told(assembly);
    });
    expect(faults).toEqual([
      ["'plank' is glued on a crease at which 'strip' moves, or less than 2 mm from it: 3.0"],
      [],
    ]);
  });

  it('is told where a piece lies across a crease on the side to which it folds', () => {
    // The beam reaches 10 mm beyond the ridge: 2 mm on either side of it, 8 mm wide.
    expect(told([hut, piece('beam', 'hut left', [20, 30], [8, 30])])).toEqual([
      "'beam' is glued on a crease at which 'hut right' moves, or less than 2 mm from it: 32.0",
    ]);
  });
});

describe('a hub', () => {
  /** A board on the page, with a hub at a place of it. */
  const withHub = (at: Point) => {
    const assembly = assemble([
      piece('board', 'left page', [-60, 30], [50, 60]),
      piece('arm', 'board', [40, 20], [40, 10]),
    ]);
    const limb = assembly.addPanel({
      name: 'limb',
      part: 'limb',
      piece: 'limb',
      outline: [0, 0, 30, 0, 30, 8, 0, 8],
    });
    assembly.addJoint({
      kind: 'pivot',
      part: 'rivet',
      between: [assembly.panelNamed('arm', ''), limb],
      points: [[...at], [4, 4]],
      play: 0.4,
      hub: { hole: 4, waist: 3.6, shoulder: 9 },
      closesLoop: true,
    });
    return assembly;
  };

  it('on a part of an arm that is glued down lies between the arm and its panel', () => {
    const [fault, ...others] = faultsIn(withHub([5, 5]));
    expect(others).toEqual([]);
    expect(glueFaultInWords(fault)).toBe(
      "the hub 'rivet' lies between 'arm' and 'board', where they are glued together",
    );
    // Of its shoulder, a circle of 9 mm; half of it at the edge of the board.
    expect(fault.area / (Math.PI * 4.5 ** 2)).toBeCloseTo(1, 2);
    expect(faultsIn(withHub([10, 5]))[0].area / ((Math.PI * 4.5 ** 2) / 2)).toBeCloseTo(1, 2);
  });

  it('may lie under a cover flap, which is glued around it, but under no other glue', () => {
    const tightrope = readFileSync('examples/tightrope.yaml', 'utf8');
    const withPart = (part: string) => {
      const text = tightrope.replace('  - { name: pole,', `  - ${part}\n  - { name: pole,`);
      const figure = compileFigure(parseFigure(text, 'tightrope.yaml'));
      return new Scorer(figure).score(figure.start);
    };
    // Both reach from the end of the board over the hub of the hip, 26 mm away.
    const flap = withPart(
      '{ name: flap, kind: cover-flap, edge: { panel: board, line: [[62, 30], [62, 6]] }, depth: 30 }',
    );
    expect(flap.works).toBe(true);
    expect(flap.glue.filter(({ glued }) => glued === 'flap')).toEqual([]);
    const plank = withPart('{ name: plank, kind: stiffener, on: board, at: [32, 6], size: [28, 24] }');
    expect(plank.cannotBuild).toMatch(/glue of 'plank' lies 0\.0 mm from the middle of the hub/);
  });

  it('on the part of an arm that reaches beyond its panel is free', () => {
    expect(faultsIn(withHub([15, 5]))).toEqual([]);
  });
});

describe('a slit with a tongue', () => {
  /**
   * On a wall there is a slit along x = 30 from y = 10 to 50; a link stands in it, on the face, and goes from one
   * end to the other as the page shuts. Its tail lies behind the wall, 6 mm wide, and 10 mm to the side of x = 20.
   */
  const withSlit = (more: PlainPart[] = [], card = 'wall left') => {
    const assembly = assemble([fold('wall', { feet: [60, 60], ridge: 90, panels: [80, 80] }), ...more]);
    const on = assembly.panelNamed(card, '');
    const along: [[number, number], [number, number]] = [
      [30, 10],
      [30, 50],
    ];
    const place = (k: number, standing: boolean) => (poses: Float64Array) => {
      const o = new Float64Array(3);
      // From one end of the slit to the other with the page angle, as the right page's slope tells it.
      const pageAngle = Math.acos(-poses[POSE]);
      worldPoint(poses, on, 30, 10 + (40 * pageAngle) / Math.PI, o);
      const i = on * POSE;
      const [x, y, z] = [0, 1, 2].map((axis) => [0, 4, 8].map((r) => poses[i + r + axis]));
      const [a, b] = standing ? [y, z] : [y, x.map((v) => -v)];
      writePose(poses, k, o[0], o[1], o[2], a[0], a[1], a[2], b[0], b[1], b[2]);
    };
    const slide = { kind: 'slide', play: 0.7, along, closesLoop: true } as const;
    const link = assembly.addPanel({
      name: 'pole',
      part: 'pole',
      piece: 'pole',
      outline: [-3, 0, 3, 0, 3, 40, -3, 40],
    });
    assembly.addStep({ part: 'pole', place: place(link, true) });
    const tail = assembly.addPanel({
      name: 'pole tail',
      part: 'pole',
      piece: 'pole',
      role: 'tab',
      outline: [-3, 0, 3, 0, 3, 10, -3, 10],
    });
    assembly.addStep({ part: 'pole', place: place(tail, false) });
    assembly.addJoint({ ...slide, between: [link, on], point: [0, 0] });
    assembly.addJoint({ ...slide, between: [tail, on], point: [0, 0] });
    return assembly;
  };

  it('must stay clear on the face, 2 mm to either side', () => {
    const plank = (x: number) => told(withSlit([stiffener('plank', 'wall left', [x, 20], [10, 10])]));
    expect(plank(32)).toEqual([]);
    expect(plank(31)).toEqual([
      "'plank' is glued where 'pole' slides in its slit, or less than 2 mm from it: 10.0",
    ]);
    expect(plank(25)).toEqual([
      "'plank' is glued where 'pole' slides in its slit, or less than 2 mm from it: 40.0",
    ]);
  });

  it('must stay clear behind the card as far as its tail reaches', () => {
    const behind = (x: number, side: 1 | -1) => {
      const assembly = withSlit();
      standOn(assembly, 'strip', 'wall left', [x, 45], [x, 60], 6, side);
      return told(assembly);
    };
    // The tail sweeps x from 20 to 30 and y from 7 to 53; the tab covers 6 mm to the left of its line, y from 45 to 60.
    expect(behind(24, -1)).toEqual([
      "'strip tab' is glued where 'pole tail' slides in its slit, or less than 2 mm from it: 32.0", // 4 × 8
    ]);
    expect(behind(20, -1)).toEqual([]);
    expect(behind(24, 1)).toEqual([]);
  });

  it('in a piece that is glued down all over has its tail between the two', () => {
    const patch = piece('patch', 'wall left', [0, 2], [60, 60]);
    // The patch's own (0, 0) lies 2 mm up the wall; the tail sweeps 10 × 46 mm of it, of which the wall bears all.
    const [tail, ...others] = told(withSlit([patch], 'patch'));
    expect(tail).toBe(
      "'patch' is glued where 'pole tail' slides in its slit, or less than 2 mm from it: 460.0",
    );
    expect(others.filter((fault) => !fault.includes('is glued on a crease'))).toEqual([]);
  });
});

describe('the area that is told', () => {
  const rectangle = (
    x: number,
    y: number,
    wide: number,
    high: number,
    degrees: number,
  ): [number, number][] => {
    const [c, s] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
    return [
      [0, 0],
      [wide, 0],
      [wide, high],
      [0, high],
    ].map(([u, v]) => [x + c * u - s * v, y + s * u + c * v]);
  };
  const board = rectangle(0, 0, 40, 40, 0);

  // Source of the expected areas: the polygon library Clipper2.
  it('is that in which two stiffeners overlap on a third, however they lie', () => {
    const turn = fc.double({ min: -180, max: 180, noNaN: true });
    const place = fc.double({ min: -15, max: 15, noNaN: true });
    const size = fc.double({ min: 5, max: 40, noNaN: true });
    const strip = fc.record({ x: place, y: place, wide: size, high: size, turn });
    let overlapping = 0;
    fc.assert(
      fc.property(strip, strip, (a, b) => {
        // All on a board of 40 × 40 mm in the middle of the page.
        const put = (name: string, { x, y, wide, high, turn }: typeof a) =>
          stiffener(name, 'board', [x + 20, y + 20], [wide, high], turn);
        const faults = faultsIn(
          assemble([piece('board', 'left page', [-95, 85], [40, 40]), put('a', a), put('b', b)]),
        );
        const [ringA, ringB] = [a, b].map((s) => rectangle(s.x + 20, s.y + 20, s.wide, s.high, s.turn));
        const expected = areaInCommon(ringA, ringB, board);
        fc.pre(
          [ringA, ringB].every((ring) => areaInCommon(ring, board) > 1) && Math.abs(expected - 0.5) > 0.01,
        );
        if (expected > 0.5) {
          overlapping++;
          expect(faults.map(({ glued, kind, other }) => [glued, kind, other])).toEqual([
            ['b', 'card between', 'a'],
          ]);
          expect(faults[0].area).toBeCloseTo(expected, 2);
        } else expect(faults).toEqual([]);
      }),
      { seed: 1, numRuns: 150 },
    );
    expect(overlapping).toBeGreaterThan(50);
  });

  it('is that of a tab which no card lies under, however it lies at the corner of a board', () => {
    fc.assert(
      fc.property(
        fc.record({
          x: fc.double({ min: 5, max: 60, noNaN: true }),
          y: fc.double({ min: 5, max: 60, noNaN: true }),
          long: fc.double({ min: 5, max: 60, noNaN: true }),
          width: fc.double({ min: 2, max: 20, noNaN: true }),
          turn: fc.double({ min: -180, max: 180, noNaN: true }),
        }),
        ({ x, y, long, width, turn }) => {
          const [c, s] = [Math.cos((turn * Math.PI) / 180), Math.sin((turn * Math.PI) / 180)];
          const assembly = assemble([]);
          assembly.addPanel({
            name: 'board',
            part: 'board',
            piece: 'board',
            outline: [0, 0, 60, 0, 60, 60, 0, 60],
          });
          assembly.addStep({ part: 'board', place: (poses) => void poses.copyWithin(2 * POSE, 0, POSE) });
          standOn(assembly, 'strip', 'board', [x, y], [x + long * c, y + long * s], width);
          const expected = areaBeyond(rectangle(x, y, long, width, turn), [rectangle(0, 0, 60, 60, 0)]);
          fc.pre(Math.abs(expected - 0.5) > 0.01);
          const faults = faultsIn(assembly);
          expect(faults.map(({ kind }) => kind)).toEqual(expected > 0.5 ? ['off card'] : []);
          if (expected > 0.5) expect(faults[0].area).toBeCloseTo(expected, 2);
        },
      ),
      { seed: 2, numRuns: 150 },
    );
  });
});
