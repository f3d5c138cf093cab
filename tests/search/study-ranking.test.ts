import fc from 'fast-check';
import { expect, test } from 'vitest';
import { rank } from '../../src/search/rank.js';
import { scoredOf } from '../../src/search/study.js';
import { rankedStudy } from '../../src/search/study-ranking.js';
import { StudyTable } from '../../src/search/study-table.js';
import { fakeCard, LAYOUT } from './study-fake.js';

test('a study is ranked as all its candidates are, one by one', () => {
  const angle = fc.integer({ min: 0, max: 18 }).map((tens) => 10 * tens);
  fc.assert(
    fc.property(fc.array(fc.tuple(angle, angle, fc.nat(1), fc.nat(9)), { minLength: 1 }), (vectors) => {
      const table = new StudyTable(3, LAYOUT);
      for (const [a, b, way, luck] of vectors) {
        const vector = Float64Array.of(a, b, way);
        const row = luck === 0 ? LAYOUT.failed('the worker died') : LAYOUT.rowOf(fakeCard(vector));
        table.add({ stage: 'sample', vector, row });
      }
      const one = (candidate: number) => ({
        ...scoredOf(LAYOUT, table, candidate),
        works: table.outcome(candidate) === 'works',
        desirability: LAYOUT.desirability(table.figures(candidate)) || 0,
      });
      const all = table.where(() => true);
      expect(rankedStudy(table, LAYOUT)).toEqual(rank(all.map(one)));
    }),
  );
});
