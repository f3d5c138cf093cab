import { join } from 'node:path';
import * as z from 'zod';
import { StudyError } from '../disk/error.js';
import { readJson } from '../disk/read-json.js';
import { scoringHash, version } from '../disk/root.js';
import { compileFigure, type Figure } from '../figure/figure.js';
import { quoted } from '../figure/text/input-error.js';
import { keptInsight } from '../insight/kept-insight.js';
import type { Studied, Timings } from '../report/report-of.js';
import { COMMAND } from '../report/words/command.js';
import { Scorer } from '../score/scorer.js';
import { finishedIn } from '../study/begin.js';
import type { StudyLog } from '../study/log.js';
import { Layout } from '../study/row.js';
import { StudyTable } from '../study/table.js';

/**
 * Reads a finished study from the folder that `explore` has written. Writes nothing there.
 * @param damaged whether it will do if a part of it is gone or changed
 * @throws StudyError for a folder without a finished study, or for a damaged one
 */
export function finishedStudy(
  path: string,
  damaged: boolean,
): Studied & { damage: string | null; earlier: boolean } {
  const kept = finishedIn(path, version());
  if (kept === null)
    throw new StudyError(
      `There is no finished study in ${/^\.*$/.test(path) ? quoted(path) : path}. Give a folder that '${COMMAND} explore' has written to.`,
    );
  const { log, settings, source, damage } = kept;
  try {
    if (damage !== null && !damaged)
      throw new StudyError(
        `The study in ${path} is damaged: ${damage}. Explore the figure again, or give --damaged to use what is left: its best may be another dummy.`,
      );
    const figure = compileFigure(source);
    const layout = layoutOf(figure, path, log);
    const table = StudyTable.of(log, figure.free.length, layout);
    mustBeOf(figure, table);
    // What was measured is of the study as it was.
    const insight = damage === null ? keptInsight(path, table, layout) : null;
    const timings = timingsIn(path);
    const earlier = settings.scoring !== scoringHash();
    return { source, figure, layout, settings, table, finished: true, timings, insight, damage, earlier };
  } finally {
    log.close();
  }
}

/** Near enough to the end of a range: what was stepped there by arithmetic. */
const HAIR = 1e-9;

/** @throws StudyError for a dummy that the figure does not allow: a stranger may have made the folder */
function mustBeOf({ free }: Figure, table: StudyTable): void {
  const isWithin = (value: number, i: number) => {
    const dim = free[i];
    if (dim.kind === 'choice') return Number.isInteger(value) && value >= 0 && value < dim.options.length;
    const slack = HAIR * (1 + Math.abs(value));
    return value >= dim.min - slack && value <= dim.max + slack;
  };
  for (let candidate = 0; candidate < table.size; candidate++)
    if (!table.vector(candidate).every(isWithin))
      throw new StudyError(
        `Candidate ${candidate + 1} of the study has dims that its figure does not allow. Explore the figure again.`,
      );
}

const limits = z.object({ limits: z.array(z.object({ name: z.string(), unit: z.string() })) });

/** Of the limits that there were when it was explored: more have come since. */
function layoutOf(figure: Figure, path: string, log: StudyLog): Layout {
  const { wants, limits: today } = new Scorer(figure).score(figure.start);
  const layout = new Layout({ wants, limits: today });
  if (log.at(0).row.met.length === wants.length + today.length) return layout;
  const then = readJson(join(path, 'study.json'), limits)?.limits;
  return then === undefined ? layout : new Layout({ wants, limits: then });
}

const timed: z.ZodType<{ timings: Timings }> = z.object({
  timings: z.object({
    startedAt: z.string(),
    seconds: z.number(),
    workers: z.number(),
    scoredInThisRun: z.number(),
  }),
});

/** How long the study took, as it has noted; null when that is lost. */
function timingsIn(folder: string): Timings | null {
  return readJson(join(folder, 'study.json'), timed)?.timings ?? null;
}
