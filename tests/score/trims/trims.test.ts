import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import { compileFigure, type Figure } from '../../../src/figure/figure.js';
import { InputError } from '../../../src/figure/text/input-error.js';
import { parseFigure } from '../../../src/figure/text/source.js';
import { cardArea } from '../../../src/geometry/polygon.js';
import { Assembly } from '../../../src/motion/assembly.js';
import { CannotBuild } from '../../../src/motion/cannot-build.js';
import { POSE } from '../../../src/motion/pose.js';
import type { Trim } from '../../../src/parts/trim.js';
import { applyTrims } from '../../../src/parts/trim.js';
import { whatTrimBreaks } from '../../../src/parts/trim-breaks.js';
import { Scorer } from '../../../src/score/scorer.js';
import { findTrims } from '../../../src/score/trims/trims.js';
import { assemble } from '../../support/assemble.js';
import { areaInCommon, lengthWellInside, piecesOf, type Ring, ringOf } from '../areas.js';
import { random, randomParts } from '../random-figures.js';

vi.setConfig({ testTimeout: 120_000 });

const figureOf = (text: string): Figure => compileFigure(parseFigure(text, 'figure.yaml'));
/** JSON is YAML. */
const figureWith = (parts: unknown, trims: readonly Trim[] = []): Figure =>
  figureOf(JSON.stringify({ page: 'A5', parts, trims }));

/** What a region cut from a panel takes that it must not, by Clipper2 and by distances. */
function harmOf({ panels, joints }: Assembly, k: number, region: Ring): string[] {
  const harm: string[] = [];
  for (const joint of joints) {
    const end = joint.between.indexOf(k);
    if (end < 0) continue;
    if (joint.kind === 'crease' && lengthWellInside(region, joint.lines[end]) > 0.1) harm.push('crease');
    if (joint.kind === 'glue' && end === 0 && panels[joint.between[1]].role === 'tab')
      if (areaInCommon(region, ringOf(panels[joint.between[1]].outline)) > 0.1)
        // A tab lies in the frame of what receives it.
        harm.push('tab');
    if (joint.kind === 'slot' && end === 1)
      if (areaInCommon(region, ringOf(panels[k].holes[joint.hole])) > 0) harm.push('slot');
    if (joint.kind === 'pivot') {
      const [x, y] = joint.points[end];
      const shoulder = Array.from({ length: 64 }, (_, i): [number, number] => {
        const angle = (2 * Math.PI * i) / 64;
        return [
          x + (joint.hub.shoulder / 2) * Math.cos(angle),
          y + (joint.hub.shoulder / 2) * Math.sin(angle),
        ];
      });
      if (areaInCommon(region, shoulder) > 0) harm.push('hub');
    }
  }
  return harm;
}

/** Looks at all that is offered for a figure that catches. @returns how many offers there were */
function lookAt(figure: Figure, withTrims: (trims: readonly Trim[]) => Figure): number {
  const assembly = figure.build(figure.start);
  // Small parts set down at random: most cuts take more than a tenth of one.
  const { catches, together, after } = findTrims(figure, figure.start, { most: 100 });
  let offers = 0;
  for (const { between, offers: offered, without } of catches) {
    expect([...offered, ...without].map(({ panel }) => panel).sort()).toEqual([...between].sort());
    for (const { panel, trims, area } of offered) {
      offers++;
      const k = assembly.panelNamed(panel, '');
      const { up, outline, holes } = assembly.panels[k];
      const regions = trims.map(({ region }) => region.map(([x, y]): [number, number] => [x, up * y]));
      for (const region of regions) expect(harmOf(assembly, k, region)).toEqual([]);
      // What is lost is the panel less the one piece of it that stays.
      const pieces = piecesOf([outline, ...holes].map(ringOf), regions);
      const whole = piecesOf([outline, ...holes].map(ringOf), [])[0];
      const lost = pieces.map((piece) => whole - piece);
      expect(Math.min(...lost.map((each) => Math.abs(each - area)))).toBeLessThan(0.01);
      // Written in the file, it frees these two.
      const freed = withTrims(trims);
      const { clash } = new Scorer(freed).score(freed.start);
      expect(clash.between?.every((name) => between.includes(name)) ?? false).toBe(false);
    }
  }
  if (after !== null) {
    const trims = together.flatMap((offer) => offer.trims);
    const written = withTrims(trims);
    expect(new Scorer(written).score(written.start)).toEqual(after);
    // Taken one after another until nothing catches, or nothing more is to offer.
    if ((after.clash.deepest ?? 0) > 0)
      expect(findTrims(written, written.start, { most: 100 }).catches.flatMap((each) => each.offers)).toEqual(
        [],
      );
  }
  return offers;
}

