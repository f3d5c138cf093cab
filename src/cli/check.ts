import { writeFileSync } from 'node:fs';
import { compileFigure } from '../figure/figure.js';
import { readFigure } from '../figure/read.js';
import { CannotBuild } from '../motion/cannot-build.js';
import { scorecardInWords } from '../report/words.js';
import { Scorer } from '../score/scorer.js';
import { explained } from '../search/study-error.js';
import { DOES_NOT_WORK, FINE } from './exit-codes.js';
import { settingsOf } from './set-dims.js';

export interface CheckOptions {
  /** `dim=value`, as typed. */
  set: readonly string[];
  json: boolean;
  poses?: string;
}

/**
 * Scores one candidate: the figure as it starts, with dims set by hand.
 * @returns the exit code: whether it works
 * @throws InputError for a figure file or a dim that can't be used
 */
export function check(path: string, options: CheckOptions): number {
  const figure = compileFigure(readFigure(path));
  const vector = figure.vectorFrom(settingsOf(options.set));
  const scorer = new Scorer(figure);
  const card = scorer.score(vector);
  if (options.poses !== undefined) writePoses(options.poses, scorer, vector);
  if (options.json) console.log(JSON.stringify(card, null, 2));
  else console.log(scorecardInWords(figure.name, card, figure.wants).join('\n'));
  return card.works ? FINE : DOES_NOT_WORK;
}

function writePoses(path: string, scorer: Scorer, vector: Float64Array): void {
  try {
    writeFileSync(path, `${JSON.stringify(scorer.poses(vector))}\n`);
  } catch (error) {
    if (!(error instanceof CannotBuild)) throw explained(error, path);
    console.error(`No poses are written: what can't be built doesn't move.`);
  }
}
