import { writeFileSync } from 'node:fs';
import { compileFigure } from '../figure/figure.js';
import { InputError } from '../figure/input-error.js';
import { readFigure } from '../figure/read.js';
import { CannotBuild } from '../motion/cannot-build.js';
import { scorecardInWords } from '../report/words.js';
import { Scorer } from '../score/scorer.js';
import { explained } from '../search/study-error.js';
import { DOES_NOT_WORK, FINE } from './exit-codes.js';

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

function settingsOf(written: readonly string[]): Map<string, string> {
  const settings = new Map<string, string>();
  for (const text of written) {
    const [, dim, value] = /^([^=]*)=(.*)$/s.exec(text) ?? [];
    if (dim === undefined || dim.trim() === '') {
      throw new InputError({
        file: '--set',
        found: `'${text}'`,
        remedy: "write dim=value, such as 'height=32.5'",
      });
    }
    if (settings.has(dim.trim())) {
      throw new InputError({ file: '--set', field: dim.trim(), found: 'it twice', remedy: 'set it once' });
    }
    settings.set(dim.trim(), value);
  }
  return settings;
}

function writePoses(path: string, scorer: Scorer, vector: Float64Array): void {
  try {
    writeFileSync(path, `${JSON.stringify(scorer.poses(vector))}\n`);
  } catch (error) {
    if (!(error instanceof CannotBuild)) throw explained(error, path);
    console.error(`No poses are written: what can't be built doesn't move.`);
  }
}
