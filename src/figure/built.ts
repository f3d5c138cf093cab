import type { Assembly } from '../motion/assembly.js';
import { CannotBuild } from '../motion/cannot-build.js';
import type { Flat } from '../parts/attach.js';
import { LONGEST, Quantity, Word } from '../parts/fields.js';
import { Along, lineForm, pointForm } from '../parts/spots.js';
import { Dims } from './dims.js';
import type { OpenLine, Reading } from './measured/forms.js';
import { lineFrom } from './measured/lines.js';
import { measureFrom } from './measured/measures.js';
import { OpenFigure } from './measured/open-figure.js';
import { pointFrom } from './measured/points.js';
import type { Mark } from './measured/scene.js';
import { FieldReader } from './resolve.js';
import type { Formula, Measure } from './text/arithmetic.js';
import { InputError, type Path } from './text/input-error.js';
import type { FigureSource, Json } from './text/source.js';
import { withTwins } from './twins.js';

/**
 * A figure that stands built as its file starts it, to be asked where what the file writes lies: for whoever points at
 * it. What cannot be worked out is null.
 */
export class BuiltFigure {
  readonly assembly: Assembly;
  readonly #reader: FieldReader;
  readonly #slots: Float64Array;

  /** @throws InputError for a file that cannot be used, CannotBuild for dims that give no number */
  constructor(written: FigureSource, assembly: Assembly) {
    const source = withTwins(written);
    const dims = new Dims(source);
    const open = new OpenFigure();
    this.assembly = assembly;
    this.#reader = new FieldReader(source, dims, open);
    this.#reader.readPlaces();
    open.scene.look(assembly);
    dims.fill(dims.start());
    this.#slots = dims.slots;
  }

  /**
   * Where a point lies.
   * @param target the panel on which it is wanted, or ANY
   * @param part whose creases go by short names
   */
  point(written: Json, path: Path, target: number, part = ''): Mark | null {
    const form = pointForm.safeParse(written);
    if (!form.success) return null;
    return this.#found(part, (reading) => pointFrom(form.data, path, reading)(this.#slots, target));
  }

  /** A point as it lies in the plane of another panel: pricked through. */
  pricked(mark: Mark, panel: number): Flat | null {
    return this.#found('', ({ scene }) => scene.prick(mark, panel, ''));
  }

  line(written: Json, path: Path, target: number, part = ''): OpenLine | null {
    const form = lineForm.safeParse(written);
    if (!form.success) return null;
    return this.#found(part, (reading) => lineFrom(form.data, path, reading)(this.#slots, target));
  }

  /** What a number comes to. @param long of a place along a line: how long that is, mm */
  number(written: Json | undefined, path: Path, long = Number.NaN): number | null {
    if (typeof written === 'number') return written;
    if (typeof written !== 'string') return null;
    const found = this.#found('', (reading) =>
      Number.isNaN(long)
        ? reading.number(new Quantity(written, '', -LONGEST, LONGEST), path)(this.#slots)
        : reading.along(new Along(written, -LONGEST, LONGEST, '', ''), path)(this.#slots, long),
    );
    return found !== null && Number.isFinite(found) ? found : null;
  }

  /** A name, or the option that a dim has chosen. */
  word(written: Json | undefined, path: Path): string | null {
    if (typeof written !== 'string') return null;
    return this.#found('', (reading) => reading.word(new Word(written, []), path)(this.#slots));
  }

  /** What arithmetic measures on the figure, as it stands. */
  measure(asked: Measure, opened: Formula | undefined, path: Path): Formula {
    return measureFrom(asked, opened, path.join('.'), this.#reader.reading());
  }

  #found<Found>(part: string, find: (reading: Reading) => Found): Found | null {
    try {
      return find(this.#reader.reading(part));
    } catch (error) {
      if (error instanceof CannotBuild || error instanceof InputError) return null;
      throw error;
    }
  }
}
