import { existsSync, readdirSync, realpathSync, rmSync } from 'node:fs';
import { basename, dirname, join, normalize, sep } from 'node:path';
import { type Cell, writeCsv } from '../disk/csv.js';
import { folderIn, writeWhole } from '../disk/files.js';
import { hashOfFile, readStart } from '../disk/read-file.js';
import { compileFigure, type Figure } from '../figure/figure.js';
import { drawingsOf, MOST_PNG_BYTES, MOST_SVG_BYTES, readFigure } from '../figure/read.js';
import { InputError } from '../figure/text/input-error.js';
import type { FigureSource } from '../figure/text/source.js';
import {
  costsInWords,
  END_OF_REMARKS,
  handInRemedy,
  motionInWords,
  remedyInShort,
} from '../report/words/tune-words.js';
import { Scorer } from '../score/scorer.js';
import { headed } from '../study/row.js';
import { plainText } from '../text/plain-text.js';
import type { Tuned } from '../tune/tune.js';

/** What tune writes last, for programs. */
export const TUNED = 'tune.json';
const REMEDY = /^remedy-\d+\.yaml$/;

/**
 * Makes sure that nothing of the maker's is replaced: neither the figure file, nor a drawing that only has the name of
 * one of the figure's.
 * @throws InputError for a remedy that is tuned in the folder where it lies, and for another drawing there
 */
export function mustNotReplace(source: FigureSource, folder: string): void {
  const { file } = source;
  if (liesIn(folder, file)) {
    if (!REMEDY.test(basename(file))) return;
    throw new InputError({
      file: '--out',
      found: `${folder}, where ${basename(file)} itself lies and would be replaced`,
      remedy: 'choose another folder, or give the figure file another name',
    });
  }
  // Where an earlier tune has written, the drawings are its own copies.
  if (existsSync(join(folder, TUNED))) return;
  for (const svg of drawingsOf(source)) {
    const [there, here] = [join(folder, svg), join(dirname(file), svg)];
    if (existsSync(there) && !isSame(there, here))
      throw new InputError({
        file: '--out',
        found: `${folder}, where another drawing is called ${svg}`,
        remedy: `choose another folder, or take that drawing away: remedies need ${here} there`,
      });
  }
}

/** Whether two drawings are the same; what is no plain file is none. */
const isSame = (there: string, here: string): boolean => hashOfFile(there) === hashOfFile(here);

const liesIn = (folder: string, file: string): boolean =>
  realpathSync(dirname(file)) === realpathSync(folder);

/**
 * Writes each remedy as a figure file, best first, and `changes.csv`, the list of all changes. Each file is then read
 * and scored anew: what is offered works as it stands there.
 * @returns the figure files, and the figures that they are
 */
export async function writeRemedies(
  folder: string,
  source: FigureSource,
  tuned: Tuned,
): Promise<{ file: string; figure: Figure }[]> {
  // Those of an earlier run are not remedies of this figure any more.
  for (const name of readdirSync(folder)) if (REMEDY.test(name)) rmSync(join(folder, name));
  const files = tuned.remedies.map((_, i) => join(folder, `remedy-${i + 1}.yaml`));
  copyDrawings(source, folder);
  const written: { file: string; figure: Figure }[] = [];
  for (const [i, remedy] of tuned.remedies.entries()) {
    const heading = [
      `Remedy ${i + 1} for ${source.file}, by dummyrun tune: ${remedyInShort(remedy)}.`,
      ...costsInWords(remedy),
      motionInWords(tuned, remedy),
      ...handInRemedy(remedy),
    ];
    // The name of the figure file is not the file's own: a line end in it would end the remark.
    const remarks = heading.map((line) => `# ${plainText(line, ' ')}\n`);
    // An empty remark ends them: what comes then is the figure's own, as the desk takes it over.
    writeWhole(files[i], `${remarks.join('')}${END_OF_REMARKS}\n${remedy.text}`);
    const figure = compileFigure(readFigure(files[i]));
    if (!new Scorer(figure).score(figure.start).works)
      throw new Error(`${files[i]} does not work as it is written, though ${remedyInShort(remedy)} did`);
    written.push({ file: files[i], figure });
  }
  await writeCsv(
    join(folder, 'changes.csv'),
    ['remedy', 'file', 'dim', 'from', 'to', 'unit', 'dims changed (price)', ...wantHeaders(tuned)],
    tuned.remedies.flatMap((remedy, i) => {
      const row = (name: string, from: Cell, to: Cell, unit: string): Cell[] => [
        i + 1,
        `remedy-${i + 1}.yaml`,
        name,
        from,
        to,
        unit,
        remedy.cost.price,
        ...remedy.card.wants.map(({ value }) => value),
      ];
      return [
        ...remedy.changes.map(({ setting, from, to }) => row(setting.name, from, to, setting.unit)),
        ...remedy.cuts.map(({ panel, area }) =>
          row(`cut off ${panel}`, 0, Math.round(100 * area) / 100, 'mm²'),
        ),
        ...(remedy.stiffener === null
          ? []
          : [
              row(
                `glued on ${remedy.stiffener.on}`,
                0,
                remedy.stiffener.size[0] * remedy.stiffener.size[1],
                'mm²',
              ),
            ]),
      ];
    }),
  );
  return written;
}

const wantHeaders = ({ card }: Tuned): string[] => card.wants.map(headed);

/** Drawings of outlines and of art go along, since a figure file looks for them beside itself. `mustNotReplace` has made sure. */
function copyDrawings(source: FigureSource, folder: string): void {
  for (const svg of drawingsOf(source)) {
    const steps = dirname(normalize(svg)).split(sep);
    const here = join(dirname(source.file), svg);
    // In the figure's own folder it is that very file.
    const there = join(folder, svg);
    if (existsSync(there) && isSame(there, here)) continue;
    const within = steps.filter((step) => step !== '.').reduce(folderIn, folder);
    writeWhole(
      join(within, basename(svg)),
      readStart(here, /\.png$/i.test(svg) ? MOST_PNG_BYTES : MOST_SVG_BYTES),
    );
  }
}
