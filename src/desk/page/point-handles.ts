import type { BuiltFigure } from '../../figure/built.js';
import { ANY } from '../../figure/measured/forms.js';
import type { Mark } from '../../figure/measured/scene.js';
import type { Path } from '../../figure/text/input-error.js';
import type { Json } from '../../figure/text/source.js';
import type { Flat } from '../../parts/attach.js';
import { type Handle, type Hold, placeOf } from './hold.js';

type Fields = { readonly [field: string]: Json };

/** What a field of the file says, and where it stands. */
export interface Field {
  readonly value: Json | undefined;
  readonly path: Path;
}

/** Deepest that places are followed to the places from which they are drawn. */
const DEEPEST = 6;

/** What handles are found with. */
export interface Finding {
  readonly built: BuiltFigure;
  /** The places of the file, as they are written. */
  readonly places: Fields;
}

/** Whose point it is, what it is called, and on which panel it is wanted: its index, or ANY. */
export interface Wanted {
  readonly part: string;
  readonly what: string;
  readonly panel: number;
}

/** A point that is written with fields. */
interface Point {
  readonly written: Fields;
  readonly path: Path;
  readonly wanted: Wanted;
  readonly finding: Finding;
  /** How many places it has been followed from. */
  readonly deep: number;
}

/** What can be dragged of a point as it is written, and of the places from which it is drawn. */
export function pointHandles(
  written: Json | undefined,
  path: Path,
  wanted: Wanted,
  finding: Finding,
  deep = 0,
): Handle[] {
  if (typeof written === 'string') return placeHandles(written, path, wanted, finding, deep);
  if (Array.isArray(written)) return coordinates(written, path, wanted, finding);
  if (!isFields(written) || deep > DEEPEST) return [];
  const { built } = finding;
  const named = built.word(written.panel, [...path, 'panel']);
  const panel = named === null ? wanted.panel : built.assembly.panels.findIndex(({ name }) => name === named);
  const point: Point = { written, path, wanted: { ...wanted, panel }, finding, deep };
  const { on, at, from, turn, far, toward, between, meet, line } = written;
  if (on !== undefined && at !== undefined) return onAt(point);
  if (Array.isArray(meet)) return meet.flatMap((each, i) => drawnLine(point, each, [...path, 'meet', i]));
  if (line !== undefined) return drawnLine(point, line, [...path, 'line']);
  if (on !== undefined && from !== undefined) return [...onLineSoFar(point), ...inner(point, 'from')];
  if (from !== undefined && turn !== undefined) return [...turned(point), ...inner(point, 'from')];
  if (from !== undefined && toward !== undefined) return towards(point);
  if (Array.isArray(between) && Array.isArray(far))
    return [
      ...byCompasses(point, between, far),
      ...between.flatMap((end, i) => inner(point, 'between', { value: end, path: [...path, 'between', i] })),
    ];
  return inner(point, 'from');
}

/** What can be dragged of a line as it is written: its ends, or what it is drawn from. */
export function lineHandles(
  written: Json | undefined,
  path: Path,
  wanted: Wanted,
  finding: Finding,
  deep = 0,
): Handle[] {
  if (deep > DEEPEST) return [];
  const end = (value: Json | undefined, step: Path, which: string) =>
    pointHandles(value, step, { ...wanted, what: `${wanted.what} ${which}` }, finding, deep);
  if (typeof written === 'string') {
    const line = finding.places[written];
    return line === undefined || isNamedPoint(line)
      ? []
      : lineHandles(line, ['places', written], { ...wanted, what: written, panel: ANY }, finding, deep + 1);
  }
  if (Array.isArray(written))
    return written.flatMap((each, i) => end(each, [...path, i], i === 0 ? 'beginning' : 'end'));
  if (!isFields(written)) return [];
  const { from, to, through, turn } = written;
  return [
    ...(turn === undefined
      ? end(from, [...path, 'from'], 'beginning')
      : pointHandles(written, path, wanted, finding, deep)),
    ...end(to, [...path, 'to'], 'end'),
    ...end(through, [...path, 'through'], 'through'),
  ];
}

