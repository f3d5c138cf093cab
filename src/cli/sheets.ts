import { statSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { explained } from '../disk/error.js';
import { folderIn, makeFolder, writeWhole } from '../disk/files.js';
import { compileFigure, type Figure } from '../figure/figure.js';
import { readFigure } from '../figure/read.js';
import { faultAt } from '../figure/text/check.js';
import { InputError } from '../figure/text/input-error.js';
import { readText } from '../figure/text/read-text.js';
import { type FigureSource, MOST_BYTES, parseFigure } from '../figure/text/source.js';
import { CannotBuild } from '../motion/cannot-build.js';
import { reportOf } from '../report/report-of.js';
import { damageInWords } from '../report/words/damage.js';
import { whatFails } from '../report/words/what-fails.js';
import { Scorer } from '../score/scorer.js';
import { readPanelArt } from '../sheets/art/read-art.js';
import { type Costs, costsFrom } from '../sheets/costs.js';
import { SheetError } from '../sheets/layout/paper.js';
import { makeSheets } from '../sheets/make-sheets.js';
import type { Base } from '../sheets/settings.js';
import { FINE } from './exit-codes.js';
import { finishedStudy } from './finished-study.js';
import { patience } from './patience.js';
import { say } from './print.js';
import { resultsFolder } from './results-folder.js';
import { settingsOf } from './set-dims.js';
import { mustNotStandAlone } from './stands-alone.js';

export interface SheetsCommandOptions {
  set: readonly string[];
  /** Place in the ranking of a study, from 1. */
  rank?: number;
  /** Whether a study will do of which not all is left. */
  damaged: boolean;
  out?: string;
  paper?: string;
  copies?: number;
  /** A file with minutes and prices. */
  costs?: string;
  margin?: number;
  spacing?: number;
  base?: Base;
  behindPage: boolean;
  artTemplates: boolean;
  /** Die-lines and artwork for a printer, with this bleed, mm. */
  printer: boolean;
  bleed?: number;
  spotCut?: string;
  spotCrease?: string;
  spotGlue?: string;
}

/** One dummy to be made, and what to call it. */
interface Chosen {
  readonly source: FigureSource;
  readonly figure: Figure;
  readonly vector: Float64Array;
  readonly candidate: string;
  /** What is damaged of the study that it is of. */
  readonly damage: string | null;
  readonly out: string;
  /** Makes the folder to write to. */
  readonly makeOut: () => void;
}

/**
 * Makes the sheets to cut and the guide to putting them together, for a figure file or for a dummy of a study.
 * @returns the exit code
 * @throws InputError, StudyError
 */
export async function sheets(path: string, options: SheetsCommandOptions): Promise<number> {
  const { printer, bleed, spotCut, spotCrease, spotGlue } = options;
  const forPrinter = {
    '--bleed': bleed,
    '--spot-cut': spotCut,
    '--spot-crease': spotCrease,
    '--spot-glue': spotGlue,
  };
  if (!printer) mustNotStandAlone(forPrinter, '--printer');
  const chosen = choose(path, options);
  const { files, summary, warnings } = await made(chosen, path, options);
  const written: string[] = [];
  try {
    chosen.makeOut();
    for (const { name, content } of files) {
      written.push(join(chosen.out, name));
      writeWhole(join(chosen.out, name), content);
    }
  } catch (error) {
    throw explained(error, chosen.out);
  }
  const lines = [...summary];
  const before = [...(chosen.damage === null ? [] : [damageInWords(chosen.damage)]), ...warnings];
  if (before.length > 0) lines.push('', 'Before you cut', ...before.map((warning) => `  ${warning}`));
  lines.push('', 'Files', ...written.map((file) => `  ${file}`));
  say(...lines);
  return FINE;
}

function choose(path: string, options: SheetsCommandOptions): Chosen {
  if (!isFolder(path)) {
    if (options.rank !== undefined)
      throw new InputError({
        file: '--rank',
        found: `a figure file, ${path}`,
        remedy: 'give the folder of a study, or set dims with --set',
      });
    const source = readFigure(path);
    const figure = compileFigure(source);
    const out = options.out ?? join(resultsFolder(path), 'sheets');
    const vector = figure.vectorFrom(settingsOf(options.set));
    return {
      source,
      figure,
      vector,
      candidate: '',
      damage: null,
      out,
      makeOut: () => makeFolder(resolve(out)),
    };
  }
  if (options.set.length > 0)
    throw new InputError({
      file: '--set',
      found: `a study, ${path}`,
      remedy: 'give the figure file instead, or choose a dummy with --rank',
    });
  const studied = finishedStudy(path, options.damaged);
  const { table, ranking } = reportOf(studied);
  const place = options.rank ?? 1;
  if (place > ranking.length)
    throw new InputError({
      file: '--rank',
      found: String(place),
      remedy: `give a place from 1 to ${ranking.length}`,
    });
  const candidate = ranking[place - 1];
  const name = `sheets-${place}`;
  return {
    source: studied.source,
    figure: studied.figure,
    vector: table.vector(candidate),
    candidate: `dummy ${candidate + 1} of ${studied.damage === null ? 'its study' : 'what is left of its study'}`,
    damage: studied.damage,
    out: options.out ?? join(path, name),
    makeOut: () => (options.out === undefined ? folderIn(path, name) : makeFolder(resolve(options.out))),
  };
}

async function made(
  { source, figure, vector, candidate }: Chosen,
  path: string,
  options: SheetsCommandOptions,
) {
  const { paper, copies, margin, spacing, base, behindPage, printer, bleed } = options;
  const costs = options.costs === undefined ? undefined : readCosts(options.costs);
  const panelArt = readPanelArt(source, figure.art);
  const spots = { cut: options.spotCut, crease: options.spotCrease, glue: options.spotGlue };
  const given = <T extends object>(fields: T) =>
    Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined)) as T;
  try {
    const result = await makeSheets(
      figure.build(vector),
      {
        figure: figure.name,
        candidate,
        failure: whatFails(new Scorer(figure).score(vector)),
        cardOf: (piece) => figure.card.of(piece),
        faceOf: (piece) => figure.faces.get(piece) ?? 'front',
        tabsBehindPage: behindPage,
        art: panelArt.art,
        artTemplates: options.artTemplates,
        ...given({ paper, copies, margin, spacing, base, costs }),
        ...(printer ? { printer: given({ bleed, spots: given(spots) }) } : {}),
      },
      patience('making sheets'),
    );
    return { ...result, warnings: [...panelArt.notes, ...result.warnings] };
  } catch (error) {
    if (error instanceof CannotBuild)
      throw faultAt(source, error.field.split('.'), error.message, 'a dummy that cannot be built');
    if (error instanceof SheetError)
      throw new InputError({ file: path, found: 'sheets that cannot be made', remedy: error.message });
    throw error;
  }
}

/** Minutes and prices from a file. */
function readCosts(path: string): Costs {
  const refuse = (found: string, remedy: string) => new InputError({ file: path, found, remedy });
  return costsFrom(parseFigure(readText(path, MOST_BYTES, refuse), path));
}

function isFolder(path: string): boolean {
  try {
    return statSync(path).isDirectory();
  } catch {
    // Reading it as a figure file will say what is wrong.
    return false;
  }
}
