import { describe, expect, it } from 'vitest';
import { chainExtremes, greatest } from '../../src/score/chain-extremes.js';
import { findSlotRooms } from '../../src/score/slots.js';
import { assemble, axisOf, open, type PlainPart, pointOf, turnOf } from '../support/assemble.js';

/** A plate carried over by two posts: it travels along the page, 30 mm up and 60 mm on. */
const post = (name: string, at: number): PlainPart => ({
  name,
  kind: 'v-fold',
  at,
  glue: [90, 45],
  panels: [45, 90],
  feet: [90, 40],
  ridge: 40,
  outlines: {
    left: {
      polygon: [
        [0, 0],
        [90, 0],
        [88, 15],
        [50, 15],
        [28.28, 28.28],
      ],
    },
  },
  tab: { width: 6, side: 'outer' },
});
const cart: PlainPart[] = [
  post('near', 110),
  post('far', 150),
  {
    name: 'cart',
    kind: 'plate',
    supports: [
      {
        panel: 'near left',
        line: [
          [60, 15],
          [80, 15],
        ],
      },
      {
        panel: 'far left',
        line: [
          [60, 15],
          [80, 15],
        ],
      },
    ],
    margin: 4,
  },
];
/** On the cart, x runs along the near hinge, outwards: the open figure has it at x = −60 − x, y = 125 + y on the page. */
const leg = (
  thigh: number,
  shin: number,
  more: { waist?: number; bends?: string; end?: PlainPart } = {},
): PlainPart[] => [
  ...cart,
  { name: 'thigh', kind: 'link', from: [-70, 145], to: [-70, 145 - thigh], width: 8 },
  { name: 'shin', kind: 'link', from: [-70, 145 - thigh], to: [-70, 145 - thigh - shin], width: 8 },
  {
    name: 'hip',
    kind: 'pivot',
    between: ['cart', 'thigh'],
    at: [10, 20],
    meets: [0, 0],
    margin: 0.5,
    waist: more.waist ?? 3.6,
  },
  {
    name: 'knee',
    kind: 'pivot',
    between: ['thigh', 'shin'],
    at: [thigh, 0],
    meets: [0, 0],
    waist: more.waist ?? 3.6,
    ...(more.bends === undefined ? {} : { bends: more.bends }),
  },
  more.end ?? {
    name: 'ankle',
    kind: 'pivot',
    between: ['shin', 'left page'],
    at: [shin, 0],
    waist: more.waist ?? 3.6,
  },
];

const kneeTurn = (parts: PlainPart[]) => turnOf(parts, 'shin', 0, 'thigh');

