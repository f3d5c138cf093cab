import type { BuiltPart } from './opened.js';

/** How the two sides of one fold stand to its two feet, mm or degrees. */
export interface ShutRelation {
  readonly part: string;
  readonly unit: 'mm' | 'degrees';
  readonly points: 'in' | 'out';
  readonly feet: Pair;
  readonly sides: Pair;
  /** Where its ridge comes to lie when it is shut, by its left side less by its right: it shuts where they agree, at 0. */
  readonly shuts: number;
  /** It lies flat when open at 0, stands above that, and does not reach across its open feet below. */
  readonly open: number;
}

type Pair = readonly [number, number];

/**
 * What must hold of the numbers of V-folds and tents so that they shut.
 *
 * Shut, the two lines on which a V-fold stands lie in one plane, at g₁ and g₂ from the crease and on the same side of it.
 * A ridge that points in lies beyond both: at g₁ + p₁ by the left panel and g₂ + p₂ by the right, so these must be equal;
 * one that points out lies before both, and g₁ − p₁ must equal g₂ − p₂. Open, the lines are g₁ + g₂ apart and the ridge
 * lies between them where p₁ + p₂ is as much. A tent is the same with distances in place of angles. A box and a
 * counter-fold hold to it by themselves. (|p₁ − p₂| = |g₁ − g₂| with the sign that the way it points asks for: with the
 * other one, panels pass through a page. The tests see it in the motion.)
 */
export function shutRelations(parts: readonly BuiltPart[]): ShutRelation[] {
  return parts.flatMap(({ name: part, kind, fields }) => {
    const { glue: feet, panels, widths, points } = fields as FoldFields;
    const sides = kind === 'v-fold' ? panels : kind === 'parallel-fold' ? widths : undefined;
    if (sides === undefined) return [];
    const way = points === 'in' ? 1 : -1;
    const ridge = (i: 0 | 1) => feet[i] + way * sides[i];
    return [
      {
        part,
        unit: kind === 'v-fold' ? 'degrees' : 'mm',
        points,
        feet,
        sides,
        shuts: ridge(0) - ridge(1),
        open: sides[0] + sides[1] - feet[0] - feet[1],
      },
    ];
  });
}

interface FoldFields {
  readonly glue: Pair;
  readonly panels?: Pair;
  readonly widths?: Pair;
  readonly points: 'in' | 'out';
}
