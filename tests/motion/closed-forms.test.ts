import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assemble, axisOf, open, type PlainPart, pointOf, posesAt, worstGap } from '../support/assemble.js';

const DEGREES = 180 / Math.PI;
const RADIANS = Math.PI / 180;
const vFold = (glue: [number, number], panels: [number, number], more: object = {}) => ({
  name: 'fold',
  kind: 'v-fold',
  at: 60,
  glue,
  panels,
  feet: [60, 60],
  ridge: 60,
  ...more,
});
/** Turn of the left panel about its glue line, degrees: 0 lying outward from the gutter's far side, 180 swung over. */
function turnOfLeft(assembly: ReturnType<typeof assemble>, pageAngle: number): number {
  const up = axisOf(assembly, posesAt(assembly, pageAngle), 'fold left', 1);
  const line = axisOf(assembly, posesAt(assembly, pageAngle), 'fold left', 0);
  // In the left page (z = 0): square to the glue line, on the side towards the gutter's head.
  const inner = [-line[0] * line[1], 1 - line[1] * line[1]];
  const length = Math.hypot(...inner);
  return Math.atan2(up[2], (up[0] * inner[0] + up[1] * inner[1]) / length) * DEGREES;
}

describe('a V-fold', () => {
  it('with opposite sectors equal turns by tan(γ/2) = cot(φ/2) cos((g₁−g₂)/2) / cos((g₁+g₂)/2)', () => {
    // Closed form of the design's degree-4 vertex; at 70°, 50° and φ = 90° it gives 126.2°.
    const assembly = assemble([vFold([70, 50], [50, 70])]);
    for (const pageAngle of [170, 135, 90, 45, 10]) {
      const expected =
        2 *
        Math.atan(
          (1 / Math.tan((pageAngle / 2) * RADIANS)) * (Math.cos(10 * RADIANS) / Math.cos(60 * RADIANS)),
        );
      expect(turnOfLeft(assembly, pageAngle)).toBeCloseTo(expected * DEGREES, 6);
    }
    expect(turnOfLeft(assembly, 90)).toBeCloseTo(126.2, 1);
  });

  it('glued at 90° and 45° and folded at 45° and 90° lies flat shut and open, and swings right over', () => {
    // Common practice, no source.
    const assembly = assemble([vFold([90, 45], [45, 90])]);
    expect(turnOfLeft(assembly, 180)).toBeCloseTo(0, 4);
    expect(turnOfLeft(assembly, 90)).toBeCloseTo(135, 6);
    expect(Math.abs(turnOfLeft(assembly, 0))).toBeCloseTo(180, 4);
  });

  it('with each panel angle beside its equal is no pop-up: it lies along the gutter, or leaves through the page', () => {
    const still = assemble([vFold([70, 50], [70, 50], { points: 'out' })]);
    for (const pageAngle of [180, 120, 60, 20]) {
      const [x, y, z] = pointOf(
        still,
        posesAt(still, pageAngle),
        'fold left',
        60 * Math.cos(70 * RADIANS),
        60 * Math.sin(70 * RADIANS),
      );
      expect(Math.hypot(x, y - 120, z)).toBeLessThan(1e-5);
    }
    // The other solution passes through the right page below 64.3°: its ridge has a negative height above that page.
    const leaving = assemble([vFold([70, 50], [70, 50])]);
    const heightOverRightPage = (pageAngle: number) => {
      const poses = posesAt(leaving, pageAngle);
      const [x, y, z] = pointOf(
        leaving,
        poses,
        'fold left',
        60 * Math.cos(70 * RADIANS),
        60 * Math.sin(70 * RADIANS),
      );
      const n = axisOf(leaving, poses, 'right page', 2);
      return x * n[0] + (y - 0) * n[1] + z * n[2];
    };
    expect(heightOverRightPage(65)).toBeGreaterThan(0);
    expect(heightOverRightPage(63.5)).toBeLessThan(0);
  });

  it('stands when its panel angles sum to more than its glue angles, and locks before open when to less', () => {
    const standing = assemble([vFold([60, 60], [80, 80])]);
    expect(open(standing).lock).toBeNull();
    const tip = pointOf(
      standing,
      standing.open,
      'fold left',
      60 * Math.cos(80 * RADIANS),
      60 * Math.sin(80 * RADIANS),
    );
    // cos p = cos g cos β along the gutter: β is the ridge's height angle off the page.
    expect(tip[2]).toBeCloseTo(60 * Math.sqrt(1 - (Math.cos(80 * RADIANS) / Math.cos(60 * RADIANS)) ** 2), 6);
    const short = open(assemble([vFold([60, 60], [50, 50])]));
    expect(short.lock?.part).toBe('fold');
    expect(short.lock?.pageAngle).toBe(180);
  });

  it('whose sectors differ by 6° more than its glue angles locks like rigid card, but for 3° that it gives: where ∠(L, R) is 3°', () => {
    const lock = open(assemble([vFold([60, 60], [70, 64])])).lock;
    // ∠(L, R) on a gutter: cos Λ = cos²g + sin²g cos φ.
    const cosLambda = Math.cos(3 * RADIANS);
    const phi = Math.acos((cosLambda - Math.cos(60 * RADIANS) ** 2) / Math.sin(60 * RADIANS) ** 2) * DEGREES;
    expect(lock?.pageAngle).toBeCloseTo(phi, 1);
  });

  it('whose sectors are off by less than card can give still shuts, with a misfit', () => {
    const opening = open(assemble([vFold([60, 60], [70, 69.8])]));
    expect(opening.lock).toBeNull();
    expect(opening.misfitsAt(opening.count - 1)[0]).toBeCloseTo(60 * 0.2 * RADIANS, 3);
    expect(opening.misfitsAt(0)[0]).toBe(0);
  });

  it('keeps its creases together and its panels in step, whatever its angles', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 20, max: 85, noNaN: true }),
        fc.double({ min: 20, max: 85, noNaN: true }),
        fc.double({ min: 0, max: 40, noNaN: true }),
        (g1, g2, wider) => {
          // At p₁ + p₂ + g₁ + g₂ = 360° the open figure is a double root: keep a degree away from it.
          const extra = Math.min(wider, 179.5 - g1 - g2);
          const assembly = assemble([vFold([g1, g2], [g2 + extra, g1 + extra])]);
          const opening = open(assembly, 10);
          expect(opening.lock).toBeNull();
          expect(worstGap(assembly, opening)).toBeLessThan(1e-5);
          // Shut flat: |p₁ − p₂| = |g₁ − g₂|.
          for (const panel of ['fold left', 'fold right'])
            expect(Math.abs(axisOf(assembly, opening.frame(opening.count - 1), panel, 2)[2])).toBeCloseTo(
              1,
              9,
            );
        },
      ),
      { numRuns: 200 },
    );
  });
});

