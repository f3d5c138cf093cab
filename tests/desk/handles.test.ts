import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { draggedTo, inWords, type Moved, steppedBy } from '../../src/desk/page/drag.js';
import { handlesOf } from '../../src/desk/page/handles.js';
import { type Handle, type Hold, placeOf, valuesAt } from '../../src/desk/page/hold.js';
import { EditFault } from '../../src/edit/edit-fault.js';
import { moveNumber, withNumbers } from '../../src/edit/move-number.js';
import { BuiltFigure } from '../../src/figure/built.js';
import { compileFigure } from '../../src/figure/figure.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { CannotBuild } from '../../src/motion/cannot-build.js';
import { worldPoint } from '../../src/motion/pose.js';
import { moveInWords } from '../../src/report/words/move-words.js';
import { STALL } from '../edit/support.js';

const PLACES = `page: A5
dims: { wide: { from: 20, to: 60, start: 40 }, lean: 60 }
places:
  hip: { on: board, at: [wide, 12] }
  ankle: { on: left page, at: [-112, 60] }
  knee: { between: [hip, ankle], far: [40, 45], side: left }
  heel: { from: ankle, turn: 30, far: 12 }
  shin end: { from: ankle, toward: hip, far: 8 }
  rail: [{ on: left page, at: [-20, 10] }, { on: left page, at: [-20, 190] }]
  rung: [{ on: left page, at: [-60, 150] }, { on: left page, at: [0, 150] }]
  stop: { on: rail, from: { on: gutter, at: 150 }, far: 25, side: end }
  joint: { meet: [rail, rung] }
parts:
  - { name: board, kind: glued-piece, on: left page, at: [-60, 100], turn: 180, outline: [[0, 0], [60, 0], [60, 24], [0, 24]] }
  - { name: thigh, kind: link, from: hip, to: knee, width: 8 }
  - { name: shin, kind: link, from: knee, to: ankle, width: 8 }
  - { name: hip hub, kind: pivot, between: [board, thigh], at: hip }
  - { name: knee hub, kind: pivot, between: [thigh, shin], at: knee, bends: left }
  - { name: toe, kind: tongue, panel: shin, at: ankle, slit: { panel: left page, line: { from: ankle, to: heel } } }
  - { name: man, kind: v-fold, at: middle, glue: lean, feet: [30, 30], ridge: 40, outlines: { left: [[0, 0], [30, 0], { on: ridge, at: [30, 10] }, { on: ridge, at: end }] } }
  - { name: other, twin of: man, at: end - 30 }
  - { name: sail, kind: v-fold, at: 160, glue: [{ from: { on: gutter, at: 160 }, to: stop }, 70], feet: [24, 22], ridge: 20 }
  - { name: flag, kind: glued-piece, on: left page, at: joint, outline: [[0, 0], [4, 0], [4, 4]] }
  - { name: nose, kind: counter-fold, on: man ridge, at: 20, toward: start, diagonal: 30, side: 8, length: 10 }
`;

function opened(text: string) {
  const source = parseFigure(text, 'x.yaml');
  const figure = compileFigure(source);
  const built = new BuiltFigure(source, figure.build(figure.start));
  return { source, built, handles: handlesOf(source, built) };
}

const key = ({ part, what, panel }: Handle) => `${part}, ${what}, ${panel}`;

/** Where a handle lies in the open figure, or a point of a panel. */
function worldOf({ assembly }: BuiltFigure, panel: string, [x, y]: readonly [number, number]) {
  const out = [0, 0, 0];
  worldPoint(
    assembly.open,
    assembly.panels.findIndex(({ name }) => name === panel),
    x,
    y,
    out,
  );
  return out;
}

function expectSame(one: readonly number[], other: readonly number[], why: string) {
  one.forEach((value, i) => {
    expect(value, why).toBeCloseTo(other[i], 2);
  });
}

