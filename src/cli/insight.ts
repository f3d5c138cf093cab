import type { Figure } from '../figure/figure.js';
import { type StudyInsight, studyInsight } from '../insight/study-insight.js';
import { FigureTrials, Stopped } from '../insight/trials.js';
import type { FigurePool } from '../study/figure-pool.js';
import type { Layout } from '../study/row.js';
import type { StudyTable } from '../study/table.js';
import { tell } from './print.js';
import { duration } from './progress.js';

/** How often it is said how far the measuring is, ms. */
const TOLD_EVERY = 10_000;

/**
 * What is left to measure once all is scored; null when it was stopped.
 * @param seconds that scoring takes: measuring asks for about as many dummies; null where that is not known
 */
export async function insightOf(
  study: { figure: Figure; table: StudyTable; layout: Layout },
  seed: number,
  pool: FigurePool,
  stop: AbortSignal,
  seconds: number | null,
  onRobust: (robust: StudyInsight['robust']) => void,
): Promise<StudyInsight | null> {
  const { figure, table, layout } = study;
  const trials = new FigureTrials(pool, layout, stop);
  tell(
    `Measuring how exact the best must be cut, and which dim matters: about as long as scoring${seconds === null ? '' : `, ${duration(seconds)}`} …`,
  );
  const telling = setInterval(
    () => tell(`… with ${trials.count.toLocaleString('en')} dummies more so far`),
    TOLD_EVERY,
  );
  try {
    return await studyInsight(trials, figure, table, layout, seed, onRobust);
  } catch (error) {
    if (error instanceof Stopped) return null;
    throw error;
  } finally {
    clearInterval(telling);
  }
}
