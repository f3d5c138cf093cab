import type { Figure } from '../figure/figure.js';
import { InputError } from '../figure/text/input-error.js';
import type { FigureSource } from '../figure/text/source.js';
import { reportOf } from '../report/report-of.js';
import { damageInWords, SCORED_BEFORE } from '../report/words/damage.js';
import { finishedStudy } from './finished-study.js';

/** One dummy. */
export interface ChosenDummy {
  readonly source: FigureSource;
  readonly figure: Figure;
  readonly vector: Float64Array;
  /** Of a study: its place there, what it is called, and what is to be told of the study first; else null. */
  readonly study: {
    readonly place: number;
    readonly name: string;
    readonly remarks: readonly string[];
  } | null;
}

/**
 * The dummy at a place of the ranking of a finished study.
 * @throws InputError, StudyError
 */
export function rankedDummy(path: string, place: number, damaged: boolean): ChosenDummy {
  const studied = finishedStudy(path, damaged);
  const { source, figure, damage, earlier } = studied;
  const { table, ranking } = reportOf(studied);
  if (place > ranking.length)
    throw new InputError({
      file: '--rank',
      found: String(place),
      remedy: `give a place from 1 to ${ranking.length}`,
    });
  const candidate = ranking[place - 1];
  const name = `dummy ${candidate + 1} of ${damage === null ? 'its study' : 'what is left of its study'}`;
  const remarks = [...(damage === null ? [] : [damageInWords(damage)]), ...(earlier ? [SCORED_BEFORE] : [])];
  return { source, figure, vector: table.vector(candidate), study: { place, name, remarks } };
}
