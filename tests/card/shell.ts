/**
 * Card as a shell of triangles and hinges between rigid pages, to compare the closed forms of `src/card` with: a
 * separate model, which knows nothing of them.
 *
 * Triangles carry the plane of the card (St Venant and Kirchhoff, plane stress), the edges between them its bending: on a
 * grid of squares whose diagonals alternate, an edge of the grid holds ½ D θ² and a diagonal ½ D (1 − ν) θ²/2 · 2, which
 * gives a plate its energy both when it is rolled and when it is twisted. The glue lines go with the pages and turn freely; creases have no stiffness.
 * Pages, and panels that another may touch, push back what enters them. No friction, no thickness.
 */
export interface ShellCard {
  readonly pull: number;
  readonly bend: number;
}

const POISSON = 0.3;
/** So many steps back are remembered while it settles. */
const KEPT = 25;
/** N/mm by which what enters a page is pushed back, at each corner. */
const PUSH = 40;

/** A patch of grid: `rows` × `columns` corners, given by their places at rest and the numbers of the corners in space. */
export interface Patch {
  readonly rows: number;
  readonly columns: number;
  /** Number of a corner. */
  corner(row: number, column: number): number;
  /** Its place in the flat panel. */
  rest(row: number, column: number): readonly [number, number];
}

/** Pushes a corner to one side of the line between two others, seen along y (the gutter). */
export interface Wall {
  readonly corner: number;
  readonly from: number;
  readonly to: number;
  readonly side: 1 | -1;
}

export class Shell {
  readonly at: Float64Array;
  readonly force: Float64Array;
  readonly #triangles: number[] = [];
  readonly #inverse: number[] = [];
  readonly #hinges: number[] = [];
  readonly #hingeBend: number[] = [];
  readonly #held = new Set<number>();
  readonly #scratch = new Float64Array(6);
  walls: Wall[] = [];
  pageAngle = Math.PI;

  constructor(
    readonly corners: number,
    readonly card: ShellCard,
  ) {
    this.at = new Float64Array(3 * corners);
    this.force = new Float64Array(3 * corners);
  }

  hold(corner: number): void {
    this.#held.add(corner);
  }

  addPatch({ rows, columns, corner, rest }: Patch): void {
    const edges = new Map<string, { ends: [number, number]; wings: number[]; diagonal: boolean }>();
    const triangle = (...at: [number, number][]): void => {
      const ids = at.map(([r, c]) => corner(r, c));
      const [[ax, ay], [bx, by], [cx, cy]] = at.map(([r, c]) => rest(r, c));
      const [ux, uy, vx, vy] = [bx - ax, by - ay, cx - ax, cy - ay];
      const twice = ux * vy - vx * uy;
      this.#triangles.push(...ids);
      this.#inverse.push(vy / twice, -vx / twice, -uy / twice, ux / twice, Math.abs(twice) / 2);
      for (let k = 0; k < 3; k++) {
        const [a, b] = [ids[k], ids[(k + 1) % 3]];
        const key = a < b ? `${a} ${b}` : `${b} ${a}`;
        const diagonal = at[k][0] !== at[(k + 1) % 3][0] && at[k][1] !== at[(k + 1) % 3][1];
        const edge = edges.get(key) ?? { ends: [a, b], wings: [], diagonal };
        edge.wings.push(ids[(k + 2) % 3]);
        edges.set(key, edge);
      }
    };
    for (let r = 0; r + 1 < rows; r++)
      for (let c = 0; c + 1 < columns; c++) {
        const [p, q, s, t]: [number, number][] = [
          [r, c],
          [r + 1, c],
          [r + 1, c + 1],
          [r, c + 1],
        ];
        if ((r + c) % 2 === 0) {
          triangle(p, q, s);
          triangle(p, s, t);
        } else {
          triangle(p, q, t);
          triangle(q, s, t);
        }
      }
    for (const { ends, wings, diagonal } of edges.values()) {
      if (wings.length !== 2) continue;
      this.#hinges.push(...ends, ...wings);
      this.#hingeBend.push((this.card.bend / 2) * (diagonal ? 1 - POISSON : 1));
    }
  }

