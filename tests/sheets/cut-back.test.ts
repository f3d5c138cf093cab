import { describe, expect, it } from 'vitest';
import { cardIn, type Point, type Shape } from '../../src/geometry/plane.js';
import { solid } from '../../src/geometry/region.js';
import { cutBackTabs, type KeepOut, mostAlong } from '../../src/sheets/nets/cut-back.js';
import { keepOutsOf } from '../../src/sheets/nets/hub.js';
import type { Tab } from '../../src/sheets/nets/tabs.js';
import { assemble } from '../support/assemble.js';

const rectangle = (x: number, y: number, wide: number, high: number): Shape =>
  solid([
    [x, y],
    [x + wide, y],
    [x + wide, y + high],
    [x, y + high],
  ]);

/**
 * Tabs 40 mm long and 10 mm wide on a board of 100 × 60 mm, each standing on a wall of its own: where each begins, and on
 * which face of the board it is glued.
 */
function cutBack(
  places: readonly (readonly [Point, face: 1 | -1])[],
  keepOuts: readonly Omit<KeepOut, 'panel'>[] = [],
) {
  const assembly = assemble([]);
  const outline = [0, 0, 1, 0, 1, 1];
  const add = (name: string) => assembly.addPanel({ name, part: name, piece: name, outline });
  const board = add('board');
  const cards: Shape[] = [];
  cards[board] = rectangle(0, 0, 100, 60);
  const tabs = places.map(([[x, y], receiverFace], i): Tab => {
    const [panel, owner] = [add(`tab ${i}`), add(`wall ${i}`)];
    cards[panel] = rectangle(x, y, 40, 10);
    cards[owner] = rectangle(0, -30, 40, 30);
    return {
      panel,
      owner,
      receiver: board,
      joint: i,
      line: [
        [x, y],
        [x + 40, y],
      ],
      ownerLine: [
        [0, 0],
        [40, 0],
      ],
      side: 1,
      ownerSide: -1,
      flip: 1,
      receiverFace,
      sense: 'valley',
      slit: null,
    };
  });
  const { notes, useless } = cutBackTabs(
    assembly,
    cards,
    tabs,
    keepOuts.map((each) => ({ panel: board, ...each })),
  );
  return { left: tabs.map(({ panel }) => Math.round(cardIn(cards[panel]))), notes, useless: useless.size };
}

it("nothing is glued within a millimetre of a hub's shoulders, on either of the two that turn on it", () => {
  const net = { name: 'hub', piece: 'hub', areas: [], folds: [], slits: [] };
  const points: [Point, Point] = [
    [3, 4],
    [5, 6],
  ];
  expect(keepOutsOf([{ panels: [7, 9], points, shoulder: 8, net }])).toEqual([
    { panel: 7, at: [3, 4], radius: 5 },
    { panel: 9, at: [5, 6], radius: 5 },
  ]);
});

describe('a glue tab', () => {
  it('is cut back at the edge of what it is glued to', () => {
    const { left, notes } = cutBack([[[70, 20], 1]]);
    expect(left).toEqual([300]);
    expect(notes[0]).toContain('reaches past the card');
    expect(notes[0]).toContain('cut back by 100 mm²');
  });

  it('is cut back clear of a tab that was there before it, on the same face', () => {
    const overlapping = [
      [10, 20],
      [35, 20],
    ] as const;
    const { left, notes } = cutBack(overlapping.map((at) => [at, 1]));
    expect(left).toEqual([400, 250]);
    expect(notes).toHaveLength(1);
    expect(notes[0]).toContain('would lie over');
    expect(
      cutBack([
        [overlapping[0], 1],
        [overlapping[1], -1],
      ]),
    ).toEqual({ left: [400, 400], notes: [], useless: 0 });
  });

  it('is cut back clear of a hub', () => {
    // Half of a disc of 3 mm at its far edge.
    const { left, notes } = cutBack([[[10, 20], 1]], [{ at: [30, 30], radius: 3 }]);
    expect(left).toEqual([Math.round(400 - (Math.PI * 9) / 2)]);
    expect(notes[0]).toContain('too near to the hub');
  });

  it('that is parted keeps the part with most of its crease, and is useless where none has any', () => {
    // Discs all across it, as wide as they need be.
    const { left } = cutBack([[[10, 20], 1]], [{ at: [20, 25], radius: 6 }]);
    expect(left[0]).toBeGreaterThan(200);
    expect(left[0]).toBeLessThan(300);
    expect(cutBack([[[200, 20], 1]])).toMatchObject({ useless: 1 });
  });

  it('holds by the longest part, not by the largest', () => {
    const line = [
      [0, 0],
      [40, 0],
    ] as const;
    const long = rectangle(0, 0, 25, 2);
    const large = rectangle(28, 0, 12, 30);
    const off = rectangle(0, 5, 40, 30);
    for (const parts of [
      [long, large, off],
      [off, large, long],
    ])
      expect(mostAlong(parts, { line, side: 1 })).toBe(long);
    expect(mostAlong([off], { line, side: 1 })).toBeNull();
    expect(mostAlong([long], { line, side: -1 })).toBeNull();
  });
});
