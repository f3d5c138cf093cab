import type { BuiltFigure } from '../../figure/built.js';
import { ANY } from '../../figure/measured/forms.js';
import type { Mark } from '../../figure/measured/scene.js';
import type { Path } from '../../figure/text/input-error.js';
import type { Json } from '../../figure/text/source.js';
import { type Handle, type Hold, placeOf } from './hold.js';

type Flat = readonly [number, number];
type Fields = { readonly [field: string]: Json };

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

/** What can be dragged of a point as it is written, and of the places from which it is drawn. */
export function pointHandles(
  written: Json | undefined,
  path: Path,
  wanted: Wanted,
  finding: Finding,
  deep = 0,
): Handle[] {
  const { built } = finding;
  const { panels } = built.assembly;
  if (typeof written === 'string') return placeHandles(written, path, wanted, finding, deep);
  if (Array.isArray(written)) {
    const onPanel = wanted.panel;
    if (written.length !== 2 || onPanel < 0) return [];
    const hold: Hold = {
      by: 'lengths',
      from: [0, 0],
      axes: [
        [1, 0],
        [0, panels[onPanel].up],
      ],
    };
    return held(
      hold,
      [written[0], written[1]],
      [
        [...path, 0],
        [...path, 1],
      ],
      wanted,
      onPanel,
      finding,
    );
  }
  if (!isFields(written) || deep > DEEPEST) return [];
  const named = built.word(written.panel, [...path, 'panel']);
  const target = named === null ? wanted.panel : panels.findIndex(({ name }) => name === named);
  const deeper = { ...wanted, panel: target };
  const inner = (field: string, value: Json | undefined, step: Path = [...path, field]): Handle[] =>
    typeof value === 'string' || isFields(value)
      ? pointHandles(value, step, { ...deeper, what: `${wanted.what}, ${field}` }, finding, deep + 1)
      : [];
  const point = (value: Json, step: Path) =>
    onPanelOf(built.point(value, step, target, wanted.part), target, built);
  const { on, at, from, turn, far, toward, between, meet, line } = written;
  if (on !== undefined && at !== undefined) return onAt(written, path, deeper, finding);
  // Where lines meet, or go through a panel, nothing is written but what they are drawn from.
  const drawnFrom = Array.isArray(meet) ? meet : line === undefined ? [] : [line];
  if (drawnFrom.length > 0)
    return drawnFrom.flatMap((each, i) => {
      const step: Path = Array.isArray(meet) ? [...path, 'meet', i] : [...path, 'line'];
      return lineHandles(each, step, { ...deeper, what: `${wanted.what}, line` }, finding, deep + 1);
    });
  if (on !== undefined && from !== undefined)
    return [...onLineSoFar(written, path, deeper, finding), ...inner('from', from)];
  if (from !== undefined && (turn !== undefined || toward !== undefined)) {
    const start = point(from, [...path, 'from']);
    if (start === null) return inner('from', from);
    const { panel, flat } = start;
    if (turn !== undefined) {
      const hold: Hold = { by: 'turn', from: flat, zero: [1, 0], ninety: [0, panels[panel].up] };
      const paths: Path[] = [
        [...path, 'turn'],
        [...path, 'far'],
      ];
      return [...held(hold, [turn, far], paths, wanted, panel, finding), ...inner('from', from)];
    }
    const end = built.point(toward, [...path, 'toward'], target, wanted.part);
    const to = end === null ? null : built.pricked(end, panel);
    if (to === null) return inner('from', from);
    const hold: Hold = { by: 'lengths', from: flat, axes: [unit(flat, to)] };
    return [
      ...held(hold, [far], [[...path, 'far']], wanted, panel, finding),
      ...inner('from', from),
      ...inner('toward', toward),
    ];
  }
  if (Array.isArray(between) && Array.isArray(far)) {
    const ends = between.flatMap((end, i) => inner('between', end, [...path, 'between', i]));
    const one = point(between[0], [...path, 'between', 0]);
    const other = built.point(between[1], [...path, 'between', 1], target, wanted.part);
    const now = built.point(written, path, target, wanted.part);
    if (one === null || other === null || now === null) return ends;
    const second = built.pricked(other, one.panel);
    const near = built.pricked(now, one.panel);
    if (second === null || near === null) return ends;
    const hold: Hold = { by: 'compasses', from: [one.flat, second] };
    const paths: Path[] = [
      [...path, 'far', 0],
      [...path, 'far', 1],
    ];
    return [...held(hold, far, paths, wanted, one.panel, finding, near), ...ends];
  }
  return [...inner('from', from)];
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

/** [along, up] of a panel; or so far along a crease or line, and off it towards the card. */
function onAt({ on, at }: Fields, path: Path, wanted: Wanted, finding: Finding): Handle[] {
  const { built } = finding;
  const { panels } = built.assembly;
  const name = built.word(on, [...path, 'on']);
  const panel = panels.findIndex((each) => each.name === name);
  const step: Path = [...path, 'at'];
  if (panel >= 0) return Array.isArray(at) ? pointHandles(at, step, { ...wanted, panel }, finding) : [];
  const line = built.line(on, [...path, 'on'], wanted.panel, wanted.part);
  if (line === null) return [];
  const { a, b, up } = line;
  const end = built.pricked(b, a.panel);
  if (end === null) return [];
  const from: Flat = [a.x, a.y];
  const [ex, ey] = unit(from, end);
  const long = Math.hypot(end[0] - a.x, end[1] - a.y);
  const [values, paths]: [readonly Json[], Path[]] = Array.isArray(at)
    ? [
        at,
        [
          [...step, 0],
          [...step, 1],
        ],
      ]
    : [[at], [step]];
  const axes: Flat[] = [
    [ex, ey],
    [-up * ey, up * ex],
  ];
  const hold: Hold = { by: 'lengths', from, axes: axes.slice(0, values.length) };
  return held(hold, values, paths, wanted, a.panel, finding, from, long);
}

/** So far from a point, on a line: it goes along the line, on its own side of where that passes nearest. */
function onLineSoFar(written: Fields, path: Path, wanted: Wanted, finding: Finding): Handle[] {
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
  return held(hold, [written.far], [[...path, 'far']], wanted, a.panel, finding);
}

/** A handle for numbers as they are written; none where one of them cannot be worked out. */
function held(
  hold: Hold,
  written: readonly (Json | undefined)[],
  paths: readonly Path[],
  { part, what }: Wanted,
  panel: number,
  { built }: Finding,
  near: Flat = [0, 0],
  long = Number.NaN,
): Handle[] {
  const found = paths.map((path, i) => built.number(written[i], path, i === 0 ? long : Number.NaN));
  if (found.includes(null)) return [];
  const values = found as number[];
  const { name } = built.assembly.panels[panel];
  return [{ part, what, panel: name, at: placeOf(hold, values, near), hold, values, paths }];
}

function onPanelOf(
  mark: Mark | null,
  target: number,
  built: BuiltFigure,
): { panel: number; flat: Flat } | null {
  if (mark === null) return null;
  const panel = target < 0 ? mark.panel : target;
  const flat = built.pricked(mark, panel);
  return flat === null ? null : { panel, flat };
}

function unit([x0, y0]: Flat, [x1, y1]: Flat): Flat {
  const long = Math.hypot(x1 - x0, y1 - y0) || 1;
  return [(x1 - x0) / long, (y1 - y0) / long];
}

export const isFields = (value: Json | undefined): value is Fields =>
  value !== null && typeof value === 'object' && !Array.isArray(value);

/** Whether a place is a point, not a line. */
const isNamedPoint = (place: Json): boolean =>
  isFields(place) && !['to', 'through', 'crossing', 'crease'].some((field) => Object.hasOwn(place, field));
