import type { HeldOut } from '../../search/held-out.js';
import type { Layout } from '../../study/row.js';
import type { StudyTable } from '../../study/table.js';
import { counted } from '../../text/phrases.js';
import { decimal, share } from './numbers.js';

const STAGES: Readonly<Record<string, string>> = {
  own: 'Yours and near it',
  sample: 'Samples',
  evolve: 'Evolution',
  refine: 'Refinement',
};

/** What a stage of the search is called in words. */
export const stageName = (stage: string): string => STAGES[stage] ?? stage;

/** What each stage of the search has gained: how many it scored, the share that works, the best desirability. */
export function stagesInWords(table: StudyTable, layout: Layout, front: number): string[] {
  const stages = new Map<string, { scored: number; works: number; best: number }>();
  for (let candidate = 0; candidate < table.size; candidate++) {
    const name = table.stage(candidate);
    const stage = stages.get(name) ?? { scored: 0, works: 0, best: 0 };
    stages.set(name, stage);
    stage.scored++;
    if (table.outcome(candidate) !== 'works') continue;
    stage.works++;
    stage.best = Math.max(stage.best, layout.desirability(table.numbers(candidate)) || 0);
  }
  const gains = [...stages].map(([name, { scored, works, best }]) => {
    const upTo = works > 0 ? `, desirability up to ${decimal(best, 2)}` : '';
    return `${stageName(name)}: ${share(works, scored)} of ${scored.toLocaleString('en')} work${upTo}.`;
  });
  return front === 0
    ? gains
    : [
        ...gains,
        `The front holds ${counted(front, 'dummy that works', 'dummies that work')}: no other is at least as desirable in every want.`,
      ];
}

/** How far the surrogate can be trusted, on candidates that it had not learnt from. */
export function surrogateInWords(
  { why, heldOut }: { why: string; heldOut: HeldOut | null },
  layout: Layout,
): string {
  if (heldOut === null || heldOut.rows === 0)
    return `The surrogate learnt too little to be checked (${why}).`;
  const [soundness] = heldOut.ordered;
  const fits = layout.wants.flatMap(({ name }, want) => {
    const fit = heldOut.objectives[want];
    return fit === null || fit === undefined ? [] : [`${name} ${decimal(fit, 2)}`];
  });
  const told =
    soundness === null || soundness === undefined
      ? ''
      : `; of two, one that breaks a limit and one that does not, it tells which with odds of ${decimal(soundness, 2)} (0.5 is a coin)`;
  return `The surrogate only chose what to score (${why}). On ${heldOut.rows.toLocaleString('en')} dummies it had not learnt from it explains, as a share of the variance: ${fits.join(', ') || 'nothing that can be told'}${told}.`;
}