describe('trims that are offered', () => {
  it('free what catches, harm nothing, and cost the card that is told: for figures set down at random', () => {
    const rnd = random(12);
    let offers = 0;
    for (let looked = 0; looked < 4; ) {
      const parts = randomParts(rnd);
      let figure: Figure;
      try {
        figure = figureWith(parts);
        if (!((new Scorer(figure).score(figure.start).clash.deepest ?? 0) > 0)) continue;
      } catch (error) {
        if (!(error instanceof InputError)) throw error;
        continue;
      }
      looked++;
      offers += lookAt(figure, (trims) => figureWith(parts, trims));
    }
    expect(offers).toBeGreaterThan(4);
  });

  it('do so for the drummer who is stuck, and then he works', () => {
    const text = readFileSync('examples/stuck-drummer.yaml', 'utf8');
    const figure = figureOf(text);
    expect(lookAt(figure, (trims) => figureOf(`${text}\ntrims: ${JSON.stringify(trims)}\n`))).toBe(2);
    expect(findTrims(figure, figure.start).after?.works).toBe(true);
  });
});

describe('a trim', () => {
  /** A board with all that a trim must leave alone: a crease, a tab and a piece glued on, a hub, a slot and a slit. */
  function board(): Assembly {
    const assembly = assemble([]);
    const panel = (name: string, outline: number[], more: object = {}) => {
      const k = assembly.addPanel({ name, part: name, piece: name, outline, ...more });
      assembly.addStep({ part: name, place: (poses) => void poses.copyWithin(k * POSE, 0, POSE) });
      return k;
    };
    const on = panel('board', [0, 0, 120, 0, 120, 100, 0, 100], {
      holes: [[80, 60, 80, 66, 100, 66, 100, 60]],
    });
    const limb = panel('limb', [0, 0, 10, 0, 10, 60, 0, 60]);
    const line = { x0: 20, y0: 15, x1: 50, y1: 25 };
    assembly.addJoint({
      kind: 'crease',
      between: [on, limb],
      lines: [line, line],
      closesLoop: false,
      of: 'fold',
    });
    const tab = panel('tab', [10, 60, 40, 60, 36, 68, 14, 68], { gluedTo: on, role: 'tab' });
    assembly.addJoint({ kind: 'glue', between: [on, tab] });
    const patch = panel('patch', [70, 5, 100, 5, 100, 20, 70, 20], { gluedTo: on });
    assembly.addJoint({ kind: 'glue', between: [on, patch] });
    const hub = { hole: 4, waist: 3.6, shoulder: 9 };
    assembly.addJoint({
      kind: 'pivot',
      part: 'rivet',
      between: [limb, on],
      points: [
        [5, 5],
        [60, 45],
      ],
      play: 0.4,
      hub,
      closesLoop: true,
    });
    assembly.addJoint({ kind: 'slot', part: 'slot', span: null, between: [limb, on], hole: 0 });
    assembly.addJoint({
      kind: 'slide',
      between: [limb, on],
      point: [5, 55],
      along: [
        [20, 85],
        [70, 85],
      ],
      play: 0.7,
      closesLoop: true,
    });
    return assembly;
  }

  it('is refused if it cuts anything that holds or moves, and allowed if it stays 2 mm away from all of it', () => {
    const assembly = board();
    const k = assembly.panelNamed('board', '');
    const { joints, panels } = assembly;
    const circle = (x: number, y: number, r: number): Ring =>
      Array.from({ length: 64 }, (_, i) => [
        x + r * Math.cos((Math.PI * i) / 32),
        y + r * Math.sin((Math.PI * i) / 32),
      ]);
    const [crease, slit] = [ringOf([20, 15, 50, 25]), ringOf([20, 85, 70, 85])];
    const lines = [crease, slit].map(([[x0, y0], [x1, y1]]) => ({ x0, y0, x1, y1 }));
    const solids = [ringOf(panels[k].holes[0]), circle(60, 45, 4.5)];
    const glued = ['tab', 'patch'].map((name) => ringOf(panels[assembly.panelNamed(name, '')].outline));
    expect(joints.length).toBeGreaterThan(5);
    const counts = { refused: 0, allowed: 0 };
    fc.assert(
      fc.property(
        fc.record({
          x: fc.integer({ min: -5, max: 115 }),
          y: fc.integer({ min: -5, max: 95 }),
          wide: fc.integer({ min: 1, max: 30 }),
          high: fc.integer({ min: 1, max: 30 }),
          turn: fc.integer({ min: 0, max: 89 }),
        }),
        ({ x, y, wide, high, turn }) => {
          const [c, s] = [Math.cos((turn * Math.PI) / 180), Math.sin((turn * Math.PI) / 180)];
          const ring = (by: number): Ring =>
            [
              [-by, -by],
              [wide + by, -by],
              [wide + by, high + by],
              [-by, high + by],
            ].map(([u, v]) => [x + c * u - s * v, y + s * u + c * v]);
          const touches = (by: number, length: number, area: number) =>
            lines.some((line) => lengthWellInside(ring(by), line) > length) ||
            [...solids, ...glued].some((each) => areaInCommon(ring(by), each) > area);
          const why = whatTrimBreaks(assembly, k, Float64Array.from(ring(0).flat()));
          if (touches(0, 0.1, 0.1)) {
            counts.refused++;
            expect(why).not.toBeNull();
          } else if (!touches(2, 0, 0)) {
            counts.allowed++;
            expect(why).toBeNull();
          }
        },
      ),
      { seed: 6, numRuns: 600 },
    );
    expect(Math.min(counts.refused, counts.allowed)).toBeGreaterThan(100);
  });

  it.each([
    ['through a crease', [30, 10, 40, 10, 40, 30, 30, 30], "cuts its crease with 'limb'"],
    ['under a tab', [20, 62, 25, 62, 25, 66, 20, 66], "takes card where it is glued to 'tab'"],
    ['under a piece', [80, 10, 90, 10, 90, 15, 80, 15], "takes card where it is glued to 'patch'"],
    ['1.5 mm from the shoulder of a hub', [66, 40, 75, 40, 75, 50, 66, 50], null],
    ['0.5 mm from the shoulder of a hub', [65, 40, 75, 40, 75, 50, 65, 50], "cuts into the hub with 'limb'"],
    ['across a slot', [85, 58, 90, 58, 90, 70, 85, 70], "cuts into the slot for 'limb'"],
    ['0.5 mm beside a slot', [85, 66.5, 90, 66.5, 90, 70, 85, 70], "cuts into the slot for 'limb'"],
    ['at the end of a slit', [65, 80, 75, 80, 75, 90, 65, 90], "cuts into the slit with 'limb'"],
    ['across the middle of a slit', [40, 80, 45, 80, 45, 90, 40, 90], "cuts into the slit with 'limb'"],
    ['that runs along a crease', [20, 15, 50, 25, 50, 30, 20, 30], null],
  ])('%s: told why', (_, region, why) => {
    const assembly = board();
    expect(whatTrimBreaks(assembly, assembly.panelNamed('board', ''), Float64Array.from(region))).toBe(why);
  });

  /** A leaf 40 mm square with a window and a slot; cut by hand or as drawn. */
  const slotted = (slot: readonly number[], handCut = false) => {
    const assembly = new Assembly({ width: 150, height: 210 }, () => 0.3, handCut);
    const panel = (name: string, holes: number[][] = []) =>
      assembly.addPanel({ name, part: name, piece: name, outline: [0, 0, 40, 0, 40, 40, 0, 40], holes });
    const leaf = panel('leaf', [[2, 2, 5, 2, 5, 5, 2, 5], [...slot]]);
    assembly.addJoint({ kind: 'slot', part: 'slot', span: null, between: [panel('rod'), leaf], hole: 1 });
    const holeOf = () => {
      const [joint] = assembly.joints.filter(({ kind }) => kind === 'slot');
      return joint.kind === 'slot' ? assembly.panels[leaf].holes[joint.hole] : undefined;
    };
    return { assembly, leaf, holeOf };
  };
  const square = (x: number, y: number, wide: number): [number, number][] => [
    [x, y],
    [x + wide, y],
    [x + wide, y + wide],
    [x, y + wide],
  ];

  it('leaves the slots of a panel as they are drawn, also one with a corner in the middle of an edge', () => {
    for (const handCut of [false, true]) {
      const slot = [10, 10, 15, 10, 20, 10, 20, 14, 10, 14];
      const { assembly, leaf, holeOf } = slotted(slot, handCut);
      applyTrims(assembly, [
        { panel: 'leaf', region: square(30, 30, 10) },
        { panel: 'leaf', region: square(25, 5, 5) },
      ]);
      expect([...(holeOf() ?? [])]).toEqual(slot);
      expect(assembly.panels[leaf].holes.length).toBe(3);
      expect(cardArea(assembly.panels[leaf])).toBeCloseTo(1600 - 9 - 40 - 100 - 25, 6);
    }
  });

  it('that reaches a slot when both are cut by hand cannot be built; one beside it can', () => {
    const trims = [{ panel: 'leaf', region: square(30, 10, 10) }];
    const at = (right: number) => slotted([20, 12, right, 12, right, 16, 20, 16], true);
    const beside = at(29.5);
    applyTrims(beside.assembly, trims);
    expect(beside.holeOf()?.[2]).toBe(29.5);
    for (const right of [30, 30.5, 45])
      expect(() => applyTrims(at(right).assembly, trims)).toThrow(
        /trim of 'leaf' cuts into the slot for 'rod'/,
      );
    expect(() => applyTrims(at(30.5).assembly, trims)).toThrow(CannotBuild);
  });

  it('may not let the piece with a slot fall away', () => {
    const { assembly, leaf } = slotted([30, 10, 35, 10, 35, 14, 30, 14]);
    const line = { x0: 0, y0: 10, x1: 0, y1: 30 };
    assembly.addJoint({
      kind: 'crease',
      between: [leaf, 0],
      lines: [line, line],
      closesLoop: false,
      of: 'fold',
    });
    const region: [number, number][] = [
      [20, -1],
      [25, -1],
      [25, 41],
      [20, 41],
    ];
    expect(() => applyTrims(assembly, [{ panel: 'leaf', region }])).toThrow(/in two, and both are held/);
  });

  it('beside another, whose edges it meets but for a hair, takes its card and no more', () => {
    const hair = fc.double({ min: -1e-9, max: 1e-9, noNaN: true });
    const notch = fc.record({
      x: fc.integer({ min: 0, max: 30 }),
      wide: fc.integer({ min: 1, max: 10 }),
      deep: fc.integer({ min: 1, max: 30 }),
      hairs: fc.array(hair, { minLength: 8, maxLength: 8 }),
    });
    fc.assert(
      fc.property(notch, notch, (one, other) => {
        const assembly = assemble([]);
        const k = assembly.addPanel({
          name: 'leaf',
          part: 'leaf',
          piece: 'leaf',
          outline: [0, 0, 40, 0, 40, 40, 0, 40],
        });
        const trims = [one, { ...other, x: Math.min(one.x + one.wide, 40 - other.wide) }];
        const regions = trims.map(({ x, wide, deep, hairs }) =>
          [
            [x, 0],
            [x + wide, 0],
            [x + wide, deep],
            [x, deep],
          ].map(([u, v], i): [number, number] => [u + hairs[2 * i], v + hairs[2 * i + 1]]),
        );
        applyTrims(
          assembly,
          regions.map((region) => ({ panel: 'leaf', region })),
        );
        const depths = Array.from({ length: 40 }, (_, column) =>
          Math.max(0, ...trims.map(({ x, wide, deep }) => (column >= x && column < x + wide ? deep : 0))),
        );
        const left = depths.reduce((area, deep) => area + 40 - deep, 0);
        expect(cardArea(assembly.panels[k])).toBeCloseTo(left, 5);
      }),
      { seed: 7, numRuns: 400 },
    );
  });
});
