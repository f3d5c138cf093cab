import fc from 'fast-check';
import { expect, test } from 'vitest';
import { gluedTogether } from '../../src/card/doubled.js';
import { compileFigure } from '../../src/figure/figure.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { withGlued } from '../../src/score/force/doubled-panels.js';
import { turningOf } from '../../src/score/force/turning.js';

const figureOf = (parts: string, rest = '') =>
  compileFigure(parseFigure(`figure: x\npage: A5 portrait\n${rest}parts: [${parts}]`, 'x.yaml'));
const tent = (off = 0.5) =>
  `{ name: tent, kind: parallel-fold, at: 60, length: 60, glue: [30, 30], widths: [${50 + off}, 50], tab: { width: 6 } }`;
const mast = (off = 0.7) =>
  `{ name: mast, kind: v-fold, at: 100, glue: [45, 45], panels: [${60 + off}, 60], feet: [70, 70], ridge: 70, tab: { width: 6 } }`;
const stiff = (on: string, x: number, y: number, long: number, wide: number, more = '') =>
  `{ name: rib, kind: stiffener, on: ${on}, at: [${x}, ${y}], size: [${long}, ${wide}]${more} }`;

/** Hardest push on the way shut, N. */
function toShut(parts: string, rest = ''): number {
  const figure = figureOf(parts, rest);
  const turning = turningOf(figure, figure.start);
  if ('unknown' in turning) throw new Error(turning.unknown.because);
  return turning.score.toShut.value;
}
/** Stiffness of the fold with what is glued on it, over that of its card alone. */
function times(parts: string): { bend: number; pull: number } {
  const figure = figureOf(parts);
  const assembly = figure.build(figure.start);
  const own = figure.card.of(assembly.folds[0].piece).stiffness.any;
  const { bend, pull } = withGlued(assembly, assembly.folds[0], figure.card, own);
  return { bend: bend / own.bend, pull: pull / own.pull };
}

test('a stiffener all over the panel that bows makes it card of twice the thickness', () => {
  const all = times(`${tent()}, ${stiff('tent left', 0, 0, 60, 50.5)}`);
  expect(all.bend).toBeCloseTo(8, 6);
  // One panel in line with one that is not doubled.
  expect(all.pull).toBeCloseTo(100.5 / (50.5 / 2 + 50), 6);
  const figure = figureOf(tent());
  const { stiffness, thickness } = figure.card.of('tent');
  expect(8 * stiffness.any.bend).toBeCloseTo(
    gluedTogether(stiffness.any, thickness, stiffness.any, thickness).bend,
    9,
  );
});

test('half as long it adds half as much, wherever along the creases it lies', () => {
  const half = times(`${tent()}, ${stiff('tent left', 0, 0, 30, 50.5)}`);
  expect(half.bend).toBeCloseTo(1 + 7 / 2, 6);
  expect(times(`${tent()}, ${stiff('tent left', 22, 0, 30, 50.5)}`).bend).toBeCloseTo(half.bend, 6);
  // Past the end of the panel there is nothing to stiffen.
  expect(times(`${tent()}, ${stiff('tent left', 40, 0, 30, 50.5)}`).bend).toBeCloseTo(1 + 7 / 3, 6);
});

test('across the middle it does more than beside a crease', () => {
  const at = (y: number) => times(`${tent()}, ${stiff('tent left', 0, y, 60, 10)}`).bend;
  expect(at(20)).toBeGreaterThan(at(5));
  expect(at(5)).toBeGreaterThan(at(0.1));
  expect(at(0.1)).toBeGreaterThan(1);
});

test('about a vertex card counts by dr/r: a wedge from the apex on, all over, is 8 times as stiff', () => {
  const wide = `{ name: rib, kind: glued-piece, on: mast left, at: [0, 0], outline: { polygon: [[0, 0], [200, 0], [0, 200]] } }`;
  expect(times(`${mast()}, ${wide}`).bend).toBeCloseTo(8, 3);
  // Bands across the panel, by numbers: the mean of D over dr/r, ray by ray; one of them begins where card crumples.
  for (const [x0, x1] of [
    [20, 35],
    [2, 18],
  ]) {
    const band = times(`${mast()}, ${stiff('mast left', x0, 0, x1 - x0, 60)}`).bend;
    const [inner, outer, p] = [5, 70, (60.7 * Math.PI) / 180];
    let sum = 0;
    const rays = 4000;
    for (let k = 0; k < rays; k++) {
      const phi = ((k + 0.5) / rays) * p;
      const top = 60 / Math.sin(phi);
      const [near, far] = [x0, x1].map((x) =>
        Math.min(outer, Math.max(inner, Math.min(top, x / Math.cos(phi)))),
      );
      const covered = Math.log(far / near) / Math.log(outer / inner);
      sum += (2 * Math.sin((Math.PI * phi) / p) ** 2) / (1 + 7 * covered) / rays;
    }
    expect(band * sum).toBeGreaterThan(0.99);
    expect(band * sum).toBeLessThan(1.01);
  }
});

test('without a leap: a hair more of it is a hair stiffer, also where strips end', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 40, noNaN: true }),
      fc.double({ min: 2, max: 30, noNaN: true }),
      (at, wide) => {
        const [one, other] = [0, 1e-6].map(
          (more) => times(`${tent()}, ${stiff('tent left', 5, at, 40, wide + more)}`).bend,
        );
        expect(Math.abs(other - one)).toBeLessThan(1e-5);
      },
    ),
    { numRuns: 25 },
  );
});

test('a stiffer panel never takes less force to shut: with a stiffener, a longer one, of thicker card', () => {
  for (const [fold, on, size] of [
    [tent(0.4), 'tent left', [50, 25]],
    [mast(0.5), 'mast left', [40, 20]],
  ] as const) {
    const card = (thick: number) => `card: { thickness: 0.3, pieces: { rib: { thickness: ${thick} } } }\n`;
    const bare = toShut(fold);
    const [short, long] = [0.5, 1].map((share) =>
      toShut(`${fold}, ${stiff(on, 8, 8, size[0] * share, size[1])}`),
    );
    expect(bare).toBeLessThan(short);
    expect(short).toBeLessThan(long);
    const [thin, thick] = [0.2, 0.6].map((t) =>
      toShut(`${fold}, ${stiff(on, 8, 8, size[0], size[1])}`, card(t)),
    );
    expect(thin).toBeLessThan(thick);
  }
});

test('on any fold that is off, wherever it is glued, a stiffener takes no force away', () => {
  const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  fc.assert(
    fc.property(
      fc.boolean(),
      number(0.1, 2),
      fc.tuple(number(5, 30), number(1, 10)),
      fc.tuple(number(5, 30), number(2, 20)),
      (vertex, off, [x, y], [long, wide]) => {
        const [fold, on] = vertex ? [mast(off), 'mast left'] : [tent(off), 'tent left'];
        expect(toShut(`${fold}, ${stiff(on, x, y, long, wide)}`)).toBeGreaterThanOrEqual(toShut(fold) - 1e-9);
      },
    ),
    { numRuns: 15 },
  );
});
