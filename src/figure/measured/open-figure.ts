import { CannotBuild } from '../../motion/cannot-build.js';
import { label } from '../../parts/label.js';
import { lineFields, lineForm, pointFields } from '../../parts/spots.js';
import { checked, faultAt, strayField, valueAt } from '../text/check.js';
import type { Path } from '../text/input-error.js';
import { knownNames } from '../text/near.js';
import type { FigureSource } from '../text/source.js';
import { ANY, type LineAt, type PointAt, type Reading } from './forms.js';
import { lineFrom } from './lines.js';
import { pointFrom } from './points.js';
import { Scene } from './scene.js';

const MOST_PLACES = 200;
/** Deepest that places may follow from one another. */
const DEEPEST = 50;

/** The figure as far as it is built, with the named places and lines of its file. */
export class OpenFigure {
  readonly scene = new Scene();
  readonly #points = new Map<string, PointAt>();
  readonly #lines = new Map<string, LineAt>();
  #deep = 0;

  /** Reads `places`. */
  read(source: FigureSource, reading: Reading): void {
    const written = valueAt(source, ['places']) ?? {};
    if (typeof written !== 'object' || Array.isArray(written))
      throw faultAt(source, ['places'], "give fields such as 'hip: { on: body, at: [38, 30] }'");
    const names = Object.keys(written);
    if (names.length > MOST_PLACES)
      throw faultAt(source, ['places'], `give at most ${MOST_PLACES}`, `${names.length} places`);
    for (const name of names) {
      const path: Path = ['places', name];
      if (!label().safeParse(name).success || /[(),]/.test(name))
        throw strayField(source, path, 'name a place in at most 60 characters, without brackets and commas');
      this.#readOne(source, name, path, reading);
    }
  }

  #readOne(source: FigureSource, name: string, path: Path, reading: Reading): void {
    const found = valueAt(source, path);
    if (Array.isArray(found)) {
      this.#lines.set(name, this.#guarded(lineFrom(checked(source, path, lineForm), path, reading), path));
      return;
    }
    if (found === null || typeof found !== 'object')
      throw faultAt(
        source,
        path,
        'give a point such as { on: body, at: [38, 30] }, or a line such as { from: hip, to: knee }',
      );
    const has = (...fields: string[]) => fields.some((field) => Object.hasOwn(found, field));
    const isLine = has('to', 'through', 'crossing', 'crease');
    // An angle or a side counts from the panel of the place that it is drawn from, wherever the new place is asked for.
    const isDrawn = has('turn', 'between') && !has('panel');
    const anchored = <Found>(at: (dims: Float64Array, target: number) => Found) =>
      this.#guarded(isDrawn ? (dims: Float64Array) => at(dims, ANY) : at, path);
    if (!isLine)
      this.#points.set(name, anchored(pointFrom(checked(source, path, pointFields), path, reading)));
    // So far from a point at an angle is a point, and the line to it.
    if (isLine || (has('turn') && !has('panel')))
      this.#lines.set(name, anchored(lineFrom(checked(source, path, lineFields), path, reading)));
  }

  pointNamed(name: string): PointAt | undefined {
    return this.#points.get(name);
  }

  lineNamed(name: string): LineAt | undefined {
    return this.#lines.get(name);
  }

  /** Says that nothing has that name so far. */
  unknown(name: string, what: string, field: string): CannotBuild {
    const { creases } = this.scene.assembly;
    const known = what === 'place' ? [...this.#points.keys()] : [...this.#lines.keys(), ...creases.keys()];
    return new CannotBuild(
      `no ${what} is named '${name}' so far; ${knownNames(name, known, what)}`,
      field,
      true,
    );
  }

  /** Stops where places go round in a circle. */
  #guarded<Found>(
    at: (dims: Float64Array, target: number) => Found,
    path: Path,
  ): (dims: Float64Array, target: number) => Found {
    return (dims, target) => {
      if (this.#deep === DEEPEST)
        throw new CannotBuild(
          `places that follow from one another in a circle, or more than ${DEEPEST} deep`,
          path.join('.'),
          true,
        );
      this.#deep++;
      try {
        return at(dims, target);
      } finally {
        this.#deep--;
      }
    };
  }
}
