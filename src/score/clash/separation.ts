import { POSE, worldPoint } from '../../motion/pose.js';
import type { Body } from './bodies.js';
import { findEdgePlane, longestChord, newEdgePlane } from './edge-planes.js';
import { BEND, SPEED, TURN, TWIST } from './motion-bounds.js';
import type { BodyPair } from './pairs.js';

/** Numbers kept of a pair at one page angle: extents of a over b's plane and of b over a's, and the middles' distance. */
const ROW = 5;

/** Over a span longer than this, in frames, an edge seldom parts what the planes don't. */
const EDGEWISE = 8;

/**
 * Tells for certain that two bodies keep clear of each other between two page angles, from where they are at both and
 * from bounds of their motion in between. What it can't tell has to be looked at more closely.
 *
 * Page angles go by slots: the poses at each are handed over once, and what is found of a pair there is kept.
 */
export class Separation {
  #poses: (Float64Array | null)[] = [];
  #known = new Int32Array(0);
  #rows = new Float64Array(0);
  /** Slots at which no plane through an edge parts the pair. */
  #entwined = new Int32Array(0);
  #pair!: BodyPair;
  #a!: Body;
  #b!: Body;
  #serial = 0;
  /** The planes that parted the pair last: through an edge of a, and of b. */
  readonly #planeA = newEdgePlane();
  readonly #planeB = newEdgePlane();
  /** How far, at most, a corner of a strays from its chord in b's frame over the span last asked for, and one of b in a's. */
  #offA = 0;
  #offB = 0;

  /** Makes room for slots, and forgets what was known. */
  start(slots: number): void {
    if (this.#known.length < slots) {
      this.#known = new Int32Array(slots);
      this.#rows = new Float64Array(slots * ROW);
      this.#entwined = new Int32Array(slots);
      this.#poses = new Array<Float64Array | null>(slots).fill(null);
      this.#serial = 0;
    }
  }

  /** Sets the poses of a slot. */
  setPoses(slot: number, poses: Float64Array): void {
    this.#poses[slot] = poses;
    this.#known[slot] = 0;
    this.#entwined[slot] = 0;
  }

  setPair(pair: BodyPair, a: Body, b: Body): void {
    this.#pair = pair;
    this.#a = a;
    this.#b = b;
    this.#serial++;
    this.#planeA.edge = -1;
    this.#planeB.edge = -1;
  }

