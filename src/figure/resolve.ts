import { CannotBuild } from '../motion/cannot-build.js';
import { Quantity, type Resolved, Word } from '../parts/fields.js';
import { type OutlineFields, outlineFault } from '../parts/outline.js';
import { readArithmetic } from './dim-file.js';
import { type Dims, wordsOf } from './dims.js';
import type { Formula } from './text/arithmetic.js';
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

type Node =
  | { readonly constant: true; readonly value: unknown }
  | { readonly constant: false; readonly at: (dims: Float64Array) => unknown };

/** Compiles the checked fields that stand at a path of the figure file. */
export function compileFields<T>(source: FigureSource, dims: Dims, fields: T, path: Path): Resolver<T> {
  const node = compile(source, dims, fields, path);
  const at = node.constant ? () => node.value : node.at;
  return at as Resolver<T>;
}

function compile(source: FigureSource, dims: Dims, value: unknown, path: Path): Node {
  if (value instanceof Quantity) return quantity(source, dims, value, path);
  if (value instanceof Word) return word(source, dims, value, path);
  if (Array.isArray(value)) {
    const parts = value.map((part: unknown, i) => compile(source, dims, part, [...path, i]));
    return together(parts, (values) => values);
  }
  if (typeof value === 'object' && value !== null) {
    const names = Object.keys(value);
    const parts = Object.entries(value).map(([name, part]) => compile(source, dims, part, [...path, name]));
    const node = together(parts, (values) => {
      const fields: Record<string, unknown> = {};
      for (let i = 0; i < names.length; i++) fields[names[i]] = values[i];
      return fields;
    });
    if (node.constant && 'polygon' in value) {
      const fault = outlineFault(node.value as OutlineFields);
      if (fault !== undefined)
        throw faultAt(
          source,
          path,
          'draw one simple outline, with holes inside it',
          `an outline that is ${fault}`,
        );
    }
    return node;
  }
  return { constant: true, value };
}

function together(parts: readonly Node[], join: (values: unknown[]) => object): Node {
  if (parts.every((part) => part.constant))
    return { constant: true, value: Object.freeze(join(parts.map((part) => part.value))) };
  const resolvers = parts.map((part) => (part.constant ? () => part.value : part.at));
  return { constant: false, at: (dims) => join(resolvers.map((resolve) => resolve(dims))) };
}

function quantity(
  source: FigureSource,
  dims: Dims,
  { written, unit, least, most }: Quantity,
  path: Path,
): Node {
  const inBounds = (value: number) => value >= least && value <= most;
  const bounds = `from ${least} to ${most}${unit === '' ? '' : ` ${unit}`}`;
  if (typeof written === 'number') {
    if (!inBounds(written)) throw faultAt(source, path, `give ${bounds}`);
    return { constant: true, value: written };
  }
  const expression = readArithmetic(source, path, written);
  const { formula, constant } = dims.compile(expression, path);
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

function word(source: FigureSource, dims: Dims, { written, options }: Word, path: Path): Node {
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
  if (words.length === 1) return { constant: true, value: words[0] };
  const slot = dims.slotOf(written);
  return { constant: false, at: (slots) => words[slots[slot]] };
}