describe('a tent', () => {
  const tent = (glue: [number, number], widths: [number, number], more: object = {}) => ({
    name: 'boat',
    kind: 'parallel-fold',
    at: 50,
    length: 80,
    glue,
    widths,
    ...more,
  });

  it('holds its ridge where two circles meet', () => {
    const assembly = assemble([tent([30, 30], [35, 35])]);
    for (const pageAngle of [180, 120, 60, 2, 0]) {
      const [x, y, z] = pointOf(assembly, posesAt(assembly, pageAngle), 'boat left', 0, 35);
      // On the bisector of the pages at t with t² − 2 t 30 cos(φ/2) + 30² = 35².
      const half = (pageAngle / 2) * RADIANS;
      const t = 30 * Math.cos(half) + Math.sqrt(35 ** 2 - (30 * Math.sin(half)) ** 2);
      expect(Math.hypot(x + t * Math.cos(half), y - 50, z - t * Math.sin(half))).toBeLessThan(1e-9);
    }
  });

  it('shuts flat on both sides and keeps its creases together', () => {
    for (const points of ['in', 'out'])
      for (const [glue, widths] of [
        [
          [30, 30],
          [35, 35],
        ],
        [
          [20, 40],
          [45, 25],
        ],
        [
          [20, 40],
          [25, 45],
        ],
      ] as [[number, number], [number, number]][]) {
        const assembly = assemble([tent(glue, widths, { points })]);
        const opening = open(assembly);
        expect(opening.lock).toBeNull();
        expect(worstGap(assembly, opening)).toBeLessThan(1e-5);
        for (const panel of ['boat left', 'boat right'])
          expect(Math.abs(axisOf(assembly, opening.frame(90), panel, 2)[2])).toBeCloseTo(1, 6);
      }
  });

  it('too narrow for its feet locks before the page is open', () => {
    const assembly = assemble([tent([30, 30], [25, 25])]);
    expect(open(assembly).lock?.pageAngle).toBe(180);
    // Its feet are 60 mm apart, its panels reach 50 mm.
    expect(assembly.openMisfits[0]).toBeCloseTo(10, 9);
    // And where one is too wide for the other, the difference less the way from foot to foot.
    expect(assemble([tent([30, 30], [95, 25])]).openMisfits[0]).toBeCloseTo(95 - 25 - 60, 9);
  });

  it('as a box keeps each panel parallel to the other page', () => {
    const assembly = assemble([tent([40, 25], [25, 40], {})]);
    const box = assemble([{ ...tent([40, 25], [0, 0]), shape: 'box', widths: undefined }]);
    for (const pageAngle of [150, 90, 30])
      for (const each of [assembly, box]) {
        const poses = posesAt(each, pageAngle);
        const n = axisOf(each, poses, 'boat left', 2);
        const r = axisOf(each, poses, 'right page', 2);
        expect(Math.abs(n[0] * r[0] + n[1] * r[1] + n[2] * r[2])).toBeCloseTo(1, 9);
      }
  });

  it('as a layer floats two panels, each parallel to its page, and shuts flat', () => {
    const assembly = assemble([tent([15, 20], [40, 35], { shape: 'layer', layers: [50, 45] })]);
    const opening = open(assembly);
    expect(opening.lock).toBeNull();
    expect(worstGap(assembly, opening)).toBeLessThan(1e-5);
    for (let frame = 0; frame < opening.count; frame++)
      for (const side of ['left', 'right']) {
        const n = axisOf(assembly, opening.frame(frame), `boat layer ${side}`, 2);
        const page = axisOf(assembly, opening.frame(frame), `${side} page`, 2);
        expect(n[0] * page[0] + n[1] * page[1] + n[2] * page[2]).toBeCloseTo(1, 9);
      }
  });
});

