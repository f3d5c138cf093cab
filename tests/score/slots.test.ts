import { describe, expect, it } from 'vitest';
import { findSlotRooms } from '../../src/score/slots.js';
import { assemble, open } from '../support/assemble.js';

type Box = readonly [left: number, right: number];

/**
 * A board of 100 × 50 mm with a slot from (40, 20) to (60, 30), and a comb that stands square to it on the line y = 25:
 * its back lies 10 mm over the board, its teeth go down through the board's plane from place to place along x; where a tip is
 * given, 30 mm deep and to there.
 */
function roomOf(
  teeth: readonly Box[],
  away = 0,
  tip?: Box,
  span: readonly [number, number] | null = null,
  lift = 0,
) {
  const assembly = assemble([]);
  const still = (name: string, outline: number[], pose: number[], holes: number[][] = []) => {
    const k = assembly.addPanel({ name, part: name, piece: name, outline, holes });
    assembly.addStep({ part: name, place: (poses) => poses.set(pose, 12 * k) });
    return k;
  };
  const hole = [40, 20, 60, 20, 60, 30, 40, 30];
  const board = still('board', [0, 0, 100, 0, 100, 50, 0, 50], [1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0], [hole]);
  const comb = still(
    'comb',
    [
      ...teeth.flatMap(([left, right]) => {
        const depth = tip === undefined ? -10 : -30;
        const [from, to] = tip ?? [left, right];
        return [left, 10, from, depth, to, depth, right, 10];
      }),
      300,
      20,
      -300,
      20,
    ],
    // Its x runs along the board's, its y up from the board.
    [1, 0, 0, 0, 0, 0, -1, 25 + away, 0, 1, 0, lift],
  );
  assembly.addJoint({ kind: 'slot', part: 'slot', between: [comb, board], hole: 0, span });
  const [{ room, at }] = findSlotRooms(assembly, open(assembly, 90));
  return { room, at };
}

describe('the room in a slot', () => {
  it('is the least way from the section of what passes to the edge of the slot', () => {
    expect(roomOf([[45, 58]]).room).toBeCloseTo(2, 9);
    expect(roomOf([[45, 58]]).at?.map(Math.round)).toEqual([58, 25]);
    expect(roomOf([[45, 55]], 4).room).toBeCloseTo(1, 9);
    // Of two teeth in one slot, that of the one nearer to an edge, whichever comes first.
    expect(
      roomOf([
        [43, 46],
        [50, 59],
      ]).room,
    ).toBeCloseTo(1, 9);
    expect(
      roomOf([
        [41.5, 46],
        [50, 57],
      ]).room,
    ).toBeCloseTo(1.5, 9);
  });

  it('is that where the plane cuts a tooth, however slanted', () => {
    const place = (x: number) => [x, 25].map((v) => expect.closeTo(v, 9));
    // From 10 mm above the board to 30 mm below it an edge runs out by 24 mm: by a quarter of that where the plane cuts it.
    expect(roomOf([[50, 52]], 0, [26, 52])).toEqual({ room: expect.closeTo(4, 9), at: place(44) });
    expect(roomOf([[50, 52]], 0, [50, 76])).toEqual({ room: expect.closeTo(2, 9), at: place(58) });
  });

  it('is below nothing where a section has run past the edge of the slot, on the card or partly beyond it', () => {
    expect(roomOf([[45, 63]]).room).toBeCloseTo(-3, 9);
    expect(roomOf([[80, 90]]).room).toBeCloseTo(-30, 9);
    expect(roomOf([[90, 130]]).room).toBeCloseTo(-70, 9);
    expect(roomOf([[-20, 120]]).room).toBeCloseTo(-60, 9);
  });

  it('is below nothing where a section passes by beyond the edge of the card: it is no way through', () => {
    expect(roomOf([[120, 185]]).room).toBeCloseTo(-125, 9);
    expect(roomOf([[45, 58]], 100).room).toBeCloseTo(-95, 9);
    // However well another section passes.
    const teeth: Box[] = [
      [-30, -20],
      [45, 58],
    ];
    expect(roomOf(teeth).room).toBeCloseTo(-Math.hypot(70, 0), 9);
  });

  it('knows no crossing where card only touches the plane, as a foot on the one page that of the other while both are open', () => {
    for (const lift of [10 - 1e-9, 10, 10 + 1e-9])
      expect(roomOf([[80, 90]], 0, undefined, null, lift)).toEqual({ room: expect.closeTo(0, 6), at: null });
    expect(roomOf([[80, 90]], 0, undefined, null, 9.99).room).toBeCloseTo(-30, 9);
  });

  it('is minus the way to the plane of the slot where nothing ever crosses it', () => {
    expect(roomOf([[45, 58]], 0, undefined, null, 14)).toEqual({ room: expect.closeTo(-4, 9), at: null });
  });
});
