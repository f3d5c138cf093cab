import type { StudyDim } from '../../src/insight/study-sensitivity.js';
import { rowWords } from '../../src/report/words/row-words.js';
import type { Scorecard } from '../../src/score/scorecard.js';
import { Layout, type Row } from '../../src/study/row.js';

/** A made-up figure: a mast of some height and lean, on one of two boats. Everything about it is in closed form. */
export const DIMS: StudyDim[] = [
  { name: 'mast', unit: 'mm', options: null },
  { name: 'lean', unit: 'degrees', options: null },
  { name: 'boat', unit: '', options: ['punt', 'barge'] },
];

/**
 * The mast should swing far (a want); it sticks out where it is taller than 80 mm (a limit), more so on the barge, and it
 * can't be built where it leans more than 50°.
 */
export function fakeCard([mast, lean, boat]: Float64Array): Scorecard {
  const built = lean <= 50;
  const overhang = Math.max(0, mast + 10 * boat - 80);
  const swing = mast * Math.sin((lean * Math.PI) / 180);
  const worth = Math.min(1, swing / 60);
  const ease = 1 - lean / 100;
  return {
    works: built && overhang === 0,
    cannotBuild: built ? null : 'the mast leans past the gutter',
    violation: built ? overhang / 10 : null,
    desirability: built ? Math.sqrt(worth * ease) : null,
    wants: [
      {
        name: 'swing',
        kind: 'travel',
        value: built ? swing : null,
        unit: 'mm',
        met: built,
        desirability: built ? worth : null,
        weight: 2,
        ...(built ? {} : { unknown: { because: 'it cannot be built', reason: 'not built' } as const }),
      },
      {
        name: 'ease',
        kind: 'turn',
        value: built ? 90 * ease : null,
        unit: 'degrees',
        met: built,
        desirability: built ? ease : null,
        weight: 1,
      },
    ],
    limits: [
      { name: 'overhang', value: built ? overhang : null, most: 0, unit: 'mm', met: built && overhang === 0 },
      { name: 'pile', value: built ? 1.5 : null, most: 3, unit: 'mm', met: built },
    ],
    clash: {
      deepest: 0,
      push: 0,
      pageAngle: null,
      between: null,
      points: null,
      firstPageAngle: null,
      press: 0,
    },
    flat: { residue: 0, overhang, pile: 1.5, openResidue: 0 },
    bind: { misfit: 0, pageAngle: null, firstPageAngle: null, at: null },
    book: { out: 0, pageAngle: null, part: null },
    chains: null,
    slots: [],
    glue: [],
    force: null,
    locks: null,
  };
}

export const LAYOUT = new Layout(fakeCard(Float64Array.of(60, 20, 0)));
/** A row as a worker makes it. */
export function fakeRow(vector: Float64Array): Row {
  const card = fakeCard(vector);
  return LAYOUT.rowOf(card, rowWords(card));
}

/** Candidates spread over the ranges, the same each time (a Kronecker sequence, by square roots of primes). */
export function fakeVectors(count: number, from = 0): Float64Array[] {
  return Array.from({ length: count }, (_, i) => {
    const [a, b, c] = [2, 3, 5].map((prime) => ((from + i + 1) * Math.sqrt(prime)) % 1);
    return Float64Array.of(40 + 60 * a, 60 * b, Math.floor(2 * c));
  });
}
