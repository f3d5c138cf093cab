import type * as z from 'zod';
import { described, InputError, type Path, quoted } from './input-error.js';
import { knownNames } from './near.js';
import type { FigureSource, Json } from './source.js';

/** The value at a path of the figure file; undefined where there is none. */
export function valueAt(source: FigureSource, path: Path): Json | undefined {
  let value: Json | undefined = source.data;
  for (const step of path) {
    if (value === null || typeof value !== 'object' || !Object.hasOwn(value, step)) return undefined;
    value = (value as { [field: string]: Json })[step];
  }
  return value;
}

/**
 * The error for what stands at a path, or for what is missing there: then with the place of what it is missing from.
 * @param within place within the text found there, from 0
 */
export function faultAt(
  source: FigureSource,
  path: Path,
  remedy: string,
  found: string = described(valueAt(source, path)),
  within = 0,
): InputError {
  const mark = markAt(source, path);
  return new InputError({
    file: source.file,
    line: mark?.[0],
    column: mark === undefined ? undefined : mark[1] + within,
    field: path.join('.'),
    found,
    remedy,
  });
}

/** The error for a field that should not be there: with the place of its name. */
export function strayField(source: FigureSource, path: Path, remedy: string): InputError {
  const mark = markAt(source, path);
  return new InputError({
    file: source.file,
    line: mark?.[2],
    column: mark?.[3],
    field: path.join('.'),
    found: `the field ${quoted(String(path.at(-1)))}`,
    remedy,
  });
}

/** The line on which a field stands, or else what it belongs to. */
export function lineOf(source: FigureSource, field: string): number {
  return markAt(source, field.split('.'))?.[0] ?? 1;
}

function markAt(source: FigureSource, path: Path) {
  for (let deep = path.length; deep >= 0; deep--) {
    const key = path.slice(0, deep).join('.');
    if (Object.hasOwn(source.marks, key)) return source.marks[key];
  }
  return undefined;
}

/**
 * Checks what stands at a path against a schema and returns the schema's output.
 * @param value what to check, where it is not all that stands there; a field left empty counts as not given
 * @throws InputError for the first thing that is wrong
 */
export function checked<Schema extends z.ZodType>(
  source: FigureSource,
  path: Path,
  schema: Schema,
  value: unknown = valueAt(source, path) ?? undefined,
): z.output<Schema> {
  const result = schema.safeParse(value, { error: inWords });
  if (result.success) return result.data;
  const issue = firstOf(result.error.issues);
  const at: Path = [...path, ...issue.path.map((step) => (typeof step === 'symbol' ? '' : step))];
  if (issue.code === 'unrecognized_keys')
    throw strayField(source, [...at, issue.keys[0]], `${meantBy(source, at, issue.keys[0])}${issue.message}`);
  throw faultAt(source, at, `give ${issue.message}`);
}

/** How a field got where it is not known, where that can be guessed: by its indentation, or a comma for a point. */
function meantBy(source: FigureSource, holder: Path, field: string): string {
  if (/^\d+$/.test(field)) return 'write decimals with a point: 60.5; ';
  const beside = valueAt(source, holder) ?? {};
  const line = markAt(source, [...holder, field])?.[2] ?? 0;
  const empty = Object.entries(beside).findLast(
    ([name, value]) => value === null && (markAt(source, [...holder, name])?.[2] ?? line) < line,
  );
  return empty === undefined ? '' : `indent it more if it belongs to '${empty[0]}', which has nothing yet; `;
}

type Issue = z.core.$ZodIssue;

/** A misspelt field explains the missing one, so it goes first. Of alternatives, the one that came farthest is meant. */
function firstOf(issues: readonly Issue[]): Issue {
  const issue = issues.find(({ code }) => code === 'unrecognized_keys') ?? issues[0];
  if (issue.code !== 'invalid_union') return issue;
  const inner = issue.errors.filter((errors) => errors.length > 0).map(firstOf);
  const deepest = inner.reduce<Issue | undefined>(
    (deep, next) => (next.path.length > (deep?.path.length ?? 0) ? next : deep),
    undefined,
  );
  return deepest === undefined ? issue : { ...deepest, path: [...issue.path, ...deepest.path] };
}

/** What would do, for an issue of a schema that has no words of its own. */
function inWords(issue: z.core.$ZodRawIssue): string {
  switch (issue.code) {
    case 'invalid_type':
      return kindInWords(issue);
    case 'too_small':
      return bound(issue, issue.inclusive === false ? 'above' : 'at least', Number(issue.minimum));
    case 'too_big':
      return bound(issue, issue.inclusive === false ? 'below' : 'at most', Number(issue.maximum));
    case 'invalid_value':
      return `${(issue.values as unknown[]).length > 1 ? 'one of ' : ''}${(issue.values as unknown[]).join(', ')}`;
    case 'unrecognized_keys':
      return knownNames((issue.keys as string[])[0], fieldsOf(issue.inst), 'field');
    default:
      return 'something else';
  }
}

function kindInWords({ expected, input, inst }: z.core.$ZodRawIssue): string {
  const kind = KINDS[String(expected)] ?? 'a value';
  if (expected === 'number' && typeof input === 'string' && /^\s*[−-]?[\d.]+\s*\p{L}/u.test(input))
    return `${kind} without a unit: lengths are mm, angles degrees`;
  const fields = fieldsOf(inst);
  if (expected === 'object' && fields.length > 0) return `{ … } with the fields: ${fields.join(', ')}`;
  const places = placesOf(inst);
  return expected === 'tuple' && places > 0 ? `${kind} of ${places}` : kind;
}

const KINDS: Readonly<Record<string, string>> = {
  number: 'a number',
  string: 'text',
  boolean: 'yes or no',
  array: 'a list',
  tuple: 'a list',
  object: 'fields',
  record: 'fields',
};

function bound(issue: z.core.$ZodRawIssue, word: string, limit: number): string {
  const places = placesOf(issue.inst);
  if (issue.origin === 'array' && places > 0) return `a list of ${places}`;
  if (issue.origin === 'array') return `a list of ${word} ${limit}`;
  if (issue.origin === 'string') return `${word} ${limit} characters`;
  return `a number ${word} ${limit}`;
}

function fieldsOf(schema: unknown): string[] {
  const def = (schema as z.core.$ZodType | undefined)?._zod.def as Partial<z.core.$ZodObjectDef> | undefined;
  return Object.keys(def?.shape ?? {});
}

/** How long a list of fixed length is; 0 for anything else. */
function placesOf(schema: unknown): number {
  const def = (schema as z.core.$ZodType | undefined)?._zod.def as Partial<z.core.$ZodTupleDef> | undefined;
  return def?.items?.length ?? 0;
}
