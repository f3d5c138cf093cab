import { expect, test } from 'vitest';
import type { Grade } from '../../../src/card/grade.js';
import { achieved } from '../../../src/report/words/achieved.js';
import { gradesInWords } from '../../../src/report/words/grade-words.js';
import { verdict } from '../../../src/report/words/scorecard-words.js';
import { Layout } from '../../../src/study/row.js';
import { StudyTable } from '../../../src/study/table.js';
import { fakeCard, fakeVectors } from '../../study/fake.js';
import { turning } from '../charts/turning.js';

const turned = turning(['mast'], [7.2]);
if ('unknown' in turned) throw new Error('a page that turns');

/** Dummies that work, and how hard their pages turn. */
function graded(...grades: (Grade | null)[]) {
  const cards = grades.map((grade) => {
    const card = fakeCard(Float64Array.of(60, 20, 0));
    const force = { name: 'force', value: grade && 7.2, most: 15, unit: 'N', met: true };
    return {
      ...card,
      limits: [...card.limits, force],
      force: grade === null || 'unknown' in turned ? null : { ...turned.score, grade },
    };
  });
  const layout = new Layout(cards[0]);
  const table = new StudyTable(3, layout);
  const [vector] = fakeVectors(1);
  for (const card of cards) table.add({ stage: 'sample', vector, row: layout.rowOf(card) });
  return { table, layout, cards };
}

test('what a dummy reaches ends with how its page turns; nothing where that is not known', () => {
  const study = graded('stiff', null);
  expect(achieved(study, 0)).toMatch(/ease 72.0°, page stiff, 7.2 N$/);
  expect(achieved(study, 1)).toMatch(/ease 72.0°$/);
});

test('stiff ones among those that work are counted, and those of which it is not known', () => {
  expect(gradesInWords(graded('works', 'works'))).toEqual([]);
  expect(gradesInWords(graded('stiff', 'works', null))).toEqual([
    'Of those that work, the page of 1 dummy is stiff.',
    'How hard the page turns is not known of 1: they were scored before it was kept.',
  ]);
});

test('a figure that works and is stiff says so in its verdict', () => {
  const { cards } = graded('stiff', 'works');
  expect(verdict('boat', cards[0])).toContain(' Its page is stiff: ');
  expect(verdict('boat', cards[1])).not.toContain('stiff');
});
