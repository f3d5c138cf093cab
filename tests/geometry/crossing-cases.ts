import { type Placed, type Point, pose, rectangle, shape, type Vector } from './panels.js';

/**
 * Pairs of panels whose crossing is known by hand. In all but a few, panel a lies in z = 0 in the world's axes, and
 * panel b stands on the line y = y0 with its x along the world's, its y rising at `tilt` from +y. So the common line
 * is y = y0, b's stretch of it is read off b's outline at its own y = 0, and its reaches are its own least and
 * greatest y. The formula stands beside each family.
 */
export interface Case {
  readonly name: string;
  readonly a: Placed;
  readonly b: Placed;
  /** Undefined where the panels do not cross. Angle in degrees; a place is left out where two are as good. */
  readonly expected?: {
    readonly depth: number;
    readonly push: number;
    readonly angle: number;
    readonly onA?: Point;
    readonly onB?: Point;
  };
}

const rad = (degrees: number) => (degrees * Math.PI) / 180;
const flat = (outline: readonly Point[], ...holes: Point[][]): Placed => ({
  shape: shape(outline, ...holes),
  pose: pose([0, 0, 0], [1, 0, 0], [0, 1, 0]),
});
const standing = (
  outline: readonly Point[],
  tilt: number,
  [x, y, z]: Vector,
  ...holes: Point[][]
): Placed => ({
  shape: shape(outline, ...holes),
  pose: pose([x, y, z], [1, 0, 0], [0, Math.cos(rad(tilt)), Math.sin(rad(tilt))]),
});
const between = (tilt: number) => Math.min(tilt, 180 - tilt);
const sin = (degrees: number) => Math.sin(rad(degrees));

const cases: Case[] = [];
const add = (name: string, a: Placed, b: Placed, expected?: Case['expected']) =>
  cases.push(expected ? { name, a, b, expected } : { name, a, b });

const board = rectangle(-50, -50, 50, 50);

// A plate 30 wide poked by d through a board at a tilt: depth d, push d sin tilt; the tip is the middle of its lower
// edge, and it comes through at (x0, y0). Tilts under 5 are the nearly flat states.
const tilts = [0.01, 0.02, 0.05, 0.1, 0.5, 1, 2, 5, 15, 30, 45, 60, 75, 90, 120, 150, 175, 179.9, 179.99];
for (const tilt of tilts) {
  for (const d of [0.4, 1, 3, 10]) {
    const [x0, y0] = [4 * d - 20, 30 - 3 * d];
    const b = standing(rectangle(-15, -d, 15, 30), tilt, [x0, y0, 0]);
    const expected = {
      depth: d,
      push: d * sin(tilt),
      angle: between(tilt),
      onA: [x0, y0],
      onB: [0, -d],
    } as const;
    add(`plate through board at ${tilt}°, ${d} deep`, flat(board), b, expected);
  }
}

// A corner of half-angle h poked by d: depth d. The stretch is 2 d tan h wide; the board leaves more than d of shift.
for (const h of [10, 30, 60, 80]) {
  for (const d of [0.5, 2, 8]) {
    for (const tilt of [20, 90]) {
      const half = (20 + d) * Math.tan(rad(h));
      const corner: Point[] = [
        [0, -d],
        [half, 20],
        [-half, 20],
      ];
      const b = standing(corner, tilt, [3, -6, 0]);
      const expected = { depth: d, push: d * sin(tilt), angle: tilt, onA: [3, -6], onB: [0, -d] } as const;
      add(`corner of ${2 * h}° through board at ${tilt}°, ${d} deep`, flat(board), b, expected);
    }
  }
}

// A plate 10 deep whose stretch overlaps the board's by s at the board's edge: sliding it off takes s. The place is
// the middle of the shared stretch, s/2 within the board's edge and s/2 within the plate's.
for (const s of [0.3, 1, 4]) {
  for (const tilt of [2, 30, 60, 90]) {
    const b = standing(rectangle(-15, -10, 15, 30), tilt, [65 - s, 0, 0]);
    add(`plate over the board's edge by ${s} at ${tilt}°`, flat(board), b, {
      depth: s,
      push: Math.min(s, 10 * sin(tilt)),
      angle: tilt,
      onA: [50 - s / 2, 0],
      onB: [-15 + s / 2, 0],
    });
  }
}

