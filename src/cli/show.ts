import { explained } from '../disk/error.js';
import { writeWhole } from '../disk/files.js';
import { reportPage } from '../report/pages/page.js';
import { reportOf } from '../report/report-of.js';
import { damageInWords, SCORED_BEFORE } from '../report/words/damage.js';
import { StudyFolder } from '../study/folder.js';
import { FINE } from './exit-codes.js';
import { finishedStudy } from './finished-study.js';
import { openFile } from './open-file.js';
import { say, tell } from './print.js';

export interface ShowOptions {
  /** Whether a study will do of which not all is left. */
  damaged: boolean;
  open: boolean;
}

/**
 * Writes the report of a finished study again, from what its folder holds. Of a damaged one it writes another report,
 * beside the good one that may be there.
 * @returns the exit code
 * @throws StudyError for a folder without a finished study, or for a damaged one
 */
export function show(path: string, { damaged, open }: ShowOptions): number {
  // Before the folder is asked for, which would make it.
  finishedStudy(path, damaged);
  try {
    const folder = new StudyFolder(path);
    try {
      const studied = finishedStudy(path, damaged);
      const { damage, earlier } = studied;
      const file = folder.file(damage === null ? 'report.html' : 'report-damaged.html');
      writeWhole(file, reportPage(reportOf(studied), studied.source));
      if (damage !== null) tell(damageInWords(damage));
      if (earlier) tell(SCORED_BEFORE);
      say(file);
      if (open) openFile(file);
      return FINE;
    } finally {
      folder.close();
    }
  } catch (error) {
    throw explained(error, path, 'copy the study to where you may');
  }
}