describe('a counter-fold', () => {
  const tentWith = (fold: object) =>
    assemble([
      { name: 'boat', kind: 'parallel-fold', at: 20, length: 120, glue: [30, 30], widths: [60, 60] },
      {
        name: 'oar',
        kind: 'counter-fold',
        on: 'boat ridge',
        at: 60,
        diagonal: 35,
        side: 30,
        length: 40,
        ...fold,
      },
    ]);
  const creaseDirection = (assembly: ReturnType<typeof assemble>, poses: Float64Array) => {
    const c = 35 * RADIANS;
    const a = pointOf(assembly, poses, 'oar left', 0, 0);
    const b = pointOf(assembly, poses, 'oar left', Math.cos(c), Math.sin(c));
    return b.map((v, i) => v - a[i]);
  };

  it('swings its crease by 2 atan(tan a cos(θ/2)) at dihedral θ', () => {
    const assembly = tentWith({});
    for (const pageAngle of [180, 120, 60, 1]) {
      const poses = posesAt(assembly, pageAngle);
      const nl = axisOf(assembly, poses, 'boat left', 1);
      const nr = axisOf(assembly, poses, 'boat right', 1);
      const theta = Math.acos(-(nl[0] * nr[0] + nl[2] * nr[2])); // the right panel's y axis runs down from the ridge
      const m = creaseDirection(assembly, poses);
      const swing = Math.acos(m[1]);
      expect(swing).toBeCloseTo(2 * Math.atan(Math.tan(35 * RADIANS) * Math.cos(theta / 2)), 9);
      expect(m[2]).toBeLessThanOrEqual(0); // in: into the angle between the panels, below the ridge
    }
  });

  it('keeps its creases together with its parents, either way along the crease, in or out', () => {
    for (const fold of [{}, { toward: 'start' }, { fold: 'out', triangle: 50 }, { triangle: 50 }]) {
      const assembly = tentWith(fold);
      const opening = open(assembly);
      expect(opening.lock).toBeNull();
      expect(worstGap(assembly, opening)).toBeLessThan(1e-5);
    }
  });

  it('takes its triangles out of its parents, and leaves a gap in their crease', () => {
    const assembly = tentWith({});
    const notched = assembly.panels[assembly.panelNamed('boat left', '')].outline;
    expect(notched.length / 2).toBe(7);
    const ridge = assembly.joints.filter(
      (joint) =>
        joint.kind === 'crease' &&
        joint.between.every((k) => /^boat (left|right)$/.test(assembly.panels[k].name)),
    );
    expect(ridge.map((joint) => joint.kind === 'crease' && [joint.lines[0].x0, joint.lines[0].x1])).toEqual([
      [0, 60],
      [100, 120],
    ]);
  });

  it('folded out with a triangle as narrow as its diagonal is refused: it would lie still', () => {
    expect(() => tentWith({ fold: 'out' })).toThrow(/lies still along the crease/);
  });
});

