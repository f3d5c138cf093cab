import { addPart, freeName, type NewPart } from '../../edit/add-part.js';
import { EditFault } from '../../edit/edit-fault.js';
import { writtenParts } from '../../edit/mentions.js';
import { type Change, type Moved, moveNumber, withChanges } from '../../edit/move-number.js';
import { moveTied, type Ties, tiesNow, tiesOf } from '../../edit/tied.js';
import { BuiltFigure } from '../../figure/built.js';
import { compileFigure, type Figure } from '../../figure/figure.js';
import { valueAt } from '../../figure/text/check.js';
import { InputError, type Path } from '../../figure/text/input-error.js';
import type { FigureSource, Json } from '../../figure/text/source.js';
import { CannotBuild } from '../../motion/cannot-build.js';
import { NO_ART } from '../../report/live/data.js';
import { pileMapOf } from '../../report/live/pile-map.js';
import { printedOn } from '../../report/live/printed-on.js';
import { tracesOf } from '../../report/live/traces.js';
import { scorecardInWords } from '../../report/words/scorecard-words.js';
import type { Scorecard } from '../../score/scorecard.js';
import { Scorer } from '../../score/scorer.js';
import { settingsOf } from '../../tune/settings.js';
import { Motion } from '../../view/motion.js';
import { pictureOf } from '../../view/picture.js';
import type { Drawings } from '../messages.js';
import { catchesOf } from './catches-of.js';
import { flatPiecesOf } from './flat-pieces.js';
import { handlesOf } from './handles.js';
import type { Place } from './place.js';
import { placesOn } from './places-on.js';
import { readText } from './read-text.js';
import type { FlatSent, MotionSent, RestSent, ScoreSent } from './sent.js';
import { placesToTry, type Starter, type Trial, trialsOn } from './starters.js';

