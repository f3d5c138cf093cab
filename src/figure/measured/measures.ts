import { CannotBuild } from '../../motion/cannot-build.js';
import type { Formula, Measure } from '../text/arithmetic.js';
import { ANY, NO_LENGTH, type OpenLine, type Reading } from './forms.js';
import { lineNamed, lineOnPanel, SHORTEST } from './lines.js';
import type { Mark } from './scene.js';
import { cross, dot, lengthOf, minus } from './space.js';

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
        if (Math.min(lengthOf(u), lengthOf(v)) < SHORTEST) throw new CannotBuild(NO_LENGTH, field);
        return Math.atan2(lengthOf(cross(u, v)), dot(u, v)) * DEGREES;
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
    const found = line(other, dims);
    const on = found.a.panel;
    const { x0, y0, x1, y1 } = lineOnPanel(found, on, field, reading);
    const [x, y] = scene.prick(place(one, dims, on), on, field);
    const long = Math.hypot(x1 - x0, y1 - y0);
    const [ex, ey] = [(x1 - x0) / long, (y1 - y0) / long];
    return [(x - x0) * ex + (y - y0) * ey, found.up * ((y - y0) * ex - (x - x0) * ey)];
  }
}
