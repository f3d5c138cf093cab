import { Shell, type ShellCard } from './shell.js';

/** Folds as shells, shut step by step: their energy and bow at each page angle. */

const RADIANS = Math.PI / 180;

export interface Shut {
  readonly pageAngle: number;
  /** N mm. */
  readonly energy: number;
  /** Farthest that the first panel stands off the plane (or line) between its two creases, mm. */
  readonly bow: number;
}

/** A place on the pages: so far along, at a height above (or from) the gutter, on the left page or the right one. */
function onPage(side: 0 | 1, out: number, along: number, pageAngle: number): [number, number, number] {
  return side === 0 ? [-out, along, 0] : [-out * Math.cos(pageAngle), along, out * Math.sin(pageAngle)];
}

interface Laid {
  readonly shell: Shell;
  /** Puts what is held where the pages are. */
  place(pageAngle: number): void;
  bow(): number;
}

/** Shuts it through these page angles, degrees, falling. */
export function shut(
  { shell, place, bow }: Laid,
  pageAngles: readonly number[],
  most: number,
  fine = 1e-3,
): Shut[] {
  return pageAngles.map((degrees) => {
    shell.pageAngle = degrees * RADIANS;
    place(shell.pageAngle);
    const energy = shell.settle(most, fine);
    return { pageAngle: degrees, energy, bow: bow() };
  });
}

/**
 * A V-fold on the gutter that points in: glue angles and sectors in degrees, card from 5 mm to `outer`, `n` cells to a
 * sector. The cells grow with the radius, so that they are all but square.
 */
export function vShell(
  glue: readonly [number, number],
  sectors: readonly [number, number],
  outer: number,
  card: ShellCard,
  n: number,
  start: number,
): Laid {
  const inner = 5;
  const cell = ((sectors[0] + sectors[1]) / 2 / n) * RADIANS;
  const m = Math.max(2, Math.round(Math.log(outer / inner) / cell));
  const radius = (j: number) => inner * (outer / inner) ** (j / m);
  const rows = 2 * n + 1;
  const id = (i: number, j: number) => i * (m + 1) + j;
  const shell = new Shell(rows * (m + 1), card);
  for (const [side, from] of [
    [0, 0],
    [1, n],
  ] as const)
    shell.addPatch({
      rows: n + 1,
      columns: m + 1,
      corner: (r, c) => id(from + r, c),
      rest: (r, c) => {
        const angle = (r / n) * sectors[side] * RADIANS;
        return [radius(c) * Math.cos(angle), radius(c) * Math.sin(angle)];
      },
    });
  for (let j = 0; j <= m; j++) for (const i of [0, 2 * n]) shell.hold(id(i, j));
  const place = (pageAngle: number) => {
    for (let j = 0; j <= m; j++)
      for (const side of [0, 1] as const) {
        const g = glue[side] * RADIANS;
        const at = onPage(side, radius(j) * Math.sin(g), radius(j) * Math.cos(g), pageAngle);
        shell.at.set(at, 3 * id(side === 0 ? 0 : 2 * n, j));
      }
  };
  // To begin with: rigid panels, the crease where two cones meet, away from the gutter's head; each panel is laid out
  // between its two creases on the sphere.
  const first = start * RADIANS;
  const L = unit(onPage(0, Math.sin(glue[0] * RADIANS), Math.cos(glue[0] * RADIANS), first));
  const R = unit(onPage(1, Math.sin(glue[1] * RADIANS), Math.cos(glue[1] * RADIANS), first));
  const c = meet(L, R, Math.cos(sectors[0] * RADIANS), Math.cos(sectors[1] * RADIANS));
  for (let i = 0; i <= 2 * n; i++) {
    const [a, b, share] = i <= n ? [L, c, i / n] : [c, R, (i - n) / n];
    const d = between(a, b, share);
    for (let j = 0; j <= m; j++)
      shell.at.set(
        d.map((x) => x * radius(j)),
        3 * id(i, j),
      );
  }
  place(first);
  wrinkle(shell, 0.05);
  const bow = () => {
    let most = 0;
    for (const from of [0, n]) {
      const at = (i: number): number[] =>
        Array.from(shell.at.subarray(3 * id(from + i, m), 3 * id(from + i, m) + 3));
      const [a, b] = [unit(at(0)), unit(at(n))];
      const normal = unit([a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]);
      for (let i = 0; i <= n; i++)
        most = Math.max(most, Math.abs(at(i).reduce((sum, x, k) => sum + x * normal[k], 0)));
    }
    return most;
  };
  return { shell, place, bow };
}

