import type { Line } from '../../geometry/line.js';
import type { Assembly } from '../../motion/assembly.js';
import { CannotBuild } from '../../motion/cannot-build.js';
import type { Crease } from '../../motion/crease.js';
import { Word } from '../../parts/fields.js';
import type { LineFields, LineForm } from '../../parts/spots.js';
import type { Path } from '../text/input-error.js';
import { ANY, type LineAt, mustHavePanel, NO_LENGTH, type OpenLine, type Reading } from './forms.js';
import type { Mark } from './scene.js';
import { cross, dot, minus } from './space.js';

/** Shorter lines have no direction, mm. */
export const SHORTEST = 0.001;
const RADIANS = Math.PI / 180;

/** Reads a line as written: a name, two points, or fields. */
export function lineFrom(form: LineForm, path: Path, reading: Reading): LineAt {
  const field = path.join('.');
  if (form instanceof Word) {
    const name = reading.word(form, path);
    return (dims, target) => lineNamed(name(dims), dims, target, field, reading);
  }
  if (isPair(form)) {
    const [a, b] = form.map((end, i) => reading.point(end, [...path, i]));
    return (dims, target) => between(a(dims, target), b(dims, target), target, field, reading);
  }
  return lineFromFields(form, path, reading);
}

const isPair = (form: LineForm): form is Extract<LineForm, readonly unknown[]> => Array.isArray(form);

function lineFromFields(form: LineFields, path: Path, reading: Reading): LineAt {
  const field = path.join('.');
  const given = Object.keys(form)
    .filter((name) => name !== 'opened')
    .sort()
    .join(', ');
  const opened = form.opened === undefined ? undefined : reading.number(form.opened, [...path, 'opened']);
  if (given === 'crease' && form.crease !== undefined) {
    const line = lineFrom(form.crease, [...path, 'crease'], reading);
    if (opened === undefined) return line;
    return (dims, target) => {
      const { a, b, up } = line(dims, target);
      const at = opened(dims);
      return { a: { ...a, opened: at }, b: { ...b, opened: at }, up };
    };
  }
  if (given === 'crossing' && form.crossing !== undefined) {
    const [one, other] = form.crossing.map((word, i) => reading.word(word, [...path, 'crossing', i]));
    return (dims) => {
      const { assembly } = reading.scene;
      const a = assembly.panelNamed(one(dims), field);
      const b = assembly.panelNamed(other(dims), field);
      return crossing(a, b, opened?.(dims) ?? 180, field, reading);
    };
  }
  if (opened !== undefined)
    reading.refuse([...path, 'opened'], "give it to the line's points, or with crossing or crease");
  if (given === 'from, to' && form.from !== undefined && form.to !== undefined) {
    const a = reading.point(form.from, [...path, 'from']);
    const b = reading.point(form.to, [...path, 'to']);
    return (dims, target) => between(a(dims, target), b(dims, target), target, field, reading);
  }
  if (given === 'far, from, turn' && form.from && form.turn && form.far) {
    const a = reading.point(form.from, [...path, 'from']);
    const turn = reading.number(form.turn, [...path, 'turn']);
    const far = reading.number(form.far, [...path, 'far']);
    return (dims, target) => {
      const start = a(dims, target);
      const panel = target === ANY ? start.panel : target;
      const [x, y] = reading.scene.prick(start, panel, field);
      const { up } = reading.scene.assembly.panels[panel];
      const t = turn(dims) * RADIANS;
      return drawn(panel, start.opened, [x, y], [Math.cos(t), up * Math.sin(t)], far(dims), up);
    };
  }
  const beside = form.along ?? form['square to'];
  if ((given === 'along, through' || given === 'square to, through') && form.through && beside) {
    const word = form.along === undefined ? 'square to' : 'along';
    const through = reading.point(form.through, [...path, 'through']);
    const line = lineFrom(beside, [...path, word], reading);
    return (dims, target) => {
      const panel = mustHavePanel(target, field);
      const { scene } = reading;
      const at = through(dims, panel);
      const { a, b } = line(dims, panel);
      const [x0, y0] = scene.prick(a, panel, field);
      const [x1, y1] = scene.prick(b, panel, field);
      const long = Math.hypot(x1 - x0, y1 - y0);
      if (long < SHORTEST) throw new CannotBuild(NO_LENGTH, field);
      const [ex, ey] = [(x1 - x0) / long, (y1 - y0) / long];
      const { up } = scene.assembly.panels[panel];
      const way: [number, number] = word === 'along' ? [ex, ey] : [-up * ey, up * ex];
      return drawn(panel, at.opened, scene.prick(at, panel, field), way, long, up);
    };
  }
  return reading.refuse(
    path,
    'give a line as { from, to }, { from, turn, far }, { through, along }, { through, square to }, { crossing: [panel, panel] } or { crease }',
  );
}

