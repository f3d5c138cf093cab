import * as Plot from '@observablehq/plot';
import { DOMParser } from 'linkedom';
import { FONT, HEADING_SIZE, INK, PAPER, QUIET, TEXT_SIZE, WIDTH } from './style.js';
import { wrap } from './text.js';

/** The little of an SVG element that a frame needs; the compiler is not told of browsers here. */
interface SvgElement {
  readonly tagName: string;
  readonly childNodes: Iterable<SvgElement>;
  textContent: string;
  readonly outerHTML: string;
  setAttribute(name: string, value: string): void;
  append(...children: SvgElement[]): void;
}

interface SvgDocument {
  createElementNS(space: string, name: string, options: object): SvgElement;
}

export interface Panel {
  /** Without a document, which the frame gives. */
  plot: Plot.PlotOptions;
  width: number;
  height: number;
  /** From the top left of the room for panels; 0, 0 when left out. */
  x?: number;
  y?: number;
}

export interface Frame {
  /** What the chart shows, in a few words. */
  title: string;
  /** The same in numbers, for those who can't see it. */
  description: string;
  /** What to read off it, in a few sentences; empty ones are left out. */
  caption: readonly string[];
  /** None when there is nothing to draw: the caption then says why. */
  panels: Panel[];
  width?: number;
}

const SVG = 'http://www.w3.org/2000/svg';
const MARGIN = 16;
/** Characters that no XML document may hold, however escaped, and those that turn the direction of reading. */
const UNPRINTABLE =
  /[^\t\n\r\u{20}-\u{d7ff}\u{e000}-\u{fffd}\u{10000}-\u{10ffff}]|[\u202a-\u202e\u2066-\u2069]/gu;

/**
 * Puts a heading above panels and a caption below, on paper, as one self-contained SVG: no script, no outside font, no id.
 * Every text goes through the document, which escapes it.
 */
export function framed({ title, description, caption, panels, width = WIDTH }: Frame): string {
  const document = new DOMParser().parseFromString(`<svg xmlns="${SVG}"/>`, 'image/svg+xml');
  const make = maker(document);
  const heading = wrap(title, width - 2 * MARGIN, HEADING_SIZE);
  const sentences = wrap(caption.join(' '), width - 2 * MARGIN, TEXT_SIZE);
  const top = MARGIN + heading.length * 21 + 8;
  const bottom = top + Math.max(0, ...panels.map((panel) => (panel.y ?? 0) + panel.height)) + 10;
  const height = bottom + sentences.length * 17 + MARGIN - 4;

  const whole = make('svg', {
    xmlns: SVG,
    viewBox: `0 0 ${width} ${height}`,
    width,
    height,
    role: 'img',
    color: INK,
    'font-family': FONT,
    'font-size': TEXT_SIZE,
  });
  whole.append(
    make('title', {}, title),
    make('desc', {}, description),
    make('rect', { width, height, fill: PAPER }),
    ...heading.map((line, k) =>
      make(
        'text',
        { x: MARGIN, y: MARGIN + 14 + k * 21, fill: INK, 'font-size': HEADING_SIZE, 'font-weight': 600 },
        line,
      ),
    ),
  );
  for (const panel of panels) {
    const options = { ...panel.plot, document, width: panel.width, height: panel.height };
    const drawn = Plot.plot(options as unknown as Plot.PlotOptions) as unknown as SvgElement;
    const group = make('g', {
      transform: `translate(${panel.x ?? 0},${top + (panel.y ?? 0)})`,
      fill: 'currentColor',
      'text-anchor': 'middle',
    });
    // Plot's own style sheet would lay down rules for the page that the chart is put into.
    group.append(...Array.from(drawn.childNodes).filter((child) => child.tagName !== 'style'));
    whole.append(group);
  }
  whole.append(
    ...sentences.map((line, k) => make('text', { x: MARGIN, y: bottom + 12 + k * 17, fill: QUIET }, line)),
  );
  return whole.outerHTML.replace(UNPRINTABLE, '\ufffd');
}

function maker(document: SvgDocument) {
  return (name: string, attributes: Record<string, string | number>, text?: string): SvgElement => {
    const element = document.createElementNS(SVG, name, {});
    for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, String(value));
    if (text !== undefined) element.textContent = text;
    return element;
  };
}
