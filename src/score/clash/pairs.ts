import type { Crossing } from '../../geometry/crossing.js';
import type { Line } from '../../geometry/line.js';
import { zeros } from '../../geometry/numbers.js';
import type { Assembly, Joint } from '../../motion/assembly.js';
import type { Opening } from '../../motion/opening.js';
import { worldPoint } from '../../motion/pose.js';
import { type Body, placedLine, placedPoint, placedRing, placingIn } from './bodies.js';
import { edgesOf } from './edge-planes.js';

/** Two bodies that may run into each other. */
export interface BodyPair {
  /** Their places in the list of bodies. */
  readonly a: number;
  readonly b: number;
  /** The panels to be tested against each other, two by two: one of a, one of b. */
  readonly panels: readonly number[];
  /** They are joined by a crease, so that their planes meet in that crease and nowhere else. */
  readonly joined: boolean;
  /** A point stays common to both, on creases that both have with a third body: they turn about it. In both bodies' frames. */
  readonly shared: readonly [Point, Point] | null;
  /** How far that point comes apart, mm, where a crease that closes a loop misses by a hair; else 0. */
  readonly stray: number;
  /** They turn on one hub. */
  readonly onHub: boolean;
  /** Where the one stands in slits of the other. */
  readonly necks: readonly Neck[];
  readonly sideA: Side;
  readonly sideB: Side;
}

/**
 * Where a neck leaves its link and goes through a slit of other card, in the frame of the link or of a panel glued to it, and
 * how far around it what crosses is excused.
 */
export interface Neck {
  readonly panel: number;
  readonly x: number;
  readonly y: number;
  /** mm */
  readonly around: number;
}

/** One body as a pair has it: seen from the point that they share, if there is one. */
export class Side {
  readonly #hull: Float64Array;
  readonly #point: Point | null;
  /**
   * Corners of the body's hull, three numbers each: x, y and a weight for their height over another body's plane. The
   * weight is 1; or, where a point is shared, 1 / distance from it, and a corner at that point is left out.
   */
  readonly corners: Float64Array;
  /** Where a point is shared: how far the hull reaches from it, mm; else 1. */
  readonly reach: number;
  #lines: Float64Array | null = null;

  constructor(hull: Float64Array, point: Point | null) {
    this.#hull = hull;
    this.#point = point;
    const corners = zeros((hull.length / 2) * 3);
    let count = 0;
    let reach = point === null ? 1 : 0;
    for (let i = 0; i < hull.length; i += 2) {
      const away = point === null ? 1 : Math.hypot(hull[i] - point[0], hull[i + 1] - point[1]);
      if (away < SAME_PLACE) continue;
      corners[count++] = hull[i];
      corners[count++] = hull[i + 1];
      corners[count++] = 1 / away;
      if (away > reach) reach = away;
    }
    this.corners = corners.subarray(0, count);
    this.reach = reach;
  }

  /** Lines through which a plane may stand that leaves the whole hull on one side (see `edgesOf`). */
  get edges(): Float64Array {
    this.#lines ??= edgesOf(this.#hull, this.#point);
    return this.#lines;
  }
}

/** A crease as it lies in the frames of the two bodies that it joins. */
interface Seam {
  readonly other: number;
  readonly own: Line;
  readonly others: Line;
}

/** Card within this of a crease's line, mm, lies on it. */
const ON_LINE = 1e-6;
/** Points nearer than this, mm, are one. */
const SAME_PLACE = 1e-4;
/** A shared point farther away than this many radii helps little. */
const FAR = 4;

/**
 * The pairs of bodies that have to be tested: not a tongue and the card with its slit, nor its link; and of two bodies on one
 * crease only such panels as both have card on either side of its line (all others can only fold through each other at it).
 * @param mostStray by how much a shared point may come apart, mm
 */
