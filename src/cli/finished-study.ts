import { existsSync } from 'node:fs';
import * as z from 'zod';
import { explained, StudyError } from '../disk/error.js';
import { readJson } from '../disk/read-json.js';
import { version } from '../disk/root.js';
import { compileFigure } from '../figure/figure.js';
import { keptInsight } from '../insight/kept-insight.js';
import type { Studied, Timings } from '../report/report-of.js';
import { COMMAND } from '../report/words/command.js';
import { Scorer } from '../score/scorer.js';
import { finishedIn } from '../study/begin.js';
import { StudyFolder } from '../study/folder.js';
import { Layout } from '../study/row.js';
import { StudyTable } from '../study/table.js';

/**
 * Reads a finished study from the folder that `explore` has written, and does something with it while the folder is
 * kept from other runs.
 * @throws StudyError for a folder without a finished study
 */
export async function withFinishedStudy<T>(
  path: string,
  use: (studied: Studied, folder: StudyFolder) => T | Promise<T>,
): Promise<T> {
  const none = new StudyError(
    `There is no finished study in ${path}. Give a folder that '${COMMAND} explore' has written to.`,
  );
  // To ask for the folder would make it.
  if (!existsSync(path)) throw none;
  try {
    const folder = new StudyFolder(path);
    try {
      const studied = studyIn(folder);
      if (studied === null) throw none;
      return await use(studied, folder);
    } finally {
      folder.close();
    }
  } catch (error) {
    throw explained(error, path);
  }
}

function studyIn(folder: StudyFolder): Studied | null {
  const kept = finishedIn(folder, version());
  if (kept === null) return null;
  const { log, settings, source } = kept;
  try {
    const figure = compileFigure(source);
    const layout = new Layout(new Scorer(figure).score(figure.start));
    const table = new StudyTable(figure.free.length, layout);
    while (table.size < log.size) table.add(log.at(table.size));
    const timings = timingsIn(folder);
    const insight = keptInsight(folder, table, layout);
    return { source, figure, layout, settings, table, finished: true, timings, insight };
  } finally {
    log.close();
  }
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
function timingsIn(folder: StudyFolder): Timings | null {
  return readJson(folder.file('study.json'), timed)?.timings ?? null;
}
