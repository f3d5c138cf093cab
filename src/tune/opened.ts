import { compileFigure, type Figure } from '../figure/figure.js';
import type { Path } from '../figure/text/input-error.js';
import type { FigureSource, Json } from '../figure/text/source.js';
import { CannotBuild } from '../motion/cannot-build.js';
import { partKinds } from '../parts/index.js';
import type { PartKind } from '../parts/part.js';
import { changeable, lookedAt, type Setting, settingsOf } from './settings.js';

/** The fields of one part as they were worked out for a candidate. */
export interface BuiltPart {
  readonly name: string;
  readonly kind: string;
  readonly fields: unknown;
}

/** A figure of which everything that could be changed is a free dim: a candidate holds one value for each setting. */
export interface OpenedFigure {
  readonly settings: readonly Setting[];
  /** How many more there were than can be looked at. */
  readonly leftOut: number;
  /** Plain data, for workers. Its dims stand in the order of the settings. */
  readonly source: FigureSource;
  readonly figure: Figure;
  /** The candidate that the file describes. */
  readonly now: Float64Array;
  /** The fields of the parts of a candidate, as far as it can be built. */
  fieldsOf(vector: Float64Array): BuiltPart[];
  /** How many parts of a candidate are not there, that part included which cannot be added; 0 where it can be built. */
  unbuilt(vector: Float64Array): number;
}

/** Opens a figure file: finds all that could be changed in it. */
export function openFigure(source: FigureSource, figure: Figure): OpenedFigure {
  const all = settingsOf(source, figure);
  const kept = lookedAt(all);
  const settings = changeable(kept, (setting, option) => {
    compileFigure({ ...source, data: withValue(source.data, setting.place, written(setting, option)) });
  });
  const built: BuiltPart[] = [];
  const opened = opening(source, settings);
  const openedFigure = compileFigure(opened, recording(built));
  const parts = (opened.data as { parts: Json[] }).parts.length;
  /** Notes down the parts of a candidate, as far as it can be built. @returns whether all of it can */
  const isBuilt = (vector: Float64Array): boolean => {
    built.length = 0;
    try {
      openedFigure.build(vector);
      return true;
    } catch (error) {
      if (!(error instanceof CannotBuild)) throw error;
      return false;
    }
  };
  return {
    settings,
    leftOut: all.length - kept.length,
    source: opened,
    figure: openedFigure,
    now: Float64Array.from(settings, positionNow),
    fieldsOf(vector) {
      isBuilt(vector);
      return [...built];
    },
    unbuilt(vector) {
      return isBuilt(vector) ? 0 : parts - built.length + 1;
    },
  };
}

/** What stands in the file for a value of a setting. */
export function written(setting: Setting, value: number | string): Json {
  return setting.kind === 'word' && setting.place[0] === 'dims' ? { choose: [value] } : value;
}

/** A setting's number in a candidate, now: its value, or the place of its word among the options. */
const positionNow = (setting: Setting): number =>
  setting.kind === 'number' ? Number(setting.now) : setting.options.indexOf(setting.now);

/** The value for which a number in a candidate stands. */
export const settingValue = (setting: Setting, position: number): number | string =>
  setting.kind === 'number' ? position : setting.options[position];

/** The figure with a free dim in place of every setting, before all its own dims. */
function opening(source: FigureSource, settings: readonly Setting[]): FigureSource {
  const own = (source.data as { dims?: { [name: string]: Json } }).dims ?? {};
  let data = source.data;
  const dims: { [name: string]: Json } = {};
  for (const [i, setting] of settings.entries()) {
    const name = setting.place[0] === 'dims' ? String(setting.place[1]) : unused(`tune_${i}`, own);
    dims[name] = freeDim(setting);
    if (setting.place[0] !== 'dims') data = withValue(data, setting.place, name);
  }
  for (const [name, value] of Object.entries(own)) if (!Object.hasOwn(dims, name)) dims[name] = value;
  return { ...source, data: withValue(data, ['dims'], dims) };
}

function unused(name: string, taken: object): string {
  return Object.hasOwn(taken, name) ? unused(`${name}_`, taken) : name;
}

function freeDim({ kind, options, unit, bounds: { low, high }, now }: Setting): Json {
  if (kind === 'word') return { choose: [...options] };
  // A range must run from less to more, also around a number that may not move.
  return { from: low, to: high > low ? high : low + 1, start: Number(now), ...(unit === '' ? {} : { unit }) };
}

/** A copy of data with another value at a path; fields on the way that are missing are made. */
function withValue(data: Json | undefined, [step, ...rest]: Path, value: Json): Json {
  if (step === undefined) return value;
  if (Array.isArray(data))
    return data.map((inner, i) => (i === step ? withValue(inner, rest, value) : inner));
  const fields = (data ?? {}) as { [field: string]: Json };
  return { ...fields, [step]: withValue(fields[step], rest, value) };
}

/** The kinds of parts, which also note down the fields that they are built with. */
function recording(built: BuiltPart[]): Record<string, PartKind> {
  return Object.fromEntries(
    Object.entries(partKinds).map(([word, kind]) => [
      word,
      {
        ...kind,
        build(name, fields, assembly) {
          built.push({ name, kind: word, fields });
          kind.build(name, fields, assembly);
        },
      } satisfies PartKind,
    ]),
  );
}
