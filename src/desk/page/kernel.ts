import { EditFault } from '../../edit/edit-fault.js';
import { writtenParts } from '../../edit/mentions.js';
import {
  type MovedNumbers,
  type MoveFinding,
  moveNumber,
  type NewNumber,
  withNumbers,
} from '../../edit/move-number.js';
import { moveTied, type Ties, tiesNow, tiesOf } from '../../edit/tied.js';
import { BuiltFigure } from '../../figure/built.js';
import { compileFigure, type Figure } from '../../figure/figure.js';
import { valueAt } from '../../figure/text/check.js';
import { InputError, type Path } from '../../figure/text/input-error.js';
import type { FigureSource, Json } from '../../figure/text/source.js';
import { CannotBuild } from '../../motion/cannot-build.js';
import { NO_ART } from '../../report/live/data.js';
import { printedOn } from '../../report/live/printed-on.js';
import { settingsOf } from '../../tune/settings.js';
import type { Drawings } from '../messages.js';
import { catchesOf } from './catches-of.js';
import { flatPiecesOf } from './flat-pieces.js';
import { handlesOf } from './handles.js';
import type { Place } from './place.js';
import { placesOn } from './places-on.js';
import { readText } from './read-text.js';
import type { FlatSent, RestSent } from './sent.js';
import type { Candidate } from './shown.js';
import type { Starter } from './starters.js';
import { startersOn } from './tried-starters.js';

/** One text of the figure, and all that a page wants to know of it. */
export class Kernel {
  #file = '';
  #drawings: Drawings = {};
  #source: FigureSource | null = null;
  #figure: Figure | null = null;
  #ties: Ties | null = null;
  /** Those that drags go by, and the text for which they were found. */
  #held: { readonly ties: Ties; readonly of: FigureSource } | null = null;
  #heldNow: Ties | null | undefined;
  #built: BuiltFigure | null | undefined;
  /** The figure with numbers of its parts made dims, those that were changed last. */
  #loose: { readonly key: string; readonly figure: Loose } | null = null;
  /** The last that could be built. */
  #lastBuilt: { readonly built: BuiltFigure; readonly parts: string } | null = null;

  /** The how-manieth text it is, as the page counts. */
  reading = 0;

  /** @throws InputError */
  read(text: string, file: string, drawings: Drawings, reading = 0): void {
    this.reading = reading;
    this.#file = file;
    this.#drawings = drawings;
    this.#source = this.#figure = this.#ties = this.#loose = null;
    this.#heldNow = this.#built = undefined;
    this.#source = readText(text, file, drawings);
    this.#figure = compileFigure(this.#source);
  }

  /**
   * The figure with some numbers changed. It is understood anew only where other numbers are changed than the time before:
   * each of these is made a dim. @throws InputError
   */
  changed(changes: readonly NewNumber[]): Candidate {
    const others = changes.filter(({ path }) => path[0] !== 'dims');
    const { figure, names, vector } = others.length === 0 ? this.#asRead() : this.#loosened(others);
    const other = vector.slice();
    for (const { path, value } of changes) {
      const place = names.indexOf(path[0] === 'dims' ? String(path[1]) : dragged(path));
      if (place >= 0) other[place] = value;
    }
    return { figure, vector: other };
  }

