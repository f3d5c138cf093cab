import { CannotBuild } from '../../motion/cannot-build.js';
import { Quantity, Word } from '../../parts/fields.js';
import { Along, type LineForm, type PointFields, type PointForm } from '../../parts/spots.js';
import type { Path } from '../text/input-error.js';
import { ANY, mustHavePanel, NO_LENGTH, type OpenLine, type PointAt, type Reading } from './forms.js';
import { lineFrom, lineOnPanel, SHORTEST } from './lines.js';
import type { Mark } from './scene.js';
import { cross, dot, lengthOf, minus } from './space.js';

const RADIANS = Math.PI / 180;
/** Lines that turn less than this against each other run side by side. */
const SIDE_BY_SIDE = 1e-6;

/** Reads a point as written: [x, y], a name, or fields. */
export function pointFrom(form: PointForm, path: Path, reading: Reading): PointAt {
  const field = path.join('.');
  if (form instanceof Word) {
    const name = reading.word(form, path);
    return (dims, target) => {
      const place = reading.pointNamed(name(dims));
      if (place === undefined) throw reading.unknown(name(dims), 'place', field);
      return place(dims, target);
    };
  }
  if (isPair(form)) {
    const [x, y] = form.map((written, i) => reading.number(written, [...path, i]));
    return (dims, target) => {
      const panel = mustHavePanel(target, field);
      return { panel, x: x(dims), y: reading.scene.assembly.panels[panel].up * y(dims), opened: 180 };
    };
  }
  const ways = WAYS.find(({ fields }) => fits(form, fields));
  if (ways === undefined)
    return reading.refuse(
      path,
      'give a point as { on, at }, { meet: [line, line] }, { line, crosses }, { from, turn, far }, { from, toward, far }, { on, from, far } or { between, far, side }',
    );
  const way = ways.read(form, path, reading);
  const { panel, opened } = form;
  const onPanel = panel && reading.word(panel, [...path, 'panel']);
  const openedTo = opened && reading.number(opened, [...path, 'opened']);
  return (dims, target) => {
    const on = onPanel ? reading.scene.assembly.panelNamed(onPanel(dims), `${field}.panel`) : target;
    const mark = way(dims, on);
    return openedTo ? { ...mark, opened: openedTo(dims) } : mark;
  };
}

const isPair = (form: PointForm): form is readonly [Quantity, Quantity] => Array.isArray(form);

type Read = (form: PointFields, path: Path, reading: Reading) => PointAt;

/** The ways to give a point, by the fields that go together. */
const WAYS: readonly { readonly fields: readonly string[]; readonly read: Read }[] = [
  { fields: ['on', 'at'], read: onAt },
  { fields: ['meet'], read: meeting },
  { fields: ['line', 'crosses'], read: crossing },
  { fields: ['from', 'turn', 'far'], read: heading },
  { fields: ['from', 'toward', 'far'], read: heading },
  { fields: ['on', 'from', 'far', 'side'], read: onLineSoFar },
  { fields: ['between', 'far', 'side'], read: betweenTwo },
];

function fits(form: PointFields, fields: readonly string[]): boolean {
  const given = Object.keys(form).filter((name) => name !== 'panel' && name !== 'opened');
  return given.length === fields.length && fields.every((name) => given.includes(name));
}

/** A field that is there, since the way asks for it. */
function held<T>(value: T | undefined): T {
  if (value === undefined) throw new TypeError('a way to give a point without its fields');
  return value;
}

/** [along, up] of a panel; or so far along a crease or line, and off it towards the card. */
function onAt(form: PointFields, path: Path, reading: Reading): PointAt {
  const [on, at] = [held(form.on), held(form.at)];
  const field = path.join('.');
  const { scene } = reading;
  const where: readonly Quantity[] = at instanceof Along ? [at] : at;
  const step = (i: number): Path => (at instanceof Along ? [...path, 'at'] : [...path, 'at', i]);
  const along = reading.along(where[0] as Along, step(0));
  const off = where[1] && reading.number(where[1], step(1));
  const line = lineFrom(on, [...path, 'on'], reading);
  const panelName = on instanceof Word ? reading.word(on, [...path, 'on']) : undefined;
  return (dims, target) => {
    const named = panelName?.(dims);
    const panel = named === undefined ? -1 : scene.assembly.panels.findIndex(({ name }) => name === named);
    if (panel < 0) return alongLine(line(dims, target), along, off?.(dims) ?? 0, dims, field, reading);
    if (off === undefined)
      throw new CannotBuild(`'${named}' is a panel: give [along, up]`, `${field}.at`, true);
    const { up } = scene.assembly.panels[panel];
    return { panel, x: along(dims, Number.NaN), y: up * off(dims), opened: 180 };
  };
}