/** A figure with the dims that it is shown with. */
export interface Candidate {
  readonly figure: Figure;
  readonly vector: Float64Array;
}

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
  changed(changes: readonly Change[]): Candidate {
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

  #loosened(others: readonly Change[]): Loose {
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
  dragged(paths: readonly Path[], values: readonly number[]): Moved {
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
  ): { readonly text: string; readonly said: readonly string[] } {
    const { source } = this;
    const ties = this.findTies();
    const { changes, said } = all(
      paths.map((path, i) => moveTied(ties, source, path, values[i], this.built())),
    );
    return { said, text: withChanges(source, changes) };
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
    const { source, figure } = this;
    const before = new Scorer(figure).score(figure.start);
    const assembly = figure.build(figure.start);
    const read = (text: string) => readText(text, this.#file, this.#drawings);
    const kinds = trialsOn(place, assembly, 1).map(({ title }) => title);
    return kinds.flatMap((title) => {
      let best: Starter | null = null;
      for (const share of [1, 0.7, 0.45])
        for (const where of placesToTry(place, assembly)) {
          const trial = trialsOn(where, assembly, share).find((each) => each.title === title);
          const starter = trial === undefined ? null : started(source, read, trial, before);
          if (starter?.trouble === '') return [starter];
          best ??= starter;
        }
      return best === null ? [] : [best];
    });
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

function all(moves: readonly Moved[]): Moved {
  return {
    changes: moves.flatMap(({ changes }) => changes),
    said: [...new Set(moves.flatMap(({ said }) => said))],
  };
}

/** Data with another value at a path; what is left out on the way is made. */
function replaced(data: Json | undefined, [step, ...rest]: Path, value: Json): Json {
  if (step === undefined) return value;
  if (Array.isArray(data)) return data.map((inner, i) => (i === step ? replaced(inner, rest, value) : inner));
  const fields = (data ?? {}) as { [field: string]: Json };
  return { ...fields, [step]: replaced(fields[step], rest, value) };
}

/** The page angle of the little pictures, degrees. */
const PICTURED = 110;

function started(
  source: FigureSource,
  read: (text: string) => FigureSource,
  { kind, title, fields }: Trial,
  before: Scorecard,
): Starter | null {
  const part: NewPart = { name: freeName(source, title.toLowerCase()), kind, ...fields };
  try {
    const figure = compileFigure(read(addPart(source, part)));
    const card = new Scorer(figure).score(figure.start);
    const motion = new Motion(figure, figure.start);
    const { assembly } = motion;
    const pieces = [...new Set(assembly.panels.map(({ piece }) => piece))];
    const picture = pictureOf(assembly, motion.at(PICTURED));
    return {
      kind,
      title,
      part,
      trouble: troubleOf(card, before),
      picture: {
        box: picture.roomOf((panel) => assembly.panels[panel].part === part.name),
        paths: picture.panels.map(({ panel, d }) => ({
          d,
          tone:
            assembly.panels[panel].part === part.name
              ? 9
              : Math.min(4, pieces.indexOf(assembly.panels[panel].piece)),
        })),
      },
    };
  } catch (error) {
    if (error instanceof CannotBuild || error instanceof InputError || error instanceof EditFault)
      return null;
    throw error;
  }
}

/** What of a figure that was sound does not hold any more; empty for nothing. */
function troubleOf(card: Scorecard, before: Scorecard): string {
  if (card.locks !== null && before.locks === null) return 'does not shut here';
  if ((card.clash.deepest ?? 0) > (before.clash.deepest ?? 0) + 0.01) return 'catches here';
  const held = new Set(before.limits.filter(({ met }) => met).map(({ name }) => name));
  // A limit that is new with the part, as of glue where there was none, held before.
  const known = new Set(before.limits.map(({ name }) => name));
  const broken = card.limits.find(
    ({ name, met, value }) => !met && value !== null && (held.has(name) || !known.has(name)),
  );
  return broken === undefined ? '' : `breaks a limit: ${broken.name}`;
}

/** Page angles between two frames of a motion at rest, degrees. */
const FRAME = 0.5;

/** The motion of a figure, every half degree. Throws CannotBuild. */
export function motionOf(id: number, candidate: Candidate, source: FigureSource): MotionSent {
  const motion = new Motion(candidate.figure, candidate.vector);
  return sent(id, motion, candidate, source, FRAME, null);
}

/**
 * The motion of a figure as its opening was worked out, and how it lies at one page angle: what is dragged is seen at that
 * angle, and what lies between would take longer than all the rest. Throws CannotBuild.
 */
export function draggedMotion(
  id: number,
  candidate: Candidate,
  source: FigureSource,
  pageAngle: number,
): MotionSent {
  const motion = new Motion(candidate.figure, candidate.vector);
  const poses = motion.at(pageAngle).slice(0, 12 * motion.assembly.panels.length);
  return sent(id, motion, candidate, source, candidate.figure.opening.step, { pageAngle, poses });
}

function sent(
  id: number,
  motion: Motion,
  { figure, vector }: Candidate,
  source: FigureSource,
  every: number,
  shown: MotionSent['shown'],
): MotionSent {
  const { assembly, least } = motion;
  const width = 12 * assembly.panels.length;
  const count = Math.floor((180 - least) / every + 1e-9) + 1;
  const frames = new Float64Array(count * width);
  for (let i = 0; i < count; i++) frames.set(motion.at(180 - i * every).subarray(0, width), i * width);
  return {
    tell: 'motion',
    id,
    name: figure.name,
    panels: assembly.panels,
    page: { width: assembly.page.width, height: assembly.page.height },
    press: figure.limits.press,
    least,
    frames,
    every,
    shown,
    bends: motion.bends,
    traces: tracesOf(motion, figure.wantsOf(vector)),
    creases: [...assembly.creases.values()].map(({ name, between, lines }) => ({ name, between, lines })),
    parts: writtenParts(source).map(({ name, kind }) => ({ name, kind })),
  };
}

export function scoreOf(id: number, { figure, vector }: Candidate): ScoreSent {
  const card = new Scorer(figure).score(vector);
  const isBuilt = card.cannotBuild === null;
  return {
    tell: 'score',
    id,
    card,
    wants: isBuilt ? figure.wantsOf(vector) : [],
    pile: isBuilt ? pileMapOf(new Motion(figure, vector)) : null,
    words: scorecardInWords(figure.name, card, figure.wants),
  };
}
