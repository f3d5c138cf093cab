import { describe, expect, test } from 'vitest';
import { foldState, newFoldState } from '../../src/card/fold-spring.js';
import { compileFigure } from '../../src/figure/figure.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { LEFT_PAGE, RIGHT_PAGE } from '../../src/motion/assembly.js';
import { POSE, worldPoint } from '../../src/motion/pose.js';
import { angleBetween, sprungFolds } from '../../src/score/force/springs.js';
import { turningOf } from '../../src/score/force/turning.js';
import { type Bend, bendLines, bowAt, heightAt } from '../../src/view/bends.js';
import { bendTo, bentSlab } from '../../src/view/bent.js';
import { layersOf } from '../../src/view/layers.js';
import { Motion } from '../../src/view/motion.js';
import { slabOf } from '../../src/view/slab.js';

const figureOf = (parts: string) =>
  compileFigure(parseFigure(`figure: x\npage: A5 portrait\nparts: [${parts}]`, 'x.yaml'));
const mast = (off: number, points = 'in') =>
  `{ name: mast, kind: v-fold, at: 100, glue: [45, 45], panels: [60, ${60 + off}], feet: [60, 60], ridge: 70, points: ${points}, tab: { width: 6 } }`;
const tent = (off: number) =>
  `{ name: tent, kind: parallel-fold, at: 20, length: 60, glue: [30, 30], widths: [${50 + off}, 50], tab: { width: 6 } }`;
const star =
  '{ name: star, kind: glued-piece, on: tent left, at: [20, 15], turn: 30, outline: { polygon: [[0, 0], [20, 0], [20, 15], [0, 15]] } }';

const bothBow = figureOf([mast(1), tent(0.5), star].join());
const motion = new Motion(bothBow, bothBow.start);
const named = (panel: string): Bend => {
  const bend = motion.bends.find(({ panel: k }) => motion.assembly.panels[k].name === panel);
  if (bend === undefined) throw new Error(`${panel} does not bow`);
  return bend;
};
const [cone, cylinder] = [named('mast right'), named('tent left')];
const height = (bend: Bend, x: number, y: number) => {
  const out = new Float64Array(3);
  heightAt(bend, x, y, out);
  return out;
};

describe('card that bows', () => {
  test('is the longer panel of each fold that is off; what fits stays flat', () => {
    expect(motion.bends.map(({ panel }) => motion.assembly.panels[panel].name)).toEqual([
      'mast right',
      'tent left',
    ]);
    const exact = figureOf([mast(0), tent(0)].join());
    expect(new Motion(exact, exact.start).bends).toEqual([]);
  });

  test('bows by as much as the scorecard tells, and not while the page is open', () => {
    const turning = turningOf(bothBow, bothBow.start);
    if ('unknown' in turning) throw new Error('turns');
    const { bow } = turning.score;
    const most = Math.max(bowAt(cone, bow.pageAngle ?? 0), bowAt(cylinder, bow.pageAngle ?? 0));
    expect(most).toBeCloseTo(bow.value, 9);
    for (const bend of [cone, cylinder]) {
      expect(bowAt(bend, 180)).toBe(0);
      expect(bowAt(bend, 60)).toBe(0);
      // A quarter of the way from one half degree to the next.
      expect(bowAt(bend, 5.125)).toBeCloseTo(0.75 * bowAt(bend, 5) + 0.25 * bowAt(bend, 5.5), 9);
    }
  });

  test('as a cylinder between parallel creases, as a cone about a vertex: straight along every crease and rule', () => {
    const { size, up, radius, side } = cone;
    const ray = (share: number, r: number) =>
      height(cone, r * Math.cos(share * size), up * r * Math.sin(share * size))[0];
    expect(side * ray(0.5, radius)).toBeCloseTo(1, 9);
    expect(side * ray(0.5, radius / 2)).toBeCloseTo(0.5, 9);
    expect(ray(0.3, 20) / 20).toBeCloseTo(ray(0.3, 50) / 50, 9);
    for (const share of [0, 1, 1.2, -0.1]) expect(ray(share, 40)).toBeCloseTo(0, 9);
    const over = (x: number, share: number) => height(cylinder, x, cylinder.up * cylinder.size * share)[0];
    expect(cylinder.side * over(30, 0.5)).toBeCloseTo(1, 9);
    expect(over(5, 0.3)).toBe(over(55, 0.3));
    for (const share of [0, 1, 1.2, -0.1]) expect(over(30, share)).toBeCloseTo(0, 9);
  });

  test('the rises are the slopes of its height', () => {
    const h = 1e-6;
    for (const [bend, x, y] of [
      [cone, 30, cone.up * 20],
      [cone, 12, cone.up * 15],
      [cylinder, 30, cylinder.up * 11],
    ] as const) {
      const [, alongX, alongY] = height(bend, x, y);
      expect(alongX).toBeCloseTo((height(bend, x + h, y)[0] - height(bend, x - h, y)[0]) / (2 * h), 7);
      expect(alongY).toBeCloseTo((height(bend, x, y + h)[0] - height(bend, x, y - h)[0]) / (2 * h), 7);
    }
  });

  test('a strip drawn bent is longer than flat by what is forced of it', () => {
    const { assembly, opening } = motion;
    const sprung = sprungFolds(assembly, opening, bothBow.card).find(({ fold }) => fold.part === 'tent');
    if (sprung === undefined) throw new Error('it is off');
    // Where it has just been touched, and waves have not begun.
    const pageAngle = 7;
    const { theta } = angleBetween(opening, sprung.angles, pageAngle);
    const { forced, bow } = foldState(sprung.spring, theta, newFoldState());
    expect(bow).toBeCloseTo(bowAt(cylinder, pageAngle), 9);
    let long = 0;
    const steps = 2000;
    for (let k = 0; k < steps; k++) {
      const [, , rise] = height(cylinder, 0, (cylinder.up * cylinder.size * (k + 0.5)) / steps);
      long += (cylinder.size / steps) * Math.hypot(1, bow * rise);
    }
    expect(forced).toBeGreaterThan(0.1);
    expect((long - cylinder.size) / forced).toBeGreaterThan(0.97);
    expect((long - cylinder.size) / forced).toBeLessThan(1.03);
  });

  test.each(['in', 'out'])('bows into the room between the pages (pointing %s)', (points) => {
    const figure = figureOf(mast(1, points));
    const moving = new Motion(figure, figure.start);
    expect(moving.bends).toHaveLength(1);
    for (const bend of moving.bends) {
      const poses = moving.at(8);
      const at = [0, 0, 0];
      const heights = [LEFT_PAGE, RIGHT_PAGE].map((page) => {
        worldPoint(poses, bend.panel, bend.at[0], bend.at[1], at);
        const bow = bend.side * bowAt(bend, 8, 'drawn');
        const [i, j] = [bend.panel * POSE, page * POSE];
        const dot = [2, 6, 10].map((row) => poses[j + row] * (at[(row - 2) / 4] + bow * poses[i + row]));
        return dot.reduce((sum, each) => sum + each, 0);
      });
      // The pages meet in the gutter, through the origin, and face each other.
      for (const above of heights) expect(above).toBeGreaterThan(-0.1);
      expect(bowAt(bend, 8, 'drawn')).toBeGreaterThan(2);
    }
  });
});

