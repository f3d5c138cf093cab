import { excessOf, vertexRoom, type Way } from '../card/fold-room.js';
import { forcedBy, LOCKS_BEYOND, yieldsBy } from './forced.js';
import { POSE, type Step, writePose } from './pose.js';

/**
 * Two panels that meet at a crease and stand on two lines through one vertex: a spherical four-bar.
 *
 * With L and R the unit directions of the two lines, the crease c has c·L = cos p₁ and c·R = cos p₂. Turn the first
 * panel about L by γ, measured from u (square to L in the plane of the parent) towards its normal v:
 *
 *   c(γ) = cos p₁ L + sin p₁ (cos γ u + sin γ v),   so   A cos γ + B sin γ = C
 *   with A = R·u, B = R·v, C = (cos p₂ − cos p₁ R·L) / sin p₁, hence γ = atan2(B, A) ± acos(C / √(A² + B²)).
 *
 * det(L, R, c) = sin p₁ √(A² + B²) sin(γ − atan2(B, A)): the sign before acos is the sign of det, the branch.
 * (The same relation as the spherical law of cosines; every textbook of spherical trigonometry.)
 *
 * Where L ∥ R, A = B = 0. With L the nearer limit of R, R leaves L square to the parent, on the side where the other
 * parent lies (`flatSide`), so atan2(B, A) → ±90°, and C is of second order: acos → 90°.
 */
export interface SphericalFold {
  readonly part: string;
  /** The panels stood on, and the new ones. */
  readonly on: readonly [number, number];
  readonly panels: readonly [number, number];
  /** Vertex and unit direction of the line in each parent's plane. */
  readonly vertex: readonly [readonly [number, number], readonly [number, number]];
  readonly direction: readonly [readonly [number, number], readonly [number, number]];
  /** Angles between the parent crease and each line, radians: |g₁ − g₂| is the least angle that L and R ever make. */
  readonly glue: readonly [number, number];
  /** Sector angles p₁ and p₂ of the new panels, radians, in (0, π). */
  readonly sectors: readonly [number, number];
  /** The sign of det(L, R, c). */
  readonly branch: 1 | -1;
  /** Where it shuts: see `shutWay`. */
  readonly way: Way;
  /** On which side of the first parent's face the second parent lies. */
  readonly flatSide: 1 | -1;
  /** Index of its misfit, and the length along the crease at which a gap is measured, mm. */
  readonly misfit: number;
  readonly reach: number;
}

/**
 * Below this, L and R count as parallel. At a flat end an arc cosine costs some 1e-8 rad, more where folds stand on
 * folds: what is left of L × R is then round-off, and points anywhere.
 */
const PARALLEL = 1e-6;
/**
 * What C is off by. Where C/h comes as near to 1 as that, the panels are flat: else what stands on them would find a fold
 * of some 1e-6 rad there, pointing anywhere.
 */
const ROUND_OFF = 4e-15;

/**
 * The motion step of a spherical fold. First panel: x axis along L, the crease at +p₁ from it. Second panel: x axis
 * along R, the crease at −p₂, so that both faces lie on the same side of the card. The misfit written is the gap
 * between the two panels' creases at `reach`, mm: above zero where no c exists.
 */
