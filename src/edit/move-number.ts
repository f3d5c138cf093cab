import type { BuiltFigure } from '../figure/built.js';
import { readArithmetic } from '../figure/dim-file.js';
import { Dims } from '../figure/dims.js';
import type { Expression, Formula } from '../figure/text/arithmetic.js';
import { valueAt } from '../figure/text/check.js';
import type { Path } from '../figure/text/input-error.js';
import type { FigureSource, Json } from '../figure/text/source.js';
import { withValue } from '../figure/text/yaml-write.js';
import { EditFault } from './edit-fault.js';
import { asWritten, mentionsIn } from './mentions.js';

/** A number of the file that is to be another one. */
export interface NewNumber {
  /** Where it stands: a dim, or a number written in a part or a want. */
  readonly path: Path;
  readonly value: number;
}

/** What of a move a maker would not expect: what was written there is gone, or something else moves or stops it. */
export type MoveFinding =
  /** A place such as `middle` became a number. */
  | { readonly kind: 'place'; readonly written: string }
  /** A dim was moved, from which the field follows. */
  | { readonly kind: 'by dim'; readonly dim: string }
  /** A range goes no farther than its ends. */
  | { readonly kind: 'range ends'; readonly dim: string; readonly from: number; readonly to: number }
  /** Other numbers moved along, by name: else that part would not shut; null for the one that was moved. */
  | { readonly kind: 'along'; readonly names: readonly string[]; readonly shuts: string | null };

/** What has to change in the file so that a field comes to a value, and what there is to say of it. */
export interface MovedNumbers {
  readonly changes: readonly NewNumber[];
  readonly findings: readonly MoveFinding[];
}

/** Numbers are written to so many places, and solved as exactly. */
const PLACES = 1e4;
export const rounded = (value: number): number => Math.round(PLACES * value) / PLACES;

/**
 * What makes a field come to a value, mm or degrees: the number that is written there; where a dim is, the dim; where
 * arithmetic is, the one of its dims that the fewest other things follow from. A range goes no farther than its ends.
 * A place such as `middle` becomes a number.
 * @param built the figure as it stands, for arithmetic that measures it: what is measured is taken to stay as it is
 * @throws EditFault where nothing that may change moves it
 */
export function moveNumber(
  source: FigureSource,
  path: Path,
  value: number,
  built: BuiltFigure | null = null,
): MovedNumbers {
  const written = valueAt(asWritten(source), path);
  if (written === undefined || typeof written === 'number')
    return { changes: [{ path, value: rounded(value) }], findings: [] };
  if (path[0] === 'dims' && written !== null && typeof written === 'object')
    return rangeTo(source, path, value);
  if (typeof written !== 'string') throw new EditFault(`${path.join('.')} is no number`);
  const dims = new Dims(source);
  if (['start', 'middle', 'end'].some((word) => names(written, word) && dims.named(word) === undefined))
    return { changes: [{ path, value: rounded(value) }], findings: [{ kind: 'place', written }] };
  const expression = readArithmetic(source, path, written);
  const { formula } = dims.compile(
    expression,
    path,
    built === null ? undefined : (asked, opened) => built.measure(asked, opened, path),
  );
  const uses = mentionsIn(source);
  const count = (name: string) =>
    uses.filter(({ kind, text }) => kind === 'number' && names(text, name)).length;
  const movable = dimsIn(expression, dims).sort((a, b) => count(a) - count(b));
  let nearest: MovedNumbers | null = null;
  for (const name of movable) {
    const solved = solve(dims, formula, name, value);
    if (solved === null) continue;
    const moved = dimTo(source, name, solved);
    if (moved.findings.length === 0) return { ...moved, findings: [{ kind: 'by dim', dim: name }] };
    nearest ??= moved;
  }
  if (nearest !== null) return nearest;
  throw new EditFault(`${path.join('.')} is ${written}: no dim in it can bring it to ${rounded(value)}`);
}

/** The text with some numbers changed. A range starts at its new value. */
export function withNumbers(source: FigureSource, numbers: readonly NewNumber[]): string {
  return numbers.reduce((text, { path, value }) => {
    const written = valueAt(source, path);
    const isRange =
      path[0] === 'dims' && path.length === 2 && isFields(written) && Object.hasOwn(written, 'from');
    return withValue(text, isRange ? [...path, 'start'] : path, value);
  }, source.text);
}

function dimTo(source: FigureSource, name: string, value: number): MovedNumbers {
  const path: Path = ['dims', name];
  return isFields(valueAt(source, path))
    ? rangeTo(source, path, value)
    : { changes: [{ path, value: rounded(value) }], findings: [] };
}

function rangeTo(source: FigureSource, path: Path, value: number): MovedNumbers {
  const { from, to } = valueAt(source, path) as { from?: Json; to?: Json };
  if (typeof from !== 'number' || typeof to !== 'number') throw new EditFault(`${path[1]} is no range`);
  const within = Math.min(to, Math.max(from, value));
  const isThere = within === rounded(value) || Math.abs(within - value) < 1 / PLACES;
  return {
    changes: [{ path, value: rounded(within) }],
    findings: isThere ? [] : [{ kind: 'range ends', dim: String(path[1]), from, to }],
  };
}

/** The dims that may change on which arithmetic depends, also through other dims. */
function dimsIn(expression: Expression, dims: Dims): string[] {
  const found = new Set<string>();
  const seen = new Set<string>();
  const look = (part: Expression): void => {
    if (part.kind === 'apply') part.to.forEach(look);
    if (part.kind !== 'dim' || seen.has(part.name)) return;
    seen.add(part.name);
    const dim = dims.named(part.name);
    if (dim?.kind === 'arithmetic') look(dim.expression);
    else if (dim?.kind === 'range' || dim?.kind === 'number') found.add(part.name);
  };
  look(expression);
  return [...found];
}

/** The value of one dim for which arithmetic comes to a value, the others as they are; null where there is none. */
function solve(dims: Dims, formula: Formula, name: string, value: number): number | null {
  const free = dims.freeDims.findIndex((dim) => dim.name === name);
  const place =
    free >= 0 ? free : dims.freeDims.length + dims.fixedDims.findIndex((dim) => dim.name === name);
  const vector = Float64Array.from([...dims.start(), ...dims.fixedDims.map((dim) => dim.value)]);
  const off = (at: number): number => {
    vector[place] = at;
    try {
      dims.fill(vector);
    } catch {
      return Number.NaN;
    }
    return formula(dims.slots) - value;
  };
  let at = vector[place];
  for (let turn = 0; turn < 30; turn++) {
    const miss = off(at);
    if (Math.abs(miss) < 0.1 / PLACES) return at;
    // Newton's step with a slope by difference: exact at once for sums, and soon for what bends.
    const slope = (off(at + 1e-3) - miss) / 1e-3;
    if (!Number.isFinite(slope) || Math.abs(slope) < 1e-6) return null;
    at -= miss / slope;
  }
  return null;
}

const isFields = (value: Json | undefined): value is { [field: string]: Json } =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const names = (text: string, name: string): boolean =>
  [...text.matchAll(/[\p{L}_][\p{L}\p{Nd}_]*/gu)].some(([word]) => word === name);
