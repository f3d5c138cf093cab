import { expect } from 'vitest';
import { z } from 'zod';
import { compileFigure, type Figure } from '../../src/figure/figure.js';
import { InputError } from '../../src/figure/text/input-error.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { CannotBuild } from '../../src/motion/cannot-build.js';
import { angle, name, plain, point, size, word } from '../../src/parts/fields.js';
import { partKind } from '../../src/parts/part.js';

/** A part of one panel that lies still on a panel: just enough to see what reaches a part of its fields. */
const post = partKind({
  kind: 'post',
  fields: z.strictObject({
    on: name().prefault('left page'),
    high: size(),
    turn: angle(0, 90).prefault(0),
    way: word('up', 'down').prefault('up'),
    count: plain(0, 5).optional(),
    corner: z.strictObject({ at: point(), more: z.array(point()).optional() }).optional(),
    piece: name().optional(),
  }),
  build(partName, f, assembly) {
    assembly.panelNamed(f.on, 'on');
    if (f.high > 1000) throw new CannotBuild('too high for any page', 'high');
    built.push(f);
    assembly.addPanel({
      name: partName,
      part: partName,
      piece: f.piece ?? partName,
      outline: [0, 0, 10, 0, 10, f.high, 0, f.high],
    });
  },
});

/** The fields that posts have been built with, the latest last. */
export const built: unknown[] = [];

export const KINDS = { post };

/** A figure of posts from YAML; a page is put first if there is none. */
export function figureOf(yaml: string): Figure {
  const text = /^page:/m.test(yaml) ? yaml : `page: A5\n${yaml}`;
  return compileFigure(parseFigure(text, 'posts.yaml'), KINDS);
}

/** A figure of one post, whose fields are given in the braces of YAML, with dims likewise. */
export const postOf = (fields: string, dims = ''): Figure =>
  figureOf(`dims: {${dims}}\nparts:\n  - { name: post, kind: post, ${fields} }`);

/** What the latest post is built with for a candidate. */
export function fieldsOf(figure: Figure, vector = figure.start): unknown {
  figure.build(vector);
  return built.at(-1);
}

/** The message of the InputError that must be thrown. */
export function refusal(make: () => unknown): string {
  try {
    make();
  } catch (error) {
    expect(error).toBeInstanceOf(InputError);
    return String(error);
  }
  throw new Error('nothing was refused');
}