  /**
   * Whether no contact between the slots i and j can push by more than `slack`, mm.
   * @param frames how many frames lie between the two slots (a fraction between frames)
   * @param bounds where `rowA` and `rowB` say how the two bodies move there
   */
  isClear(
    i: number,
    j: number,
    frames: number,
    slack: number,
    bounds: Float64Array,
    rowA: number,
    rowB: number,
  ): boolean {
    const rows = this.#rows;
    const a = this.#a;
    const b = this.#b;
    const pair = this.#pair;
    const p = this.#look(i);
    const q = this.#look(j);
    const eighth = (frames * frames) / 8;
    const speeds = bounds[rowA + SPEED] + bounds[rowB + SPEED];
    if (rows[p + 4] + rows[q + 4] - frames * speeds > 2 * (a.radius + b.radius)) return true;

    const turnA = bounds[rowA + TURN];
    const turnB = bounds[rowB + TURN];
    const twistA = bounds[rowA + TWIST];
    const twistB = bounds[rowB + TWIST];
    const sideA = sideOf(rows, p, q);
    const sideB = sideOf(rows, p + 2, q + 2);
    // What keeps clear as if the shared point were one may come nearer by as much as that comes apart.
    const room = slack - pair.stray;
    if (room < 0) return false;
    if (pair.shared !== null) {
      // Heights by distance from the shared point: h / R = n · e, where both n and e are unit vectors that turn.
      this.#offA = eighth * (twistA + twistB + 2 * turnA * turnB);
      this.#offB = this.#offA;
    } else {
      // h = n · (x − o), so h″ = n″ · (x − o) + 2 n′ · (x′ − o′) + n · (x″ − o″), with o the middle of the other body.
      const bends = bounds[rowA + BEND] + bounds[rowB + BEND] + twistA * a.radius + twistB * b.radius;
      const apart = Math.max(rows[p + 4], rows[q + 4]) + (frames * speeds) / 2;
      this.#offA = eighth * (twistB * (apart + a.radius) + 2 * turnB * (speeds + turnA * a.radius) + bends);
      this.#offB = eighth * (twistA * (apart + b.radius) + 2 * turnA * (speeds + turnB * b.radius) + bends);
    }
    if (sideA >= this.#offA - room / pair.sideA.reach || sideB >= this.#offB - room / pair.sideB.reach)
      return true;
    // Where one lies on one side of the other, a shorter span will show it; else an edge may part them.
    if (frames > EDGEWISE || (frames > 1 && (sideA > 0 || sideB > 0))) return false;
    if (this.#entwined[i] === this.#serial || this.#entwined[j] === this.#serial) return false;
    const first = this.#poses[i] as Float64Array;
    const second = this.#poses[j] as Float64Array;
    const planeA = this.#planeA;
    const planeB = this.#planeB;
    const { sideA: ofA, sideB: ofB } = pair;
    const there = this.#apart(first, before);
    const then = this.#apart(second, after);
    findEdgePlane(
      ofA.corners,
      a.panel,
      b.panel,
      ofB.edges,
      first,
      second,
      there,
      then,
      1,
      this.#offA,
      planeB,
    );
    if (planeB.gap > this.#offA) return true;
    findEdgePlane(
      ofB.corners,
      b.panel,
      a.panel,
      ofA.edges,
      first,
      second,
      there,
      then,
      -1,
      this.#offB,
      planeA,
    );
    if (planeB.gap === 0 && planeA.gap === 0) this.#entwined[i] = this.#serial;
    return planeA.gap > this.#offB;
  }

  /**
   * How far, at most, any corner of a moves against b, mm, from the nearer of two slots to anywhere between them; the
   * span must be the one that `isClear` was last asked about.
   */
  shift(i: number, j: number): number {
    const a = this.#a;
    const b = this.#b;
    const pair = this.#pair;
    const chord = longestChord(
      pair.sideA.corners,
      a.panel,
      b.panel,
      this.#poses[i] as Float64Array,
      this.#poses[j] as Float64Array,
    );
    return chord / 2 + this.#offA * pair.sideA.reach;
  }

  /** Whether, at one page angle, either body is within `slack` mm of lying on one side of the other's plane. */
  isOneSided(slot: number, slack: number): boolean {
    const rows = this.#rows;
    const pair = this.#pair;
    const room = slack - pair.stray;
    if (room < 0) return false;
    const p = this.#look(slot);
    return (
      sideOf(rows, p, p) >= -room / pair.sideA.reach || sideOf(rows, p + 2, p + 2) >= -room / pair.sideB.reach
    );
  }

  /** The way from a's shared point to b's, where the two come apart: written to `out`, which is given back. */
  #apart(poses: Float64Array, out: Float64Array): Float64Array {
    const { shared, stray } = this.#pair;
    if (shared === null || stray === 0) return NOWHERE;
    worldPoint(poses, this.#b.panel, shared[1][0], shared[1][1], out);
    worldPoint(poses, this.#a.panel, shared[0][0], shared[0][1], own);
    for (let axis = 0; axis < 3; axis++) out[axis] -= own[axis];
    return out;
  }

  /** Finds what is kept of the pair at a slot, unless it is known; returns where its row begins. */
  #look(slot: number): number {
    const row = slot * ROW;
    if (this.#known[slot] === this.#serial) return row;
    this.#known[slot] = this.#serial;
    const rows = this.#rows;
    const a = this.#a;
    const b = this.#b;
    const pair = this.#pair;
    const poses = this.#poses[slot] as Float64Array;
    const i = a.panel * POSE;
    const j = b.panel * POSE;
    const way = this.#apart(poses, before);
    extent(pair.sideA.corners, poses, i, j, way, 1, rows, row);
    extent(pair.sideB.corners, poses, j, i, way, -1, rows, row + 2);
    const dx =
      poses[i] * a.x + poses[i + 1] * a.y + poses[i + 3] - poses[j] * b.x - poses[j + 1] * b.y - poses[j + 3];
    const dy =
      poses[i + 4] * a.x +
      poses[i + 5] * a.y +
      poses[i + 7] -
      poses[j + 4] * b.x -
      poses[j + 5] * b.y -
      poses[j + 7];
    const dz =
      poses[i + 8] * a.x +
      poses[i + 9] * a.y +
      poses[i + 11] -
      poses[j + 8] * b.x -
      poses[j + 9] * b.y -
      poses[j + 11];
    rows[row + 4] = Math.sqrt(dx * dx + dy * dy + dz * dz);
    return row;
  }
}

const NOWHERE = new Float64Array(3);
const before = new Float64Array(3);
const after = new Float64Array(3);
const own = new Float64Array(3);

/** How far clear of the plane both extents lie on one side of it: below 0 where they don't. */
function sideOf(rows: Float64Array, p: number, q: number): number {
  const above = Math.min(rows[p], rows[q]);
  const below = Math.max(rows[p + 1], rows[q + 1]);
  return Math.max(above, -below);
}

/** Least and greatest weighted height of corners in pose i, moved by `sign` times `way`, over the plane of pose j. */
function extent(
  corners: Float64Array,
  poses: Float64Array,
  i: number,
  j: number,
  way: Float64Array,
  sign: 1 | -1,
  rows: Float64Array,
  at: number,
): void {
  const nx = poses[j + 2];
  const ny = poses[j + 6];
  const nz = poses[j + 10];
  const px = nx * poses[i] + ny * poses[i + 4] + nz * poses[i + 8];
  const py = nx * poses[i + 1] + ny * poses[i + 5] + nz * poses[i + 9];
  const p0 =
    nx * (poses[i + 3] - poses[j + 3] + sign * way[0]) +
    ny * (poses[i + 7] - poses[j + 7] + sign * way[1]) +
    nz * (poses[i + 11] - poses[j + 11] + sign * way[2]);
  let least = Infinity;
  let most = -Infinity;
  for (let c = 0; c < corners.length; c += 3) {
    const height = (px * corners[c] + py * corners[c + 1] + p0) * corners[c + 2];
    if (height < least) least = height;
    if (height > most) most = height;
  }
  rows[at] = least;
  rows[at + 1] = most;
}