export function pairsOf(
  assembly: Assembly,
  opening: Opening,
  bodies: readonly Body[],
  mostStray: number,
): BodyPair[] {
  const bodyOf = new Int32Array(assembly.panels.length);
  const placeOf = new Map(bodies.map(({ panel }, place) => [panel, place]));
  assembly.panels.forEach(({ body }, k) => {
    bodyOf[k] = placeOf.get(body) as number;
  });
  const exempt = exemptPairs(assembly.joints, bodyOf, bodies.length);
  const seams = seamsOf(assembly, bodies, bodyOf);
  const plain = bodies.map(({ hull }) => new Side(hull, null));

  const hubs = onHubs(assembly.joints, bodyOf, bodies.length);
  const necks = necksOf(assembly, bodyOf, bodies.length);
  const pairs: BodyPair[] = [];
  for (let a = 0; a < bodies.length; a++)
    for (let b = a + 1; b < bodies.length; b++) {
      const key = keyOf(a, b, bodies.length);
      if (exempt.has(key)) continue;
      const seam = seams[a].find(({ other }) => other === b);
      const panels = panelPairs(assembly, bodies[a], bodies[b], seam);
      if (panels.length === 0) continue;
      const shared =
        seam === undefined && opening.count > 0
          ? sharedPoint(opening, bodies[a], bodies[b], seams[a], seams[b], mostStray)
          : null;
      const point = shared?.point ?? null;
      pairs.push({
        a,
        b,
        panels,
        joined: seam !== undefined,
        shared: point,
        stray: shared?.stray ?? 0,
        onHub: hubs.has(key),
        necks: necks.get(key) ?? NONE,
        sideA: point === null ? plain[a] : new Side(bodies[a].hull, point[0]),
        sideB: point === null ? plain[b] : new Side(bodies[b].hull, point[1]),
      });
    }
  return pairs;
}

/** The key of two bodies, in either order. */
const keyOf = (one: number, other: number, count: number): number =>
  Math.min(one, other) * count + Math.max(one, other);

/** Keys of the pairs of bodies that turn on one hub. */
function onHubs(joints: readonly Joint[], bodyOf: Int32Array, count: number): Set<number> {
  const keys = new Set<number>();
  for (const { kind, between } of joints)
    if (kind === 'pivot') keys.add(keyOf(bodyOf[between[0]], bodyOf[between[1]], count));
  return keys;
}

/** Keys of the pairs of a tongue with its link and with the card that it lies behind. */
function exemptPairs(joints: readonly Joint[], bodyOf: Int32Array, count: number): Set<number> {
  const keys = new Set<number>();
  const add = (k: number, m: number) => keys.add(keyOf(bodyOf[k], bodyOf[m], count));
  for (const joint of joints)
    if (joint.kind === 'slide' && joint.neck !== undefined) {
      add(...joint.between);
      add(joint.between[0], joint.neck.link);
    }
  return keys;
}

const NONE: readonly Neck[] = [];

/** By the key of a link's body and that of the card with the slit: the necks of the one in the other. */
function necksOf({ panels, joints, open }: Assembly, bodyOf: Int32Array, count: number): Map<number, Neck[]> {
  const necks = new Map<number, Neck[]>();
  for (const joint of joints) {
    if (joint.kind !== 'slide' || joint.neck === undefined) continue;
    const { link, lines, breadth } = joint.neck;
    const [{ x0, y0, x1, y1 }] = lines;
    const key = keyOf(bodyOf[link], bodyOf[joint.between[1]], count);
    const middle = [(x0 + x1) / 2, (y0 + y1) / 2] as const;
    const own = panels.flatMap(({ body }, panel) => {
      if (body !== panels[link].body) return [];
      const [x, y] = placedPoint(middle, placingIn(open, link, panel));
      return [{ panel, x, y, around: breadth }];
    });
    necks.set(key, [...(necks.get(key) ?? NONE), ...own]);
  }
  return necks;
}

/**
 * Whether panels a and b cross no farther from a neck than its slit excuses. The place of a crossing on the link is
 * the farthest point of what is in the way, or the middle of the stretch that both share.
 */
export function isAtNeck(
  { necks }: Pick<BodyPair, 'necks'>,
  a: number,
  b: number,
  { ax, ay, bx, by }: Readonly<Crossing>,
): boolean {
  for (const { panel, x, y, around } of necks) {
    if (panel === a && Math.hypot(ax - x, ay - y) <= around) return true;
    if (panel === b && Math.hypot(bx - x, by - y) <= around) return true;
  }
  return false;
}

function seamsOf({ joints, open }: Assembly, bodies: readonly Body[], bodyOf: Int32Array): Seam[][] {
  const seams: Seam[][] = bodies.map(() => []);
  for (const joint of joints) {
    if (joint.kind !== 'crease') continue;
    const [a, b] = joint.between.map((k) => bodyOf[k]);
    if (a === b) continue;
    const [lineA, lineB] = joint.lines.map((line, end) =>
      placedLine(line, placingIn(open, joint.between[end], bodies[end === 0 ? a : b].panel)),
    );
    seams[a].push({ other: b, own: lineA, others: lineB });
    seams[b].push({ other: a, own: lineB, others: lineA });
  }
  return seams;
}

