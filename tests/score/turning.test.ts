import { expect, test } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { type Turning, turningOf } from '../../src/score/force/turning.js';
import { stream } from '../../src/search/random.js';

const turn = (parts: string, rest = ''): Turning => {
  const figure = compileFigure(
    parseFigure(`figure: x\npage: A5 portrait\n${rest}parts: [${parts}]`, 'x.yaml'),
  );
  return turningOf(figure, figure.start);
};
const mast = (panels: string, name = 'mast', at = 100) =>
  `{ name: ${name}, kind: v-fold, at: ${at}, glue: [45, 45], panels: [${panels}], feet: [40, 40], ridge: 60, tab: { width: 6 } }`;
const known = (turning: Turning) => {
  if ('unknown' in turning) throw new Error(turning.unknown.because);
  return turning;
};

test('at every page angle the sum is that of the creases and of each part', () => {
  const { curve } = known(turn(`${mast('60, 61')}, ${mast('60, 60.5', 'sail', 180)}`));
  expect(curve.parts.map(({ part }) => part)).toEqual(['mast', 'sail']);
  curve.total.forEach((sum, k) => {
    const parts = curve.parts.reduce((all, { newtons }) => all + newtons[k], curve.creases[k]);
    expect(sum).toBeCloseTo(parts, 12);
  });
  expect(curve.pageAngles[0]).toBe(180);
  expect(curve.pageAngles.at(-1)).toBeCloseTo(2, 9);
});

test('the hardest push of the score is the highest point of the curve, and where it is', () => {
  const { curve, score } = known(turn(mast('60, 61')));
  const highest = Math.max(...curve.total);
  expect(score.toShut.value).toBe(highest);
  expect(curve.pageAngles[curve.total.indexOf(highest)]).toBe(score.toShut.pageAngle);
});

test('bounds are those of the figure file', () => {
  const { easy, hard } = known(turn(mast('60, 60'), 'limits: { easyForce: 2, force: 7 }\n'));
  expect([easy, hard]).toEqual([2, 7]);
});

test('what cannot be built, or locks open, has a reason and no curve', () => {
  const unbuilt = turn(mast('60, 60', 'mast', 500));
  expect(unbuilt).toMatchObject({ unknown: { because: 'it cannot be built' } });
  const stuck = turn(
    '{ name: tent, kind: parallel-fold, at: 40, length: 60, glue: [40, 40], widths: [30, 30], tab: { width: 6 } }',
  );
  expect(stuck).toMatchObject({ unknown: { because: 'it never opens flat', pageAngle: 180 } });
});

/** The hardest push to shut of V-folds that are off by so many degrees, of card so thick. */
const toShut = (errors: readonly number[], thickness = 0.3) => {
  const parts = errors.map((error, i) => mast(`60, ${60 + error}`, `mast ${i}`, 30 + 60 * i));
  return known(turn(parts.join(', '), `card: { thickness: ${thickness} }\n`)).score.toShut.value;
};

test('more error, thicker card, and more parts never take less force to shut', () => {
  const random = stream(3, 'masts');
  for (let i = 0; i < 8; i++) {
    const [error, more, thickness] = [2 * random.next(), 0.9 * random.next(), 0.2 + 0.3 * random.next()];
    const force = toShut([error], thickness);
    expect(toShut([error + more], thickness)).toBeGreaterThanOrEqual(force);
    expect(toShut([error], thickness + 0.05)).toBeGreaterThanOrEqual(force);
    expect(toShut([error, more], thickness)).toBeGreaterThanOrEqual(force);
  }
});

test('a millionth of a degree changes no force by more than a hair', () => {
  for (const error of [0.01, 0.3, 1, 2.5]) expect(toShut([error + 1e-6])).toBeCloseTo(toShut([error]), 3);
});

test('a crease springs to the side on which its card lies, with however many corners that is drawn on the other', () => {
  const sail = (below: string) => {
    const figure = compileFigure(
      parseFigure(
        `page: A5
parts:
  - name: sail
    kind: v-fold
    at: 60
    glue: 60
    panels: 70
    feet: 40
    ridge: 60
    outlines: { left: [[0, 0], ${below}[40, 0], { on: ridge, at: end }] }
`,
        'x.yaml',
      ),
    );
    const turning = turningOf(figure, figure.start);
    return 'unknown' in turning ? turning.unknown : turning.curve.creases;
  };
  const hem = Array.from({ length: 30 }, (_, i) => `[${2 + i}, -2], `).join('');
  const plain = sail('');
  expect(sail(hem)).toEqual(plain);
  expect(sail('[2, -2], [31, -2], ')).toEqual(plain);
});

test('and no force leaps as a panel grows beyond the diagonal of a counter-fold in it', () => {
  const half = (wide: number) => {
    const { curve } = known(
      turn(`{ name: tent, kind: parallel-fold, at: 20, length: 170, glue: 28, widths: ${wide} },
        { name: in, kind: counter-fold, on: tent ridge, at: 40, diagonal: 32, side: 14, length: 18 }`),
    );
    return curve.creases[curve.pageAngles.indexOf(90)];
  };
  const steps = Array.from({ length: 12 }, (_, k) => half(30 + 5 * (k + 1)) - half(30 + 5 * k));
  // Each step adds less than the one before.
  steps.slice(1).forEach((step, k) => {
    expect(step).toBeLessThan(steps[k]);
  });
});
