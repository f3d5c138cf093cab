import { SaxesParser } from 'saxes';
import svgpath from 'svgpath';
import { checkedTransform, millimetres, sizeOnPaper } from '../../figure/outlines/drawing.js';
import { FARTHEST, PathFault } from '../../figure/outlines/flatten.js';

/** One area or line of a drawing, in mm from its top left corner, y down. */
export interface ArtStroke {
  readonly d: string;
  /** As #rrggbb; null for none. */
  readonly fill: string | null;
  readonly stroke: string | null;
  readonly width: number;
  readonly evenOdd: boolean;
}

/** What of a drawing is printed: plain areas and lines in plain colours. */
export interface CleanDrawing {
  readonly width: number;
  readonly height: number;
  readonly strokes: readonly ArtStroke[];
  /** A picture as PNG that fills the drawing; null for shapes. */
  readonly picture: Uint8Array | null;
  /** What was left out, by the names of its elements. */
  readonly left: readonly string[];
}

const MOST_STROKES = 5000;
const LONGEST_PATH = 200_000;
const DEEPEST = 100;

interface Style {
  readonly fill: string | null;
  readonly stroke: string | null;
  readonly width: number;
  readonly evenOdd: boolean;
  readonly transforms: readonly string[];
  /** Within what is never drawn: definitions, texts, clip paths. */
  readonly dropped: boolean;
}

/**
 * Reads an SVG file for printing. Only shapes in plain colours are kept, anew: scripts, links, fonts, pictures, styles
 * and references fall away, and nothing is fetched.
 * @throws PathFault where it is no drawing with a size
 */
export function cleanDrawing(svg: string): CleanDrawing {
  const strokes: ArtStroke[] = [];
  const left = new Set<string>();
  const open: Style[] = [];
  const size: number[] = [];
  const parser = new SaxesParser({ xmlns: false, position: true });
  parser.on('error', ({ message }) => {
    throw new PathFault(`what XML does not allow (${message})`, "save the drawing anew, as a 'plain' SVG");
  });
  parser.on('opentag', ({ name, attributes }) => {
    const tag = name.slice(name.indexOf(':') + 1);
    if (open.length > DEEPEST)
      throw new PathFault(`groups ${DEEPEST} deep`, 'take it out of some of its groups');
    const outer = open.at(-1);
    if (outer === undefined) {
      if (tag !== 'svg') throw new PathFault('a file that is no SVG', 'give an SVG file');
      size.push(...sizeOnPaper(attributes));
      open.push(styled(attributes, { ...BARE, transforms: [millimetres(attributes)] }));
      return;
    }
    const own = styled(attributes, outer);
    const d = own.dropped ? null : pathOf(tag, attributes);
    if (d === null && !own.dropped && !['g', 'a', 'title', 'desc', 'metadata'].includes(tag)) left.add(tag);
    open.push({ ...own, dropped: own.dropped || (d === null && tag !== 'g' && tag !== 'a') });
    if (d === null || (own.fill === null && own.stroke === null)) return;
    if (d.length > LONGEST_PATH) throw new PathFault('a very long path', 'simplify it');
    if (strokes.length === MOST_STROKES)
      throw new PathFault(`more than ${MOST_STROKES} shapes`, 'simplify it');
    const path = own.transforms.reduceRight((made, transform) => made.transform(transform), svgpath(d));
    const width = own.width * scaleOf(own.transforms);
    if (!isWithinBounds(path.abs()) || !(width <= FARTHEST))
      throw new PathFault('a shape that leaves all bounds', `keep it within ${FARTHEST} mm`);
    strokes.push({
      d: path.round(4).toString(),
      fill: own.fill,
      stroke: own.stroke,
      width,
      evenOdd: own.evenOdd,
    });
  });
  parser.on('closetag', () => {
    open.pop();
  });
  parser.write(svg).close();
  const [width, height] = size;
  return { width, height, strokes, picture: null, left: [...left] };
}

const BARE: Style = {
  fill: '#000000',
  stroke: null,
  width: 1,
  evenOdd: false,
  transforms: [],
  dropped: false,
};

type Attributes = Record<string, string>;

