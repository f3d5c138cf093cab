import { POSE } from '../pose.js';

/**
 * Turns panel k about a world point by a rotation vector (its length the angle, radians), then shifts it.
 *
 * Rodrigues: E = I + (sin θ/θ) [w] + ((1 − cos θ)/θ²) [w]²; both factors have a limit at θ = 0.
 */
export function moveBody(
  poses: Float64Array,
  k: number,
  about: Float64Array,
  rotation: Float64Array,
  shift: Float64Array,
): void {
  const wx = rotation[0];
  const wy = rotation[1];
  const wz = rotation[2];
  const squared = wx * wx + wy * wy + wz * wz;
  const angle = Math.sqrt(squared);
  const s = angle < 1e-4 ? 1 - squared / 6 : Math.sin(angle) / angle;
  const half = Math.sin(angle / 2) / angle;
  const c = angle < 1e-4 ? 0.5 - squared / 24 : 2 * half * half;
  const e11 = 1 - c * (wy * wy + wz * wz);
  const e22 = 1 - c * (wx * wx + wz * wz);
  const e33 = 1 - c * (wx * wx + wy * wy);
  const e12 = c * wx * wy - s * wz;
  const e21 = c * wx * wy + s * wz;
  const e13 = c * wx * wz + s * wy;
  const e31 = c * wx * wz - s * wy;
  const e23 = c * wy * wz - s * wx;
  const e32 = c * wy * wz + s * wx;
  const i = k * POSE;
  for (let row = 0; row < 3; row++) poses[i + 4 * row + 3] -= about[row];
  for (let column = i; column < i + 4; column++) {
    const x = poses[column];
    const y = poses[column + 4];
    const z = poses[column + 8];
    poses[column] = e11 * x + e12 * y + e13 * z;
    poses[column + 4] = e21 * x + e22 * y + e23 * z;
    poses[column + 8] = e31 * x + e32 * y + e33 * z;
  }
  for (let row = 0; row < 3; row++) poses[i + 4 * row + 3] += about[row] + shift[row];
}

/**
 * The rotation vector that takes panel k from one frame to another: out[0..2], its length the angle in [0, π].
 *
 * With M = R₁ R₀ᵀ: M − Mᵀ holds 2 sin θ times the axis, and the trace 1 + 2 cos θ. Near θ = π the axis comes from
 * M + I, whose columns all lie along it (either sense is then right).
 */
export function rotationBetween(from: Float64Array, to: Float64Array, k: number, out: Float64Array): void {
  const i = k * POSE;
  const x = rowDot(to, i + 8, from, i + 4) - rowDot(to, i + 4, from, i + 8);
  const y = rowDot(to, i, from, i + 8) - rowDot(to, i + 8, from, i);
  const z = rowDot(to, i + 4, from, i) - rowDot(to, i, from, i + 4);
  const m11 = rowDot(to, i, from, i);
  const m22 = rowDot(to, i + 4, from, i + 4);
  const m33 = rowDot(to, i + 8, from, i + 8);
  const twiceSine = Math.sqrt(x * x + y * y + z * z);
  const angle = Math.atan2(twiceSine, m11 + m22 + m33 - 1);
  if (angle < 3.1) {
    // θ / (2 sin θ), whose limit at 0 is ½.
    const scale = angle < 1e-7 ? 0.5 : angle / twiceSine;
    out[0] = scale * x;
    out[1] = scale * y;
    out[2] = scale * z;
    return;
  }
  // The symmetric part is cos θ I + (1 − cos θ) a aᵀ: take the column of its largest diagonal.
  const largest = m11 >= m22 && m11 >= m33 ? 0 : m22 >= m33 ? 1 : 2;
  const cosine = Math.cos(angle);
  const p = i + 4 * largest;
  for (let row = 0; row < 3; row++) {
    const q = i + 4 * row;
    out[row] = (rowDot(to, q, from, p) + rowDot(to, p, from, q)) / 2;
  }
  out[largest] -= cosine;
  const length = Math.sqrt(out[0] * out[0] + out[1] * out[1] + out[2] * out[2]);
  const sense = out[0] * x + out[1] * y + out[2] * z < 0 ? -1 : 1;
  for (let row = 0; row < 3; row++) out[row] *= (sense * angle) / length;
}

/** The angle by which panel k turns from one frame to another, radians, 0 to π. */
export function turnBetween(from: Float64Array, to: Float64Array, k: number): number {
  rotationBetween(from, to, k, rotation);
  return Math.sqrt(rotation[0] ** 2 + rotation[1] ** 2 + rotation[2] ** 2);
}

/**
 * Writes to `out` the pose that panel k has after the part s (0 to 1) of its screw motion from one frame to another:
 * exact where it turns about one axis, as a page does.
 *
 * The motion is x → E x + τ with E = exp([w]) and τ = V(w) v; after the part s it is exp(s[w]) and V(s w) s v, where
 * V(w) = I + ((1 − cos θ)/θ²) [w] + ((θ − sin θ)/θ³) [w]² and
 * V⁻¹ = I − ½ [w] + (1/θ² − cot(θ/2)/(2θ)) [w]².
 * (Any textbook of robotics: exponential and logarithm of rigid motions.)
 */
export function partOfMotion(
  from: Float64Array,
  to: Float64Array,
  k: number,
  s: number,
  out: Float64Array,
): void {
  const i = k * POSE;
  rotationBetween(from, to, k, rotation);
  const angle = Math.sqrt(rotation[0] ** 2 + rotation[1] ** 2 + rotation[2] ** 2);
  // Measured from where the panel's origin was: there τ is just the shift of the origin.
  for (let row = 0; row < 3; row++) {
    origin[row] = from[i + 4 * row + 3];
    shift[row] = to[i + 4 * row + 3] - origin[row];
  }
  const inverse = angle < 1e-3 ? 1 / 12 : 1 / (angle * angle) - 1 / (2 * angle * Math.tan(angle / 2));
  addTurned(rotation, -0.5, inverse, shift);
  const part = s * angle;
  const b = part < 1e-3 ? 0.5 : (1 - Math.cos(part)) / (part * part);
  const c = part < 1e-3 ? 1 / 6 : (part - Math.sin(part)) / (part * part * part);
  for (let row = 0; row < 3; row++) {
    rotation[row] *= s;
    shift[row] *= s;
  }
  addTurned(rotation, b, c, shift);
  for (let n = i; n < i + POSE; n++) out[n] = from[n];
  moveBody(out, k, origin, rotation, shift);
}

/** t becomes t + b w × t + c w × (w × t). */
function addTurned(w: Float64Array, b: number, c: number, t: Float64Array): void {
  const ux = w[1] * t[2] - w[2] * t[1];
  const uy = w[2] * t[0] - w[0] * t[2];
  const uz = w[0] * t[1] - w[1] * t[0];
  t[0] += b * ux + c * (w[1] * uz - w[2] * uy);
  t[1] += b * uy + c * (w[2] * ux - w[0] * uz);
  t[2] += b * uz + c * (w[0] * uy - w[1] * ux);
}

/** An entry of R₁ R₀ᵀ: a row of one rotation times a row of the other. */
const rowDot = (a: Float64Array, i: number, b: Float64Array, j: number) =>
  a[i] * b[j] + a[i + 1] * b[j + 1] + a[i + 2] * b[j + 2];

// Room for `partOfMotion`, so that nothing is allocated in a frame.
const rotation = new Float64Array(3);
const origin = new Float64Array(3);
const shift = new Float64Array(3);
