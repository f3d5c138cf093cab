import { existsSync, readFileSync } from 'node:fs';
import { compileFigure } from '../figure/figure.js';
import { reportPage } from '../report/page.js';
import { reportOf, type Timings } from '../report/report-of.js';
import { Scorer } from '../score/scorer.js';
import { version } from '../search/root.js';
import { finishedIn } from '../search/study-begin.js';
import { explained, StudyError } from '../search/study-error.js';
import { StudyFolder, writeWhole } from '../search/study-folder.js';
import { Layout } from '../search/study-row.js';
import { StudyTable } from '../search/study-table.js';
import { FINE } from './exit-codes.js';
import { openFile } from './open-file.js';

/**
 * Writes the report of a finished study again, from what its folder holds.
 * @returns the exit code
 * @throws StudyError for a folder without a finished study
 */
export function show(path: string, options: { open: boolean }): number {
  const none = new StudyError(
    `There is no finished study in ${path}. Give a folder that 'dummyrun explore' has written to.`,
  );
  // To ask for the folder would make it.
  if (!existsSync(path)) throw none;
  try {
    const folder = new StudyFolder(path);
    try {
      const html = pageOf(folder);
      if (html === null) throw none;
      writeWhole(folder.file('report.html'), html);
      console.log(folder.file('report.html'));
      if (options.open) openFile(folder.file('report.html'));
      return FINE;
    } finally {
      folder.close();
    }
  } catch (error) {
    throw explained(error, path);
  }
}

function pageOf(folder: StudyFolder): string | null {
  const kept = finishedIn(folder, version());
  if (kept === null) return null;
  const { log, settings, source } = kept;
  try {
    const figure = compileFigure(source);
    const layout = new Layout(new Scorer(figure).score(figure.start));
    const table = new StudyTable(figure.free.length, layout);
    while (table.size < log.size) table.add(log.at(table.size));
    const studied = { source, figure, layout, settings, table, finished: true, timings: timingsIn(folder) };
    return reportPage(reportOf(studied), source);
  } finally {
    log.close();
  }
}

/** How long the study took, as it has noted; null when that is lost. */
function timingsIn(folder: StudyFolder): Timings | null {
  try {
    const { timings } = JSON.parse(readFileSync(folder.file('study.json'), 'utf8'));
    return typeof timings?.seconds === 'number' && typeof timings.workers === 'number' ? timings : null;
  } catch {
    return null;
  }
}
