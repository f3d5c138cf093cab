import { isDeepStrictEqual } from 'node:util';
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
  const asked = JSON.parse(JSON.stringify(heading));
  const left = resume
    ? folder.leftLog((found) =>
        isDeepStrictEqual(found, asked)
          ? null
          : 'it was begun with another figure, other options or another dummyrun',
      )
    : null;
  return left === null ? { log: folder.createLog(heading), isOld: false } : { log: left.log, isOld: true };
}
