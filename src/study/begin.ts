import { basename, join } from 'node:path';
import * as z from 'zod';
import { StudyError } from '../disk/error.js';
import { hashOfFile } from '../disk/read-file.js';
import { readJson } from '../disk/read-json.js';
import { quoted } from '../figure/text/input-error.js';
import { type FigureSource, isFigureData, type Json } from '../figure/text/source.js';
import { KEPT_LOG, type StudyFolder } from './folder.js';
import { type Opened, StudyLog } from './log.js';
import { SEARCH_WAYS, type SearchWay } from './search-way.js';

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
  /** Of what it is scored by, see `scoringHash`; empty where it was begun before that was kept. */
  scoring: string;
}

/** Seed, samples and way to search, where the maker gave them. */
export type Given = Partial<Pick<StudySettings, 'seed' | 'samples' | 'search'>>;

/** What a study that is gone on with must be of. */
type Asked = Pick<StudySettings, 'figure' | 'version' | 'scoring'> & Given;

/** Of the first format no last line tells how many candidates there are. */
const FORMATS = ['study 1', 'study 2'] as const;

/**
 * What an earlier run has left unfinished, to go on with; null when it left nothing.
 * @throws StudyError when it is of another study than the one asked for
 */
export function resumed(
  folder: StudyFolder,
  asked: Asked,
): { log: StudyLog; settings: StudySettings } | null {
  const opened = folder.leftLog((heading) => otherThan(asked, settingsIn(heading)));
  const settings = settingsIn(opened?.heading);
  return opened === null || settings === null ? null : { log: opened.log, settings };
}

/** In what way a study with these settings is another one than the one asked for; null where it is the same. */
function otherThan(asked: Asked, settings: StudySettings | null): string | null {
  if (settings === null) return 'it was not written by this program';
  if (settings.version !== asked.version)
    return `it was begun by version ${quoted(settings.version)}, this is ${asked.version}`;
  if (settings.figure !== asked.figure) return 'the figure file is another, or has changed since';
  for (const name of ['seed', 'samples', 'search'] as const)
    if (asked[name] !== undefined && asked[name] !== settings[name])
      return settings[name] === null
        ? 'it was begun with --for'
        : `it was begun with --${name} ${settings[name]}`;
  return settings.scoring === asked.scoring
    ? null
    : 'an earlier dummyrun has scored it, or another build of this one';
}

/**
 * Starts a study anew. What an earlier run left unfinished is dropped.
 * @param source kept with it, so that the study can be shown again without the figure file
 */
export function begun(folder: StudyFolder, settings: StudySettings, source: FigureSource): StudyLog {
  return folder.createLog({ format: FORMATS[1], ...settings, source });
}

/** A finished study as its folder holds it. */
export interface Finished {
  readonly log: StudyLog;
  readonly settings: StudySettings;
  readonly source: FigureSource;
  /** In what way it is not the one that was written, if so: a part of it may be gone, or changed. */
  readonly damage: string | null;
}

/**
 * A finished study, to be shown again; null when the folder holds none. Reads only: it may lie where nothing can be
 * written, or where another study is being written.
 * @throws StudyError when another version has made it, whose numbers may mean something else
 */
export function finishedIn(folder: string, version: string): Finished | null {
  const opened = StudyLog.read(join(folder, KEPT_LOG));
  if (opened === null) return null;
  const { log, heading } = opened;
  const settings = settingsIn(heading);
  const source = sourceIn(heading);
  if (settings !== null && source !== null && settings.version === version && log.size > 0)
    return { log, settings, source, damage: damageOf(opened, folder) };
  log.close();
  if (settings === null || source === null || log.size === 0) return null;
  throw new StudyError(
    `The study in ${folder} was made by version ${quoted(settings.version)}, this is ${version}. Explore the figure again.`,
  );
}

function damageOf({ log, heading, end, isWhole }: Opened, folder: string): string | null {
  const left = log.size.toLocaleString('en');
  if (end === null) {
    const scored = readJson(join(folder, 'study.json'), z.object({ scored: z.int() }))?.scored;
    const isOld = z.object({ format: z.literal(FORMATS[0]) }).safeParse(heading).success;
    if (isOld && scored === log.size) return null;
    return scored === undefined || scored === log.size
      ? `what is left of ${KEPT_LOG} does not say how many dummies there were, and ${left} can be read`
      : `of ${scored.toLocaleString('en')} dummies ${left} can be read`;
  }
  if (end.scored !== log.size) return `of ${end.scored.toLocaleString('en')} dummies ${left} can be read`;
  if (!isWhole) return `${KEPT_LOG} has been changed since it was written`;
  for (const [name, hash] of Object.entries(end.files))
    if (hashOfFile(join(folder, basename(name))) !== hash)
      return `${basename(name)} is not the one that was written with it`;
  return null;
}

const finishedStudy = z.object({
  finished: z.literal(true),
  figure: z.string(),
  file: z.string(),
  sha256: z.string(),
  seed: z.number(),
  samples: z.number().nullable(),
  search: z.enum(SEARCH_WAYS),
  versions: z.object({ dummyrun: z.string(), scoring: z.string().default('') }),
  works: z.number(),
});

/**
 * What `study.json` says of a finished study with these settings; null if the folder has none.
 * @throws StudyError when it holds another one: who asks to go on does not ask for it to be replaced
 */
export function finishedBefore(folder: StudyFolder, asked: Asked): { works: number } | null {
  const study = readJson(folder.file('study.json'), finishedStudy);
  if (study === null) return null;
  const { sha256, figure, file, works, versions, ...given } = study;
  const { dummyrun, scoring } = versions;
  const how = otherThan(asked, { ...given, figure: sha256, version: dummyrun, scoring, backend: null });
  if (how === null) return { works };
  throw new StudyError(
    `${folder.path} holds a finished study of ${quoted(figure)} (${quoted(file)}), and it is not the one asked for: ${how}. Start anew without --resume, which replaces it, or choose another folder with --out.`,
  );
}

const settings: z.ZodType<StudySettings> = z.object({
  figure: z.string(),
  seed: z.number(),
  samples: z.number().nullable(),
  search: z.enum(SEARCH_WAYS),
  backend: z.string().nullable(),
  version: z.string(),
  scoring: z.string().default(''),
});

function settingsIn(heading: unknown): StudySettings | null {
  return (
    z
      .object({ format: z.enum(FORMATS) })
      .and(settings)
      .safeParse(heading).data ?? null
  );
}

const place = z.number();
/** The figure that a study is of. Its data are checked where they are understood. */
const source: z.ZodType<FigureSource> = z.object({
  file: z.string(),
  text: z.string(),
  data: z.custom<Json>((data) => isFigureData(data)),
  marks: z.record(z.string(), z.tuple([place, place, place, place])),
});

function sourceIn(heading: unknown): FigureSource | null {
  return z.object({ source }).safeParse(heading).data?.source ?? null;
}