describe('what can be dragged', () => {
  // Of the ferryman, which takes long to understand, every eighth.
  for (const [name, text, every] of [
    ['a stall', STALL, 1],
    ['a limb on places', PLACES, 1],
    ['the ferryman', readFileSync('examples/ferryman.yaml', 'utf8').replace(/^art:[\s\S]*/m, ''), 8],
  ] as const)
    it(`of ${name} lies after a drag where it was dragged to, as the figure is built then`, () => {
      const { source, built, handles } = opened(text);
      expect(handles.length).toBeGreaterThan(10);
      let moved = 0;
      const tried = handles.filter((_, i) => i % every === 0);
      for (const handle of tried) {
        const to = steppedBy(handle, { key: 'ArrowRight', shiftKey: false, altKey: true }) as Moved;
        let after: ReturnType<typeof opened>;
        try {
          const changes = handle.paths.flatMap(
            (path, i) => moveNumber(source, path, to.values[i], built).changes,
          );
          after = opened(withNumbers(source, changes));
        } catch (error) {
          // What no dim moves says so; and card that is pulled off what stands on it can't be built.
          expect(error instanceof EditFault || error instanceof CannotBuild, `${key(handle)}: ${error}`).toBe(
            true,
          );
          continue;
        }
        const same = after.handles.find((each) => key(each) === key(handle));
        // A drag of what it is drawn from moves it along.
        expectSame(same?.values ?? [], to.values, `${key(handle)}: ${to.values}`);
        const way = placeOf(handle.hold, to.values, handle.at);
        expect(Math.hypot(way[0] - handle.at[0], way[1] - handle.at[1]), key(handle)).toBeGreaterThan(0.001);
        expect(Math.hypot(way[0] - handle.at[0], way[1] - handle.at[1]), key(handle)).toBeLessThan(1);
        moved++;
      }
      expect(moved).toBeGreaterThan(0.8 * tried.length);
    });

  it('lies on the card that it belongs to', () => {
    for (const text of [STALL, PLACES]) {
      const { built, handles } = opened(text);
      const at = (part: string, what: string) => {
        const found = handles.filter((each) => each.part === part && each.what === what);
        expect(found.length, `${part}, ${what}`).toBeGreaterThan(0);
        return found.map((handle) => worldOf(built, handle.panel, handle.at));
      };
      const corner = (panel: string, x: number, y: number) => worldOf(built, panel, [x, y]);
      if (text === STALL) {
        expectSame(at('sail', 'end of its left foot')[0], corner('sail left', 25, 0), 'foot');
        expectSame(at('sail', 'end of its right foot')[0], corner('sail right', 25, 0), 'foot');
        expectSame(at('swing', 'end of its left diagonal')[0], corner('swing left', 14, 0), 'diagonal');
        expectSame(at('swing', 'apex')[0], corner('swing right', 0, 0), 'apex');
        expectSame(at('tent', 'left foot')[0], corner('tent left', 0, 0), 'foot');
        expectSame(at('tent', 'end')[1], [0, 160, 0], 'end');
        expectSame(at('flag', 'place')[0], corner('flag', 0, 0), 'place');
      } else {
        expectSame(
          at('nose', 'end of its right diagonal')[0],
          corner('nose right', 8, 0),
          'towards the start',
        );
        expectSame(at('man', 'apex')[0], [0, 105, 0], 'middle');
        expectSame(at('other', 'apex')[0], [0, 180, 0], 'end - 30');
        expectSame(at('thigh', 'hip')[0], at('hip hub', 'hip')[0], 'hip');
        expectSame(at('thigh', 'knee')[0], corner('shin', 0, 0), 'knee');
        expectSame(at('toe', 'heel')[0], [-112 + 12 * Math.cos(Math.PI / 6), 66, 0], 'heel');
        // 25 mm from the gutter at 150, on a line 20 mm beside it: by 3, 4 and 5.
        expectSame(at('sail', 'stop')[0], [-20, 165, 0], 'stop');
        expectSame(at('sail', 'end of its left foot')[0], corner('sail left', 24, 0), 'along its glue line');
        // What lies where two lines meet goes where they do.
        expectSame(at('flag', 'rail beginning')[0], [-20, 10, 0], 'rail');
        expectSame(at('flag', 'rung end')[0], [0, 150, 0], 'rung');
        expectSame(at('man', 'corner 4')[0], at('man', 'end of its ridge')[0], 'ridge');
      }
    }
  });

  it('of a twin is dragged where it is written', () => {
    const { handles } = opened(PLACES);
    const pathsOf = (what: string) =>
      handles.filter((handle) => handle.part === 'other' && handle.what === what).map(({ paths }) => paths);
    expect(pathsOf('apex')[0]).toEqual([['parts', 7, 'at']]);
    expect(pathsOf('end of its ridge')[0]).toEqual([['parts', 6, 'ridge']]);
  });

  it('becomes a number where it was a word', () => {
    const { source } = opened(PLACES);
    const { changes, findings } = moveNumber(source, ['parts', 6, 'at'], 80);
    expect(changes).toEqual([{ path: ['parts', 6, 'at'], value: 80 }]);
    expect(findings.map(moveInWords)).toEqual(["'middle' is a number now"]);
  });
});