describe('a plate', () => {
  const post = (name: string, at: number) =>
    vFold([90, 45], [45, 90], { name, at, feet: [30, 30], ridge: 42 });
  const support = (panel: string, height: number) => ({
    panel,
    line: [
      [3, height],
      [12, height],
    ],
  });

  it('on parallel supports that turn alike stays level at every page angle, with no misfit', () => {
    // Common practice, no source: 25 mm high and 25 mm apart.
    const assembly = assemble([
      post('first', 60),
      post('second', 85),
      { name: 'nest', kind: 'plate', supports: [support('first left', 25), support('second left', 25)] },
    ]);
    const opening = open(assembly);
    expect(opening.lock).toBeNull();
    for (let frame = 0; frame < opening.count; frame++) {
      const n = axisOf(assembly, opening.frame(frame), 'nest', 2);
      expect(Math.abs(n[2])).toBeCloseTo(1, 6);
      expect(Math.max(...opening.misfitsAt(frame))).toBeLessThan(1e-5);
    }
    expect(worstGap(assembly, opening)).toBeLessThan(1e-4);
  });

  it('on a third support that is δ too high misfits by δ throughout', () => {
    // Common practice, no source. The plate's third line lies where it would for equal heights.
    const tooHigh = 1.5;
    const assembly = assemble([
      post('first', 60),
      post('second', 85),
      post('third', 110),
      {
        name: 'nest',
        kind: 'plate',
        supports: [
          support('first left', 25),
          support('second left', 25),
          {
            ...support('third left', 25 + tooHigh),
            meets: [
              [0, 50],
              [9, 50],
            ],
          },
        ],
      },
    ]);
    const opening = open(assembly);
    const third = assembly.misfits.findIndex(
      // The whole of it: in the plate's plane it misses by less.
      ({ of, joint, panels }) => of === 'forced' && joint === 'support' && panels.includes('third left'),
    );
    for (let frame = 0; frame < opening.count; frame++)
      expect(opening.misfitsAt(frame)[third]).toBeCloseTo(tooHigh, 5);
  });
});

