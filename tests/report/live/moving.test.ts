import { describe, expect, test } from 'vitest';
import { compileFigure } from '../../../src/figure/figure.js';
import { readFigure } from '../../../src/figure/read.js';
import { POSE } from '../../../src/motion/pose.js';
import { catchesAt } from '../../../src/report/live/catches.js';
import { Dummy } from '../../../src/report/live/dummy.js';
import { pileMapOf } from '../../../src/report/live/pile-map.js';
import { tracesOf } from '../../../src/report/live/traces.js';
import { findCatches } from '../../../src/score/catches.js';
import { Scorer } from '../../../src/score/scorer.js';
import { pulledApart } from '../../../src/view/apart.js';
import { layersOf } from '../../../src/view/layers.js';
import { Motion } from '../../../src/view/motion.js';
import { figureOf, OARSMAN } from './study.js';

const figure = compileFigure(readFigure(OARSMAN));
const scorer = new Scorer(figure);
const wide = figure.vectorFrom(
  new Map([
    ['reach', '75'],
    ['swing', '50'],
    ['grip', '2'],
    ['stoop', '100'],
  ]),
);

describe('motion', () => {
  test('is that which check --poses writes, frame for frame', () => {
    const motion = new Motion(figure, figure.start);
    const { frames } = scorer.poses(figure.start);
    for (const { pageAngle, poses } of frames) expect([...motion.at(pageAngle)]).toEqual(poses.flat());
  });
  test('stops where the figure locks', () => {
    const locking = compileFigure(
      figureOf(
        'page: A5 portrait\nparts: [{ name: tip, kind: v-fold, at: 60, glue: [60, 60], panels: [50, 50], feet: [40, 40], ridge: 40 }]',
      ),
    );
    const motion = new Motion(locking, locking.start);
    expect(motion.least).toBeGreaterThan(0);
    expect([...motion.at(0)]).toEqual([...motion.at(motion.least)]);
  });
  test('one figure moves as before after another has been built', () => {
    const motion = new Motion(figure, figure.start);
    const before = [...motion.at(77)];
    new Motion(figure, wide).at(77);
    expect([...motion.at(77)]).toEqual(before);
  });
});

describe('catches', () => {
  const card = scorer.score(wide);
  const motion = new Motion(figure, wide);
  const at = (pageAngle: number) =>
    catchesAt(motion.assembly, motion.at(pageAngle), pageAngle, new Dummy(figure, wide).counts, card);

  test('the scorecard knows of one', () => {
    expect(card.clash.firstPageAngle).not.toBeNull();
  });
  test('none before the first, one at the first, and the deepest with the same depth and panels', () => {
    const { firstPageAngle, pageAngle, deepest, between } = card.clash;
    expect(at((firstPageAngle ?? 0) + 0.2)).toEqual([]);
    expect(at((firstPageAngle ?? 0) - 0.05).length).toBeGreaterThan(0);
    const shown = at(pageAngle ?? 0).map(({ depth, between: [a, b] }) => ({
      depth,
      between: [a, b].map((k) => motion.assembly.panels[k].name),
    }));
    expect(shown).toContainEqual({ depth: deepest, between });
  });
  test('what does not count is not shown', () => {
    const { firstPageAngle, pageAngle } = card.clash;
    const past = ((firstPageAngle ?? 0) + (pageAngle ?? 0)) / 2;
    expect(at(past).length).toBeGreaterThan(0);
    expect(catchesAt(motion.assembly, motion.at(past), past, () => false, card)).toEqual([]);
  });
  test('what only rubs is not ringed where the figure catches elsewhere', () => {
    const heron = compileFigure(readFigure('examples/heron.yaml'));
    const set = {
      ...{ wide: 86.5, narrow: 44.6, first: 33.3, apart: 34.6, high: 19, post: 50, foot: 77 },
      ...{ beak: 47.4, neck: 56.8, bow: -7.6 },
    };
    const vector = heron.vectorFrom(
      new Map(Object.entries(set).map(([name, value]) => [name, String(value)])),
    );
    const dummy = new Dummy(heron, vector);
    const moving = dummy.motion as Motion;
    const ringed = (counts: typeof dummy.counts) => {
      const shown = Array.from({ length: 90 }, (_, i) => 180 - 2 * i).flatMap((pageAngle) =>
        catchesAt(moving.assembly, moving.at(pageAngle), pageAngle, counts, dummy.card),
      );
      return new Set(shown.map(({ between }) => between.map((k) => moving.assembly.panels[k].name).join()));
    };
    const caught = findCatches(heron, vector).map(({ between }) => between.join());
    expect(caught).toHaveLength(1);
    expect([...ringed(dummy.counts)]).toEqual(caught);
    // Rigid card would catch at one place more.
    expect(ringed((_a, _b, { push }) => push > heron.limits.press).size).toBe(2);
  });
});

