import { readdirSync, readFileSync, realpathSync, rmSync } from 'node:fs';
import { basename, dirname, join, normalize, sep } from 'node:path';
import { compileFigure, type Figure } from '../figure/figure.js';
import { InputError } from '../figure/input-error.js';
import { readFigure } from '../figure/read.js';
import { type FigureSource, type Json, parseFigure } from '../figure/source.js';
import { motionInWords, remedyInShort } from '../report/tune-words.js';
import { Scorer } from '../score/scorer.js';
import { type Cell, writeCsv } from '../search/csv.js';
import { folderIn, writeWhole } from '../search/files.js';
import type { Tuned } from '../search/tune/tune.js';

const REMEDY = /^remedy-\d+\.yaml$/;

/**
 * Makes sure that the figure file is none of those that will be replaced.
 * @throws InputError for a remedy that is tuned in the folder where it lies
 */
export function mustNotReplace(file: string, folder: string): void {
  if (REMEDY.test(basename(file)) && realpathSync(dirname(file)) === realpathSync(folder))
    throw new InputError({
      file: '--out',
      found: `${folder}, where ${basename(file)} itself lies and would be replaced`,
      remedy: 'choose another folder, or give the figure file another name',
    });
}

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
      motionInWords(tuned, remedy),
    ];
    // The name of the figure file is not the file's own: a line end in it would end the remark.
    const remarks = heading.map((line) => `# ${line.replace(/\p{C}/gu, ' ')}\n`);
    writeWhole(files[i], `${remarks.join('')}${remedy.text}`);
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
      ];
    }),
  );
  return written;
}

const wantHeaders = ({ card }: Tuned): string[] => card.wants.map(({ name, unit }) => `${name} (${unit})`);

/** Outlines from drawings go along, since a figure file looks for them beside itself. Where they are there already, they stay. */
function copyDrawings({ text, file }: FigureSource, folder: string): void {
  const here = dirname(file);
  if (realpathSync(here) === realpathSync(folder)) return;
  for (const svg of drawingsIn(parseFigure(text, file).data)) {
    const steps = dirname(normalize(svg)).split(sep);
    const within = steps.filter((step) => step !== '.').reduce(folderIn, folder);
    writeWhole(join(within, basename(svg)), readFileSync(join(here, svg)));
  }
}

function drawingsIn(value: Json): Set<string> {
  if (typeof value !== 'object' || value === null) return new Set();
  if (!Array.isArray(value) && typeof value.svg === 'string') return new Set([value.svg]);
  return new Set(Object.values(value).flatMap((inner) => [...drawingsIn(inner)]));
}
