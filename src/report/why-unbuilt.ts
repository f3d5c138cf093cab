import type { Figure } from '../figure/figure.js';
import { Scorer } from '../score/scorer.js';
import type { StudyTable } from '../study/table.js';
import { whatFails } from './words/what-fails.js';

/** Why candidates can't be built, as one of them says it, and how many say the like. */
export interface Hindrance {
  readonly reason: string;
  readonly count: number;
}

/** More candidates than this are not asked: the reasons repeat. */
const ASKED = 200;

/**
 * Why those of a study that could not be built could not, the most frequent reason first. A study's table keeps no words,
 * so the first few hundred are built again.
 */
export function whyUnbuilt(figure: Figure, table: StudyTable, candidates: readonly number[]): Hindrance[] {
  const scorer = new Scorer(figure);
  const kinds = new Map<string, { reason: string; count: number }>();
  const unbuilt = candidates.filter((candidate) => table.outcome(candidate) === 'not built');
  for (const candidate of unbuilt.slice(0, ASKED)) {
    const card = scorer.score(table.vector(candidate));
    if (card.cannotBuild === null) continue;
    // Alike but for their measures.
    const kind = whatFails(card) ?? '';
    const known = kinds.get(kind);
    if (known) known.count++;
    else kinds.set(kind, { reason: card.cannotBuild, count: 1 });
  }
  return [...kinds.values()].sort((a, b) => b.count - a.count);
}
