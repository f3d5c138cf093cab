import { compileFigure } from '../../src/figure/figure.js';
import { type FigureSource, parseFigure } from '../../src/figure/text/source.js';
import { Scorer } from '../../src/score/scorer.js';
import type { Move } from '../../src/tune/moves.js';
import { Trials } from '../../src/tune/trials.js';
import { type Tuned, type TuneOptions, Tuning } from '../../src/tune/tune.js';

export const NO_OPTIONS: TuneOptions = { hold: [], prices: new Map(), keepGlued: false };

/** Tunes a figure in this thread. */
export async function tuned(
  source: FigureSource,
  options: Partial<TuneOptions> = {},
  budget = 3000,
): Promise<Tuned> {
  const tuning = new Tuning(source, compileFigure(source), { ...NO_OPTIONS, ...options });
  return tuning.run(trialsOf(tuning, budget));
}

/** Trials that score in this thread. */
export function trialsOf(tuning: Tuning, budget: number): Trials {
  const scorer = new Scorer(tuning.opened.figure);
  return new Trials(async function* (batch) {
    for (const vector of batch) yield tuning.layout.rowOf(scorer.score(vector));
  }, budget);
}

/** A move of some numbers, tied to nothing. */
export const moveOf = (steps: Move['steps'], more: Partial<Move> = {}): Move => ({
  steps,
  kind: 'number',
  dims: 1,
  ties: [],
  like: [],
  fitting: [],
  shutting: [],
  ...more,
});

export const figureFrom = (text: string): FigureSource => parseFigure(text, 'figure.yaml');

/** Whether the text of a figure file describes a figure that works as it starts. */
export function textWorks(text: string): boolean {
  const figure = compileFigure(figureFrom(text));
  return new Scorer(figure).score(figure.start).works;
}

/** Changes in words, such as 'mast 72.5 → 40'. */
export const changesOf = ({ changes }: Tuned['remedies'][number]): string[] =>
  changes.map(({ setting, from, to }) => `${setting.name} ${from} → ${to}`);