function panelPairs({ panels, open }: Assembly, a: Body, b: Body, seam: Seam | undefined): number[] {
  const crosses = ({ members, panel }: Body, line: Line | undefined): readonly number[] =>
    line === undefined
      ? members
      : members.filter((k) => liesAstride(placedRing(panels[k].outline, placingIn(open, k, panel)), line));
  const found: number[] = [];
  const ofB = crosses(b, seam?.others);
  for (const k of crosses(a, seam?.own)) for (const m of ofB) found.push(k, m);
  return found;
}

/** Whether a ring has card on both sides of a line. */
function liesAstride(ring: Float64Array, { x0, y0, x1, y1 }: Line): boolean {
  const long = Math.hypot(x1 - x0, y1 - y0);
  const [nx, ny] = [(y0 - y1) / long, (x1 - x0) / long];
  let [left, right] = [false, false];
  for (let i = 0; i < ring.length; i += 2) {
    const off = (ring[i] - x0) * nx + (ring[i + 1] - y0) * ny;
    if (off > ON_LINE) left = true;
    else if (off < -ON_LINE) right = true;
  }
  return left && right;
}

type Point = readonly [number, number];

/** Where creases of two bodies with a third meet, in both bodies' frames: if it stays one point all the way. */
function sharedPoint(
  opening: Opening,
  a: Body,
  b: Body,
  ofA: readonly Seam[],
  ofB: readonly Seam[],
  mostStray: number,
): { readonly point: readonly [Point, Point]; readonly stray: number } | null {
  for (const seamA of ofA)
    for (const seamB of ofB) {
      if (seamA.other !== seamB.other) continue;
      const places = meeting(seamA.others, seamB.others);
      if (places === null) continue;
      const onA = along(seamA.own, places[0]);
      const onB = along(seamB.own, places[1]);
      if (Math.hypot(onA[0] - a.x, onA[1] - a.y) > FAR * a.radius) continue;
      if (Math.hypot(onB[0] - b.x, onB[1] - b.y) > FAR * b.radius) continue;
      const stray = strayOf(opening, a.panel, onA, b.panel, onB, mostStray);
      if (stray <= mostStray) return { point: [onA, onB], stray };
    }
  return null;
}

/** Where two lines meet, as shares of each from its start; null for lines within a degree of parallel. */
function meeting(p: Line, q: Line): [number, number] | null {
  const [ux, uy] = [p.x1 - p.x0, p.y1 - p.y0];
  const [vx, vy] = [q.x1 - q.x0, q.y1 - q.y0];
  const turn = ux * vy - uy * vx;
  if (Math.abs(turn) < 0.02 * Math.hypot(ux, uy) * Math.hypot(vx, vy)) return null;
  const [dx, dy] = [q.x0 - p.x0, q.y0 - p.y0];
  return [(dx * vy - dy * vx) / turn, (dx * uy - dy * ux) / turn];
}

const along = ({ x0, y0, x1, y1 }: Line, share: number): Point => [
  x0 + share * (x1 - x0),
  y0 + share * (y1 - y0),
];

const p = new Float64Array(3);
const q = new Float64Array(3);

/**
 * How far a point comes apart that should stay one: creases that close a loop may miss each other. Where it does not, or
 * by more than `most`, at some page angles, here and there, that will do; else it is looked at in every frame, and may come apart by half as much
 * again as from one to the next in between.
 */
function strayOf(opening: Opening, a: number, onA: Point, b: number, onB: Point, most: number): number {
  const apart = (frame: number) => {
    worldPoint(opening.frame(frame), a, onA[0], onA[1], p);
    worldPoint(opening.frame(frame), b, onB[0], onB[1], q);
    return Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
  };
  const last = opening.count - 1;
  const few = Math.max(...[0, last >> 2, last >> 1, (3 * last) >> 2, last].map(apart));
  if (few <= SAME_PLACE) return 0;
  if (few > most) return few;
  let far = 0;
  let step = 0;
  for (let frame = 0, before = apart(0); frame <= last; frame++) {
    const now = apart(frame);
    far = Math.max(far, now);
    step = Math.max(step, Math.abs(now - before));
    before = now;
  }
  return far + step / 2;
}
