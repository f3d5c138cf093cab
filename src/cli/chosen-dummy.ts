import { statSync } from 'node:fs';
import { compileFigure } from '../figure/figure.js';
import { readFigure } from '../figure/read.js';
import { InputError } from '../figure/text/input-error.js';
import type { ChosenDummy } from './ranked-dummy.js';
import { settingsOf } from './set-dims.js';

/** How a dummy is chosen: by dims of a figure file, or by its place in a study. */
export interface Choice {
  /** `dim=value`, as typed. */
  readonly set: readonly string[];
  /** Place in the ranking of a study, from 1. */
  readonly rank?: number;
  /** Whether a study will do of which not all is left. */
  readonly damaged: boolean;
}

/**
 * The dummy that a maker asks for.
 * @param path a figure file, or the folder of a study
 * @throws InputError, StudyError
 */
export async function chosenDummy(path: string, { set, rank, damaged }: Choice): Promise<ChosenDummy> {
  if (!isFolder(path)) {
    if (rank !== undefined)
      throw new InputError({
        file: '--rank',
        found: `a figure file, ${path}`,
        remedy: 'give the folder of a study, or set dims with --set',
      });
    const source = readFigure(path);
    const figure = compileFigure(source);
    return { source, figure, vector: figure.vectorFrom(settingsOf(set)), study: null };
  }
  if (set.length > 0)
    throw new InputError({
      file: '--set',
      found: `a study, ${path}`,
      remedy: 'give the figure file instead, or choose a dummy with --rank',
    });
  // Loaded when it is asked for: a figure file needs nothing of it.
  const { rankedDummy } = await import('./ranked-dummy.js');
  return rankedDummy(path, rank ?? 1, damaged);
}

function isFolder(path: string): boolean {
  try {
    return statSync(path).isDirectory();
  } catch {
    // Reading it as a figure file will say what is wrong.
    return false;
  }
}
