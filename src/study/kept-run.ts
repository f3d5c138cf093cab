import { isDeepStrictEqual } from 'node:util';
import { StudyError } from '../disk/error.js';
import type { StudyFolder } from './folder.js';
import type { StudyLog } from './log.js';

/**
 * The log of a run in a folder: of one that was interrupted, to go on with, or a new one.
 * @param heading all on which what is scored depends
 * @throws StudyError when what was left unfinished there is another run than the one asked for
 */
export function keptRun(
  folder: StudyFolder,
  heading: object,
  resume: boolean,
): { log: StudyLog; isOld: boolean } {
  const opened = resume ? folder.openLog() : null;
  if (opened === null) return { log: folder.createLog(heading), isOld: false };
  if (!isDeepStrictEqual(opened.heading, JSON.parse(JSON.stringify(heading)))) {
    opened.log.close();
    throw new StudyError(
      `The unfinished run in ${folder.path} is another one: it was begun with another figure or other options. Start anew without --resume, or choose another folder with --out.`,
    );
  }
  opened.log.cut();
  return { log: opened.log, isOld: true };
}
