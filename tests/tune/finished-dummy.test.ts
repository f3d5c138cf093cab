import { describe, expect, it } from 'vitest';
import { madeWithoutGlue } from '../../src/tune/finished-dummy.js';
import { assemble, type PlainPart } from '../support/assemble.js';

const TENT: PlainPart = {
  name: 'tent',
  kind: 'parallel-fold',
  at: 40,
  length: 60,
  glue: [30, 30],
  widths: [45, 45],
};
const V: PlainPart = {
  name: 'sail',
  kind: 'v-fold',
  at: 120,
  glue: [60, 60],
  panels: [68, 68],
  feet: [40, 40],
  ridge: 50,
};
const FLAG: PlainPart = {
  name: 'flag',
  kind: 'glued-piece',
  on: 'tent left',
  at: [10, 8],
  turn: 5,
  outline: {
    polygon: [
      [0, 0],
      [20, 0],
      [20, 12],
      [0, 12],
    ],
  },
};

/** Whether a finished dummy of these parts can be made into one in which some fields of a part differ. */
function canBeMade(parts: readonly PlainPart[], name: string, fields: object): boolean {
  const after = parts.map((part) => (part.name === name ? { ...part, ...fields } : part));
  return madeWithoutGlue(assemble(parts), assemble(after));
}

describe('a finished dummy', () => {
  const parts = [TENT, V, FLAG];

  it('is one itself', () => {
    expect(madeWithoutGlue(assemble(parts), assemble(parts))).toBe(true);
  });

  it.each([
    ['a ridge trimmed', 'sail', { ridge: 42 }],
    ['card cut away at the foot', 'sail', { start: 4 }],
    [
      'a corner of a flag cut off',
      'flag',
      {
        outline: {
          polygon: [
            [0, 0],
            [20, 0],
            [20, 8],
            [16, 12],
            [0, 12],
          ],
        },
      },
    ],
    [
      'a window cut into it',
      'flag',
      {
        outline: {
          polygon: [
            [0, 0],
            [20, 0],
            [20, 12],
            [0, 12],
          ],
          holes: [
            [
              [5, 3],
              [10, 3],
              [10, 8],
            ],
          ],
        },
      },
    ],
    ['a fold turned inside out: glue and cuts stay', 'sail', { points: 'out' }],
  ])('can have %s', (_, part, fields) => {
    expect(canBeMade(parts, part, fields)).toBe(true);
  });

  it.each([
    ['card put on', 'sail', { ridge: 52 }],
    ['a glue line moved', 'tent', { glue: [31, 30] }],
    ['a part moved along the gutter', 'tent', { at: 42 }],
    ['a crease moved', 'tent', { widths: [44, 44] }],
    ['a panel angle changed', 'sail', { panels: [70, 70] }],
    ['a glued piece turned', 'flag', { turn: 8 }],
    ['a glued piece shifted', 'flag', { at: [11, 8] }],
    [
      'a flag that is larger',
      'flag',
      {
        outline: {
          polygon: [
            [0, 0],
            [20, 0],
            [20, 13],
            [0, 12],
          ],
        },
      },
    ],
    ['a tab put on the other side', 'sail', { tab: { side: 'outer' } }],
  ])('cannot have %s', (_, part, fields) => {
    expect(canBeMade(parts, part, fields)).toBe(false);
  });

  it('cannot get a part more, or one less', () => {
    expect(madeWithoutGlue(assemble([TENT]), assemble([TENT, V]))).toBe(false);
    expect(madeWithoutGlue(assemble([TENT, V]), assemble([TENT]))).toBe(false);
  });

  it('lets what hangs on hubs only be cut anew, and their holes be moved', () => {
    // A pole on a hub at each end: nothing of it is glued.
    const pole: PlainPart[] = [
      { name: 'pole', kind: 'link', on: 'left page', from: [-60, 20], to: [-20, 20], width: 10 },
      { name: 'low', kind: 'pivot', between: ['pole', 'left page'], at: [0, 0] },
      { name: 'top', kind: 'pivot', between: ['pole', 'left page'], at: [40, 0] },
    ];
    const longer = pole.map((part) =>
      part.name === 'pole'
        ? { ...part, to: [-10, 24] }
        : part.name === 'top'
          ? { ...part, at: [50, 0] }
          : part,
    );
    expect(madeWithoutGlue(assemble([TENT, ...pole]), assemble([TENT, ...longer]))).toBe(true);
    const moved = [{ ...TENT, at: 41 }, ...longer];
    expect(madeWithoutGlue(assemble([TENT, ...pole]), assemble(moved))).toBe(false);
  });
});
