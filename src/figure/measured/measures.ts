import { CannotBuild } from '../../motion/cannot-build.js';
import type { Formula, Measure } from '../text/arithmetic.js';
import { ANY, type OpenLine, type Reading } from './forms.js';
import { lineNamed, lineOnPanel } from './lines.js';
import type { Mark } from './scene.js';

const DEGREES = 180 / Math.PI;

/**
 * What arithmetic asks of the figure (see MEASURES), in mm and degrees.
 * @param opened the page angle, degrees; as the places and lines have it, if not given
 */
export function measureFrom(
  asked: Measure,
  opened: Formula | undefined,
  field: string,
  reading: Reading,
): Formula {
  const [one, other] = asked.names;
  const at = (mark: Mark, dims: Float64Array): Mark =>
    opened === undefined ? mark : { ...mark, opened: opened(dims) };
  const line = (name: string, dims: Float64Array, target = ANY): OpenLine => {
    const found = lineNamed(name, dims, target, field, reading);
    return { ...found, a: at(found.a, dims), b: at(found.b, dims) };
  };
  const place = (name: string, dims: Float64Array, target = ANY): Mark => {
    const found = reading.pointNamed(name);
    if (found === undefined) throw reading.unknown(name, 'place', field);
    return at(found(dims, target), dims);
  };
  const { scene } = reading;
  const way = ({ a, b }: OpenLine) => minus(scene.world(b, field), scene.world(a, field));
  switch (asked.of) {
    case 'distance':
      return (dims) =>
        lengthOf(minus(scene.world(place(other, dims), field), scene.world(place(one, dims), field)));
    case 'length':
      return (dims) => lengthOf(way(line(one, dims)));
    case 'angle':
      return (dims) => {
        const [u, v] = [way(line(one, dims)), way(line(other, dims))];
        return Math.atan2(lengthOf(cross(u, v)), u[0] * v[0] + u[1] * v[1] + u[2] * v[2]) * DEGREES;
      };
    case 'heading':
      return (dims) => {
        const panel = scene.assembly.panelNamed(other, field);
        const { up } = scene.assembly.panels[panel];
        const { x0, y0, x1, y1 } = lineOnPanel(line(one, dims, panel), panel, field, reading);
        return Math.atan2(up * (y1 - y0), x1 - x0) * DEGREES;
      };
    case 'along':
    case 'up':
      return (dims) => alongAndUp(dims)[asked.of === 'along' ? 0 : 1];
    default:
      throw new TypeError(`no measure is called ${asked.of}`);
  }

  /** Of a place, on a panel or on a crease or line. */
  function alongAndUp(dims: Float64Array): [number, number] {
    const { panels } = scene.assembly;
    const panel = panels.findIndex(({ name }) => name === other);
    if (panel >= 0) {
      const [x, y] = scene.prick(place(one, dims, panel), panel, field);
      return [x, panels[panel].up * y];
    }
    const { a, b, up } = line(other, dims);
    const [x, y] = scene.prick(place(one, dims, a.panel), a.panel, field);
    const [x1, y1] = scene.prick(b, a.panel, field);
    const long = Math.hypot(x1 - a.x, y1 - a.y);
    if (long < 0.001) throw new CannotBuild('a line of no length', field);
    const [ex, ey] = [(x1 - a.x) / long, (y1 - a.y) / long];
    return [(x - a.x) * ex + (y - a.y) * ey, up * ((y - a.y) * ex - (x - a.x) * ey)];
  }
}

type Space = readonly [number, number, number];

const minus = (a: Space, b: Space): Space => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const lengthOf = (v: Space): number => Math.hypot(v[0], v[1], v[2]);
const cross = (a: Space, b: Space): Space => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
