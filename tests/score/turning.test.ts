import { expect, test } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { type Turning, turningOf } from '../../src/score/force/turning.js';

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