/** From one point to another. */
function between(a: Mark, b: Mark, target: number, field: string, { scene }: Reading): OpenLine {
  const panel = target === ANY ? a.panel : target;
  const { up } = scene.assembly.panels[panel];
  const [x0, y0] = scene.prick(a, panel, field);
  const [x1, y1] = scene.prick(b, panel, field);
  return { a: { panel, x: x0, y: y0, opened: a.opened }, b: { panel, x: x1, y: y1, opened: b.opened }, up };
}

function drawn(
  panel: number,
  opened: number,
  [x, y]: readonly [number, number],
  [ex, ey]: readonly [number, number],
  far: number,
  up: 1 | -1,
): OpenLine {
  return { a: { panel, x, y, opened }, b: { panel, x: x + far * ex, y: y + far * ey, opened }, up };
}

/**
 * A line by its name: of the file's places, a crease, or a crease of the part at hand by a shorter name: `ridge` for
 * `man ridge`; of the panel at hand, `foot` for `man left foot inner`.
 */
export function lineNamed(
  name: string,
  dims: Float64Array,
  target: number,
  field: string,
  reading: Reading,
): OpenLine {
  const place = reading.lineNamed(name);
  if (place !== undefined) return place(dims, target);
  const { assembly } = reading.scene;
  const crease = creaseNamed(assembly, name, target, reading.part);
  if (crease === undefined) throw reading.unknown(name, 'crease or line', field);
  const side = sideOn(assembly, crease, target);
  const [panel, line] = [crease.between[side], crease.lines[side]];
  return {
    a: { panel, x: line.x0, y: line.y0, opened: 180 },
    b: { panel, x: line.x1, y: line.y1, opened: 180 },
    up: crease.sides[side],
  };
}

function creaseNamed(assembly: Assembly, name: string, target: number, part: string): Crease | undefined {
  const { creases } = assembly;
  const exact = creases.get(name);
  if (exact !== undefined || part === '') return exact;
  const panel = target === ANY ? part : assembly.panels[target].name;
  return (
    creases.get(`${part} ${name}`) ??
    creases.get(`${part} ${name} left`) ??
    creases.get(`${panel} ${name}`) ??
    creases.get(`${panel} ${name} inner`)
  );
}

/** Which of a crease's two panels to mark it on: the one that is asked for, or what is glued to it. */
function sideOn({ panels }: Assembly, { between }: Crease, target: number): 0 | 1 {
  if (target === ANY) return 0;
  if (between[0] === target) return 0;
  if (between[1] === target) return 1;
  return panels[between[1]].body === panels[target].body ? 1 : 0;
}

/** The line in which two panels' planes meet, from the point nearest to the first one's (0, 0), 1 mm long. */
function crossing(one: number, other: number, opened: number, field: string, { scene }: Reading): OpenLine {
  const { panels } = scene.assembly;
  const frame = (k: number) => {
    const at = (x: number, y: number) => scene.world({ panel: k, x, y, opened }, field);
    const from = at(0, 0);
    const [u, v] = [minus(at(1, 0), from), minus(at(0, 1), from)];
    return { from, u, v, n: cross(u, v) };
  };
  const [a, b] = [frame(one), frame(other)];
  // In a's own axes, b's plane is the line { (x, y): x (u·n) + y (v·n) = (b − a)·n }.
  const [cx, cy] = [dot(a.u, b.n), dot(a.v, b.n)];
  const away = dot(minus(b.from, a.from), b.n);
  const steep = Math.hypot(cx, cy);
  if (steep < 1e-6)
    throw new CannotBuild(
      `'${panels[one].name}' and '${panels[other].name}' are parallel there, and don't cross`,
      field,
    );
  const [nx, ny] = [cx / steep, cy / steep];
  return drawn(one, opened, [(nx * away) / steep, (ny * away) / steep], [-ny, nx], 1, panels[one].up);
}

/** A line's two ends as they lie on a panel, in that panel's plane. */
export function lineOnPanel({ a, b }: OpenLine, panel: number, field: string, { scene }: Reading): Line {
  const [x0, y0] = scene.prick(a, panel, field);
  const [x1, y1] = scene.prick(b, panel, field);
  if (Math.hypot(x1 - x0, y1 - y0) < SHORTEST) throw new CannotBuild(NO_LENGTH, field);
  return { x0, y0, x1, y1 };
}
