import { CannotBuild } from '../motion/cannot-build.js';
import { lengthOf } from '../parts/attach.js';
import { Quantity, type Resolved, Word } from '../parts/fields.js';
import { type OutlineFields, outlineFault } from '../parts/outline.js';
import { Outline } from '../parts/outline-forms.js';
import { Along, GlueLine, Spot, Stroke } from '../parts/spots.js';
import { readArithmetic } from './dim-file.js';
import { type Dims, wordsOf } from './dims.js';
import type { Reading, WordAt } from './measured/forms.js';
import { glueAngle } from './measured/glue-lines.js';
import { lineFrom } from './measured/lines.js';
import { measureFrom } from './measured/measures.js';
import type { OpenFigure } from './measured/open-figure.js';
import { isPlain, isRing, type OutlineAt, onFoot, outlineFrom } from './measured/outlines.js';
import { pointFrom } from './measured/points.js';
import type { Expression, Formula } from './text/arithmetic.js';
import { faultAt } from './text/check.js';
import { type Path, quoted } from './text/input-error.js';
import { knownNames } from './text/near.js';
import type { FigureSource } from './text/source.js';

/**
 * Works out checked fields for the candidate whose dims stand in the slots. What no dim changes is worked out once,
 * frozen, and shared between candidates; so an outline that no dim changes is checked here.
 * @throws CannotBuild, with the field's whole path, where a value is out of its bounds
 */
export type Resolver<T> = (dims: Float64Array) => Resolved<T>;

/** An outline of a part's own panel that follows what lies on it: worked out when the panel is there. */
export interface LaterOutline {
  /** The steps to its field, within the part. */
  readonly field: readonly string[];
  readonly follows: boolean;
  readonly at: OutlineAt;
}

type Node =
  | { readonly constant: true; readonly value: unknown }
  | { readonly constant: false; readonly at: (dims: Float64Array) => unknown };

/** Reads the leaves of fields of one figure file. */
export class FieldReader {
  readonly #source: FigureSource;
  readonly #dims: Dims;
  readonly #figure: OpenFigure;
  /** Whether any of the fields read so far asks for something of the open figure. */
  asks = false;

  constructor(source: FigureSource, dims: Dims, figure: OpenFigure) {
    this.#source = source;
    this.#dims = dims;
    this.#figure = figure;
  }

