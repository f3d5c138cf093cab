import { describe, expect, it } from 'vitest';
import { faultOf } from '../../src/geometry/faults.js';
import { type Point, random, rectangle, shape, star } from './panels.js';

const board = rectangle(0, 0, 40, 30);

// Places by hand: where two straight edges meet.
describe('faultOf', () => {
  it('finds nothing wrong with sound shapes', () => {
    expect(faultOf(shape(board, rectangle(5, 5, 10, 10), rectangle(12, 5, 20, 25)))).toBeUndefined();
    expect(faultOf(shape(board.slice(0, 3)))).toBeUndefined();
    const rnd = random(4);
    for (let n = 0; n < 200; n++) {
      const outline = star(3 + Math.floor(9 * rnd()), () => 5 + 30 * rnd());
      expect(faultOf(shape(outline))).toBeUndefined();
    }
  });

  const faults: [string, Point[], Point[][], { x: number; y: number; why: RegExp }][] = [
    [
      'an outline that crosses itself',
      [
        [0, 0],
        [20, 20],
        [20, 0],
        [0, 20],
      ],
      [],
      { x: 10, y: 10, why: /meets itself/ },
    ],
    [
      'an outline that touches itself at a corner',
      [
        [0, 0],
        [20, 0],
        [20, 20],
        [10, 0],
        [0, 20],
      ],
      [],
      { x: 10, y: 0, why: /meets itself/ },
    ],
    [
      'a spike',
      [
        [0, 0],
        [20, 0],
        [20, 30],
        [20, 10],
        [0, 10],
      ],
      [],
      { x: 20, y: 30, why: /folds back/ },
    ],
    [
      'no width at all',
      [
        [0, 0],
        [20, 0],
        [5, 0],
      ],
      [],
      { x: 20, y: 0, why: /folds back/ },
    ],
    [
      'a corner twice over',
      [
        [0, 0],
        [20, 0],
        [20, 0],
        [5, 9],
      ],
      [],
      { x: 20, y: 0, why: /no length/ },
    ],
    [
      'two corners only',
      [
        [3, 4],
        [20, 0],
      ],
      [],
      { x: 3, y: 4, why: /three corners/ },
    ],
    [
      'a corner that is no number',
      [
        [3, 4],
        [20, Number.NaN],
        [0, 9],
      ],
      [],
      { x: 0, y: 0, why: /corner 2 is not a number/ },
    ],
    ['a hole over the edge', board, [rectangle(35, 10, 45, 20)], { x: 40, y: 10, why: /meets the outline/ }],
    ['a hole along the edge', board, [rectangle(0, 5, 5, 10)], { x: 0, y: 5, why: /meets the outline/ }],
    ['a hole outside', board, [rectangle(50, 10, 55, 20)], { x: 50, y: 10, why: /outside/ }],
    ['a hole around the outline', board, [rectangle(-9, -9, 99, 99)], { x: -9, y: -9, why: /outside/ }],
    [
      'holes that meet',
      board,
      [rectangle(5, 5, 15, 15), rectangle(10, 8, 20, 12)],
      { x: 15, y: 8, why: /two holes meet/ },
    ],
    [
      'a hole in a hole',
      board,
      [rectangle(5, 5, 25, 25), rectangle(8, 8, 12, 12)],
      { x: 8, y: 8, why: /in another/ },
    ],
    [
      'a hole around a hole',
      board,
      [rectangle(8, 8, 12, 12), rectangle(5, 5, 25, 25)],
      { x: 8, y: 8, why: /in another/ },
    ],
  ];
  it.each(faults)('finds %s', (_, outline, holes, expected) => {
    const fault = faultOf(shape(outline, ...holes));
    expect(fault?.why).toMatch(expected.why);
    expect(fault?.x).toBeCloseTo(expected.x, 9);
    expect(fault?.y).toBeCloseTo(expected.y, 9);
  });
});