describe('a slab that bends', () => {
  const { assembly } = motion;
  const layers = layersOf(assembly);
  const along = (bend: Bend, name: string) => {
    const found = bend.along.find(({ panel }) => assembly.panels[panel].name === name);
    if (found === undefined) throw new Error(`${name} does not bend along`);
    return found;
  };
  const area = ({ positions, indices }: ReturnType<typeof slabOf>) => {
    let sum = 0;
    for (let i = 0; i < indices.length; i += 3) {
      const [a, b, c] = [0, 1, 2].map((k) => positions.subarray(3 * indices[i + k], 3 * indices[i + k] + 3));
      const [u, v] = [0, 1, 2]
        .map((k) => b[k] - a[k])
        .reduce((both, _, k) => both.map((each, w) => [...each, (w === 0 ? b : c)[k] - a[k]]), [
          [],
          [],
        ] as number[][]);
      sum += Math.hypot(u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]) / 2;
    }
    return sum;
  };

  test.each([
    ['mast right', cone],
    ['tent left', cylinder],
  ] as const)('%s, cut into strips, is the card that it was', (name, bend) => {
    const panel = assembly.panels[bend.panel];
    const lines = bendLines(bend, along(bend, name));
    const [whole, cut] = [slabOf(panel, 0, 0.3), slabOf(panel, 0, 0.3, lines)];
    expect(cut.indices.length).toBeGreaterThan(whole.indices.length);
    expect(area(cut)).toBeCloseTo(area(whole), 2);
  });

  test('drawn without a bow it is flat; with one, its creases stay and its middle rises', () => {
    const panel = assembly.panels[cylinder.panel];
    const bent = bentSlab(panel, layers[cylinder.panel], cylinder, along(cylinder, 'tent left'));
    bendTo(bent, 0);
    expect([...bent.drawn.positions]).toEqual([...bent.flat.positions]);
    bendTo(bent, 4);
    let most = 0;
    for (let i = 0; i < bent.drawn.positions.length; i += 3) {
      const rise = (bent.drawn.positions[i + 2] - bent.flat.positions[i + 2]) * cylinder.side;
      const across = (cylinder.up * bent.flat.positions[i + 1]) / cylinder.size;
      expect(rise).toBeCloseTo(4 * Math.sin(Math.PI * Math.min(1, Math.max(0, across))), 4);
      most = Math.max(most, rise);
      expect(Math.hypot(...bent.drawn.normals.subarray(i, i + 3))).toBeCloseTo(1, 5);
    }
    expect(most).toBeCloseTo(4, 4);
  });

  test('what is glued on it bends along: it stays on the card under it', () => {
    const k = assembly.panels.findIndex(({ name }) => name === 'star');
    const place = along(cylinder, 'star');
    const [on, under] = [
      [0, 0, 0],
      [0, 0, 0],
    ];
    const poses = motion.at(30);
    for (const [x, y] of [
      [3, 4],
      [18, 2],
    ]) {
      worldPoint(poses, k, x, y, on);
      const [a, b] = [place.x, place.y].map(([p, q, r]) => p * x + q * y + r);
      worldPoint(poses, cylinder.panel, a, b, under);
      on.forEach((each, axis) => {
        expect(each).toBeCloseTo(under[axis], 6);
      });
      const bent = bentSlab(assembly.panels[k], layers[k], cylinder, place);
      bendTo(bent, 3);
      const corner = bent.flat.positions.subarray(0, 3);
      const [ca, cb] = [place.x, place.y].map(([p, q, r]) => p * corner[0] + q * corner[1] + r);
      const rise = bent.drawn.positions[2] - corner[2];
      expect(rise).toBeCloseTo(3 * place.face * height(cylinder, ca, cb)[0], 4);
      expect(Math.abs(rise)).toBeGreaterThan(0.5);
    }
  });
});
