import * as z from 'zod';
import type { Limits } from '../limits/index.js';
import { Assembly } from '../motion/assembly.js';
import { CannotBuild } from '../motion/cannot-build.js';
import { finish } from '../parts/finish.js';
import { partKinds } from '../parts/index.js';
import type { PartKind } from '../parts/part.js';
import type { Filled } from '../parts/shut.js';
import { applyTrims, type Trim } from '../parts/trim.js';
import { type Art, readArt } from './art.js';
import { type Card, readCard } from './card.js';
import { type Dim, Dims, type FreeDim } from './dims.js';
import { type Face, readFaces } from './faces.js';
import { readParts } from './figure-parts.js';
import { type ClearSpace, readKeepClear } from './keep-clear.js';
import { readLimits } from './limits.js';
import { OpenFigure } from './measured/open-figure.js';
import { type Page, type PageSteps, readPage, readPageSteps } from './page.js';
import { FieldReader } from './resolve.js';
import { vectorFrom } from './settings.js';
import { type Template, templateOf } from './template.js';
import { checked, lineOf } from './text/check.js';
import type { FigureSource } from './text/source.js';
import { toYaml } from './text/to-yaml.js';
import { readTrims } from './trims.js';
import { tryOut } from './try-out.js';
import { withTwins } from './twins.js';
import { type Goal, readWants, type Want } from './wants.js';

/** A size that was left out of a part, and filled in. */
export type FilledIn = Filled & { readonly part: string };

/**
 * A figure that is ready to be built for any candidate. A candidate is a vector of its free dims: for a range its value,
 * for a choice the place of the option, from 0. A vector may go on with the values of all dims that are plain numbers
 * in the file (see `vectorFrom`). Not to be built twice at the same time: it has one store of dims.
 */
export interface Figure {
  readonly name: string;
  readonly page: Page;
  readonly card: Card;
  readonly opening: PageSteps;
  /** All dims, in file order. */
  readonly dims: readonly Dim[];
  /** The names of those that change nothing, in file order. */
  readonly unused: readonly string[];
  /** The dims that a search may change: ranges, and choices of two or more; in file order. */
  readonly free: readonly FreeDim[];
  /** What no dim changes in the wants; with points and lines they come from `wantsOf`. */
  readonly wants: readonly Goal[];
  readonly limits: Limits;
  readonly keepClear: readonly ClearSpace[];
  readonly trims: readonly Trim[];
  /** The pieces whose printed face is told, and which it is. */
  readonly faces: ReadonlyMap<string, Face>;
  /** What is printed on its panels. */
  readonly art: readonly Art[];
  readonly start: Float64Array;
  /** Whether it has links, whose chains may tilt, lift and jump. */
  readonly hasChains: boolean;
  /** Whether it has a slot that something must pass through. */
  readonly hasSlots: boolean;
  /** Whether flat pieces of card are glued on: pieces, stiffeners, cover flaps. */
  readonly hasFlatPieces: boolean;
  /** Builds the pages, then each part in order. Throws CannotBuild, with the part's name and the field's whole path. */
  build(vector: Float64Array): Assembly;
  /** What the file leaves out of the parts, and their kinds fill in so that they shut. Throws CannotBuild. */
  filled(vector: Float64Array): readonly FilledIn[];
  /** One candidate drawn for cutting by hand: what of it errs, and dummies cut with errors. Throws CannotBuild. */
  template(vector: Float64Array): Template;
  /** The wants of one candidate, in file order, with points and lines. Throws CannotBuild as `build` does. */
  wantsOf(vector: Float64Array): readonly Want[];
  /** The line of the figure file on which a field stands, or else what it belongs to. @param field as in CannotBuild */
  lineOf(field: string): number;
  /** Every dim's value, arithmetic included, in file order. Throws CannotBuild where arithmetic gives no number. */
  values(vector: Float64Array): ReadonlyMap<string, number | string>;
  /** The start vector with dims set by hand. A plain number is overridden; arithmetic cannot be set. Throws InputError. */
  vectorFrom(settings: ReadonlyMap<string, string>): Float64Array;
  /** The figure file with the free dims fixed at these values, all else as it is. */
  toYaml(vector: Float64Array): string;
}

