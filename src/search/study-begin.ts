import { readFileSync } from 'node:fs';
import { StudyError } from './study-error.js';
import type { StudyFolder } from './study-folder.js';
import type { StudyLog } from './study-log.js';

/** What a study is of. Where one of these differs, so may every candidate. */
export interface StudySettings {
  /** SHA-256 of the figure as it was understood. */
  figure: string;
  seed: number;
  /** How many candidates are scored in all. */
  samples: number;
  /** Of the program. */
  version: string;
}

/** Seed and samples where the maker gave them. */
export type Given = Partial<Pick<StudySettings, 'seed' | 'samples'>>;

const FORMAT = 'study 1';

/**
 * What an earlier run has left unfinished, to go on with; null when it left nothing.
 * @throws StudyError when it is of another study than the one asked for
 */
export function resumed(
  folder: StudyFolder,
  asked: Pick<StudySettings, 'figure' | 'version'> & Given,
): { log: StudyLog; settings: StudySettings } | null {
  const opened = folder.openLog();
  if (opened === null) return null;
  const settings = settingsIn(opened.heading);
  const different = (how: string) => {
    opened.log.close();
    return new StudyError(
      `The unfinished study in ${folder.path} is another one: ${how}. Start anew without --resume, or choose another folder with --out.`,
    );
  };
  if (settings === null) throw different('it was not written by this program');
  if (settings.version !== asked.version)
    throw different(`it was begun by version ${settings.version}, this is ${asked.version}`);
  if (settings.figure !== asked.figure) throw different('the figure file has changed since');
  for (const name of ['seed', 'samples'] as const)
    if (asked[name] !== undefined && asked[name] !== settings[name])
      throw different(`it was begun with --${name} ${settings[name]}`);
  return { log: opened.log, settings };
}

/** Starts a study anew. What an earlier run left unfinished is dropped. */
export function begun(folder: StudyFolder, settings: StudySettings): StudyLog {
  return folder.createLog({ format: FORMAT, ...settings });
}

/** What `study.json` says of a finished study with these settings; null if the folder has none. */
export function finishedBefore(
  folder: StudyFolder,
  asked: Pick<StudySettings, 'figure'> & Given,
): { works: number } | null {
  let study: Record<string, unknown>;
  try {
    study = JSON.parse(readFileSync(folder.file('study.json'), 'utf8'));
  } catch {
    // None, or none of ours.
    return null;
  }
  const { finished, sha256, seed, samples, works } = study;
  const same =
    sha256 === asked.figure && seed === (asked.seed ?? seed) && samples === (asked.samples ?? samples);
  return finished === true && same && typeof works === 'number' ? { works } : null;
}

function settingsIn(heading: unknown): StudySettings | null {
  if (typeof heading !== 'object' || heading === null) return null;
  const { format, figure, seed, samples, version } = heading as Record<string, unknown>;
  const valid =
    format === FORMAT &&
    typeof figure === 'string' &&
    typeof seed === 'number' &&
    typeof samples === 'number' &&
    typeof version === 'string';
  return valid ? { figure, seed, samples, version } : null;
}