  /** Energy, N mm; `force` becomes its slope over each free coordinate. */
  energy(x: Float64Array, g: Float64Array): number {
    g.fill(0);
    let sum = 0;
    sum += this.#stretch(x, g);
    sum += this.#bend(x, g);
    sum += this.#push(x, g);
    for (const corner of this.#held) g.fill(0, 3 * corner, 3 * corner + 3);
    return sum;
  }

  #stretch(x: Float64Array, g: Float64Array): number {
    const stiff = this.card.pull / (1 - POISSON * POISSON);
    const fx = this.#scratch.subarray(0, 3);
    const fy = this.#scratch.subarray(3, 6);
    let sum = 0;
    for (let t = 0; t < this.#triangles.length / 3; t++) {
      const a = 3 * this.#triangles[3 * t];
      const b = 3 * this.#triangles[3 * t + 1];
      const c = 3 * this.#triangles[3 * t + 2];
      const p = this.#inverse[5 * t];
      const q = this.#inverse[5 * t + 1];
      const r = this.#inverse[5 * t + 2];
      const s = this.#inverse[5 * t + 3];
      const area = this.#inverse[5 * t + 4];
      let xx = -1;
      let yy = -1;
      let xy = 0;
      for (let k = 0; k < 3; k++) {
        const u = x[b + k] - x[a + k];
        const v = x[c + k] - x[a + k];
        fx[k] = u * p + v * r;
        fy[k] = u * q + v * s;
        xx += fx[k] * fx[k];
        yy += fy[k] * fy[k];
        xy += fx[k] * fy[k];
      }
      const ex = xx / 2;
      const ey = yy / 2;
      const exy = xy / 2;
      sum += (stiff / 2) * area * (ex * ex + ey * ey + 2 * POISSON * ex * ey + 2 * (1 - POISSON) * exy * exy);
      const sx = stiff * area * (ex + POISSON * ey);
      const sy = stiff * area * (ey + POISSON * ex);
      const sxy = stiff * area * (1 - POISSON) * exy;
      for (let k = 0; k < 3; k++) {
        const px = sx * fx[k] + sxy * fy[k];
        const py = sy * fy[k] + sxy * fx[k];
        const du = px * p + py * q;
        const dv = px * r + py * s;
        g[b + k] += du;
        g[c + k] += dv;
        g[a + k] -= du + dv;
      }
    }
    return sum;
  }

