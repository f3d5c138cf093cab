import { join, resolve } from 'node:path';
import { explained } from '../disk/error.js';
import { folderIn, makeFolder, writeWhole } from '../disk/files.js';
import { faultAt } from '../figure/text/check.js';
import { InputError } from '../figure/text/input-error.js';
import { readText } from '../figure/text/read-text.js';
import { MOST_BYTES, parseFigure } from '../figure/text/source.js';
import { CannotBuild } from '../motion/cannot-build.js';
import { whatFails } from '../report/words/what-fails.js';
import { Scorer } from '../score/scorer.js';
import { readPanelArt } from '../sheets/art/read-art.js';
import { type Costs, costsFrom } from '../sheets/costs.js';
import { SheetError } from '../sheets/layout/paper.js';
import { makeSheets } from '../sheets/make-sheets.js';
import type { Base } from '../sheets/settings.js';
import { type Choice, chosenDummy } from './chosen-dummy.js';
import { FINE } from './exit-codes.js';
import { patience } from './patience.js';
import { say } from './print.js';
import type { ChosenDummy } from './ranked-dummy.js';
import { resultsFolder } from './results-folder.js';
import { mustNotStandAlone } from './stands-alone.js';

export interface SheetsCommandOptions extends Choice {
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
  const chosen = await chosenDummy(path, options);
  const { out, make } = placeFor(path, chosen, options.out);
  const { files, summary, warnings } = await made(chosen, path, options);
  const written: string[] = [];
  try {
    make();
    for (const { name, content } of files) {
      written.push(join(out, name));
      writeWhole(join(out, name), content);
    }
  } catch (error) {
    throw explained(error, out);
  }
  const lines = [...summary];
  const before = [...(chosen.study?.remarks ?? []), ...warnings];
  if (before.length > 0) lines.push('', 'Before you cut', ...before.map((warning) => `  ${warning}`));
  lines.push('', 'Files', ...written.map((file) => `  ${file}`));
  say(...lines);
  return FINE;
}

/** Where the files go, and what makes that folder. */
function placeFor(
  path: string,
  { study }: ChosenDummy,
  asked: string | undefined,
): { readonly out: string; readonly make: () => void } {
  if (asked !== undefined) return { out: asked, make: () => makeFolder(resolve(asked)) };
  if (study === null) {
    const out = join(resultsFolder(path), 'sheets');
    return { out, make: () => makeFolder(resolve(out)) };
  }
  const name = `sheets-${study.place}`;
  return { out: join(path, name), make: () => folderIn(path, name) };
}

async function made(
  { source, figure, vector, study }: ChosenDummy,
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
        candidate: study?.name ?? '',
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
