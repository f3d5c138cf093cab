import { excessOf, parallelRoom, type Way } from '../card/fold-room.js';
import { forcedBy, LOCKS_BEYOND, yieldsBy } from './forced.js';
import { POSE, type Step, writePose } from './pose.js';

/**
 * Two panels that meet at a crease and stand on two lines parallel to the parent crease: a planar four-bar.
 * In the plane across the creases, with A and B the feet and w₁, w₂ the widths of the panels, the new crease P is
 * where two circles meet:
 *
 *   with D = |AB| and x̂ = AB / D:   P = A + t x̂ + h ŷ,   t = (D² + w₁² − w₂²) / 2D,   h = √(w₁² − t²)
 *
 * and ŷ = ± x̂ × e on the chosen side. (Intersection of two circles; any textbook of plane geometry.)
 * Where D = 0 (shut, equal feet), x̂ takes its limit: square to the first parent, on the side where the other lies.
 *
 * A and B are taken from the parent crease, as if both parents met there: d₂ times the way inward in the second less d₁
 * times that in the first. Parents that miss each other by a hair (their own misfit, which is theirs to tell) would
 * otherwise pass that hair on as AB, which near the shut page is all there is of it and may point the other way; the fold
 * would leap to the far side by twice its width. So each panel stands on its own parent, and what misses shows at the ridge.
 */
export interface PlanarFold {
  readonly part: string;
  readonly on: readonly [number, number];
  readonly panels: readonly [number, number];
  /** Where each foot starts, in each parent's plane, and the unit direction of the creases there. */
  readonly foot: readonly [readonly [number, number], readonly [number, number]];
  readonly direction: readonly [readonly [number, number], readonly [number, number]];
  /** Unit direction in each parent's plane, square to the crease, from the parent crease to the foot. */
  readonly inward: readonly [readonly [number, number], readonly [number, number]];
  /** Distances of the feet from the parent crease, mm: |d₁ − d₂| is the least that D ever is. */
  readonly distances: readonly [number, number];
  /** Widths of the panels, mm, above zero. */
  readonly widths: readonly [number, number];
  /** The sign before x̂ × e. */
  readonly branch: 1 | -1;
  /** Where it shuts: see `shutWay`. */
  readonly way: Way;
  /** On which side of the first parent's face the second parent lies. */
  readonly flatSide: 1 | -1;
  readonly misfit: number;
}

/** Below this, mm, two feet count as one: round-off in the poses of what they stand on leaves some 1e-6 mm. */
const SAME_PLACE = 1e-5;
/** What w² is off by, as a share of it: where t comes as near to w as that makes it, the panels are flat. */
const ROUND_OFF = 4e-15;

/**
 * The motion step of a planar fold. Both panels have their x axis along the crease; the first rises to +y, the second
 * to −y, so that both faces lie on the same side of the card. The misfit is what the widths lack, or exceed, mm.
 */
