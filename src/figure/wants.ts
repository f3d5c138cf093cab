import * as z from 'zod';
import { CannotBuild } from '../motion/cannot-build.js';
import { angle, name, type Resolved } from '../parts/fields.js';
import { lineFieldsOn, pointOn } from '../parts/spots.js';
import { type Entry, readEntries } from './entries.js';
import type { FieldReader } from './resolve.js';
import { faultAt } from './text/check.js';
import type { Path } from './text/input-error.js';
import type { FigureSource } from './text/source.js';

const MOST_WANTS = 50;

/** An angle between the pages, degrees: 0 shut, 180 open flat. */
const pageAngle = () => z.number().min(0).max(180);

const aim = () => z.number().min(-1e6).max(1e6).optional();
const goal = {
  least: aim(),
  most: aim(),
  target: aim(),
  tolerance: z.number().positive().max(1e6).optional(),
  weight: z.number().positive().max(1000).prefault(1),
  from: pageAngle().prefault(180),
  to: pageAngle().prefault(0),
};
/** A marked line on a panel: its angle from the panel's foot towards up, degrees, or two points that it goes through. */
const anyLine = (panel = 'panel') =>
  z.union([angle(), lineFieldsOn(panel)], {
    error: 'an angle in degrees, two points [[x, y], [x, y]], or a line { … }',
  });
const line = () => anyLine().prefault(90);
const reference = () => name().prefault('left page');

/** The kinds of wants: what each asks for beside name, kind, goal, weight and span. */
export const wantFields = {
  turn: z.strictObject({
    ...goal,
    panel: name(),
    line: line(),
    reference: reference(),
    /** Whichever way it turns. */
    either: z.enum(['yes', 'no']).optional(),
  }),
  swing: z.strictObject({ ...goal, panel: name(), reference: reference() }),
  travel: z.strictObject({ ...goal, panel: name(), point: pointOn('panel'), reference: reference() }),
  rise: z.strictObject({ ...goal, panel: name(), point: pointOn('panel').optional() }),
  follow: z.strictObject({
    ...goal,
    panel: name(),
    line: line(),
    reference: reference(),
    at: z
      .array(z.tuple([pageAngle(), z.number().min(-3600).max(3600)]))
      .min(1)
      .max(181),
  }),
  against: z.strictObject({
    ...goal,
    panels: z.tuple([name(), name()]),
    /** Each panel's longest direction, if not given. */
    line: anyLine('panels.0').optional(),
    /** What both panels hang on, if not given. */
    reference: name().optional(),
  }),
  level: z.strictObject({
    ...goal,
    // Nearer than 10° to flat a hair's error tilts card that nobody sees: judged there only where it is asked for.
    from: pageAngle().prefault(170),
    to: pageAngle().prefault(10),
    panel: name(),
    reference: reference(),
  }),
  through: z.strictObject({ ...goal, slot: name() }),
};

const UNITS = {
  turn: 'degrees',
  swing: 'degrees',
  travel: 'mm',
  rise: 'mm',
  follow: 'degrees',
  against: 'degrees',
  level: 'degrees',
  through: 'mm',
} as const;

export type WantKind = keyof typeof wantFields;

type Fields<Kind extends WantKind> = z.output<(typeof wantFields)[Kind]>;
/** Any marked line is given by its angle, degrees from the panel's foot towards up. */
type WithAngle<F> = {
  readonly [K in keyof F]: K extends 'line' ? number | Extract<F[K], undefined> : F[K];
};

/**
 * What the maker wants to see, for one candidate. Points and lines are in the panel's own coordinates as a figure file
 * has them: along its foot, up from its foot (y times `panel.up` is y in the panel's plane). Page angles in degrees.
 *
 * - turn: change of heading of the line between `from` and `to`, seen in the plane of `reference`, unwrapped; signed, or if
 *   `either` without its sign.
 * - swing: the farthest that the panel turns about the line it hangs on from where it is at `from`, as `reference` sees it.
 * - travel: the farthest that the point gets from its place at `from`, in the frame of `reference`.
 * - rise: greatest height of the point above the nearer page; where none is given, of the highest line of 5 mm across the panel.
 * - follow: worst difference from the headings at those page angles; a heading counts from the open page.
 * - against: the lesser of the two turns where they are of opposite sense, else minus it.
 * - level: greatest angle between the two panels' normals.
 * - through: least room of what passes through a slot.
 */
