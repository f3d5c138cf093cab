import { writeWhole } from '../disk/files.js';
import { reportPage } from '../report/pages/page.js';
import { reportOf } from '../report/report-of.js';
import { FINE } from './exit-codes.js';
import { withFinishedStudy } from './finished-study.js';
import { openFile } from './open-file.js';
import { say } from './print.js';

/**
 * Writes the report of a finished study again, from what its folder holds.
 * @returns the exit code
 * @throws StudyError for a folder without a finished study
 */
export function show(path: string, options: { open: boolean }): Promise<number> {
  return withFinishedStudy(path, (studied, folder) => {
    writeWhole(folder.file('report.html'), reportPage(reportOf(studied), studied.source));
    say(folder.file('report.html'));
    if (options.open) openFile(folder.file('report.html'));
    return FINE;
  });
}