/** A little out of shape, always in the same way, so that it finds its way to bow. */
function wrinkle(shell: Shell, by: number): void {
  for (let v = 0; v < shell.corners; v++)
    for (let k = 0; k < 3; k++) shell.at[3 * v + k] += by * Math.sin(12.9898 * v + 78.233 * k);
}

/** Unit c with c·L = a and c·R = b, on the side of L × R that points into the fold. */
function meet(L: number[], R: number[], a: number, b: number): number[] {
  const lr = dot(L, R);
  const u = (a - b * lr) / (1 - lr * lr);
  const v = (b - a * lr) / (1 - lr * lr);
  const flat = L.map((x, i) => u * x + v * R[i]);
  const normal = unit([L[1] * R[2] - L[2] * R[1], L[2] * R[0] - L[0] * R[2], L[0] * R[1] - L[1] * R[0]]);
  const high = Math.sqrt(Math.max(0, 1 - dot(flat, flat)));
  // The one farther from the gutter's head points in.
  const [one, other] = [1, -1].map((s) => flat.map((x, i) => x + s * high * normal[i]));
  return one[1] < other[1] ? one : other;
}

function between(a: number[], b: number[], share: number): number[] {
  const angle = Math.acos(Math.min(1, Math.max(-1, dot(a, b))));
  return a.map(
    (x, i) => (Math.sin((1 - share) * angle) * x + Math.sin(share * angle) * b[i]) / Math.sin(angle),
  );
}

const dot = (a: number[], b: number[]): number => a.reduce((sum, x, i) => sum + x * b[i], 0);
const unit = (a: number[]): number[] => {
  const long = Math.hypot(...a);
  return a.map((x) => x / long);
};

