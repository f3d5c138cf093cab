import { type SaxesAttributePlain, SaxesParser, type SaxesTagPlain } from 'saxes';
import { quoted } from '../text/input-error.js';
import { FARTHEST, PathFault } from './flatten.js';

const DEEPEST = 100;

/** A path found in an SVG file. */
export interface FoundPath {
  readonly d: string;
  /** Transforms in SVG's notation, the innermost first, that take the path's units to mm from the drawing's top left. */
  readonly transforms: readonly string[];
}

interface Element {
  readonly tag: SaxesTagPlain;
  /** What holds it; nothing holds the drawing itself. */
  readonly within: Element | undefined;
}

/** An SVG file, read once for all its paths. */
export class Drawing {
  readonly #byId = new Map<string, Element | 'twice'>();

  /** @throws PathFault where the text is no SVG */
  constructor(svg: string) {
    const open: Element[] = [];
    const parser = new SaxesParser({ xmlns: false, position: true });
    parser.on('error', ({ message }) => {
      throw new PathFault(`what XML does not allow (${message})`, "save the drawing anew, as a 'plain' SVG");
    });
    parser.on('opentag', (tag) => {
      const element: Element = { tag, within: open.at(-1) };
      open.push(element);
      if (open.length > DEEPEST)
        throw new PathFault(`groups ${DEEPEST} deep`, 'take the path out of some of its groups');
      if (open.length === 1 && localName(tag) !== 'svg')
        throw new PathFault(`a file of ${quoted(tag.name)}`, 'give an SVG file');
      const { id } = tag.attributes;
      if (id !== undefined) this.#byId.set(id, this.#byId.has(id) ? 'twice' : element);
    });
    parser.on('closetag', () => {
      open.pop();
    });
    parser.write(svg).close();
  }

  /**
   * The path of an id, with all that moves or scales it.
   * @throws PathFault where there is none, or where its place in mm cannot be told
   */
  path(id: string): FoundPath {
    const element = this.#byId.get(id);
    if (element === undefined)
      throw new PathFault(`no path with the id ${quoted(id)}`, 'give the id of a path in that file');
    if (element === 'twice')
      throw new PathFault(`the id ${quoted(id)} twice`, 'give each path an id of its own');
    const transforms: string[] = [];
    for (let each: Element | undefined = element; each !== undefined; each = each.within)
      transforms.push(toOuter(each, each === element));
    return { d: pathOf(element.tag), transforms };
  }
}

const localName = ({ name }: { name: string }): string => name.slice(name.indexOf(':') + 1);

function pathOf(tag: SaxesTagPlain): string {
  if (localName(tag) !== 'path' || tag.attributes.d === undefined)
    throw new PathFault(`${quoted(tag.name)} with that id`, 'turn it into a path in the drawing');
  return tag.attributes.d;
}

/** The transform from within an element to what holds it; of the drawing itself, to mm. */
function toOuter({ tag, within }: Element, isPath: boolean): string {
  const { transform = '', style = '' } = tag.attributes;
  if (/transform|zoom|offset/i.test(style))
    throw new PathFault('a transform in a style', 'apply it to the path, or write it as an attribute');
  if (within === undefined) {
    if (transform !== '')
      throw new PathFault('a transform on the whole drawing', 'apply it to what is drawn');
    return millimetres(tag.attributes);
  }
  if (!isPath && !['g', 'a', 'defs'].includes(localName(tag)))
    throw new PathFault(`a path inside ${quoted(tag.name)}`, 'put it in the drawing itself or in a group');
  return checkedTransform(transform);
}

const NUMBER = '[+-]?(?:[0-9]+[.]?[0-9]*|[.][0-9]+)(?:[eE][+-]?[0-9]+)?';
const STEP = new RegExp(`^\\s*(\\w+)\\s*\\(\\s*(${NUMBER}(?:[\\s,]+${NUMBER}){0,5})\\s*\\)[\\s,]*`);
const COUNTS: Readonly<Record<string, readonly number[]>> = {
  matrix: [6],
  translate: [1, 2],
  scale: [1, 2],
  rotate: [1, 3],
  skewX: [1],
  skewY: [1],
};

/** The transform as it is, once it is sure that the path library understands all of it: it passes over what it doesn't. */
export function checkedTransform(transform: string): string {
  if (transform.length > 2000) throw new PathFault('a very long transform', 'apply it to the path');
  let rest = transform;
  while (rest.trim() !== '') {
    const step = STEP.exec(rest);
    const counts = step !== null && Object.hasOwn(COUNTS, step[1]) ? COUNTS[step[1]] : [];
    if (step === null || !counts.includes(step[2].split(/[\s,]+/).length))
      throw new PathFault(`the transform ${quoted(rest)}`, 'apply it to the path in the drawing');
    rest = rest.slice(step[0].length);
  }
  return transform;
}

/** Millimetres in one of CSS's units of length (96 px are one inch). */
const UNITS: Readonly<Record<string, number>> = {
  mm: 1,
  cm: 10,
  in: 25.4,
  pt: 25.4 / 72,
  pc: 25.4 / 6,
  px: 25.4 / 96,
  '': 25.4 / 96,
};

const SIZE_REMEDY = "give the drawing's <svg> a width and a height in mm, and a viewBox of the same shape";

/** From the drawing's own units to mm: its size on paper over its viewBox; without one, 96 units are an inch. */
export function millimetres(svg: Record<string, SaxesAttributePlain['value']>): string {
  const { width, height, viewBox } = svg;
  if (viewBox === undefined) return `scale(${UNITS.px})`;
  const [x, y, wide, high] = viewBox
    .trim()
    .split(/[\s,]+/)
    .map(Number);
  const across = onPaper(width) / wide;
  const down = onPaper(height) / high;
  if (
    !(
      wide > 0 &&
      high > 0 &&
      Number.isFinite(x) &&
      Number.isFinite(y) &&
      across > 0 &&
      Number.isFinite(across)
    )
  )
    throw new PathFault(`the viewBox ${quoted(viewBox)}`, SIZE_REMEDY);
  if (Math.abs(across / down - 1) > 1e-3)
    throw new PathFault(
      `width ${quoted(width)} and height ${quoted(height)}, of another shape than the viewBox`,
      SIZE_REMEDY,
    );
  return `scale(${across}) translate(${-x} ${-y})`;
}

/** A drawing smaller than this on paper is none, mm. */
const LEAST = 0.1;

/** Width and height on paper, mm. @throws PathFault for a drawing that has none, or none that can be */
export function sizeOnPaper({ width, height }: Record<string, string>): [number, number] {
  const size: [number, number] = [onPaper(width), onPaper(height)];
  if (size.some((length) => length < LEAST || length > FARTHEST))
    throw new PathFault(`the size ${quoted(`${width} × ${height}`)}`, SIZE_REMEDY);
  return size;
}

function onPaper(length: string | undefined): number {
  const found = new RegExp(`^(${NUMBER})\\s*([a-z]*)$`).exec(length?.trim() ?? '');
  if (found === null || !Object.hasOwn(UNITS, found[2]) || !(Number(found[1]) > 0))
    throw new PathFault(
      length === undefined ? 'a drawing without a size' : `the size ${quoted(length)}`,
      SIZE_REMEDY,
    );
  return Number(found[1]) * UNITS[found[2]];
}
