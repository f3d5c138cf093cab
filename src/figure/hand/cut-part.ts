import type { Assembly } from '../../motion/assembly.js';
import type { DrawnEdge, Stretch } from '../../parts/by-hand.js';
import { Leaf, Quantity, Word } from '../../parts/fields.js';
import type { Drawn, PartKind } from '../../parts/part.js';
import type { Cut, DrawnPart } from './cut.js';
import { cutName } from './cut-names.js';
import { CutRing } from './cut-ring.js';

type Path = readonly (string | number)[];
/** Puts the errors into a copy of the fields. */
type Write = (fields: object, errors: Float64Array) => void;

/** One part as it is cut: what of it errs, and its fields with the errors of a dummy. */
export class CutPart {
  /** As drawn: all that errs on its own in a field of its own. */
  readonly fields: object;
  readonly kind: PartKind;
  readonly #leaves: unknown;
  readonly #words: Readonly<Record<string, string>>;
  readonly #exact: readonly string[];
  /** The dotted path of the field of its last tab, where the page is shut on that. */
  readonly #closed: string | null;
  /** Paths to what is hinged on other panels. */
  readonly #hinged: Path[] = [];
  readonly #writes: Write[] = [];
  readonly #rings: { path: Path; panel: string; ring: CutRing; first: number }[] = [];

  constructor(
    readonly part: DrawnPart,
    { kind = part.kind, fields, words = {}, exact = [] }: Drawn,
  ) {
    this.kind = kind;
    this.#words = words;
    this.#exact = [...exact, ...(kind.byHand?.exact ?? [])];
    // Read again as if they stood in a file, every number tells its unit and bounds.
    this.#leaves = kind.fields.parse(fields);
    this.fields = plain(this.#leaves) as object;
    this.#closed = kind.byHand?.closing?.field(this.fields) ?? null;
  }

  edges(fields: object): readonly DrawnEdge[] {
    return this.kind.byHand?.edges?.(this.part.name, fields) ?? [];
  }

  hinges(fields: object): readonly { panel: string; line: Stretch }[] {
    return this.#hinged.map((path) => valueAt(fields, path) as { panel: string; line: Stretch });
  }

  /** Adds a cut for everything but outlines. */
  listFields(cuts: Cut[]): void {
    const outlines = this.edges(this.fields).map(({ field }) => field);
    this.#visit(
      this.#leaves,
      [],
      cuts,
      (path) => this.#exact.includes(String(path[0])) || outlines.includes(path.join('.')),
    );
  }

  listOutlines(cuts: Cut[], creases: ReadonlyMap<string, readonly Stretch[]>): void {
    for (const { field, panel } of this.edges(this.fields)) {
      const path = field.split('.');
      const outline = valueAt(this.fields, path) as { polygon: Ring; holes?: readonly Ring[] } | undefined;
      if (outline === undefined) continue;
      this.#addRing([...path, 'polygon'], panel, outline.polygon, cuts, creases.get(panel) ?? []);
      for (const [i, hole] of (outline.holes ?? []).entries())
        this.#addRing([...path, 'holes', i], panel, hole, cuts, []);
    }
  }