export function sphericalStep(fold: SphericalFold): Step {
  const [a, b] = fold.on;
  const [first, second] = fold.panels;
  const [[vx, vy]] = fold.vertex;
  const [[lx, ly], [rx, ry]] = fold.direction;
  const { branch, flatSide, reach, way } = fold;

  // Sectors whose difference is not quite that of the glue angles cannot follow to the shut page: see `forcedBy`. It is
  // the sectors that yield, each by half, and the misfit is the gap that this leaves.
  const [g1, g2] = fold.glue;
  const cosLeast = Math.cos(g1 - g2);
  const excess = excessOf(fold.glue, fold.sectors, way);
  const eases = excess === 0 ? 0 : yieldsBy(excess, LOCKS_BEYOND.radians);
  // Room over sin²(θ/2), and cos(g₁ − g₂) − cos Δ = 2 sin g₁ sin g₂ sin²(θ/2).
  const roomy = vertexRoom(fold.glue, fold.sectors, way) / (2 * Math.sin(g1) * Math.sin(g2));

  return {
    part: fold.part,
    place(poses, misfits) {
      const i = a * POSE;
      const j = b * POSE;
      const Lx = poses[i] * lx + poses[i + 1] * ly;
      const Ly = poses[i + 4] * lx + poses[i + 5] * ly;
      const Lz = poses[i + 8] * lx + poses[i + 9] * ly;
      const ux = poses[i + 1] * lx - poses[i] * ly;
      const uy = poses[i + 5] * lx - poses[i + 4] * ly;
      const uz = poses[i + 9] * lx - poses[i + 8] * ly;
      const nx = poses[i + 2];
      const ny = poses[i + 6];
      const nz = poses[i + 10];
      const Rx = poses[j] * rx + poses[j + 1] * ry;
      const Ry = poses[j + 4] * rx + poses[j + 5] * ry;
      const Rz = poses[j + 8] * rx + poses[j + 9] * ry;

      const A = Rx * ux + Ry * uy + Rz * uz;
      const B = Rx * nx + Ry * ny + Rz * nz;
      const along = Rx * Lx + Ry * Ly + Rz * Lz;
      const h = Math.sqrt(A * A + B * B);

      let p1 = fold.sectors[0];
      let p2 = fold.sectors[1];
      if (eases > 0) {
        const forced = eases * forcedBy(excess, roomy * (cosLeast - along));
        p1 -= forced / 2;
        p2 += forced / 2;
      }
      const cos1 = Math.cos(p1);
      const sin1 = Math.sin(p1);
      const C = (Math.cos(p2) - cos1 * along) / sin1;
      const base = h < PARALLEL ? (flatSide * Math.PI) / 2 : Math.atan2(B, A);
      const ratio = h < PARALLEL && Math.abs(C) < PARALLEL ? 0 : C / h;
      const flat = h < PARALLEL ? 1 : 1 - ROUND_OFF / h;
      const turn = base + branch * (ratio >= flat ? 0 : ratio <= -flat ? Math.PI : Math.acos(ratio));

      // w: square to L in the first panel, towards the crease; c: the crease.
      const cosT = Math.cos(turn);
      const sinT = Math.sin(turn);
      const wx = cosT * ux + sinT * nx;
      const wy = cosT * uy + sinT * ny;
      const wz = cosT * uz + sinT * nz;
      const cx = cos1 * Lx + sin1 * wx;
      const cy = cos1 * Ly + sin1 * wy;
      const cz = cos1 * Lz + sin1 * wz;

      const ox = poses[i] * vx + poses[i + 1] * vy + poses[i + 3];
      const oy = poses[i + 4] * vx + poses[i + 5] * vy + poses[i + 7];
      const oz = poses[i + 8] * vx + poses[i + 9] * vy + poses[i + 11];
      writePose(poses, first, ox, oy, oz, Lx, Ly, Lz, wx, wy, wz);

      // The second panel turns about R to face c; its own crease lies at p₂ from R. It stands on the vertex as its own
      // parent has it, so that only the ridge shows what the parents miss.
      const [bx, by] = fold.vertex[1];
      const qx = poses[j] * bx + poses[j + 1] * by + poses[j + 3];
      const qy = poses[j + 4] * bx + poses[j + 5] * by + poses[j + 7];
      const qz = poses[j + 8] * bx + poses[j + 9] * by + poses[j + 11];
      const cR = cx * Rx + cy * Ry + cz * Rz;
      let sx = cx - cR * Rx;
      let sy = cy - cR * Ry;
      let sz = cz - cR * Rz;
      const s = Math.sqrt(sx * sx + sy * sy + sz * sz);
      sx /= s;
      sy /= s;
      sz /= s;
      writePose(poses, second, qx, qy, qz, Rx, Ry, Rz, -sx, -sy, -sz);

      // Both creases lie in planes through the vertex; the gap is the chord between their ends, for the true sectors.
      const angleFromR = Math.atan2(s, cR);
      const gap = Math.abs(angleFromR - fold.sectors[1]) + Math.abs(p1 - fold.sectors[0]);
      misfits[fold.misfit] = gap < 1e-7 ? 0 : 2 * Math.sin(gap / 2) * reach;
    },
  };
}

