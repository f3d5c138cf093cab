import { readFileSync, realpathSync, statSync } from 'node:fs';
import { dirname, isAbsolute, join, relative, sep, win32 } from 'node:path';
import { z } from 'zod';
import { checked, faultAt } from './check.js';
import { PathFault } from './flatten.js';
import { InputError, type Path, quoted } from './input-error.js';
import { type FigureSource, type Json, MOST_BYTES, parseFigure } from './source.js';
import { type DrawnOutline, outlineFromSvg } from './svg-outline.js';

/** Largest SVG file, bytes. */
const MOST_SVG_BYTES = 4_000_000;
/** Most corners of all SVG outlines of one figure. */
const MOST_CORNERS = 10_000;

const drawing = z.strictObject({
  svg: z.string({ error: "the name of an SVG file beside the figure file, such as 'boat.svg'" }),
  path: z.string({ error: 'the id of a path in that file' }),
  zero: z
    .tuple([z.number(), z.number()], { error: "a point [x, y] in mm from the drawing's top left corner" })
    .optional(),
});

/**
 * Reads a figure file and the SVG outlines that it names, which must lie in its folder or below.
 * @throws InputError for whatever cannot be read or made out, with its place
 */
export function readFigure(path: string): FigureSource {
  const bytes = readBytes(path, MOST_BYTES, (found, remedy) => new InputError({ file: path, found, remedy }));
  const source = parseFigure(
    asText(bytes, (found, remedy) => new InputError({ file: path, found, remedy })),
    path,
  );
  const folder = realpathSync(dirname(path));
  const drawings = new Map<string, string>();
  let corners = 0;

  const drawn = (at: Path): DrawnOutline => {
    const { svg, path: id, zero } = checked(source, at, drawing);
    const refuse = (found: string, remedy: string) =>
      faultAt(source, [...at, 'svg'], remedy, `${found} in ${quoted(svg)}`);
    const text = drawings.get(svg) ?? readDrawing(folder, svg, source, [...at, 'svg']);
    drawings.set(svg, text);
    try {
      const outline = outlineFromSvg(text, id, zero);
      for (const ring of [outline.polygon, ...(outline.holes ?? [])]) corners += ring.length;
      if (corners > MOST_CORNERS)
        throw refuse('more corners than may be', `at most ${MOST_CORNERS} in one figure`);
      return outline;
    } catch (error) {
      if (error instanceof PathFault) throw refuse(error.found, error.remedy);
      throw error;
    }
  };
  const withOutlines = (value: Json, at: Path): Json => {
    if (Array.isArray(value)) return value.map((part, i) => withOutlines(part, [...at, i]));
    if (value === null || typeof value !== 'object') return value;
    if (Object.hasOwn(value, 'svg')) return { ...drawn(at) };
    return Object.fromEntries(
      Object.entries(value).map(([field, part]) => [field, withOutlines(part, [...at, field])]),
    );
  };
  return { ...source, data: withOutlines(source.data, []) };
}

type Refuse = (found: string, remedy: string) => InputError;

/** Reads an SVG file that must lie in the folder, symbolic links followed. */
function readDrawing(folder: string, name: string, source: FigureSource, at: Path): string {
  const refuse: Refuse = (found, remedy) => faultAt(source, at, remedy, `${quoted(name)}, ${found}`);
  const outside = () =>
    refuse('which lies elsewhere', 'put the drawing in the folder of the figure file, or below');
  if (isAbsolute(name) || win32.isAbsolute(name)) throw outside();
  let path: string;
  try {
    path = realpathSync(join(folder, name));
  } catch (error) {
    throw refuse(troubleOf(error), 'give the name of an SVG file beside the figure file');
  }
  const way = relative(folder, path);
  if (way === '..' || way.startsWith(`..${sep}`) || isAbsolute(way)) throw outside();
  return asText(readBytes(path, MOST_SVG_BYTES, refuse), refuse);
}

function readBytes(path: string, most: number, refuse: Refuse): Buffer {
  try {
    const about = statSync(path);
    // A pipe or a device would be waited for without end.
    if (!about.isFile()) throw refuse('what is not a file', 'give the name of a file');
    if (about.size > most) throw refuse(`${about.size} bytes`, `keep it under ${most}`);
    return readFileSync(path);
  } catch (error) {
    if (error instanceof InputError) throw error;
    throw refuse(troubleOf(error), 'give the name of a file that can be read');
  }
}

function asText(bytes: Buffer, refuse: Refuse): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw refuse('bytes that are not UTF-8 text', 'save it with the encoding UTF-8');
  }
}

function troubleOf(error: unknown): string {
  const code = (error as NodeJS.ErrnoException).code ?? '';
  if (code === 'ENOENT' || code === 'ENOTDIR') return 'no such file';
  if (code === 'EACCES' || code === 'EPERM') return 'a file that may not be read';
  return `a file that cannot be read (${code})`;
}