// A board that reaches e past the plate: the board pokes by e; its far edge is level, so its tip is that edge's middle.
for (const e of [0.5, 2, 5]) {
  for (const tilt of [10, 90]) {
    const b = standing(rectangle(-15, -10, 15, 30), tilt, [7, 50 - e, 0]);
    const expected = { depth: e, push: e * sin(tilt), angle: tilt, onA: [0, 50], onB: [0, 0] } as const;
    add(`board's edge ${e} through a plate at ${tilt}°`, flat(board), b, expected);
  }
}

// A triangle of height h cut at height c by a board larger than it: min(c, h − c); the tip is the apex, or the middle
// of the level base. The stretch runs from c q/h to b + c (q − b)/h, which lies in the middle of the board's.
for (const [base, q, h] of [
  [30, 10, 24],
  [20, 45, 18],
]) {
  for (const share of [0.05, 0.4, 0.6, 0.95]) {
    const c = share * h;
    const middle = (base + (c * (2 * q - base)) / h) / 2;
    const triangle: Point[] = [
      [0, 0],
      [base, 0],
      [q, h],
    ];
    const b = standing(rectangle(-100, -70, 100, 80), 65, [10, c, 0]);
    add(`triangle with its apex at ${q}, cut at ${share} of its height`, flat(triangle), b, {
      depth: Math.min(c, h - c),
      push: Math.min(c, h - c) * sin(65),
      angle: 65,
      onA: c < h - c ? [base / 2, 0] : [q, h],
      onB: [middle - 10, 0],
    });
  }
}

// A plate w wide in a notch or a hole g wide, its middle o beside the gap's: its ends stand w/2 ± o from the gap's
// middle, so it overlaps the card by w/2 + o − g/2 on one side and w/2 − o − g/2 on the other; the deeper is told.
const gap = 10;
const notched: Point[] = [
  [-50, -50],
  [50, -50],
  [50, 50],
  [5, 50],
  [5, -10],
  [-5, -10],
  [-5, 50],
  [-50, 50],
];
const gaps = [
  { name: 'notch', a: flat(notched) },
  { name: 'hole', a: flat(board, rectangle(-5, -12, 5, 12)) },
  { name: 'hole drawn clockwise', a: flat(board, rectangle(-5, -12, 5, 12).reverse()) },
];
for (const { name, a } of gaps) {
  for (const [w, o] of [
    [6, 0],
    [9.9, 0],
    [10, 0],
    [8, 1],
    [12, 0.5],
    [13, 4],
    [8, 1.7],
    [4, -3.4],
  ]) {
    for (const tilt of [25, 90]) {
      const b = standing(rectangle(-w / 2, -20, w / 2, 25), tilt, [o, 0, 0]);
      const over = w / 2 + Math.abs(o) - gap / 2;
      const title = `plate ${w} wide in a ${name} ${gap} wide, ${o} off its middle, at ${tilt}°`;
      if (over <= 0) add(title, a, b);
      else {
        const depth = over;
        const middle = Math.sign(o) * (gap / 2 + over / 2);
        add(title, a, b, { depth, push: depth, angle: tilt, onA: [middle, 0], onB: [middle - o, 0] });
      }
    }
  }
}

// A square hole standing on its corner, half-diagonal 10, is 2 (10 − |y0|) wide at y0.
for (const y0 of [-7, -2, 0, 4, 6]) {
  const diamond: Point[] = [
    [10, 0],
    [0, 10],
    [-10, 0],
    [0, -10],
  ];
  const room = 10 - Math.abs(y0);
  const b = standing(rectangle(-7, -15, 5, 25), 80, [0, y0, 0]);
  const title = `plate in a diamond hole, ${y0} off its middle`;
  const depth = 7 - room;
  const middle = -(7 + room) / 2;
  if (depth <= 0) add(title, flat(board, diamond), b);
  else
    add(title, flat(board, diamond), b, {
      depth,
      push: depth,
      angle: 80,
      onA: [middle, y0],
      onB: [middle, 0],
    });
}