  /** Angle and slopes of a hinge i–j with wings k and l, by the areas on either side. */
  #bend(x: Float64Array, g: Float64Array): number {
    let sum = 0;
    for (let h = 0; h < this.#hingeBend.length; h++) {
      const i = 3 * this.#hinges[4 * h];
      const j = 3 * this.#hinges[4 * h + 1];
      const k = 3 * this.#hinges[4 * h + 2];
      const l = 3 * this.#hinges[4 * h + 3];
      const ex = x[j] - x[i];
      const ey = x[j + 1] - x[i + 1];
      const ez = x[j + 2] - x[i + 2];
      const kx = x[k] - x[i];
      const ky = x[k + 1] - x[i + 1];
      const kz = x[k + 2] - x[i + 2];
      const lx = x[l] - x[i];
      const ly = x[l + 1] - x[i + 1];
      const lz = x[l + 2] - x[i + 2];
      const square = ex * ex + ey * ey + ez * ez;
      const long = Math.sqrt(square);
      const n1x = ey * kz - ez * ky;
      const n1y = ez * kx - ex * kz;
      const n1z = ex * ky - ey * kx;
      const n2x = ly * ez - lz * ey;
      const n2y = lz * ex - lx * ez;
      const n2z = lx * ey - ly * ex;
      const s1 = n1x * n1x + n1y * n1y + n1z * n1z;
      const s2 = n2x * n2x + n2y * n2y + n2z * n2z;
      const turn = (n1y * n2z - n1z * n2y) * ex + (n1z * n2x - n1x * n2z) * ey + (n1x * n2y - n1y * n2x) * ez;
      const angle = Math.atan2(turn / long, n1x * n2x + n1y * n2y + n1z * n2z);
      sum += this.#hingeBend[h] * angle * angle;
      const moment = 2 * this.#hingeBend[h] * angle;
      const ke = (kx * ex + ky * ey + kz * ez) / long;
      const le = (lx * ex + ly * ey + lz * ez) / long;
      const u = moment / s1;
      const v = moment / s2;
      for (let m = 0; m < 3; m++) {
        const a = u * (m === 0 ? n1x : m === 1 ? n1y : n1z);
        const b = v * (m === 0 ? n2x : m === 1 ? n2y : n2z);
        g[k + m] -= long * a;
        g[l + m] -= long * b;
        g[i + m] -= (ke - long) * a + (le - long) * b;
        g[j + m] += ke * a + le * b;
      }
    }
    return sum;
  }

  #push(x: Float64Array, g: Float64Array): number {
    const [s, c] = [Math.sin(this.pageAngle), Math.cos(this.pageAngle)];
    let sum = 0;
    for (let v = 0; v < this.corners; v++) {
      const z = x[3 * v + 2];
      if (z < 0) {
        sum += (PUSH / 2) * z * z;
        g[3 * v + 2] += PUSH * z;
      }
      // The left page lies at x < 0; the right one turns up about the gutter and reaches (−cos φ, 0, sin φ).
      const past = x[3 * v] * s + z * c;
      if (past > 0) {
        sum += (PUSH / 2) * past * past;
        g[3 * v] += PUSH * past * s;
        g[3 * v + 2] += PUSH * past * c;
      }
    }
    for (const { corner, from, to, side } of this.walls) {
      const [a, b, p] = [3 * from, 3 * to, 3 * corner];
      const [ux, uz] = [x[b] - x[a], x[b + 2] - x[a + 2]];
      const long = Math.hypot(ux, uz);
      const [px, pz] = [x[p] - x[a], x[p + 2] - x[a + 2]];
      const along = (px * ux + pz * uz) / (long * long);
      if (along < 0 || along > 1) continue;
      const [nx, nz] = [(-side * uz) / long, (side * ux) / long];
      const inside = px * nx + pz * nz;
      if (inside >= 0) continue;
      sum += (PUSH / 2) * inside * inside;
      for (const [n, share] of [
        [p, 1],
        [a, along - 1],
        [b, -along],
      ]) {
        g[n] += PUSH * inside * share * nx;
        g[n + 2] += PUSH * inside * share * nz;
      }
    }
    return sum;
  }

  /** Lets go of it: the nearest least of the energy, by the method of Broyden, Fletcher, Goldfarb and Shanno. */
  settle(most: number, fine: number): number {
    const n = this.at.length;
    const kept: { s: Float64Array; y: Float64Array; rho: number }[] = [];
    let x = this.at.slice();
    let g = x.slice();
    let next = x.slice();
    let nextG = x.slice();
    const d = x.slice();
    const shares = new Float64Array(KEPT);
    let energy = this.energy(x, g);
    for (let step = 0; step < most && Math.sqrt(dotAll(g, g)) > fine; step++) {
      for (let i = 0; i < n; i++) d[i] = -g[i];
      for (let k = kept.length - 1; k >= 0; k--) {
        const { s, y, rho } = kept[k];
        shares[k] = rho * dotAll(s, d);
        addTo(d, -shares[k], y);
      }
      const last = kept.at(-1);
      const scale = last === undefined ? 1e-3 : 1 / (last.rho * dotAll(last.y, last.y));
      for (let i = 0; i < n; i++) d[i] *= scale;
      for (let k = 0; k < kept.length; k++) {
        const { s, y, rho } = kept[k];
        addTo(d, shares[k] - rho * dotAll(y, d), s);
      }
      const slope = dotAll(g, d);
      let there = Number.POSITIVE_INFINITY;
      for (let far = 1; far > 1e-9 && slope < 0; far /= 2) {
        for (let i = 0; i < n; i++) next[i] = x[i] + far * d[i];
        there = this.energy(next, nextG);
        if (there <= energy + 1e-4 * far * slope) break;
      }
      if (!(there < energy)) {
        if (kept.length === 0) break;
        kept.length = 0;
        continue;
      }
      const used = kept.length === KEPT ? kept.shift() : undefined;
      const s = used?.s ?? x.slice();
      const y = used?.y ?? x.slice();
      for (let i = 0; i < n; i++) {
        s[i] = next[i] - x[i];
        y[i] = nextG[i] - g[i];
      }
      const sy = dotAll(s, y);
      if (sy > 1e-14) kept.push({ s, y, rho: 1 / sy });
      [x, next] = [next, x];
      [g, nextG] = [nextG, g];
      energy = there;
    }
    this.at.set(x);
    return energy;
  }
}

function dotAll(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}

function addTo(d: Float64Array, share: number, other: Float64Array): void {
  for (let i = 0; i < d.length; i++) d[i] += share * other[i];
}
