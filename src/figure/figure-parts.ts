import type { Assembly } from '../motion/assembly.js';
import { CannotBuild } from '../motion/cannot-build.js';
import { Quantity } from '../parts/fields.js';
import { drawOutline } from '../parts/outline.js';
import { Outline } from '../parts/outline-forms.js';
import type { PartKind } from '../parts/part.js';
import type { Filled } from '../parts/shut.js';
import { type Dims, wordsOf } from './dims.js';
import { type Entry, readEntries } from './entries.js';
import type { DrawnPart } from './hand/cut.js';
import { pointsWritten } from './measured/outlines.js';
import type { FieldReader, LaterOutline, Resolver } from './resolve.js';
import { faultAt } from './text/check.js';
import { type Path, quoted } from './text/input-error.js';
import type { FigureSource } from './text/source.js';

const MOST_PARTS = 200;
/** Most points of all outlines and lines of all parts together. */
const MOST_POINTS = 10_000;

/** A part of the figure, ready to be added for any candidate. */
export interface Part extends Omit<DrawnPart, 'draw'> {
  /**
   * Adds it for the candidate whose dims stand in the slots: its fields are worked out from what stands there already,
   * then its panels are added, and then the outlines that follow what lies on them.
   * @param fill is told what was filled in so that it shuts
   * @returns its fields, as they would stand in a file without arithmetic
   */
  draw(dims: Float64Array, assembly: Assembly, fill?: (filled: readonly Filled[]) => void): object;
  /** What was found, with the part's name and the field's whole path. */
  blame(error: CannotBuild): CannotBuild;
}

/** Reads `parts`, in file order. @throws InputError */
export function readParts(
  source: FigureSource,
  dims: Dims,
  reader: FieldReader,
  kinds: Readonly<Record<string, PartKind>>,
): Part[] {
  const schemas = Object.fromEntries(Object.values(kinds).map(({ kind, fields }) => [kind, fields]));
  const entries = readEntries(source, 'parts', schemas, MOST_PARTS);
  if (entries.length === 0) throw faultAt(source, ['parts'], 'give a list of one part or more');
  const points = entries.reduce((sum, { fields }) => sum + pointsIn(fields), 0);
  if (points > MOST_POINTS)
    throw faultAt(source, ['parts'], `give at most ${MOST_POINTS} in all`, `${points} points`);
  return entries.map((entry) => {
    const dim = dims.named(entry.name);
    if (dim !== undefined && wordsOf(dim) !== undefined)
      throw faultAt(
        source,
        [...entry.path, 'name'],
        'name the part or the dim otherwise',
        `${quoted(entry.name)}, also the name of a dim that chooses between words`,
      );
    const later: LaterOutline[] = [];
    const resolve = reader.compile(entry.fields, entry.path, { name: entry.name, later });
    return partOf(entry, kinds[entry.kind], resolve, later);
  });
}

function pointsIn(fields: unknown): number {
  if (typeof fields !== 'object' || fields === null || fields instanceof Quantity) return 0;
  if (fields instanceof Outline) return pointsWritten(fields.form);
  const parts = Object.values(fields);
  if (parts.length === 2 && parts.every((part) => part instanceof Quantity)) return 1;
  return parts.reduce<number>((sum, part) => sum + pointsIn(part), 0);
}

function partOf(
  { name, path }: Entry,
  kind: PartKind,
  resolve: Resolver<unknown>,
  later: readonly LaterOutline[],
): Part {
  const blame = ({ message, field, structural }: CannotBuild, within: Path = path) => {
    const whole = [...within, ...(field === '' ? [] : [field])];
    return new CannotBuild(`${name}: ${message}`, whole.join('.'), structural);
  };
  /** Does it, and puts the part's name to what cannot be built. @param within where the fields stand that are blamed */
  const blaming = <Done>(within: Path, act: () => Done): Done => {
    try {
      return act();
    } catch (error) {
      if (error instanceof CannotBuild) throw blame(error, within);
      throw error;
    }
  };
  // What mirrors an outline needs that outline first.
  const inTurn = [...later.filter(({ follows }) => !follows), ...later.filter(({ follows }) => follows)];
  return {
    name,
    kind,
    blame,
    draw(dims, assembly, fill) {
      const written = blaming([], () => resolve(dims) as object);
      const { fields, filled } = blaming(
        path,
        () => kind.complete?.(written) ?? { fields: written, filled: [] },
      );
      if (filled.length > 0) fill?.(filled);
      blaming(path, () => kind.build(name, fields, assembly));
      return blaming([], () =>
        inTurn.reduce((known, { field, at }) => {
          const panel = assembly.panelNamed(panelOf(name, field), [...path, ...field].join('.'));
          const outline = at(dims, panel);
          drawOutline(assembly, panel, outline, [...path, ...field].join('.'));
          return withField(known, field, outline);
        }, fields),
      );
    },
    add(as, fields, assembly) {
      blaming(path, () => as.build(name, fields, assembly));
    },
  };
}

/** The panel whose outline a field holds: `outlines.left` that of the left side, `outline` the part's only one. */
const panelOf = (part: string, field: readonly string[]): string =>
  field[0] === 'outlines' ? `${part} ${field[1]}` : part;

/** A copy of fields with another value at a path. */
function withField(fields: object, [step, ...rest]: readonly string[], value: unknown): object {
  const held = fields as Record<string, unknown>;
  return {
    ...fields,
    [step]: rest.length === 0 ? value : withField((held[step] ?? {}) as object, rest, value),
  };
}