describe('every crease', () => {
  it('tells truly which way its two panels are folded', () => {
    const assembly = assemble([
      { name: 'boat', kind: 'parallel-fold', at: 30, length: 140, glue: [28, 28], widths: [40, 40] },
      {
        ...vFold([60, 60], [120, 120], { on: 'boat ridge', at: 50, points: 'out', feet: [26, 26] }),
        name: 'man',
      },
      vFold([60, 50], [65, 75], { name: 'back', at: 190, toward: 'start', feet: [20, 20], ridge: 30 }),
      {
        name: 'oar',
        kind: 'counter-fold',
        on: 'boat ridge',
        at: 150 - 30,
        toward: 'end',
        diagonal: 30,
        side: 12,
        length: 15,
      },
      {
        name: 'paddle',
        kind: 'counter-fold',
        on: 'man left foot inner',
        at: 4,
        diagonal: 30,
        side: 12,
        length: 15,
      },
      {
        name: 'rudder',
        kind: 'counter-fold',
        on: 'man right foot outer',
        at: 4,
        diagonal: 30,
        side: 12,
        length: 15,
        triangle: 40,
        fold: 'out',
      },
      {
        name: 'deck',
        kind: 'parallel-fold',
        shape: 'layer',
        at: 5,
        length: 20,
        glue: [10, 12],
        widths: [20, 18],
        layers: [30, 30],
      },
    ]);
    const poses = assembly.halfOpen();
    const space = (k: number, x: number, y: number) =>
      [0, 4, 8].map((r) => poses[12 * k + r] * x + poses[12 * k + r + 1] * y);
    for (const crease of assembly.creases.values()) {
      const [n1, n2] = crease.between.map((k, i) => {
        const { x0, y0, x1, y1 } = crease.lines[i];
        return space(k, -crease.sides[i] * (y1 - y0), crease.sides[i] * (x1 - x0));
      });
      const line = crease.lines[0];
      const e = space(crease.between[0], line.x1 - line.x0, line.y1 - line.y0);
      const turn =
        e[0] * (n1[1] * n2[2] - n1[2] * n2[1]) +
        e[1] * (n1[2] * n2[0] - n1[0] * n2[2]) +
        e[2] * (n1[0] * n2[1] - n1[1] * n2[0]);
      expect(`${crease.name} ${Math.sign(turn)}`).toBe(`${crease.name} ${crease.sense}`);
    }
  });
});

describe('a strut', () => {
  const deck: PlainPart = {
    name: 'deck',
    kind: 'parallel-fold',
    shape: 'layer',
    at: 40,
    length: 60,
    glue: [15, 15],
    widths: [30, 30],
    layers: [60, 60],
  };
  const strut = (height: number | undefined): PlainPart => ({
    name: 'prop',
    kind: 'strut',
    foot: {
      panel: 'left page',
      line: [
        [-45, 50],
        [-45, 80],
      ],
    },
    top: {
      panel: 'deck layer left',
      line: [
        [10, 30],
        [40, 30],
      ],
    },
    ...(height === undefined ? {} : { height }),
  });

  it('that makes a parallelogram with the walls fits at every page angle', () => {
    // The floating panel hangs 15 mm in from its wall's foot; a strut 15 mm in from the gutter side runs parallel to both.
    const assembly = assemble([deck, strut(undefined)]);
    const opening = open(assembly);
    expect(Math.max(...opening.misfits)).toBeLessThan(1e-5);
  });

  it('that is too high by 2 mm misfits by 2 mm throughout', () => {
    const assembly = assemble([deck, strut(32)]);
    const opening = open(assembly);
    const slot = assembly.misfits.findIndex(({ part }) => part === 'prop');
    for (let frame = 0; frame < opening.count; frame++)
      expect(opening.misfitsAt(frame)[slot]).toBeCloseTo(2, 5);
  });

  it('carries a counter-fold where it meets what it stands under', () => {
    const assembly = assemble([
      deck,
      strut(undefined),
      { name: 'fin', kind: 'counter-fold', on: 'prop top left', at: 5, diagonal: 30, side: 8, length: 10 },
    ]);
    const opening = open(assembly);
    expect(opening.lock).toBeNull();
    expect(worstGap(assembly, opening)).toBeLessThan(1e-4);
  });
});
