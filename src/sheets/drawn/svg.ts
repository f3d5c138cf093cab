import svgpath from 'svgpath';
import type { Point } from '../../geometry/plane.js';
import {
  BELOW_MIDDLE,
  type Drawing,
  dashOf,
  LINE_KINDS,
  LINE_STYLES,
  type LineKind,
  type Text,
} from './drawing.js';
import { xmlText } from './safe-text.js';

/**
 * A drawing as SVG 1.1 at true size: one user unit is one millimetre. One group for each kind of line, one for shading,
 * one for the key to the lines and one for text; their ids are the kinds' names with hyphens.
 */
export function toSvg(drawing: Drawing, title: string): string {
  const { width, height, fills, strokes, texts } = drawing;
  const at = ([x, y]: Point) => `${number(x)} ${number(height - y)}`;
  const path = (points: readonly Point[], closed: boolean) =>
    `M${points.map(at).join('L')}${closed ? 'Z' : ''}`;
  const groups = LINE_KINDS.map((kind) => {
    const own = strokes.filter((stroke) => stroke.kind === kind && !stroke.sample);
    const paths = own.map((stroke) => {
      const dash = dashOf(stroke).map(number).join(' ');
      const closer = dash === LINE_STYLES[kind].dash.join(' ') ? '' : ` stroke-dasharray="${dash}"`;
      return `<path d="${path(stroke.points, stroke.closed)}"${closer}/>`;
    });
    return `<g id="${groupId(kind)}" ${strokeAttributes(kind)}>\n${paths.join('\n')}\n</g>`;
  });
  const samples = strokes
    .filter(({ sample }) => sample)
    .map((stroke) => `<path ${strokeAttributes(stroke.kind)} d="${path(stroke.points, stroke.closed)}"/>`);
  const shades = fills.map(
    ({ rings, grey }) =>
      `<path fill="${greyHex(grey)}" fill-rule="evenodd" d="${rings.map((ring) => path(ring, true)).join('')}"/>`,
  );
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<svg xmlns="http://www.w3.org/2000/svg" width="${number(width)}mm" height="${number(height)}mm" viewBox="0 0 ${number(width)} ${number(height)}">`,
    `<title>${xmlText(title)}</title>`,
    ...artGroup(drawing),
    `<g id="shading">\n${shades.join('\n')}\n</g>`,
    ...groups,
    `<g id="key">\n${samples.join('\n')}\n</g>`,
    `<g id="text" font-family="sans-serif">\n${texts.map((text) => textElement(text, height)).join('\n')}\n</g>`,
    '</svg>',
    '',
  ].join('\n');
}

/** The art, clipped; nothing where there is none. */
function artGroup({ art, height }: Drawing): string[] {
  if (art.length === 0) return [];
  const clips = art.map(({ clip }, i) => {
    const d = clip.map((ring) => `M${ring.map(([x, y]) => `${number(x)} ${number(height - y)}`).join('L')}Z`);
    return `<clipPath id="clip-${i + 1}"><path clip-rule="evenodd" d="${d.join('')}"/></clipPath>`;
  });
  // A picture that lies on many panels is there once.
  const pictures = new Map<Uint8Array, string>();
  const defined: string[] = [];
  for (const { picture } of art) {
    if (picture === null || pictures.has(picture.png)) continue;
    const id = `picture-${pictures.size + 1}`;
    pictures.set(picture.png, id);
    defined.push(
      `<image id="${id}" width="${number(picture.width)}" height="${number(picture.height)}" preserveAspectRatio="none" href="data:image/png;base64,${Buffer.from(picture.png).toString('base64')}"/>`,
    );
  }
  const shapes = art.map(({ strokes, picture }, i) => {
    const paths = strokes.map(({ d, fill, stroke, width, evenOdd }) => {
      const rule = evenOdd ? ' fill-rule="evenodd"' : '';
      const line = stroke === null ? '' : ` stroke="${stroke}" stroke-width="${number(width)}"`;
      const down = svgpath(d).matrix([1, 0, 0, -1, 0, height]).round(4).toString();
      return `<path fill="${fill ?? 'none'}"${rule}${line} d="${down}"/>`;
    });
    if (picture !== null) {
      const [a, b, c, d, e, f] = picture.matrix;
      const matrix = [a, -b, c, -d, e, height - f].map((v) => Number(v.toFixed(6))).join(' ');
      paths.push(`<use transform="matrix(${matrix})" href="#${pictures.get(picture.png)}"/>`);
    }
    return `<g clip-path="url(#clip-${i + 1})">${paths.join('')}</g>`;
  });
  return [`<defs>${clips.join('')}${defined.join('')}</defs>`, `<g id="art">\n${shapes.join('\n')}\n</g>`];
}

/** The id of a kind's group. @example groupId('glue line') // 'glue-line' */
const groupId = (kind: LineKind): string => kind.replaceAll(' ', '-');

function strokeAttributes(kind: LineKind): string {
  const { width, dash, grey } = LINE_STYLES[kind];
  const dashes = dash.length === 0 ? '' : ` stroke-dasharray="${dash.join(' ')}"`;
  return `fill="none" stroke="${greyHex(grey)}" stroke-width="${width}"${dashes}`;
}

function textElement({ at, text, size, anchor, turn, bold }: Text, height: number): string {
  const [x, y] = [number(at[0]), number(height - at[1])];
  const turned = turn === 0 ? '' : ` transform="rotate(-90 ${x} ${y})"`;
  const middle = anchor === 'middle' ? ` text-anchor="middle" dy="${number(BELOW_MIDDLE * size)}"` : '';
  const weight = bold ? ' font-weight="bold"' : '';
  return `<text x="${x}" y="${y}" font-size="${number(size)}"${middle}${weight}${turned}>${xmlText(text)}</text>`;
}

/** A ten-thousandth of a millimetre is enough. */
const number = (v: number): string => `${Number(v.toFixed(4))}`;

function greyHex(grey: number): string {
  const level = Math.round(255 * grey)
    .toString(16)
    .padStart(2, '0');
  return `#${level}${level}${level}`;
}