function alongLine(
  line: OpenLine,
  along: (dims: Float64Array, long: number) => number,
  off: number,
  dims: Float64Array,
  field: string,
  reading: Reading,
): Mark {
  const { a, up } = line;
  // Its ends may be marked on two panels, glued to one another.
  const { x0, y0, x1, y1 } = lineOnPanel(line, a.panel, field, reading);
  const long = Math.hypot(x1 - x0, y1 - y0);
  const [ex, ey] = [(x1 - x0) / long, (y1 - y0) / long];
  const far = along(dims, long);
  return {
    panel: a.panel,
    x: x0 + far * ex - up * off * ey,
    y: y0 + far * ey + up * off * ex,
    opened: a.opened,
  };
}

/** Where two lines meet, drawn on as far as need be. */
function meeting(form: PointFields, path: Path, reading: Reading): PointAt {
  const [one, other] = held(form.meet).map((line, i) => lineFrom(line, [...path, 'meet', i], reading));
  const field = [...path, 'meet'].join('.');
  return (dims, target) => {
    const panel = mustHavePanel(target, field);
    const p = lineOnPanel(one(dims, panel), panel, field, reading);
    const q = lineOnPanel(other(dims, panel), panel, field, reading);
    const [px, py] = [p.x1 - p.x0, p.y1 - p.y0];
    const [qx, qy] = [q.x1 - q.x0, q.y1 - q.y0];
    const turn = px * qy - py * qx;
    if (Math.abs(turn) < SIDE_BY_SIDE * Math.hypot(px, py) * Math.hypot(qx, qy))
      throw new CannotBuild('the two lines run side by side, and never meet', field);
    const t = ((q.x0 - p.x0) * qy - (q.y0 - p.y0) * qx) / turn;
    return { panel, x: p.x0 + t * px, y: p.y0 + t * py, opened: 180 };
  };
}

/** Where a line in space goes through a panel. */
function crossing(form: PointFields, path: Path, reading: Reading): PointAt {
  const line = lineFrom(held(form.line), [...path, 'line'], reading);
  const crossed = reading.word(held(form.crosses), [...path, 'crosses']);
  const opened = form.opened && reading.number(form.opened, [...path, 'opened']);
  const field = [...path, 'crosses'].join('.');
  const { scene } = reading;
  return (dims) => {
    const k = scene.assembly.panelNamed(crossed(dims), field);
    const { a, b } = line(dims, ANY);
    const at = opened?.(dims) ?? a.opened;
    const world = (mark: Mark) => scene.world({ ...mark, opened: at }, field);
    const [p, q] = [world(a), world(b)];
    const way = minus(q, p);
    if (lengthOf(way) < SHORTEST) throw new CannotBuild(NO_LENGTH, [...path, 'line'].join('.'));
    const corner = (x: number, y: number) => world({ panel: k, x, y, opened: at });
    const o = corner(0, 0);
    const [u, v] = [minus(corner(1, 0), o), minus(corner(0, 1), o)];
    const n = cross(u, v);
    const [hp, hq] = [dot(minus(p, o), n), dot(minus(q, o), n)];
    if (Math.abs(hp - hq) < SIDE_BY_SIDE * lengthOf(way))
      throw new CannotBuild(
        `the line runs along '${scene.assembly.panels[k].name}' there and does not go through it; for two lines on one panel use meet`,
        field,
      );
    const t = hp / (hp - hq);
    const through = minus([p[0] + t * way[0], p[1] + t * way[1], p[2] + t * way[2]], o);
    return { panel: k, x: dot(through, u), y: dot(through, v), opened: at };
  };
}

/** So far from a point: at an angle from the panel's foot towards up, or toward another point. */
function heading(form: PointFields, path: Path, reading: Reading): PointAt {
  const from = pointFrom(held(form.from), [...path, 'from'], reading);
  const far = oneLength(form, path, reading);
  const turn = form.turn && reading.number(form.turn, [...path, 'turn']);
  const toward = form.toward && pointFrom(form.toward, [...path, 'toward'], reading);
  const field = path.join('.');
  const { scene } = reading;
  return (dims, target) => {
    const start = from(dims, target);
    const panel = target < 0 ? start.panel : target;
    const [x, y] = scene.prick(start, panel, field);
    if (turn !== undefined) {
      const t = turn(dims) * RADIANS;
      const { up } = scene.assembly.panels[panel];
      return {
        panel,
        x: x + far(dims) * Math.cos(t),
        y: y + up * far(dims) * Math.sin(t),
        opened: start.opened,
      };
    }
    const [qx, qy] = scene.prick(held(toward)(dims, target), panel, field);
    const long = Math.hypot(qx - x, qy - y);
    if (long < SHORTEST)
      throw new CannotBuild('the two points are one, and give no direction', `${field}.toward`);
    const share = far(dims) / long;
    return { panel, x: x + share * (qx - x), y: y + share * (qy - y), opened: start.opened };
  };
}

