import { compileFigure, type Figure } from '../figure/figure.js';
import { faultAt, valueAt } from '../figure/text/check.js';
import { InputError, quoted } from '../figure/text/input-error.js';
import { knownNames } from '../figure/text/near.js';
import type { FigureSource, Json } from '../figure/text/source.js';
import type { Goal } from '../figure/wants.js';

/** One way to build an idea. */
export interface Variant {
  readonly name: string;
  readonly source: FigureSource;
  readonly figure: Figure;
}

/** Most variants that a chart can tell apart. */
export const MOST_VARIANTS = 6;

/** Each file is a variant, named after the file; a file given twice gets a number. */
export function variantsOfFiles(sources: readonly FigureSource[]): Variant[] {
  const taken = new Map<string, number>();
  return sources.map((source) => {
    const stem = (source.file.split(/[/\\]/).at(-1) ?? '').replace(/\.ya?ml$/i, '');
    const count = (taken.get(stem) ?? 0) + 1;
    taken.set(stem, count);
    return { name: count === 1 ? stem : `${stem} (${count})`, source, figure: compileFigure(source) };
  });
}

/**
 * Each option of a choice is a variant: the same file with that option fixed.
 * @throws InputError when there is no such choice
 */
export function variantsOfChoice(source: FigureSource, name: string): Variant[] {
  const { free } = compileFigure(source);
  const dim = free.find((each) => each.name === name);
  if (dim?.kind !== 'choice') {
    const choices = free.filter(({ kind }) => kind === 'choice').map((each) => each.name);
    throw new InputError({
      file: '--each',
      found: quoted(name),
      remedy: knownNames(name, choices, 'choice'),
    });
  }
  if (dim.options.length > MOST_VARIANTS)
    throw faultAt(source, ['dims', name], `give at most ${MOST_VARIANTS} options to compare`);
  return dim.options.map((option) => {
    const fixed = { ...source, data: withChoice(source.data, name, option) };
    return { name: `${name} ${option}`, source: fixed, figure: compileFigure(fixed) };
  });
}

function withChoice(data: Json, name: string, option: string | number): Json {
  const figure = data as { [field: string]: Json };
  const dims = figure.dims as { [name: string]: Json };
  return { ...figure, dims: { ...dims, [name]: { ...(dims[name] as object), choose: [option] } } };
}

/** What two wants must have in common to be the same want. Their panels may differ: variants are built differently. */
const SAME: readonly (keyof Goal)[] = [
  'kind',
  'least',
  'most',
  'target',
  'tolerance',
  'weight',
  'from',
  'to',
];

/**
 * Variants are weighed by their wants, which must be the same.
 * @throws InputError that names every want that differs
 */
export function mustWantTheSame(variants: readonly Variant[]): void {
  const [first, ...others] = variants;
  for (const other of others) {
    const differing = wantsThatDiffer(first, other);
    if (differing.length > 0)
      throw faultAt(
        other.source,
        ['wants'],
        'give all variants the same wants (their panels may differ)',
        `other wants than in ${first.source.file}: ${differing.join('; ')}`,
      );
  }
}

function wantsThatDiffer(a: Variant, b: Variant): string[] {
  const names = new Set([...a.figure.wants, ...b.figure.wants].map(({ name }) => name));
  return [...names].flatMap((name) => {
    const [wantA, wantB] = [a, b].map(({ figure }) => figure.wants.find((want) => want.name === name));
    if (wantA === undefined || wantB === undefined)
      return [`'${name}' is only in ${(wantA === undefined ? b : a).source.file}`];
    return SAME.filter((field) => wantA[field] !== wantB[field]).map(
      (field) => `'${name}' has ${field} ${wantB[field] ?? 'none'}, not ${wantA[field] ?? 'none'}`,
    );
  });
}

/** Sections beside the wants in which variants differ, though they would better not: a comparison is less fair then. */
export function unequalConditions(variants: readonly Variant[]): string[] {
  const [first, ...others] = variants;
  return ['page', 'card', 'limits', 'opening', 'keepClear'].filter((section) =>
    others.some(({ source }) => {
      const [a, b] = [first.source, source].map((each) => JSON.stringify(valueAt(each, [section]) ?? null));
      return a !== b;
    }),
  );
}
