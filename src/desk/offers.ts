import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { readStart } from '../disk/read-file.js';
import { compileFigure } from '../figure/figure.js';
import { readFigure } from '../figure/read.js';
import { InputError } from '../figure/text/input-error.js';
import { decimal, withUnit } from '../report/words/numbers.js';
import { END_OF_REMARKS } from '../report/words/tune-words.js';
import { Scorer } from '../score/scorer.js';
import { type Setting, settingsOf } from '../tune/settings.js';
import { type NewValue, withValues } from '../tune/with-values.js';
import type { Offer, Question } from './messages.js';
import type { Places } from './places.js';
import type { SoFar } from './so-far.js';

/** How many of the best are offered. */
const MOST = 8;
/** The best stand first in a table of maybe a million rows: so many bytes of it hold them. */
const MOST_OF_TABLE = 1 << 20;

/** What a command has found that may be tried on: the best dummies of a study, remedies. Best first. */
export function offersIn(what: Question['what'], places: Places): Offer[] {
  if (what === 'explore') return dummiesIn(places);
  return what === 'tune' ? remediesIn(join(places.results, 'remedies')) : [];
}

/** The best of a study: the figure as it is now, its free dims starting where those of the dummy are. */
function dummiesIn({ file, results }: Places): Offer[] {
  const table = join(results, 'ranking.csv');
  if (!existsSync(table)) return [];
  const [head, ...rows] = readStart(table, MOST_OF_TABLE)
    .toString('utf8')
    .split('\n', MOST + 1)
    .filter((line) => line !== '')
    .map(cellsOf);
  const own = ownDims(file);
  const at = (row: readonly string[], name: string) => row[head.indexOf(name)] ?? '';
  const wants = own.figure.wants.map(({ name, unit }) => ({ name, unit }));
  return rows.map((row, i) => ({
    title: `Dummy ${at(row, 'candidate')}`,
    about: [
      `rank ${i + 1}`,
      at(row, 'works') === 'true' ? 'works' : 'does not work',
      ...(at(row, 'desirability') === ''
        ? []
        : [`desirability ${decimal(Number(at(row, 'desirability')), 3)}`]),
      ...wants.flatMap(({ name, unit }) => {
        const value = at(row, `${name} (${unit})`);
        return value === '' ? [] : [`${name} ${withUnit(Number(value), unit)}`];
      }),
    ].join(', '),
    text: own.textWith((name) => at(row, name)),
  }));
}

/** The best dummy of a study that is still running, while the file is what the study is of. */
export function bestSoFar({ best }: Pick<SoFar, 'best'>, { file }: Pick<Places, 'file'>): Offer[] {
  if (best === null) return [];
  const { number, vector, works, desirability } = best;
  try {
    const own = ownDims(file);
    if (vector.length !== own.figure.free.length) return [];
    const values = own.figure.values(vector);
    return [
      {
        title: `Best so far: dummy ${number}`,
        about: `${works ? 'works' : 'does not work'}, desirability ${decimal(desirability, 3)}`,
        text: own.textWith((name) => String(values.get(name) ?? '')),
      },
    ];
  } catch {
    // The file may be gone or broken since the study was begun, which is told elsewhere; the study goes on.
    return [];
  }
}

/** The figure file as it is now, to be written with other values of its free dims. @throws InputError */
function ownDims(file: string) {
  const source = readFigure(file);
  const figure = compileFigure(source);
  const scorer = new Scorer(figure);
  const dims = settingsOf(source, figure).filter(
    ({ place, name }) => place[0] === 'dims' && figure.free.some((dim) => dim.name === name),
  );
  const works = (values: readonly NewValue[]): boolean => {
    const given = new Map(values.map(({ setting, value }) => [setting.name, String(value)]));
    try {
      return scorer.score(figure.vectorFrom(given)).works;
    } catch (error) {
      // A word, say, that the file knows no more.
      if (error instanceof InputError) return false;
      throw error;
    }
  };
  return {
    figure,
    /** @param of the value of a dim in words; empty for one that stays */
    textWith(of: (name: string) => string): string {
      const written = dims.flatMap((setting) => {
        const words = of(setting.name);
        return words === '' ? [] : [{ setting, words }];
      });
      const to = (decimals: number) =>
        written.map(({ setting, words }): NewValue => ({ setting, value: asCut(setting, words, decimals) }));
      const [cut, fine] = [to(CUT), to(FINE)];
      return withValues(source, works(cut) || !works(fine) ? cut : fine);
    },
  };
}

/** Decimals of what is taken over: finer than anybody cuts; and where that would no longer work, as fine as it takes. */
const CUT = 2;
const FINE = 4;

function asCut({ kind, step, bounds }: Setting, words: string, decimals: number): number | string {
  // A spreadsheet's apostrophe is none of the word's.
  if (kind === 'word') return words.replace(/^'(?=[=+\-@])/, '');
  // A step is the maker's own.
  const value = Number(Number(words).toFixed(step === undefined ? decimals : FINE));
  return Math.min(bounds.high, Math.max(bounds.low, value));
}

/** Remedies as tune has written them, without the remarks that it has put before. */
function remediesIn(folder: string): Offer[] {
  if (!existsSync(folder)) return [];
  const files = readdirSync(folder)
    .filter((name) => /^remedy-\d+\.yaml$/.test(name))
    .sort((a, b) => Number(a.replace(/\D/g, '')) - Number(b.replace(/\D/g, '')))
    .slice(0, MOST);
  return files.flatMap((name, i) => {
    const lines = readFileSync(join(folder, name), 'utf8').split('\n');
    const end = lines.indexOf(END_OF_REMARKS);
    if (end < 1) return [];
    const [said, ...about] = lines.slice(0, end);
    return {
      title: `Remedy ${i + 1}: ${said.replace(/^.*by dummyrun tune: /, '').replace(/\.$/, '')}`,
      about: about.map((line) => line.replace(/^# /, '')).join(' '),
      text: lines.slice(end + 1).join('\n'),
    };
  });
}

/** The cells of a line of CSV (RFC 4180) that hold no line ends. */
const cellsOf = (line: string): string[] =>
  Array.from(line.matchAll(/(?:^|,)(?:"((?:[^"]|"")*)"|([^,]*))/g), ([, quoted, plain]) =>
    quoted === undefined ? plain : quoted.replaceAll('""', '"'),
  );
