import fc from 'fast-check';
import { expect, test } from 'vitest';
import { rankedStudy } from '../../src/study/ranking.js';
import { StudyTable } from '../../src/study/table.js';
import { fakeCard, LAYOUT } from './fake.js';

/** Front numbers by peeling: whatever nobody left beats comes off, again and again. */
function peeled(rows: readonly number[][]): number[] {
  const beats = (a: number[], b: number[]) => a.every((x, i) => x <= b[i]) && a.some((x, i) => x < b[i]);
  const fronts = rows.map(() => -1);
  for (let front = 0; fronts.includes(-1); front++) {
    const left = rows.map((_, i) => i).filter((i) => fronts[i] < 0);
    const off = left.filter((i) => !left.some((j) => beats(rows[j], rows[i])));
    for (const i of off) fronts[i] = front;
  }
  return fronts;
}

test('what works comes first, front by front; then what breaks a limit, by how far; then what has no score', () => {
  const tens = fc.integer({ min: 0, max: 12 }).map((n) => 10 * n);
  fc.assert(
    fc.property(fc.array(fc.tuple(tens, tens, fc.nat(1), fc.nat(9)), { minLength: 1 }), (vectors) => {
      const table = new StudyTable(3, LAYOUT);
      const cards = vectors.map(([mast, lean, boat, luck]) => {
        const vector = Float64Array.of(mast, lean, boat);
        const card = luck === 0 ? null : fakeCard(vector);
        const row = card === null ? LAYOUT.failed('the worker died') : LAYOUT.rowOf(card);
        table.add({ stage: 'sample', vector, row });
        return card;
      });
      const ranking = rankedStudy(table, LAYOUT);
      expect([...ranking].sort((a, b) => a - b)).toEqual(cards.map((_, i) => i));

      const working = cards.flatMap((card, i) => (card?.works ? [i] : []));
      const fronts = peeled(
        working.map((i) => cards[i]?.wants.map(({ desirability }) => 1 - (desirability ?? 0)) ?? []),
      );
      expect(ranking.slice(0, working.length)).toEqual(
        working.toSorted((a, b) => {
          const front = (i: number) => fronts[working.indexOf(i)];
          const worth = (i: number) => cards[i]?.desirability ?? 0;
          return front(a) - front(b) || worth(b) - worth(a) || a - b;
        }),
      );
      const violations = ranking
        .slice(working.length)
        .map((i) => (cards[i]?.cannotBuild === null ? (cards[i].violation ?? 0) : Number.POSITIVE_INFINITY));
      expect(violations).toEqual(violations.toSorted((a, b) => (a === b ? 0 : a - b)));
    }),
  );
});