// A notch that narrows to a point exactly on the line parts the card there, above the line or below: the stretches
// are [−50, 0] and [0, 50]. A plate 9 deep from x1 to x2 meets each; sliding it past the point takes x2, or −x1.
for (const way of [1, -1]) {
  const vee = (
    [
      [-50, 50],
      [-50, -50],
      [50, -50],
      [50, 50],
      [6, 50],
      [0, 0],
      [-6, 50],
    ] as const
  ).map(([x, y]): Point => [x, way * y]);
  const a = flat(way === 1 ? vee : vee.reverse());
  for (const [x1, x2] of [
    [5, 20],
    [-21, -4],
    [-7, 12],
    [-3, 4],
  ]) {
    const b = standing(rectangle(x1, -9, x2, 30), 70, [0, 0, 0]);
    const right = x2 >= -x1;
    const [from, to] = right ? [Math.max(0, x1), x2] : [x1, Math.min(0, x2)];
    const shift = Math.max(x2, -x1);
    const middle = (from + to) / 2;
    const place: Point = [middle, 0];
    add(`plate from ${x1} to ${x2} at the point of a notch, ${way}`, a, b, {
      depth: Math.min(9, shift),
      push: Math.min(9 * sin(70), shift),
      angle: 70,
      onA: place,
      onB: shift < 9 ? place : [(x1 + x2) / 2, -9],
    });
  }
}

// Two prongs through a board, d1 and d2 long: the longer is told, and its tip. Where the board is under one only, that.
for (const [d1, d2] of [
  [1, 2],
  [3, 1],
  [5, 0.4],
]) {
  for (const tilt of [10, 90]) {
    const comb: Point[] = [
      [-20, 20],
      [-20, 4],
      [-15, 4],
      [-15, -d1],
      [-5, -d1],
      [-5, 4],
      [5, 4],
      [5, -d2],
      [15, -d2],
      [15, 20],
    ];
    const b = standing(comb, tilt, [0, 8, 0]);
    const d = Math.max(d1, d2);
    const x = d1 > d2 ? -10 : 10;
    const expected = { depth: d, push: d * sin(tilt), angle: tilt, onA: [x, 8], onB: [x, -d] } as const;
    add(`comb with prongs ${d1} and ${d2} long at ${tilt}°`, flat(board), b, expected);
    const half = flat(rectangle(-50, -50, 0, 50));
    const first = { depth: d1, push: d1 * sin(tilt), angle: tilt, onA: [-10, 8], onB: [-10, -d1] } as const;
    add(`comb with prong ${d1} over a half board at ${tilt}°`, half, b, first);
  }
}

// A frame: below the board both its legs are one part, as deep as its foot; the tip is the middle of the foot.
for (const d of [3.5, 5]) {
  for (const tilt of [15, 90]) {
    const a = flat(rectangle(-13, -50, -7, 50));
    const b = standing(rectangle(-15, -d, 15, 20), tilt, [0, 5, 0], rectangle(-5, -3, 5, 3));
    const expected = { depth: d, push: d * sin(tilt), angle: tilt, onA: [-10, 5], onB: [0, -d] } as const;
    add(`leg of a frame ${d} deep at ${tilt}°`, a, b, expected);
  }
}