function oneLength({ far }: PointFields, path: Path, reading: Reading): (dims: Float64Array) => number {
  if (far instanceof Quantity) return reading.number(far, [...path, 'far']);
  return reading.refuse([...path, 'far'], 'give one length');
}

/** The point of a line that lies so far from another point; of two, the one nearer to its start or to its end. */
function onLineSoFar(form: PointFields, path: Path, reading: Reading): PointAt {
  const line = lineFrom(held<LineForm>(form.on), [...path, 'on'], reading);
  const from = pointFrom(held(form.from), [...path, 'from'], reading);
  const far = oneLength(form, path, reading);
  const side = reading.word(held(form.side), [...path, 'side']);
  const field = path.join('.');
  return (dims, target) => {
    const panel = mustHavePanel(target, field);
    const { x0, y0, x1, y1 } = lineOnPanel(line(dims, panel), panel, field, reading);
    const [px, py] = reading.scene.prick(from(dims, panel), panel, field);
    const long = Math.hypot(x1 - x0, y1 - y0);
    const [ex, ey] = [(x1 - x0) / long, (y1 - y0) / long];
    const foot = (px - x0) * ex + (py - y0) * ey;
    const away = (px - x0) * ey - (py - y0) * ex;
    const rest = far(dims) ** 2 - away ** 2;
    if (!(rest >= 0))
      throw new CannotBuild(
        `the line is nowhere nearer than ${Math.abs(away).toFixed(2)} mm, so no point of it lies ${far(dims).toFixed(2)} mm away`,
        `${field}.far`,
      );
    const along = foot + (wordOf(side(dims), ['start', 'end'], field) === 'end' ? 1 : -1) * Math.sqrt(rest);
    return { panel, x: x0 + along * ex, y: y0 + along * ey, opened: 180 };
  };
}

/** The point so far from one point, and so far from another: two compasses. Left and right as seen from one to the other. */
function betweenTwo(form: PointFields, path: Path, reading: Reading): PointAt {
  const [one, other] = held(form.between).map((end, i) => pointFrom(end, [...path, 'between', i], reading));
  if (form.far instanceof Quantity || form.far === undefined)
    return reading.refuse([...path, 'far'], 'give two lengths, [from the one, from the other]');
  const [r, s] = form.far.map((written, i) => reading.number(written, [...path, 'far', i]));
  const side = reading.word(held(form.side), [...path, 'side']);
  const field = path.join('.');
  return (dims, target) => {
    const first = one(dims, target);
    const panel = target < 0 ? first.panel : target;
    const [x0, y0] = reading.scene.prick(first, panel, field);
    const [x1, y1] = reading.scene.prick(other(dims, target), panel, field);
    const long = Math.hypot(x1 - x0, y1 - y0);
    const [a, b] = [r(dims), s(dims)];
    if (!(long > SHORTEST && a + b >= long && Math.abs(a - b) <= long))
      throw new CannotBuild(
        `${a.toFixed(2)} mm and ${b.toFixed(2)} mm make no triangle over two points ${long.toFixed(2)} mm apart`,
        `${field}.far`,
      );
    // The law of cosines: a² + long² − b² = 2 a long cos.
    const along = (a * a + long * long - b * b) / (2 * long);
    const left = wordOf(side(dims), ['left', 'right'], field) === 'left' ? 1 : -1;
    const off =
      reading.scene.assembly.panels[panel].up * left * Math.sqrt(Math.max(0, a * a - along * along));
    const [ex, ey] = [(x1 - x0) / long, (y1 - y0) / long];
    return { panel, x: x0 + along * ex - off * ey, y: y0 + along * ey + off * ex, opened: first.opened };
  };
}

function wordOf(word: string, of: readonly string[], field: string): string {
  if (!of.includes(word)) throw new CannotBuild(`give ${of.join(' or ')}`, `${field}.side`, true);
  return word;
}