/** The crease of a counter-fold, by reflection: see `counterStep`. */
export interface CounterFold {
  readonly part: string;
  readonly on: readonly [number, number];
  readonly panels: readonly [number, number];
  readonly vertex: readonly [readonly [number, number], readonly [number, number]];
  /** Unit directions of the diagonals in each parent's plane, and of the parent crease in the first's. */
  readonly direction: readonly [readonly [number, number], readonly [number, number]];
  readonly crease: readonly [number, number];
  /** Angle between the crease and each diagonal, radians, in (0, π/2). */
  readonly diagonal: number;
}

/**
 * The motion step of a counter-fold cut from its parents' own sheet. Both the parent crease e and the moving crease m
 * make the angle a with both diagonals d₁ and d₂, so they are mirror images in the plane of d₁ and d₂. That plane
 * holds b = (d₁ + d₂) / |d₁ + d₂|, and e lies in the plane of b and the normal, so m = 2 (e·b) b − e.
 * |d₁ + d₂| ≥ 2 cos a, so there is no singular state for a < 90°. Panels are laid out as in `sphericalStep`.
 */
export function counterStep(fold: CounterFold): Step {
  const [a, b] = fold.on;
  const [first, second] = fold.panels;
  const [[vx, vy], [bx, by]] = fold.vertex;
  const [[lx, ly], [rx, ry]] = fold.direction;
  const [ex, ey] = fold.crease;
  const cosA = Math.cos(fold.diagonal);
  return {
    part: fold.part,
    place(poses) {
      const i = a * POSE;
      const j = b * POSE;
      const Lx = poses[i] * lx + poses[i + 1] * ly;
      const Ly = poses[i + 4] * lx + poses[i + 5] * ly;
      const Lz = poses[i + 8] * lx + poses[i + 9] * ly;
      const Rx = poses[j] * rx + poses[j + 1] * ry;
      const Ry = poses[j + 4] * rx + poses[j + 5] * ry;
      const Rz = poses[j + 8] * rx + poses[j + 9] * ry;
      const Ex = poses[i] * ex + poses[i + 1] * ey;
      const Ey = poses[i + 4] * ex + poses[i + 5] * ey;
      const Ez = poses[i + 8] * ex + poses[i + 9] * ey;
      const sx = Lx + Rx;
      const sy = Ly + Ry;
      const sz = Lz + Rz;
      const k = (2 * (Ex * sx + Ey * sy + Ez * sz)) / (sx * sx + sy * sy + sz * sz);
      const mx = k * sx - Ex;
      const my = k * sy - Ey;
      const mz = k * sz - Ez;
      const ox = poses[i] * vx + poses[i + 1] * vy + poses[i + 3];
      const oy = poses[i + 4] * vx + poses[i + 5] * vy + poses[i + 7];
      const oz = poses[i + 8] * vx + poses[i + 9] * vy + poses[i + 11];
      // Square to each diagonal in its panel; where the parents' crease misses a little, of length 1 all the same.
      const ax = mx - cosA * Lx;
      const ay = my - cosA * Ly;
      const az = mz - cosA * Lz;
      const along = ax * Lx + ay * Ly + az * Lz;
      writeSquare(poses, first, ox, oy, oz, Lx, Ly, Lz, ax - along * Lx, ay - along * Ly, az - along * Lz);
      const px = poses[j] * bx + poses[j + 1] * by + poses[j + 3];
      const py = poses[j + 4] * bx + poses[j + 5] * by + poses[j + 7];
      const pz = poses[j + 8] * bx + poses[j + 9] * by + poses[j + 11];
      const mR = mx * Rx + my * Ry + mz * Rz;
      writeSquare(poses, second, px, py, pz, Rx, Ry, Rz, mR * Rx - mx, mR * Ry - my, mR * Rz - mz);
    },
  };
}

/** Writes a pose whose y axis is given by its direction only. */
function writeSquare(
  poses: Float64Array,
  k: number,
  ox: number,
  oy: number,
  oz: number,
  ax: number,
  ay: number,
  az: number,
  bx: number,
  by: number,
  bz: number,
): void {
  const long = Math.sqrt(bx * bx + by * by + bz * bz);
  writePose(poses, k, ox, oy, oz, ax, ay, az, bx / long, by / long, bz / long);
}