describe('a hold', () => {
  const holds: Hold[] = [
    { by: 'lengths', from: [3, 4], axes: [[0.6, 0.8]] },
    {
      by: 'lengths',
      from: [3, 4],
      axes: [
        [0.6, 0.8],
        [-0.8, 0.6],
      ],
    },
    { by: 'turn', from: [1, 2], zero: [0, 1], ninety: [-1, 0] },
    {
      by: 'compasses',
      from: [
        [0, 0],
        [20, 5],
      ],
    },
  ];
  it('on a line goes along it, and stays on its side of where that passes nearest', () => {
    const hold: Hold = { by: 'reach', from: [0, 0], foot: [3, 0], way: [0, 1] };
    expect(valuesAt(hold, [9, 4], [0])).toEqual([5]);
    expectSame(placeOf(hold, [5], [0, 0]), [3, 4], 'three, four, five');
    expect(valuesAt(hold, [3, -4], [0])).toEqual([3]);
    expectSame(placeOf(hold, [2], [0, 0]), [3, 0], 'no nearer');
  });

  it('gives the numbers of a place, and the place of numbers', () => {
    for (const hold of holds) {
      const at: [number, number] = hold.by === 'lengths' && hold.axes.length === 1 ? [9, 12] : [9, -7];
      expectSame(placeOf(hold, valuesAt(hold, at, [0, 0]), at), at, hold.by);
    }
  });

  it('counts an angle on from what is written', () => {
    const [, , turn] = holds;
    expect(valuesAt(turn, placeOf(turn, [350, 5], [0, 0]), [355, 5])[0]).toBeCloseTo(350, 9);
    expect(valuesAt(turn, placeOf(turn, [10, 5], [0, 0]), [-355, 5])[0]).toBeCloseTo(-350, 9);
  });
});

describe('a drag', () => {
  const handle: Handle = {
    part: 'flag',
    what: 'corner 1',
    panel: 'flag',
    at: [0, 0],
    hold: {
      by: 'lengths',
      from: [0, 0],
      axes: [
        [1, 0],
        [0, -1],
      ],
    },
    values: [0, 0],
    paths: [
      ['x', 0],
      ['x', 1],
    ],
  };
  const marks = {
    points: [
      { name: 'hip', at: [10, 10] as const },
      { name: 'itself', at: [0, 0] as const },
    ],
    creases: [{ name: 'ridge', line: { x0: 0, y0: 20, x1: 30, y1: 20 } }],
  };
  const to = (at: [number, number], fine = false) => draggedTo(handle, at, marks, fine);

  it('snaps to places, creases, and else to the grid; finer where that is asked for', () => {
    expect(to([10.4, 9.7])).toEqual({ at: [10, 10], values: [10, -10], onto: 'hip' });
    expect(to([7.13, 20.6])).toEqual({ at: [7, 20], values: [7, -20], onto: 'ridge' });
    expect(to([0.2, 0.4]).values).toEqual([0, -0.5]);
    expect(to([5.13, 6.4])).toEqual({ at: [5, 6.5], values: [5, -6.5], onto: '' });
    expect(to([10.43, 9.7], true).values).toEqual([10.4, -9.7]);
  });

  it('is said in words', () => {
    expect(inWords(handle, to([10.4, 9.7]))).toBe('flag, corner 1: 10.00 mm, −10.00 mm, on hip');
  });

  it('goes by keys: left and right by its first number, up and down by the other', () => {
    const by = (key: string, more = {}) =>
      steppedBy(handle, { key, shiftKey: false, altKey: false, ...more })?.values;
    expect(by('ArrowRight')).toEqual([0.5, 0]);
    expect(by('ArrowUp', { shiftKey: true })).toEqual([0, 5]);
    expect(by('ArrowDown', { altKey: true })).toEqual([0, -0.1]);
    expect(by('Enter')).toBe(undefined);
  });
});
