import { expect, test } from 'vitest';
import type { Scorecard } from '../../src/score/scorecard.js';
import type { BuiltPart } from '../../src/tune/opened.js';
import { concernsOf } from '../../src/tune/relevance.js';

const part = (name: string, kind: string, fields: object = {}): BuiltPart => ({ name, kind, fields });
const parts = [
  part('man', 'v-fold', { on: 'gutter' }),
  part('joint', 'counter-fold', { on: 'man ridge' }),
  part('arm', 'glued-piece', { on: 'joint left' }),
  part('sleeve', 'slot', { on: 'man left', passes: 'arm' }),
  part('boat', 'parallel-fold', { on: 'gutter' }),
];
const broken = (...panels: string[]) =>
  ({
    cannotBuild: null,
    locks: null,
    limits: [{ met: false, finding: { panels, part: null, place: null } }],
    wants: [],
  }) as unknown as Scorecard;

test('where a part has too little room in a slot, the slot is meant, too', () => {
  const [{ named }] = concernsOf(broken('arm', 'man left'), parts, new Map());
  expect([...named].sort()).toEqual(['arm', 'man', 'sleeve']);
});

test('a slot has nothing to do with what is wrong with one of its two parts alone, but for what it cuts into', () => {
  const [{ named, all }] = concernsOf(broken('man left'), parts, new Map());
  expect([...named]).toEqual(['man']);
  expect([...all]).toContain('sleeve');
  expect([...all]).not.toContain('boat');
});
