import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Candidates } from '../../../src/report/live/data.js';
import { packed, picked, unpacked } from '../../../src/report/live/packed.js';

const DIMS = 2;
const SCORES = 3;

const numbers = (count: number) => fc.array(fc.double(), { minLength: count, maxLength: count });
const someCandidates: fc.Arbitrary<Candidates> = fc.nat(40).chain((count) =>
  fc.record({
    count: fc.constant(count),
    number: numbers(count).map((list) => Uint32Array.from(list, (_, i) => 4_000_000_000 + i)),
    rank: fc.constant(Uint32Array.from({ length: count }, (_, i) => i + 1)),
    stage: fc.constant(new Uint8Array(count)),
    outcome: fc.constant(Uint8Array.from({ length: count }, (_, i) => i % 4)),
    grade: fc.constant(Uint8Array.from({ length: count }, (_, i) => i % 4)),
    vectors: numbers(count * DIMS).map((list) => Float64Array.from(list)),
    desirability: numbers(count).map((list) => Float32Array.from(list)),
    values: numbers(count * SCORES).map((list) => Float32Array.from(list)),
    met: fc.constant(Uint8Array.from({ length: count * SCORES }, (_, i) => i % 2)),
  }),
);

test('what is packed comes back to the last bit, also through JSON; NaN and −0 among it', () => {
  fc.assert(
    fc.property(someCandidates, (candidates) => {
      expect(unpacked(JSON.parse(JSON.stringify(packed(candidates))))).toEqual(candidates);
    }),
  );
});

test('base64 is that of Node', () => {
  const vectors = Float64Array.from({ length: 20_000 }, (_, i) => i / 7);
  const candidates = { ...empty(), count: 10_000, vectors };
  expect(packed(candidates).vectors).toBe(Buffer.from(vectors.buffer).toString('base64'));
});

test('picks whole candidates, in the order asked', () => {
  const candidates: Candidates = {
    ...empty(),
    count: 3,
    number: Uint32Array.of(11, 12, 13),
    grade: Uint8Array.of(0, 1, 2),
    vectors: Float64Array.of(1, 2, 3, 4, 5, 6),
    met: Uint8Array.of(0, 0, 1, 0, 1, 1),
  };
  const some = picked(candidates, [2, 0]);
  expect(some.count).toBe(2);
  expect([...some.number]).toEqual([13, 11]);
  expect([...some.grade]).toEqual([2, 0]);
  expect([...some.vectors]).toEqual([5, 6, 1, 2]);
  expect([...some.met]).toEqual([1, 1, 0, 0]);
});

function empty(): Candidates {
  return {
    count: 0,
    number: new Uint32Array(),
    rank: new Uint32Array(),
    stage: new Uint8Array(),
    outcome: new Uint8Array(),
    grade: new Uint8Array(),
    vectors: new Float64Array(),
    desirability: new Float32Array(),
    values: new Float32Array(),
    met: new Uint8Array(),
  };
}