/** A tent on the gutter; on its ridge a second, smaller one that points in, if `small` is given. Sizes in mm. */
export function tentShell(
  feet: number,
  widths: readonly [number, number],
  length: number,
  card: ShellCard,
  n: number,
  start: number,
  small?: { readonly feet: number; readonly widths: readonly [number, number] },
): Laid {
  const cell = (widths[0] + widths[1]) / 2 / n;
  const m = Math.max(2, Math.round(length / cell));
  // Rows of the big tent from foot over ridge to foot; the small one stands on the rows nearest to its feet.
  const strip = m + 1;
  const big = (i: number, j: number) => i * strip + j;
  const back = small === undefined ? 0 : Math.round(small.feet / cell);
  const k = small === undefined ? 0 : Math.max(2, Math.round((small.widths[0] + small.widths[1]) / 2 / cell));
  const base = (2 * n + 1) * strip;
  const own = (i: number, j: number) => base + (i - 1) * strip + j;
  const little = (i: number, j: number) =>
    i === 0 ? big(n - back, j) : i === 2 * k ? big(n + back, j) : own(i, j);
  const shell = new Shell(base + Math.max(0, 2 * k - 1) * strip, card);
  const along = (j: number) => (j / m) * length;
  // The rows of a panel: evenly, but with one just where the small tent stands.
  const place = (w: number, i: number): number => {
    if (small === undefined) return (i / n) * w;
    const foot = w - small.feet;
    return i <= n - back ? (i / (n - back)) * foot : foot + ((i - n + back) / back) * small.feet;
  };
  for (const side of [0, 1] as const) {
    shell.addPatch({
      rows: n + 1,
      columns: strip,
      corner: (r, c) => big(side === 0 ? r : 2 * n - r, c),
      rest: (r, c) => [place(widths[side], r), along(c)],
    });
    if (small !== undefined)
      shell.addPatch({
        rows: k + 1,
        columns: strip,
        corner: (r, c) => little(side === 0 ? r : 2 * k - r, c),
        rest: (r, c) => [(r / k) * small.widths[side], along(c)],
      });
  }
  for (let j = 0; j < strip; j++) for (const i of [0, 2 * n]) shell.hold(big(i, j));
  const hold = (pageAngle: number) => {
    for (let j = 0; j < strip; j++)
      for (const side of [0, 1] as const)
        shell.at.set(onPage(side, feet, along(j), pageAngle), 3 * big(side === 0 ? 0 : 2 * n, j));
  };
  const first = start * RADIANS;
  const A = flat(onPage(0, feet, 0, first));
  const B = flat(onPage(1, feet, 0, first));
  const P = circles(A, B, widths[0], widths[1], 1);
  const row = (from: number[], to: number[], share: number) => from.map((x, i) => x + share * (to[i] - x));
  const set = (corner: number, at: number[], j: number) => shell.at.set([at[0], along(j), at[1]], 3 * corner);
  for (let j = 0; j < strip; j++)
    for (let i = 0; i <= n; i++) {
      set(big(i, j), row(A, P, place(widths[0], i) / widths[0]), j);
      set(big(2 * n - i, j), row(B, P, place(widths[1], i) / widths[1]), j);
    }
  if (small !== undefined) {
    const C = row(A, P, 1 - small.feet / widths[0]);
    const D = row(B, P, 1 - small.feet / widths[1]);
    const Q = circles(C, D, small.widths[0], small.widths[1], -1);
    for (let j = 0; j < strip; j++)
      for (let i = 1; i <= k; i++) {
        set(little(i, j), row(C, Q, i / k), j);
        if (i < k) set(little(2 * k - i, j), row(D, Q, i / k), j);
      }
    // It stays between the panels of the big one.
    for (let j = 0; j < strip; j++)
      for (let i = 1; i < 2 * k; i++)
        for (let r = 0; r < n; r++) {
          shell.walls.push({ corner: own(i, j), from: big(r, j), to: big(r + 1, j), side: -1 });
          shell.walls.push({
            corner: own(i, j),
            from: big(2 * n - r, j),
            to: big(2 * n - r - 1, j),
            side: 1,
          });
        }
    shell.walls = shell.walls.filter(({ corner, from, to }) => {
      const i = Math.floor((corner - base) / strip) + 1;
      const near = i <= 1 ? n - back : i >= 2 * k - 1 ? n + back : -9;
      return Math.floor(from / strip) !== near && Math.floor(to / strip) !== near;
    });
  }
  hold(first);
  wrinkle(shell, 0.02);
  const j = Math.floor(strip / 2);
  const bow = () => {
    let most = 0;
    for (const from of [0, n]) {
      const at = (i: number): [number, number] => {
        const v = 3 * big(from + i, j);
        return [shell.at[v], shell.at[v + 2]];
      };
      const [a, b] = [at(0), at(n)];
      const [ux, uz] = [b[0] - a[0], b[1] - a[1]];
      for (let i = 0; i <= n; i++) {
        const p = at(i);
        most = Math.max(most, Math.abs((p[0] - a[0]) * uz - (p[1] - a[1]) * ux) / Math.hypot(ux, uz));
      }
    }
    return most;
  };
  return { shell, place: hold, bow };
}

const flat = ([x, , z]: [number, number, number]): number[] => [x, z];

/** Where circles about a and b meet: farther from the gutter (1) or nearer to it (−1). */
function circles(a: number[], b: number[], wa: number, wb: number, far: 1 | -1): number[] {
  const d = [b[0] - a[0], b[1] - a[1]];
  const D = Math.hypot(d[0], d[1]);
  const t = (D * D + wa * wa - wb * wb) / (2 * D);
  const h = Math.sqrt(Math.max(0, wa * wa - t * t));
  const two = [1, -1].map((s) => [
    a[0] + (t * d[0]) / D - (s * h * d[1]) / D,
    a[1] + (t * d[1]) / D + (s * h * d[0]) / D,
  ]);
  two.sort((p, q) => Math.hypot(q[0], q[1]) - Math.hypot(p[0], p[1]));
  return far === 1 ? two[0] : two[1];
}