/** A place with a name, wherever it lies. */
function placeHandles(name: string, path: Path, { part }: Wanted, finding: Finding, deep: number): Handle[] {
  const place = finding.places[name];
  if (place === undefined || path[0] === undefined || deep > DEEPEST) return [];
  return isFields(place)
    ? pointHandles(place, ['places', name], { part, what: name, panel: ANY }, finding, deep + 1)
    : [];
}

/** [along, up] of the panel on which it is wanted. */
function coordinates(written: readonly Json[], path: Path, wanted: Wanted, finding: Finding): Handle[] {
  const { panel } = wanted;
  if (written.length !== 2 || panel < 0) return [];
  const { up } = finding.built.assembly.panels[panel];
  const hold: Hold = {
    by: 'lengths',
    from: [0, 0],
    axes: [
      [1, 0],
      [0, up],
    ],
  };
  return held(hold, eachOf(written, path), wanted, panel, finding);
}

/** What a point is drawn from: the places that are written within it. */
function inner(point: Point, name: string, { value, path } = fieldOf(point, name)): Handle[] {
  const { wanted, finding, deep } = point;
  return typeof value === 'string' || isFields(value)
    ? pointHandles(value, path, { ...wanted, what: `${wanted.what}, ${name}` }, finding, deep + 1)
    : [];
}

/** Where lines meet, or go through a panel, nothing is written but what they are drawn from. */
const drawnLine = ({ wanted, finding, deep }: Point, line: Json, path: Path): Handle[] =>
  lineHandles(line, path, { ...wanted, what: `${wanted.what}, line` }, finding, deep + 1);

/** [along, up] of a panel; or so far along a crease or line, and off it towards the card. */
function onAt(point: Point): Handle[] {
  const { written, path, wanted, finding } = point;
  const { built } = finding;
  const name = built.word(written.on, [...path, 'on']);
  const panel = built.assembly.panels.findIndex((each) => each.name === name);
  const at = fieldOf(point, 'at');
  if (panel >= 0)
    return Array.isArray(at.value) ? pointHandles(at.value, at.path, { ...wanted, panel }, finding) : [];
  const line = built.line(written.on, [...path, 'on'], wanted.panel, wanted.part);
  if (line === null) return [];
  const { a, b, up } = line;
  const end = built.pricked(b, a.panel);
  if (end === null) return [];
  const from: Flat = [a.x, a.y];
  const [ex, ey] = unit(from, end);
  const long = Math.hypot(end[0] - a.x, end[1] - a.y);
  const fields = Array.isArray(at.value) ? eachOf(at.value, at.path) : [at];
  const axes: Flat[] = [
    [ex, ey],
    [-up * ey, up * ex],
  ];
  const hold: Hold = { by: 'lengths', from, axes: axes.slice(0, fields.length) };
  return held(hold, fields, wanted, a.panel, finding, from, long);
}

/** So far from a point, on a line: it goes along the line, on its own side of where that passes nearest. */
function onLineSoFar(point: Point): Handle[] {
  const { written, path, wanted, finding } = point;
  const { built } = finding;
  const line = built.line(written.on, [...path, 'on'], wanted.panel, wanted.part);
  if (line === null) return [];
  const { a, b } = line;
  const end = built.pricked(b, a.panel);
  const start = built.point(written.from, [...path, 'from'], a.panel, wanted.part);
  const from = start && built.pricked(start, a.panel);
  const mark = built.point(written, path, a.panel, wanted.part);
  const now = mark && built.pricked(mark, a.panel);
  if (end === null || from === null || now === null) return [];
  const [ex, ey] = unit([a.x, a.y], end);
  const along = (from[0] - a.x) * ex + (from[1] - a.y) * ey;
  const foot: Flat = [a.x + along * ex, a.y + along * ey];
  const sign = (now[0] - foot[0]) * ex + (now[1] - foot[1]) * ey < 0 ? -1 : 1;
  const hold: Hold = { by: 'reach', from, foot, way: [sign * ex, sign * ey] };
  return held(hold, [fieldOf(point, 'far')], wanted, a.panel, finding);
}

