import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Variable } from '../../src/search/evaluator.js';
import { stream } from '../../src/search/random.js';
import { fingerprint, Space } from '../../src/search/variables.js';

const length = (min: number, max: number, step?: number): Variable => ({
  name: 'd',
  kind: 'real',
  min,
  max,
  step,
});
const choice = (options: number): Variable => ({ name: 'c', kind: 'choice', options });

const anyVariable: fc.Arbitrary<Variable> = fc.oneof(
  fc
    .record({
      min: fc.integer({ min: -500, max: 500 }),
      span: fc.integer({ min: 0, max: 900 }),
      step: fc.constantFrom(undefined, 0.1, 0.25, 1, 7),
    })
    .map(({ min, span, step }) => length(min / 10, (min + span) / 10, step)),
  fc.integer({ min: 1, max: 6 }).map(choice),
);
const anySpace = fc
  .array(anyVariable, { minLength: 1, maxLength: 6 })
  .map((variables) => new Space(variables));
const unit = fc.double({ min: 0, max: 1, noNaN: true });

describe('a space of dims', () => {
  it('keeps to the values that there are', () => {
    fc.assert(
      fc.property(anySpace, fc.array(unit, { minLength: 6, maxLength: 6 }), (space, point) => {
        const values = space.toValues(point);
        space.variables.forEach((v, i) => {
          if (v.kind === 'choice') {
            expect(Number.isInteger(values[i]) && values[i] >= 0 && values[i] < v.options).toBe(true);
            return;
          }
          expect(values[i]).toBeGreaterThanOrEqual(v.min);
          expect(values[i]).toBeLessThanOrEqual(v.max);
          if (v.step) {
            const steps = (values[i] - v.min) / v.step;
            expect(Math.abs(steps - Math.round(steps))).toBeLessThan(1e-6);
          }
        });
      }),
    );
  });

  it('comes back unchanged from values, and snapping changes no values', () => {
    fc.assert(
      fc.property(anySpace, fc.array(unit, { minLength: 6, maxLength: 6 }), (space, point) => {
        const values = space.toValues(point);
        const again = space.toValues(space.toUnit(values));
        const snapped = space.snap(Float64Array.from(point.slice(0, space.size)));
        // Real dims move by at most half of 2^-32 of their range, and round-off.
        space.variables.forEach((v, i) => {
          const most = v.kind === 'real' ? (v.max - v.min) * 2 ** -33 + 1e-12 * Math.abs(v.max) + 1e-12 : 0;
          for (const moved of [again, space.toValues(snapped)])
            expect(Math.abs(moved[i] - values[i])).toBeLessThanOrEqual(most);
        });
        expect(space.snap(snapped.slice())).toEqual(snapped);
        // To the last bit: a resumed study starts from values.
        expect(space.toUnit(space.toValues(snapped))).toEqual(snapped);
      }),
    );
  });

  it('gives every step and every option the same share of the cube', () => {
    const space = new Space([length(10, 11, 0.25), choice(3)]);
    const seen = [new Map<number, number>(), new Map<number, number>()];
    for (let i = 0; i < 1500; i++) {
      space.toValues([(i + 0.5) / 1500, (i + 0.5) / 1500]).forEach((value, k) => {
        seen[k].set(value, (seen[k].get(value) ?? 0) + 1);
      });
    }
    expect(Object.fromEntries(seen[0])).toEqual({ 10: 300, 10.25: 300, 10.5: 300, 10.75: 300, 11: 300 });
    expect(Object.fromEntries(seen[1])).toEqual({ 0: 500, 1: 500, 2: 500 });
  });

  it('reaches both ends, and never passes the upper one by round-off', () => {
    // 0.1 * 3 is 0.30000000000000004.
    const space = new Space([length(0, 0.3, 0.1), length(-2, 5)]);
    expect(Array.from(space.toValues([1, 1]))).toEqual([0.3, 5]);
    expect(Array.from(space.toValues([0, 0]))).toEqual([0, -2]);
    expect(Array.from(space.toValues([7, -7]))).toEqual([0.3, -2]);
  });

  it('leaves out an end that no step reaches', () => {
    expect(Array.from(new Space([length(0, 1, 0.3)]).toValues([1]))).toEqual([0.8999999999999999]);
  });

  it('puts a value between two steps on the nearest', () => {
    const space = new Space([length(0, 10, 2)]);
    expect(Array.from(space.toValues(space.toUnit([6.9])))).toEqual([6]);
    expect(Array.from(space.toValues(space.toUnit([7.1])))).toEqual([8]);
    expect(Array.from(space.toValues(space.toUnit([99])))).toEqual([10]);
  });

  it('holds a range of one value', () => {
    const space = new Space([length(4, 4), length(4, 4, 1), choice(1)]);
    expect(Array.from(space.toValues([0.7, 0.7, 0.7]))).toEqual([4, 4, 0]);
    expect(Array.from(space.toUnit([4, 4, 0]))).toEqual([0.5, 0.5, 0.5]);
  });

  it('refuses what is no range', () => {
    expect(() => new Space([])).toThrow('no dim is free');
    expect(() => new Space([length(3, 2)])).toThrow('range');
    expect(() => new Space([length(0, Infinity)])).toThrow('range');
    expect(() => new Space([length(0, 1, 0)])).toThrow('step');
    expect(() => new Space([choice(0)])).toThrow('option');
    expect(() => new Space([choice(1.5)])).toThrow('option');
  });
});

it('fingerprints tell points apart, and only by their numbers', () => {
  const random = stream(1, 'prints');
  const prints = new Set<number>();
  for (let i = 0; i < 20000; i++) prints.add(fingerprint(Float64Array.of(random.next(), i % 7)));
  expect(prints.size).toBe(20000);
  expect(fingerprint(Float64Array.of(0.1, 0.2))).toBe(fingerprint(Float64Array.of(0.1, 0.2)));
  expect(fingerprint(Float64Array.of(0.1, 0.2))).not.toBe(fingerprint(Float64Array.of(0.2, 0.1)));
  expect(Math.max(...prints)).toBeLessThan(2 ** 53);
});