export type Want = {
  [Kind in WantKind]: {
    readonly name: string;
    readonly kind: Kind;
    readonly unit: (typeof UNITS)[Kind];
  } & WithAngle<Resolved<Fields<Kind>>>;
}[WantKind];

/** What no dim changes in a want. */
export interface Goal {
  readonly name: string;
  readonly kind: WantKind;
  readonly unit: 'mm' | 'degrees';
  /** Either least, most or both; or target with tolerance. */
  readonly least?: number;
  readonly most?: number;
  readonly target?: number;
  readonly tolerance?: number;
  readonly weight: number;
  /** Page angles between which it is looked at, degrees; 180 to 0 if not given. */
  readonly from: number;
  readonly to: number;
}

/**
 * A want of the file: its goal, and the want as it is for the candidate whose dims stand in the slots (which throws
 * CannotBuild where a point or line has no place).
 */
export interface WrittenWant {
  readonly goal: Goal;
  of(dims: Float64Array): Want;
}

/** Reads `wants`. Names of panels are checked where the figure is first built. */
export function readWants(source: FigureSource, reader: FieldReader): WrittenWant[] {
  return readEntries(source, 'wants', wantFields, MOST_WANTS).map((entry) =>
    writtenWant(source, reader, entry),
  );
}

function writtenWant(source: FigureSource, reader: FieldReader, entry: Entry): WrittenWant {
  const kind = entry.kind as WantKind;
  const fields = entry.fields as Fields<WantKind>;
  checkGoal(source, fields, entry.path);
  const { least, most, target, tolerance, weight, from, to } = fields;
  const resolve = reader.compile(fields, entry.path);
  const named = { name: entry.name, kind, unit: UNITS[kind] };
  return {
    goal: { ...named, least, most, target, tolerance, weight, from, to },
    of(slots) {
      const resolved = resolve(slots);
      const angled =
        'line' in resolved && resolved.line !== undefined
          ? { line: headingOf(resolved.line, entry.path) }
          : {};
      return { ...named, ...resolved, ...angled } as Want;
    },
  };
}

type Point = readonly [number, number];

function headingOf(line: number | readonly [Point, Point], path: Path): number {
  if (typeof line === 'number') return line;
  const [[x0, y0], [x1, y1]] = line;
  if (Math.hypot(x1 - x0, y1 - y0) < 0.01)
    throw new CannotBuild('the two points of the line are one point', [...path, 'line'].join('.'));
  return (Math.atan2(y1 - y0, x1 - x0) * 180) / Math.PI;
}

function checkGoal(source: FigureSource, fields: Fields<WantKind>, path: Path): void {
  const { least, most, target, tolerance, from, to } = fields;
  if (least === undefined && most === undefined && target === undefined)
    throw faultAt(source, path, 'give least, most, or target with tolerance', 'no goal');
  if (target !== undefined && (least !== undefined || most !== undefined))
    throw faultAt(source, [...path, 'target'], 'give target with tolerance, or least and most', 'both');
  if ((target === undefined) !== (tolerance === undefined))
    throw faultAt(
      source,
      [...path, target === undefined ? 'tolerance' : 'target'],
      'give both, or neither',
      target === undefined ? 'tolerance without target' : 'target without tolerance',
    );
  if (least !== undefined && most !== undefined && least > most)
    throw faultAt(source, [...path, 'most'], `give at least ${least}, the least wanted`);
  if (from === to)
    throw faultAt(source, [...path, 'to'], 'give two different page angles', `${to}, where it begins too`);
}
