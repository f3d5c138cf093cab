import { plainLines } from '../../text/plain-text.js';
import { WIDTH } from '../charts/style.js';

/** Text that is HTML already. Only `html` and `trusted` make it, so that no name of a figure file can become code. */
export class Html {
  constructor(readonly text: string) {}
}

type Part = Html | string | number | readonly Part[];

/**
 * Builds HTML: whatever is put in is escaped, unless it is Html itself; lists are put in one after the other.
 * @example html`<td>${name}</td>`
 */
export function html(strings: TemplateStringsArray, ...parts: Part[]): Html {
  return new Html(strings.map((string, i) => string + (i < parts.length ? written(parts[i]) : '')).join(''));
}

/** Marks what our own code has made safe, such as a chart. */
export function trusted(text: string): Html {
  return new Html(text);
}

/**
 * A chart as a figure of HTML; nothing where there is none. Charts escape what is written in them. One that is wider than the
 * others is moved sideways where a page is narrow: made smaller, its letters could not be read.
 */
export function chartFigure(svg: string | null): Html {
  if (svg === null) return html``;
  const isWide = Number(/^<svg[^>]* width="(\d+)/.exec(svg)?.[1]) > WIDTH;
  return isWide
    ? html`<figure class="wide" tabindex="0" role="region" aria-label="A chart that goes on to the right">${trusted(svg)}</figure>
`
    : html`<figure>${trusted(svg)}</figure>
`;
}

function written(part: Part): string {
  if (part instanceof Html) return part.text;
  if (typeof part === 'object') return part.map(written).join('');
  return escaped(String(part));
}

const ENTITIES: Record<string, string> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

function escaped(text: string): string {
  return plainLines(text).replace(/[&<>"']/g, (character) => ENTITIES[character]);
}
