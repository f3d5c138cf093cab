import { realpathSync } from 'node:fs';
import { dirname, isAbsolute, join, normalize, relative, sep, win32 } from 'node:path';
import * as z from 'zod';
import { Drawing } from './outlines/drawing.js';
import { type DrawnOutline, drawnOutline } from './outlines/drawn-outline.js';
import { PathFault } from './outlines/flatten.js';
import { withOutlines } from './outlines/put-in.js';
import { checked, faultAt, valueAt } from './text/check.js';
import { InputError, type Path, quoted } from './text/input-error.js';
import { type Refuse, readText, troubleOf } from './text/read-text.js';
import { type FigureSource, MOST_BYTES, parseFigure } from './text/source.js';

/** Largest SVG file, and most of all SVG files of one figure, bytes. Parsed, they take some forty times that. */
export const MOST_SVG_BYTES = 4_000_000;
/** Largest PNG file of art, bytes. */
export const MOST_PNG_BYTES = 20_000_000;
export const MOST_BYTES_OF_ALL = 8_000_000;
/** Most corners of all SVG outlines of one figure. */
const MOST_CORNERS_OF_ALL = 10_000;
/** Most SVG files of one figure. */
const MOST_DRAWINGS = 50;

const outlineFields = z.strictObject({
  svg: z.string({ error: "the name of an SVG file beside the figure file, such as 'boat.svg'" }),
  path: z.string({ error: 'the id of a path in that file' }),
  zero: z
    .tuple([z.number(), z.number()], { error: "a point [x, y] in mm from the drawing's top left corner" })
    .optional(),
  grow: z.enum(['yes', 'no']).optional(),
  margin: z.number().min(0).max(10_000).optional(),
});

/**
 * Reads a figure file and the SVG outlines that it names, which must lie in its folder or below.
 * @throws InputError for whatever cannot be read or made out, with its place
 */
export function readFigure(path: string): FigureSource {
  const text = readText(path, MOST_BYTES, (found, remedy) => new InputError({ file: path, found, remedy }));
  const source = parseFigure(text, path);
  const outline = outlineReader(source);
  return { ...source, data: withOutlines(source.data, (at) => ({ ...outline(at) })) };
}

/**
 * Reads the SVG outlines that a figure names, one at a time, each file once.
 * @returns the outline that stands at a path of the figure file as `{ svg, path, zero }`; it throws InputError for what
 *   cannot be read or made out
 */
export function outlineReader(source: FigureSource): (at: Path) => DrawnOutline {
  const drawings = new Drawings(source);
  return (at) => drawings.outline(at);
}

/** The drawings that a figure names, of outlines and of art, as it names them. Art that is not beside it is left out. */
export function drawingsOf({ text, file }: FigureSource): string[] {
  const source = parseFigure(text, file);
  const names = new Set<string>();
  withOutlines(source.data, (at) => {
    names.add(String(valueAt(source, [...at, 'svg'])));
    return null;
  });
  const art = valueAt(source, ['art']);
  for (const i of Array.isArray(art) ? art.keys() : []) {
    const name = valueAt(source, ['art', i, 'drawing']);
    if (typeof name === 'string' && isBeside(file, name)) names.add(name);
  }
  return [...names];
}

/** Whether a file of that name lies in the folder of the figure file, or below. */
function isBeside(figure: string, name: string): boolean {
  try {
    fileBeside(figure, name, (found, remedy) => new InputError({ file: figure, found, remedy }));
    return true;
  } catch {
    return false;
  }
}

/** The SVG files of a figure, each read once. */
class Drawings {
  readonly #source: FigureSource;
  readonly #byFile = new Map<string, Drawing>();
  #corners = 0;
  #bytesLeft = MOST_BYTES_OF_ALL;

  constructor(source: FigureSource) {
    this.#source = source;
  }

  /** The outline that stands at a path of the figure file as `{ svg, path, zero }`. */
  outline(at: Path): DrawnOutline & { grow?: 'yes' | 'no'; margin?: number } {
    const { svg, path: id, zero, ...growing } = checked(this.#source, at, outlineFields);
    const refuse: Refuse = (found, remedy) =>
      faultAt(this.#source, [...at, 'svg'], remedy, `${found} in ${quoted(svg)}`);
    try {
      const outline = drawnOutline(this.#named(svg, [...at, 'svg']), id, zero);
      for (const ring of [outline.polygon, ...(outline.holes ?? [])]) this.#corners += ring.length;
      if (this.#corners > MOST_CORNERS_OF_ALL)
        throw refuse('more corners than may be', `at most ${MOST_CORNERS_OF_ALL} in one figure`);
      return { ...outline, ...growing };
    } catch (error) {
      if (error instanceof PathFault) throw refuse(error.found, error.remedy);
      throw error;
    }
  }

  /** The file must lie in the folder, symbolic links followed. */
  #named(name: string, at: Path): Drawing {
    const refuse: Refuse = (found, remedy) => faultAt(this.#source, at, remedy, `${quoted(name)}, ${found}`);
    const file = fileBeside(this.#source.file, name, refuse);
    const known = this.#byFile.get(file);
    if (known !== undefined) return known;
    if (this.#byFile.size === MOST_DRAWINGS)
      throw refuse('one drawing too many', `at most ${MOST_DRAWINGS} in one figure`);
    const text = readText(file, MOST_SVG_BYTES, refuse);
    if (!/\.svg$/i.test(name))
      throw refuse(
        'a file whose name does not end in .svg',
        'give the name of an SVG file beside the figure file',
      );
    this.#bytesLeft -= Buffer.byteLength(text);
    if (this.#bytesLeft < 0)
      throw refuse(
        'too large beside the others',
        `keep all drawings together under ${MOST_BYTES_OF_ALL} bytes`,
      );
    const drawing = new Drawing(text);
    this.#byFile.set(file, drawing);
    return drawing;
  }
}

/**
 * A file that is named in a figure file and lies in its folder or below, symbolic links followed.
 * @param figure the path of the figure file
 */
export function fileBeside(figure: string, name: string, refuse: Refuse): string {
  const outside = () =>
    refuse('which lies elsewhere', 'put the drawing in the folder of the figure file, or below');
  // Also where it comes back in again: beside a copy of the figure file it would lead elsewhere.
  if (isAbsolute(name) || win32.isAbsolute(name) || climbs(normalize(name))) throw outside();
  let folder: string;
  let file: string;
  try {
    folder = realpathSync(dirname(figure));
    file = realpathSync(join(folder, name));
  } catch (error) {
    throw refuse(troubleOf(error), 'give the name of an SVG file beside the figure file');
  }
  const way = relative(folder, file);
  if (climbs(way) || isAbsolute(way)) throw outside();
  return file;
}

const climbs = (way: string): boolean => way === '..' || way.startsWith(`..${sep}`);