/** At an angle from another point, and so far. */
function turned(point: Point): Handle[] {
  const { wanted, finding } = point;
  const start = drawnFrom(point, fieldOf(point, 'from'));
  if (start === null) return [];
  const { panel, flat } = start;
  const { up } = finding.built.assembly.panels[panel];
  const hold: Hold = { by: 'turn', from: flat, zero: [1, 0], ninety: [0, up] };
  return held(hold, [fieldOf(point, 'turn'), fieldOf(point, 'far')], wanted, panel, finding);
}

/** So far from one point towards another. */
function towards(point: Point): Handle[] {
  const { written, path, wanted, finding } = point;
  const { built } = finding;
  const start = drawnFrom(point, fieldOf(point, 'from'));
  const end = built.point(written.toward, [...path, 'toward'], wanted.panel, wanted.part);
  const to = start && end && built.pricked(end, start.panel);
  if (start === null || to === null) return inner(point, 'from');
  const hold: Hold = { by: 'lengths', from: start.flat, axes: [unit(start.flat, to)] };
  return [
    ...held(hold, [fieldOf(point, 'far')], wanted, start.panel, finding),
    ...inner(point, 'from'),
    ...inner(point, 'toward'),
  ];
}

/** So far from each of two points. */
function byCompasses(point: Point, between: readonly Json[], far: readonly Json[]): Handle[] {
  const { written, path, wanted, finding } = point;
  const { built } = finding;
  const step = [...path, 'between'];
  const one = drawnFrom(point, { value: between[0], path: [...step, 0] });
  const other = built.point(between[1], [...step, 1], wanted.panel, wanted.part);
  const now = built.point(written, path, wanted.panel, wanted.part);
  if (one === null || other === null || now === null) return [];
  const second = built.pricked(other, one.panel);
  const near = built.pricked(now, one.panel);
  if (second === null || near === null) return [];
  const hold: Hold = { by: 'compasses', from: [one.flat, second] };
  const fields = eachOf([far[0], far[1]], [...path, 'far']);
  return held(hold, fields, wanted, one.panel, finding, near);
}

/** A handle for numbers as they are written; none where one of them cannot be worked out. */
export function held(
  hold: Hold,
  fields: readonly Field[],
  { part, what }: Pick<Wanted, 'part' | 'what'>,
  panel: number,
  { built }: Finding,
  near: Flat = [0, 0],
  long = Number.NaN,
): Handle[] {
  const found = fields.map(({ value, path }, i) => built.number(value, path, i === 0 ? long : Number.NaN));
  if (found.includes(null)) return [];
  const values = found as number[];
  const { name } = built.assembly.panels[panel];
  const paths = fields.map(({ path }) => path);
  return [{ part, what, panel: name, at: placeOf(hold, values, near), hold, values, paths }];
}

/** Where a point lies from which another one is drawn, on the panel on which that is wanted. */
function drawnFrom(
  { wanted, finding: { built } }: Point,
  { value, path }: Field,
): { panel: number; flat: Flat } | null {
  const mark: Mark | null = value === undefined ? null : built.point(value, path, wanted.panel, wanted.part);
  if (mark === null) return null;
  const panel = wanted.panel < 0 ? mark.panel : wanted.panel;
  const flat = built.pricked(mark, panel);
  return flat === null ? null : { panel, flat };
}

const fieldOf = ({ written, path }: Point, name: string): Field => ({
  value: written[name],
  path: [...path, name],
});

const eachOf = (values: readonly (Json | undefined)[], path: Path): Field[] =>
  values.map((value, i) => ({ value, path: [...path, i] }));

function unit([x0, y0]: Flat, [x1, y1]: Flat): Flat {
  const long = Math.hypot(x1 - x0, y1 - y0) || 1;
  return [(x1 - x0) / long, (y1 - y0) / long];
}

export const isFields = (value: Json | undefined): value is Fields =>
  value !== null && typeof value === 'object' && !Array.isArray(value);

/** Whether a place is a point, not a line. */
const isNamedPoint = (place: Json): boolean =>
  isFields(place) && !['to', 'through', 'crossing', 'crease'].some((field) => Object.hasOwn(place, field));