  /**
   * Compiles the checked fields that stand at a path of the figure file.
   * @param part the part whose fields they are, and the list to which its later outlines are added
   */
  compile<T>(
    fields: T,
    path: Path,
    part?: { readonly name: string; readonly later: LaterOutline[] },
  ): Resolver<T> {
    const asked = () => {
      this.asks = true;
    };
    const compiler = new Compiler(this.#source, this.#dims, this.#figure, path, asked, part);
    const node = compiler.compile(fields, path, fields);
    const at = node.constant ? () => node.value : node.at;
    return at as Resolver<T>;
  }

  /** Reads the places of the file. */
  readPlaces(): void {
    this.#figure.read(this.#source, this.reading());
  }

  /** What points and lines are read with. @param part whose creases go by short names */
  reading(part = ''): Reading {
    const own = { name: part, later: [] };
    return new Compiler(this.#source, this.#dims, this.#figure, [], () => {}, own).reading;
  }
}

class Compiler {
  readonly #source: FigureSource;
  readonly #dims: Dims;
  readonly #figure: OpenFigure;
  readonly #root: Path;
  readonly #asked: () => void;
  readonly #part: { readonly name: string; readonly later: LaterOutline[] } | undefined;
  readonly reading: Reading;

  constructor(
    source: FigureSource,
    dims: Dims,
    figure: OpenFigure,
    root: Path,
    asked: () => void,
    part: { readonly name: string; readonly later: LaterOutline[] } | undefined,
  ) {
    this.#source = source;
    this.#dims = dims;
    this.#figure = figure;
    this.#root = root;
    this.#asked = asked;
    this.#part = part;
    this.reading = {
      scene: figure.scene,
      part: part?.name ?? '',
      point: (form, path) => pointFrom(form, path, this.reading),
      number: (written, path) => formulaOf(this.#quantity(written, path)),
      word: (written, path) => this.#wordAt(written, path),
      along: (written, path) => this.#along(written, path),
      pointNamed: (name) => figure.pointNamed(name),
      lineNamed: (name) => figure.lineNamed(name),
      unknown: (name, what, field) => figure.unknown(name, what, field),
      refuse: (path, remedy) => {
        throw faultAt(source, path, remedy);
      },
    };
  }

  /** @param beside the fields in which the value stands */
  compile(value: unknown, path: Path, beside: unknown): Node {
    if (value instanceof Along) return this.#alongCrease(value, path, beside);
    if (value instanceof Quantity) return this.#quantity(value, path);
    if (value instanceof Word) return this.#word(value, path);
    if (value instanceof Spot || value instanceof Stroke) this.#asked();
    if (value instanceof Spot) {
      const point = pointFrom(value.form, path, this.reading);
      const panel = this.#panelAt(value.panel, beside, path);
      const field = path.join('.');
      return {
        constant: false,
        at: (dims) => {
          const on = panel(dims);
          return onFoot(point(dims, on), on, field, this.reading);
        },
      };
    }
    if (value instanceof Stroke) {
      const line = lineFrom(value.form, path, this.reading);
      const panel = this.#panelAt(value.panel, beside, path);
      const field = path.join('.');
      return {
        constant: false,
        at: (dims) => {
          const on = panel(dims);
          const { a, b } = line(dims, on);
          return [onFoot(a, on, field, this.reading), onFoot(b, on, field, this.reading)];
        },
      };
    }
    if (value instanceof GlueLine) return this.#glueLine(value, path, beside);
    if (value instanceof Outline) return this.#outline(value, path, beside);
    if (Array.isArray(value)) {
      const parts = value.map((part: unknown, i) => this.compile(part, [...path, i], beside));
      return together(parts, (values) => values);
    }
    if (typeof value === 'object' && value !== null) return this.#fields(value, path);
    return { constant: true, value };
  }

  #glueLine({ form }: GlueLine, path: Path, beside: unknown): Node {
    this.#asked();
    const line = lineFrom(form, path, this.reading);
    const { on, at, toward } = beside as { on: Word; at: Along; toward: Word<'end' | 'start'> };
    const holder = path.slice(0, path.lastIndexOf('glue'));
    const crease = this.#wordAt(on, [...holder, 'on']);
    const apex = formulaOf(this.compile(at, [...holder, 'at'], beside));
    const way = this.#wordAt(toward, [...holder, 'toward']);
    const last = path.at(-1);
    const side = last === 0 || last === 1 ? last : null;
    const field = path.join('.');
    return {
      constant: false,
      at: (dims) => {
        const where = {
          crease: crease(dims),
          at: apex(dims),
          toward: way(dims) === 'start' ? ('start' as const) : ('end' as const),
        };
        return glueAngle(line, where, side, dims, field, this.reading);
      },
    };
  }

  #fields(value: object, path: Path): Node {
    const names = Object.keys(value);
    const parts = Object.entries(value).map(([name, part]) => this.compile(part, [...path, name], value));
    return together(parts, (values) => {
      const fields: Record<string, unknown> = {};
      for (let i = 0; i < names.length; i++) fields[names[i]] = values[i];
      return fields;
    });
  }

  #outline({ form, panel }: Outline, path: Path, beside: unknown): Node {
    if (isPlain(form)) {
      const node = isRing(form) ? this.#fieldsOfRing(form, path) : this.#fields(form, path);
      const fault = node.constant ? outlineFault(node.value as OutlineFields) : undefined;
      if (fault !== undefined)
        throw faultAt(
          this.#source,
          path,
          'draw one simple outline, with holes inside it',
          `an outline that is ${fault}`,
        );
      return node;
    }
    const outline = outlineFrom(form, path, this.reading);
    if (panel !== '') {
      const on = this.#panelAt(panel, beside, path);
      return { constant: false, at: (dims) => outline(dims, on(dims)) };
    }
    const field = path.slice(this.#root.length).map(String);
    this.#part?.later.push({ field, follows: !isRing(form) && form.mirror !== undefined, at: outline });
    // Until then it has the part's own shape.
    return { constant: true, value: undefined };
  }

  #fieldsOfRing(ring: readonly unknown[], path: Path): Node {
    const corners = this.compile(ring, path, undefined);
    return together([corners], ([polygon]) => ({ polygon }));
  }

  /** The panel that a field beside names. */
  #panelAt(panel: string, beside: unknown, path: Path): (dims: Float64Array) => number {
    const steps = panel.split('.');
    const leaf = steps.reduce<unknown>(
      (value, step) => (value as Record<string, unknown> | undefined)?.[step],
      beside,
    );
    if (!(leaf instanceof Word))
      throw faultAt(this.#source, path, `give ${panel} beside it, the panel it lies on`);
    const name = this.#wordAt(leaf, path);
    const field = path.join('.');
    return (dims) => this.#figure.scene.assembly.panelNamed(name(dims), field);
  }

