import { zeros } from '../../geometry/numbers.js';
import { POSE } from '../pose.js';
import { found, span } from './span.js';
import { middlesOf, startsOf, TILT_WEIGHT, type Ties, tieAt } from './ties.js';

/**
 * What a set of poses costs: half the sum of squares of all gaps beyond play and of all tilts times their weight, mm².
 * With its gradient and its Hessian over six unknowns for each free panel, all in mm: the shift d of the middle of
 * its joints, and ρ w, with w a rotation vector about that middle and ρ the reach of its joints from there.
 *
 * A tie holds the world point p of a to q of b, the nearest point of b's stretch. With r = (p − q)(1 − room/|p − q|),
 * 0 within the room, it costs ½|r|²; its gradient by p is r, and by the point of b at q it is −r (moving q along the
 * stretch changes nothing to first order). A rotation vector w moves a point at lever x by w × x + ½ w × (w × x), so
 *
 *   gradient:  d: r,  w: x × r
 *   Hessian:   Jᵀ W J + ½(r xᵀ + x rᵀ) − (r·x) I on w,w    with J = [I, −[x]]
 *
 * W = f P + (1 − f) n nᵀ with n = (p − q)/|p − q|, f = 1 − room/|p − q| and P = I, or I − l lᵀ while q is free to run
 * along the direction l. The last two terms are the stiffness that a pull gives to a taut limb: without them a loop
 * that cannot close would converge slowly, or hunt. Exact for points; for a slide that misses its slit they leave out
 * the turning of l.
 *
 * A tilt costs ½ k²|n_a ∓ n_b|² = k²(1 ∓ n_a·n_b), whose Hessian with m = ±n_b is k²[(n·m) I − ½(n mᵀ + m nᵀ)] on
 * either panel and −k²[(n·m) I − m nᵀ] between them.
 */
export class Pull {
  readonly unknowns: number;
  readonly gradient: Float64Array;
  /** Row-major; its lower triangle only. */
  readonly hessian: Float64Array;
  /** For each row of it, the column of the first entry that is not always zero. */
  readonly starts: Int32Array;
  /** Middle of each free panel's joints, in its own plane. */
  readonly middle: Float64Array;
  /** Reach of each free panel's joints from that middle, mm. */
  readonly reach: Float64Array;
  /** The same middles in the world, as of the last `measure`. */
  readonly centre: Float64Array;
  /** +1 or −1: whether a pivot's faces look the same way. */
  readonly facing: Int8Array;

  constructor(
    readonly free: number,
    readonly ties: Ties,
  ) {
    this.unknowns = 6 * free;
    this.gradient = zeros(this.unknowns);
    this.hessian = zeros(this.unknowns * this.unknowns);
    this.starts = startsOf(ties, free);
    const { middle, reach } = middlesOf(ties, free);
    this.middle = middle;
    this.reach = reach;
    this.centre = zeros(3 * free);
    this.facing = new Int8Array(ties.tilts).fill(1);
  }

  /**
   * Measures the poses (one compact frame, free panels first) into `gradient` and `hessian`.
   * @returns the cost, mm²
   */
  measure(poses: Float64Array): number {
    const { ties, gradient, hessian, free, centre, middle } = this;
    gradient.fill(0);
    hessian.fill(0);
    for (let k = 0; k < free; k++) {
      const i = k * POSE;
      for (let row = 0; row < 3; row++) {
        const r = i + 4 * row;
        centre[3 * k + row] = poses[r] * middle[2 * k] + poses[r + 1] * middle[2 * k + 1] + poses[r + 3];
      }
    }
    let cost = 0;
    for (let k = 0; k < ties.count; k++) cost += this.#addTie(poses, k);
    for (let k = 0; k < ties.tilts; k++) cost += this.#addTilt(poses, k);
    return cost;
  }

  /** How far tie k stands apart beyond its room, mm. */
  gap(poses: Float64Array, k: number): number {
    span(poses, this.ties, k);
    return Math.max(0, found.distance[0] - this.ties.at[tieAt(k) + 6]);
  }

  /** By how much the faces of pivot k, counted among the pivots, stand out of parallel: radians, 0 to π. */
  tilt(poses: Float64Array, k: number): number {
    const i = this.ties.tiltA[k] * POSE;
    const j = this.ties.tiltB[k] * POSE;
    const sign = this.facing[k];
    const x = poses[i + 2] - sign * poses[j + 2];
    const y = poses[i + 6] - sign * poses[j + 6];
    const z = poses[i + 10] - sign * poses[j + 10];
    return 2 * Math.asin(Math.min(1, Math.sqrt(x * x + y * y + z * z) / 2));
  }