export function planarStep(fold: PlanarFold): Step {
  const [a, b] = fold.on;
  const [first, second] = fold.panels;
  const [[ax, ay], [bx, by]] = fold.foot;
  const [[ex, ey]] = fold.direction;
  const [[ix, iy], [jx, jy]] = fold.inward;
  const { branch, flatSide, way } = fold;

  // As in the spherical fold: widths whose difference is not quite that of the feet cannot follow to the shut page, and
  // yield; what is forced counts as misfit.
  const [d1, d2] = fold.distances;
  const excess = excessOf(fold.distances, fold.widths, way);
  const eases = excess === 0 ? 0 : yieldsBy(excess, LOCKS_BEYOND.mm);
  // Room over sin²(θ/2), and D² − (d₁ − d₂)² = 4 d₁ d₂ sin²(θ/2); feet on the crease itself close on nothing.
  const roomy = d1 * d2 > 0 ? parallelRoom(fold.distances, fold.widths, way) / (4 * d1 * d2) : 0;

  return {
    part: fold.part,
    place(poses, misfits) {
      const i = a * POSE;
      const j = b * POSE;
      const Ex = poses[i] * ex + poses[i + 1] * ey;
      const Ey = poses[i + 4] * ex + poses[i + 5] * ey;
      const Ez = poses[i + 8] * ex + poses[i + 9] * ey;
      const Ax = poses[i] * ax + poses[i + 1] * ay + poses[i + 3];
      const Ay = poses[i + 4] * ax + poses[i + 5] * ay + poses[i + 7];
      const Az = poses[i + 8] * ax + poses[i + 9] * ay + poses[i + 11];
      const Bx = poses[j] * bx + poses[j + 1] * by + poses[j + 3];
      const By = poses[j + 4] * bx + poses[j + 5] * by + poses[j + 7];
      const Bz = poses[j + 8] * bx + poses[j + 9] * by + poses[j + 11];
      // From foot to foot by way of the parent crease, less any part along it (round-off only).
      let dx = d2 * (poses[j] * jx + poses[j + 1] * jy) - d1 * (poses[i] * ix + poses[i + 1] * iy);
      let dy = d2 * (poses[j + 4] * jx + poses[j + 5] * jy) - d1 * (poses[i + 4] * ix + poses[i + 5] * iy);
      let dz = d2 * (poses[j + 8] * jx + poses[j + 9] * jy) - d1 * (poses[i + 8] * ix + poses[i + 9] * iy);
      const slip = dx * Ex + dy * Ey + dz * Ez;
      dx -= slip * Ex;
      dy -= slip * Ey;
      dz -= slip * Ez;
      const D = Math.sqrt(dx * dx + dy * dy + dz * dz);
      let w1 = fold.widths[0];
      let w2 = fold.widths[1];
      let forced = 0;
      if (eases > 0) {
        forced = eases * forcedBy(excess, roomy * (D * D - (d1 - d2) ** 2));
        w1 -= forced / 2;
        w2 += forced / 2;
      }
      let t: number;
      if (D < SAME_PLACE) {
        dx = flatSide * poses[i + 2];
        dy = flatSide * poses[i + 6];
        dz = flatSide * poses[i + 10];
        t = Math.abs(w1 - w2) < SAME_PLACE ? 0 : w1 > w2 ? w1 : -w1;
      } else {
        dx /= D;
        dy /= D;
        dz /= D;
        t = (D * D + w1 * w1 - w2 * w2) / (2 * D);
      }
      // Circles that don't meet: both panels lie along the line of the feet, and a gap stays.
      const lack = D > w1 + w2 ? D - w1 - w2 : D < Math.abs(w1 - w2) ? Math.abs(w1 - w2) - D : 0;
      const gap = lack + Math.abs(forced);
      misfits[fold.misfit] = gap < 1e-7 ? 0 : gap;
      const flat = D < SAME_PLACE ? w1 : w1 - (ROUND_OFF * w1 * w1) / D;
      if (t >= flat) t = w1;
      else if (t <= -flat) t = -w1;
      const h = branch * Math.sqrt(w1 * w1 - t * t);
      // ŷ = x̂ × e
      const yx = dy * Ez - dz * Ey;
      const yy = dz * Ex - dx * Ez;
      const yz = dx * Ey - dy * Ex;
      const Px = t * dx + h * yx;
      const Py = t * dy + h * yy;
      const Pz = t * dz + h * yz;
      writePose(poses, first, Ax, Ay, Az, Ex, Ey, Ez, Px / w1, Py / w1, Pz / w1);
      // From B back to P: its length is w₂ but where a gap stays.
      let qx = Px - D * dx;
      let qy = Py - D * dy;
      let qz = Pz - D * dz;
      const q = Math.sqrt(qx * qx + qy * qy + qz * qz);
      if (q < SAME_PLACE) {
        qx = yx * branch;
        qy = yy * branch;
        qz = yz * branch;
      } else {
        qx /= q;
        qy /= q;
        qz /= q;
      }
      writePose(poses, second, Bx, By, Bz, Ex, Ey, Ez, -qx, -qy, -qz);
    },
  };
}
