import { isDeepStrictEqual } from 'node:util';
import { expect } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { type FigureSource, type Json, parseFigure } from '../../src/figure/text/source.js';

export const read = (text: string): FigureSource => parseFigure(text, 'stall.yaml');

/** The data of a figure file that can be used. */
export function data(text: string): { [field: string]: Json } {
  const source = read(text);
  compileFigure(source);
  return source.data as { [field: string]: Json };
}

/** The lines that two texts don't have in common, in order: `-` only before, `+` only after. */
export function difference(before: string, after: string): string[] {
  const [a, b] = [before.split('\n'), after.split('\n')];
  const common = a.map(() => new Array<number>(b.length + 1).fill(0));
  common.push(new Array<number>(b.length + 1).fill(0));
  for (let i = a.length - 1; i >= 0; i--)
    for (let j = b.length - 1; j >= 0; j--)
      common[i][j] = a[i] === b[j] ? common[i + 1][j + 1] + 1 : Math.max(common[i + 1][j], common[i][j + 1]);
  const lines: string[] = [];
  for (let i = 0, j = 0; i < a.length || j < b.length; )
    if (i < a.length && j < b.length && a[i] === b[j]) {
      i++;
      j++;
    } else if (i < a.length && (j === b.length || common[i + 1][j] >= common[i][j + 1]))
      lines.push(`-${a[i++]}`);
    else lines.push(`+${b[j++]}`);
  return lines;
}

/** Fails unless two texts hold the same parts but for some. */
export function expectSameParts(before: string, after: string, but: readonly string[]): void {
  const partsOf = (text: string) =>
    (data(text).parts as { name: string }[]).filter(({ name }) => !but.includes(name));
  expect(isDeepStrictEqual(partsOf(before), partsOf(after))).toBe(true);
}

/** A market stall: a tent, a sail on it, a flag, a counter-fold with an arm; dims of each kind; remarks everywhere. */
export const STALL = `# A market stall.
figure: market stall
page: A5 portrait
card: { grammage: 240, bulk: 1.25, pieces: { flag: { grammage: 300 } } }

dims:
  foot: { from: 20, to: 40, start: 30 } # from the gutter
  slack: 12      # how much wider
  side: foot + slack
  way: { choose: [in, out] }
  where: { choose: [tent left, tent right] }

parts:
  # The tent carries all.
  - name: tent
    kind: parallel-fold
    at: 40   # along the gutter
    length: 120
    glue: [foot, foot]
    widths: [side, side]

  # A pole in front of it.
  - { name: sail, kind: v-fold, at: 20, glue: [60, 60], panels: [68, 68], feet: [25, 25], ridge: 30 }
  - { name: swing, kind: counter-fold, on: tent ridge, at: slack * 4, diagonal: 30, side: 14, length: 18 } # turns
  - name: flag
    kind: glued-piece
    on: where
    at: [5, 5]
    outline: { polygon: [[0, 0], [10, 0], [0, 12.5]] }
  - { name: arm, kind: glued-piece, on: swing left, at: [2, 1], turn: 10, outline: { polygon: [[2, -1], [30, -3], [30, 3], [2, 1]] } }

wants:
  - { name: the arm turns, kind: turn, panel: arm, least: 10 }
  - { name: the sail rises, kind: rise, panel: sail left, least: 10 }  # at least

trims:
  - { panel: sail left, region: [[20, 0], [25, 0], [25, 2]] }

limits: { pile: 4 }
`;