/** The style of an element within another: presentation attributes, and the same words in `style`. */
function styled(attributes: Attributes, outer: Style): Style {
  const words: Attributes = { ...attributes };
  for (const part of (attributes.style ?? '').split(';')) {
    const [name, value] = part.split(':');
    if (value !== undefined) words[name.trim()] = value.trim();
  }
  const hidden = words.display === 'none' || words.visibility === 'hidden';
  const transform = attributes.transform ?? '';
  const width = Number.parseFloat(words['stroke-width'] ?? '');
  return {
    fill: words.fill === undefined ? outer.fill : colourOf(words.fill, outer.fill),
    stroke: words.stroke === undefined ? outer.stroke : colourOf(words.stroke, outer.stroke),
    width: Number.isFinite(width) && width >= 0 ? width : outer.width,
    evenOdd: words['fill-rule'] === undefined ? outer.evenOdd : words['fill-rule'] === 'evenodd',
    transforms: transform === '' ? outer.transforms : [...outer.transforms, checkedTransform(transform)],
    dropped: outer.dropped || hidden,
  };
}

const NAMED: Readonly<Record<string, string>> = {
  black: '#000000',
  white: '#ffffff',
  red: '#ff0000',
  green: '#008000',
  blue: '#0000ff',
  yellow: '#ffff00',
  orange: '#ffa500',
  brown: '#a52a2a',
  grey: '#808080',
  gray: '#808080',
};

/** A plain colour as #rrggbb; what else there is (gradients, patterns) comes out as what is around it. */
function colourOf(text: string, outer: string | null): string | null {
  const word = text.trim().toLowerCase();
  if (word === 'none' || word === 'transparent') return null;
  if (/^#[0-9a-f]{6}$/.test(word)) return word;
  if (/^#[0-9a-f]{3}$/.test(word)) return `#${[...word.slice(1)].map((digit) => digit + digit).join('')}`;
  return Object.hasOwn(NAMED, word) ? NAMED[word] : outer;
}

/** The path of a shape; null for what is none. */
function pathOf(tag: string, a: Attributes): string | null {
  const n = (name: string) => {
    const value = Number.parseFloat(a[name] ?? '0');
    return Number.isFinite(value) ? value : 0;
  };
  const oval = (rx: number, ry: number) =>
    `M${n('cx') - rx} ${n('cy')}a${rx} ${ry} 0 1 0 ${2 * rx} 0a${rx} ${ry} 0 1 0 ${-2 * rx} 0z`;
  switch (tag) {
    case 'path':
      return a.d ?? '';
    case 'rect':
      return `M${n('x')} ${n('y')}h${n('width')}v${n('height')}h${-n('width')}z`;
    case 'circle':
      return oval(n('r'), n('r'));
    case 'ellipse':
      return oval(n('rx'), n('ry'));
    case 'line':
      return `M${n('x1')} ${n('y1')}L${n('x2')} ${n('y2')}`;
    case 'polyline':
    case 'polygon':
      return /^[\d\s,.eE+-]+$/.test(a.points ?? '') ? `M${a.points}${tag === 'polygon' ? 'z' : ''}` : '';
    default:
      return null;
  }
}

/** How much lengths grow, on average: the root of the determinant. */
function scaleOf(transforms: readonly string[]): number {
  const at: [number, number][] = [];
  transforms
    .reduceRight((made, transform) => made.transform(transform), svgpath('M0 0L1 0L0 1'))
    .iterate((segment) => {
      at.push([Number(segment[segment.length - 2]), Number(segment[segment.length - 1])]);
    });
  if (at.length < 3) return 1;
  const [[ox, oy], [ax, ay], [bx, by]] = at;
  return Math.sqrt(Math.abs((ax - ox) * (by - oy) - (ay - oy) * (bx - ox)));
}

/** Whether every number of a path is one, and no farther than a figure may reach. */
function isWithinBounds(path: ReturnType<typeof svgpath>): boolean {
  let within = true;
  path.iterate(([, ...numbers]) => {
    within &&= numbers.every((number) => Math.abs(Number(number)) <= FARTHEST);
  });
  return within;
}