  /** Takes from the poses which way each pivot's two faces look. */
  faceAs(poses: Float64Array): void {
    const { ties, facing } = this;
    for (let k = 0; k < ties.tilts; k++) {
      const i = ties.tiltA[k] * POSE;
      const j = ties.tiltB[k] * POSE;
      const cosine =
        poses[i + 2] * poses[j + 2] + poses[i + 6] * poses[j + 6] + poses[i + 10] * poses[j + 10];
      facing[k] = cosine < 0 ? -1 : 1;
    }
  }

  #addTie(poses: Float64Array, k: number): number {
    const { ties, free } = this;
    span(poses, ties, k);
    const { point, foot, apart, line, running } = found;
    const distance = found.distance[0];
    const room = ties.at[tieAt(k) + 6];
    if (distance <= room && room > 0) return 0;
    // f = 1 − room/distance; with no room it is 1 even where the points meet.
    const f = room > 0 ? 1 - room / distance : 1;
    const across = room > 0 ? (1 - f) / (distance * distance) : 0;
    const along = running ? f : 0;
    const dx = apart[0];
    const dy = apart[1];
    const dz = apart[2];
    const lx = line[0];
    const ly = line[1];
    const lz = line[2];
    w[0] = f - along * lx * lx + across * dx * dx;
    w[4] = f - along * ly * ly + across * dy * dy;
    w[8] = f - along * lz * lz + across * dz * dz;
    w[1] = w[3] = across * dx * dy - along * lx * ly;
    w[2] = w[6] = across * dx * dz - along * lx * lz;
    w[5] = w[7] = across * dy * dz - along * ly * lz;
    const rx = f * dx;
    const ry = f * dy;
    const rz = f * dz;
    const a = ties.a[k];
    const b = ties.b[k];
    if (a < free) {
      this.#leverTo(point, a, leverA);
      this.#addPull(a, leverA, rx, ry, rz, 1);
      this.#addBlock(a, leverA, a, leverA, 1);
    }
    if (b < free) {
      this.#leverTo(foot, b, leverB);
      this.#addPull(b, leverB, rx, ry, rz, -1);
      this.#addBlock(b, leverB, b, leverB, 1);
      if (a < b) this.#addBlock(b, leverB, a, leverA, -1);
      else if (a < free) this.#addBlock(a, leverA, b, leverB, -1);
    }
    return 0.5 * (rx * rx + ry * ry + rz * rz);
  }

  #addTilt(poses: Float64Array, k: number): number {
    const { ties, free } = this;
    const a = ties.tiltA[k];
    const b = ties.tiltB[k];
    const sign = this.facing[k];
    const squared = TILT_WEIGHT * TILT_WEIGHT;
    for (let row = 0; row < 3; row++) {
      n[row] = poses[a * POSE + 4 * row + 2];
      m[row] = sign * poses[b * POSE + 4 * row + 2];
    }
    const cosine = n[0] * m[0] + n[1] * m[1] + n[2] * m[2];
    // d(−n·m) = −w_a·(n × m) + w_b·(n × m)
    const cx = n[1] * m[2] - n[2] * m[1];
    const cy = n[2] * m[0] - n[0] * m[2];
    const cz = n[0] * m[1] - n[1] * m[0];
    if (a < free) {
      this.#addTurn(a, cx, cy, cz, -squared);
      this.#addTurning(a, a, squared, cosine, n, m, 0.5);
    }
    if (b < free) {
      this.#addTurn(b, cx, cy, cz, squared);
      this.#addTurning(b, b, squared, cosine, n, m, 0.5);
    }
    if (a < b && b < free) this.#addTurning(b, a, -squared, cosine, n, m, 1);
    else if (b < a && a < free) this.#addTurning(a, b, -squared, cosine, m, n, 1);
    const ex = n[0] - m[0];
    const ey = n[1] - m[1];
    const ez = n[2] - m[2];
    return 0.5 * squared * (ex * ex + ey * ey + ez * ez);
  }

  /** Lever from the middle of a free panel's joints to a world point, over the panel's reach. */
  #leverTo(at: Float64Array, k: number, out: Float64Array): void {
    const reach = this.reach[k];
    for (let row = 0; row < 3; row++) out[row] = (at[row] - this.centre[3 * k + row]) / reach;
  }

  /** A moment on panel k, by w. */
  #addTurn(k: number, x: number, y: number, z: number, scale: number): void {
    const over = scale / this.reach[k];
    this.gradient[6 * k + 3] += over * x;
    this.gradient[6 * k + 4] += over * y;
    this.gradient[6 * k + 5] += over * z;
  }

  /** scale · (cosine I − p u vᵀ − (1 − p) v uᵀ) on w of panel i (rows) and of panel j (columns). */
  #addTurning(
    i: number,
    j: number,
    scale: number,
    cosine: number,
    u: Float64Array,
    v: Float64Array,
    p: number,
  ): void {
    const { hessian, unknowns } = this;
    const over = scale / (this.reach[i] * this.reach[j]);
    const q = 1 - p;
    const v0 = v[0];
    const v1 = v[1];
    const v2 = v[2];
    const u0 = u[0];
    const u1 = u[1];
    const u2 = u[2];
    let h = (6 * i + 3) * unknowns + 6 * j + 3;
    for (let row = 0; row < 3; row++) {
      const pu = p * u[row];
      const qv = q * v[row];
      hessian[h] -= over * (pu * v0 + qv * u0);
      hessian[h + 1] -= over * (pu * v1 + qv * u1);
      hessian[h + 2] -= over * (pu * v2 + qv * u2);
      hessian[h + row] += over * cosine;
      h += unknowns;
    }
  }

  /** A pull on panel k at a lever: its gradient, and the stiffness that the pull itself gives. */
  #addPull(k: number, lever: Float64Array, rx: number, ry: number, rz: number, sign: number): void {
    const { gradient, hessian, unknowns } = this;
    const x = lever[0];
    const y = lever[1];
    const z = lever[2];
    const g = 6 * k;
    gradient[g] += sign * rx;
    gradient[g + 1] += sign * ry;
    gradient[g + 2] += sign * rz;
    gradient[g + 3] += sign * (y * rz - z * ry);
    gradient[g + 4] += sign * (z * rx - x * rz);
    gradient[g + 5] += sign * (x * ry - y * rx);
    const over = sign / this.reach[k];
    const h = (g + 3) * unknowns + g + 3;
    hessian[h] -= over * (ry * y + rz * z);
    hessian[h + unknowns + 1] -= over * (rx * x + rz * z);
    hessian[h + 2 * unknowns + 2] -= over * (rx * x + ry * y);
    hessian[h + unknowns] += (over / 2) * (rx * y + ry * x);
    hessian[h + 2 * unknowns] += (over / 2) * (rx * z + rz * x);
    hessian[h + 2 * unknowns + 1] += (over / 2) * (ry * z + rz * y);
  }

  /**
   * sign · [I, −[x]]ᵀ W [I, −[y]] for panels i (rows) and j (columns):
   * W, and y × its rows; x × its columns, and y × the rows of that.
   */
  #addBlock(i: number, x: Float64Array, j: number, y: Float64Array, sign: number): void {
    const { hessian, unknowns } = this;
    for (let c = 0; c < 3; c++) {
      const u = sign * w[c];
      const v = sign * w[3 + c];
      const t = sign * w[6 + c];
      six[c] = u;
      six[3 + c] = v;
      six[6 + c] = t;
      six[9 + c] = x[1] * t - x[2] * v;
      six[12 + c] = x[2] * u - x[0] * t;
      six[15 + c] = x[0] * v - x[1] * u;
    }
    let h = 6 * i * unknowns + 6 * j;
    for (let row = 0; row < 18; row += 3) {
      const u = six[row];
      const v = six[row + 1];
      const t = six[row + 2];
      hessian[h] += u;
      hessian[h + 1] += v;
      hessian[h + 2] += t;
      hessian[h + 3] += y[1] * t - y[2] * v;
      hessian[h + 4] += y[2] * u - y[0] * t;
      hessian[h + 5] += y[0] * v - y[1] * u;
      h += unknowns;
    }
  }
}

// Room for one tie or tilt: module-wide, so that nothing is allocated in a frame.
const leverA = new Float64Array(3);
const leverB = new Float64Array(3);
const n = new Float64Array(3);
const m = new Float64Array(3);
const w = new Float64Array(9);
const six = new Float64Array(18);