  withErrors(errors: Float64Array): object {
    const fields = plain(this.#leaves) as object;
    for (const write of this.#writes) write(fields, errors);
    return fields;
  }

  /** Its fields with errors, as it is glued in a dummy that is made as far as this part. */
  glued(fields: object, assembly: Assembly, drawing: Assembly): object {
    const closing = this.kind.byHand?.closing;
    return this.#closed === null || closing === undefined
      ? fields
      : closing.settle(this.fields, fields, assembly, drawing);
  }

  cutOutlines(fields: object, errors: Float64Array, creases: ReadonlyMap<string, readonly Stretch[]>): void {
    for (const { path, panel, ring, first } of this.#rings) {
      const error = (station: number, axis: 0 | 1) => errors[first + 2 * station + axis];
      setAt(fields, path, ring.cut(error, creases.get(panel) ?? []));
    }
  }

  #visit(leaf: unknown, path: Path, cuts: Cut[], skip: (path: Path) => boolean): void {
    if (skip(path)) return;
    if (leaf instanceof Leaf) this.#visit(leaf.form, path, cuts, skip);
    else if (leaf instanceof Quantity) this.#addNumber(leaf, path, cuts);
    else if (isRing(leaf)) this.#addRing(path, '', valueAt(this.fields, path) as Ring, cuts, []);
    else if (isLine(leaf)) this.#addLine(path, cuts);
    else if (typeof leaf === 'object' && leaf !== null) {
      if ('line' in leaf && 'panel' in leaf) this.#hinged.push(path);
      for (const [name, part] of Object.entries(leaf))
        this.#visit(part, [...path, Array.isArray(leaf) ? Number(name) : name], cuts, skip);
    }
  }

  #add(cuts: Cut[], path: Path, extra: string, unit: Cut['unit'], value: number): number {
    const field = [cutName(path, this.#words), extra].filter((word) => word !== '').join(' ');
    const written = path.join('.');
    const closedOn =
      this.#closed !== null && (written === this.#closed || written.startsWith(`${this.#closed}.`));
    return cuts.push({ part: this.part.name, field, unit, value, closedOn }) - 1;
  }

  #addNumber({ unit, least, most }: Quantity, path: Path, cuts: Cut[]): void {
    const value = valueAt(this.fields, path) as number;
    if (unit === '' || (value === 0 && least === 0)) return;
    const number = this.#add(cuts, path, '', unit, value);
    this.#writes.push((fields, errors) =>
      setAt(fields, path, Math.min(most, Math.max(least, value + errors[number]))),
    );
  }

  #addLine(path: Path, cuts: Cut[]): void {
    const [[x0, y0], [x1, y1]] = valueAt(this.fields, path) as Stretch;
    const long = Math.hypot(x1 - x0, y1 - y0);
    const heading = Math.atan2(y1 - y0, x1 - x0);
    const across = this.#add(cuts, path, 'across', 'mm', 0);
    const turn = this.#add(cuts, path, 'turn', 'degrees', (heading * 180) / Math.PI);
    const start = this.#add(cuts, path, 'start', 'mm', 0);
    const end = this.#add(cuts, path, 'end', 'mm', long);
    this.#writes.push((fields, errors) => {
      const turned = heading + (errors[turn] * Math.PI) / 180;
      const [ex, ey] = [Math.cos(turned), Math.sin(turned)];
      const [mx, my] = [(x0 + x1) / 2 - ey * errors[across], (y0 + y1) / 2 + ex * errors[across]];
      const at = (along: number) => [mx + along * ex, my + along * ey];
      setAt(fields, path, [at(errors[start] - long / 2), at(errors[end] + long / 2)]);
    });
  }

  #addRing(path: Path, panel: string, drawn: Ring, cuts: Cut[], creases: readonly Stretch[]): void {
    const ring = new CutRing(drawn, creases);
    const first = cuts.length;
    for (const corner of ring.stationCorners)
      for (const axis of [0, 1] as const)
        this.#add(cuts, path, `corner ${corner + 1} ${'xy'[axis]}`, 'mm', drawn[corner][axis]);
    this.#rings.push({ path, panel, ring, first });
  }
}

type Ring = readonly (readonly [number, number])[];

const isPoint = (leaf: unknown): boolean =>
  Array.isArray(leaf) && leaf.length === 2 && leaf.every((part) => part instanceof Quantity);
const isLine = (leaf: unknown): boolean => Array.isArray(leaf) && leaf.length === 2 && leaf.every(isPoint);
const isRing = (leaf: unknown): boolean => Array.isArray(leaf) && leaf.length > 2 && leaf.every(isPoint);

function valueAt(fields: unknown, path: Path): unknown {
  return path.reduce((value: unknown, step) => (value as Record<string | number, unknown>)?.[step], fields);
}

function setAt(fields: object, path: Path, value: unknown): void {
  const holder = valueAt(fields, path.slice(0, -1)) as Record<string | number, unknown>;
  holder[path[path.length - 1]] = value;
}

/** The numbers and words of leaves, in objects and lists of their own. */
function plain(value: unknown): unknown {
  if (value instanceof Quantity || value instanceof Word) return value.written;
  if (value instanceof Leaf) return plain(value.form);
  if (Array.isArray(value)) return value.map(plain);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([name, part]) => [name, plain(part)]));
}
