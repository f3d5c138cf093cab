import { beforeAll, expect, test } from 'vitest';
import { type ScoredPoint, ScoreSurrogate } from '../../src/insight/surrogate-scores.js';
import type { Variable } from '../../src/search/evaluator.js';
import { stream } from '../../src/search/random.js';
import { Sobol } from '../../src/search/sobol.js';
import { type TensorBackend, tensorBackend } from '../../src/search/tensor-backend.js';
import { Space } from '../../src/search/variables.js';

const variables: Variable[] = [
  { name: 'mast', kind: 'real', min: 40, max: 100 },
  { name: 'lean', kind: 'real', min: 0, max: 60, step: 2 },
  { name: 'fold', kind: 'choice', options: 3 },
];
const space = new Space(variables);
const never = new AbortController().signal;
const sobol = new Sobol(3, 4);

/** Works or not; a smooth score in mm; one that only exists on a low mast; a constant; noise; and a wave. */
const noise = stream(1, 'noise');
function scoresOf(unit: Float64Array): Float64Array {
  const [mast, lean, fold] = space.toValues(unit);
  const swing = 0.8 * mast - 0.3 * lean + [0, 20, -10][fold];
  const wave = Math.sin(mast / 8) * Math.cos(lean / 10);
  return Float64Array.of(swing > 60 ? 1 : 0, swing, mast < 80 ? lean : Number.NaN, 7, noise.next(), wave);
}

const points = Array.from({ length: 400 }, (_, index): ScoredPoint => {
  const unit = space.snap(sobol.point(index));
  return { unit, scores: scoresOf(unit), plain: true, group: index };
});
const fresh = Array.from({ length: 500 }, (_, index) => space.snap(sobol.point(1000 + index)));

let backend: TensorBackend;
let surrogate: ScoreSurrogate;
beforeAll(async () => {
  backend = await tensorBackend();
  surrogate = await ScoreSurrogate.learn(backend, space, points, [0], 1, never);
});

test('the held-out error is no rosier than what is found on fresh dummies', () => {
  const [works, swing, lean, constant, chance] = surrogate.heldOut;
  expect(swing?.rows).toBe(400);
  expect(swing?.explained).toBeGreaterThan(0.95);
  expect(swing?.atLeast).toBeLessThan(swing?.explained ?? 0);
  // A score that is missing is checked where it is there.
  expect(lean?.rows).toBe(points.filter(({ scores }) => !Number.isNaN(scores[2])).length);
  expect(lean?.explained).toBeGreaterThan(0.9);
  expect(works?.explained).toBeGreaterThan(0.6);
  expect(constant).toBeNull();
  // Nothing can be learnt of noise.
  expect(chance?.explained).toBeLessThan(0.1);

  const expected = surrogate.expect(fresh);
  const truths = fresh.map(scoresOf);
  const rms = Math.sqrt(
    truths.reduce((sum, truth, i) => sum + (truth[1] - expected[i][1]) ** 2, 0) / fresh.length,
  );
  expect(rms).toBeLessThan(1.1 * (swing?.rms ?? 0));
});

test('no part that is left out is a corner of the cube: a wave is known from all about each dummy', () => {
  // Every fourth point of a Sobol sequence lies in one corner; left out together, the wave there would be a guess.
  expect(surrogate.heldOut[5]?.explained).toBeGreaterThan(0.75);
});

test('a score is expected where it exists, odds are odds, and a constant stays what it is', () => {
  const expected = surrogate.expect(fresh);
  const wrong = fresh.filter((unit, i) => Number.isNaN(scoresOf(unit)[2]) !== Number.isNaN(expected[i][2]));
  expect(wrong.length).toBeLessThan(0.08 * fresh.length);
  for (const [works, , , constant] of expected) {
    expect(works).toBeGreaterThanOrEqual(0);
    expect(works).toBeLessThanOrEqual(1);
    expect(constant).toBe(7);
  }
});

test('slopes are in the score’s unit for one unit more of the dim, steps or not; a choice has none', () => {
  const middle = space.toUnit([70, 30, 0]);
  const { slopes, sure } = surrogate.slopes(middle);
  expect(Math.abs(slopes[0][1] - 0.8)).toBeLessThan(0.25);
  expect(Math.abs(slopes[1][1] + 0.3)).toBeLessThan(0.15);
  expect([sure[0][1], sure[1][1]]).toEqual([true, true]);
  expect(slopes[2][1]).toBeNaN();
  expect(slopes[0][3]).toBeNaN();
  // The slope is that of what it expects: a step of lean is 2°, a cell of the cube.
  const [low, high] = surrogate.expect([space.toUnit([69.99, 30, 0]), space.toUnit([70.01, 30, 0])]);
  expect(Math.abs((high[1] - low[1]) / 0.02 - slopes[0][1])).toBeLessThan(0.02);
});

test('points that differ in one dim alone are kept back together', async () => {
  // Noise, twelve copies of each: whoever learnt one copy would know the others.
  const random = stream(3, 'noise of groups');
  const copies = Array.from({ length: 30 }, (_, group) => ({
    unit: space.snap(sobol.point(group)),
    scores: Float64Array.of(0, random.next()),
    plain: true,
    group,
  })).flatMap((point) => Array.from({ length: 12 }, () => point));
  const { heldOut } = await ScoreSurrogate.learn(backend, space, copies, [0], 1, never);
  expect(heldOut[1]?.explained).toBeLessThan(0.2);
});

test('the same points and seed give the same bytes, no tensor is left, and it stops when told', async () => {
  const few = points.slice(0, 60);
  const before = backend.tf.memory().numTensors;
  const learn = () => ScoreSurrogate.learn(backend, space, few, [0], 1, never);
  const [one, again] = [await learn(), await learn()];
  expect(again.heldOut).toEqual(one.heldOut);
  expect(again.expect(fresh)).toEqual(one.expect(fresh));
  expect(backend.tf.memory().numTensors).toBe(before);
  await expect(ScoreSurrogate.learn(backend, space, few, [0], 1, AbortSignal.abort())).rejects.toThrow();
});

test('with nothing that varies there is nothing to learn, and nothing is made up', async () => {
  const same = points.slice(0, 50).map((point) => ({ ...point, scores: Float64Array.of(1, 5, Number.NaN) }));
  const idle = await ScoreSurrogate.learn(backend, space, same, [0], 1, never);
  expect(idle.heldOut).toEqual([null, null, null]);
  expect(Array.from(idle.expect([fresh[0]])[0])).toEqual([1, 5, Number.NaN]);
});