describe('traces', () => {
  const source = figureOf(`page: A5 portrait
parts: [{ name: tip, kind: v-fold, at: 60, glue: [70, 60], panels: [60, 70], feet: [40, 40], ridge: 50 }]
wants:
  - { name: goes, kind: travel, panel: tip left, point: [10, 12], least: 1 }
  - { name: turns, kind: turn, panel: tip right, line: 30, least: 1 }
  - { name: goes too, kind: travel, panel: tip right, point: [10, 12], least: 1 }
`);
  const swinging = compileFigure(source);
  const motion = new Motion(swinging, swinging.start);
  const traces = tracesOf(motion, swinging.wantsOf(swinging.start));

  test('the path of a travelling point goes as far from its start as the scorecard says', () => {
    const { wants } = new Scorer(swinging).score(swinging.start);
    for (const place of [0, 2]) {
      const { path } = traces[place];
      const far = Array.from({ length: path.length / 3 }, (_, i) =>
        Math.hypot(path[3 * i] - path[0], path[3 * i + 1] - path[1], path[3 * i + 2] - path[2]),
      );
      expect(Math.max(...far)).toBeCloseTo(wants[place].value ?? Number.NaN, 4);
    }
    // One panel of a V-fold rises to +y, the other to −y.
    const points = [0, 2].map((place) => traces[place].point[1]);
    expect(points.sort((a, b) => a - b)).toEqual([-12, 12]);
  });
  test('a turning line is marked at the corner that lies farthest along it', () => {
    const { panel, point } = traces[1];
    const { outline, up } = motion.assembly.panels[panel];
    const along = (x: number, y: number) => x * Math.cos(Math.PI / 6) + up * y * Math.sin(Math.PI / 6);
    for (let i = 0; i < outline.length; i += 2)
      expect(along(outline[i], outline[i + 1])).toBeLessThanOrEqual(along(...point) + 1e-9);
  });
});

describe('card with thickness', () => {
  const { assembly } = new Motion(figure, figure.start);

  test('pages lie below their plane, and glued panels never in one another', () => {
    const layers = layersOf(assembly);
    expect(layers[0]).toEqual({ low: -assembly.panels[0].thickness, high: 0 });
    for (const [a, one] of assembly.panels.entries())
      for (const [b, other] of assembly.panels.entries())
        if (a < b && one.body === other.body)
          expect(layers[b].low).toBeGreaterThanOrEqual(layers[a].high - 1e-12);
  });
});

describe('pulled apart', () => {
  const { assembly, poses } = { ...new Motion(figure, figure.start), ...placed() };

  test('as built at 0; at 1 the pages stay, a piece moves as one, and no two pieces alike', () => {
    expect(Math.max(...pulledApart(assembly, poses, 0))).toBe(0);
    const shifts = pulledApart(assembly, poses, 1);
    const byPiece = new Map<string, Set<string>>();
    assembly.panels.forEach(({ piece }, k) => {
      const shift = [...shifts.subarray(3 * k, 3 * k + 3)].map((v) => v.toFixed(6)).join(' ');
      byPiece.set(piece, (byPiece.get(piece) ?? new Set()).add(shift));
    });
    expect([...byPiece.values()].every((moved) => moved.size === 1)).toBe(true);
    expect(byPiece.get('page')).toEqual(new Set(['0.000000 0.000000 0.000000']));
    // At 100° the open page looks to (−cos 50°, 0, sin 50°): each piece goes farther that way than the one before.
    const angle = (50 * Math.PI) / 180;
    const outwards = [...byPiece.values()].map((moved) => {
      const [x, , z] = [...moved][0].split(' ').map(Number);
      return z * Math.sin(angle) - x * Math.cos(angle);
    });
    expect(outwards).toEqual([...outwards].sort((a, b) => a - b));
    expect(new Set(outwards).size).toBe(byPiece.size);
  });
});

function placed() {
  const motion = new Motion(figure, figure.start);
  const poses = motion.at(100);
  expect(poses).toHaveLength(motion.assembly.panels.length * POSE);
  return { assembly: motion.assembly, poses };
}

test('the pile map says what the scorecard says, and is none where the figure never shuts', () => {
  const motion = new Motion(figure, figure.start);
  expect(pileMapOf(motion)?.thickest).toBe(scorer.score(figure.start).flat.pile);
  expect(pileMapOf(motion)?.panels).toHaveLength(motion.assembly.panels.length - 2);
});