const sections = z.strictObject({
  figure: z
    .string({ error: 'a name' })
    .regex(/^[\p{L}\p{N}](?:[\p{L}\p{N} ._'-]{0,58}[\p{L}\p{N}])?$/u, {
      error:
        "a name of 1 to 60 letters, digits, blanks and . _ ' - that begins and ends with a letter or digit",
    })
    .optional(),
  page: z.unknown().optional(),
  card: z.unknown().optional(),
  opening: z.unknown().optional(),
  dims: z.unknown().optional(),
  parts: z.unknown().optional(),
  wants: z.unknown().optional(),
  limits: z.unknown().optional(),
  places: z.unknown().optional(),
  keepClear: z.unknown().optional(),
  trims: z.unknown().optional(),
  faces: z.unknown().optional(),
  art: z.unknown().optional(),
});

/** The fields of a figure file itself. */
export const SECTIONS: readonly string[] = Object.keys(sections.shape);

/** Kinds of parts that are flat pieces of card, glued on. */
const FLAT_PIECES: ReadonlySet<string> = new Set(['glued-piece', 'stiffener', 'cover-flap']);

/**
 * Understands a figure file and builds it once for each word of each choice, to find what is wrong with the file.
 * Pure: nothing is read, so that it runs in worker threads and in a page.
 * @param kinds the kinds of parts that there are
 * @throws InputError with file, line and column
 */
export function compileFigure(
  written: FigureSource,
  kinds: Readonly<Record<string, PartKind>> = partKinds,
): Figure {
  const source = withTwins(written);
  const { figure } = checked(source, [], sections);
  const page = readPage(source);
  const card = readCard(source);
  const opening = readPageSteps(source);
  const limits = readLimits(source);
  const keepClear = readKeepClear(source);
  const trims = readTrims(source);
  const faces = readFaces(source);
  const art = readArt(source);
  const dims = new Dims(source);
  const open = new OpenFigure();
  const reader = new FieldReader(source, dims, open);
  reader.readPlaces();
  const parts = readParts(source, dims, reader, kinds);
  const wanted = new FieldReader(source, dims, open);
  const wants = readWants(source, wanted);

  const pages = (handCut: boolean) => {
    const assembly = new Assembly(page, (piece) => card.of(piece).thickness, handCut);
    // Whatever is measured is measured on what is drawn, also of a dummy that is cut by hand.
    if (!handCut) open.scene.look(assembly);
    return assembly;
  };
  const end = (assembly: Assembly): void => {
    try {
      finish(assembly);
    } catch (error) {
      const part = error instanceof CannotBuild && parts.find(({ name }) => name === error.part);
      throw part ? part.blame(error) : error;
    }
    applyTrims(assembly, trims);
    boundPoses(assembly, opening.step);
  };
  const build = (vector: Float64Array): Assembly => {
    dims.fill(vector);
    const assembly = pages(false);
    for (const part of parts) part.draw(dims.slots, assembly);
    end(assembly);
    drawn = wanted.asks ? vector.slice() : null;
    return assembly;
  };
  const filled = (vector: Float64Array): FilledIn[] => {
    dims.fill(vector);
    const assembly = pages(false);
    drawn = null;
    const found: FilledIn[] = [];
    for (const part of parts)
      part.draw(dims.slots, assembly, (all) =>
        found.push(...all.map((each) => ({ ...each, part: part.name }))),
      );
    return found;
  };
  const template = (vector: Float64Array): Template => {
    dims.fill(vector);
    const asDrawn = parts.map((part) => ({ ...part, draw: (on: Assembly) => part.draw(dims.slots, on) }));
    drawn = null;
    return templateOf(asDrawn, pages, end);
  };
  /** The candidate on which wants that ask for something of the open figure may measure it. */
  let drawn: Float64Array | null = null;
  const wantsOf = (vector: Float64Array): readonly Want[] => {
    if (wanted.asks && !(drawn?.every((value, i) => value === vector[i]) ?? false)) build(vector);
    dims.fill(vector);
    return wants.map((want) => want.of(dims.slots));
  };
  tryOut(source, dims, { build, wantsOf, card, trims, faces, art });

  return {
    name: figure ?? nameOf(source.file),
    page,
    card,
    opening,
    dims: dims.all(),
    unused: dims.unused(),
    free: dims.free(),
    wants: wants.map(({ goal }) => goal),
    limits,
    keepClear,
    trims,
    faces,
    art,
    start: dims.start(),
    hasChains: parts.some(({ kind }) => kind.kind === 'link'),
    hasSlots: parts.some(({ kind }) => kind.kind === 'slot'),
    hasFlatPieces: parts.some(({ kind }) => FLAT_PIECES.has(kind.kind)),
    build,
    filled,
    template,
    wantsOf,
    lineOf: (field) => lineOf(source, field),
    values: (vector) => dims.values(vector),
    vectorFrom: (settings) => vectorFrom(dims, settings),
    toYaml: (vector) => toYaml(source, dims, vector),
  };
}

/** Poses of all panels at all page angles that a worker may have to hold: some 100 MB. */
const MOST_POSES = 1_000_000;
/** Steps that a maker would ask for, degrees. */
const STEPS = [0.1, 0.2, 0.25, 0.5, 1, 2];

function boundPoses({ panels }: Assembly, step: number): void {
  const poses = (each: number) => (180 / each + 1) * panels.length;
  if (poses(step) <= MOST_POSES) return;
  const enough = STEPS.find((each) => poses(each) <= MOST_POSES);
  throw new CannotBuild(
    `too fine for ${panels.length} panels; ${enough === undefined ? 'give fewer parts' : `${enough}° or more will do`}`,
    'opening.step',
    true,
  );
}

/** The name of a figure whose file gives none: that of the file, without folder and ending. */
function nameOf(file: string): string {
  const stem = (file.split(/[/\\]/).at(-1) ?? '').replace(/\.ya?ml$/i, '');
  const plain = stem.replace(/[^\p{L}\p{N} ._'-]/gu, '-').replace(/^[^\p{L}\p{N}]+|[^\p{L}\p{N}]+$/gu, '');
  return plain.slice(0, 60) || 'figure';
}