describe('a leg on hubs, from a cart to the page', () => {
  it('drawn straight must be told which way it bends', () => {
    expect(() => assemble(leg(35, 35))).toThrow(/drawn straight at 'knee': say there which way it bends/);
  });

  it('bends at the knee the way it was told, and the mirror way when told the other', () => {
    const left = kneeTurn(leg(35, 35, { bends: 'left' }));
    const right = kneeTurn(leg(35, 35, { bends: 'right' }));
    expect(Math.abs(left)).toBeGreaterThan(20);
    expect(left * right).toBeLessThan(0);
  });

  it('joins without a gap, and tilts its hubs while the cart is up', () => {
    const assembly = assemble(leg(35, 35, { bends: 'left' }));
    const opening = open(assembly);
    expect(greatest(assembly, opening, 'gap').value).toBeLessThan(0.5);
    const { tilt } = chainExtremes(assembly, opening, []);
    expect(tilt.value).toBeGreaterThan(1);
    expect(tilt.value).toBeLessThan(20);
  });

  it('too short opens a gap, which grows smoothly as it is shortened', () => {
    const gaps = [35, 33, 31, 29, 27, 25].map((long) => {
      // The ankle stays where it is on the page; only the limb is shorter.
      const parts = leg(long, long, { bends: 'left' }).map((part) =>
        part.name === 'ankle' ? { ...part, meets: [-70, 75] } : part,
      );
      const assembly = assemble(parts);
      return greatest(assembly, open(assembly), 'gap').value;
    });
    for (let i = 1; i < gaps.length; i++) expect(gaps[i]).toBeGreaterThanOrEqual(gaps[i - 1] - 1e-6);
    expect(gaps.at(-1)).toBeGreaterThan(10);
    const growth = gaps.slice(1).map((gap, i) => gap - gaps[i]);
    expect(Math.max(...growth)).toBeLessThan(6);
  });

  it('glued at the toe lifts when it is pulled too far, and lies when it is longer', () => {
    // The toe is glued behind the cart, which goes away from it; the knee is drawn out to the side.
    const glued = (aside: number) => {
      const long = Math.hypot(aside, 10);
      const assembly = assemble([
        ...cart,
        { name: 'thigh', kind: 'link', from: [-70, 145], to: [-70 - aside, 155], width: 8 },
        { name: 'shin', kind: 'link', from: [-70 - aside, 155], to: [-70, 165], width: 8 },
        { name: 'hip', kind: 'pivot', between: ['cart', 'thigh'], at: [10, 20], meets: [0, 0] },
        { name: 'knee', kind: 'pivot', between: ['thigh', 'shin'], at: [long, 0], meets: [0, 0] },
        {
          name: 'toe',
          kind: 'glued-end',
          end: {
            panel: 'shin',
            line: [
              [long, -3],
              [long, 3],
            ],
          },
          to: 'left page',
        },
      ]);
      return chainExtremes(assembly, open(assembly), []).lift.value;
    };
    const lifts = [10, 20, 30, 40, 60].map(glued);
    expect(lifts[0]).toBeGreaterThan(5);
    for (let i = 1; i < lifts.length; i++) expect(lifts[i]).toBeLessThan(lifts[i - 1]);
    expect(lifts.at(-1)).toBeLessThan(1);
  });

  it('with its foot in a slit slides along it and never leaves it', () => {
    const parts = leg(20, 20, {
      bends: 'left',
      end: {
        name: 'foot',
        kind: 'tongue',
        panel: 'shin',
        at: [20, 0],
        slit: {
          panel: 'left page',
          line: [
            [-70, 60],
            [-70, 100],
          ],
        },
      },
    });
    const assembly = assemble(parts);
    const opening = open(assembly);
    const page = (frame: number) => pointOf(assembly, opening.frame(frame), 'shin', 20, 0);
    const places = Array.from({ length: opening.count }, (_, frame) => page(frame));
    for (const [x, y, z] of places) {
      expect(Math.hypot(x + 70, z)).toBeLessThan(0.5);
      expect(y).toBeGreaterThan(69.5);
      expect(y).toBeLessThan(120.5);
    }
    const along = places.map(([, y]) => y);
    expect(Math.max(...along) - Math.min(...along)).toBeGreaterThan(3);
    expect(axisOf(assembly, opening.frame(40), 'foot tail', 2)[2]).toBeCloseTo(1, 9);
  });
});

describe('a hub', () => {
  const hub = (more: object) =>
    assemble(
      leg(35, 35, { bends: 'left' }).map((part) => (part.name === 'knee' ? { ...part, ...more } : part)),
    );

  it('whose waist fills its hole, or whose shoulder slips through it, is refused', () => {
    expect(() => hub({ waist: 4 })).toThrow(/does not turn in a hole/);
    expect(() => hub({ shoulder: 4 })).toThrow(/slip through a hole/);
  });

  it('too near an edge is refused', () => {
    expect(() => hub({ margin: 3 })).toThrow(/from an edge of 'thigh'; its hole and margin need 5.00 mm/);
  });

  it('with glue beside it is refused: glue there sets the joint', () => {
    const parts = leg(35, 35, { bends: 'left' });
    const patch = { name: 'patch', kind: 'stiffener', on: 'thigh', at: [25, -3], size: [6, 6] };
    const before = parts.findIndex(({ name }) => name === 'hip');
    expect(() => assemble([...parts.slice(0, before), patch, ...parts.slice(before)])).toThrow(
      /glue of 'patch' .* would set the joint/,
    );
  });

  it('between two panels that are both placed already is refused', () => {
    expect(() =>
      assemble([...cart, { name: 'pin', kind: 'pivot', between: ['cart', 'left page'], at: [10, 20] }]),
    ).toThrow(/nothing could turn/);
  });
});

describe('a slot', () => {
  it('tells the least room of what passes through it, and where', () => {
    // A tent with a window in its left side, and a standing V-fold inside it whose tip looks out.
    const assembly = assemble([
      { name: 'hut', kind: 'parallel-fold', at: 40, length: 100, glue: [50, 50], widths: [60, 60] },
      { name: 'pole', kind: 'v-fold', at: 60, glue: [60, 60], panels: [90, 90], feet: [30, 30], ridge: 70 },
      {
        name: 'window',
        kind: 'slot',
        on: 'hut left',
        outline: [
          [2, 2],
          [98, 2],
          [98, 58],
          [2, 58],
        ],
        passes: 'pole left',
      },
    ]);
    const [room] = findSlotRooms(assembly, open(assembly));
    expect(room.passing).toBe('pole left');
    expect(room.pageAngle).not.toBeNull();
    expect(room.room).not.toBeNull();
  });
});