// Panels with one corner in common, b passing through a: along the line both start at that corner, so the shift is the
// length of b's stretch, L, and the depth is min(m, L), b reaching m below; or none, when b turns away from a.
for (const tilt of [30, 90, 140]) {
  const sector: Point[] = [
    [0, 0],
    [60, -40],
    [60, 40],
  ];
  for (const [L, m] of [
    [20, 3],
    [20, 12],
    [6, 9],
  ]) {
    const through: Point[] = [
      [0, 0],
      [L, -m],
      [L, 30],
    ];
    const depth = Math.min(m, L);
    const tipped = m < L;
    add(`corner shared, b ${m} below a at ${tilt}°`, flat(sector), standing(through, tilt, [0, 0, 0]), {
      depth,
      push: Math.min(m * sin(tilt), L),
      angle: between(tilt),
      onA: [L / 2, 0],
      onB: tipped ? [L, -m] : [L / 2, 0],
    });
  }
  const above: Point[] = [
    [0, 0],
    [20, 5],
    [20, 30],
  ];
  const away: Point[] = [
    [0, 0],
    [-20, 10],
    [-20, -10],
  ];
  const alongside: Point[] = [
    [0, 0],
    [30, 0],
    [30, 20],
  ];
  add(`corner shared, b above a at ${tilt}°`, flat(sector), standing(above, tilt, [0, 0, 0]));
  add(`corner shared, b beyond a at ${tilt}°`, flat(sector), standing(away, tilt, [0, 0, 0]));
  add(`corner shared, b on its edge along a at ${tilt}°`, flat(sector), standing(alongside, tilt, [0, 0, 0]));
}

// Contact without crossing: an edge or corner of one in the other's plane, to within the round-off of a motion.
const step: Point[] = [
  [-50, 0],
  [0, 0],
  [0, -50],
  [50, -50],
  [50, 50],
  [-50, 50],
];
for (const tilt of [0.1, 20, 90, 130]) {
  for (const off of [0, 1e-7, -1e-7]) {
    const lifted: Vector = [5, 5, off];
    add(
      `edge standing on a board at ${tilt}°, off by ${off}`,
      flat(board),
      standing(rectangle(-15, 0, 15, 30), tilt, lifted),
    );
    const tip: Point[] = [
      [0, 0],
      [20, 15],
      [-20, 15],
    ];
    add(`corner standing on a board at ${tilt}°, off by ${off}`, flat(board), standing(tip, tilt, lifted));
    add(
      `plate past the board's edge at ${tilt}°, off by ${off}`,
      flat(board),
      standing(rectangle(-15, -9, 15, 30), tilt, [0, 50, off * sin(tilt)]),
    );
    // The line runs along the inner edge of a step, and on through card; the plate stands at the edge only.
    add(
      `plate along the inner edge of a step at ${tilt}°, off by ${off}`,
      flat(step),
      standing(rectangle(-40, -9, -10, 30), tilt, [0, 0, off * sin(tilt)]),
    );
  }
  // The same step, with the plate reaching 7 beyond the inner corner: shift 7 from there.
  add(
    `plate across the inner corner of a step at ${tilt}°`,
    flat(step),
    standing(rectangle(-40, -9, 7, 30), tilt, [0, 0, 0]),
    {
      depth: 7,
      push: Math.min(7, 9 * sin(tilt)),
      angle: between(tilt),
      onA: [3.5, 0],
      onB: [3.5, 0],
    },
  );
}

// A shared crease at any fold, on a plain edge, in a notch with card beyond both ends, and of a flap cut in a window.
for (const fold of [0, 0.01, 0.1, 1, 5, 30, 60, 90, 120, 150, 179, 179.9, 179.99, 180, 270]) {
  const flap = standing(rectangle(-5, 0, 5, 20), fold, [0, 0, 0]);
  add(`crease folded ${fold}°`, flat(rectangle(-5, -40, 5, 0)), flap);
  const crenel: Point[] = [
    [-40, -40],
    [40, -40],
    [40, 30],
    [5, 30],
    [5, 0],
    [-5, 0],
    [-5, 30],
    [-40, 30],
  ];
  add(`crease in a notch folded ${fold}°`, flat(crenel), flap);
  add(`flap in its window folded ${fold}°`, flat(board, rectangle(-5, 0, 5, 20)), flap);
}

// Panels in one plane, or in parallel ones.
for (const z of [0, 1e-7, 0.05, 3]) {
  add(`coplanar overlap at height ${z}`, flat(board), standing(rectangle(-20, -20, 90, 20), 0, [0, 0, z]));
  add(
    `coplanar overlap, face down, at height ${z}`,
    flat(board),
    standing(rectangle(-20, -20, 90, 20), 180, [0, 0, z]),
  );
}

export const crossingCases: readonly Case[] = cases;
