import { readFileSync } from 'node:fs';
import type { FigureSource } from '../figure/source.js';
import { StudyError } from './study-error.js';
import type { StudyFolder } from './study-folder.js';
import type { StudyLog } from './study-log.js';
import { SEARCH_WAYS, type SearchWay } from './study-search.js';

/** What a study is of. Where one of these differs, so may every candidate. */
export interface StudySettings {
  /** SHA-256 of the figure as it was understood. */
  figure: string;
  seed: number;
  /** How many candidates are scored in all; null when it is time that ends the study. */
  samples: number | null;
  search: SearchWay;
  /** The backend of TensorFlow.js on which a surrogate computes: another's results are other bytes. */
  backend: string | null;
  /** Of the program. */
  version: string;
}

/** Seed, samples and way to search, where the maker gave them. */
export type Given = Partial<Pick<StudySettings, 'seed' | 'samples' | 'search'>>;

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
  for (const name of ['seed', 'samples', 'search'] as const)
    if (asked[name] !== undefined && asked[name] !== settings[name])
      throw different(`it was begun with --${name} ${settings[name]}`);
  opened.log.cut();
  return { log: opened.log, settings };
}

/**
 * Starts a study anew. What an earlier run left unfinished is dropped.
 * @param source kept with it, so that the study can be shown again without the figure file
 */
export function begun(folder: StudyFolder, settings: StudySettings, source: FigureSource): StudyLog {
  return folder.createLog({ format: FORMAT, ...settings, source });
}

/**
 * A finished study, to be shown again; null when the folder holds none.
 * @throws StudyError when another version has made it, whose numbers may mean something else
 */
export function finishedIn(
  folder: StudyFolder,
  version: string,
): { log: StudyLog; settings: StudySettings; source: FigureSource } | null {
  const opened = folder.openKeptLog();
  if (opened === null) return null;
  const { log, heading } = opened;
  const settings = settingsIn(heading);
  const source = sourceIn(heading);
  if (settings !== null && source !== null && settings.version === version && log.size > 0)
    return { log, settings, source };
  log.close();
  if (settings === null || source === null || log.size === 0) return null;
  throw new StudyError(
    `The study in ${folder.path} was made by version ${settings.version}, this is ${version}. Explore the figure again.`,
  );
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
  const { finished, sha256, seed, samples, search, works } = study;
  const same =
    sha256 === asked.figure &&
    seed === (asked.seed ?? seed) &&
    samples === (asked.samples ?? samples) &&
    search === (asked.search ?? search);
  return finished === true && same && typeof works === 'number' ? { works } : null;
}

function settingsIn(heading: unknown): StudySettings | null {
  if (typeof heading !== 'object' || heading === null) return null;
  const { format, figure, seed, samples, version, search, backend } = heading as Record<string, unknown>;
  const valid =
    format === FORMAT &&
    typeof figure === 'string' &&
    typeof seed === 'number' &&
    (typeof samples === 'number' || samples === null) &&
    (typeof backend === 'string' || backend === null) &&
    SEARCH_WAYS.some((way) => way === search) &&
    typeof version === 'string';
  return valid ? { figure, seed, samples, version, search: search as SearchWay, backend } : null;
}

/** The figure that a study is of. Its data are checked where they are understood. */
function sourceIn(heading: unknown): FigureSource | null {
  if (typeof heading !== 'object' || heading === null || !('source' in heading)) return null;
  const { source } = heading;
  if (typeof source !== 'object' || source === null) return null;
  const { file, text, data, marks } = source as Record<string, unknown>;
  const valid =
    typeof file === 'string' &&
    typeof text === 'string' &&
    data !== undefined &&
    typeof marks === 'object' &&
    marks !== null;
  return valid ? (source as FigureSource) : null;
}