  #asRead(): Loose {
    return looseOf(this.figure, this.source);
  }

  #loosened(others: readonly NewNumber[]): Loose {
    const { source } = this;
    const key = JSON.stringify(others.map(({ path }) => path));
    if (this.#loose?.key === key) return this.#loose.figure;
    const own = (valueAt(source, ['dims']) ?? {}) as { [name: string]: Json };
    const added = Object.fromEntries(others.map(({ path, value }) => [dragged(path), value]));
    const data = others.reduce(
      (all, { path }) => replaced(all, path, dragged(path)),
      replaced(source.data, ['dims'], { ...own, ...added }),
    );
    try {
      const loose = { ...source, data };
      const figure = looseOf(compileFigure(loose), loose);
      this.#loose = { key, figure };
      return figure;
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      // Some must be plain numbers.
      const plain = {
        ...source,
        data: others.reduce((all, { path, value }) => replaced(all, path, value), source.data),
      };
      return looseOf(compileFigure(plain), plain);
    }
  }

  get source(): FigureSource {
    if (this.#source === null) throw new EditFault('the file has a fault that must be mended first');
    return this.#source;
  }

  get figure(): Figure {
    if (this.#figure === null) throw new EditFault('the file has a fault that must be mended first');
    return this.#figure;
  }

  findTies(): Ties {
    this.#ties ??= tiesOf(this.source);
    return this.#ties;
  }

  /** Takes what moves with what in this text from another kernel. */
  hold(ties: Ties): void {
    this.#held = { ties, of: this.source };
    this.#heldNow = ties;
  }

  /**
   * What makes fields come to values while they are dragged: with what was tied to them when that was last found out,
   * which takes too long to be waited for.
   */
  dragged(paths: readonly Path[], values: readonly number[]): MovedNumbers {
    const { source } = this;
    const held = this.#held;
    if (this.#heldNow === undefined) this.#heldNow = held && tiesNow(held.ties, held.of, source);
    const ties = this.#heldNow;
    return all(
      paths.map((path, i) =>
        ties === null
          ? moveNumber(source, path, values[i], this.built())
          : moveTied(ties, source, path, values[i], this.built()),
      ),
    );
  }

  /** The text in which fields come to values, with what is tied to them. A later one counts where two want one number. */
  placed(
    paths: readonly Path[],
    values: readonly number[],
  ): { readonly text: string; readonly findings: readonly MoveFinding[] } {
    const { source } = this;
    const ties = this.findTies();
    const { changes, findings } = all(
      paths.map((path, i) => moveTied(ties, source, path, values[i], this.built())),
    );
    return { findings, text: withNumbers(source, changes) };
  }

  rest(id: number): RestSent {
    const { source, figure, reading } = this;
    const built = this.built();
    const grasped = this.#grasped();
    return {
      tell: 'rest',
      id,
      reading,
      settings: settingsOf(source, figure),
      catches: catchesOf(figure),
      handles: grasped === null ? [] : handlesOf(source, grasped),
      places: built === null ? [] : placesOn(source, built),
      printed: built === null ? [] : printedOn(built.assembly, figure, this.#drawings.art ?? NO_ART),
      on: built === null ? [] : built.assembly.panels.map(({ name }) => name),
    };
  }

  flat(id: number): FlatSent {
    const built = this.built();
    const { reading } = this;
    return {
      tell: 'flat',
      id,
      reading,
      pieces: built === null ? [] : flatPiecesOf(this.figure, built.assembly),
    };
  }

  /** The figure built as it starts, to be asked; null where it cannot be built. */
  built(): BuiltFigure | null {
    if (this.#built === undefined) this.#built = this.#build();
    return this.#built;
  }

  #build(): BuiltFigure | null {
    try {
      return new BuiltFigure(this.source, this.figure.build(this.figure.start));
    } catch (error) {
      if (error instanceof CannotBuild) return null;
      throw error;
    }
  }

  /** What handles lie on: where it cannot be built, what the same parts were before, so that it can be dragged back. */
  #grasped(): BuiltFigure | null {
    const built = this.built();
    const parts = JSON.stringify(writtenParts(this.source).map(({ name, kind }) => [name, kind]));
    if (built !== null) this.#lastBuilt = { built, parts };
    return this.#lastBuilt?.parts === parts ? this.#lastBuilt.built : null;
  }

  /** The parts that can stand somewhere, each where it is pointed to and as large as it fits and works, with a picture. */
  starters(place: Place): Starter[] {
    const read = (text: string) => readText(text, this.#file, this.#drawings);
    return startersOn(place, this.source, this.figure, read);
  }
}

/** A figure, the names of its dims that may change, and what they are: the free ones, then the fixed ones. */
interface Loose {
  readonly figure: Figure;
  readonly names: readonly string[];
  readonly vector: Float64Array;
}

function looseOf(figure: Figure, source: FigureSource): Loose {
  const dims = Object.entries((valueAt(source, ['dims']) ?? {}) as { [name: string]: Json });
  const fixed = dims.flatMap(([name, value]) => (typeof value === 'number' ? [{ name, value }] : []));
  return {
    figure,
    names: [...figure.free, ...fixed].map(({ name }) => name),
    vector: Float64Array.from([...figure.start, ...fixed.map(({ value }) => value)]),
  };
}

/** The name of the dim that a number becomes while it is dragged. */
const dragged = (path: Path): string => `dragged_${path.join('_').replace(/[^\p{L}\p{Nd}]/gu, '_')}`;

function all(moves: readonly MovedNumbers[]): MovedNumbers {
  return {
    changes: moves.flatMap(({ changes }) => changes),
    findings: moves.flatMap(({ findings }) => findings),
  };
}

/** Data with another value at a path; what is left out on the way is made. */
function replaced(data: Json | undefined, [step, ...rest]: Path, value: Json): Json {
  if (step === undefined) return value;
  if (Array.isArray(data)) return data.map((inner, i) => (i === step ? replaced(inner, rest, value) : inner));
  const fields = (data ?? {}) as { [field: string]: Json };
  return { ...fields, [step]: replaced(fields[step], rest, value) };
}
