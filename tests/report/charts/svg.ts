import { SaxesParser } from 'saxes';

export interface Svg {
  /** The text of every <text>, lines joined by a blank. */
  texts: string[];
  title: string;
  description: string;
  /** How many elements of each name there are. */
  counts: Map<string, number>;
}

/** Reads an SVG with a strict XML parser, which throws on anything not well formed. */
export function readSvg(source: string): Svg {
  const svg: Svg = { texts: [], title: '', description: '', counts: new Map() };
  const parser = new SaxesParser({ xmlns: true });
  const open: string[] = [];
  let text = '';
  parser.on('error', (error) => {
    throw error;
  });
  parser.on('opentag', ({ name }) => {
    open.push(name);
    svg.counts.set(name, (svg.counts.get(name) ?? 0) + 1);
    if (name === 'text') text = '';
    if (name === 'tspan') text += ' ';
  });
  parser.on('text', (part) => {
    const inside = open.at(-1);
    if (inside === 'text' || inside === 'tspan') text += part;
    if (open.length === 2 && inside === 'title') svg.title += part;
    if (open.length === 2 && inside === 'desc') svg.description += part;
  });
  parser.on('closetag', ({ name }) => {
    open.pop();
    if (name === 'text') svg.texts.push(text.trim().replace(/\s+/g, ' '));
  });
  parser.write(source).close();
  return svg;
}