  #alongCrease(value: Along, path: Path, beside: unknown): Node {
    const { written, crease, room } = value;
    if (typeof written === 'number' || crease === '') return this.#quantity(value, path);
    const expression = readArithmetic(this.#source, path, written);
    if (!this.#namesEnds(expression)) return this.#quantity(value, path);
    const { [crease]: leaf, [room]: length } = beside as Record<string, unknown>;
    if (!(leaf instanceof Word)) return this.#quantity(value, path);
    const name = this.#wordAt(leaf, path);
    const taken = length instanceof Quantity ? formulaOf(this.#quantity(length, path)) : () => 0;
    const along = this.#along(value, path);
    const field = path.join('.');
    return {
      constant: false,
      at: (dims) => {
        const { lines } = this.#figure.scene.assembly.creaseNamed(name(dims), field);
        return along(dims, Math.max(0, lengthOf(lines[0]) - taken(dims)));
      },
    };
  }

  #along(value: Along, path: Path): (dims: Float64Array, long: number) => number {
    const formula = formulaOf(this.#quantity(value, path));
    return (dims, long) => {
      this.#dims.putEnds(long);
      return formula(dims);
    };
  }

  #namesEnds(expression: Expression): boolean {
    if (expression.kind === 'dim')
      return (
        /^(?:start|middle|end)$/.test(expression.name) && this.#dims.named(expression.name) === undefined
      );
    return expression.kind === 'apply' && expression.to.some((part) => this.#namesEnds(part));
  }

  #quantity(quantity: Quantity, path: Path): Node {
    const source = this.#source;
    const dims = this.#dims;
    const { written, unit, least, most } = quantity;
    const inBounds = (value: number) => value >= least && value <= most;
    const bounds = `from ${least} to ${most}${unit === '' ? '' : ` ${unit}`}`;
    if (typeof written === 'number') {
      if (!inBounds(written)) throw faultAt(source, path, `give ${bounds}`);
      return { constant: true, value: written };
    }
    const expression = readArithmetic(source, path, written);
    const { formula, constant } = dims.compile(
      expression,
      path,
      (measure, opened) => {
        this.#asked();
        return measureFrom(measure, opened, path.join('.'), this.reading);
      },
      quantity instanceof Along,
    );
    dims.learnUnits(expression, unit);
    if (constant) {
      const value = formula(dims.slots);
      const result = Number.isFinite(value) ? `is ${value}` : 'gives no number';
      if (!inBounds(value))
        throw faultAt(source, path, `give ${bounds}`, `${quoted(written)}, which ${result}`);
      return { constant: true, value };
    }
    return { constant: false, at: checkedFormula(formula, inBounds, written, bounds, path.join('.')) };
  }

  #wordAt(written: Word, path: Path): WordAt {
    const node = this.#word(written, path);
    if (node.constant) {
      const name = String(node.value);
      return () => name;
    }
    return (dims) => String(node.at(dims));
  }

  #word({ written, options }: Word, path: Path): Node {
    const source = this.#source;
    const dims = this.#dims;
    const dim = dims.named(written);
    const words = dim === undefined ? undefined : wordsOf(dim);
    for (const each of words ?? [written])
      if (options.length > 0 && !options.includes(each))
        throw faultAt(
          source,
          path,
          knownNames(each, options, 'word'),
          words === undefined ? quoted(each) : `${quoted(each)}, a choice of dim '${written}'`,
        );
    if (words === undefined) return { constant: true, value: written };
    dims.usedBy(written, path);
    if (words.length === 1) return { constant: true, value: words[0] };
    const slot = dims.slotOf(written);
    return { constant: false, at: (slots) => words[slots[slot]] };
  }
}

function together(parts: readonly Node[], join: (values: unknown[]) => object): Node {
  if (parts.every((part) => part.constant))
    return { constant: true, value: Object.freeze(join(parts.map((part) => part.value))) };
  const resolvers = parts.map((part) => (part.constant ? () => part.value : part.at));
  return { constant: false, at: (dims) => join(resolvers.map((resolve) => resolve(dims))) };
}

/** A number's node as a formula. */
function formulaOf(node: Node): Formula {
  const at = node.constant ? () => node.value : node.at;
  return (dims) => Number(at(dims));
}

function checkedFormula(
  formula: Formula,
  inBounds: (value: number) => boolean,
  written: string,
  bounds: string,
  field: string,
): Formula {
  return (dims) => {
    const value = formula(dims);
    // Written so that NaN fails too.
    if (inBounds(value)) return value;
    const found = Number.isFinite(value) ? `is ${Number(value.toPrecision(6))} here` : 'gives no number here';
    throw new CannotBuild(`${quoted(written)} ${found}, and should be ${bounds}`, field);
  };
}
