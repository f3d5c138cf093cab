// rob2.ts
import { readFileSync } from "node:fs";

// card/src/figure/figure.ts
import * as z28 from "zod";

// card/src/geometry/numbers.ts
var SLAB = 8192;
var slab = new Float64Array(SLAB);
var used = 0;
function zeros(count) {
  if (used + count > slab.length) {
    slab = new Float64Array(Math.max(SLAB, count));
    used = 0;
  }
  used += count;
  return slab.subarray(used - count, used);
}
function numbers(values) {
  const array6 = zeros(values.length);
  for (let i = 0; i < values.length; i++) array6[i] = values[i];
  return array6;
}

// card/src/geometry/onto-line.ts
var NEAR = 0.02;
var ON = 1e-7;
function moveOntoLine(ring, { x0, y0, x1, y1 }) {
  const long = Math.hypot(x1 - x0, y1 - y0);
  if (!(long > 2 * NEAR)) return;
  const [ex, ey] = [(x1 - x0) / long, (y1 - y0) / long];
  for (let i = 0; i < ring.length; i += 2) {
    const [x, y] = [ring[i] - x0, ring[i + 1] - y0];
    const off = ex * y - ey * x;
    const along3 = ex * x + ey * y;
    if (Math.abs(off) > NEAR || along3 < -NEAR || along3 > long + NEAR) continue;
    const end = along3 < NEAR ? 0 : along3 > long - NEAR ? long : null;
    if (Math.abs(off) < ON && (end === null || Math.abs(along3 - end) < ON)) continue;
    const to2 = end ?? along3;
    ring[i] = x0 + to2 * ex;
    ring[i + 1] = y0 + to2 * ey;
  }
}

// card/src/geometry/polygon.ts
function signedArea(ring) {
  let twice = 0;
  for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
    const x = ring[i] - ring[0];
    const y = ring[i + 1] - ring[1];
    twice += (ring[j] - ring[0]) * y - x * (ring[j + 1] - ring[1]);
  }
  return twice / 2;
}
function cardArea(shape) {
  let area = Math.abs(signedArea(shape.outline));
  for (const hole of shape.holes) area -= Math.abs(signedArea(hole));
  return area;
}
function counterClockwise(ring) {
  if (signedArea(ring) >= 0) return ring;
  const turned = zeros(ring.length);
  for (let i = 0; i < ring.length; i += 2) {
    turned[i] = ring[ring.length - 2 - i];
    turned[i + 1] = ring[ring.length - 1 - i];
  }
  return turned;
}
function holds(shape, x, y) {
  let inside3 = crossesOddly(shape.outline, x, y);
  for (let h = 0; inside3 && h < shape.holes.length; h++) inside3 = !crossesOddly(shape.holes[h], x, y);
  return inside3;
}
function crossesOddly(ring, x, y) {
  let odd = false;
  for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
    const above = ring[i + 1] > y;
    if (above === ring[j + 1] > y) continue;
    const dy = ring[j + 1] - ring[i + 1];
    if (x < ring[i] + (ring[j] - ring[i]) * (y - ring[i + 1]) / dy) odd = !odd;
  }
  return odd;
}
function boundingCircle(ring) {
  let [left, right2, low, high] = [Infinity, -Infinity, Infinity, -Infinity];
  for (let i = 0; i < ring.length; i += 2) {
    left = Math.min(left, ring[i]);
    right2 = Math.max(right2, ring[i]);
    low = Math.min(low, ring[i + 1]);
    high = Math.max(high, ring[i + 1]);
  }
  const x = (left + right2) / 2;
  const y = (low + high) / 2;
  let squared = 0;
  for (let i = 0; i < ring.length; i += 2)
    squared = Math.max(squared, (ring[i] - x) ** 2 + (ring[i + 1] - y) ** 2);
  return { x, y, radius: Math.sqrt(squared) };
}

// card/src/motion/cannot-build.ts
var CannotBuild = class extends Error {
  constructor(message, field = "", structural = false, part2 = "") {
    super(message);
    this.field = field;
    this.structural = structural;
    this.part = part2;
    this.name = "CannotBuild";
  }
  field;
  structural;
  part;
};

// card/src/motion/pose.ts
var POSE = 12;
function writePose(poses, k, ox, oy, oz, ax, ay, az, bx, by, bz) {
  const i = k * POSE;
  poses[i] = ax;
  poses[i + 1] = bx;
  poses[i + 2] = ay * bz - az * by;
  poses[i + 3] = ox;
  poses[i + 4] = ay;
  poses[i + 5] = by;
  poses[i + 6] = az * bx - ax * bz;
  poses[i + 7] = oy;
  poses[i + 8] = az;
  poses[i + 9] = bz;
  poses[i + 10] = ax * by - ay * bx;
  poses[i + 11] = oz;
}
function copyPose(poses, from2, to2) {
  const i = from2 * POSE;
  poses.copyWithin(to2 * POSE, i, i + POSE);
}
function worldPoint(poses, k, x, y, out) {
  const i = k * POSE;
  out[0] = poses[i] * x + poses[i + 1] * y + poses[i + 3];
  out[1] = poses[i + 4] * x + poses[i + 5] * y + poses[i + 7];
  out[2] = poses[i + 8] * x + poses[i + 9] * y + poses[i + 11];
}
function worldDirection(poses, k, x, y, out) {
  const i = k * POSE;
  out[0] = poses[i] * x + poses[i + 1] * y;
  out[1] = poses[i + 4] * x + poses[i + 5] * y;
  out[2] = poses[i + 8] * x + poses[i + 9] * y;
}
function fixedStep(part2, panel, on, at, turn) {
  const c = Math.cos(turn);
  const s2 = Math.sin(turn);
  return { ...parallelStep(part2, panel, on, at, on, [c, s2], [-s2, c]), hangsOn: on };
}
function parallelStep(part2, panel, hangsOn, at, parallelTo, x, y) {
  const o = new Float64Array(3);
  const a = new Float64Array(3);
  const b = new Float64Array(3);
  return {
    part: part2,
    place(poses) {
      worldPoint(poses, hangsOn, at[0], at[1], o);
      worldDirection(poses, parallelTo, x[0], x[1], a);
      worldDirection(poses, parallelTo, y[0], y[1], b);
      writePose(poses, panel, o[0], o[1], o[2], a[0], a[1], a[2], b[0], b[1], b[2]);
    }
  };
}

// card/src/motion/loop/rigid.ts
function moveBody(poses, k, about2, rotation6, shift4) {
  const wx = rotation6[0];
  const wy = rotation6[1];
  const wz = rotation6[2];
  const squared = wx * wx + wy * wy + wz * wz;
  const angle2 = Math.sqrt(squared);
  const s2 = angle2 < 1e-4 ? 1 - squared / 6 : Math.sin(angle2) / angle2;
  const half = Math.sin(angle2 / 2) / angle2;
  const c = angle2 < 1e-4 ? 0.5 - squared / 24 : 2 * half * half;
  const e11 = 1 - c * (wy * wy + wz * wz);
  const e22 = 1 - c * (wx * wx + wz * wz);
  const e33 = 1 - c * (wx * wx + wy * wy);
  const e12 = c * wx * wy - s2 * wz;
  const e21 = c * wx * wy + s2 * wz;
  const e13 = c * wx * wz + s2 * wy;
  const e31 = c * wx * wz - s2 * wy;
  const e23 = c * wy * wz - s2 * wx;
  const e32 = c * wy * wz + s2 * wx;
  const i = k * POSE;
  for (let row = 0; row < 3; row++) poses[i + 4 * row + 3] -= about2[row];
  for (let column = i; column < i + 4; column++) {
    const x = poses[column];
    const y = poses[column + 4];
    const z29 = poses[column + 8];
    poses[column] = e11 * x + e12 * y + e13 * z29;
    poses[column + 4] = e21 * x + e22 * y + e23 * z29;
    poses[column + 8] = e31 * x + e32 * y + e33 * z29;
  }
  for (let row = 0; row < 3; row++) poses[i + 4 * row + 3] += about2[row] + shift4[row];
}
function rotationBetween(from2, to2, k, out) {
  const i = k * POSE;
  const x = rowDot(to2, i + 8, from2, i + 4) - rowDot(to2, i + 4, from2, i + 8);
  const y = rowDot(to2, i, from2, i + 8) - rowDot(to2, i + 8, from2, i);
  const z29 = rowDot(to2, i + 4, from2, i) - rowDot(to2, i, from2, i + 4);
  const m11 = rowDot(to2, i, from2, i);
  const m22 = rowDot(to2, i + 4, from2, i + 4);
  const m33 = rowDot(to2, i + 8, from2, i + 8);
  const twiceSine = Math.sqrt(x * x + y * y + z29 * z29);
  const angle2 = Math.atan2(twiceSine, m11 + m22 + m33 - 1);
  if (angle2 < 3.1) {
    const scale = angle2 < 1e-7 ? 0.5 : angle2 / twiceSine;
    out[0] = scale * x;
    out[1] = scale * y;
    out[2] = scale * z29;
    return;
  }
  const largest = m11 >= m22 && m11 >= m33 ? 0 : m22 >= m33 ? 1 : 2;
  const cosine2 = Math.cos(angle2);
  const p2 = i + 4 * largest;
  for (let row = 0; row < 3; row++) {
    const q2 = i + 4 * row;
    out[row] = (rowDot(to2, q2, from2, p2) + rowDot(to2, p2, from2, q2)) / 2;
  }
  out[largest] -= cosine2;
  const length2 = Math.sqrt(out[0] * out[0] + out[1] * out[1] + out[2] * out[2]);
  const sense = out[0] * x + out[1] * y + out[2] * z29 < 0 ? -1 : 1;
  for (let row = 0; row < 3; row++) out[row] *= sense * angle2 / length2;
}
function partOfMotion(from2, to2, k, s2, out) {
  const i = k * POSE;
  rotationBetween(from2, to2, k, rotation);
  const angle2 = Math.sqrt(rotation[0] ** 2 + rotation[1] ** 2 + rotation[2] ** 2);
  for (let row = 0; row < 3; row++) {
    origin[row] = from2[i + 4 * row + 3];
    shift[row] = to2[i + 4 * row + 3] - origin[row];
  }
  const inverse = angle2 < 1e-3 ? 1 / 12 : 1 / (angle2 * angle2) - 1 / (2 * angle2 * Math.tan(angle2 / 2));
  addTurned(rotation, -0.5, inverse, shift);
  const part2 = s2 * angle2;
  const b = part2 < 1e-3 ? 0.5 : (1 - Math.cos(part2)) / (part2 * part2);
  const c = part2 < 1e-3 ? 1 / 6 : (part2 - Math.sin(part2)) / (part2 * part2 * part2);
  for (let row = 0; row < 3; row++) {
    rotation[row] *= s2;
    shift[row] *= s2;
  }
  addTurned(rotation, b, c, shift);
  for (let n2 = i; n2 < i + POSE; n2++) out[n2] = from2[n2];
  moveBody(out, k, origin, rotation, shift);
}
function addTurned(w2, b, c, t2) {
  const ux = w2[1] * t2[2] - w2[2] * t2[1];
  const uy = w2[2] * t2[0] - w2[0] * t2[2];
  const uz = w2[0] * t2[1] - w2[1] * t2[0];
  t2[0] += b * ux + c * (w2[1] * uz - w2[2] * uy);
  t2[1] += b * uy + c * (w2[2] * ux - w2[0] * uz);
  t2[2] += b * uz + c * (w2[0] * uy - w2[1] * ux);
}
var rowDot = (a, i, b, j) => a[i] * b[j] + a[i + 1] * b[j + 1] + a[i + 2] * b[j + 2];
var rotation = new Float64Array(3);
var origin = new Float64Array(3);
var shift = new Float64Array(3);

// card/src/motion/loop/knees.ts
var Knees = class {
  /** @throws CannotBuild when a bend names a joint that is no knee */
  constructor(joints, slotOf, free, bends) {
    this.bends = bends;
    joints.forEach((j, joint) => {
      const a = slotOf.get(j.a);
      const b = slotOf.get(j.b);
      if (a >= free || b >= free || j.kind === "slide") return;
      const hip2 = middleOfOthers(joints, joint, j.a);
      const foot2 = middleOfOthers(joints, joint, j.b);
      if (!hip2 || !foot2) return;
      const at = j.kind === "pivot" ? { kneeA: j.pointA, kneeB: j.pointB, run: null } : { kneeA: middle(j.lineA), kneeB: middle(j.lineB), run: difference(j.lineA) };
      this.knees.push({ joint, a, b, hip: hip2, foot: foot2, ...at });
    });
    for (const { joint } of bends)
      if (!this.knees.some((knee) => knee.joint === joint))
        throw new CannotBuild(`joint ${joint} is no knee: it does not join two parts of one limb`);
    this.side = new Int8Array(this.knees.length);
  }
  bends;
  /** Joints whose limb was drawn straight without a word which way it bends: +1 is taken. */
  undecided = [];
  knees = [];
  /** Which way each knee is bent, or was last; 0 when it never was. */
  side;
  /** Takes each knee's way from the poses; where its limb is straight there, from the maker's word. */
  start(poses) {
    this.side.fill(0);
    this.remember(poses);
    this.undecided.length = 0;
    for (let k = 0; k < this.knees.length; k++) {
      if (this.side[k] !== 0) continue;
      const said = this.bends.find((bend) => bend.joint === this.knees[k].joint);
      if (!said) this.undecided.push(this.knees[k].joint);
      this.side[k] = said ? said.side : 1;
    }
  }
  /** Keeps each knee's way for when its limb is straight. */
  remember(poses) {
    for (let k = 0; k < this.knees.length; k++) {
      const sine = this.look(poses, this.knees[k]);
      if (Math.abs(sine) > STRAIGHT) this.side[k] = sine > 0 ? 1 : -1;
    }
  }
  /** Whether any limb lies straight, or folded on itself. */
  anyInLine(poses) {
    for (let k = 0; k < this.knees.length; k++) {
      this.look(poses, this.knees[k]);
      if (inLine) return true;
    }
    return false;
  }
  /** Bends every straight limb of a guess a little, each its own way. */
  bend(poses) {
    for (let k = 0; k < this.knees.length; k++) {
      const knee = this.knees[k];
      this.look(poses, knee);
      if (!inLine) continue;
      const turn = NUDGE * this.side[k] * (folded && ratio[0] < 1 ? -1 : 1);
      scaled(axis, turn, rotation2);
      moveBody(poses, knee.a, hip, rotation2, NOWHERE);
      scaled(axis, (folded ? turn : -turn) * ratio[0], rotation2);
      moveBody(poses, knee.b, foot, rotation2, NOWHERE);
    }
  }
  /** The sine of a knee's bend, positive on its +1 side; sets `straight`, `axis`, `hip`, `foot` and lengths. */
  look(poses, knee) {
    world(poses, knee.a, knee.hip, 1, hip);
    world(poses, knee.a, knee.kneeA, 1, to);
    world(poses, knee.b, knee.kneeB, 1, from);
    world(poses, knee.b, knee.foot, 1, foot);
    for (let i = 0; i < 3; i++) {
      to[i] -= hip[i];
      from[i] = foot[i] - from[i];
    }
    const n2 = knee.a * POSE + 2;
    if (knee.run) world(poses, knee.a, knee.run, 0, axis);
    else for (let i = 0; i < 3; i++) axis[i] = poses[n2 + 4 * i];
    const length2 = lengthOf(axis);
    cross(axis, to);
    const towards = product[0] * poses[n2] + product[1] * poses[n2 + 4] + product[2] * poses[n2 + 8];
    const sense = knee.run && towards < 0 ? -1 : 1;
    for (let i = 0; i < 3; i++) axis[i] *= sense / length2;
    across(to);
    across(from);
    const thigh = lengthOf(to);
    const shin = lengthOf(from);
    ratio[0] = thigh / shin;
    const both = thigh * shin;
    cross(to, from);
    const sine = -dot(product, axis) / both;
    folded = dot(to, from) < 0;
    inLine = Math.abs(sine) < 1e-3 && !(folded && Math.abs(thigh - shin) < 1e-3 * thigh);
    return both > 0 ? sine : 0;
  }
};
var STRAIGHT = 0.0175;
var NUDGE = 0.01;
var hip = new Float64Array(3);
var foot = new Float64Array(3);
var axis = new Float64Array(3);
var to = new Float64Array(3);
var from = new Float64Array(3);
var product = new Float64Array(3);
var rotation2 = new Float64Array(3);
var NOWHERE = new Float64Array(3);
var ratio = new Float64Array(1);
var inLine = false;
var folded = false;
function world(poses, k, at, place3, out) {
  for (let row = 0; row < 3; row++) {
    const i = k * POSE + 4 * row;
    out[row] = poses[i] * at[0] + poses[i + 1] * at[1] + place3 * poses[i + 3];
  }
}
function scaled(v, by, out) {
  for (let i = 0; i < 3; i++) out[i] = by * v[i];
}
var lengthOf = (v) => Math.sqrt(v[0] * v[0] + v[1] * v[1] + v[2] * v[2]);
var dot = (u, v) => u[0] * v[0] + u[1] * v[1] + u[2] * v[2];
function cross(u, v) {
  product[0] = u[1] * v[2] - u[2] * v[1];
  product[1] = u[2] * v[0] - u[0] * v[2];
  product[2] = u[0] * v[1] - u[1] * v[0];
}
function across(v) {
  const along3 = dot(v, axis);
  for (let i = 0; i < 3; i++) v[i] -= along3 * axis[i];
}
var middle = ([p2, q2]) => [(p2[0] + q2[0]) / 2, (p2[1] + q2[1]) / 2];
var difference = ([p2, q2]) => [q2[0] - p2[0], q2[1] - p2[1]];
function middleOfOthers(joints, except, panel) {
  const places = [];
  joints.forEach((j, index) => {
    if (index === except) return;
    if (j.a === panel) places.push(j.kind === "crease" ? middle(j.lineA) : j.pointA);
    else if (j.b === panel)
      places.push(j.kind === "crease" ? middle(j.lineB) : j.kind === "slide" ? middle(j.alongB) : j.pointB);
  });
  if (places.length === 0) return null;
  const sum = places.reduce(([x, y], p2) => [x + p2[0], y + p2[1]], [0, 0]);
  return [sum[0] / places.length, sum[1] / places.length];
}

// card/src/motion/loop/cholesky.ts
function factor(a, starts, n2, shift4, l) {
  for (let i = 0; i < n2; i++) {
    const row = i * n2;
    const start = starts[i];
    let rest = a[row + i] + shift4;
    for (let j = start; j < i; j++) {
      const other = j * n2;
      let sum = a[row + j];
      for (let k = Math.max(start, starts[j]); k < j; k++) sum -= l[row + k] * l[other + k];
      const entry = sum * l[other + j];
      l[row + j] = entry;
      rest -= entry * entry;
    }
    if (!(rest > 1e-14 * a[row + i])) return false;
    l[row + i] = 1 / Math.sqrt(rest);
  }
  return true;
}
function solveFactored(l, starts, n2, b, x) {
  for (let i = 0; i < n2; i++) {
    let sum = b[i];
    for (let k = starts[i]; k < i; k++) sum -= l[i * n2 + k] * x[k];
    x[i] = sum * l[i * n2 + i];
  }
  for (let i = n2 - 1; i >= 0; i--) {
    x[i] *= l[i * n2 + i];
    for (let k = starts[i]; k < i; k++) x[k] -= l[i * n2 + k] * x[i];
  }
}

// card/src/motion/loop/settle.ts
var Settler = class {
  /** @param loose whether any joint has play: then it rests as soon as nothing is pulled */
  constructor(pull, loose) {
    this.pull = pull;
    this.loose = loose;
    const n2 = pull.unknowns;
    this.factored = zeros(n2 * n2);
    this.step = zeros(n2);
    this.best = zeros(pull.free * POSE);
    this.rest = zeros(pull.free * POSE);
  }
  pull;
  loose;
  /** What the joints cost where it came to rest, mm². */
  pulled = 0;
  factored;
  step;
  best;
  /** μ, and the poses from which nearness is measured. */
  nearness = NEARNESS;
  rest;
  /**
   * @param poses one compact frame, free panels first; theirs are the guess on entry and the result on return
   * @param rest the poses in which the free panels last rested
   * @returns whether it came to rest; if not, the result is the best found
   */
  settle(poses, rest) {
    let damping = 0;
    let uphill = false;
    let lastLength = Infinity;
    this.nearness = NEARNESS;
    copy(rest, this.rest);
    copy(poses, this.best);
    let cost = this.measure(poses);
    if (this.isSlack()) return true;
    for (let steps = 0; steps < MOST_STEPS; steps++) {
      if (steps === PATIENCE) {
        this.nearness = FRICTION;
        copy(this.best, this.rest);
        copy(this.best, poses);
        cost = this.measure(poses);
        uphill = false;
      }
      damping = this.findStep(damping);
      if (damping === Infinity) break;
      const length2 = this.limitStep();
      const fall = this.foretoldFall();
      this.move(poses);
      const next = this.measure(poses);
      const level = fall < LEVEL * cost + LEAST_COST || length2 < FINEST;
      if (next <= cost * (1 + ROUND_OFF)) {
        cost = next;
        copy(poses, this.best);
        const homing = damping === 0 && length2 < FINE && length2 < lastLength / 10;
        if (level || homing || this.isSlack()) return true;
        damping = damping > 0.01 ? damping / 30 : 0;
        uphill = false;
      } else if (!uphill && !level) {
        uphill = true;
      } else {
        copy(this.best, poses);
        this.measure(poses);
        if (!uphill) return true;
        damping = raised(damping);
        uphill = false;
      }
      lastLength = length2;
    }
    copy(this.best, poses);
    this.measure(poses);
    return false;
  }
  /** Whether some move would lower the cost to second order: then no place to rest, however level it looks. */
  isUnsteady(poses) {
    this.pull.measure(poses);
    const { hessian, starts, unknowns } = this.pull;
    return !factor(hessian, starts, unknowns, NEARNESS, this.factored);
  }
  /** The step from where it was last measured, with no more damping than it takes; returns that, ∞ if none will do. */
  findStep(damping) {
    const { hessian, starts, unknowns, gradient } = this.pull;
    let enough = damping;
    while (!factor(hessian, starts, unknowns, this.nearness + enough, this.factored)) {
      if (enough > MOST_DAMPING) return Infinity;
      enough = raised(enough);
    }
    solveFactored(this.factored, starts, unknowns, gradient, this.step);
    return enough;
  }
  /** By how much the cost would fall along the step, were it a plane. */
  foretoldFall() {
    let sum = 0;
    for (let i = 0; i < this.step.length; i++) sum += this.step[i] * this.pull.gradient[i];
    return sum;
  }
  isSlack() {
    return this.loose && this.pulled < SLACK;
  }
  /** The pull's cost, gradient and Hessian, with those of nearness but for μ on the diagonal. */
  measure(poses) {
    const { pull, rest, nearness: nearness2 } = this;
    const { gradient, centre, middle: middle3, reach: reach2 } = pull;
    let away2 = 0;
    const cost = pull.measure(poses);
    this.pulled = cost;
    for (let k = 0; k < pull.free; k++) {
      const i = k * POSE;
      const g = 6 * k;
      for (let row = 0; row < 3; row++) {
        const r2 = i + 4 * row;
        const was = rest[r2] * middle3[2 * k] + rest[r2 + 1] * middle3[2 * k + 1] + rest[r2 + 3];
        const d = centre[3 * k + row] - was;
        gradient[g + row] += nearness2 * d;
        away2 += d * d;
      }
      const weight = 0.5 * nearness2 * reach2[k];
      let chord = 0;
      for (let c = i; c < i + 3; c++) {
        const x = poses[c];
        const y = poses[c + 4];
        const z29 = poses[c + 8];
        const u = rest[c];
        const v = rest[c + 4];
        const t2 = rest[c + 8];
        gradient[g + 3] += weight * (v * z29 - t2 * y);
        gradient[g + 4] += weight * (t2 * x - u * z29);
        gradient[g + 5] += weight * (u * y - v * x);
        chord += (x - u) * (x - u) + (y - v) * (y - v) + (z29 - t2) * (z29 - t2);
      }
      away2 += 0.5 * reach2[k] * reach2[k] * chord;
    }
    return cost + 0.5 * nearness2 * away2;
  }
  /** Shortens the step where a panel would move by more than a part of its reach; returns the longest such move, mm. */
  limitStep() {
    const { step, pull } = this;
    let longest = 0;
    let shrink = 1;
    for (let k = 0; k < pull.free; k++) {
      const g = 6 * k;
      let squared = 0;
      for (let i = g; i < g + 6; i++) squared += step[i] * step[i];
      const length2 = Math.sqrt(squared);
      if (length2 > longest) longest = length2;
      const most = LONGEST_STEP * pull.reach[k];
      if (length2 * shrink > most) shrink = most / length2;
    }
    if (shrink < 1) for (let i = 0; i < step.length; i++) step[i] *= shrink;
    return longest * shrink;
  }
  move(poses) {
    const { step, pull } = this;
    for (let k = 0; k < pull.free; k++) {
      const g = 6 * k;
      for (let i = 0; i < 3; i++) {
        about[i] = pull.centre[3 * k + i];
        shift2[i] = -step[g + i];
        rotation3[i] = -step[g + 3 + i] / pull.reach[k];
      }
      moveBody(poses, k, about, rotation3, shift2);
    }
  }
};
var NEARNESS = 1e-10;
var FRICTION = 1e-5;
var PATIENCE = 12;
var MOST_STEPS = 60;
var FINEST = 1e-9;
var FINE = 1e-4;
var LONGEST_STEP = 0.3;
var LEVEL = 1e-12;
var LEAST_COST = 1e-17;
var ROUND_OFF = 1e-15;
var SLACK = 1e-16;
var MOST_DAMPING = 1e12;
function copy(from2, to2) {
  const size3 = Math.min(from2.length, to2.length);
  for (let i = 0; i < size3; i++) to2[i] = from2[i];
}
var raised = (damping) => Math.max(1e-4, damping * 10);
var about = new Float64Array(3);
var rotation3 = new Float64Array(3);
var shift2 = new Float64Array(3);

// card/src/motion/loop/path.ts
var Path = class {
  /** @param loose whether any joint has play */
  constructor(slots, pull, knees, loose) {
    this.slots = slots;
    this.pull = pull;
    this.knees = knees;
    this.loose = loose;
    this.free = pull.free;
    this.settler = new Settler(pull, loose);
    this.now = zeros(POSE * slots);
    this.first = zeros(POSE * slots);
    this.goal = zeros(POSE * slots);
    this.last = zeros(POSE * slots);
    this.speed = zeros(6 * this.free);
    this.gain = zeros(6 * this.free);
    this.foretold = zeros(6 * this.free);
    this.change = zeros(6 * this.free);
  }
  slots;
  pull;
  knees;
  loose;
  /** Where the panels stand. */
  now;
  /** Where they stood in the frame before. */
  first;
  /** Where the driven panels go; the rest of it is of no use. */
  goal;
  /** The longest turn, in the smallest part of the last frame, that was not foretold: radians. */
  leap = 0;
  free;
  settler;
  /** Whether anything was pulled where it last settled. */
  held = false;
  last;
  /** Shift of the middle and rotation vector of each free panel: for a whole frame, and by how much that grew in one; */
  speed;
  gain;
  /** as foretold for a part, and as it was in the last part. */
  foretold;
  change;
  lastPart = 1;
  /** Whether the speed is known of one part only, or none: then not how it grows. */
  fresh = true;
  /** Whether the gain is worth reckoning with. */
  gaining = false;
  /** Settles from the poses in `goal`, with nothing known of how they came about. */
  start() {
    const { first, last, goal: goal2, knees } = this;
    first.set(goal2);
    last.set(goal2);
    this.speed.fill(0);
    this.gain.fill(0);
    this.gaining = false;
    this.fresh = true;
    this.leap = 0;
    knees.start(goal2);
    this.settleAt(1, 1);
    this.rest();
  }
  /** Goes from `first` to `goal`, in as many parts as it takes. */
  follow() {
    const { first, now } = this;
    first.set(now);
    this.leap = 0;
    let done = 0;
    let part2 = 1;
    while (done < 1) {
      const to2 = done + part2;
      const settled = this.settleAt(to2, part2);
      this.findChange();
      const believed = settled && this.isAsBefore(part2);
      if (!believed && part2 > LEAST_PART) {
        part2 /= 2;
        continue;
      }
      const leap = believed ? 0 : this.longestTurn();
      if (leap > this.leap) this.leap = leap;
      this.learn(part2, leap > LEAST_JUMP);
      this.rest();
      done = to2;
      part2 = Math.min(2 * part2, 1 - done);
    }
  }
  rest() {
    this.last.set(this.now);
    this.held = this.settler.pulled > SLACK2;
    this.knees.remember(this.now);
  }
  /** Settles at a part of the way from `first` to `goal`. */
  settleAt(to2, part2) {
    const { now, last, knees, settler } = this;
    this.guess(to2, part2);
    if (!knees.anyInLine(now)) return settler.settle(now, last);
    if (!settler.isUnsteady(now)) {
      const settled = settler.settle(now, last);
      if (knees.anyInLine(now) && !settler.isUnsteady(now)) return settled;
      this.guess(to2, part2);
    }
    knees.bend(now);
    return settler.settle(now, last);
  }
  /** Places the driven panels at a part of their way, and the free ones where they should then be. */
  guess(to2, part2) {
    const { first, last, goal: goal2, now, speed, gain, foretold } = this;
    now.set(last);
    const lead = this.gaining ? (part2 + this.lastPart) / 2 : 0;
    for (let i = 0; i < foretold.length; i++) foretold[i] = part2 * (speed[i] + lead * gain[i]);
    for (let k = this.free; k < this.slots; k++) {
      if (to2 < 1) partOfMotion(first, goal2, k, to2, now);
      else for (let i = k * POSE; i < (k + 1) * POSE; i++) now[i] = goal2[i];
    }
    if (!this.loose || this.held) this.goOn();
  }
  /** Moves the free panels on as foretold. */
  goOn() {
    const { foretold, now } = this;
    for (let k = 0; k < this.free; k++) {
      this.findMiddle(now, k);
      for (let i = 0; i < 3; i++) {
        shift3[i] = foretold[6 * k + i];
        rotation4[i] = foretold[6 * k + 3 + i];
      }
      moveBody(now, k, middle2, rotation4, shift3);
    }
  }
  /** The change of each free panel from `last` to `now`. */
  findChange() {
    const { change, last, now } = this;
    for (let k = 0; k < this.free; k++) {
      this.findMiddle(last, k);
      for (let i = 0; i < 3; i++) change[6 * k + i] = -middle2[i];
      this.findMiddle(now, k);
      for (let i = 0; i < 3; i++) change[6 * k + i] += middle2[i];
      rotationBetween(last, now, k, rotation4);
      for (let i = 0; i < 3; i++) change[6 * k + 3 + i] = rotation4[i];
    }
  }
  /** Takes the speed from the part just gone, and how it grew; a speed over a break would foretell nothing. */
  learn(part2, broken) {
    const { change, speed, gain, pull } = this;
    const lead = (part2 + this.lastPart) / 2;
    let steady = 0;
    let grown = 0;
    for (let i = 0; i < speed.length; i++) {
      const scale = i % 6 < 3 ? 1 : pull.reach[i / 6 | 0];
      const missed = scale * (change[i] - part2 * speed[i]);
      const left = missed - scale * part2 * lead * gain[i];
      steady += missed * missed;
      grown += left * left;
      const now = broken ? 0 : change[i] / part2;
      gain[i] = this.fresh || broken ? 0 : (now - speed[i]) / lead;
      speed[i] = now;
    }
    this.gaining = grown < WORTH * steady;
    this.fresh = broken;
    this.lastPart = part2;
  }
  /** Whether every panel moved little, or much as at its speed: off by at most half its way. */
  isAsBefore(part2) {
    const { change, speed, pull } = this;
    for (let k = 0; k < this.free; k++) {
      const reach2 = pull.reach[k];
      let off = 0;
      let way = 0;
      for (let i = 0; i < 6; i++) {
        const scale = i < 3 ? 1 : reach2;
        const moved2 = scale * change[6 * k + i];
        const missed = moved2 - scale * part2 * speed[6 * k + i];
        way += moved2 * moved2;
        off += missed * missed;
      }
      const little = LITTLE * reach2;
      if (way > little * little && off > 0.25 * way) return false;
    }
    return true;
  }
  longestTurn() {
    const { change } = this;
    let most = 0;
    for (let i = 3; i < change.length; i += 6)
      most = Math.max(most, Math.sqrt(change[i] ** 2 + change[i + 1] ** 2 + change[i + 2] ** 2));
    return most;
  }
  /** Where the middle of a free panel's joints stands in the world. */
  findMiddle(poses, k) {
    const x = this.pull.middle[2 * k];
    const y = this.pull.middle[2 * k + 1];
    for (let row = 0; row < 3; row++) {
      const i = k * POSE + 4 * row;
      middle2[row] = poses[i] * x + poses[i + 1] * y + poses[i + 3];
    }
  }
};
var SLACK2 = 1e-12;
var WORTH = 0.01;
var LEAST_PART = 1 / 64;
var LITTLE = 0.0175;
var LEAST_JUMP = 0.0873;
var rotation4 = new Float64Array(3);
var middle2 = new Float64Array(3);
var shift3 = new Float64Array(3);

// card/src/motion/loop/joints.ts
function checkJoint(j) {
  const what = `the ${j.kind} between panels ${j.a} and ${j.b}`;
  if (j.a === j.b) throw new CannotBuild(`${what} joins a panel to itself`);
  const lines = j.kind === "crease" ? [j.lineA, j.lineB] : j.kind === "slide" ? [j.alongB] : [];
  const points2 = j.kind === "crease" ? [] : j.kind === "slide" ? [j.pointA] : [j.pointA, j.pointB];
  if (![...lines.flat(2), ...points2.flat()].every(Number.isFinite))
    throw new CannotBuild(`${what} has a place that is no number`);
  for (const [[x0, y0], [x1, y1]] of lines)
    if (Math.hypot(x1 - x0, y1 - y0) < 1e-9) throw new CannotBuild(`${what} has no length`);
  if (j.kind !== "crease" && !(j.play >= 0)) throw new CannotBuild(`${what} has a play below 0`);
}

// card/src/motion/loop/ties.ts
var TILT_WEIGHT = 0.2;
var LEAST_REACH = 1;
var AT = 7;
function tiesOf(joints, slotOf) {
  const joint = [];
  const a = [];
  const b = [];
  const at = [];
  const tiltA = [];
  const tiltB = [];
  const slot2 = (panel) => slotOf.get(panel);
  const tie = (index, pointA, from2, to2, room) => {
    joint.push(index);
    a.push(slot2(joints[index].a));
    b.push(slot2(joints[index].b));
    at.push(...pointA, ...from2, to2[0] - from2[0], to2[1] - from2[1], room);
  };
  joints.forEach((j, index) => {
    checkJoint(j);
    if (j.kind === "crease") {
      tie(index, j.lineA[0], j.lineB[0], j.lineB[0], 0);
      tie(index, j.lineA[1], j.lineB[1], j.lineB[1], 0);
    } else if (j.kind === "slide") {
      tie(index, j.pointA, j.alongB[0], j.alongB[1], j.play / 2);
    } else {
      tie(index, j.pointA, j.pointB, j.pointB, j.play / 2);
      tiltA.push(slot2(j.a));
      tiltB.push(slot2(j.b));
    }
  });
  return {
    count: joint.length,
    joint: Int32Array.from(joint),
    a: Int32Array.from(a),
    b: Int32Array.from(b),
    at: numbers(at),
    tilts: tiltA.length,
    tiltA: Int32Array.from(tiltA),
    tiltB: Int32Array.from(tiltB)
  };
}
var tieAt = (k) => k * AT;
function middlesOf(ties, free) {
  const middle3 = zeros(2 * free);
  const reach2 = zeros(free).fill(LEAST_REACH);
  const count = zeros(free);
  const each = (visit) => {
    for (let k = 0; k < ties.count; k++) {
      const [ax, ay, bx, by, runX, runY] = ties.at.subarray(tieAt(k));
      if (ties.a[k] < free) visit(ties.a[k], ax, ay);
      if (ties.b[k] < free) visit(ties.b[k], bx + runX / 2, by + runY / 2);
    }
  };
  each((panel, x, y) => {
    count[panel]++;
    middle3[2 * panel] += x;
    middle3[2 * panel + 1] += y;
  });
  for (let i = 0; i < 2 * free; i++) middle3[i] /= count[i >> 1];
  each((panel, x, y) => {
    reach2[panel] = Math.max(reach2[panel], Math.hypot(x - middle3[2 * panel], y - middle3[2 * panel + 1]));
  });
  return { middle: middle3, reach: reach2 };
}
function startsOf(ties, free) {
  const first = Int32Array.from({ length: free }, (_, k) => k);
  for (let k = 0; k < ties.count; k++) {
    const later = Math.max(ties.a[k], ties.b[k]);
    if (later < free) first[later] = Math.min(first[later], ties.a[k], ties.b[k]);
  }
  return Int32Array.from({ length: 6 * free }, (_, row) => 6 * first[Math.floor(row / 6)]);
}

// card/src/motion/loop/span.ts
var found = {
  /** The point p of a in the world. */
  point: new Float64Array(3),
  /** The nearest point q of b's stretch. */
  foot: new Float64Array(3),
  /** p − q, and its length in `distance[0]`, mm. */
  apart: new Float64Array(3),
  distance: new Float64Array(1),
  /** Unit direction of b's stretch; zero where it is a point. */
  line: new Float64Array(3),
  /** Whether q is free to run: within the stretch and not at an end. */
  running: false
};
function span(poses, ties, k) {
  const { at } = ties;
  const { point: point2, foot: foot2, apart: apart2, line: line2 } = found;
  const t2 = tieAt(k);
  const i = ties.a[k] * POSE;
  const j = ties.b[k] * POSE;
  let squared = 0;
  let ahead = 0;
  for (let row = 0; row < 3; row++) {
    const a = i + 4 * row;
    const b = j + 4 * row;
    point2[row] = poses[a] * at[t2] + poses[a + 1] * at[t2 + 1] + poses[a + 3];
    foot2[row] = poses[b] * at[t2 + 2] + poses[b + 1] * at[t2 + 3] + poses[b + 3];
    line2[row] = poses[b] * at[t2 + 4] + poses[b + 1] * at[t2 + 5];
    apart2[row] = point2[row] - foot2[row];
    squared += line2[row] * line2[row];
    ahead += line2[row] * apart2[row];
  }
  found.running = squared > 0 && ahead > 0 && ahead < squared;
  if (squared > 0) {
    const part2 = Math.min(1, Math.max(0, ahead / squared));
    const length2 = Math.sqrt(squared);
    for (let row = 0; row < 3; row++) {
      foot2[row] += part2 * line2[row];
      apart2[row] -= part2 * line2[row];
      line2[row] /= length2;
    }
  }
  found.distance[0] = Math.sqrt(apart2[0] * apart2[0] + apart2[1] * apart2[1] + apart2[2] * apart2[2]);
}

// card/src/motion/loop/pull.ts
var Pull = class {
  constructor(free, ties) {
    this.free = free;
    this.ties = ties;
    this.unknowns = 6 * free;
    this.gradient = zeros(this.unknowns);
    this.hessian = zeros(this.unknowns * this.unknowns);
    this.starts = startsOf(ties, free);
    const { middle: middle3, reach: reach2 } = middlesOf(ties, free);
    this.middle = middle3;
    this.reach = reach2;
    this.centre = zeros(3 * free);
    this.facing = new Int8Array(ties.tilts).fill(1);
  }
  free;
  ties;
  unknowns;
  gradient;
  /** Row-major; its lower triangle only. */
  hessian;
  /** For each row of it, the column of the first entry that is not always zero. */
  starts;
  /** Middle of each free panel's joints, in its own plane. */
  middle;
  /** Reach of each free panel's joints from that middle, mm. */
  reach;
  /** The same middles in the world, as of the last `measure`. */
  centre;
  /** +1 or −1: whether a pivot's faces look the same way. */
  facing;
  /**
   * Measures the poses (one compact frame, free panels first) into `gradient` and `hessian`.
   * @returns the cost, mm²
   */
  measure(poses) {
    const { ties, gradient, hessian, free, centre, middle: middle3 } = this;
    gradient.fill(0);
    hessian.fill(0);
    for (let k = 0; k < free; k++) {
      const i = k * POSE;
      for (let row = 0; row < 3; row++) {
        const r2 = i + 4 * row;
        centre[3 * k + row] = poses[r2] * middle3[2 * k] + poses[r2 + 1] * middle3[2 * k + 1] + poses[r2 + 3];
      }
    }
    let cost = 0;
    for (let k = 0; k < ties.count; k++) cost += this.addTie(poses, k);
    for (let k = 0; k < ties.tilts; k++) cost += this.addTilt(poses, k);
    return cost;
  }
  /** How far tie k stands apart beyond its room, mm. */
  gap(poses, k) {
    span(poses, this.ties, k);
    return Math.max(0, found.distance[0] - this.ties.at[tieAt(k) + 6]);
  }
  /** By how much the faces of pivot k, counted among the pivots, stand out of parallel: radians, 0 to π. */
  tilt(poses, k) {
    const i = this.ties.tiltA[k] * POSE;
    const j = this.ties.tiltB[k] * POSE;
    const sign = this.facing[k];
    const x = poses[i + 2] - sign * poses[j + 2];
    const y = poses[i + 6] - sign * poses[j + 6];
    const z29 = poses[i + 10] - sign * poses[j + 10];
    return 2 * Math.asin(Math.min(1, Math.sqrt(x * x + y * y + z29 * z29) / 2));
  }
  /** Takes from the poses which way each pivot's two faces look. */
  faceAs(poses) {
    const { ties, facing } = this;
    for (let k = 0; k < ties.tilts; k++) {
      const i = ties.tiltA[k] * POSE;
      const j = ties.tiltB[k] * POSE;
      const cosine2 = poses[i + 2] * poses[j + 2] + poses[i + 6] * poses[j + 6] + poses[i + 10] * poses[j + 10];
      facing[k] = cosine2 < 0 ? -1 : 1;
    }
  }
  addTie(poses, k) {
    const { ties, free } = this;
    span(poses, ties, k);
    const { point: point2, foot: foot2, apart: apart2, line: line2, running: running2 } = found;
    const distance4 = found.distance[0];
    const room = ties.at[tieAt(k) + 6];
    if (distance4 <= room && room > 0) return 0;
    const f2 = room > 0 ? 1 - room / distance4 : 1;
    const across3 = room > 0 ? (1 - f2) / (distance4 * distance4) : 0;
    const along3 = running2 ? f2 : 0;
    const dx = apart2[0];
    const dy = apart2[1];
    const dz = apart2[2];
    const lx = line2[0];
    const ly = line2[1];
    const lz = line2[2];
    w[0] = f2 - along3 * lx * lx + across3 * dx * dx;
    w[4] = f2 - along3 * ly * ly + across3 * dy * dy;
    w[8] = f2 - along3 * lz * lz + across3 * dz * dz;
    w[1] = w[3] = across3 * dx * dy - along3 * lx * ly;
    w[2] = w[6] = across3 * dx * dz - along3 * lx * lz;
    w[5] = w[7] = across3 * dy * dz - along3 * ly * lz;
    const rx = f2 * dx;
    const ry = f2 * dy;
    const rz = f2 * dz;
    const a = ties.a[k];
    const b = ties.b[k];
    if (a < free) {
      this.leverTo(point2, a, leverA);
      this.addPull(a, leverA, rx, ry, rz, 1);
      this.addBlock(a, leverA, a, leverA, 1);
    }
    if (b < free) {
      this.leverTo(foot2, b, leverB);
      this.addPull(b, leverB, rx, ry, rz, -1);
      this.addBlock(b, leverB, b, leverB, 1);
      if (a < b) this.addBlock(b, leverB, a, leverA, -1);
      else if (a < free) this.addBlock(a, leverA, b, leverB, -1);
    }
    return 0.5 * (rx * rx + ry * ry + rz * rz);
  }
  addTilt(poses, k) {
    const { ties, free } = this;
    const a = ties.tiltA[k];
    const b = ties.tiltB[k];
    const sign = this.facing[k];
    const squared = TILT_WEIGHT * TILT_WEIGHT;
    for (let row = 0; row < 3; row++) {
      n[row] = poses[a * POSE + 4 * row + 2];
      m[row] = sign * poses[b * POSE + 4 * row + 2];
    }
    const cosine2 = n[0] * m[0] + n[1] * m[1] + n[2] * m[2];
    const cx = n[1] * m[2] - n[2] * m[1];
    const cy = n[2] * m[0] - n[0] * m[2];
    const cz = n[0] * m[1] - n[1] * m[0];
    if (a < free) {
      this.addTurn(a, cx, cy, cz, -squared);
      this.addTurning(a, a, squared, cosine2, n, m, 0.5);
    }
    if (b < free) {
      this.addTurn(b, cx, cy, cz, squared);
      this.addTurning(b, b, squared, cosine2, n, m, 0.5);
    }
    if (a < b && b < free) this.addTurning(b, a, -squared, cosine2, n, m, 1);
    else if (b < a && a < free) this.addTurning(a, b, -squared, cosine2, m, n, 1);
    const ex = n[0] - m[0];
    const ey = n[1] - m[1];
    const ez = n[2] - m[2];
    return 0.5 * squared * (ex * ex + ey * ey + ez * ez);
  }
  /** Lever from the middle of a free panel's joints to a world point, over the panel's reach. */
  leverTo(at, k, out) {
    const reach2 = this.reach[k];
    for (let row = 0; row < 3; row++) out[row] = (at[row] - this.centre[3 * k + row]) / reach2;
  }
  /** A moment on panel k, by w. */
  addTurn(k, x, y, z29, scale) {
    const over = scale / this.reach[k];
    this.gradient[6 * k + 3] += over * x;
    this.gradient[6 * k + 4] += over * y;
    this.gradient[6 * k + 5] += over * z29;
  }
  /** scale · (cosine I − p u vᵀ − (1 − p) v uᵀ) on w of panel i (rows) and of panel j (columns). */
  addTurning(i, j, scale, cosine2, u, v, p2) {
    const { hessian, unknowns } = this;
    const over = scale / (this.reach[i] * this.reach[j]);
    for (let row = 0; row < 3; row++) {
      const h = (6 * i + 3 + row) * unknowns + 6 * j + 3;
      for (let column = 0; column < 3; column++)
        hessian[h + column] -= over * (p2 * u[row] * v[column] + (1 - p2) * v[row] * u[column]);
      hessian[h + row] += over * cosine2;
    }
  }
  /** A pull on panel k at a lever: its gradient, and the stiffness that the pull itself gives. */
  addPull(k, lever, rx, ry, rz, sign) {
    const { gradient, hessian, unknowns } = this;
    const x = lever[0];
    const y = lever[1];
    const z29 = lever[2];
    const g = 6 * k;
    gradient[g] += sign * rx;
    gradient[g + 1] += sign * ry;
    gradient[g + 2] += sign * rz;
    gradient[g + 3] += sign * (y * rz - z29 * ry);
    gradient[g + 4] += sign * (z29 * rx - x * rz);
    gradient[g + 5] += sign * (x * ry - y * rx);
    const over = sign / this.reach[k];
    const h = (g + 3) * unknowns + g + 3;
    hessian[h] -= over * (ry * y + rz * z29);
    hessian[h + unknowns + 1] -= over * (rx * x + rz * z29);
    hessian[h + 2 * unknowns + 2] -= over * (rx * x + ry * y);
    hessian[h + unknowns] += over / 2 * (rx * y + ry * x);
    hessian[h + 2 * unknowns] += over / 2 * (rx * z29 + rz * x);
    hessian[h + 2 * unknowns + 1] += over / 2 * (ry * z29 + rz * y);
  }
  /**
   * sign · [I, −[x]]ᵀ W [I, −[y]] for panels i (rows) and j (columns):
   * W, and y × its rows; x × its columns, and y × the rows of that.
   */
  addBlock(i, x, j, y, sign) {
    const { hessian, unknowns } = this;
    for (let c = 0; c < 3; c++) {
      const u = sign * w[c];
      const v = sign * w[3 + c];
      const t2 = sign * w[6 + c];
      six[c] = u;
      six[3 + c] = v;
      six[6 + c] = t2;
      six[9 + c] = x[1] * t2 - x[2] * v;
      six[12 + c] = x[2] * u - x[0] * t2;
      six[15 + c] = x[0] * v - x[1] * u;
    }
    let h = 6 * i * unknowns + 6 * j;
    for (let row = 0; row < 18; row += 3) {
      const u = six[row];
      const v = six[row + 1];
      const t2 = six[row + 2];
      hessian[h] += u;
      hessian[h + 1] += v;
      hessian[h + 2] += t2;
      hessian[h + 3] += y[1] * t2 - y[2] * v;
      hessian[h + 4] += y[2] * u - y[0] * t2;
      hessian[h + 5] += y[0] * v - y[1] * u;
      h += unknowns;
    }
  }
};
var leverA = new Float64Array(3);
var leverB = new Float64Array(3);
var n = new Float64Array(3);
var m = new Float64Array(3);
var w = new Float64Array(9);
var six = new Float64Array(18);

// card/src/motion/loop.ts
var Loop = class {
  /**
   * @param free the panels to be placed, by index
   * @param joints between any two panels; at least one on each free panel
   * @param bends which way limbs bend that are drawn straight
   * @throws CannotBuild when a joint, or a bend, makes no sense
   */
  constructor(free, joints, bends = []) {
    this.joints = joints;
    const slotOf = /* @__PURE__ */ new Map();
    for (const panel of free) {
      if (slotOf.has(panel)) throw new CannotBuild(`panel ${panel} is free twice`);
      if (!joints.some((j) => j.a === panel || j.b === panel))
        throw new CannotBuild(`panel ${panel} of the loop hangs on no joint`);
      slotOf.set(panel, slotOf.size);
    }
    this.free = slotOf.size;
    for (const { a, b } of joints)
      for (const panel of [a, b]) if (!slotOf.has(panel)) slotOf.set(panel, slotOf.size);
    this.slots = Int32Array.from(slotOf.keys());
    this.pull = new Pull(this.free, tiesOf(joints, slotOf));
    this.knees = new Knees(joints, slotOf, this.free, bends);
    const loose = joints.some((j) => j.kind !== "crease" && j.play > 0);
    this.path = new Path(this.slots.length, this.pull, this.knees, loose);
  }
  joints;
  /**
   * How far each joint stands apart beyond its play, summed over the joints, mm (a crease: at its worse end). Like tilt
   * and lift it is read off the poses as they are written: should the solver run out of steps on its way through what
   * play and tilt leave open, they still tell all that is amiss there, and at most too much.
   */
  gap = 0;
  /** The greatest angle by which a pivot's two faces are out of parallel, 0 to π. */
  tilt = 0;
  /** How far a crease is lifted off, at its worse end, mm. */
  lift = 0;
  /**
   * How far a free panel turned in 1/64 of the way from the frame before, where that was more than 5°, more than half
   * of all that the frame turned, and not foretold by the motion so far; else 0.
   */
  jump = 0;
  slots;
  free;
  pull;
  knees;
  path;
  /** Joints, by index, at which a limb was drawn straight and no bend says which way it goes: +1 is taken. */
  get undecided() {
    return this.knees.undecided;
  }
  /**
   * Takes the figure as drawn, open, and settles the free panels where the joints want them. To be called once, first:
   * which way the faces of each pivot look is taken from here.
   */
  start(poses) {
    this.take(poses);
    this.pull.faceAs(this.path.goal);
    this.startPath(poses);
  }
  /**
   * Places the free panels at the next page angle.
   * @param poses one frame, with the driven panels at that page angle and the free ones as in the frame before;
   * where those are not what this loop wrote last, it starts anew from them
   */
  solve(poses) {
    const { path } = this;
    this.take(poses);
    for (let i = 0; i < this.free * POSE; i++) {
      if (path.goal[i] !== path.now[i]) {
        this.startPath(poses);
        return;
      }
    }
    path.follow();
    this.finish(poses);
  }
  startPath(poses) {
    this.path.start();
    this.finish(poses);
  }
  take(poses) {
    for (let k = 0; k < this.slots.length; k++) {
      const from2 = this.slots[k] * POSE;
      for (let i = 0; i < POSE; i++) this.path.goal[k * POSE + i] = poses[from2 + i];
    }
  }
  /** Writes the free panels' poses, and what there is to report of them. */
  finish(poses) {
    const { pull, joints, path } = this;
    const { now } = path;
    let most = 0;
    for (let k = 0; k < this.free; k++) {
      const to2 = this.slots[k] * POSE;
      for (let i = 0; i < POSE; i++) poses[to2 + i] = now[k * POSE + i];
      rotationBetween(path.first, now, k, rotation5);
      const turn = Math.sqrt(rotation5[0] ** 2 + rotation5[1] ** 2 + rotation5[2] ** 2);
      if (turn > most) most = turn;
    }
    this.jump = path.leap > LEAST_JUMP && path.leap > most / 2 ? path.leap : 0;
    const { ties } = pull;
    this.gap = 0;
    this.lift = 0;
    for (let k = 0; k < ties.count; ) {
      const index = ties.joint[k];
      let most2 = 0;
      for (; k < ties.count && ties.joint[k] === index; k++) most2 = Math.max(most2, pull.gap(now, k));
      this.gap += most2;
      const joint = joints[index];
      if (joint.kind === "crease") this.lift = Math.max(this.lift, most2);
    }
    this.tilt = 0;
    for (let k = 0; k < ties.tilts; k++) this.tilt = Math.max(this.tilt, pull.tilt(now, k));
  }
};
var rotation5 = new Float64Array(3);

// card/src/motion/chains.ts
var DEGREES = 180 / Math.PI;
var Chains = class {
  free = /* @__PURE__ */ new Map();
  joints = [];
  get isEmpty() {
    return this.free.size === 0;
  }
  /** Takes a panel, drawn where the assembly's open poses have it, to be placed by its joints. */
  addPanel(panel, part2) {
    this.free.set(panel, part2);
  }
  /** Whether a joint between two panels belongs to a chain. */
  holds(...panels) {
    return panels.some((panel) => this.free.has(panel));
  }
  addJoint(joint, part2, after, bend = null) {
    this.joints.push({ joint, part: part2, after, bend });
  }
  /**
   * Makes a loop of each set of free panels that are joined to one another, and puts its step where all that drives it
   * is placed. What is glued on its panels follows after it.
   * @throws CannotBuild when a panel hangs on nothing, or nobody said which way a straight limb bends
   */
  close(assembly) {
    for (const panels of this.sets()) {
      const joints = this.joints.filter(({ joint }) => panels.has(joint.a) || panels.has(joint.b));
      const [first] = panels;
      const part2 = this.free.get(first);
      if (!joints.some(({ joint }) => !panels.has(joint.a) || !panels.has(joint.b)))
        throw new CannotBuild("it hangs on no part that is held", "", true, part2);
      const step = chainStep(assembly, part2, [...panels], joints);
      const at = Math.max(...joints.map(({ after }) => after));
      const follows = (each) => each.hangsOn !== void 0 && panels.has(assembly.panels[each.hangsOn].body);
      const early = assembly.steps.slice(0, at).filter(follows);
      const rest = assembly.steps.slice(0, at).filter((each) => !follows(each));
      assembly.steps.splice(0, at, ...rest, step, ...early);
    }
    for (const step of assembly.steps) step.place(assembly.open, assembly.openMisfits);
  }
  /** Free panels, set by set, as their joints connect them. */
  sets() {
    const sets = [];
    const left = new Set(this.free.keys());
    for (const seed of left) {
      const set = /* @__PURE__ */ new Set([seed]);
      left.delete(seed);
      for (const panel of set)
        for (const { joint } of this.joints)
          for (const [a, b] of [
            [joint.a, joint.b],
            [joint.b, joint.a]
          ])
            if (a === panel && left.delete(b)) set.add(b);
      sets.push(set);
    }
    return sets;
  }
};
function chainStep(assembly, part2, panels, joints) {
  const bends = [];
  joints.forEach(({ bend }, joint) => {
    if (bend !== null) bends.push({ joint, side: bend });
  });
  const loop = new Loop(
    panels,
    joints.map(({ joint }) => joint),
    bends
  );
  loop.start(assembly.open);
  const [unsaid] = loop.undecided;
  if (unsaid !== void 0)
    throw new CannotBuild(
      `the limb is drawn straight at '${joints[unsaid].part}': say there which way it bends`,
      "bends",
      false,
      joints[unsaid].part
    );
  const chain = { part: part2, panels: [], locksBeyond: null };
  const gap2 = assembly.addMisfit({ ...chain, of: "gap", joint: "joints" });
  const tilt2 = assembly.addMisfit({ ...chain, of: "tilt", joint: "hubs" });
  const lift = assembly.addMisfit({ ...chain, of: "lift", joint: "glued end" });
  const jump2 = assembly.addMisfit({ ...chain, of: "jump", joint: "limb" });
  return {
    part: part2,
    place(poses, misfits) {
      loop.solve(poses);
      misfits[gap2] = loop.gap < 1e-4 ? 0 : loop.gap;
      misfits[tilt2] = loop.tilt * DEGREES;
      misfits[lift] = loop.lift < 1e-4 ? 0 : loop.lift;
      misfits[jump2] = loop.jump * DEGREES;
    }
  };
}

// card/src/motion/crease-sense.ts
var FLAT = 1e-6;
function senseAt({ between: between4, lines, sides }, poses) {
  const [e, n1, n2] = [
    along(poses, between4[0], lines[0], 0),
    along(poses, between4[0], lines[0], sides[0]),
    along(poses, between4[1], lines[1], sides[1])
  ];
  const turn = (n1[1] * n2[2] - n1[2] * n2[1]) * e[0] + (n1[2] * n2[0] - n1[0] * n2[2]) * e[1] + (n1[0] * n2[1] - n1[1] * n2[0]) * e[2];
  return Math.abs(turn) < FLAT ? 0 : turn > 0 ? 1 : -1;
}
function along(poses, k, { x0, y0, x1, y1 }, side2) {
  const long = Math.hypot(x1 - x0, y1 - y0);
  const [ex, ey] = [(x1 - x0) / long, (y1 - y0) / long];
  const [x, y] = side2 === 0 ? [ex, ey] : [-side2 * ey, side2 * ex];
  return [0, 4, 8].map((r2) => poses[k * POSE + r2] * x + poses[k * POSE + r2 + 1] * y);
}

// card/src/motion/assembly.ts
var LEFT_PAGE = 0;
var RIGHT_PAGE = 1;
var Assembly = class {
  constructor(page, thicknessOf2, handCut = false) {
    this.page = page;
    this.thicknessOf = thicknessOf2;
    this.handCut = handCut;
    const { width: w2, height: h } = page;
    this.addPanel({ name: "left page", part: "page", piece: "page", outline: [-w2, 0, 0, 0, 0, h, -w2, h] });
    this.addPanel({ name: "right page", part: "page", piece: "page", outline: [0, 0, w2, 0, w2, h, 0, h] });
    const line2 = { x0: 0, y0: 0, x1: 0, y1: h };
    this.addJoint({
      kind: "crease",
      between: [LEFT_PAGE, RIGHT_PAGE],
      lines: [line2, { ...line2 }],
      closesLoop: false,
      of: "fold"
    });
    this.addCrease({
      name: "gutter",
      between: [LEFT_PAGE, RIGHT_PAGE],
      lines: [line2, line2],
      sides: [1, -1],
      sense: 1
    });
    placePages(this.open, Math.PI);
  }
  page;
  thicknessOf;
  handCut;
  panels = [];
  joints = [];
  creases = /* @__PURE__ */ new Map();
  misfits = [];
  steps = [];
  /** Folds whose card bows or stretches where they are off. */
  folds = [];
  /** Chains of panels that no step places: they follow from their joints. Closed by `Chains.close` at the end. */
  chains = new Chains();
  /** Poses at page angle 180°, kept up to date as parts are added: figures are drawn open. */
  open = new Float64Array(0);
  openMisfits = new Float64Array(0);
  byName = /* @__PURE__ */ new Map();
  /** Creases whose sense is still to be read off the half-open figure. */
  unread = /* @__PURE__ */ new Set();
  /** Adds a panel and returns its index. An outline given clockwise is turned round. */
  addPanel(panel) {
    if (this.byName.has(panel.name))
      throw new CannotBuild(`there are two panels named '${panel.name}'`, "name", true);
    const index = this.panels.length;
    this.byName.set(panel.name, index);
    this.panels.push({
      name: panel.name,
      part: panel.part,
      piece: panel.piece,
      outline: counterClockwise(numbers(panel.outline)),
      holes: (panel.holes ?? []).map((hole) => numbers(hole)),
      thickness: this.thicknessOf(panel.piece),
      up: panel.up ?? 1,
      body: panel.gluedTo === void 0 ? index : this.panels[panel.gluedTo].body,
      role: panel.role ?? "card"
    });
    this.open = longer(this.open, this.panels.length * POSE);
    return index;
  }
  /** Adds a joint. Corners of outlines that all but lie on a crease lie on it from then on. */
  addJoint(joint) {
    if (joint.kind === "crease")
      joint.between.forEach((k, end) => {
        moveOntoLine(this.panels[k].outline, joint.lines[end]);
      });
    return this.joints.push(joint) - 1;
  }
  /**
   * @param read whether its sense is to be read off the half-open figure as soon as something stands on it, since its
   * part's sense does not tell: the one given stands where the half-open figure has it flat
   */
  addCrease(crease, read = false) {
    if (this.creases.has(crease.name))
      throw new CannotBuild(`there are two creases named '${crease.name}'`, "name", true);
    this.creases.set(crease.name, crease);
    if (read) this.unread.add(crease.name);
  }
  addMisfit(misfit) {
    const index = this.misfits.push(misfit) - 1;
    this.openMisfits = longer(this.openMisfits, this.misfits.length);
    return index;
  }
  /** Adds a step of the motion and takes it at once in the open figure. */
  addStep(step) {
    this.steps.push(step);
    step.place(this.open, this.openMisfits);
  }
  /** Poses at page angle 90°, of the parts so far: for what cannot be told from a flat figure. */
  halfOpen() {
    return this.posesAt(Math.PI / 2);
  }
  /** Poses of the parts so far at a page angle, radians. */
  posesAt(pageAngle2) {
    const poses = this.open.slice();
    const misfits = this.openMisfits.slice();
    placePages(poses, pageAngle2);
    for (const step of this.steps) step.place(poses, misfits);
    return poses;
  }
  /** The index of the panel of that name; `field` is what to blame when there is none. */
  panelNamed(name2, field) {
    const index = this.byName.get(name2);
    if (index === void 0) throw unknown("panel", name2, [...this.byName.keys()], field);
    return index;
  }
  /** The crease of that name; `field` is what to blame when there is none. */
  creaseNamed(name2, field) {
    const crease = this.creases.get(name2);
    if (crease === void 0) throw unknown("crease", name2, [...this.creases.keys()], field);
    if (!this.unread.delete(name2)) return crease;
    const read = { ...crease, sense: senseAt(crease, this.halfOpen()) || crease.sense };
    this.creases.set(name2, read);
    return read;
  }
};
function longer(array6, count) {
  const grown = zeros(count);
  grown.set(array6);
  return grown;
}
function placePages(poses, pageAngle2) {
  const flat = pageAngle2 === 0 || pageAngle2 === Math.PI;
  const s2 = flat ? 0 : Math.sin(pageAngle2);
  const c = Math.cos(pageAngle2);
  poses.fill(0, 0, 2 * POSE);
  poses[0] = poses[5] = poses[10] = 1;
  poses[POSE] = -c;
  poses[POSE + 2] = -s2;
  poses[POSE + 5] = 1;
  poses[POSE + 8] = s2;
  poses[POSE + 10] = -c;
}
function unknown(what, name2, known, field) {
  return new CannotBuild(`no ${what} is named '${name2}' so far; there are: ${known.join(", ")}`, field, true);
}

// card/src/parts/fields.ts
import * as z2 from "zod";

// card/src/text/plain-text.ts
var UNSEEN = String.raw`(?![\u200c\u200d])[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]`;
var ANY_UNSEEN = new RegExp(UNSEEN, "gu");
var ANY_UNSEEN_IN_LINES = new RegExp(`(?![\\t\\n\\r])${UNSEEN}`, "gu");
function plainText(text, instead = "\uFFFD") {
  return text.replace(ANY_UNSEEN, instead);
}
var isPlain = (text) => plainText(text) === text;

// card/src/parts/label.ts
import * as z from "zod";
var LONGEST_NAME = 60;
var label = () => z.string({ error: "a name" }).refine((text) => text.length > 0 && text.length <= LONGEST_NAME && text === text.trim(), {
  error: `a name of 1 to ${LONGEST_NAME} characters, without blanks around it`
}).refine((text) => isPlain(text) && !/\p{C}/u.test(text), { error: "a name without control characters" });

// card/src/parts/fields.ts
var Quantity = class {
  constructor(written, unit3, least, most) {
    this.written = written;
    this.unit = unit3;
    this.least = least;
    this.most = most;
  }
  written;
  unit;
  least;
  most;
};
var Word = class {
  constructor(written, options) {
    this.written = written;
    this.options = options;
  }
  written;
  options;
};
var quantity = (unit3, least, most) => z2.union([z2.number(), z2.string()], { error: "a number, a dim or arithmetic over dims" }).transform((written) => new Quantity(written, unit3, least, most));
var LONGEST = 1e4;
var place = () => quantity("mm", -LONGEST, LONGEST);
var length = () => quantity("mm", 0, LONGEST);
var size = () => quantity("mm", 0.01, LONGEST);
var angle = (least = -360, most = 360) => quantity("degrees", least, most);
var word = (...options) => z2.string({ error: `one of ${options.join(", ")}, or a dim that chooses between them` }).transform((written) => new Word(written, options));
var gluedField = () => word("closed on", "by measure").prefault("closed on");
var LONGEST_NAME_OF_PANEL = 120;
var name = () => z2.string({ error: "a name" }).refine((text) => text.length <= LONGEST_NAME_OF_PANEL && isPlain(text), {
  error: `a name of at most ${LONGEST_NAME_OF_PANEL} characters, without control characters`
}).transform(anyName);
var piece = () => label().transform(anyName);
var anyName = (written) => new Word(written, []);
var point = () => z2.tuple([place(), place()], { error: "a point [x, y] in mm" });

// card/src/geometry/ring-distance.ts
function outsideOf(ring, [x, y]) {
  let nearest2 = Number.POSITIVE_INFINITY;
  let inside3 = false;
  for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
    const [ax, ay, bx, by] = [ring[j], ring[j + 1], ring[i], ring[i + 1]];
    const [ex, ey] = [bx - ax, by - ay];
    const t2 = Math.min(1, Math.max(0, ((x - ax) * ex + (y - ay) * ey) / (ex * ex + ey * ey || 1)));
    const squared = (x - ax - t2 * ex) ** 2 + (y - ay - t2 * ey) ** 2;
    if (squared < nearest2) nearest2 = squared;
    if (ay > y !== by > y && x < ax + ex * (y - ay) / ey) inside3 = !inside3;
  }
  return inside3 ? -Math.sqrt(nearest2) : Math.sqrt(nearest2);
}

// card/src/geometry/convex-cut.ts
function cutToConvex(ring, within) {
  let left = Array.from(ring);
  for (let i = 0, j = within.length - 2; i < within.length; j = i, i += 2) {
    const [x0, y0] = [within[j], within[j + 1]];
    const [dx, dy] = [within[i] - x0, within[i + 1] - y0];
    const long = Math.hypot(dx, dy);
    if (long === 0) continue;
    const height = (x, y) => (dx * (y - y0) - dy * (x - x0)) / long;
    const kept = [];
    for (let v = 0, u = left.length - 2; v < left.length; u = v, v += 2) {
      const [ux, uy, vx, vy] = [left[u], left[u + 1], left[v], left[v + 1]];
      const [before2, after] = [height(ux, uy), height(vx, vy)];
      if (before2 < 0 !== after < 0) {
        const t2 = before2 / (before2 - after);
        kept.push(dx === 0 ? x0 : ux + t2 * (vx - ux), dy === 0 ? y0 : uy + t2 * (vy - uy));
      }
      if (after >= 0) kept.push(vx, vy);
    }
    left = kept;
  }
  const out = zeros(left.length);
  out.set(left);
  return out;
}

// card/src/geometry/hull.ts
function convexHull(points2) {
  const order = Array.from({ length: points2.length / 2 }, (_, k) => 2 * k);
  order.sort((a, b) => points2[a] - points2[b] || points2[a + 1] - points2[b + 1]);
  const hull = [];
  for (const way of [1, -1]) {
    const start = hull.length;
    for (let k = 0; k < order.length; k++) {
      const i = order[way === 1 ? k : order.length - 1 - k];
      while (hull.length >= start + 2 && !turnsLeft(points2, hull[hull.length - 2], hull[hull.length - 1], i))
        hull.pop();
      hull.push(i);
    }
    hull.pop();
  }
  const corners = zeros(2 * hull.length);
  for (let k = 0; k < hull.length; k++) {
    corners[2 * k] = points2[hull[k]];
    corners[2 * k + 1] = points2[hull[k] + 1];
  }
  return corners;
}
function isConvex(ring) {
  const n2 = ring.length;
  for (let i = 0; i < n2; i += 2) if (!turnsLeft(ring, i, (i + 2) % n2, (i + 4) % n2)) return false;
  return true;
}
function turnsLeft(p2, i, j, k) {
  return (p2[j] - p2[i]) * (p2[k + 1] - p2[i + 1]) - (p2[j + 1] - p2[i + 1]) * (p2[k] - p2[i]) > 0;
}

// card/src/geometry/region.ts
import { Clipper as Clipper2, EndType, FillRule as FillRule2, JoinType } from "clipper2-ts";

// card/src/geometry/clipper.ts
import { Clipper, FillRule } from "clipper2-ts";
var UNIT = 1e6;
function pathOf(ring) {
  const path = [];
  for (let i = 0; i < ring.length; i += 2) path.push({ x: whole(ring[i]), y: whole(ring[i + 1]) });
  return path;
}
var pathThrough = (ring) => ring.map(([x, y]) => ({ x: whole(x), y: whole(y) }));
var pointsOf = (path) => path.map(({ x, y }) => [x / UNIT, y / UNIT]);
var whole = (mm3) => Math.round(mm3 * UNIT);
var pathsOf = ({ outline, holes }) => [outline, ...holes].map(pathOf);

// card/src/geometry/plane.ts
function boxOf(points2) {
  let [left, low, right2, high] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [x, y] of points2) {
    left = Math.min(left, x);
    right2 = Math.max(right2, x);
    low = Math.min(low, y);
    high = Math.max(high, y);
  }
  return { left, low, right: right2, high };
}
function edgesOf(ring) {
  return ring.map((p2, i) => [p2, ring[(i + 1) % ring.length]]);
}
function areaOf(ring) {
  let twice = 0;
  for (const [[ax, ay], [bx, by]] of edgesOf(ring))
    twice += (ax - ring[0][0]) * (by - ring[0][1]) - (bx - ring[0][0]) * (ay - ring[0][1]);
  return twice / 2;
}
function cardIn({ outline, holes }) {
  return Math.abs(areaOf(outline)) - holes.reduce((sum, hole) => sum + Math.abs(areaOf(hole)), 0);
}
function running(ring, way) {
  return areaOf(ring) * way >= 0 ? ring : [...ring].reverse();
}
function inside(ring, [x, y]) {
  let odd = false;
  for (const [[ax, ay], [bx, by]] of edgesOf(ring))
    if (ay > y !== by > y && x < ax + (y - ay) * (bx - ax) / (by - ay)) odd = !odd;
  return odd;
}

// card/src/geometry/region.ts
var CRUMB = 0.01;
function pathsOf2(all) {
  return all.flatMap(
    ({ outline, holes }) => [running(outline, 1), ...holes.map((hole) => running(hole, -1))].map((ring) => pathThrough(ring))
  );
}
function shapesOf(paths) {
  const rings = paths.map((path) => pointsOf(path)).filter((ring) => Math.abs(areaOf(ring)) > CRUMB);
  const outlines = rings.filter((ring) => areaOf(ring) > 0).sort((a, b) => areaOf(a) - areaOf(b));
  const shapes = outlines.map((outline) => ({ outline, holes: [] }));
  for (const hole of rings.filter((ring) => areaOf(ring) < 0))
    shapes.find(({ outline }) => areaOf(outline) > -areaOf(hole) && hole.some((p2) => inside(outline, p2)))?.holes.push(hole);
  return shapes.filter((shape) => cardIn(shape) > CRUMB);
}
function overlapOf(a, b) {
  if (!boxesMeet(boxOf(a.outline), boxOf(b.outline))) return [];
  return shapesOf(Clipper2.intersect(pathsOf2([a]), pathsOf2([b]), FillRule2.NonZero));
}
function boxesMeet(a, b) {
  return a.left < b.right && b.left < a.right && a.low < b.high && b.low < a.high;
}

// card/src/parts/cut-back.ts
var OFF = 1e-6;
function cutBackTabs(assembly) {
  const { panels, joints } = assembly;
  for (const joint of joints) {
    if (joint.kind !== "glue") continue;
    const [receiver, tab] = joint.between.map((k) => panels[k]);
    if (tab.role !== "tab" || liesWithin(tab.outline, receiver)) continue;
    const left = whatLiesOn(tab.outline, awayFromGutter(joint.between[0], receiver, tab.outline));
    if (left === null) continue;
    tab.outline = left;
    for (const other of joints)
      if (other.kind === "crease" && other.between[0] === joint.between[1])
        moveOntoLine(tab.outline, other.lines[0]);
  }
}
var MARGIN = 2;
function awayFromGutter(k, page, tab) {
  if (k !== LEFT_PAGE && k !== RIGHT_PAGE) return page;
  const side2 = k === LEFT_PAGE ? -1 : 1;
  let over = 0;
  for (let i = 0; i < tab.length; i += 2) over = Math.max(over, -side2 * tab[i]);
  const strip2 = Math.min(MARGIN, over);
  return {
    holes: page.holes,
    outline: page.outline.map((v, i) => i % 2 === 0 && v === 0 ? side2 * strip2 : v)
  };
}
var liesWithin = (ring, { outline, holes }) => holes.length === 0 && isConvex(outline) && !someCorner(ring, (x, y) => outsideOf(outline, [x, y]) > OFF);
function someCorner(ring, is) {
  for (let i = 0; i < ring.length; i += 2) if (is(ring[i], ring[i + 1])) return true;
  return false;
}
function whatLiesOn(ring, { outline, holes }) {
  if (holes.length === 0 && isConvex(outline)) {
    const left = cutToConvex(ring, outline);
    return left.length < 6 || signedArea(left) < OFF ? null : left;
  }
  const most = overlapOf(
    { outline: asRing(ring), holes: [] },
    { outline: asRing(outline), holes: holes.map(asRing) }
  ).map((shape) => ({ shape, outline: Float64Array.from(shape.outline.flat()) })).sort((a, b) => signedArea(b.outline) - signedArea(a.outline))[0];
  if (most === void 0 || most.shape.holes.length > 0) return null;
  return signedArea(ring) - signedArea(most.outline) < 1e-3 ? null : counterClockwise(most.outline);
}
var asRing = (ring) => Array.from({ length: ring.length / 2 }, (_, i) => [ring[2 * i], ring[2 * i + 1]]);

// card/src/parts/kinds/cover-flap.ts
import * as z4 from "zod";

// card/src/parts/attach.ts
function takeStance(crease, at, toward) {
  const way = toward === "end" ? 1 : -1;
  const footings = crease.lines.map((line2, i) => {
    const [ex, ey] = unit(line2);
    const side2 = crease.sides[i];
    return {
      panel: crease.between[i],
      at: [line2.x0 + at * ex, line2.y0 + at * ey],
      along: [way * ex, way * ey],
      inward: [-side2 * ey, side2 * ex]
    };
  });
  return {
    crease,
    footings,
    sense: crease.sense * way,
    flatSide: crease.sense * crease.sides[0],
    otherFlatSide: -crease.sense * crease.sides[1]
  };
}
function unit(line2) {
  const dx = line2.x1 - line2.x0;
  const dy = line2.y1 - line2.y0;
  const length2 = Math.hypot(dx, dy);
  return [dx / length2, dy / length2];
}
function lengthOf2(line2) {
  return Math.hypot(line2.x1 - line2.x0, line2.y1 - line2.y0);
}
function cardSide(outline, line2) {
  const [ex, ey] = unit(line2);
  const [x0, y0] = outline;
  let area = 0;
  let sum = 0;
  for (let i = 2; i + 3 < outline.length; i += 2) {
    const [ax, ay] = [outline[i] - x0, outline[i + 1] - y0];
    const [bx, by] = [outline[i + 2] - x0, outline[i + 3] - y0];
    const twice = ax * by - ay * bx;
    area += twice;
    sum += twice * (ex * (y0 + (ay + by) / 3 - line2.y0) - ey * (x0 + (ax + bx) / 3 - line2.x0));
  }
  return Math.abs(sum) < 1e-9 * area ? 0 : sum > 0 ? 1 : -1;
}
function fromCrease({ along: along3, inward }, angle2) {
  const c = Math.cos(angle2);
  const s2 = Math.sin(angle2);
  return [c * along3[0] + s2 * inward[0], c * along3[1] + s2 * inward[1]];
}
function moved(origin2, direction, distance4) {
  return [origin2[0] + distance4 * direction[0], origin2[1] + distance4 * direction[1]];
}
function lineBetween([x0, y0], [x1, y1]) {
  return { x0, y0, x1, y1 };
}
function mustLieOnCrease(assembly, crease, at, field, what) {
  if (assembly.handCut) return;
  const length2 = lengthOf2(crease.lines[0]);
  if (at < -1e-6 || at > length2 + 1e-6)
    throw new CannotBuild(
      `${what} lies at ${at.toFixed(2)} mm along '${crease.name}', which is ${length2.toFixed(2)} mm long`,
      field
    );
}
function addFootCreases(assembly, foot2) {
  const [ex, ey] = unit(foot2.lines[0]);
  const left = -ey * foot2.inner[0] + ex * foot2.inner[1] > 0 ? 1 : -1;
  for (const [word3, side2] of [
    ["inner", left],
    ["outer", -left]
  ])
    assembly.addCrease(
      {
        name: `${foot2.name} ${word3}`,
        between: [foot2.receiver, foot2.panel],
        lines: foot2.lines,
        sides: [side2, foot2.panelSide],
        // (n₁ × n₂)·L with n₂ rising from the receiver's face on `faceSide`: side · faceSide.
        sense: side2 * foot2.faceSide
      },
      true
    );
}

// card/src/parts/hinge.ts
import * as z3 from "zod";
var hingeFields = z3.strictObject({
  panel: name(),
  line: z3.tuple([point(), point()])
});
function hingeOn(assembly, f2, field) {
  const panel = assembly.panelNamed(f2.panel, `${field}.panel`);
  const { up } = assembly.panels[panel];
  const [[x0, y0], [x1, y1]] = f2.line;
  const line2 = { x0, y0: up * y0, x1, y1: up * y1 };
  if (lengthOf2(line2) < 0.01) throw new CannotBuild("a hinge line of no length", `${field}.line`);
  return { panel, line: line2 };
}
function endsInSpace(poses, hinge, from2, to2) {
  worldPoint(poses, hinge.panel, hinge.line.x0, hinge.line.y0, from2);
  worldPoint(poses, hinge.panel, hinge.line.x1, hinge.line.y1, to2);
}
function addHingeCreases(assembly, label2, ending, through) {
  const endingSide = cardSide(assembly.panels[ending.panel].outline, ending.line) || 1;
  for (const [word3, side2] of [
    ["left", 1],
    ["right", -1]
  ])
    assembly.addCrease(
      {
        name: `${label2} ${word3}`,
        between: [ending.panel, through.panel],
        lines: [ending.line, through.line],
        sides: [endingSide, side2],
        sense: side2
      },
      true
    );
}

// card/src/parts/part.ts
var partKind = (kind) => kind;

// card/src/parts/kinds/cover-flap.ts
var coverFlap = partKind({
  kind: "cover-flap",
  fields: z4.strictObject({
    /** The edge along which it is creased. */
    edge: hingeFields,
    /** How far it reaches over the panel, mm. */
    depth: size()
  }),
  build(partName, f2, assembly) {
    const { panel, line: line2 } = hingeOn(assembly, f2.edge, "edge");
    const [ex, ey] = unit(line2);
    const long = lengthOf2(line2);
    const { piece: piece2, outline, name: name2 } = assembly.panels[panel];
    const side2 = cardSide(outline, line2);
    if (side2 === 0) throw new CannotBuild(`this line is no edge of '${name2}'`, "edge.line");
    const cut = Math.min(f2.depth, 0.2 * long);
    const flap = assembly.addPanel({
      name: partName,
      part: partName,
      piece: piece2,
      gluedTo: panel,
      outline: [0, 0, long, 0, long - cut, f2.depth, cut, f2.depth]
    });
    const lines = [line2, { x0: 0, y0: 0, x1: long, y1: 0 }];
    assembly.addJoint({ kind: "crease", between: [panel, flap], lines, closesLoop: false, of: "fold" });
    assembly.addJoint({ kind: "glue", between: [panel, flap] });
    const onto = [-side2 * ey, side2 * ex];
    assembly.addStep({
      ...parallelStep(partName, flap, panel, [line2.x0, line2.y0], panel, [ex, ey], onto),
      hangsOn: panel
    });
  }
});
var isCoverFlap = ({ joints, panels }, k) => joints.some(
  ({ kind, between: between4 }) => kind === "crease" && between4[1] === k && panels[between4[0]].body === panels[k].body
);

// card/src/parts/open-place.ts
function pointInOpen(assembly, from2, [x, y], to2) {
  const p2 = new Float64Array(3);
  worldPoint(assembly.open, from2, x, y, p2);
  const j = to2 * POSE;
  const q2 = assembly.open;
  const d = [p2[0] - q2[j + 3], p2[1] - q2[j + 7], p2[2] - q2[j + 11]];
  return [
    q2[j] * d[0] + q2[j + 4] * d[1] + q2[j + 8] * d[2],
    q2[j + 1] * d[0] + q2[j + 5] * d[1] + q2[j + 9] * d[2]
  ];
}

// card/src/parts/finish.ts
var CREEP = 1;
function finish(assembly) {
  if (!assembly.chains.isEmpty) assembly.chains.close(assembly);
  cutBackTabs(assembly);
  const creep = assembly.handCut ? 0 : CREEP;
  for (const joint of assembly.joints)
    if (joint.kind === "pivot")
      for (const end of [0, 1])
        mustBeFreeOfGlue(assembly, joint, end, joint.hub.shoulder / 2 + creep);
}
function mustBeFreeOfGlue(assembly, { between: between4, points: points2, part: part2 }, end, radius) {
  const { panels } = assembly;
  const panel = between4[end];
  for (let k = 0; k < panels.length; k++) {
    if (k === panel || between4.includes(k) || panels[k].body !== panels[panel].body) continue;
    if (panels[k].body === k) continue;
    if (isCoverFlap(assembly, k)) continue;
    const away2 = outsideOf(panels[k].outline, pointInOpen(assembly, panel, points2[end], k));
    if (away2 < radius)
      throw new CannotBuild(
        `glue of '${panels[k].name}' lies ${Math.max(0, away2).toFixed(1)} mm from the middle of the hub between '${panels[between4[0]].name}' and '${panels[between4[1]].name}': within ${radius.toFixed(1)} mm it would set the joint`,
        "at",
        false,
        part2
      );
  }
}

// card/src/parts/kinds/counter-fold.ts
import * as z8 from "zod";

// card/src/card/elastica.ts
var eulerLoad = (bend, length2) => (Math.PI / length2) ** 2 * bend;

// card/src/card/bow.ts
var cylinderBowLoad = (bend, length2, width) => eulerLoad(bend * length2, width);
var coneBowLoad = (bend, spread, sector) => bend * spread * Math.max(LEAST_CONE, (Math.PI / sector) ** 2 - 1);
var LEAST_CONE = 0.05;
var coneSpread = (outer, inner) => Math.log(Math.max(outer / inner, Math.E / 2));
var CRUMPLED = 5;
var cylinderBow = (forced, width) => 2 / Math.PI * Math.sqrt(forced * width);
var coneBow = (forced, sector, outer) => outer * Math.sqrt(4 * forced / (sector * Math.max(LEAST_CONE, (Math.PI / sector) ** 2 - 1)));

// card/src/motion/forced.ts
function forcedBy(excess, room) {
  const beyond2 = Math.abs(excess) - Math.max(0, room);
  return beyond2 <= 0 ? 0 : Math.sign(excess) * beyond2;
}
var LOCKS_BEYOND = { mm: 3, radians: Math.PI / 60 };
function yieldsBy(excess, slight) {
  return Math.min(1, Math.max(0, 2 - Math.abs(excess) / slight));
}
var outwardWay = (away2, back, slight) => Math.abs(away2) < EXACT || Math.abs(back) > slight && Math.abs(away2) < Math.abs(back) ? 1 : -1;
var EXACT = 1e-9;

// card/src/card/fold-room.ts
var excessOf = (feet, sides, way) => sides[0] - sides[1] + way * (feet[0] - feet[1]);
function parallelRoom(feet, widths, way) {
  const past = feet[0] + feet[1] + way * (widths[0] + widths[1]);
  const j = excessOf(feet, widths, way) * past >= 0 ? 0 : 1;
  return 2 * feet[j] * Math.abs(feet[j] + way * widths[j]) / widths[j];
}
function vertexRoom(glue2, sectors, way) {
  const past = Math.sin((glue2[0] + glue2[1] + way * (sectors[0] + sectors[1])) / 2);
  const j = excessOf(glue2, sectors, way) * past >= 0 ? 0 : 1;
  return 2 * Math.sin(glue2[j]) * Math.abs(Math.sin(glue2[j] + way * sectors[j])) / Math.sin(sectors[j]);
}

// card/src/motion/spherical.ts
var PARALLEL = 1e-6;
var ROUND_OFF2 = 4e-15;
var sphericalWay = ({ glue: glue2, sectors, points: points2 }) => points2 === "in" ? 1 : outwardWay(excessOf(glue2, sectors, 1), excessOf(glue2, sectors, -1), LOCKS_BEYOND.radians);
function sphericalStep(fold) {
  const [a, b] = fold.on;
  const [first, second] = fold.panels;
  const [[vx, vy]] = fold.vertex;
  const [[lx, ly], [rx, ry]] = fold.direction;
  const { branch, flatSide, reach: reach2 } = fold;
  const [g1, g2] = fold.glue;
  const way = sphericalWay(fold);
  const cosLeast = Math.cos(g1 - g2);
  const excess = excessOf(fold.glue, fold.sectors, way);
  const eases = excess === 0 ? 0 : yieldsBy(excess, LOCKS_BEYOND.radians);
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
      const along3 = Rx * Lx + Ry * Ly + Rz * Lz;
      const h = Math.sqrt(A * A + B * B);
      let p1 = fold.sectors[0];
      let p2 = fold.sectors[1];
      if (eases > 0) {
        const forced = eases * forcedBy(excess, roomy * (cosLeast - along3));
        p1 -= forced / 2;
        p2 += forced / 2;
      }
      const cos1 = Math.cos(p1);
      const sin1 = Math.sin(p1);
      const C = (Math.cos(p2) - cos1 * along3) / sin1;
      const base = h < PARALLEL ? flatSide * Math.PI / 2 : Math.atan2(B, A);
      const ratio2 = h < PARALLEL && Math.abs(C) < PARALLEL ? 0 : C / h;
      const flat = h < PARALLEL ? 1 : 1 - ROUND_OFF2 / h;
      const turn = base + branch * (ratio2 >= flat ? 0 : ratio2 <= -flat ? Math.PI : Math.acos(ratio2));
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
      const [bx, by] = fold.vertex[1];
      const qx = poses[j] * bx + poses[j + 1] * by + poses[j + 3];
      const qy = poses[j + 4] * bx + poses[j + 5] * by + poses[j + 7];
      const qz = poses[j + 8] * bx + poses[j + 9] * by + poses[j + 11];
      const cR = cx * Rx + cy * Ry + cz * Rz;
      let sx = cx - cR * Rx;
      let sy = cy - cR * Ry;
      let sz = cz - cR * Rz;
      const s2 = Math.sqrt(sx * sx + sy * sy + sz * sz);
      sx /= s2;
      sy /= s2;
      sz /= s2;
      writePose(poses, second, qx, qy, qz, Rx, Ry, Rz, -sx, -sy, -sz);
      const angleFromR = Math.atan2(s2, cR);
      const gap2 = Math.abs(angleFromR - fold.sectors[1]) + Math.abs(p1 - fold.sectors[0]);
      misfits[fold.misfit] = gap2 < 1e-7 ? 0 : 2 * Math.sin(gap2 / 2) * reach2;
    }
  };
}
function counterStep(fold) {
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
      const k = 2 * (Ex * sx + Ey * sy + Ez * sz) / (sx * sx + sy * sy + sz * sz);
      const mx = k * sx - Ex;
      const my = k * sy - Ey;
      const mz = k * sz - Ez;
      const ox = poses[i] * vx + poses[i + 1] * vy + poses[i + 3];
      const oy = poses[i + 4] * vx + poses[i + 5] * vy + poses[i + 7];
      const oz = poses[i + 8] * vx + poses[i + 9] * vy + poses[i + 11];
      const ax = mx - cosA * Lx;
      const ay = my - cosA * Ly;
      const az = mz - cosA * Lz;
      const along3 = ax * Lx + ay * Ly + az * Lz;
      writeSquare(poses, first, ox, oy, oz, Lx, Ly, Lz, ax - along3 * Lx, ay - along3 * Ly, az - along3 * Lz);
      const px = poses[j] * bx + poses[j + 1] * by + poses[j + 3];
      const py = poses[j + 4] * bx + poses[j + 5] * by + poses[j + 7];
      const pz = poses[j + 8] * bx + poses[j + 9] * by + poses[j + 11];
      const mR = mx * Rx + my * Ry + mz * Rz;
      writeSquare(poses, second, px, py, pz, Rx, Ry, Rz, mR * Rx - mx, mR * Ry - my, mR * Rz - mz);
    }
  };
}
function writeSquare(poses, k, ox, oy, oz, ax, ay, az, bx, by, bz) {
  const long = Math.sqrt(bx * bx + by * by + bz * bz);
  writePose(poses, k, ox, oy, oz, ax, ay, az, bx / long, by / long, bz / long);
}

// card/src/parts/outline.ts
import * as z5 from "zod";

// card/src/geometry/faults.ts
var TOUCHING = 1e-6;
var MEETS_ITSELF = "the outline meets itself";
function faultOf(shape) {
  const rings = [shape.outline, ...shape.holes];
  for (const ring of rings) {
    const fault2 = faultOfRing(ring);
    if (fault2) return fault2;
  }
  const fault = faultOfMeeting(rings.flatMap(edgesOf2), shape.outline);
  if (fault) return fault;
  for (const hole of shape.holes) {
    const fault2 = faultOfPlace(shape, hole);
    if (fault2) return fault2;
  }
  return void 0;
}
function faultOfHole(shape, hole) {
  const fault = faultOfRing(hole);
  if (fault) return fault;
  const own = edgesOf2(hole);
  const [left, right2] = [Math.min(...own.map((e) => e.left)), Math.max(...own.map((e) => e.right))];
  const [low, high] = [Math.min(...own.map((e) => e.low)), Math.max(...own.map((e) => e.high))];
  const near = [shape.outline, ...shape.holes].flatMap(edgesOf2).filter((edge) => reach(edge, { left, right: right2, low, high }));
  return faultOfMeeting([...near, ...own], shape.outline) ?? faultOfPlace(shape, hole);
}
function faultOfRing(ring) {
  const n2 = ring.length / 2;
  for (let i = 0; i < ring.length; i++) {
    if (!Number.isFinite(ring[i]))
      return { x: 0, y: 0, why: `corner ${Math.floor(i / 2) + 1} is not a number` };
  }
  if (n2 < 3) return { x: ring[0] ?? 0, y: ring[1] ?? 0, why: "fewer than three corners" };
  for (let i = 0; i < n2; i++) {
    const [x, y, dx, dy] = edgeOf(ring, i);
    if (Math.hypot(dx, dy) < TOUCHING) return { x, y, why: "an edge of no length" };
  }
  for (let i = 0; i < n2; i++) {
    const j = (i + 1) % n2;
    const [x, y] = [ring[2 * j], ring[2 * j + 1]];
    const k = (j + 1) % n2;
    const back = gap(ring[2 * k], ring[2 * k + 1], ring, i) < TOUCHING || gap(ring[2 * i], ring[2 * i + 1], ring, j) < TOUCHING;
    if (back) return { x, y, why: "an edge folds back on the one before" };
  }
  return void 0;
}
function faultOfPlace({ outline, holes }, hole) {
  const [x, y] = hole;
  if (!holds({ outline, holes: [] }, x, y)) return { x, y, why: "a hole lies outside the outline" };
  for (const other of holes) {
    if (other === hole) continue;
    if (holds({ outline: other, holes: [] }, x, y)) return { x, y, why: "a hole lies in another" };
    if (holds({ outline: hole, holes: [] }, other[0], other[1]))
      return { x: other[0], y: other[1], why: "a hole lies in another" };
  }
  return void 0;
}
function edgesOf2(ring) {
  return Array.from({ length: ring.length / 2 }, (_, i) => {
    const [x, y, dx, dy] = edgeOf(ring, i);
    return {
      ring,
      i,
      x,
      y,
      dx,
      dy,
      left: Math.min(x, x + dx),
      right: Math.max(x, x + dx),
      low: Math.min(y, y + dy),
      high: Math.max(y, y + dy)
    };
  });
}
var reach = (a, b) => b.left <= a.right + TOUCHING && a.left <= b.right + TOUCHING && b.low <= a.high + TOUCHING && a.low <= b.high + TOUCHING;
function faultOfMeeting(edges2, outline) {
  edges2.sort((a, b) => a.left - b.left);
  for (let k = 0; k < edges2.length; k++) {
    const a = edges2[k];
    for (let m2 = k + 1; m2 < edges2.length && edges2[m2].left <= a.right + TOUCHING; m2++) {
      const b = edges2[m2];
      if (!reach(a, b) || areNeighbours(a, b) || lieApart(a, b) || lieApart(b, a)) continue;
      const at = meeting(a.ring, a.i, b.ring, b.i);
      if (at === void 0) continue;
      const [x, y] = at;
      if (a.ring === b.ring) return { x, y, why: MEETS_ITSELF };
      return {
        x,
        y,
        why: a.ring === outline || b.ring === outline ? "a hole meets the outline" : "two holes meet"
      };
    }
  }
  return void 0;
}
function areNeighbours(a, b) {
  if (a.ring !== b.ring) return false;
  const steps = Math.abs(a.i - b.i);
  return steps === 1 || steps === a.ring.length / 2 - 1;
}
function lieApart(a, b) {
  const from2 = a.dx * (b.y - a.y) - a.dy * (b.x - a.x);
  const to2 = from2 + a.dx * b.dy - a.dy * b.dx;
  const clear = TOUCHING * Math.sqrt(a.dx * a.dx + a.dy * a.dy);
  return Math.min(from2, to2) > clear || Math.max(from2, to2) < -clear;
}
function meeting(a, i, b, j) {
  const ends3 = [
    [a, i, b, j],
    [a, i + 1, b, j],
    [b, j, a, i],
    [b, j + 1, a, i]
  ];
  for (const [ring, corner2, other, edge] of ends3) {
    const c = 2 * corner2 % ring.length;
    if (gap(ring[c], ring[c + 1], other, edge) < TOUCHING) return [ring[c], ring[c + 1]];
  }
  const [px, py, ux, uy] = edgeOf(a, i);
  const [qx, qy, vx, vy] = edgeOf(b, j);
  const turn = ux * vy - uy * vx;
  if (turn === 0) return void 0;
  const s2 = ((qx - px) * vy - (qy - py) * vx) / turn;
  const t2 = ((qx - px) * uy - (qy - py) * ux) / turn;
  return s2 >= 0 && s2 <= 1 && t2 >= 0 && t2 <= 1 ? [px + s2 * ux, py + s2 * uy] : void 0;
}
function gap(x, y, ring, i) {
  const [px, py, ux, uy] = edgeOf(ring, i);
  const along3 = ((x - px) * ux + (y - py) * uy) / (ux * ux + uy * uy);
  const s2 = Math.min(1, Math.max(0, along3));
  return Math.hypot(x - px - s2 * ux, y - py - s2 * uy);
}
function edgeOf(ring, i) {
  const from2 = 2 * i;
  const to2 = (from2 + 2) % ring.length;
  return [ring[from2], ring[from2 + 1], ring[to2] - ring[from2], ring[to2 + 1] - ring[from2 + 1]];
}

// card/src/parts/outline.ts
var polygon = () => z5.array(point()).min(3);
var outlineFields = z5.strictObject({
  polygon: polygon(),
  holes: z5.array(polygon()).optional()
});
var outlineOfEach = z5.strictObject({ left: outlineFields.optional(), right: outlineFields.optional() }).optional();
function points(drawn, up = 1) {
  return drawn.flatMap(([x, y]) => [x, up * y]);
}
function outlineFault({ polygon: polygon2, holes = [] }) {
  const ring = (drawn) => numbers(points(drawn));
  const fault = faultOf({ outline: ring(polygon2), holes: holes.map(ring) });
  return fault && `no shape of card at ${fault.x.toFixed(2)}, ${fault.y.toFixed(2)}: ${fault.why}`;
}
function shapeOf(drawn, standard, up = 1) {
  const fault = drawn === void 0 || Object.isFrozen(drawn) ? void 0 : outlineFault(drawn);
  if (fault !== void 0) throw new CannotBuild(`its outline is ${fault}`, "outline");
  return {
    outline: counterClockwise(numbers(points(drawn?.polygon ?? standard, up))),
    holes: (drawn?.holes ?? []).map((hole) => numbers(points(hole, up))),
    up
  };
}
function cutHole(panel, hole, what, field) {
  const fault = faultOfHole(panel, hole);
  if (fault !== void 0)
    throw new CannotBuild(
      `the ${what} cannot be cut out of '${panel.name}' at ${fault.x.toFixed(2)}, ${(panel.up * fault.y).toFixed(2)}: ${fault.why}`,
      field
    );
  panel.holes.push(hole);
}

// card/src/parts/tab.ts
import * as z6 from "zod";
var tabFields = z6.strictObject({
  /** Width across, mm. */
  width: size().prefault(8),
  /** On which side of the glue line: towards the parent's crease (inner) or away from it. */
  side: word("inner", "outer").prefault("inner"),
  /** Angle at which its ends are cut, from the crease, degrees: 90 is square. */
  mitre: angle(15, 90).prefault(45)
}).prefault({});
function addTab(assembly, tab, fields3) {
  const { line: line2, receiver } = tab;
  const [ex, ey] = unit(line2);
  const long = lengthOf2(line2);
  const cut = Math.min(fields3.width / Math.tan(fields3.mitre * Math.PI / 180), 0.4 * long);
  const way = fields3.side === "inner" ? fields3.width : -fields3.width;
  const nx = tab.inner[0] * way;
  const ny = tab.inner[1] * way;
  const panel = assembly.addPanel({
    name: tab.name,
    part: tab.part,
    piece: tab.piece,
    role: "tab",
    gluedTo: receiver,
    outline: [
      line2.x0,
      line2.y0,
      line2.x1,
      line2.y1,
      line2.x1 - ex * cut + nx,
      line2.y1 - ey * cut + ny,
      line2.x0 + ex * cut + nx,
      line2.y0 + ey * cut + ny
    ]
  });
  assembly.addJoint({ kind: "glue", between: [receiver, panel] });
  assembly.addStep({ part: tab.part, hangsOn: receiver, place: (poses) => copyPose(poses, receiver, panel) });
  return assembly.addJoint({
    kind: "crease",
    between: [panel, tab.panel],
    lines: [line2, tab.panelLine],
    closesLoop: false,
    of: "foot"
  });
}

// card/src/parts/spherical-pair.ts
var RADIANS = Math.PI / 180;
function addSphericalPair(assembly, pair) {
  const { name: name2, stance, sectors, start, ridge } = pair;
  const branch = pair.points === "in" ? -stance.sense : stance.sense;
  const receivers = [stance.footings[0].panel, stance.footings[1].panel];
  const directions = [
    fromCrease(stance.footings[0], pair.glue[0]),
    fromCrease(stance.footings[1], pair.glue[1])
  ];
  const ups = [1, -1];
  const words = ["left", "right"];
  const panels = words.map((word3, i) => {
    const p2 = sectors[i];
    const foot2 = pair.feet[i];
    const standard = [
      [foot2, 0],
      [ridge * Math.cos(p2), ridge * Math.sin(p2)]
    ];
    if (start > 0) standard.push([start * Math.cos(p2), start * Math.sin(p2)], [start, 0]);
    else standard.push([0, 0]);
    return assembly.addPanel({
      name: `${name2} ${word3}`,
      part: name2,
      piece: pair.piece,
      ...shapeOf(pair.outlines?.[word3], standard, ups[i])
    });
  });
  const common = {
    part: name2,
    on: receivers,
    panels,
    vertex: [stance.footings[0].at, stance.footings[1].at],
    direction: directions
  };
  if (pair.joined === "same sheet")
    assembly.addStep(counterStep({ ...common, crease: stance.footings[0].along, diagonal: pair.glue[0] }));
  else {
    const fold = {
      ...common,
      glue: pair.glue,
      sectors,
      branch,
      points: pair.points,
      flatSide: stance.flatSide,
      reach: ridge,
      misfit: assembly.addMisfit({
        part: name2,
        of: "forced",
        joint: "ridge",
        panels: panels.map((panel) => assembly.panels[panel].name),
        locksBeyond: 2 * Math.sin(LOCKS_BEYOND.radians / 2) * ridge
      })
    };
    assembly.addStep(sphericalStep(fold));
    assembly.folds.push({
      part: name2,
      piece: pair.piece,
      on: receivers,
      panels,
      feet: pair.glue,
      sides: sectors,
      way: sphericalWay(fold),
      vertex: true,
      marks: directions,
      along: stance.footings[0].along,
      length: (pair.feet[0] + pair.feet[1] + 2 * ridge) / 4,
      inner: Math.max(start, CRUMPLED)
    });
  }
  words.forEach((word3, i) => {
    const footing = stance.footings[i];
    const receiverLine = lineBetween(
      moved(footing.at, directions[i], start),
      moved(footing.at, directions[i], pair.feet[i])
    );
    const panelLine = { x0: start, y0: 0, x1: pair.feet[i], y1: 0 };
    const inner = squareTo(footing.along, directions[i]);
    const foot2 = {
      receiver: receivers[i],
      panel: panels[i],
      line: receiverLine,
      panelLine,
      inner
    };
    if (pair.joined === "same sheet")
      assembly.addJoint({
        kind: "crease",
        between: [receivers[i], panels[i]],
        lines: [receiverLine, panelLine],
        closesLoop: false,
        of: "fold"
      });
    else
      addTab(
        assembly,
        { ...foot2, name: `${name2} ${word3} tab`, part: name2, piece: pair.piece },
        pair.joined.tab
      );
    const flatSide = i === 0 ? stance.flatSide : stance.otherFlatSide;
    addFootCreases(assembly, {
      name: `${name2} ${word3} foot`,
      receiver: foot2.receiver,
      panel: foot2.panel,
      lines: [receiverLine, panelLine],
      inner,
      faceSide: pair.points === "in" ? flatSide : -flatSide,
      panelSide: ups[i]
    });
  });
  const ridgeLines = ups.map((up, i) => ({
    x0: start * Math.cos(sectors[i]),
    y0: up * start * Math.sin(sectors[i]),
    x1: ridge * Math.cos(sectors[i]),
    y1: up * ridge * Math.sin(sectors[i])
  }));
  assembly.addJoint({
    kind: "crease",
    between: panels,
    lines: ridgeLines,
    closesLoop: true,
    of: "fold"
  });
  assembly.addCrease({
    name: `${name2} ridge`,
    between: panels,
    lines: ridgeLines,
    sides: [-1, 1],
    sense: branch
  });
}
function squareTo(direction, line2) {
  const along3 = direction[0] * line2[0] + direction[1] * line2[1];
  const x = direction[0] - along3 * line2[0];
  const y = direction[1] - along3 * line2[1];
  const length2 = Math.hypot(x, y);
  if (length2 < 1e-9)
    throw new CannotBuild("a glue line along the crease itself leaves no room for a panel", "glue");
  return [x / length2, y / length2];
}

// card/src/parts/kinds/v-fold.ts
import * as z7 from "zod";

// card/src/parts/close-on.ts
function secondFootClosedOn(drawn, cut, way) {
  const meant = excessOf(drawn.feet, drawn.sides, way);
  const free = excessOf([cut.feet[0], drawn.feet[1]], cut.sides, way);
  return cut.feet[1] + way * (free - meant);
}

// card/src/parts/kinds/v-fold.ts
var vFold = partKind({
  kind: "v-fold",
  fields: z7.strictObject({
    /** The crease it stands over. */
    on: name().prefault("gutter"),
    /** Its apex: mm along the crease from the crease's start. May lie beyond the crease's ends if `start` cuts card away. */
    at: place(),
    /** Which way along the crease the glue angles are measured. */
    toward: word("end", "start").prefault("end"),
    /** Angles of the two glue lines from the crease, degrees. */
    glue: z7.tuple([angle(0.5, 179.5), angle(0.5, 179.5)]),
    /** Angles at the apex between glue line and ridge, degrees. */
    panels: z7.tuple([angle(0.5, 179.5), angle(0.5, 179.5)]),
    /** Into the fold's angle or out of it. */
    points: word("in", "out").prefault("in"),
    /** Card along each glue line, mm from the apex. */
    feet: z7.tuple([size(), size()]),
    /** Card along the ridge, mm from the apex. */
    ridge: size(),
    /** Card begins this far from the apex, mm. */
    start: length().prefault(0),
    outlines: outlineOfEach,
    tab: tabFields,
    glued: gluedField(),
    /** The piece it is cut with; its own name if not given. */
    piece: piece().optional()
  }),
  build(partName, f2, assembly) {
    const crease = assembly.creaseNamed(f2.on, "on");
    if (f2.start === 0) mustLieOnCrease(assembly, crease, f2.at, "at", "its apex");
    for (const [i, foot2] of f2.feet.entries())
      if (foot2 <= f2.start)
        throw new CannotBuild(`its foot ends at ${foot2.toFixed(2)} mm, where its card begins`, `feet.${i}`);
    if (f2.ridge <= f2.start)
      throw new CannotBuild(`its ridge ends at ${f2.ridge.toFixed(2)} mm, where its card begins`, "ridge");
    addSphericalPair(assembly, {
      name: partName,
      piece: f2.piece ?? partName,
      stance: takeStance(crease, f2.at, f2.toward),
      glue: [f2.glue[0] * RADIANS, f2.glue[1] * RADIANS],
      sectors: [f2.panels[0] * RADIANS, f2.panels[1] * RADIANS],
      points: f2.points,
      feet: f2.feet,
      ridge: f2.ridge,
      start: f2.start,
      outlines: f2.outlines,
      joined: { tab: f2.tab }
    });
  },
  byHand: {
    closing: {
      field: ({ glued }) => glued === "by measure" ? null : "glue.1",
      settle(drawn, cut) {
        const way = drawn.points === "in" ? 1 : -1;
        const of = ({ glue: glue2, panels }) => ({ feet: glue2, sides: panels });
        const foot2 = secondFootClosedOn(of(drawn), of(cut), way);
        return { ...cut, glue: [cut.glue[0], Math.min(179.5, Math.max(0.5, foot2))] };
      }
    },
    edges: (partName, { start, feet, ridge, panels }) => ["left", "right"].map((side2, i) => {
      const [c, s2] = [Math.cos(panels[i] * RADIANS), Math.sin(panels[i] * RADIANS)];
      const foot2 = [
        [start, 0],
        [feet[i], 0]
      ];
      const upRidge = [
        [start * c, start * s2],
        [ridge * c, ridge * s2]
      ];
      return { field: `outlines.${side2}`, panel: `${partName} ${side2}`, creases: [foot2, upRidge] };
    })
  }
});

// card/src/parts/kinds/counter-fold.ts
var fields = z8.strictObject({
  /** The crease it sits on. */
  on: name(),
  /** Where the diagonals meet: mm along the crease from the crease's start. */
  at: length(),
  /** Which way along the crease the triangles point. */
  toward: word("end", "start").prefault("end"),
  /** Angle between the crease and each diagonal, degrees. */
  diagonal: angle(1, 89),
  /** Length along each diagonal, and along the moving crease, mm. */
  side: size(),
  length: size(),
  /** Into the angle between the two panels, or out of it. */
  fold: word("in", "out").prefault("in"),
  /** Angle of each triangle where the diagonals meet, degrees; as the diagonal if not given. */
  triangle: angle(1, 179).optional(),
  tab: tabFields
});
var counterFold = partKind({
  kind: "counter-fold",
  fields,
  build(partName, f2, assembly) {
    const crease = assembly.creaseNamed(f2.on, "on");
    const way = f2.toward === "end" ? 1 : -1;
    mustLieOnCrease(assembly, crease, f2.at, "at", "it");
    const triangle = f2.triangle ?? f2.diagonal;
    if (f2.fold === "out" && triangle <= f2.diagonal)
      throw new CannotBuild(
        `folded out, a triangle of ${triangle.toFixed(1)}\xB0 on a diagonal of ${f2.diagonal.toFixed(1)}\xB0 lies still along the crease; give a wider triangle`,
        f2.triangle === void 0 ? "fold" : "triangle"
      );
    const sameSheet = isSameSheet(f2, assembly);
    if (sameSheet) cutFree(assembly, crease, f2.at, way * f2.length, f2.diagonal * RADIANS, f2.side);
    addSphericalPair(assembly, {
      name: partName,
      piece: sameSheet ? assembly.panels[crease.between[0]].piece : partName,
      stance: takeStance(crease, f2.at, f2.toward),
      glue: [f2.diagonal * RADIANS, f2.diagonal * RADIANS],
      sectors: [triangle * RADIANS, triangle * RADIANS],
      points: f2.fold,
      feet: [f2.side, f2.side],
      ridge: f2.length,
      start: 0,
      joined: sameSheet ? "same sheet" : { tab: f2.tab }
    });
  },
  byHand: {
    /**
     * Cut from its parents' sheet, it is slit and creased through both layers with the sheet folded, so that its two
     * sides err as one (common practice, no source). Of a piece of its own all four angles and both feet err apart.
     */
    drawn(f2, assembly) {
      if (isSameSheet(f2, assembly)) return { fields: { ...f2, triangle: void 0 }, exact: ["tab"] };
      const { on, at, toward, diagonal, side: side2, length: ridge, fold, tab } = f2;
      const triangle = f2.triangle ?? diagonal;
      return {
        kind: vFold,
        fields: {
          on,
          at,
          toward,
          glue: [diagonal, diagonal],
          panels: [triangle, triangle],
          points: fold,
          feet: [side2, side2],
          ridge,
          tab
        },
        words: { glue: "diagonal", panels: "triangle", feet: "side", ridge: "length" }
      };
    }
  }
});
function isSameSheet(f2, assembly) {
  const [first, second] = assembly.creaseNamed(f2.on, "on").between.map((k) => assembly.panels[k].piece);
  return f2.fold === "in" && (f2.triangle ?? f2.diagonal) === f2.diagonal && first === second;
}
function cutFree(assembly, crease, at, reach2, diagonal, side2) {
  mustLieOnCrease(assembly, crease, at + reach2, "length", "its far end");
  const long = lengthOf2(crease.lines[0]);
  const [vertex, end] = [at, at + reach2].map((place3) => Math.min(long, Math.max(0, place3)));
  const stance = takeStance(crease, vertex, reach2 > 0 ? "end" : "start");
  for (const footing of stance.footings) {
    const panel = assembly.panels[footing.panel];
    const corner2 = moved(footing.at, fromCrease(footing, diagonal), side2);
    if (!holds(panel, corner2[0], corner2[1]))
      throw new CannotBuild(`the end of its diagonal lies off the card of '${panel.name}'`, "side");
    const notched = notch(
      panel.outline,
      footing.at,
      corner2,
      moved(footing.at, footing.along, Math.abs(end - vertex))
    );
    if (notched === null)
      throw new CannotBuild(
        `'${panel.name}' has no straight edge of card along '${crease.name}' there`,
        "at"
      );
    panel.outline = notched;
  }
  interrupt(assembly, crease, Math.min(vertex, end), Math.max(vertex, end));
}
var SAME_PLACE = 1e-6;
function notch(outline, vertex, corner2, end) {
  const n2 = outline.length / 2;
  for (let i = 0; i < n2; i++) {
    const j = (i + 1) % n2;
    const [x0, y0, x1, y1] = [outline[2 * i], outline[2 * i + 1], outline[2 * j], outline[2 * j + 1]];
    const long = Math.hypot(x1 - x0, y1 - y0);
    if (long < SAME_PLACE) continue;
    const along3 = ([x, y]) => ((x - x0) * (x1 - x0) + (y - y0) * (y1 - y0)) / long;
    const off = ([x, y]) => ((x - x0) * (y1 - y0) - (y - y0) * (x1 - x0)) / long;
    const v = along3(vertex);
    const e = along3(end);
    if (Math.abs(off(vertex)) > SAME_PLACE || Math.abs(off(end)) > SAME_PLACE) continue;
    if (Math.min(v, e) < -SAME_PLACE || Math.max(v, e) > long + SAME_PLACE) continue;
    const inserted = v < e ? [vertex, corner2, end] : [end, corner2, vertex];
    const ring = [];
    for (let k = 0; k < n2; k++) {
      ring.push(outline[2 * k], outline[2 * k + 1]);
      if (k === i) for (const [x, y] of inserted) ring.push(x, y);
    }
    return withoutRepeats(ring);
  }
  return null;
}
function withoutRepeats(ring) {
  const out = [];
  const n2 = ring.length / 2;
  for (let i = 0; i < n2; i++) {
    const j = (i + 1) % n2;
    if (Math.hypot(ring[2 * i] - ring[2 * j], ring[2 * i + 1] - ring[2 * j + 1]) > SAME_PLACE)
      out.push(ring[2 * i], ring[2 * i + 1]);
  }
  return numbers(out);
}
function interrupt(assembly, crease, from2, to2) {
  let left = 0;
  const joints = assembly.joints.flatMap((joint) => {
    const held = joint.kind === "crease" ? stretchOf(assembly, crease, joint) : null;
    if (joint.kind !== "crease" || held === null) return [joint];
    const [start, end] = held;
    const rest = [
      [start, Math.min(from2, end)],
      [Math.max(to2, start), end]
    ].filter(([a, b]) => b - a > 0.01);
    left += rest.length;
    return rest.map(([a, b]) => ({
      ...joint,
      lines: [part(joint.lines[0], a - start, b - start), part(joint.lines[1], a - start, b - start)]
    }));
  });
  if (left === 0)
    throw new CannotBuild(
      "it takes up the whole crease, and nothing is left to hold the two panels together",
      "length"
    );
  assembly.joints.splice(0, assembly.joints.length, ...joints);
}
function stretchOf({ panels }, { between: between4, lines }, joint) {
  const bodies = between4.map((k) => panels[k].body);
  if (!joint.between.every((k) => bodies.includes(panels[k].body))) return null;
  const end = joint.between.findIndex((k) => between4.includes(k));
  if (end < 0) return null;
  const line2 = lines[between4.indexOf(joint.between[end])];
  const [ex, ey] = unit(line2);
  const { x0, y0, x1, y1 } = joint.lines[end];
  const along3 = (x, y) => (x - line2.x0) * ex + (y - line2.y0) * ey;
  const off = (x, y) => Math.abs((x - line2.x0) * ey - (y - line2.y0) * ex);
  return Math.max(off(x0, y0), off(x1, y1)) > SAME_PLACE ? null : [along3(x0, y0), along3(x1, y1)];
}
function part(line2, from2, to2) {
  const [ex, ey] = unit(line2);
  return { x0: line2.x0 + from2 * ex, y0: line2.y0 + from2 * ey, x1: line2.x0 + to2 * ex, y1: line2.y0 + to2 * ey };
}

// card/src/parts/kinds/glued-end.ts
import * as z9 from "zod";

// card/src/parts/chain-end.ts
function endAlong(assembly, index, line2, field) {
  const panel = assembly.panels[index];
  const [ex, ey] = unit(line2);
  const side2 = cardSide(panel.outline, line2) || 1;
  const height = (x, y) => {
    const h = side2 * (ex * (y - line2.y0) - ey * (x - line2.x0));
    return Math.abs(h) < TOUCHING ? 0 : h;
  };
  const ring = panel.outline;
  const kept = [];
  for (let i = 0; i < ring.length; i += 2) {
    const j = (i + 2) % ring.length;
    const [hi, hj] = [height(ring[i], ring[i + 1]), height(ring[j], ring[j + 1])];
    if (hi >= 0) kept.push(ring[i], ring[i + 1]);
    if (hi * hj < 0) {
      const t2 = hi / (hi - hj);
      kept.push(ring[i] + t2 * (ring[j] - ring[i]), ring[i + 1] + t2 * (ring[j + 1] - ring[i + 1]));
    }
  }
  if (kept.length < 6) throw new CannotBuild(`no card of '${panel.name}' is left there`, field);
  const holes = panel.holes.filter((hole) => hole.some((x, i) => i % 2 === 0 && height(x, hole[i + 1]) > 0));
  const outline = numbers(kept);
  if (faultOf({ outline, holes }) !== void 0)
    throw new CannotBuild(
      `'${panel.name}' does not end there in one straight cut: it falls apart, or a hole is cut open`,
      field
    );
  panel.outline = outline;
  panel.holes = holes;
}

// card/src/parts/kinds/glued-end.ts
var gluedEnd = partKind({
  kind: "glued-end",
  fields: z9.strictObject({
    /** The link, and the line on it where it ends and is creased. */
    end: hingeFields,
    /** The panel that it is glued to, and where the line lies on it; where that is in the open figure, if not given. */
    to: name(),
    meets: z9.tuple([point(), point()]).optional(),
    tab: tabFields
  }),
  build(partName, f2, assembly) {
    const end = hingeOn(assembly, f2.end, "end");
    const to2 = assembly.panelNamed(f2.to, "to");
    if (!assembly.chains.holds(end.panel))
      throw new CannotBuild(
        "only a link ends so; other parts have glue tabs of their own",
        "end.panel",
        true
      );
    const { line: line2 } = end;
    endAlong(assembly, end.panel, line2, "end.line");
    const { up } = assembly.panels[to2];
    const place3 = f2.meets === void 0 ? inOpen(assembly, end, to2) : lineBetween([f2.meets[0][0], up * f2.meets[0][1]], [f2.meets[1][0], up * f2.meets[1][1]]);
    if (lengthOf2(place3) < 0.01) throw new CannotBuild("a line of no length to glue it along", "meets");
    const [ex, ey] = unit(place3);
    const { piece: piece2 } = assembly.panels[end.panel];
    const index = addTab(
      assembly,
      {
        name: `${partName} tab`,
        part: partName,
        piece: piece2,
        receiver: to2,
        panel: end.panel,
        line: place3,
        panelLine: line2,
        inner: [-ey, ex]
      },
      f2.tab
    );
    const joint = assembly.joints[index];
    if (joint.kind === "crease") joint.closesLoop = true;
    assembly.chains.addJoint(
      {
        kind: "crease",
        a: end.panel,
        b: to2,
        lineA: [
          [line2.x0, line2.y0],
          [line2.x1, line2.y1]
        ],
        lineB: [
          [place3.x0, place3.y0],
          [place3.x1, place3.y1]
        ]
      },
      partName,
      assembly.steps.length
    );
  },
  byHand: {
    drawn(f2, assembly) {
      if (f2.meets !== void 0) return { fields: f2 };
      const to2 = assembly.panelNamed(f2.to, "to");
      const { up } = assembly.panels[to2];
      const { x0, y0, x1, y1 } = inOpen(assembly, hingeOn(assembly, f2.end, "end"), to2);
      return {
        fields: {
          ...f2,
          meets: [
            [x0, up * y0],
            [x1, up * y1]
          ]
        }
      };
    }
  }
});
function inOpen(assembly, { panel, line: line2 }, to2) {
  return lineBetween(
    pointInOpen(assembly, panel, [line2.x0, line2.y0], to2),
    pointInOpen(assembly, panel, [line2.x1, line2.y1], to2)
  );
}

// card/src/parts/kinds/glued-piece.ts
import * as z10 from "zod";
var gluedPiece = partKind({
  kind: "glued-piece",
  fields: z10.strictObject({
    /** The panel it is glued on. */
    on: name(),
    /** Where its own (0, 0) lies on that panel: [along the foot, up from the foot], mm. */
    at: point(),
    /** How far it is turned from the panel's foot, towards up, degrees. */
    turn: angle().prefault(0),
    outline: outlineFields,
    piece: piece().optional()
  }),
  build(partName, f2, assembly) {
    const on = assembly.panelNamed(f2.on, "on");
    const { up } = assembly.panels[on];
    const panel = assembly.addPanel({
      name: partName,
      part: partName,
      piece: f2.piece ?? partName,
      gluedTo: on,
      ...shapeOf(f2.outline, [], up)
    });
    assembly.addJoint({ kind: "glue", between: [on, panel] });
    assembly.addStep(fixedStep(partName, panel, on, [f2.at[0], up * f2.at[1]], up * f2.turn * RADIANS));
  },
  byHand: { edges: (partName) => [{ field: "outline", panel: partName, creases: [] }] }
});

// card/src/parts/kinds/link.ts
import * as z11 from "zod";
var link = partKind({
  kind: "link",
  fields: z11.strictObject({
    /** The panel on whose plane it is drawn. */
    on: name().prefault("left page"),
    /** The middles of its two ends on that panel, mm: its own (0, 0), and the way that its x runs. */
    from: point(),
    to: point(),
    width: size(),
    /** Instead of a strip with blunted ends. */
    outline: outlineFields.optional(),
    piece: piece().optional()
  }),
  build(partName, f2, assembly) {
    const on = assembly.panelNamed(f2.on, "on");
    const { up } = assembly.panels[on];
    const [x0, y0] = f2.from;
    const [dx, dy] = [f2.to[0] - x0, up * (f2.to[1] - y0)];
    const long = Math.hypot(dx, dy);
    if (long < 0.01) throw new CannotBuild("it has no length: its two ends are one point", "to");
    const panel = assembly.addPanel({
      name: partName,
      part: partName,
      piece: f2.piece ?? partName,
      ...shapeOf(f2.outline, strip(long, f2.width / 2))
    });
    fixedStep(partName, panel, on, [x0, up * y0], Math.atan2(dy, dx)).place(
      assembly.open,
      assembly.openMisfits
    );
    assembly.chains.addPanel(panel, partName);
  },
  byHand: {
    exact: ["from", "to"],
    edges: (partName) => [{ field: "outline", panel: partName, creases: [] }]
  }
});
function strip(long, half) {
  const cut = half * Math.tan(Math.PI / 8);
  return [
    [-half, -cut],
    [-cut, -half],
    [long + cut, -half],
    [long + half, -cut],
    [long + half, cut],
    [long + cut, half],
    [-cut, half],
    [-half, cut]
  ];
}

// card/src/parts/kinds/parallel-fold.ts
import * as z12 from "zod";

// card/src/motion/planar.ts
var SAME_PLACE2 = 1e-5;
var ROUND_OFF3 = 4e-15;
var planarWay = ({ distances, widths, points: points2 }) => points2 === "in" ? 1 : outwardWay(excessOf(distances, widths, 1), excessOf(distances, widths, -1), LOCKS_BEYOND.mm);
function planarStep(fold) {
  const [a, b] = fold.on;
  const [first, second] = fold.panels;
  const [[ax, ay], [bx, by]] = fold.foot;
  const [[ex, ey]] = fold.direction;
  const { branch, flatSide } = fold;
  const [d1, d2] = fold.distances;
  const way = planarWay(fold);
  const excess = excessOf(fold.distances, fold.widths, way);
  const eases = excess === 0 ? 0 : yieldsBy(excess, LOCKS_BEYOND.mm);
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
      let dx = Bx - Ax;
      let dy = By - Ay;
      let dz = Bz - Az;
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
      let t2;
      if (D < SAME_PLACE2) {
        dx = flatSide * poses[i + 2];
        dy = flatSide * poses[i + 6];
        dz = flatSide * poses[i + 10];
        t2 = Math.abs(w1 - w2) < SAME_PLACE2 ? 0 : w1 > w2 ? w1 : -w1;
      } else {
        dx /= D;
        dy /= D;
        dz /= D;
        t2 = (D * D + w1 * w1 - w2 * w2) / (2 * D);
      }
      const lack = D > w1 + w2 ? D - w1 - w2 : D < Math.abs(w1 - w2) ? Math.abs(w1 - w2) - D : 0;
      const gap2 = lack + Math.abs(forced);
      misfits[fold.misfit] = gap2 < 1e-7 ? 0 : gap2;
      const flat = D < SAME_PLACE2 ? w1 : w1 - ROUND_OFF3 * w1 * w1 / D;
      if (t2 >= flat) t2 = w1;
      else if (t2 <= -flat) t2 = -w1;
      const h = branch * Math.sqrt(w1 * w1 - t2 * t2);
      const yx = dy * Ez - dz * Ey;
      const yy = dz * Ex - dx * Ez;
      const yz = dx * Ey - dy * Ex;
      const Px = t2 * dx + h * yx;
      const Py = t2 * dy + h * yy;
      const Pz = t2 * dz + h * yz;
      writePose(poses, first, Ax, Ay, Az, Ex, Ey, Ez, Px / w1, Py / w1, Pz / w1);
      let qx = Px - D * dx;
      let qy = Py - D * dy;
      let qz = Pz - D * dz;
      const q2 = Math.sqrt(qx * qx + qy * qy + qz * qz);
      if (q2 < SAME_PLACE2) {
        qx = yx * branch;
        qy = yy * branch;
        qz = yz * branch;
      } else {
        qx /= q2;
        qy /= q2;
        qz /= q2;
      }
      writePose(poses, second, Bx, By, Bz, Ex, Ey, Ez, -qx, -qy, -qz);
    }
  };
}

// card/src/parts/kinds/parallel-fold.ts
var fields2 = z12.strictObject({
  shape: word("tent", "box", "layer").prefault("tent"),
  /** The crease it bridges. */
  on: name().prefault("gutter"),
  /** Where it begins, mm along the crease from the crease's start, and how long it is. */
  at: length(),
  length: size(),
  /** Distances of its feet from the crease, mm. */
  glue: z12.tuple([size(), size()]),
  /** Widths of its two panels, mm. A box needs none: they follow from the feet. */
  widths: z12.tuple([size(), size()]).optional(),
  /** Widths of the floating panels, mm: only for a layer. */
  layers: z12.tuple([size(), size()]).optional(),
  /** Into the fold's angle, away from the crease, or out of it. */
  points: word("in", "out").prefault("in"),
  outlines: outlineOfEach,
  tab: tabFields,
  glued: gluedField(),
  piece: piece().optional()
});
var parallelFold = partKind({
  kind: "parallel-fold",
  fields: fields2,
  build(partName, f2, assembly) {
    const crease = assembly.creaseNamed(f2.on, "on");
    mustLieOnCrease(assembly, crease, f2.at, "at", "its beginning");
    mustLieOnCrease(assembly, crease, f2.at + f2.length, "length", "its end");
    const tent = addTent(assembly, partName, f2, widthsOf(f2), takeStance(crease, f2.at, "end"));
    if (f2.layers === void 0) addRidge(assembly, tent, tent.panels, tent.widths, -1);
    else addLayers(assembly, tent, f2.layers);
  },
  byHand: {
    // The panels of a box are cut to the feet as they are drawn, and glued where they come to be glued.
    drawn: (f2) => ({
      fields: f2.shape === "box" ? { ...f2, shape: "tent", widths: [f2.glue[1], f2.glue[0]] } : f2
    }),
    closing: {
      field: ({ glued }) => glued === "by measure" ? null : "glue.1",
      settle(drawn, cut) {
        const of = (each) => ({ feet: each.glue, sides: widthsOf(each) });
        const [{ feet, sides }] = [of(drawn)];
        const way = drawn.points === "in" ? 1 : outwardWay(excessOf(feet, sides, 1), excessOf(feet, sides, -1), LOCKS_BEYOND.mm);
        const foot2 = secondFootClosedOn({ feet, sides }, of(cut), way);
        return { ...cut, glue: [cut.glue[0], Math.max(0.01, foot2)] };
      }
    },
    edges: (partName, f2) => WORDS.map((side2, i) => ({
      field: `outlines.${side2}`,
      panel: `${partName} ${side2}`,
      creases: [0, widthsOf(f2)[i]].map(
        (up) => [
          [0, up],
          [f2.length, up]
        ]
      )
    }))
  }
});
function widthsOf({ shape, glue: glue2, widths, layers }) {
  if (shape === "layer" !== (layers !== void 0))
    throw new CannotBuild(
      shape === "layer" ? "a layer needs the widths of its floating panels" : `a ${shape} has no floating panels`,
      "layers",
      true
    );
  if (shape !== "box") {
    if (widths === void 0)
      throw new CannotBuild(`a ${shape} needs the widths of its panels`, "widths", true);
    return widths;
  }
  if (widths !== void 0)
    throw new CannotBuild("the widths of a box follow from its feet; leave them out", "widths", true);
  return [glue2[1], glue2[0]];
}
var WORDS = ["left", "right"];
var UPS = [1, -1];
function addTent(assembly, partName, f2, widths, stance) {
  const { footings } = stance;
  const piece2 = f2.piece ?? partName;
  const panels = WORDS.map(
    (word3, i) => assembly.addPanel({
      name: `${partName} ${word3}`,
      part: partName,
      piece: piece2,
      ...shapeOf(f2.outlines?.[word3], rectangle(f2.length, widths[i]), UPS[i])
    })
  );
  const feet = footings.map((footing, i) => moved(footing.at, footing.inward, f2.glue[i]));
  const fold = {
    part: partName,
    on: [footings[0].panel, footings[1].panel],
    panels,
    foot: feet,
    direction: [footings[0].along, footings[1].along],
    distances: f2.glue,
    widths,
    // With x̂ from foot to foot, x̂ × e points into the fold's angle where (n₁ × n₂)·e is positive.
    branch: f2.points === "in" ? stance.sense : -stance.sense,
    points: f2.points,
    flatSide: stance.flatSide,
    misfit: assembly.addMisfit({
      part: partName,
      of: "forced",
      joint: "ridge",
      panels: panels.map((panel) => assembly.panels[panel].name),
      locksBeyond: LOCKS_BEYOND.mm
    })
  };
  assembly.addStep(planarStep(fold));
  assembly.folds.push({
    part: partName,
    piece: piece2,
    on: fold.on,
    panels,
    feet: f2.glue,
    sides: widths,
    way: planarWay(fold),
    vertex: false,
    marks: feet,
    along: footings[0].along,
    length: f2.length,
    inner: 0
  });
  const tent = { name: partName, fields: f2, stance, panels, widths, piece: piece2 };
  for (const i of [0, 1]) addFoot(assembly, tent, i, panels[i], feet[i], "");
  return tent;
}
function addFoot(assembly, tent, i, panel, from2, extra) {
  const { fields: f2, stance, piece: piece2 } = tent;
  const footing = stance.footings[i];
  const line2 = lineBetween(from2, moved(from2, footing.along, f2.length));
  const panelLine = { x0: 0, y0: 0, x1: f2.length, y1: 0 };
  const inner = [-footing.inward[0], -footing.inward[1]];
  const label2 = `${tent.name}${extra} ${WORDS[i]}`;
  const receiver = footing.panel;
  addTab(
    assembly,
    { name: `${label2} tab`, part: tent.name, piece: piece2, receiver, panel, line: line2, panelLine, inner },
    f2.tab
  );
  const side2 = i === 0 ? stance.flatSide : stance.otherFlatSide;
  addFootCreases(assembly, {
    name: `${label2} foot`,
    receiver,
    panel,
    lines: [line2, panelLine],
    inner,
    faceSide: f2.points === "in" ? side2 : -side2,
    panelSide: UPS[i]
  });
}
function addRidge(assembly, tent, panels, heights2, toParent) {
  const long = tent.fields.length;
  const lines = UPS.map((up, i) => ({ x0: 0, y0: up * heights2[i], x1: long, y1: up * heights2[i] }));
  assembly.addJoint({
    kind: "crease",
    between: [panels[0], panels[1]],
    lines,
    closesLoop: true,
    of: "fold"
  });
  const points2 = tent.fields.points === "in" ? 1 : -1;
  assembly.addCrease({
    name: `${tent.name} ridge`,
    between: panels,
    lines,
    sides: toParent === 1 ? [1, -1] : [-1, 1],
    sense: toParent === 1 ? tent.stance.sense : -points2 * tent.stance.sense
  });
}
function addLayers(assembly, tent, layers) {
  const { fields: f2, stance, widths } = tent;
  const piece2 = `${tent.name} layer`;
  const floating = WORDS.map(
    (word3, i) => assembly.addPanel({
      name: `${tent.name} layer ${word3}`,
      part: tent.name,
      piece: piece2,
      outline: shapeOf(void 0, rectangle(f2.length, layers[i]), UPS[i]).outline,
      up: UPS[i]
    })
  );
  const top = { x0: 0, y0: 0, x1: f2.length, y1: 0 };
  for (const i of [0, 1]) {
    const footing = stance.footings[i];
    const [ux, uy] = [footing.along, footing.inward];
    const ridge = { x0: 0, y0: UPS[i] * widths[i], x1: f2.length, y1: UPS[i] * widths[i] };
    assembly.addStep(
      parallelStep(tent.name, floating[i], tent.panels[i], [0, ridge.y0], footing.panel, ux, [
        UPS[i] * uy[0],
        UPS[i] * uy[1]
      ])
    );
    addTab(
      assembly,
      {
        name: `${tent.name} ${WORDS[i]} top tab`,
        part: tent.name,
        piece: tent.piece,
        receiver: floating[i],
        panel: tent.panels[i],
        line: top,
        panelLine: ridge,
        inner: [0, UPS[i]]
      },
      { ...f2.tab, side: "inner" }
    );
    const wall = assembly.addPanel({
      name: `${tent.name} wall ${WORDS[i]}`,
      part: tent.name,
      piece: piece2,
      outline: shapeOf(void 0, rectangle(f2.length, widths[i]), UPS[i]).outline,
      up: UPS[i]
    });
    const from2 = moved(footing.at, footing.inward, f2.glue[i] + layers[i]);
    assembly.addStep(parallelStep(tent.name, wall, footing.panel, from2, tent.panels[i], [1, 0], [0, 1]));
    addFoot(assembly, { ...tent, piece: piece2 }, i, wall, from2, " wall");
    const edge = { x0: 0, y0: UPS[i] * layers[i], x1: f2.length, y1: UPS[i] * layers[i] };
    assembly.addJoint({
      kind: "crease",
      between: [floating[i], wall],
      lines: [edge, ridge],
      closesLoop: true,
      of: "fold"
    });
    const points2 = f2.points === "in" ? 1 : -1;
    assembly.addCrease({
      name: `${tent.name} ${WORDS[i]} edge`,
      between: [floating[i], wall],
      lines: [edge, ridge],
      sides: [-UPS[i], -UPS[i]],
      sense: UPS[i] * points2 * stance.sense
    });
  }
  addRidge(assembly, tent, floating, [0, 0], 1);
}
var rectangle = (long, wide) => [
  [0, 0],
  [long, 0],
  [long, wide],
  [0, wide]
];

// card/src/parts/kinds/pivot.ts
import * as z13 from "zod";
var pivot = partKind({
  kind: "pivot",
  fields: z13.strictObject({
    /** The two panels; at least one is a link. */
    between: z13.tuple([name(), name()]),
    /** Where the hub sits on the first of them. */
    at: point(),
    /** Where it sits on the second; where that is in the open figure, if not given. */
    meets: point().optional(),
    /** Diameters of hole, waist and shoulders, mm. */
    hole: size().prefault(4),
    waist: size().prefault(3.6),
    shoulder: size().prefault(9),
    /** Least card between the hole and an edge, mm. */
    margin: length().prefault(1.5),
    /** Which way a limb bends here that is drawn straight: to which side, seen from its first part on its face. */
    bends: word("left", "right").optional()
  }),
  build(partName, f2, assembly) {
    const [a, b] = f2.between.map((panel, i) => assembly.panelNamed(panel, `between.${i}`));
    const { hole, waist, shoulder } = f2;
    if (waist >= hole)
      throw new CannotBuild(
        `a waist of ${waist.toFixed(2)} mm does not turn in a hole of ${hole.toFixed(2)} mm`,
        "waist"
      );
    if (shoulder <= hole)
      throw new CannotBuild(
        `shoulders of ${shoulder.toFixed(2)} mm slip through a hole of ${hole.toFixed(2)} mm`,
        "shoulder"
      );
    if (!assembly.chains.holds(a, b))
      throw new CannotBuild(
        "neither of its two panels is a link: both are placed already, and nothing could turn",
        "between",
        true
      );
    const pointA = [f2.at[0], assembly.panels[a].up * f2.at[1]];
    const pointB = f2.meets === void 0 ? pointInOpen(assembly, a, pointA, b) : [f2.meets[0], assembly.panels[b].up * f2.meets[1]];
    const margin = assembly.handCut ? 0 : f2.margin;
    for (const [panel, place3] of [
      [a, pointA],
      [b, pointB]
    ])
      mustHoldHole(assembly, panel, place3, hole / 2 + margin);
    const play = hole - waist;
    assembly.addJoint({
      kind: "pivot",
      part: partName,
      between: [a, b],
      points: [[...pointA], [...pointB]],
      play,
      hub: { hole, waist, shoulder },
      closesLoop: true
    });
    assembly.chains.addJoint(
      { kind: "pivot", a, b, pointA, pointB, play },
      partName,
      assembly.steps.length,
      f2.bends === void 0 ? null : f2.bends === "left" ? 1 : -1
    );
  },
  byHand: {
    // A hub is made to turn in its hole, so that the play is as meant.
    exact: ["hole", "waist", "shoulder", "margin"],
    drawn(f2, assembly) {
      if (f2.meets !== void 0) return { fields: f2 };
      const [a, b] = f2.between.map((panel, i) => assembly.panelNamed(panel, `between.${i}`));
      const [x, y] = pointInOpen(assembly, a, [f2.at[0], assembly.panels[a].up * f2.at[1]], b);
      return { fields: { ...f2, meets: [x, assembly.panels[b].up * y] } };
    }
  }
});
function mustHoldHole(assembly, panel, place3, room) {
  const { name: name2, outline, holes } = assembly.panels[panel];
  const toEdge = Math.min(-outsideOf(outline, place3), ...holes.map((hole) => outsideOf(hole, place3)));
  if (toEdge < room)
    throw new CannotBuild(
      toEdge <= 0 ? `its hole lies off the card of '${name2}'` : `its middle lies ${toEdge.toFixed(2)} mm from an edge of '${name2}'; its hole and margin need ${room.toFixed(2)} mm`,
      "at"
    );
}

// card/src/parts/kinds/plate.ts
import * as z14 from "zod";

// card/src/motion/hinged.ts
function hingedStep(part2, panel, supports, own, misfit) {
  const a = new Float64Array(3);
  const b = new Float64Array(3);
  const p2 = new Float64Array(3);
  const q2 = new Float64Array(3);
  return {
    part: part2,
    place(poses, misfits) {
      const first = supports[0];
      worldPoint(poses, first.panel, first.line.x0, first.line.y0, a);
      worldPoint(poses, first.panel, first.line.x1, first.line.y1, b);
      const long = Math.hypot(b[0] - a[0], b[1] - a[1], b[2] - a[2]);
      const ux = (b[0] - a[0]) / long;
      const uy = (b[1] - a[1]) / long;
      const uz = (b[2] - a[2]) / long;
      const second = supports[1];
      worldPoint(poses, second.panel, second.line.x0, second.line.y0, p2);
      let vx = p2[0] - a[0];
      let vy = p2[1] - a[1];
      let vz = p2[2] - a[2];
      const along3 = vx * ux + vy * uy + vz * uz;
      vx -= along3 * ux;
      vy -= along3 * uy;
      vz -= along3 * uz;
      let across3 = Math.sqrt(vx * vx + vy * vy + vz * vz);
      if (across3 < 1e-9) {
        const steep = Math.abs(uz) > 0.9;
        vx = steep ? 0 : -uy;
        vy = steep ? -uz : ux;
        vz = steep ? uy : 0;
        across3 = Math.sqrt(vx * vx + vy * vy + vz * vz);
      }
      writePose(poses, panel, a[0], a[1], a[2], ux, uy, uz, vx / across3, vy / across3, vz / across3);
      for (let i = 1; i < supports.length; i++) {
        const { line: line2, panel: on } = supports[i];
        const mine = own[i];
        worldPoint(poses, on, line2.x0, line2.y0, p2);
        worldPoint(poses, panel, mine.x0, mine.y0, q2);
        const offStart = alongNormal(poses, panel, p2, q2);
        const atStart = distance(p2, q2);
        worldPoint(poses, on, line2.x1, line2.y1, p2);
        worldPoint(poses, panel, mine.x1, mine.y1, q2);
        const offEnd = alongNormal(poses, panel, p2, q2);
        const atEnd = distance(p2, q2);
        const whole2 = Math.max(atStart, atEnd);
        const inPlane = Math.sqrt(
          Math.max(0, atStart * atStart - offStart * offStart, atEnd * atEnd - offEnd * offEnd)
        );
        const slot2 = misfit + 2 * (i - 1);
        misfits[slot2] = inPlane < 1e-6 ? 0 : inPlane;
        misfits[slot2 + 1] = whole2 < 1e-6 ? 0 : whole2;
      }
    }
  };
}
var distance = (p2, q2) => Math.hypot(p2[0] - q2[0], p2[1] - q2[1], p2[2] - q2[2]);
function alongNormal(poses, panel, p2, q2) {
  const i = panel * POSE;
  return (p2[0] - q2[0]) * poses[i + 2] + (p2[1] - q2[1]) * poses[i + 6] + (p2[2] - q2[2]) * poses[i + 10];
}

// card/src/parts/support-misfit.ts
function addSupportMisfits(assembly, part2, joint, other) {
  const at = { part: part2, joint, panels: [part2, assembly.panels[other].name], locksBeyond: null };
  const first = assembly.addMisfit({ ...at, of: "gap" });
  assembly.addMisfit({ ...at, of: "forced" });
  return first;
}

// card/src/parts/kinds/plate.ts
var supportFields = hingeFields.extend({
  /** Where the line lies on the plate, mm; as in the open figure if not given. Only after the first support. */
  meets: z14.tuple([point(), point()]).optional()
});
var plate = partKind({
  kind: "plate",
  fields: z14.strictObject({
    /** Lines on the supports along which it is hinged. */
    supports: z14.array(supportFields).min(2, {
      error: "two supports or more (one alone lets a plate swing loose; to glue a plate on flat, use kind: glued-piece)"
    }).max(50),
    /** Card beyond the hinge lines on every side, mm, where no outline is drawn. */
    margin: length().prefault(5),
    /** Drawn with the first hinge line along x from (0, 0), and the second towards +y. */
    outline: outlineFields.optional(),
    tab: tabFields,
    glued: gluedField(),
    piece: piece().optional()
  }),
  build(partName, f2, assembly) {
    const hinges = f2.supports.map((support, i) => hingeOn(assembly, support, `supports.${i}`));
    const own = linesOnPlate(assembly.open, hinges);
    f2.supports.forEach(({ meets: meets2 }, i) => {
      if (meets2 === void 0) return;
      if (i === 0)
        throw new CannotBuild(
          "the first support's line lies along x on the plate, by definition",
          "supports.0.meets",
          true
        );
      own[i] = lineBetween(meets2[0], meets2[1]);
    });
    const plateIndex = assembly.addPanel({
      name: partName,
      part: partName,
      piece: f2.piece ?? partName,
      ...shapeOf(f2.outline, around(own, f2.margin))
    });
    const misfits = hinges.slice(1).map((hinge) => addSupportMisfits(assembly, partName, "support", hinge.panel));
    assembly.addStep(hingedStep(partName, plateIndex, hinges, own, misfits[0]));
    hinges.forEach((hinge, i) => {
      const support = assembly.panels[hinge.panel];
      const [ex, ey] = unit(own[i]);
      const joint = addTab(
        assembly,
        {
          name: `${partName} tab ${i + 1}`,
          part: support.part,
          piece: support.piece,
          receiver: plateIndex,
          panel: hinge.panel,
          line: own[i],
          panelLine: hinge.line,
          // Inner is towards the other hinge lines: +y of the first, −y of the rest.
          inner: ex > 0 === (i === 0) ? [-ey, ex] : [ey, -ex]
        },
        f2.tab
      );
      const made = assembly.joints[joint];
      if (made.kind === "crease" && i > 0) made.closesLoop = true;
      addHingeCreases(assembly, `${partName} hinge ${i + 1}`, hinge, { panel: plateIndex, line: own[i] });
    });
  },
  byHand: {
    drawn(f2, assembly) {
      const hinges = f2.supports.map((support, i) => hingeOn(assembly, support, `supports.${i}`));
      const own = linesOnPlate(assembly.open, hinges);
      const supports = f2.supports.map((support, i) => ({
        ...support,
        meets: i === 0 ? void 0 : support.meets ?? stretchOf2(own[i])
      }));
      return { fields: { ...f2, supports } };
    },
    closing: {
      field: ({ supports, glued }) => glued === "by measure" ? null : `supports.${supports.length - 1}.meets`,
      // Its last line comes to be where the support lies in the shut book, as far off as it is closed on.
      settle(drawn, cut, assembly) {
        const last = cut.supports.length - 1;
        const meant = drawn.supports[last].meets;
        const off = cut.supports[last].meets;
        const hinges = cut.supports.map((support, i) => hingeOn(assembly, support, `supports.${i}`));
        const there = linesWhenShut(assembly, hinges)?.[last];
        if (meant === void 0 || off === void 0 || there === void 0) return cut;
        const lies = stretchOf2(there);
        const at = (end) => [
          lies[end][0] + off[end][0] - meant[end][0],
          lies[end][1] + off[end][1] - meant[end][1]
        ];
        const supports = cut.supports.map(
          (support, i) => i === last ? { ...support, meets: [at(0), at(1)] } : support
        );
        return { ...cut, supports };
      }
    },
    edges(partName, { supports: [first, ...rest] }) {
      const [[x0, y0], [x1, y1]] = first.line;
      const own = [
        [0, 0],
        [Math.hypot(x1 - x0, y1 - y0), 0]
      ];
      const others = rest.flatMap(({ meets: meets2 }) => meets2 === void 0 ? [] : [meets2]);
      return [{ field: "outline", panel: partName, creases: [own, ...others] }];
    }
  }
});
function linesWhenShut(assembly, hinges) {
  try {
    return linesOnPlate(assembly.posesAt(0), hinges);
  } catch (error) {
    if (error instanceof CannotBuild) return null;
    throw error;
  }
}
var stretchOf2 = ({ x0, y0, x1, y1 }) => [
  [x0, y0],
  [x1, y1]
];
function linesOnPlate(poses, hinges) {
  const from2 = new Float64Array(3);
  const to2 = new Float64Array(3);
  endsInSpace(poses, hinges[0], from2, to2);
  const long = lengthOf2(hinges[0].line);
  const origin2 = [...from2];
  const x = [0, 1, 2].map((i) => (to2[i] - from2[i]) / long);
  endsInSpace(poses, hinges[1], from2, to2);
  const d = [0, 1, 2].map((i) => from2[i] - origin2[i]);
  const along3 = dot2(d, x);
  const across3 = d.map((di, i) => di - along3 * x[i]);
  const wide = Math.hypot(...across3);
  if (wide < 0.01)
    throw new CannotBuild("in the open figure, its first two hinge lines lie on one line", "supports.1.line");
  const y = across3.map((v) => v / wide);
  return hinges.map((hinge, i) => {
    endsInSpace(poses, hinge, from2, to2);
    const start = [...from2].map((v, j) => v - origin2[j]);
    const end = [...to2].map((v, j) => v - origin2[j]);
    const line2 = { x0: dot2(start, x), y0: dot2(start, y), x1: dot2(end, x), y1: dot2(end, y) };
    if (lengthOf2(line2) < 0.01)
      throw new CannotBuild(
        "in the open figure, this hinge line stands square to the plate",
        `supports.${i}.line`
      );
    return line2;
  });
}
function around(lines, margin) {
  const xs = lines.flatMap((line2) => [line2.x0, line2.x1]);
  const ys = lines.flatMap((line2) => [line2.y0, line2.y1]);
  const [left, right2] = [Math.min(...xs) - margin, Math.max(...xs) + margin];
  const [low, high] = [Math.min(...ys) - margin, Math.max(...ys) + margin];
  return [
    [left, low],
    [right2, low],
    [right2, high],
    [left, high]
  ];
}
var dot2 = (a, b) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

// card/src/parts/kinds/slot.ts
import * as z15 from "zod";
var slot = partKind({
  kind: "slot",
  fields: z15.strictObject({
    /** The panel with the hole, and the hole's outline on it. */
    on: name(),
    outline: polygon(),
    /** The panel that passes through. */
    passes: name()
  }),
  build(_, f2, assembly) {
    const on = assembly.panelNamed(f2.on, "on");
    const passing = assembly.panelNamed(f2.passes, "passes");
    const panel = assembly.panels[on];
    if (panel.body === assembly.panels[passing].body)
      throw new CannotBuild(`'${f2.passes}' is glued to '${f2.on}' and can't pass through it`, "passes", true);
    const hole = Float64Array.from(points(f2.outline, panel.up));
    cutHole(panel, hole, "slot", "outline");
    assembly.addJoint({ kind: "slot", between: [passing, on], hole: panel.holes.length - 1 });
  }
});

// card/src/parts/kinds/stiffener.ts
import * as z16 from "zod";
var stiffener = partKind({
  kind: "stiffener",
  fields: z16.strictObject({
    on: name(),
    /** Its corner on that panel, and its length and width from there, mm. */
    at: point(),
    size: z16.tuple([size(), size()]),
    /** How far it is turned from the panel's foot, towards up, degrees. */
    turn: angle().prefault(0),
    piece: piece().optional()
  }),
  build(partName, f2, assembly) {
    const on = assembly.panelNamed(f2.on, "on");
    const { up } = assembly.panels[on];
    const [long, wide] = f2.size;
    const panel = assembly.addPanel({
      name: partName,
      part: partName,
      piece: f2.piece ?? partName,
      gluedTo: on,
      up,
      outline: points(
        [
          [0, 0],
          [long, 0],
          [long, wide],
          [0, wide]
        ],
        up
      )
    });
    assembly.addJoint({ kind: "glue", between: [on, panel] });
    assembly.addStep(fixedStep(partName, panel, on, [f2.at[0], up * f2.at[1]], up * f2.turn * RADIANS));
  }
});

// card/src/parts/kinds/strut.ts
import * as z17 from "zod";
var strut = partKind({
  kind: "strut",
  fields: z17.strictObject({
    foot: hingeFields,
    top: hingeFields,
    /** Distance from foot to top, mm; as drawn open if not given. */
    height: size().optional(),
    outline: outlineFields.optional(),
    tab: tabFields,
    glued: gluedField(),
    piece: piece().optional()
  }),
  build(partName, f2, assembly) {
    const foot2 = hingeOn(assembly, f2.foot, "foot");
    const top = hingeOn(assembly, f2.top, "top");
    const long = lengthOf2(foot2.line);
    const [along3, drawn] = inPoses(assembly.open, foot2, top);
    if (drawn < 0.01)
      throw new CannotBuild(
        "in the open figure its foot and top lie on one line, and nothing says which way it stands",
        "top.line"
      );
    const height = f2.height ?? drawn;
    const width = lengthOf2(top.line);
    const own = [
      { x0: 0, y0: 0, x1: long, y1: 0 },
      { x0: along3, y0: height, x1: along3 + width, y1: height }
    ];
    const panel = assembly.addPanel({
      name: partName,
      part: partName,
      piece: f2.piece ?? partName,
      ...shapeOf(f2.outline, [
        [0, 0],
        [long, 0],
        [along3 + width, height],
        [along3, height]
      ])
    });
    const misfit = addSupportMisfits(assembly, partName, "top", top.panel);
    assembly.addStep(hingedStep(partName, panel, [foot2, top], own, misfit));
    [foot2, top].forEach((hinge, i) => {
      const [ex, ey] = unit(hinge.line);
      const joint = addTab(
        assembly,
        {
          name: `${partName} ${i === 0 ? "foot" : "top"} tab`,
          part: partName,
          piece: f2.piece ?? partName,
          receiver: hinge.panel,
          panel,
          line: hinge.line,
          panelLine: own[i],
          inner: [-ey, ex]
        },
        f2.tab
      );
      const made = assembly.joints[joint];
      if (made.kind === "crease" && i === 1) made.closesLoop = true;
      addHingeCreases(assembly, `${partName} ${i === 0 ? "foot" : "top"}`, { panel, line: own[i] }, hinge);
    });
  },
  byHand: {
    drawn(f2, assembly) {
      const [, drawn] = inPoses(
        assembly.open,
        hingeOn(assembly, f2.foot, "foot"),
        hingeOn(assembly, f2.top, "top")
      );
      return { fields: { ...f2, height: f2.height ?? drawn } };
    },
    closing: {
      field: ({ glued }) => glued === "by measure" ? null : "height",
      // It comes to be as high as its two lines lie apart in the shut book, but for how exactly it is closed on.
      settle(drawn, cut, assembly) {
        if (drawn.height === void 0 || cut.height === void 0) return cut;
        const [, apart2] = inPoses(
          assembly.posesAt(0),
          hingeOn(assembly, cut.foot, "foot"),
          hingeOn(assembly, cut.top, "top")
        );
        return apart2 < 0.01 ? cut : { ...cut, height: Math.max(0.01, apart2 + cut.height - drawn.height) };
      }
    },
    edges: (partName, f2) => {
      const [[x0, y0], [x1, y1]] = f2.foot.line;
      const long = Math.hypot(x1 - x0, y1 - y0);
      const across3 = (up) => [
        [0, up],
        [long, up]
      ];
      return [{ field: "outline", panel: partName, creases: [across3(0), across3(f2.height ?? 0)] }];
    }
  }
});
function inPoses(poses, foot2, top) {
  const from2 = new Float64Array(3);
  const to2 = new Float64Array(3);
  endsInSpace(poses, foot2, from2, to2);
  const origin2 = [...from2];
  const long = lengthOf2(foot2.line);
  const x = [0, 1, 2].map((i) => (to2[i] - from2[i]) / long);
  endsInSpace(poses, top, from2, to2);
  const d = [0, 1, 2].map((i) => from2[i] - origin2[i]);
  const along3 = d[0] * x[0] + d[1] * x[1] + d[2] * x[2];
  return [along3, Math.hypot(...d.map((v, i) => v - along3 * x[i]))];
}

// card/src/parts/kinds/tongue.ts
import * as z18 from "zod";
var tongue = partKind({
  kind: "tongue",
  fields: z18.strictObject({
    /** The link, and the point on it that stays in the slit; the link ends there. */
    panel: name(),
    at: point(),
    /** The slit: a line on a page or plate. */
    slit: hingeFields,
    /** Widths of the slit and of the tongue's waist in it, across the slit, mm. */
    width: size().prefault(1.5),
    waist: size().prefault(0.8),
    /** Length of the tongue under the card, and its breadth along the slit, mm. */
    tail: size().prefault(10),
    breadth: size().prefault(6)
  }),
  build(partName, f2, assembly) {
    const panel = assembly.panelNamed(f2.panel, "panel");
    const slit = hingeOn(assembly, f2.slit, "slit");
    if (!assembly.chains.holds(panel)) throw new CannotBuild("only a link has a tongue", "panel", true);
    if (f2.waist >= f2.width)
      throw new CannotBuild(
        `a waist of ${f2.waist.toFixed(2)} mm does not slide in a slit of ${f2.width.toFixed(2)} mm`,
        "waist"
      );
    const at = [f2.at[0], assembly.panels[panel].up * f2.at[1]];
    endAlong(assembly, panel, acrossAt(assembly, panel, at), "at");
    const { line: line2 } = slit;
    cutHole(assembly.panels[slit.panel], Float64Array.from(slitRing(line2, f2.width / 2)), "slit", "slit.line");
    const tail = assembly.addPanel({
      name: `${partName} tail`,
      part: partName,
      piece: assembly.panels[panel].piece,
      role: "tab",
      outline: points([
        [-f2.breadth / 2, 0],
        [f2.breadth / 2, 0],
        [f2.breadth / 2, f2.tail],
        [-f2.breadth / 2, f2.tail]
      ])
    });
    const play = f2.width - f2.waist;
    const along3 = [
      [line2.x0, line2.y0],
      [line2.x1, line2.y1]
    ];
    const slide = { kind: "slide", play, along: along3, closesLoop: true };
    assembly.addJoint({ ...slide, between: [panel, slit.panel], point: at });
    assembly.addJoint({ ...slide, between: [tail, slit.panel], point: [0, 0] });
    assembly.chains.addJoint(
      { kind: "slide", a: panel, b: slit.panel, pointA: at, alongB: along3, play },
      partName,
      assembly.steps.length
    );
    assembly.addStep(tailStep(partName, tail, panel, at, slit.panel, line2));
  },
  // A tongue is made to slide in its slit, so that the play is as meant.
  byHand: { exact: ["width", "waist"] }
});
function acrossAt(assembly, panel, [x, y]) {
  const ring = assembly.panels[panel].outline;
  let [mx, my] = [0, 0];
  for (let i = 0; i < ring.length; i += 2) {
    mx += 2 * ring[i] / ring.length;
    my += 2 * ring[i + 1] / ring.length;
  }
  const [dx, dy] = [x - mx, y - my];
  if (Math.hypot(dx, dy) < 0.01)
    throw new CannotBuild("a tongue in the middle of its link: it belongs at an end", "at");
  return { x0: x + dy, y0: y - dx, x1: x - dy, y1: y + dx };
}
function slitRing(line2, half) {
  const [ex, ey] = unit(line2);
  const long = lengthOf2(line2) + half;
  const corner2 = (along3, across3) => [
    line2.x0 + along3 * ex - across3 * ey,
    line2.y0 + along3 * ey + across3 * ex
  ];
  return [corner2(-half, -half), corner2(long, -half), corner2(long, half), corner2(-half, half)].flat();
}
function tailStep(part2, tail, link2, [x, y], card2, line2) {
  const [ex, ey] = unit(line2);
  const p2 = new Float64Array(3);
  return {
    part: part2,
    hangsOn: link2,
    place(poses) {
      worldPoint(poses, link2, x, y, p2);
      const j = card2 * POSE;
      const off = (p2[0] - poses[j + 3]) * poses[j + 2] + (p2[1] - poses[j + 7]) * poses[j + 6] + (p2[2] - poses[j + 11]) * poses[j + 10];
      writePose(
        poses,
        tail,
        p2[0] - off * poses[j + 2],
        p2[1] - off * poses[j + 6],
        p2[2] - off * poses[j + 10],
        poses[j] * ex + poses[j + 1] * ey,
        poses[j + 4] * ex + poses[j + 5] * ey,
        poses[j + 8] * ex + poses[j + 9] * ey,
        poses[j + 1] * ex - poses[j] * ey,
        poses[j + 5] * ex - poses[j + 4] * ey,
        poses[j + 9] * ex - poses[j + 8] * ey
      );
    }
  };
}

// card/src/parts/index.ts
var partKinds = Object.fromEntries(
  [
    vFold,
    parallelFold,
    strut,
    plate,
    counterFold,
    gluedPiece,
    stiffener,
    coverFlap,
    link,
    pivot,
    gluedEnd,
    tongue,
    slot
  ].map((kind) => [kind.kind, kind])
);

// card/src/parts/trim.ts
import { Clipper as Clipper3, ClipType, FillRule as FillRule3, PolyTree64 } from "clipper2-ts";

// card/src/geometry/edges.ts
var SAME = 1e-9;
var Edges = class {
  /** How many there are. */
  count = 0;
  /** The heights of corners, lowest first, each once. */
  levels = new Float64Array(0);
  /** Indices into `levels` of each edge's lower and upper end. */
  low = new Int32Array(0);
  high = new Int32Array(0);
  /** The shape that it belongs to. */
  owner = new Int32Array(0);
  /** The sine of its angle with the level. */
  sine = new Float64Array(0);
  /** The edges in order of their lower ends. */
  byLow = new Int32Array(0);
  xLow = new Float64Array(0);
  slope = new Float64Array(0);
  starts = new Int32Array(0);
  /** Where edge e is at a height. */
  xAt(e, y) {
    return this.xLow[e] + this.slope[e] * (y - this.levels[this.low[e]]);
  }
  /** Takes the edges of the given shapes in place of those that were there. */
  gather(shapes) {
    let corners = 0;
    for (const shape of shapes) {
      corners += shape.outline.length >> 1;
      for (const hole of shape.holes) corners += hole.length >> 1;
    }
    if (this.low.length < corners) this.makeRoom(2 * corners);
    let c = 0;
    for (const shape of shapes) {
      c = this.addLevels(shape.outline, c);
      for (const hole of shape.holes) c = this.addLevels(hole, c);
    }
    const { levels } = this;
    levels.subarray(0, corners).sort();
    let count = 0;
    for (let k = 0; k < corners; k++) {
      if (count === 0 || levels[k] - levels[count - 1] > SAME) levels[count++] = levels[k];
    }
    this.count = 0;
    for (let s2 = 0; s2 < shapes.length; s2++) {
      this.addRing(shapes[s2].outline, s2, count);
      for (const hole of shapes[s2].holes) this.addRing(hole, s2, count);
    }
    this.sortByLow(count);
  }
  makeRoom(size3) {
    this.levels = new Float64Array(size3);
    this.low = new Int32Array(size3);
    this.high = new Int32Array(size3);
    this.owner = new Int32Array(size3);
    this.sine = new Float64Array(size3);
    this.byLow = new Int32Array(size3);
    this.xLow = new Float64Array(size3);
    this.slope = new Float64Array(size3);
    this.starts = new Int32Array(size3 + 1);
  }
  addLevels(ring, at) {
    for (let i = 1; i < ring.length; i += 2) this.levels[at++] = ring[i];
    return at;
  }
  addRing(ring, shape, levelCount) {
    const { levels, low, high } = this;
    let j = ring.length - 2;
    let before2 = levelOf(levels, levelCount, ring[j + 1]);
    for (let i = 0; i < ring.length; j = i, i += 2) {
      const here = levelOf(levels, levelCount, ring[i + 1]);
      if (here !== before2) {
        const e = this.count++;
        const up = here > before2;
        low[e] = up ? before2 : here;
        high[e] = up ? here : before2;
        const run = up ? ring[i] - ring[j] : ring[j] - ring[i];
        const rise = levels[high[e]] - levels[low[e]];
        this.xLow[e] = up ? ring[j] : ring[i];
        this.slope[e] = run / rise;
        this.sine[e] = rise / Math.sqrt(run * run + rise * rise);
        this.owner[e] = shape;
      }
      before2 = here;
    }
  }
  /** Puts the edges in order of their lower ends into `byLow`, by counting how many start at each level. */
  sortByLow(levelCount) {
    const { low, starts } = this;
    starts.fill(0, 0, levelCount + 1);
    for (let e = 0; e < this.count; e++) starts[low[e] + 1]++;
    for (let k = 0; k < levelCount; k++) starts[k + 1] += starts[k];
    for (let e = 0; e < this.count; e++) this.byLow[starts[low[e]]++] = e;
  }
};
function levelOf(levels, count, y) {
  let from2 = 0;
  let to2 = count - 1;
  while (from2 < to2) {
    const middle3 = from2 + to2 + 1 >> 1;
    if (levels[middle3] <= y) from2 = middle3;
    else to2 = middle3 - 1;
  }
  return from2;
}

// card/src/geometry/trapezoids.ts
var cell = {
  count: 0,
  weight: 0,
  x: 0,
  y: 0,
  width: 0,
  height: 0,
  across: 0,
  leanLeft: 0,
  leanRight: 0
};
var edges = new Edges();
var active = new Int32Array(0);
var atHead = new Int32Array(0);
var seat = new Int32Array(0);
var xFoot = new Float64Array(0);
var xHead = new Float64Array(0);
var counts = new Int32Array(0);
var sums = new Float64Array(0);
var right = new Int32Array(0);
var since = new Float64Array(0);
var crossingAt = new Float64Array(64);
var crossingLeft = new Int32Array(64);
var crossingRight = new Int32Array(64);
var inside2 = new Uint8Array(64);
function visitCells(shapes, weights, visit) {
  edges.gather(shapes);
  const { levels, low, high, byLow } = edges;
  if (right.length < edges.count) makeRoom(2 * edges.count);
  right.fill(-1, 0, edges.count);
  counts.fill(0, 0, edges.count);
  sums.fill(0, 0, edges.count);
  if (inside2.length < shapes.length) inside2 = new Uint8Array(2 * shapes.length);
  let abreast = 0;
  let next = 0;
  for (let band2 = 0; next < edges.count || abreast > 0; band2++) {
    const foot2 = levels[band2];
    let kept = 0;
    for (let k = 0; k < abreast; k++) {
      const e = active[k];
      if (high[e] > band2) active[kept++] = e;
      else close(e, foot2, visit);
    }
    abreast = kept;
    while (next < edges.count && low[byLow[next]] === band2) active[abreast++] = byLow[next++];
    if (abreast === 0) continue;
    const head = levels[band2 + 1];
    place2(abreast, foot2, xFoot);
    place2(abreast, head, xHead);
    sortAtFoot(abreast);
    changeCells(abreast, foot2, weights, visit);
    exchangeAll(findCrossings(abreast, foot2, head), abreast, foot2, visit);
  }
}
function makeRoom(size3) {
  active = new Int32Array(size3);
  atHead = new Int32Array(size3);
  seat = new Int32Array(size3);
  xFoot = new Float64Array(size3);
  xHead = new Float64Array(size3);
  counts = new Int32Array(size3);
  sums = new Float64Array(size3);
  right = new Int32Array(size3);
  since = new Float64Array(size3);
}
function place2(abreast, y, x) {
  for (let k = 0; k < abreast; k++) x[active[k]] = edges.xAt(active[k], y);
}
function sortAtFoot(abreast) {
  const [order, foot2, head] = [active, xFoot, xHead];
  for (let k = 1; k < abreast; k++) {
    const e = order[k];
    let at = k;
    for (; at > 0; at--) {
      const f2 = order[at - 1];
      if (foot2[f2] < foot2[e] || foot2[f2] === foot2[e] && head[f2] <= head[e]) break;
      order[at] = f2;
    }
    order[at] = e;
  }
}
function changeCells(abreast, y, weights, visit) {
  let count = 0;
  let sum = 0;
  for (let k = 0; k < abreast; k++) {
    const e = active[k];
    const shape = edges.owner[e];
    seat[e] = k;
    inside2[shape] ^= 1;
    if (inside2[shape] === 1) {
      count++;
      sum += weights[shape];
    } else {
      count--;
      sum = count === 0 ? 0 : sum - weights[shape];
    }
    const f2 = count === 0 ? -1 : active[k + 1];
    if (f2 === right[e] && count === counts[e] && Math.abs(sum - sums[e]) <= SAME) continue;
    close(e, y, visit);
    open(e, f2, y, count, sum);
  }
}
function findCrossings(abreast, foot2, head) {
  let found3 = 0;
  for (let k = 0; k < abreast; k++) {
    const e = active[k];
    let at = k;
    for (; at > 0; at--) {
      const f2 = atHead[at - 1];
      const above = xHead[f2] - xHead[e];
      if (!(above > 0)) break;
      const below = xFoot[e] - xFoot[f2];
      addCrossing(found3++, foot2 + (head - foot2) * below / (below + above), f2, e);
      atHead[at] = f2;
    }
    atHead[at] = e;
  }
  return found3;
}
function addCrossing(found3, y, left, rightEdge) {
  if (found3 === crossingAt.length) {
    crossingAt = longer2(crossingAt, new Float64Array(2 * found3));
    crossingLeft = longer2(crossingLeft, new Int32Array(2 * found3));
    crossingRight = longer2(crossingRight, new Int32Array(2 * found3));
  }
  let k = found3;
  for (; k > 0 && crossingAt[k - 1] > y; k--) moveCrossing(k - 1, k);
  crossingAt[k] = y;
  crossingLeft[k] = left;
  crossingRight[k] = rightEdge;
}
function longer2(old, room) {
  room.set(old);
  return room;
}
function moveCrossing(from2, to2) {
  crossingAt[to2] = crossingAt[from2];
  crossingLeft[to2] = crossingLeft[from2];
  crossingRight[to2] = crossingRight[from2];
}
function exchangeAll(crossings, abreast, foot2, visit) {
  let y = foot2;
  for (let done = 0; done < crossings; done++) {
    let k = done;
    while (k < crossings - 1 && seat[crossingRight[k]] !== seat[crossingLeft[k]] + 1) k++;
    y = Math.max(y, crossingAt[k]);
    exchange(crossingLeft[k], crossingRight[k], abreast, y, visit);
    for (; k > done; k--) moveCrossing(k - 1, k);
  }
}
function exchange(e, f2, abreast, y, visit) {
  const k = seat[e];
  close(e, y, visit);
  close(f2, y, visit);
  let count = 0;
  let sum = 0;
  if (k > 0) {
    const before2 = active[k - 1];
    close(before2, y, visit);
    count = counts[before2];
    sum = sums[before2];
    open(before2, f2, y, count, sum);
  }
  const same = edges.owner[e] === edges.owner[f2];
  const middleCount = same ? counts[e] : count + counts[f2] - counts[e];
  const middleSum = same ? sums[e] : sum + sums[f2] - sums[e];
  active[k] = f2;
  active[k + 1] = e;
  seat[f2] = k;
  seat[e] = k + 1;
  open(e, k + 2 < abreast ? active[k + 2] : -1, y, counts[f2], sums[f2]);
  open(f2, e, y, middleCount, middleSum);
}
function open(e, f2, y, count, sum) {
  counts[e] = count;
  sums[e] = sum;
  right[e] = count === 0 ? -1 : f2;
  since[e] = y;
}
function close(e, y, visit) {
  const f2 = right[e];
  if (f2 < 0) return;
  right[e] = -1;
  const middle3 = (since[e] + y) / 2;
  const x = edges.xAt(e, middle3);
  const width = edges.xAt(f2, middle3) - x;
  if (!(width > 0)) return;
  cell.count = counts[e];
  cell.weight = sums[e];
  cell.x = x + width / 2;
  cell.y = middle3;
  cell.width = width;
  cell.height = y - since[e];
  cell.across = width * Math.min(edges.sine[e], edges.sine[f2]);
  cell.leanLeft = edges.xAt(e, y) - x;
  cell.leanRight = edges.xAt(f2, y) - (x + width);
  visit(cell);
}

// card/src/geometry/coverage.ts
var SLIVER = 0.02;
var SAME_SUM = 1e-9;
function pile(shapes, thicknesses) {
  const found3 = { thickness: 0, x: 0, y: 0, area: 0, covered: 0 };
  let largest = 0;
  visitCells(shapes, thicknesses, (cell2) => {
    const size3 = cell2.width * cell2.height;
    found3.covered += size3;
    if (cell2.height < SLIVER || cell2.across < SLIVER || cell2.weight < found3.thickness - SAME_SUM) return;
    if (cell2.weight > found3.thickness + SAME_SUM) {
      found3.thickness = cell2.weight;
      found3.area = 0;
      largest = 0;
    }
    found3.area += size3;
    if (size3 > largest) {
      largest = size3;
      found3.x = cell2.x;
      found3.y = cell2.y;
    }
  });
  return largest > 0 ? found3 : void 0;
}
var NO_WEIGHTS = [0, 0];
function overlapArea(a, b) {
  if (apart(a.outline, b.outline, 0) || apart(a.outline, b.outline, 1)) return 0;
  let area = 0;
  visitCells([a, b], NO_WEIGHTS, (cell2) => {
    if (cell2.count === 2) area += cell2.width * cell2.height;
  });
  return area;
}
function apart(a, b, axis2) {
  let [leastA, mostA, leastB, mostB] = [Infinity, -Infinity, Infinity, -Infinity];
  for (let i = axis2; i < a.length; i += 2) {
    if (a[i] < leastA) leastA = a[i];
    if (a[i] > mostA) mostA = a[i];
  }
  for (let i = axis2; i < b.length; i += 2) {
    if (b[i] < leastB) leastB = b[i];
    if (b[i] > mostB) mostB = b[i];
  }
  return mostA <= leastB || mostB <= leastA;
}

// card/src/geometry/line-in-ring.ts
var AT_EDGE = 1e-4;
function lengthWithin({ x0, y0, x1, y1 }, ring) {
  const [dx, dy] = [x1 - x0, y1 - y0];
  const long = Math.hypot(dx, dy);
  const shares = [0, 1];
  let [least, most] = [Infinity, -Infinity];
  for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
    const a = (dx * (ring[j + 1] - y0) - dy * (ring[j] - x0)) / long;
    const b = (dx * (ring[i + 1] - y0) - dy * (ring[i] - x0)) / long;
    least = Math.min(least, b);
    most = Math.max(most, b);
    if (a > 0 === b > 0 && Math.abs(b) > AT_EDGE) continue;
    const t2 = Math.abs(b) <= AT_EDGE ? 1 : a / (a - b);
    const px = ring[j] + t2 * (ring[i] - ring[j]) - x0;
    const py = ring[j + 1] + t2 * (ring[i + 1] - ring[j + 1]) - y0;
    shares.push((px * dx + py * dy) / (long * long));
  }
  if (least > -AT_EDGE || most < AT_EDGE) return 0;
  shares.sort((p2, q2) => p2 - q2);
  let within = 0;
  for (let i = 0; i + 1 < shares.length; i++) {
    const [from2, to2] = [Math.max(0, shares[i]), Math.min(1, shares[i + 1])];
    const middle3 = (from2 + to2) / 2;
    if (to2 > from2 && outsideOf(ring, [x0 + middle3 * dx, y0 + middle3 * dy]) < -AT_EDGE) within += to2 - from2;
  }
  return within * long;
}

// card/src/parts/trim-breaks.ts
var SCRATCH = 0.05;
var MARGIN2 = 1;
function whatTrimBreaks(assembly, k, region) {
  const { panels, joints } = assembly;
  if (k === LEFT_PAGE || k === RIGHT_PAGE) return "cuts into the page";
  const shape = { outline: region, holes: [] };
  for (const joint of joints) {
    const end = joint.between.indexOf(k);
    if (end < 0) continue;
    const other = `'${panels[joint.between[1 - end]].name}'`;
    switch (joint.kind) {
      case "crease":
        if (lengthWithin(joint.lines[end], region) > SCRATCH) return `cuts its crease with ${other}`;
        break;
      case "glue": {
        if (end === 1 && panels[k].role === "tab") break;
        const glued = ringInOpen(assembly, joint.between[1 - end], panels[joint.between[1 - end]].outline, k);
        if (commonArea([shape, { outline: glued, holes: [] }, panels[k]]) > SCRATCH)
          return `takes card where it is glued to ${other}`;
        break;
      }
      case "pivot":
        if (outsideOf(region, joint.points[end]) < joint.hub.shoulder / 2 + MARGIN2)
          return `cuts into the hub with ${other}`;
        break;
      case "slide": {
        const room = joint.play + MARGIN2;
        const [[x0, y0], [x1, y1]] = joint.along;
        const cut = end === 0 ? outsideOf(region, joint.point) < room : lengthWithin({ x0, y0, x1, y1 }, region) > 0 || nearness(Float64Array.of(x0, y0, x1, y1), region) < room;
        if (cut) return `cuts into the slit with ${other}`;
        break;
      }
    }
  }
  return slotNear(assembly, k, region, MARGIN2);
}
function slotNear(assembly, k, region, room) {
  const { panels } = assembly;
  for (const { hole, between: between4 } of slotsOf(assembly, k))
    if (nearness(panels[k].holes[hole], region) < room)
      return `cuts into the slot for '${panels[between4[0]].name}'`;
  return null;
}
function slotsOf({ joints }, k) {
  return joints.filter((joint) => joint.kind === "slot").filter(({ between: between4 }) => between4[1] === k);
}
function heldPlaces(assembly, k) {
  const { panels, joints } = assembly;
  const places = [];
  for (const joint of joints) {
    const end = joint.between.indexOf(k);
    if (end < 0) continue;
    if (joint.kind === "crease") {
      const { x0, y0, x1, y1 } = joint.lines[end];
      places.push([(x0 + x1) / 2, (y0 + y1) / 2]);
    } else if (joint.kind === "glue") {
      const other = joint.between[1 - end];
      const glued = ringInOpen(assembly, other, panels[other].outline, k);
      for (const [ring, on] of [
        [panels[k].outline, { outline: glued, holes: [] }],
        [glued, panels[k]]
      ])
        for (let i = 0; i < ring.length; i += 2) {
          const place3 = towardsMiddle(ring, i);
          if (holds(on, place3[0], place3[1])) places.push(place3);
        }
    } else if (joint.kind === "pivot") places.push(joint.points[end]);
    else if (joint.kind === "slide" && end === 0) places.push(joint.point);
    else if (joint.kind === "slot" && end === 1) {
      const [x, y] = panels[k].holes[joint.hole];
      places.push([x, y]);
    }
  }
  return places;
}
function commonArea(shapes) {
  let area = 0;
  visitCells(
    shapes,
    shapes.map(() => 0),
    ({ count, width, height }) => {
      if (count === shapes.length) area += width * height;
    }
  );
  return area;
}
function towardsMiddle(ring, i) {
  let [mx, my] = [0, 0];
  for (let j = 0; j < ring.length; j += 2) {
    mx += 2 * ring[j] / ring.length;
    my += 2 * ring[j + 1] / ring.length;
  }
  return [ring[i] + 0.01 * (mx - ring[i]), ring[i + 1] + 0.01 * (my - ring[i + 1])];
}
function ringInOpen(assembly, from2, ring, to2) {
  const placed = new Float64Array(ring.length);
  for (let i = 0; i < ring.length; i += 2)
    [placed[i], placed[i + 1]] = pointInOpen(assembly, from2, [ring[i], ring[i + 1]], to2);
  return placed;
}
function nearness(a, b) {
  let least = Infinity;
  for (const [ring, other] of [
    [a, b],
    [b, a]
  ])
    for (let i = 0; i < ring.length; i += 2)
      least = Math.min(least, outsideOf(other, [ring[i], ring[i + 1]]));
  return overlapArea({ outline: a, holes: [] }, { outline: b, holes: [] }) > 0 ? Math.min(0, least) : least;
}

// card/src/parts/trim.ts
function applyTrims(assembly, trims2) {
  trims2.forEach((trim, i) => {
    const field = `trims.${i}.region`;
    const k = assembly.panelNamed(trim.panel, `trims.${i}.panel`);
    const region = regionOn(assembly.panels[k], trim.region);
    const fault = faultOf({ outline: region, holes: [] });
    if (fault !== void 0)
      throw new CannotBuild(`the region of a trim of '${trim.panel}' is no polygon: ${fault.why}`, field);
    const broken = assembly.handCut ? slotNear(assembly, k, region, TOUCHING) : whatTrimBreaks(assembly, k, region);
    if (broken !== null) throw new CannotBuild(`a trim of '${trim.panel}' ${broken}`, field);
    const left = trimmed(assembly, k, region);
    if (left === null)
      throw new CannotBuild(
        `a trim cuts '${trim.panel}' in two, and both are held, or leaves nothing of it`,
        field
      );
    setShape(assembly, k, left);
  });
}
function regionOn({ up }, region) {
  return counterClockwise(Float64Array.from(region.flatMap(([x, y]) => [x, up * y])));
}
function trimmed(assembly, k, region) {
  if (slotNear(assembly, k, region, TOUCHING) !== null) return null;
  const panel = assembly.panels[k];
  const slots = slotsOf(assembly, k).map(({ hole }) => panel.holes[hole]);
  const { outline } = panel;
  const holes = panel.holes.filter((hole) => !slots.includes(hole));
  const card2 = Clipper3.booleanOp(ClipType.Union, pathsOf({ outline, holes }), null, FillRule3.EvenOdd);
  const tree = new PolyTree64();
  Clipper3.booleanOpWithPolyTree(ClipType.Difference, card2, [pathOf(region)], tree, FillRule3.NonZero);
  const pieces = shapesIn(tree);
  const places = heldPlaces(assembly, k);
  const held = pieces.filter((piece2) => places.some(([x, y]) => touches(piece2, x, y)));
  if (held.length > 1) return null;
  const kept = (held.length === 1 ? held : pieces).reduce(
    (most, piece2) => most === null || signedArea(piece2.outline) > signedArea(most.outline) ? piece2 : most,
    null
  );
  if (kept === null || kept.outline.length < 6) return null;
  return { outline: kept.outline, holes: [...kept.holes, ...slots] };
}
function touches(piece2, x, y) {
  const near = 1e-4;
  return [
    [0, 0],
    [near, 0],
    [-near, 0],
    [0, near],
    [0, -near]
  ].some(([dx, dy]) => holds(piece2, x + dx, y + dy));
}
function setShape(assembly, k, { outline, holes }) {
  const panel = assembly.panels[k];
  panel.outline = outline;
  panel.holes = [...holes];
  slotsOf(assembly, k).forEach((joint, i, slots) => {
    joint.hole = holes.length - slots.length + i;
  });
}
function shapesIn(tree) {
  return childrenOf(tree).flatMap((outer) => {
    const inner = childrenOf(outer);
    return [
      { outline: counterClockwise(asCorners(outer.poly)), holes: inner.map(({ poly }) => asCorners(poly)) },
      ...inner.flatMap(shapesIn)
    ];
  });
}
var childrenOf = (node) => Array.from({ length: node.count }, (_, i) => node.child(i));
var ROUND_OFF4 = 4e-6;
function asCorners(path) {
  let corners = pointsOf(path ?? []);
  corners = corners.filter(([x, y], i) => {
    const [px, py] = corners[(i + corners.length - 1) % corners.length];
    return Math.hypot(x - px, y - py) > ROUND_OFF4;
  });
  corners = corners.filter(([x, y], i) => {
    const [px, py] = corners[(i + corners.length - 1) % corners.length];
    const [qx, qy] = corners[(i + 1) % corners.length];
    return Math.abs((qx - px) * (y - py) - (qy - py) * (x - px)) > ROUND_OFF4 * Math.hypot(qx - px, qy - py);
  });
  return Float64Array.from(corners.flat());
}

// card/src/figure/card.ts
import * as z19 from "zod";

// card/src/card/crease.ts
var CREASE_LENGTH = 80;
var CREASE_REST = 75 * Math.PI / 180;
var creaseStiffness = (bend) => bend / CREASE_LENGTH;

// card/src/card/stock.ts
var TENSILE_INDEX = { along: 6.25, across: 2.75 };
function stiffnessOf(thickness, grammage, modulus, bending) {
  const pulls = modulus?.map((gpa) => gpa * 1e3 * thickness) ?? bending?.map((bend) => 12 * bend / (thickness * thickness)) ?? [TENSILE_INDEX.along, TENSILE_INDEX.across].map((index) => index * grammage);
  const of = (pull, bend = plateStiffness(pull, thickness)) => ({ pull, bend });
  const along3 = of(pulls[0], bending?.[0]);
  const across3 = of(pulls[1], bending?.[1]);
  const any = of(Math.sqrt(along3.pull * across3.pull), Math.sqrt(along3.bend * across3.bend));
  return { along: along3, across: across3, any };
}
var plateStiffness = (pull, thickness) => pull * thickness * thickness / 12;

// card/src/figure/text/input-error.ts
var InputError = class extends Error {
  file;
  /** From 1; 0 where there is no line to speak of. */
  line;
  column;
  /** Such as 'parts.2.glue.1', places in lists counted from 0; empty where the whole file is meant. */
  field;
  found;
  remedy;
  constructor(at) {
    const { file, line: line2 = 0, column = 0 } = at;
    const field = shown(at.field ?? "", 200);
    const found3 = shown(at.found, 200);
    const remedy = shown(at.remedy, 800);
    const place3 = line2 > 0 ? `${shown(file, 300)}:${line2}:${column}` : shown(file, 300);
    super(`${place3}  ${field === "" ? "" : `${field}: `}found ${found3}; ${remedy}`);
    this.name = "InputError";
    this.file = file;
    this.line = line2;
    this.column = column;
    this.field = field;
    this.found = found3;
    this.remedy = remedy;
  }
  /** The one message to show. */
  toString() {
    return this.message;
  }
};
function shown(text, most) {
  const plain2 = plainText(text);
  return plain2.length > most ? `${plain2.slice(0, most - 1)}\u2026` : plain2;
}
var quoted = (text) => `'${shown(text, 60)}'`;
function described(value) {
  if (value === void 0 || value === null) return "nothing";
  if (typeof value === "string") return quoted(value);
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (typeof value === "object") {
    const names = Object.keys(value);
    return names.length === 0 ? "no fields" : `fields ${quoted(names.join(", "))}`;
  }
  return String(value);
}

// card/src/figure/text/near.ts
import { closest, distance as distance2 } from "fastest-levenshtein";
function nearest(name2, known) {
  if (known.length === 0) return void 0;
  const best = closest(name2, known);
  return distance2(name2, best) <= Math.max(1, Math.ceil(name2.length / 3)) ? best : void 0;
}
var MOST_LISTED = 20;
function knownNames(name2, known, what) {
  if (known.length === 0) return `there are no ${what}s`;
  const near = nearest(name2, known);
  const listed = known.slice(0, MOST_LISTED).join(", ") + (known.length > MOST_LISTED ? ", \u2026" : "");
  return `${near === void 0 ? "" : `did you mean '${near}'? `}the ${what}s are: ${listed}`;
}

// card/src/figure/text/check.ts
function valueAt(source, path) {
  let value = source.data;
  for (const step of path) {
    if (value === null || typeof value !== "object" || !Object.hasOwn(value, step)) return void 0;
    value = value[step];
  }
  return value;
}
function faultAt(source, path, remedy, found3 = described(valueAt(source, path)), within = 0) {
  const mark = markAt(source, path);
  return new InputError({
    file: source.file,
    line: mark?.[0],
    column: mark === void 0 ? void 0 : mark[1] + within,
    field: path.join("."),
    found: found3,
    remedy
  });
}
function strayField(source, path, remedy) {
  const mark = markAt(source, path);
  return new InputError({
    file: source.file,
    line: mark?.[2],
    column: mark?.[3],
    field: path.join("."),
    found: `the field ${quoted(String(path.at(-1)))}`,
    remedy
  });
}
function lineOf(source, field) {
  return markAt(source, field.split("."))?.[0] ?? 1;
}
function markAt(source, path) {
  for (let deep = path.length; deep >= 0; deep--) {
    const key = path.slice(0, deep).join(".");
    if (Object.hasOwn(source.marks, key)) return source.marks[key];
  }
  return void 0;
}
function checked(source, path, schema, value = valueAt(source, path) ?? void 0) {
  const result = schema.safeParse(value, { error: inWords });
  if (result.success) return result.data;
  const issue = firstOf(result.error.issues);
  const at = [...path, ...issue.path.map((step) => typeof step === "symbol" ? "" : step)];
  if (issue.code === "unrecognized_keys") throw strayField(source, [...at, issue.keys[0]], issue.message);
  throw faultAt(source, at, `give ${issue.message}`);
}
function firstOf(issues) {
  const issue = issues.find(({ code }) => code === "unrecognized_keys") ?? issues[0];
  if (issue.code !== "invalid_union") return issue;
  const inner = issue.errors.filter((errors) => errors.length > 0).map(firstOf);
  const deepest2 = inner.reduce(
    (deep, next) => next.path.length > (deep?.path.length ?? 0) ? next : deep,
    void 0
  );
  return deepest2 === void 0 ? issue : { ...deepest2, path: [...issue.path, ...deepest2.path] };
}
function inWords(issue) {
  switch (issue.code) {
    case "invalid_type":
      return kindInWords(issue);
    case "too_small":
      return bound(issue, issue.inclusive === false ? "above" : "at least", Number(issue.minimum));
    case "too_big":
      return bound(issue, issue.inclusive === false ? "below" : "at most", Number(issue.maximum));
    case "invalid_value":
      return `${issue.values.length > 1 ? "one of " : ""}${issue.values.join(", ")}`;
    case "unrecognized_keys":
      return knownNames(issue.keys[0], fieldsOf(issue.inst), "field");
    default:
      return "something else";
  }
}
function kindInWords({ expected, input, inst }) {
  const kind = KINDS[String(expected)] ?? "a value";
  if (expected === "number" && typeof input === "string" && /^\s*[−-]?[\d.]+\s*\p{L}/u.test(input))
    return `${kind} without a unit: lengths are mm, angles degrees`;
  const fields3 = fieldsOf(inst);
  if (expected === "object" && fields3.length > 0) return `{ \u2026 } with the fields: ${fields3.join(", ")}`;
  const places = placesOf(inst);
  return expected === "tuple" && places > 0 ? `${kind} of ${places}` : kind;
}
var KINDS = {
  number: "a number",
  string: "text",
  boolean: "yes or no",
  array: "a list",
  tuple: "a list",
  object: "fields",
  record: "fields"
};
function bound(issue, word3, limit) {
  const places = placesOf(issue.inst);
  if (issue.origin === "array" && places > 0) return `a list of ${places}`;
  if (issue.origin === "array") return `a list of ${word3} ${limit}`;
  if (issue.origin === "string") return `${word3} ${limit} characters`;
  return `a number ${word3} ${limit}`;
}
function fieldsOf(schema) {
  const def = schema?._zod.def;
  return Object.keys(def?.shape ?? {});
}
function placesOf(schema) {
  const def = schema?._zod.def;
  return def?.items?.length ?? 0;
}

// card/src/figure/card.ts
var GRAMMAGE = 250;
var BULK = 1.2;
var stock = {
  thickness: z19.number().min(0.02).max(10).optional(),
  grammage: z19.number().min(20).max(3e3).optional(),
  bulk: z19.number().min(0.4).max(5).optional(),
  grain: z19.enum(["along", "across", "any"]).optional(),
  /** Young's modulus along the grain and across it, GPa. */
  modulus: z19.tuple([z19.number().min(0.05).max(50), z19.number().min(0.05).max(50)]).optional(),
  /** Bending stiffness for a width of 1 mm, along and across: N mm, which is the mN m of ISO 2493 and ISO 5628. */
  bending: z19.tuple([z19.number().min(1e-3).max(1e5), z19.number().min(1e-3).max(1e5)]).optional(),
  /** Stiffness of a crease, N mm/rad for each mm, and the angle to which it opens by itself, degrees. */
  crease: z19.number().min(0).max(100).optional(),
  creaseRest: z19.number().min(0).max(180).optional()
};
var card = z19.strictObject({ ...stock, pieces: z19.record(z19.string(), z19.strictObject(stock)).prefault({}) }).prefault({});
function readCard(source) {
  const { pieces, ...own } = checked(source, ["card"], card);
  const whole2 = stockOf(
    thicknessOf(source, ["card"], own) ?? GRAMMAGE * BULK / 1e3,
    own.grammage ?? (own.thickness === void 0 ? GRAMMAGE : void 0),
    own
  );
  const byName = new Map(
    Object.entries(pieces).map(([name2, piece2]) => {
      const thickness = thicknessOf(source, ["card", "pieces", name2], piece2, own.bulk);
      const measured = thickness === void 0 ? { modulus: own.modulus, bending: own.bending } : {};
      return [
        name2,
        stockOf(
          thickness ?? whole2.thickness,
          piece2.grammage ?? (piece2.thickness === void 0 ? whole2.grammage : void 0),
          {
            grain: whole2.grain,
            crease: own.crease,
            creaseRest: own.creaseRest,
            ...measured,
            ...given(piece2)
          }
        )
      ];
    })
  );
  return { ...whole2, pieces: Object.fromEntries(byName), of: (piece2) => byName.get(piece2) ?? whole2 };
}
function thicknessOf(source, path, stock2, usualBulk = BULK) {
  const { thickness, grammage, bulk } = stock2;
  if (thickness !== void 0 && (grammage !== void 0 || bulk !== void 0))
    throw faultAt(source, path, "give thickness, or grammage and bulk", "thickness beside grammage or bulk");
  if (thickness !== void 0) return thickness;
  if (grammage === void 0 && bulk === void 0) return void 0;
  return (grammage ?? GRAMMAGE) * (bulk ?? usualBulk) / 1e3;
}
var given = ({ grain, modulus, bending, crease, creaseRest }) => ({
  ...grain === void 0 ? {} : { grain },
  ...modulus === void 0 ? {} : { modulus },
  ...bending === void 0 ? {} : { bending },
  ...crease === void 0 ? {} : { crease },
  ...creaseRest === void 0 ? {} : { creaseRest }
});
function stockOf(thickness, grammage, stock2) {
  const { modulus, bending, grain = "any" } = stock2;
  const stiffness = stiffnessOf(thickness, grammage ?? 1e3 * thickness / BULK, modulus, bending);
  return {
    thickness,
    ...grammage === void 0 ? {} : { grammage },
    grain,
    stiffness,
    crease: {
      stiffness: stock2.crease ?? creaseStiffness(stiffness.any.bend),
      rest: stock2.creaseRest === void 0 ? CREASE_REST : stock2.creaseRest * Math.PI / 180
    }
  };
}

// card/src/figure/dim-file.ts
import * as z20 from "zod";

// card/src/figure/text/arithmetic.ts
import jsep from "jsep";

// card/src/figure/text/arithmetic-words.ts
var RADIANS2 = Math.PI / 180;
var one = (apply) => ({ least: 1, most: 1, apply });
var FUNCTIONS = {
  min: { least: 1, most: 50, apply: Math.min },
  max: { least: 1, most: 50, apply: Math.max },
  sqrt: one(Math.sqrt),
  abs: one(Math.abs),
  sin: one((x) => Math.sin(x * RADIANS2)),
  cos: one((x) => Math.cos(x * RADIANS2)),
  tan: one((x) => Math.tan(x * RADIANS2)),
  asin: one((x) => Math.asin(x) / RADIANS2),
  acos: one((x) => Math.acos(x) / RADIANS2),
  atan: one((x) => Math.atan(x) / RADIANS2)
};
var ArithmeticError = class extends Error {
  constructor(at, found3, remedy) {
    super(`found ${found3} at place ${at + 1}; ${remedy}`);
    this.at = at;
    this.found = found3;
    this.remedy = remedy;
    this.name = "ArithmeticError";
  }
  at;
  found;
  remedy;
};

// card/src/figure/text/scan.ts
var DIM_NAME = /^[\p{L}_][\p{L}\p{Nd}_]*$/u;
var TOKEN = /[ \t\r\n]+|(?<number>(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)|(?<word>[\p{L}_][\p{L}\p{Nd}_]*)|[-+*/×÷−(),]/uy;
var WHAT_WOULD_DO = "use numbers, dims, + - * / \xD7 \xF7, brackets and functions only";
function scan(text) {
  const words = [];
  let before2;
  TOKEN.lastIndex = 0;
  for (let at = 0; at < text.length; at = TOKEN.lastIndex) {
    TOKEN.lastIndex = at;
    const found3 = TOKEN.exec(text);
    if (found3 === null) throw stray(text, at);
    const [token] = found3;
    if (token.trim() === "") continue;
    const { number: number9, word: word3 } = found3.groups ?? {};
    const begins = number9 !== void 0 || word3 !== void 0 || token === "(" && !before2?.callable;
    if (before2?.value && begins)
      throw new ArithmeticError(at, quoted(token), between(text, before2.text, token));
    if (token === "*" && before2?.text === "*")
      throw new ArithmeticError(at - 1, "'**'", "for a power, multiply: x * x");
    if (word3 !== void 0) words.push({ text: word3, at });
    before2 = {
      text: token,
      value: number9 !== void 0 || word3 !== void 0 || token === ")",
      callable: word3 !== void 0 && isCalled(text, TOKEN.lastIndex)
    };
    if (before2.callable && word3 !== void 0 && !Object.hasOwn(FUNCTIONS, word3))
      throw new ArithmeticError(
        at,
        `the function ${quoted(word3)}`,
        `the functions are ${Object.keys(FUNCTIONS).join(", ")}`
      );
  }
  return words;
}
function between(text, before2, token) {
  if (/^(mm|cm|m|in|inch|inches|deg|degrees?|rad)$/.test(token)) return UNITLESS;
  if (/^[\d.\s]*\d\s*(\.\.+|to)\s*[\d.]+\s*$/.test(text)) return "for a range, write { from: \u2026, to: \u2026 }";
  return `after ${quoted(before2)}, put a sign between them`;
}
var UNITLESS = "leave the unit out: lengths are mm, angles degrees";
var isCalled = (text, from2) => text.slice(from2).trimStart().startsWith("(");
function stray(text, at) {
  const sign = String.fromCodePoint(text.codePointAt(at) ?? 0);
  if (sign === "^") return new ArithmeticError(at, quoted(sign), "for a power, multiply: x * x");
  if (sign === "\xB0" || sign === "%") return new ArithmeticError(at, quoted(sign), UNITLESS);
  if (sign === "\u2026") return new ArithmeticError(at, quoted(sign), "for a range, write { from: \u2026, to: \u2026 }");
  return new ArithmeticError(at, quoted(sign), WHAT_WOULD_DO);
}

// card/src/figure/text/arithmetic.ts
var LONGEST2 = 500;
function parseArithmetic(text) {
  if (text.length > LONGEST2)
    throw new ArithmeticError(0, `${text.length} characters`, `at most ${LONGEST2}; use dims for its parts`);
  const words = scan(text);
  let tree;
  try {
    tree = jsep(text.replaceAll("\xD7", "*").replaceAll("\xF7", "/").replaceAll("\u2212", "-"));
  } catch (error) {
    const at = Math.min(Number(error.index) || 0, text.length);
    const rest = text.slice(at).trimStart();
    throw new ArithmeticError(
      at,
      rest === "" ? `the end of ${quoted(text)}` : quoted(rest),
      "a number, a dim or a bracket is missing"
    );
  }
  return asExpression(tree, words.values(), text);
}
function asExpression(node, words, text) {
  const inner = (part2) => asExpression(part2, words, text);
  switch (node.type) {
    case "Literal":
      if (typeof node.value === "number") return { kind: "number", value: node.value };
      break;
    case "Identifier":
      return { kind: "dim", name: node.name, at: words.next().value?.at ?? 0 };
    case "UnaryExpression":
      if (node.operator === "+" || node.operator === "-")
        return { kind: "apply", of: node.operator, to: [inner(node.argument)] };
      break;
    case "BinaryExpression":
      if (["+", "-", "*", "/"].includes(node.operator))
        return { kind: "apply", of: node.operator, to: [inner(node.left), inner(node.right)] };
      break;
    case "CallExpression": {
      const called = inner(node.callee);
      if (called.kind === "dim")
        return { kind: "apply", of: called.name, to: counted(called, node.arguments.map(inner)) };
    }
  }
  throw new ArithmeticError(0, quoted(text), "give one number, dim or arithmetic over dims");
}
function counted(called, values) {
  const { least, most } = FUNCTIONS[called.name];
  if (values.length >= least && values.length <= most) return values;
  throw new ArithmeticError(
    called.at,
    `${called.name} of ${values.length} values`,
    most === 1 ? `${called.name} takes one` : `${called.name} takes one or more, with commas between`
  );
}
function compileArithmetic(expression, slotOf) {
  if (expression.kind === "number") {
    const { value: value2 } = expression;
    return { formula: () => value2, constant: true };
  }
  if (expression.kind === "dim") {
    const slot2 = slotOf(expression.name, expression.at);
    return { formula: (dims) => dims[slot2], constant: false };
  }
  const parts = expression.to.map((part2) => compileArithmetic(part2, slotOf));
  const formula = applied(
    expression.of,
    parts.map((part2) => part2.formula)
  );
  if (!parts.every((part2) => part2.constant)) return { formula, constant: false };
  const value = formula(new Float64Array(0));
  return { formula: () => value, constant: true };
}
function applied(of, to2) {
  const [a, b] = to2;
  if (of === "+") return b === void 0 ? a : (dims) => a(dims) + b(dims);
  if (of === "-") return b === void 0 ? (dims) => -a(dims) : (dims) => a(dims) - b(dims);
  if (of === "*") return (dims) => a(dims) * b(dims);
  if (of === "/") return (dims) => a(dims) / b(dims);
  const apply = FUNCTIONS[of].apply;
  if (b === void 0) return (dims) => apply(a(dims));
  if (to2.length === 2) return (dims) => apply(a(dims), b(dims));
  return (dims) => apply(...to2.map((part2) => part2(dims)));
}
function tellUnits(expression, unit3, tell) {
  if (expression.kind === "number") return;
  if (expression.kind === "dim") {
    tell(expression.name, unit3);
    return;
  }
  const { of, to: to2 } = expression;
  const all = (parts, inUnit) => {
    for (const part2 of parts) tellUnits(part2, inUnit, tell);
  };
  if (["+", "-", "min", "max", "abs"].includes(of)) all(to2, unit3);
  else if (["sin", "cos", "tan"].includes(of)) all(to2, "degrees");
  else if (of === "*" && to2.some(isNumber)) all(to2, unit3);
  else if (of === "/" && isNumber(to2[1])) all([to2[0]], unit3);
}
var isNumber = (expression) => expression.kind === "number";

// card/src/figure/dim-file.ts
var MOST_DIMS = 200;
var MOST_OPTIONS = 50;
var GREATEST = 1e6;
var unit2 = z20.enum(["mm", "degrees"]).optional();
var bounded = () => z20.number().min(-GREATEST).max(GREATEST);
var range = z20.strictObject({
  from: bounded(),
  to: bounded(),
  start: bounded().optional(),
  step: z20.number().positive().max(GREATEST).optional(),
  unit: unit2
});
var choice = z20.strictObject({
  choose: z20.array(z20.union([bounded(), label()], { error: "a word or a number" })).min(1).max(MOST_OPTIONS).refine((options) => new Set(options.map((option) => typeof option)).size === 1, {
    error: "words only, or numbers only"
  }).refine((options) => new Set(options).size === options.length, { error: "each word or number once" }).transform((options) => options),
  unit: unit2
});
function readDims(source) {
  const found3 = valueAt(source, ["dims"]) ?? {};
  if (typeof found3 !== "object" || Array.isArray(found3))
    throw faultAt(source, ["dims"], "give fields such as 'height: 40' or 'height: { from: 20, to: 60 }'");
  const names = Object.keys(found3);
  if (names.length > MOST_DIMS)
    throw faultAt(source, ["dims"], `give at most ${MOST_DIMS}`, `${names.length} dims`);
  return names.map((name2) => readDim(source, name2, ["dims", name2]));
}
function readDim(source, name2, path) {
  if (!DIM_NAME.test(name2) || name2.length > 40)
    throw strayField(
      source,
      path,
      "name a dim with letters, digits and _, the first no digit, at most 40 in all"
    );
  if (Object.hasOwn(FUNCTIONS, name2) || ["true", "false", "null", "this"].includes(name2))
    throw strayField(source, path, "the word has a meaning in arithmetic; choose another name");
  const written = valueAt(source, path);
  if (typeof written === "number")
    return { name: name2, unit: void 0, kind: "number", value: checked(source, path, bounded()) };
  if (typeof written === "string")
    return { name: name2, unit: void 0, kind: "arithmetic", expression: readArithmetic(source, path, written) };
  if (written === null || written === void 0 || typeof written !== "object" || Array.isArray(written))
    throw faultAt(
      source,
      path,
      "give a number, { from: \u2026, to: \u2026 }, { choose: [\u2026] } or arithmetic over other dims"
    );
  if (Object.hasOwn(written, "choose")) {
    const { choose: choose2, unit: unit3 } = checked(source, path, choice);
    return { name: name2, unit: unit3, kind: "choice", options: choose2 };
  }
  return readRange(source, name2, path);
}
function readRange(source, name2, path) {
  const { from: from2, to: to2, start, step, unit: unit3 } = checked(source, path, range);
  if (from2 >= to2)
    throw faultAt(source, [...path, "to"], `give a number above ${from2}, where the range begins`);
  if (start !== void 0 && (start < from2 || start > to2))
    throw faultAt(source, [...path, "start"], `give a number from ${from2} to ${to2}`);
  if (step !== void 0 && step > to2 - from2)
    throw faultAt(source, [...path, "step"], `give at most ${to2 - from2}, the length of the range`);
  return { name: name2, unit: unit3, kind: "range", from: from2, to: to2, start: start ?? (from2 + to2) / 2, step };
}
function readArithmetic(source, path, text) {
  try {
    return parseArithmetic(text);
  } catch (error) {
    if (error instanceof ArithmeticError) throw faultAt(source, path, error.remedy, error.found, error.at);
    throw error;
  }
}

// card/src/figure/text/order.ts
function inOrder(expressions, circular) {
  const ordered = /* @__PURE__ */ new Map();
  const under = [];
  const visit = (name2) => {
    const expression = expressions.get(name2);
    if (expression === void 0 || ordered.has(name2)) return;
    if (under.includes(name2)) circular([...under.slice(under.indexOf(name2)), name2]);
    under.push(name2);
    for (const used2 of namesIn(expression)) visit(used2);
    under.pop();
    ordered.set(name2, expression);
  };
  for (const name2 of expressions.keys()) visit(name2);
  return [...ordered];
}
function namesIn(expression) {
  if (expression.kind === "dim") return [expression.name];
  return expression.kind === "apply" ? expression.to.flatMap(namesIn) : [];
}

// card/src/figure/dims.ts
var Dims = class {
  constructor(source) {
    this.source = source;
    this.written = readDims(source);
    this.slots = new Float64Array(this.written.length);
    for (const [slot2, dim] of this.written.entries()) {
      this.slotByName.set(dim.name, slot2);
      if (dim.unit !== void 0) this.units.set(dim.name, dim.unit);
    }
    this.freeDims = this.written.filter(isFree);
    this.fixedDims = this.written.filter((dim) => dim.kind === "number");
    for (const [place3, dim] of this.freeDims.entries()) this.setFree.push(this.setter(dim, place3));
    for (const dim of this.written)
      if (dim.kind === "choice" && !isFree(dim))
        this.slots[this.slotOf(dim.name)] = typeof dim.options[0] === "number" ? dim.options[0] : 0;
    const expressions = /* @__PURE__ */ new Map();
    for (const dim of this.written) if (dim.kind === "arithmetic") expressions.set(dim.name, dim.expression);
    const path = (name2) => ["dims", name2];
    this.arithmetic = inOrder(expressions, (names) => {
      throw faultAt(
        source,
        path(names[0]),
        "break the circle: give one of them a number or a range",
        `a circle: ${names.join(" \u2192 ")}`
      );
    }).map(([name2, expression]) => {
      const { formula, constant } = this.compile(expression, path(name2));
      if (constant && !Number.isFinite(formula(this.slots)))
        throw faultAt(source, path(name2), "give arithmetic whose result is a number");
      return { name: name2, slot: this.slotOf(name2), formula };
    });
  }
  source;
  /** Filled by `fill`; reused from one candidate to the next. */
  slots;
  written;
  freeDims;
  fixedDims;
  slotByName = /* @__PURE__ */ new Map();
  units = /* @__PURE__ */ new Map();
  setFree = [];
  arithmetic;
  /** Puts the values of all dims in their slots. Throws CannotBuild where arithmetic gives no number. */
  fill(vector) {
    const free = this.setFree.length;
    const fixed = this.fixedDims.length;
    if (vector.length !== free && vector.length !== free + fixed)
      throw new RangeError(`a vector of ${vector.length} dims, where ${free} are free`);
    for (const set of this.setFree) set(vector, this.slots);
    for (const [place3, dim] of this.fixedDims.entries())
      this.slots[this.slotOf(dim.name)] = vector.length > free ? vector[free + place3] : dim.value;
    for (const { name: name2, slot: slot2, formula } of this.arithmetic) {
      const value = formula(this.slots);
      if (!Number.isFinite(value))
        throw new CannotBuild(`the arithmetic of dim '${name2}' gives no number here`, `dims.${name2}`);
      this.slots[slot2] = value;
    }
  }
  /** Compiles arithmetic at a path of the figure file. */
  compile(expression, path) {
    return compileArithmetic(expression, (name2, at) => {
      const dim = this.named(name2);
      if (dim === void 0)
        throw faultAt(
          this.source,
          path,
          knownNames(
            name2,
            this.written.map((known) => known.name),
            "dim"
          ),
          quoted(name2),
          at
        );
      if (wordsOf(dim) !== void 0)
        throw faultAt(this.source, path, "use a dim that is a number", `'${name2}', a choice of words`, at);
      return this.slotOf(name2);
    });
  }
  named(name2) {
    const slot2 = this.slotByName.get(name2);
    return slot2 === void 0 ? void 0 : this.written[slot2];
  }
  slotOf(name2) {
    return this.slotByName.get(name2) ?? -1;
  }
  /** Learns the units of dims from arithmetic whose result has a unit. What was learnt first stays. */
  learnUnits(expression, unit3) {
    if (unit3 === "") return;
    tellUnits(expression, unit3, (name2, inUnit) => {
      if (this.units.has(name2)) return;
      this.units.set(name2, inUnit);
      const dim = this.named(name2);
      if (dim?.kind === "arithmetic") this.learnUnits(dim.expression, inUnit);
    });
  }
  unitOf(name2) {
    return this.units.get(name2) ?? "";
  }
  all() {
    return this.written.map(({ name: name2, kind }) => ({ name: name2, kind, unit: this.unitOf(name2) }));
  }
  free() {
    return this.freeDims.map((dim) => {
      const { name: name2 } = dim;
      const unit3 = this.unitOf(name2);
      if (dim.kind === "choice") return { name: name2, kind: "choice", unit: unit3, options: dim.options };
      if (dim.kind !== "range") throw new TypeError(`${name2} is not free`);
      const { from: min, to: max, start, step } = dim;
      return { name: name2, kind: "real", unit: unit3, min, max, start, ...step === void 0 ? {} : { step } };
    });
  }
  /** The free dims as they start: a range at its start value, else its middle; a choice at its first. */
  start() {
    return Float64Array.from(this.freeDims, (dim) => dim.kind === "range" ? dim.start : 0);
  }
  /** Every dim's value for a candidate, in file order: a number, or the chosen word. */
  values(vector) {
    this.fill(vector);
    return new Map(
      this.written.map((dim, slot2) => [dim.name, wordsOf(dim)?.[this.slots[slot2]] ?? this.slots[slot2]])
    );
  }
  setter(dim, place3) {
    const slot2 = this.slotOf(dim.name);
    if (dim.kind !== "choice")
      return (vector, slots) => {
        slots[slot2] = vector[place3];
      };
    const options = dim.options;
    const values = Float64Array.from(options, (option, i) => typeof option === "number" ? option : i);
    const last = values.length - 1;
    return (vector, slots) => {
      slots[slot2] = values[Math.min(last, Math.max(0, Math.round(vector[place3])))];
    };
  }
};
var isFree = (dim) => dim.kind === "range" || dim.kind === "choice" && dim.options.length > 1;
function wordsOf(dim) {
  return dim.kind === "choice" && typeof dim.options[0] === "string" ? dim.options : void 0;
}

// card/src/figure/kinds.ts
function readEntries(source, list, schemaOf, most) {
  const entries = valueAt(source, [list]) ?? [];
  if (!Array.isArray(entries))
    throw faultAt(source, [list], "give a list, each entry with a name and a kind");
  if (entries.length > most) throw faultAt(source, [list], `give at most ${most}`);
  const taken = /* @__PURE__ */ new Set();
  return entries.map((entry, i) => {
    const path = [list, i];
    if (entry === null || typeof entry !== "object" || Array.isArray(entry))
      throw faultAt(source, path, "give fields, beginning with 'name: \u2026' and 'kind: \u2026'");
    const name2 = checked(source, [...path, "name"], label());
    if (taken.has(name2))
      throw faultAt(source, [...path, "name"], "give each a name of its own", `${described(name2)} twice`);
    taken.add(name2);
    const { name: _, kind, ...rest } = entry;
    const kinds = Object.keys(schemaOf);
    if (typeof kind !== "string" || !Object.hasOwn(schemaOf, kind))
      throw faultAt(source, [...path, "kind"], knownNames(String(kind ?? ""), kinds, "kind"));
    return { name: name2, kind, fields: checked(source, path, schemaOf[kind], rest), path };
  });
}

// card/src/limits/index.ts
import * as z24 from "zod";

// card/src/limits/limit.ts
import * as z21 from "zod";
var declareLimit = (limit) => limit;
var upTo = (most, usual) => z21.number().min(0).max(most).prefault(usual);
var mm = (usual) => upTo(1e3, usual);
var DEGREE_SCALE = 10;
var NOTHING = { value: 0, finding: null };
function moving(measure2) {
  return (measured, given2) => measured.moves ? measure2(measured, given2) : { unknown: { because: "it never opens flat", pageAngle: measured.lock?.pageAngle ?? 180 } };
}
function whenShut(measure2) {
  return ({ shut, lock }, given2) => shut === null ? { unknown: { because: "it never shuts", pageAngle: lock?.pageAngle ?? 180 } } : measure2(shut, given2);
}
var found2 = (kind, panels, pageAngle2, place3 = null, part2 = null) => ({
  kind,
  panels: panels.filter((panel) => panel !== null),
  part: part2,
  pageAngle: pageAngle2,
  place: place3
});

// card/src/limits/catch.ts
var catches = declareLimit({
  name: "catch",
  unit: "mm",
  scale: 1,
  fields: {
    /** Deepest catch that may count, mm. */
    catch: mm(0),
    /** A contact whose push is less only presses, mm: about one card. */
    press: mm(0.3)
  },
  bound: (given2) => ({ most: given2.catch }),
  measure: moving(
    ({ catch: worst }) => worst === null ? NOTHING : {
      value: worst.depth,
      finding: found2("catches", worst.between, worst.pageAngle, { points: worst.points })
    }
  )
});

// card/src/limits/covered.ts
import * as z22 from "zod";

// card/src/limits/overhang.ts
var overhang = declareLimit({
  name: "overhang",
  unit: "mm",
  scale: 1,
  fields: {
    /** How far card may stick out past the page's edges when shut, mm. */
    overhang: mm(0)
  },
  bound: (given2) => ({ most: given2.overhang }),
  measure: whenShut((shut) => ({
    value: shut.overhang,
    finding: found2("sticks out", [shut.overhanging], 0)
  }))
});

// card/src/limits/covered.ts
var covered = declareLimit({
  name: "covered",
  unit: "mm",
  scale: 1,
  fields: {
    overhang: overhang.fields.overhang,
    /** Page angle below which the pages must cover the card but for that much, degrees; 0: when shut. */
    coveredBelow: z22.number().min(0).max(180).prefault(0)
  },
  applies: ({ coveredBelow }) => coveredBelow > 0,
  bound: (given2) => ({ most: given2.overhang }),
  measure({ lock, uncovered }, { coveredBelow }) {
    if (lock !== null && lock.pageAngle > coveredBelow)
      return { unknown: { because: "it never shuts", pageAngle: lock.pageAngle } };
    const worst = uncovered?.[0];
    if (worst === void 0) return NOTHING;
    return {
      value: worst.past,
      finding: found2("sticks out", [worst.panel], worst.pageAngle, { edge: worst.edge })
    };
  }
});

// card/src/limits/flat-when-open.ts
import * as z23 from "zod";
var FLAT_OPEN = 0.3;
var flatWhenOpen = declareLimit({
  name: "flat when open",
  unit: "mm",
  scale: 1,
  fields: {
    /** Whether it must lie flat when open, must stand, or may do either. */
    flatWhenOpen: z23.union([z23.enum(["yes", "no", "any"]), z23.boolean().transform((flat) => flat ? "yes" : "no")], {
      error: "yes, no or any"
    }).prefault("any")
  },
  applies: (given2) => given2.flatWhenOpen !== "any",
  bound: (given2) => given2.flatWhenOpen === "yes" ? { most: FLAT_OPEN } : { least: FLAT_OPEN },
  measure: ({ openResidue, handCut }, given2) => ({
    // Asked of the drawing: the springing of creases lifts card that is cut by hand by more than its errors do.
    value: handCut && given2.flatWhenOpen === "yes" ? Math.min(openResidue, FLAT_OPEN) : openResidue,
    finding: found2(given2.flatWhenOpen === "yes" ? "stands off" : "does not stand", [], 180)
  })
});

// card/src/card/grade.ts
var STRENGTHS = { easy: 5, hard: 15, strain: 0.01, tears: 0.02, marks: 0.01 };
function gradeOf(force2, membraneStrain, bendingStrain, by = STRENGTHS) {
  if (!(force2 <= by.hard && membraneStrain <= by.tears)) return "jams or tears";
  return force2 <= by.easy && membraneStrain <= by.strain && bendingStrain <= by.marks ? "works" : "stiff";
}

// card/src/limits/force.ts
var FORCE_SCALE = STRENGTHS.hard;
var force = declareLimit({
  name: "force",
  unit: "N",
  scale: FORCE_SCALE,
  fields: {
    /** Hardest push or pull at the page's edge, N. */
    force: upTo(1e4, STRENGTHS.hard),
    /** What needs more than this is stiff: it works, and is told, N. */
    easyForce: upTo(1e4, STRENGTHS.easy)
  },
  bound: (given2) => ({ most: given2.force }),
  measure: moving(({ force: forces }) => {
    if (forces === null) return NOTHING;
    const worst = forces.toShut.value >= forces.toOpen.value ? forces.toShut : forces.toOpen;
    return {
      value: worst.value,
      finding: worst.pageAngle === null ? null : found2(
        worst === forces.toShut ? "is hard to shut" : "is hard to open",
        [],
        worst.pageAngle,
        null,
        worst.part
      )
    };
  })
});

// card/src/card/gives-way.ts
var BENDS_ASIDE = 2;
var LIES_FLAT = 8;
var BOWS = 3;
var beyond = (value, givesWay, handCut) => handCut ? Math.max(0, value - givesWay) : value;

// card/src/limits/give.ts
var give = declareLimit({
  name: "give",
  unit: "mm",
  scale: 1,
  fields: {
    /** How far card can be forced before it binds, mm. */
    give: mm(0.5)
  },
  bound: (given2) => ({ most: given2.give }),
  measure: moving(({ binding: { value, at, pageAngle: pageAngle2 }, handCut }) => ({
    value: beyond(value, BOWS, handCut),
    finding: at === null ? null : found2("does not meet", at.panels, pageAngle2, { joint: at.joint }, at.part)
  }))
});

// card/src/limits/glue.ts
var GLUE_SCALE = 10;
var glue = declareLimit({
  name: "glue",
  unit: "mm\xB2",
  scale: GLUE_SCALE,
  fields: {
    /** How much of any one glue area may lie off card, on something else, or where something moves, mm². */
    glue: upTo(1e5, 25)
  },
  bound: (given2) => ({ most: given2.glue }),
  measure: moving(
    ({ glue: [worst] }) => worst === void 0 ? NOTHING : {
      value: worst.area,
      finding: found2("is glued badly", [worst.glued, worst.receiver], null, {
        glue: worst.kind,
        other: worst.other
      })
    }
  )
});

// card/src/limits/jump.ts
var jump = declareLimit({
  name: "jump",
  unit: "degrees",
  scale: DEGREE_SCALE,
  fields: {
    /** How far a limb may turn at once, where it passes a dead point, degrees. */
    jump: upTo(180, 0)
  },
  applies: (_, { chains }) => chains,
  bound: (given2) => ({ most: given2.jump }),
  measure: moving(({ chains }) => {
    if (chains === null) return NOTHING;
    const { value, at, pageAngle: pageAngle2 } = chains.jump;
    return {
      value,
      finding: at === null ? null : found2("jumps", at.panels, pageAngle2, { joint: at.joint }, at.part)
    };
  })
});

// card/src/limits/keep-clear.ts
var keepsClear = declareLimit({
  name: "keep clear",
  unit: "mm",
  scale: 1,
  fields: {},
  applies: (_, { keepClear }) => keepClear,
  bound: () => ({ most: 0 }),
  measure: moving(
    ({ intrusion }) => intrusion === null || intrusion.space === null ? NOTHING : {
      value: intrusion.value,
      finding: found2("enters a space", [intrusion.panel], intrusion.pageAngle, {
        space: intrusion.space
      })
    }
  )
});

// card/src/limits/outside.ts
var outside = declareLimit({
  name: "outside",
  unit: "mm",
  scale: 1,
  fields: {
    /** How far card may leave the wedge between the pages, mm. */
    outside: mm(0.3)
  },
  bound: (given2) => ({ most: given2.outside }),
  measure: moving(({ outside: { value, panel, pageAngle: pageAngle2 }, handCut }) => ({
    value: beyond(value, BENDS_ASIDE, handCut),
    finding: found2("leaves the pages", [panel], pageAngle2)
  }))
});

// card/src/limits/pile.ts
var pile2 = declareLimit({
  name: "pile",
  unit: "mm",
  scale: 1,
  fields: {
    /** Thickest pile of card between the pages when shut, mm. */
    pile: mm(3)
  },
  bound: (given2) => ({ most: given2.pile }),
  measure: whenShut((shut) => ({ value: shut.pile, finding: found2("piles up", [], 0) }))
});

// card/src/limits/residue.ts
var residue = declareLimit({
  name: "residue",
  unit: "mm",
  scale: 1,
  fields: {
    /** How far card may stand off the left page when shut, mm, its thickness left out. */
    residue: mm(0.3)
  },
  bound: (given2) => ({ most: given2.residue }),
  measure: whenShut((shut) => ({ value: shut.residue, finding: found2("stands off", [], 0) }))
});

// card/src/limits/shuts.ts
var shuts = declareLimit({
  name: "shuts",
  unit: "degrees",
  scale: DEGREE_SCALE,
  // A figure that locks just before it is shut still is broken.
  leastExcess: 0.1,
  fields: {},
  bound: () => ({ most: 0 }),
  measure: ({ lock }) => lock === null ? NOTHING : {
    value: lock.pageAngle,
    finding: found2("locks", lock.at.panels, lock.pageAngle, { joint: lock.at.joint }, lock.at.part)
  }
});

// card/src/limits/strain.ts
var strain = declareLimit({
  name: "strain",
  unit: "%",
  scale: 1,
  fields: {
    /** Greatest strain in the plane of the card, per cent. */
    strain: upTo(100, STRENGTHS.tears * 100),
    /** What is strained by more than this, or bent by as much, is stiff: it works, and is told, per cent. */
    easyStrain: upTo(100, STRENGTHS.strain * 100)
  },
  bound: (given2) => ({ most: given2.strain }),
  measure: moving(({ force: force2 }) => {
    if (force2 === null) return NOTHING;
    const { value, pageAngle: pageAngle2, part: part2 } = force2.strain;
    return {
      value: value * 100,
      finding: pageAngle2 === null ? null : found2("is strained", [], pageAngle2, null, part2)
    };
  })
});

// card/src/limits/tilt.ts
var tilt = declareLimit({
  name: "tilt",
  unit: "degrees",
  scale: DEGREE_SCALE,
  fields: {
    /** How far the two parts on a hub may tilt against each other, degrees. */
    tilt: upTo(90, 20)
  },
  applies: (_, { chains }) => chains,
  bound: (given2) => ({ most: given2.tilt }),
  measure: moving(({ chains }) => {
    if (chains === null) return NOTHING;
    const { value, at, pageAngle: pageAngle2 } = chains.tilt;
    return {
      value,
      finding: at === null ? null : found2("tilts", at.panels, pageAngle2, { joint: at.joint }, at.part)
    };
  })
});

// card/src/limits/index.ts
var limitFields = z24.strictObject({
  ...catches.fields,
  ...covered.fields,
  ...outside.fields,
  ...pile2.fields,
  ...glue.fields,
  ...give.fields,
  ...force.fields,
  ...strain.fields,
  ...tilt.fields,
  ...jump.fields,
  ...residue.fields,
  ...flatWhenOpen.fields
}).prefault({});
var LIMITS = [
  shuts,
  catches,
  force,
  strain,
  give,
  outside,
  residue,
  overhang,
  pile2,
  glue,
  covered,
  keepsClear,
  tilt,
  jump,
  flatWhenOpen
];

// card/src/figure/limits.ts
var readLimits = (source) => checked(source, ["limits"], limitFields);

// card/src/figure/page.ts
import * as z25 from "zod";

// card/src/figure/iso216.ts
var WHOLE = {
  A: { width: 841, height: 1189 },
  B: { width: 1e3, height: 1414 }
};
function isoSheet(name2) {
  const found3 = /^([AB])(10|[0-9])(?: (portrait|landscape))?$/i.exec(name2.trim());
  if (found3 === null) return void 0;
  let { width, height } = WHOLE[found3[1].toUpperCase()];
  for (let size3 = Number(found3[2]); size3 > 0; size3--) [width, height] = [Math.floor(height / 2), width];
  return found3[3]?.toLowerCase() === "landscape" ? { width: height, height: width } : { width, height };
}

// card/src/figure/page.ts
var side = () => z25.number().min(10).max(2e3);
var size2 = z25.strictObject({ width: side(), height: side() });
function readPage(source) {
  const written = valueAt(source, ["page"]);
  const remedy = "give { width: \u2026, height: \u2026 } in mm for one leaf, or a sheet such as 'A5 portrait'";
  if (typeof written === "string") {
    const sheet = isoSheet(written);
    if (sheet === void 0) throw faultAt(source, ["page"], remedy);
    return sheet;
  }
  if (written === void 0 || written === null || typeof written !== "object" || Array.isArray(written))
    throw faultAt(source, ["page"], remedy);
  return checked(source, ["page"], size2);
}
var opening = z25.strictObject({
  from: z25.literal(180).prefault(180),
  to: z25.literal(0).prefault(0),
  step: z25.number().min(0.1).max(2).refine((step) => Math.abs(Math.round(180 / step) - 180 / step) < 1e-9, {
    error: "a step that divides 180, such as 2, 1 or 0.5"
  }).prefault(2)
}).prefault({});
var readPageSteps = (source) => checked(source, ["opening"], opening);

// card/src/figure/places.ts
import * as z26 from "zod";
var mm2 = () => z26.number().min(-LONGEST).max(LONGEST);
var corner = () => z26.tuple([mm2(), mm2(), mm2()], { error: "a corner [x, y, z] in mm" });
var boxes = z26.array(
  z26.strictObject({
    name: label(),
    on: z26.enum(["left page", "right page"]).prefault("left page"),
    from: corner(),
    to: corner()
  })
).max(50).prefault([]);
function readKeepClear(source) {
  return checked(source, ["keepClear"], boxes).map(({ name: name2, on, from: from2, to: to2 }, i) => {
    const least = from2.map((v, axis2) => Math.min(v, to2[axis2]));
    const most = from2.map((v, axis2) => Math.max(v, to2[axis2]));
    if (least.some((v, axis2) => v === most[axis2]))
      throw faultAt(source, ["keepClear", i, "to"], "give a corner that differs from `from` in x, y and z");
    if (most[2] <= 0)
      throw faultAt(source, ["keepClear", i, "to"], "give a z above 0", "a box behind its page");
    least[2] = Math.max(0, least[2]);
    return { name: name2, on, least, most };
  });
}
var trims = z26.array(
  z26.strictObject({
    panel: z26.string({ error: "the name of a panel" }),
    region: z26.array(z26.tuple([mm2(), mm2()], { error: "a point [x, y] in mm" })).min(3).max(200)
  })
).max(200).prefault([]);
var readTrims = (source) => checked(source, ["trims"], trims);

// card/src/figure/resolve.ts
function compileFields(source, dims, fields3, path) {
  const node = compile(source, dims, fields3, path);
  const at = node.constant ? () => node.value : node.at;
  return at;
}
function compile(source, dims, value, path) {
  if (value instanceof Quantity) return quantity2(source, dims, value, path);
  if (value instanceof Word) return word2(source, dims, value, path);
  if (Array.isArray(value)) {
    const parts = value.map((part2, i) => compile(source, dims, part2, [...path, i]));
    return together(parts, (values) => values);
  }
  if (typeof value === "object" && value !== null) {
    const names = Object.keys(value);
    const parts = Object.entries(value).map(([name2, part2]) => compile(source, dims, part2, [...path, name2]));
    const node = together(parts, (values) => {
      const fields3 = {};
      for (let i = 0; i < names.length; i++) fields3[names[i]] = values[i];
      return fields3;
    });
    if (node.constant && "polygon" in value) {
      const fault = outlineFault(node.value);
      if (fault !== void 0)
        throw faultAt(
          source,
          path,
          "draw one simple outline, with holes inside it",
          `an outline that is ${fault}`
        );
    }
    return node;
  }
  return { constant: true, value };
}
function together(parts, join) {
  if (parts.every((part2) => part2.constant))
    return { constant: true, value: Object.freeze(join(parts.map((part2) => part2.value))) };
  const resolvers = parts.map((part2) => part2.constant ? () => part2.value : part2.at);
  return { constant: false, at: (dims) => join(resolvers.map((resolve) => resolve(dims))) };
}
function quantity2(source, dims, { written, unit: unit3, least, most }, path) {
  const inBounds = (value) => value >= least && value <= most;
  const bounds = `from ${least} to ${most}${unit3 === "" ? "" : ` ${unit3}`}`;
  if (typeof written === "number") {
    if (!inBounds(written)) throw faultAt(source, path, `give ${bounds}`);
    return { constant: true, value: written };
  }
  const expression = readArithmetic(source, path, written);
  const { formula, constant } = dims.compile(expression, path);
  dims.learnUnits(expression, unit3);
  if (constant) {
    const value = formula(dims.slots);
    const result = Number.isFinite(value) ? `is ${value}` : "gives no number";
    if (!inBounds(value))
      throw faultAt(source, path, `give ${bounds}`, `${quoted(written)}, which ${result}`);
    return { constant: true, value };
  }
  return { constant: false, at: checkedFormula(formula, inBounds, written, bounds, path.join(".")) };
}
function checkedFormula(formula, inBounds, written, bounds, field) {
  return (dims) => {
    const value = formula(dims);
    if (inBounds(value)) return value;
    const found3 = Number.isFinite(value) ? `is ${Number(value.toPrecision(6))} here` : "gives no number here";
    throw new CannotBuild(`${quoted(written)} ${found3}, and should be ${bounds}`, field);
  };
}
function word2(source, dims, { written, options }, path) {
  const dim = dims.named(written);
  const words = dim === void 0 ? void 0 : wordsOf(dim);
  for (const each of words ?? [written])
    if (options.length > 0 && !options.includes(each))
      throw faultAt(
        source,
        path,
        knownNames(each, options, "word"),
        words === void 0 ? quoted(each) : `${quoted(each)}, a choice of dim '${written}'`
      );
  if (words === void 0) return { constant: true, value: written };
  if (words.length === 1) return { constant: true, value: words[0] };
  const slot2 = dims.slotOf(written);
  return { constant: false, at: (slots) => words[slots[slot2]] };
}

// card/src/figure/settings.ts
function vectorFrom(dims, settings) {
  const free = dims.start();
  const fixed = Float64Array.from(dims.fixedDims, (dim) => dim.value);
  let overridden = false;
  for (const [name2, text] of settings) {
    const dim = dims.named(name2);
    if (dim === void 0) {
      const known = dims.written.map((each) => each.name);
      throw refused(name2, quoted(name2), knownNames(name2, known, "dim"));
    }
    const place3 = dims.freeDims.indexOf(dim);
    if (place3 >= 0) free[place3] = valueFor(dim, text);
    else if (dim.kind === "number") {
      fixed[dims.fixedDims.indexOf(dim)] = valueFor(dim, text);
      overridden = true;
    } else if (dim.kind === "arithmetic")
      throw refused(name2, quoted(text), "it follows from other dims; set those");
    else valueFor(dim, text);
  }
  return overridden ? Float64Array.from([...free, ...fixed]) : free;
}
function valueFor(dim, text) {
  const value = text.trim() === "" ? Number.NaN : Number(text);
  switch (dim.kind) {
    case "choice": {
      const words = wordsOf(dim);
      const options = dim.options;
      const place3 = words === void 0 ? options.indexOf(value) : words.indexOf(text.trim());
      if (place3 < 0) throw refused(dim.name, quoted(text), `give one of ${options.join(", ")}`);
      return place3;
    }
    case "range":
      if (!(value >= dim.from && value <= dim.to))
        throw refused(dim.name, quoted(text), `give a number from ${dim.from} to ${dim.to}`);
      return value;
    default:
      if (!(Math.abs(value) <= 1e6)) throw refused(dim.name, quoted(text), "give a number");
      return value;
  }
}
var refused = (field, found3, remedy) => new InputError({ file: "--set", field, found: found3, remedy });

// card/src/figure/hand/cut-names.ts
var SIDES = /* @__PURE__ */ new Set(["glue", "panels", "feet", "widths", "layers"]);
function pairNames(holder) {
  if (SIDES.has(holder)) return ["left", "right"];
  return holder === "size" ? ["length", "width"] : ["x", "y"];
}
function cutName(path, words = {}) {
  const said = [];
  path.forEach((step, i) => {
    if (typeof step === "string") {
      if (step !== "polygon") said.push(words[step] ?? step.replace("outlines", "outline"));
      return;
    }
    const holder = String(path[i - 1]);
    if (i < path.length - 1) said.push(`${said.pop()?.replace(/s$/, "")} ${step + 1}`);
    else said.push(pairNames(holder)[step]);
  });
  return said.join(" ");
}

// card/src/figure/hand/cut-ring.ts
var STROKE = 5;
var ON_CREASE = 0.02;
var CutRing = class {
  /** @param creases that may run along its edges, as drawn */
  constructor(drawn, creases) {
    this.drawn = drawn;
    this.creases = creases;
    const n2 = drawn.length;
    const on = drawn.map(
      (corner2, i) => creases.findIndex(
        (crease) => [drawn[(i + n2 - 1) % n2], drawn[(i + 1) % n2]].some((other) => runsAlong(corner2, other, crease))
      )
    );
    const first = Math.max(
      0,
      on.findIndex((crease) => crease >= 0)
    );
    const order = drawn.map((_, k) => (first + k) % n2);
    const at = [0];
    for (const i of order) at.push(at[at.length - 1] + distance3(drawn[i], drawn[(i + 1) % n2]));
    const held = order.flatMap((i, k) => on[i] >= 0 ? [k] : []);
    const fixed = [];
    for (let k = 0; k < n2; k++) {
      const ahead = at[held.find((other) => other > k) ?? n2] - at[k];
      const behind = k === 0 ? STROKE : at[k] - at[fixed[fixed.length - 1]];
      if (held.includes(k) || k === 0 || behind >= STROKE && ahead >= STROKE) fixed.push(k);
    }
    const corners = [];
    const stationCorners = [];
    for (const [k, i] of order.entries()) {
      const place3 = fixed.findLastIndex((other) => other <= k);
      if (on[i] >= 0) corners[i] = { on: on[i] };
      else if (fixed[place3] === k) corners[i] = { station: stationCorners.push(i) - 1 };
      else {
        const [before2, after] = [fixed[place3], fixed[place3 + 1] ?? n2];
        const share = (at[k] - at[before2]) / (at[after] - at[before2]);
        corners[i] = { before: order[before2], after: order[after % n2], share };
      }
    }
    this.stationCorners = stationCorners;
    this.corners = corners;
  }
  drawn;
  creases;
  /** The corners that err by themselves, by their places in the ring. */
  stationCorners;
  corners;
  /**
   * The ring as cut.
   * @param error mm, of coordinate `axis` of a corner that errs by itself, by its place among those
   * @param cut the creases as they are cut, in the order of those drawn
   */
  cut(error, cut) {
    const off = this.corners.map((corner2, i) => {
      if ("station" in corner2) return [error(corner2.station, 0), error(corner2.station, 1)];
      if (!("on" in corner2)) return [0, 0];
      const [x, y] = this.drawn[i];
      const [px, py] = carried([x, y], this.creases[corner2.on], cut[corner2.on]);
      return [px - x, py - y];
    });
    return this.corners.map((corner2, i) => {
      const [x, y] = this.drawn[i];
      if (!("share" in corner2)) return [x + off[i][0], y + off[i][1]];
      const { before: before2, after, share } = corner2;
      const between4 = (axis2) => off[before2][axis2] * (1 - share) + off[after][axis2] * share;
      return [x + between4(0), y + between4(1)];
    });
  }
};
function runsAlong(a, b, [from2, to2]) {
  const long = distance3(from2, to2);
  const [ex, ey] = [(to2[0] - from2[0]) / long, (to2[1] - from2[1]) / long];
  const off = ([x, y]) => Math.abs((x - from2[0]) * ey - (y - from2[1]) * ex);
  if (!(off(a) < ON_CREASE && off(b) < ON_CREASE)) return false;
  const along3 = ([x, y]) => (x - from2[0]) * ex + (y - from2[1]) * ey;
  const [low, high] = [Math.min(along3(a), along3(b)), Math.max(along3(a), along3(b))];
  return Math.min(high, long) - Math.max(low, 0) > ON_CREASE;
}
function carried([x, y], [from2, to2], [start, end]) {
  const [dx, dy] = [to2[0] - from2[0], to2[1] - from2[1]];
  const share = ((x - from2[0]) * dx + (y - from2[1]) * dy) / (dx * dx + dy * dy);
  return [start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])];
}
var distance3 = (a, b) => Math.hypot(b[0] - a[0], b[1] - a[1]);

// card/src/figure/hand/cut-part.ts
var CutPart = class {
  constructor(part2, { kind = part2.kind, fields: fields3, words = {}, exact = [] }) {
    this.part = part2;
    this.kind = kind;
    this.words = words;
    this.exact = [...exact, ...kind.byHand?.exact ?? []];
    this.leaves = kind.fields.parse(fields3);
    this.fields = plain(this.leaves);
    this.closed = kind.byHand?.closing?.field(this.fields) ?? null;
  }
  part;
  /** As drawn: all that errs on its own in a field of its own. */
  fields;
  kind;
  leaves;
  words;
  exact;
  /** The dotted path of the field of its last tab, where the page is shut on that. */
  closed;
  /** Paths to what is hinged on other panels. */
  hinged = [];
  writes = [];
  rings = [];
  edges(fields3) {
    return this.kind.byHand?.edges?.(this.part.name, fields3) ?? [];
  }
  hinges(fields3) {
    return this.hinged.map((path) => valueAt2(fields3, path));
  }
  /** Adds a cut for everything but outlines. */
  listFields(cuts) {
    const outlines = this.edges(this.fields).map(({ field }) => field);
    this.visit(
      this.leaves,
      [],
      cuts,
      (path) => this.exact.includes(String(path[0])) || outlines.includes(path.join("."))
    );
  }
  listOutlines(cuts, creases) {
    for (const { field, panel } of this.edges(this.fields)) {
      const path = field.split(".");
      const outline = valueAt2(this.fields, path);
      if (outline === void 0) continue;
      this.addRing([...path, "polygon"], panel, outline.polygon, cuts, creases.get(panel) ?? []);
      for (const [i, hole] of (outline.holes ?? []).entries())
        this.addRing([...path, "holes", i], panel, hole, cuts, []);
    }
  }
  withErrors(errors) {
    const fields3 = plain(this.leaves);
    for (const write of this.writes) write(fields3, errors);
    return fields3;
  }
  /** Its fields with errors, as it is glued in a dummy that is made as far as this part. */
  glued(fields3, assembly) {
    const closing = this.kind.byHand?.closing;
    return this.closed === null || closing === void 0 ? fields3 : closing.settle(this.fields, fields3, assembly);
  }
  cutOutlines(fields3, errors, creases) {
    for (const { path, panel, ring, first } of this.rings) {
      const error = (station, axis2) => errors[first + 2 * station + axis2];
      setAt(fields3, path, ring.cut(error, creases.get(panel) ?? []));
    }
  }
  visit(leaf, path, cuts, skip) {
    if (skip(path)) return;
    if (leaf instanceof Quantity) this.addNumber(leaf, path, cuts);
    else if (isRing(leaf)) this.addRing(path, "", valueAt2(this.fields, path), cuts, []);
    else if (isLine(leaf)) this.addLine(path, cuts);
    else if (typeof leaf === "object" && leaf !== null) {
      if ("line" in leaf && "panel" in leaf) this.hinged.push(path);
      for (const [name2, part2] of Object.entries(leaf))
        this.visit(part2, [...path, Array.isArray(leaf) ? Number(name2) : name2], cuts, skip);
    }
  }
  add(cuts, path, extra, unit3, value) {
    const field = [cutName(path, this.words), extra].filter((word3) => word3 !== "").join(" ");
    const written = path.join(".");
    const closedOn = this.closed !== null && (written === this.closed || written.startsWith(`${this.closed}.`));
    return cuts.push({ part: this.part.name, field, unit: unit3, value, closedOn }) - 1;
  }
  addNumber({ unit: unit3, least, most }, path, cuts) {
    const value = valueAt2(this.fields, path);
    if (unit3 === "" || value === 0 && least === 0) return;
    const number9 = this.add(cuts, path, "", unit3, value);
    this.writes.push(
      (fields3, errors) => setAt(fields3, path, Math.min(most, Math.max(least, value + errors[number9])))
    );
  }
  addLine(path, cuts) {
    const [[x0, y0], [x1, y1]] = valueAt2(this.fields, path);
    const long = Math.hypot(x1 - x0, y1 - y0);
    const heading = Math.atan2(y1 - y0, x1 - x0);
    const across3 = this.add(cuts, path, "across", "mm", 0);
    const turn = this.add(cuts, path, "turn", "degrees", heading * 180 / Math.PI);
    const start = this.add(cuts, path, "start", "mm", 0);
    const end = this.add(cuts, path, "end", "mm", long);
    this.writes.push((fields3, errors) => {
      const turned = heading + errors[turn] * Math.PI / 180;
      const [ex, ey] = [Math.cos(turned), Math.sin(turned)];
      const [mx, my] = [(x0 + x1) / 2 - ey * errors[across3], (y0 + y1) / 2 + ex * errors[across3]];
      const at = (along3) => [mx + along3 * ex, my + along3 * ey];
      setAt(fields3, path, [at(errors[start] - long / 2), at(errors[end] + long / 2)]);
    });
  }
  addRing(path, panel, drawn, cuts, creases) {
    const ring = new CutRing(drawn, creases);
    const first = cuts.length;
    for (const corner2 of ring.stationCorners)
      for (const axis2 of [0, 1])
        this.add(cuts, path, `corner ${corner2 + 1} ${"xy"[axis2]}`, "mm", drawn[corner2][axis2]);
    this.rings.push({ path, panel, ring, first });
  }
};
var isPoint = (leaf) => Array.isArray(leaf) && leaf.length === 2 && leaf.every((part2) => part2 instanceof Quantity);
var isLine = (leaf) => Array.isArray(leaf) && leaf.length === 2 && leaf.every(isPoint);
var isRing = (leaf) => Array.isArray(leaf) && leaf.length > 2 && leaf.every(isPoint);
function valueAt2(fields3, path) {
  return path.reduce((value, step) => value?.[step], fields3);
}
function setAt(fields3, path, value) {
  const holder = valueAt2(fields3, path.slice(0, -1));
  holder[path[path.length - 1]] = value;
}
function plain(value) {
  if (value instanceof Quantity || value instanceof Word) return value.written;
  if (Array.isArray(value)) return value.map(plain);
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([name2, part2]) => [name2, plain(part2)]));
}

// card/src/figure/template.ts
function templateOf(parts, start, finish2) {
  const drawing = start(false);
  const cutParts = parts.map((part2) => {
    part2.add(part2.kind, part2.fields, drawing);
    const drawn = part2.kind.byHand?.drawn?.(part2.fields, drawing);
    return new CutPart(part2, drawn ?? { fields: part2.fields });
  });
  const cuts = [];
  for (const each of cutParts) each.listFields(cuts);
  const creases = creasesOf(cutParts, (each) => each.fields);
  for (const each of cutParts) each.listOutlines(cuts, creases);
  return {
    cuts,
    build(errors) {
      const copies = new Map(cutParts.map((each) => [each, each.withErrors(errors)]));
      const copyOf = (each) => copies.get(each);
      const cut = creasesOf(cutParts, copyOf);
      const assembly = start(true);
      for (const each of cutParts) {
        const fields3 = copyOf(each);
        each.cutOutlines(fields3, errors, cut);
        each.part.add(each.kind, each.glued(fields3, assembly), assembly);
      }
      finish2(assembly);
      return assembly;
    }
  };
}
function creasesOf(cutParts, fieldsOf2) {
  const creases = /* @__PURE__ */ new Map();
  const add2 = (panel, stretches2) => creases.set(panel, [...creases.get(panel) ?? [], ...stretches2]);
  for (const each of cutParts) {
    const fields3 = fieldsOf2(each);
    for (const edge of each.edges(fields3)) add2(edge.panel, edge.creases);
    for (const hinge of each.hinges(fields3)) add2(hinge.panel, [hinge.line]);
  }
  return creases;
}

// card/src/figure/text/to-yaml.ts
import { isMap, isNode as isNode2, isScalar } from "yaml";

// card/src/figure/text/yaml-edit.ts
import { isCollection, isNode, isPair, parseDocument } from "yaml";
var toBeEdited = (text) => parseDocument(text, { schema: "core", uniqueKeys: false });
function endOf(node) {
  const last = isCollection(node) && !node.flow ? node.items.at(-1) : void 0;
  const value = isPair(last) ? last.value : last;
  return isNode(value) ? endOf(value) : node.range?.[1] ?? 0;
}

// card/src/figure/text/to-yaml.ts
function toYaml(source, dims, vector) {
  const { text } = source;
  const values = dims.values(vector);
  const fixed = vector.length > dims.freeDims.length ? dims.fixedDims : [];
  const names = new Set([...dims.freeDims, ...fixed].map(({ name: name2 }) => name2));
  const written = toBeEdited(text).get("dims");
  const changes2 = [];
  for (const { key, value } of isMap(written) ? written.items : []) {
    const name2 = isScalar(key) ? String(key.value) : "";
    if (!names.has(name2) || !isNode2(value) || !value.range || !isScalar(key) || !key.range) continue;
    const chosen = values.get(name2);
    const now = typeof chosen === "number" ? String(chosen) : `{ choose: [${JSON.stringify(chosen)}] }`;
    const between4 = text.slice(key.range[1], value.range[0]);
    if (/^:\s*\n\s*$/.test(between4)) changes2.push({ from: key.range[1], to: endOf(value), now: `: ${now}` });
    else changes2.push({ from: value.range[0], to: endOf(value), now });
  }
  return changes2.sort((a, b) => b.from - a.from).reduce((yaml, { from: from2, to: to2, now }) => yaml.slice(0, from2) + now + yaml.slice(to2), text);
}

// card/src/figure/try-out.ts
var MOST_TRIALS = 300;
function tryOut(source, dims, figure) {
  const pieces = /* @__PURE__ */ new Set();
  let tried2 = 0;
  let unbuilt = 0;
  for (const vector of trials(dims)) {
    if (++tried2 > MOST_TRIALS) return;
    try {
      const assembly = figure.build(vector);
      for (const { piece: piece2 } of assembly.panels) pieces.add(piece2);
      for (const [i, want] of figure.wantsOf(vector).entries()) checkPanels(want, i, assembly);
      for (const [i, { panel }] of figure.trims.entries()) assembly.panelNamed(panel, `trims.${i}.panel`);
    } catch (error) {
      if (!(error instanceof CannotBuild)) throw error;
      if (error.structural) throw faultAt(source, pathTo(error.field), error.message);
      unbuilt++;
    }
  }
  if (unbuilt > 0) return;
  for (const piece2 of Object.keys(figure.card.pieces))
    if (!pieces.has(piece2))
      throw faultAt(source, ["card", "pieces", piece2], knownNames(piece2, [...pieces], "piece"), `'${piece2}'`);
}
function* trials(dims) {
  yield dims.start();
  for (const [place3, dim] of dims.freeDims.entries()) {
    if (dim.kind !== "choice") continue;
    for (let option = 1; option < dim.options.length; option++) {
      const vector = dims.start();
      vector[place3] = option;
      yield vector;
    }
  }
}
function checkPanels(want, i, assembly) {
  const check = (name2, field) => assembly.panelNamed(name2, `wants.${i}.${field}`);
  if ("panel" in want) check(want.panel, "panel");
  if ("panels" in want) for (const [j, panel] of want.panels.entries()) check(panel, `panels.${j}`);
  if ("reference" in want) check(want.reference, "reference");
}
var pathTo = (field) => field.split(".").map((step) => /^\d+$/.test(step) ? Number(step) : step);

// card/src/figure/wants.ts
import * as z27 from "zod";
var MOST_WANTS = 50;
var pageAngle = () => z27.number().min(0).max(180);
var aim = () => z27.number().min(-1e6).max(1e6).optional();
var goal = {
  least: aim(),
  most: aim(),
  target: aim(),
  tolerance: z27.number().positive().max(1e6).optional(),
  weight: z27.number().positive().max(1e3).prefault(1),
  from: pageAngle().prefault(180),
  to: pageAngle().prefault(0)
};
var line = () => z27.union([angle(), z27.tuple([point(), point()])], {
  error: "an angle in degrees, or two points [[x, y], [x, y]]"
}).prefault(90);
var reference = () => name().prefault("left page");
var wantFields = {
  turn: z27.strictObject({ ...goal, panel: name(), line: line(), reference: reference() }),
  travel: z27.strictObject({ ...goal, panel: name(), point: point(), reference: reference() }),
  rise: z27.strictObject({ ...goal, panel: name(), point: point().optional() }),
  follow: z27.strictObject({
    ...goal,
    panel: name(),
    line: line(),
    reference: reference(),
    at: z27.array(z27.tuple([pageAngle(), z27.number().min(-3600).max(3600)])).min(1).max(181)
  }),
  against: z27.strictObject({
    ...goal,
    panels: z27.tuple([name(), name()]),
    line: line(),
    reference: reference()
  }),
  level: z27.strictObject({
    ...goal,
    // Nearer than 10° to flat a hair's error tilts card that nobody sees: judged there only where it is asked for.
    from: pageAngle().prefault(170),
    to: pageAngle().prefault(10),
    panel: name(),
    reference: reference()
  })
};
var UNITS = {
  turn: "degrees",
  travel: "mm",
  rise: "mm",
  follow: "degrees",
  against: "degrees",
  level: "degrees"
};
function readWants(source, dims) {
  return readEntries(source, "wants", wantFields, MOST_WANTS).map(
    (entry) => writtenWant(source, dims, entry)
  );
}
function writtenWant(source, dims, entry) {
  const kind = entry.kind;
  const fields3 = entry.fields;
  checkGoal(source, fields3, entry.path);
  const { least, most, target, tolerance, weight, from: from2, to: to2 } = fields3;
  const resolve = compileFields(source, dims, fields3, entry.path);
  const named = { name: entry.name, kind, unit: UNITS[kind] };
  return {
    goal: { ...named, least, most, target, tolerance, weight, from: from2, to: to2 },
    of(slots) {
      const resolved = resolve(slots);
      const angled = "line" in resolved ? { line: headingOf(resolved.line, entry.path) } : {};
      return { ...named, ...resolved, ...angled };
    }
  };
}
function headingOf(line2, path) {
  if (typeof line2 === "number") return line2;
  const [[x0, y0], [x1, y1]] = line2;
  if (Math.hypot(x1 - x0, y1 - y0) < 0.01)
    throw new CannotBuild("the two points of the line are one point", [...path, "line"].join("."));
  return Math.atan2(y1 - y0, x1 - x0) * 180 / Math.PI;
}
function checkGoal(source, fields3, path) {
  const { least, most, target, tolerance, from: from2, to: to2 } = fields3;
  if (least === void 0 && most === void 0 && target === void 0)
    throw faultAt(source, path, "give least, most, or target with tolerance", "no goal");
  if (target !== void 0 && (least !== void 0 || most !== void 0))
    throw faultAt(source, [...path, "target"], "give target with tolerance, or least and most", "both");
  if (target === void 0 !== (tolerance === void 0))
    throw faultAt(
      source,
      [...path, target === void 0 ? "tolerance" : "target"],
      "give both, or neither",
      target === void 0 ? "tolerance without target" : "target without tolerance"
    );
  if (least !== void 0 && most !== void 0 && least > most)
    throw faultAt(source, [...path, "most"], `give at least ${least}, the least wanted`);
  if (from2 === to2)
    throw faultAt(source, [...path, "to"], "give two different page angles", `${to2}, where it begins too`);
}

// card/src/figure/figure.ts
var MOST_PARTS = 200;
var MOST_POINTS = 1e4;
var sections = z28.strictObject({
  figure: z28.string({ error: "a name" }).regex(/^[\p{L}\p{N}](?:[\p{L}\p{N} ._'-]{0,58}[\p{L}\p{N}])?$/u, {
    error: "a name of 1 to 60 letters, digits, blanks and . _ ' - that begins and ends with a letter or digit"
  }).optional(),
  page: z28.unknown().optional(),
  card: z28.unknown().optional(),
  opening: z28.unknown().optional(),
  dims: z28.unknown().optional(),
  parts: z28.unknown().optional(),
  wants: z28.unknown().optional(),
  limits: z28.unknown().optional(),
  keepClear: z28.unknown().optional(),
  trims: z28.unknown().optional()
});
function compileFigure(source, kinds = partKinds) {
  const { figure } = checked(source, [], sections);
  const page = readPage(source);
  const card2 = readCard(source);
  const opening2 = readPageSteps(source);
  const limits = readLimits(source);
  const keepClear = readKeepClear(source);
  const trims2 = readTrims(source);
  const dims = new Dims(source);
  const parts = readParts(source, dims, kinds);
  const wants = readWants(source, dims);
  const pages = (handCut) => new Assembly(page, (piece2) => card2.of(piece2).thickness, handCut);
  const end = (assembly) => {
    try {
      finish(assembly);
    } catch (error) {
      const part2 = error instanceof CannotBuild && parts.find(({ name: name2 }) => name2 === error.part);
      throw part2 ? part2.blame(error) : error;
    }
    applyTrims(assembly, trims2);
    boundPoses(assembly, opening2.step);
  };
  const build = (vector) => {
    dims.fill(vector);
    const assembly = pages(false);
    for (const part2 of parts) part2.add(part2.kind, part2.fields(dims.slots), assembly);
    end(assembly);
    return assembly;
  };
  const template = (vector) => {
    dims.fill(vector);
    const drawn = parts.map((part2) => ({ ...part2, fields: part2.fields(dims.slots) }));
    return templateOf(drawn, pages, end);
  };
  const wantsOf = (vector) => {
    dims.fill(vector);
    return wants.map((want) => want.of(dims.slots));
  };
  tryOut(source, dims, { build, wantsOf, card: card2, trims: trims2 });
  return {
    name: figure ?? nameOf(source.file),
    page,
    card: card2,
    opening: opening2,
    dims: dims.all(),
    free: dims.free(),
    wants: wants.map(({ goal: goal2 }) => goal2),
    limits,
    keepClear,
    trims: trims2,
    start: dims.start(),
    hasChains: parts.some(({ kind }) => kind.kind === "link"),
    build,
    template,
    wantsOf,
    lineOf: (field) => lineOf(source, field),
    values: (vector) => dims.values(vector),
    vectorFrom: (settings) => vectorFrom(dims, settings),
    toYaml: (vector) => toYaml(source, dims, vector)
  };
}
var MOST_POSES = 1e6;
var STEPS = [0.1, 0.2, 0.25, 0.5, 1, 2];
function boundPoses({ panels }, step) {
  const poses = (each) => (180 / each + 1) * panels.length;
  if (poses(step) <= MOST_POSES) return;
  const enough = STEPS.find((each) => poses(each) <= MOST_POSES);
  throw new CannotBuild(
    `too fine for ${panels.length} panels; ${enough === void 0 ? "give fewer parts" : `${enough}\xB0 or more will do`}`,
    "opening.step",
    true
  );
}
function readParts(source, dims, kinds) {
  const schemas = Object.fromEntries(Object.values(kinds).map(({ kind, fields: fields3 }) => [kind, fields3]));
  const entries = readEntries(source, "parts", schemas, MOST_PARTS);
  if (entries.length === 0) throw faultAt(source, ["parts"], "give a list of one part or more");
  const points2 = entries.reduce((sum, { fields: fields3 }) => sum + pointsIn(fields3), 0);
  if (points2 > MOST_POINTS)
    throw faultAt(source, ["parts"], `give at most ${MOST_POINTS} in all`, `${points2} points`);
  return entries.map((entry) => {
    const dim = dims.named(entry.name);
    if (dim !== void 0 && wordsOf(dim) !== void 0)
      throw faultAt(
        source,
        [...entry.path, "name"],
        "name the part or the dim otherwise",
        `${quoted(entry.name)}, also the name of a dim that chooses between words`
      );
    return partOf(entry, kinds[entry.kind], compileFields(source, dims, entry.fields, entry.path));
  });
}
function pointsIn(fields3) {
  if (typeof fields3 !== "object" || fields3 === null || fields3 instanceof Quantity) return 0;
  const parts = Object.values(fields3);
  if (parts.length === 2 && parts.every((part2) => part2 instanceof Quantity)) return 1;
  return parts.reduce((sum, part2) => sum + pointsIn(part2), 0);
}
function partOf({ name: name2, path }, kind, resolve) {
  const blame = ({ message, field, structural }, within = path) => {
    const whole2 = [...within, ...field === "" ? [] : [field]];
    return new CannotBuild(`${name2}: ${message}`, whole2.join("."), structural);
  };
  return {
    name: name2,
    kind,
    blame,
    fields(slots) {
      try {
        return resolve(slots);
      } catch (error) {
        if (error instanceof CannotBuild) throw blame(error, []);
        throw error;
      }
    },
    add(as, fields3, assembly) {
      try {
        as.build(name2, fields3, assembly);
      } catch (error) {
        if (!(error instanceof CannotBuild)) throw error;
        throw blame(error);
      }
    }
  };
}
function nameOf(file) {
  const stem = (file.split(/[/\\]/).at(-1) ?? "").replace(/\.ya?ml$/i, "");
  const plain2 = stem.replace(/[^\p{L}\p{N} ._'-]/gu, "-").replace(/^[^\p{L}\p{N}]+|[^\p{L}\p{N}]+$/gu, "");
  return plain2.slice(0, 60) || "figure";
}

// card/src/figure/text/source.ts
import { Composer, isAlias, isMap as isMap2, isScalar as isScalar2, isSeq, Lexer, LineCounter, Parser } from "yaml";

// card/src/figure/text/nesting.ts
var DEEPEST = 30;
function checkNesting(tokens, fail) {
  let documents = 0;
  for (const token of tokens) {
    if (token.type === "directive")
      fail(token.offset, quoted(token.source), "leave out lines that begin with %");
    if (token.type === "error") fail(token.offset, `what YAML cannot read (${token.message})`, "mend it");
    if (token.type !== "document") continue;
    if (++documents > 1) fail(token.offset, "a second document", "keep one figure in a file");
    checkDepth(token, fail);
  }
}
function checkDepth(document, fail) {
  const waiting = [];
  if (document.value) waiting.push({ token: document.value, depth: 1 });
  for (let next = waiting.pop(); next !== void 0; next = waiting.pop()) {
    const { token, depth } = next;
    if (depth > DEEPEST) fail(token.offset, `nesting deeper than ${DEEPEST}`, "write the figure flatter");
    if (!("items" in token)) continue;
    for (const { key, value } of token.items) {
      if (key) waiting.push({ token: key, depth: depth + 1 });
      if (value) waiting.push({ token: value, depth: depth + 1 });
    }
  }
}

// card/src/figure/text/source.ts
var MOST_BYTES = 1e6;
var MOST_TOKENS = 2e5;
var WHAT_MENDS = {
  BLOCK_AS_IMPLICIT_KEY: "put text that holds a colon in quotes",
  TAB_AS_INDENT: "indent with spaces"
};
var MEND_IT = "mend it there, or just before: look at indentation, brackets and quotes";
function parseFigure(text, file) {
  const lines = new LineCounter();
  const fail = (offset, found3, remedy, field = "") => {
    const { line: line2, col } = lines.linePos(offset);
    throw new InputError({ file, line: line2, column: col, field, found: found3, remedy });
  };
  checkAmount(text, file);
  const tokens = [...new Parser(lines.addNewLine).parse(text)];
  checkNesting(tokens, fail);
  const options = {
    schema: "core",
    resolveKnownTags: false,
    uniqueKeys: false,
    prettyErrors: false
  };
  const [document] = new Composer(options).compose(tokens, true, text.length);
  const problem = document?.errors[0] ?? document?.warnings[0];
  if (problem !== void 0)
    fail(problem.pos[0], `what YAML cannot read (${problem.message})`, WHAT_MENDS[problem.code] ?? MEND_IT);
  const marks = {};
  const read = (node, path, nameAt) => {
    const start = node?.range?.[0] ?? nameAt;
    const field = path.join(".");
    const value = lines.linePos(start + (isScalar2(node) && isQuoted(node.type) ? 1 : 0));
    const name2 = lines.linePos(nameAt);
    marks[field] = [value.line, value.col, name2.line, name2.col];
    if (node === null) return null;
    if (isAlias(node))
      return fail(
        start,
        `the alias ${quoted(`*${node.source}`)}`,
        "write the value out, or make it a dim",
        field
      );
    if (isSeq(node))
      return node.items.map((item, i) => read(item, [...path, i], item?.range?.[0] ?? start));
    if (isMap2(node)) {
      const fields3 = {};
      for (const { key, value: value2 } of node.items) {
        const at = key?.range?.[0] ?? start;
        if (!isScalar2(key) || key.value === null || key.value === "")
          return fail(at, "a field without a plain name", "write 'name: value'", field);
        const called = String(key.value);
        const whole2 = [...path, called].join(".");
        if (called === "__proto__") return fail(at, quoted(called), "give the field another name", whole2);
        if (Object.hasOwn(fields3, called))
          return fail(at, `the field ${quoted(called)} twice`, "keep one", whole2);
        fields3[called] = read(value2, [...path, called], at);
      }
      return fields3;
    }
    if (!isScalar2(node)) return fail(start, "what is neither a value, a list nor fields", "mend it", field);
    const found3 = node.value;
    if (typeof found3 === "number" && !Number.isFinite(found3))
      return fail(start, quoted(String(node.source ?? found3)), "give a finite number", field);
    if (found3 === null || typeof found3 === "boolean" || typeof found3 === "number" || typeof found3 === "string")
      return found3;
    return fail(start, "a value of an unknown type", "give a number, text, a list or fields", field);
  };
  return { file, text, data: read(document?.contents ?? null, [], 0), marks };
}
var isQuoted = (type) => type === "QUOTE_DOUBLE" || type === "QUOTE_SINGLE";
function checkAmount(text, file) {
  if (text.length > MOST_BYTES)
    throw new InputError({ file, found: `${text.length} characters`, remedy: `keep it under ${MOST_BYTES}` });
  const control = /(?![\t\n\u0085]|\r\n)[\p{Cc}\p{Cs}]/u.exec(text);
  if (control !== null) {
    const before2 = text.slice(0, control.index).split("\n");
    const place3 = { file, line: before2.length, column: (before2.at(-1)?.length ?? 0) + 1 };
    if (control[0] === "\r")
      throw new InputError({
        ...place3,
        found: "a line that ends in a carriage return alone",
        remedy: "save the file with line ends of today (LF or CRLF)"
      });
    throw new InputError({
      ...place3,
      found: `the control character U+${control[0].charCodeAt(0).toString(16).padStart(4, "0").toUpperCase()}`,
      remedy: "take it out, and save the file as UTF-8 text"
    });
  }
  let tokens = 0;
  for (const _ of new Lexer().lex(text))
    if (++tokens > MOST_TOKENS)
      throw new InputError({
        file,
        found: `more than ${MOST_TOKENS} words and signs`,
        remedy: "split the figure"
      });
}

// card/src/limits/judge.ts
function judge(given2, has, measured) {
  let violation = 0;
  const limits = limitsOf(given2, has).map((limit) => {
    const { name: name2, unit: unit3, scale, leastExcess = 0 } = limit;
    const bound2 = limit.bound(given2);
    const reading = limit.measure(measured, given2);
    if ("unknown" in reading)
      return { name: name2, value: null, ...bound2, unit: unit3, met: false, unknown: reading.unknown };
    const { value, finding } = reading;
    const excess = "most" in bound2 ? value - bound2.most : bound2.least - value;
    if (excess > 0) violation += Math.max(leastExcess, excess / scale);
    const met = excess <= 0;
    return {
      name: name2,
      value,
      ...bound2,
      unit: unit3,
      met,
      ...met || finding === null ? {} : { finding: { ...finding, value, unit: unit3 } }
    };
  });
  return { limits, violation };
}
var notJudged = (given2, has, unknown3) => limitsOf(given2, has).map((limit) => ({
  name: limit.name,
  value: null,
  ...limit.bound(given2),
  unit: limit.unit,
  met: false,
  unknown: unknown3
}));
var limitsOf = (given2, has) => LIMITS.filter(({ applies }) => applies === void 0 || applies(given2, has));

// card/src/motion/opening.ts
var RADIANS3 = Math.PI / 180;
var Opening = class {
  /** Number of frames reached: fewer than asked where the figure locks. */
  count = 0;
  /** Page angle of each frame, degrees, falling from 180. */
  pageAngles = new Float64Array(0);
  /** Poses: frame after frame, POSE numbers a panel. */
  poses = new Float64Array(0);
  /** Misfits: frame after frame, one for each entry of the assembly's `misfits`, in its unit. */
  misfits = new Float64Array(0);
  lock = null;
  assembly;
  views = [];
  misfitViews = [];
  between = new Float64Array(0);
  betweenMisfits = new Float64Array(0);
  shape = "";
  /**
   * Opens the assembly at page angles 180, 180 − step, … 0.
   * @param step degrees; 180 must be a whole number of steps
   */
  run(assembly, step) {
    this.assembly = assembly;
    this.lock = null;
    const frames = Math.round(180 / step) + 1;
    this.makeRoom(frames, assembly.panels.length, assembly.misfits.length);
    for (let frame = 0; frame < frames; frame++) {
      const pageAngle2 = frame === frames - 1 ? 0 : 180 - frame * step;
      this.pageAngles[frame] = pageAngle2;
      const poses = this.views[frame];
      poses.set(frame === 0 ? assembly.open : this.views[frame - 1]);
      const stuck = this.place(pageAngle2, poses, this.misfitViews[frame]);
      if (stuck >= 0) {
        this.count = frame;
        this.lock = this.findLock(frame, stuck);
        return;
      }
    }
    this.count = frames;
  }
  /** The poses of one frame. */
  frame(index) {
    return this.views[index];
  }
  /** The misfits of one frame. */
  misfitsAt(index) {
    return this.misfitViews[index];
  }
  /**
   * The poses at any page angle that the figure reaches: a frame, or worked out from the frame just before it. What is
   * given back is overwritten by the next call.
   */
  at(pageAngle2) {
    let frame = 0;
    while (frame + 1 < this.count && this.pageAngles[frame + 1] >= pageAngle2) frame++;
    if (this.pageAngles[frame] === pageAngle2) return this.views[frame];
    this.between.set(this.views[frame]);
    this.place(pageAngle2, this.between, this.betweenMisfits);
    return this.between;
  }
  /**
   * Places every panel at any page angle (degrees) into `poses`, which must hold the poses of a nearby page angle.
   * @returns the index of a misfit that locks there, or −1
   */
  place(pageAngle2, poses, misfits) {
    placePages(poses, pageAngle2 * RADIANS3);
    const { steps, misfits: kinds } = this.assembly;
    for (const step of steps) step.place(poses, misfits);
    for (let i = 0; i < kinds.length; i++) {
      const { locksBeyond } = kinds[i];
      if (locksBeyond === null ? Number.isNaN(misfits[i]) : !(misfits[i] <= locksBeyond)) return i;
    }
    return -1;
  }
  /** Halves the step in which the figure stuck until the page angle is known to 0.01°. */
  findLock(frame, stuck) {
    const { misfits } = this.assembly;
    const open2 = frame === 0;
    let free = open2 ? 180 : this.pageAngles[frame - 1];
    let locked = this.pageAngles[frame];
    let slot2 = stuck;
    while (!open2 && free - locked > 0.01) {
      const middle3 = (free + locked) / 2;
      const poses = this.views[frame];
      poses.set(this.views[frame - 1]);
      const there = this.place(middle3, poses, this.misfitViews[frame]);
      if (there < 0) free = middle3;
      else {
        locked = middle3;
        slot2 = there;
      }
    }
    const { part: part2, joint, panels } = misfits[slot2];
    return { pageAngle: free, part: part2, at: { part: part2, joint, panels } };
  }
  makeRoom(frames, panels, misfits) {
    const shape = `${frames} ${panels} ${misfits}`;
    if (shape === this.shape) {
      this.misfits.fill(0);
      return;
    }
    this.shape = shape;
    const size3 = panels * POSE;
    if (this.poses.length < frames * size3) this.poses = new Float64Array(frames * size3);
    this.misfits = new Float64Array(frames * misfits);
    this.between = new Float64Array(size3);
    this.betweenMisfits = new Float64Array(misfits);
    this.pageAngles = new Float64Array(frames);
    this.views = Array.from({ length: frames }, (_, f2) => this.poses.subarray(f2 * size3, (f2 + 1) * size3));
    this.misfitViews = Array.from(
      { length: frames },
      (_, f2) => this.misfits.subarray(f2 * misfits, (f2 + 1) * misfits)
    );
  }
};

// card/src/score/flat.ts
function measureFlatness(assembly, opening2) {
  const openResidue = farthestOff(assembly, opening2.count > 0 ? opening2.frame(0) : assembly.open);
  return { shut: opening2.lock === null ? shutFlatness(assembly, opening2) : null, openResidue };
}
function shutFlatness(assembly, opening2) {
  const shut = opening2.frame(opening2.count - 1);
  const { width, height } = assembly.page;
  const { shapes, thicknesses } = shutShapes(assembly, shut);
  let overhang2 = 0;
  let overhanging = null;
  shapes.forEach(({ outline }, i) => {
    for (let v = 0; v < outline.length; v += 2) {
      const past = Math.max(-width - outline[v], outline[v], -outline[v + 1], outline[v + 1] - height);
      if (past > overhang2 + 1e-6) {
        overhang2 = past;
        overhanging = FIRST + i;
      }
    }
  });
  const thickest = pile(shapes, thicknesses);
  return {
    residue: farthestOff(assembly, shut),
    overhang: overhang2,
    overhanging,
    pile: thickest?.thickness ?? 0,
    pileAt: thickest === void 0 ? null : [thickest.x, thickest.y]
  };
}
var FIRST = 2;
function shutShapes({ panels }, shut) {
  const between4 = panels.slice(FIRST);
  return {
    shapes: between4.map(({ outline, holes }, i) => ({
      outline: onLeftPage(shut, FIRST + i, outline),
      holes: holes.map((hole) => onLeftPage(shut, FIRST + i, hole))
    })),
    thicknesses: between4.map(({ thickness }) => thickness)
  };
}
function farthestOff(assembly, poses) {
  let farthest2 = 0;
  for (let k = FIRST; k < assembly.panels.length; k++) {
    const { outline } = assembly.panels[k];
    const i = k * POSE + 8;
    for (let v = 0; v < outline.length; v += 2)
      farthest2 = Math.max(
        farthest2,
        Math.abs(poses[i] * outline[v] + poses[i + 1] * outline[v + 1] + poses[i + 3])
      );
  }
  return farthest2 < 1e-5 ? 0 : farthest2;
}
function onLeftPage(poses, k, ring) {
  const i = k * POSE;
  const out = zeros(ring.length);
  for (let v = 0; v < ring.length; v += 2) {
    out[v] = poses[i] * ring[v] + poses[i + 1] * ring[v + 1] + poses[i + 3];
    out[v + 1] = poses[i + 4] * ring[v] + poses[i + 5] * ring[v + 1] + poses[i + 7];
  }
  return out;
}

// card/src/score/book.ts
var ROUND_OFF5 = 1e-6;
function findOutOfBook(assembly, opening2) {
  let out = ROUND_OFF5;
  let pageAngle2 = null;
  let panel = null;
  for (let frame = 0; frame < opening2.count; frame++) {
    const poses = opening2.frame(frame);
    const r2 = RIGHT_PAGE * POSE;
    const nx = poses[r2 + 2];
    const nz = poses[r2 + 10];
    for (let k = FIRST; k < assembly.panels.length; k++) {
      const { body, outline } = assembly.panels[k];
      if (body === LEFT_PAGE || body === RIGHT_PAGE) continue;
      const i = k * POSE;
      for (let v = 0; v < outline.length; v += 2) {
        const x = poses[i] * outline[v] + poses[i + 1] * outline[v + 1] + poses[i + 3];
        const z29 = poses[i + 8] * outline[v] + poses[i + 9] * outline[v + 1] + poses[i + 11];
        const behind = Math.max(-z29, -(nx * x + nz * z29));
        if (behind > out) {
          out = behind;
          pageAngle2 = opening2.pageAngles[frame];
          panel = k;
        }
      }
    }
  }
  return panel === null ? { out: 0, pageAngle: null, panel: null } : { out, pageAngle: pageAngle2, panel };
}
function findOverhangs(assembly, opening2, below) {
  const byPart = /* @__PURE__ */ new Map();
  const look = (pageAngle2, poses) => {
    for (let k = FIRST; k < assembly.panels.length; k++) {
      const worst = byPart.get(assembly.panels[k].part)?.past ?? ROUND_OFF5;
      const found3 = overhangAt(assembly, poses, pageAngle2, k, worst);
      if (found3 !== null) byPart.set(assembly.panels[k].part, found3);
    }
  };
  for (let frame = opening2.count - 1; frame >= 0 && opening2.pageAngles[frame] <= below; frame--)
    look(opening2.pageAngles[frame], opening2.frame(frame));
  const least = opening2.lock?.pageAngle ?? 0;
  if (opening2.count > 0 && below >= least)
    for (const pageAngle2 of [least, below]) look(pageAngle2, opening2.at(pageAngle2));
  return [...byPart.values()].sort((a, b) => b.past - a.past);
}
function overhangAt({ page, panels }, poses, pageAngle2, panel, least) {
  const { outline } = panels[panel];
  const i = panel * POSE;
  let past = least;
  let edge = null;
  const take = (by, over) => {
    if (by <= past) return;
    past = by;
    edge = over;
  };
  for (let v = 0; v < outline.length; v += 2) {
    const x = poses[i] * outline[v] + poses[i + 1] * outline[v + 1] + poses[i + 3];
    const y = poses[i + 4] * outline[v] + poses[i + 5] * outline[v + 1] + poses[i + 7];
    const z29 = poses[i + 8] * outline[v] + poses[i + 9] * outline[v + 1] + poses[i + 11];
    take(y - page.height, "head");
    take(-y, "foot");
    if (pageAngle2 === 0) take(x, "spine");
    if (pageAngle2 > 0 || x < 0) take(Math.sqrt(x * x + z29 * z29) - page.width, "fore-edge");
  }
  return edge === null ? null : { past, edge, pageAngle: pageAngle2, panel };
}

// card/src/score/chain-extremes.ts
function chainExtremes(assembly, opening2) {
  return {
    tilt: greatest(assembly, opening2, "tilt"),
    lift: greatest(assembly, opening2, "lift"),
    jump: greatest(assembly, opening2, "jump")
  };
}
function greatest({ misfits }, opening2, of) {
  let extreme = { value: 0, pageAngle: null, at: null };
  misfits.forEach(({ of: measured, part: part2, joint, panels }, slot2) => {
    if (measured !== of) return;
    for (let frame = 0; frame < opening2.count; frame++) {
      const value = opening2.misfitsAt(frame)[slot2];
      if (value > extreme.value)
        extreme = { value, pageAngle: opening2.pageAngles[frame], at: { part: part2, joint, panels } };
    }
  });
  return extreme;
}
function firstBeyond({ misfits }, opening2, give2) {
  for (let frame = 0; frame < opening2.count; frame++)
    if (misfits.some(({ of }, slot2) => of === "gap" && opening2.misfitsAt(frame)[slot2] > give2))
      return opening2.pageAngles[frame];
  return null;
}

// card/src/geometry/cut.ts
var TOUCH = 5e-6;
var LEVEL2 = 1e-9;
var ROW = 5;
var stretches = () => ({ count: 0, rows: new Float64Array(8 * ROW) });
var upper = stretches();
var lower = stretches();
var arcs = stretches();
var heights = new Float64Array(64);
var ends = new Float64Array(64);
function cutByLine(shape, line2, out) {
  partsBeside(shape, line2, 1, upper);
  partsBeside(shape, line2, -1, lower);
  out.count = 0;
  let i = 0;
  let j = 0;
  while (i < upper.count && j < lower.count) {
    const a = i * ROW;
    const b = j * ROW;
    const from2 = Math.max(upper.rows[a], lower.rows[b]);
    const to2 = Math.min(upper.rows[a + 1], lower.rows[b + 1]);
    if (to2 > from2) {
      const lesser = upper.rows[a + 2] <= lower.rows[b + 2];
      const rows = lesser ? upper.rows : lower.rows;
      const k = lesser ? a : b;
      add(out, from2, to2, rows[k + 2], rows[k + 3], rows[k + 4]);
    }
    if (upper.rows[a + 1] < lower.rows[b + 1]) i++;
    else j++;
  }
}
function partsBeside(shape, line2, side2, out) {
  arcs.count = 0;
  out.count = 0;
  addArcs(shape.outline, line2, side2);
  for (let h = 0; h < shape.holes.length; h++) addArcs(shape.holes[h], line2, side2);
  sortEnds();
  for (let e = 0; e < 2 * arcs.count; e += 2) {
    if (!(ends[e + 1] > ends[e])) continue;
    const middle3 = (ends[e] + ends[e + 1]) / 2;
    let innermost = -1;
    let shortest = Infinity;
    for (let k = 0; k < arcs.count * ROW; k += ROW) {
      const length2 = arcs.rows[k + 1] - arcs.rows[k];
      if (arcs.rows[k] < middle3 && middle3 < arcs.rows[k + 1] && length2 < shortest) {
        innermost = k;
        shortest = length2;
      }
    }
    if (innermost < 0) continue;
    const { rows } = arcs;
    add(out, ends[e], ends[e + 1], rows[innermost + 2], rows[innermost + 3], rows[innermost + 4]);
  }
}
function addArcs(ring, line2, side2) {
  const n2 = ring.length >> 1;
  if (heights.length < n2) heights = new Float64Array(2 * n2);
  const above = heights;
  const p2 = line2[0];
  const q2 = line2[1];
  const r2 = line2[2];
  let start = -1;
  for (let i = 0; i < n2; i++) {
    const height = side2 * (p2 * ring[2 * i] + q2 * ring[2 * i + 1] + r2);
    above[i] = Math.abs(height) <= TOUCH ? 0 : height;
    if (above[i] <= 0) start = i;
  }
  if (start < 0) return;
  let risen = false;
  let from2 = 0;
  let reach2 = 0;
  let first = 0;
  let last = 0;
  let before2 = start;
  for (let step = 1; step <= n2; step++) {
    const i = start + step < n2 ? start + step : start + step - n2;
    const height = above[i];
    if (height > 0) {
      if (!risen) {
        risen = true;
        from2 = meets(ring, line2, before2, i);
        reach2 = height;
        first = i;
        last = i;
      } else if (height > reach2 + LEVEL2) {
        reach2 = height;
        first = i;
        last = i;
      } else if (height >= reach2 - LEVEL2 && last === before2) {
        last = i;
      }
    } else if (risen) {
      risen = false;
      const to2 = meets(ring, line2, before2, i);
      const x = (ring[2 * first] + ring[2 * last]) / 2;
      const y = (ring[2 * first + 1] + ring[2 * last + 1]) / 2;
      add(arcs, Math.min(from2, to2), Math.max(from2, to2), reach2, x, y);
    }
    before2 = i;
  }
}
function meets(ring, line2, i, j) {
  const share = heights[i] / (heights[i] - heights[j]);
  const x = ring[2 * i] + share * (ring[2 * j] - ring[2 * i]);
  const y = ring[2 * i + 1] + share * (ring[2 * j + 1] - ring[2 * i + 1]);
  return line2[3] * x + line2[4] * y + line2[5];
}
function sortEnds() {
  if (ends.length < 2 * arcs.count) ends = new Float64Array(4 * arcs.count);
  for (let e = 0; e < 2 * arcs.count; e++) {
    const value = arcs.rows[(e >> 1) * ROW + (e & 1)];
    let k = e;
    for (; k > 0 && ends[k - 1] > value; k--) ends[k] = ends[k - 1];
    ends[k] = value;
  }
}
function add(to2, from2, end, reach2, x, y) {
  let k = to2.count * ROW;
  if (k + ROW > to2.rows.length) {
    const wider = new Float64Array(2 * to2.rows.length);
    wider.set(to2.rows);
    to2.rows = wider;
  }
  to2.rows[k++] = from2;
  to2.rows[k++] = end;
  to2.rows[k++] = reach2;
  to2.rows[k++] = x;
  to2.rows[k] = y;
  to2.count++;
}

// card/src/geometry/crossing.ts
var newCrossing = () => ({ depth: 0, push: 0, angle: 0, ax: 0, ay: 0, bx: 0, by: 0 });
var lineA = new Float64Array(6);
var lineB = new Float64Array(6);
var extent = { min: 0, max: 0 };
var cutA = stretches();
var cutB = stretches();
function crossing(a, b, poses, ka, kb, out) {
  heightAbove(poses, ka, kb, lineA);
  findExtent(a.outline, lineA);
  if (extent.min >= -TOUCH || extent.max <= TOUCH) return false;
  heightAbove(poses, kb, ka, lineB);
  findExtent(b.outline, lineB);
  if (extent.min >= -TOUCH || extent.max <= TOUCH) return false;
  placeAlong(poses, ka, kb);
  cutByLine(a, lineA, cutA);
  cutByLine(b, lineB, cutB);
  return deepest(Math.sqrt(lineA[0] * lineA[0] + lineA[1] * lineA[1]), cosine(poses, ka, kb), out);
}
function heightAbove(poses, k, m2, line2) {
  const i = 12 * k;
  const j = 12 * m2;
  const nx = poses[j + 2];
  const ny = poses[j + 6];
  const nz = poses[j + 10];
  line2[0] = nx * poses[i] + ny * poses[i + 4] + nz * poses[i + 8];
  line2[1] = nx * poses[i + 1] + ny * poses[i + 5] + nz * poses[i + 9];
  line2[2] = nx * (poses[i + 3] - poses[j + 3]) + ny * (poses[i + 7] - poses[j + 7]) + nz * (poses[i + 11] - poses[j + 11]);
}
function findExtent(ring, line2) {
  const p2 = line2[0];
  const q2 = line2[1];
  const r2 = line2[2];
  let min = Infinity;
  let max = -Infinity;
  for (let i = 0; i < ring.length; i += 2) {
    const height = p2 * ring[i] + q2 * ring[i + 1] + r2;
    if (height < min) min = height;
    if (height > max) max = height;
  }
  extent.min = min;
  extent.max = max;
}
function cosine(poses, ka, kb) {
  const i = 12 * ka;
  const j = 12 * kb;
  return Math.abs(poses[i + 2] * poses[j + 2] + poses[i + 6] * poses[j + 6] + poses[i + 10] * poses[j + 10]);
}
function placeAlong(poses, ka, kb) {
  const sineA = Math.sqrt(lineA[0] * lineA[0] + lineA[1] * lineA[1]);
  const sineB = Math.sqrt(lineB[0] * lineB[0] + lineB[1] * lineB[1]);
  const u = -lineA[1] / sineA;
  const v = lineA[0] / sineA;
  const i = 12 * ka;
  const j = 12 * kb;
  lineA[3] = u;
  lineA[4] = v;
  lineA[5] = (u * poses[i] + v * poses[i + 1]) * (poses[i + 3] - poses[j + 3]) + (u * poses[i + 4] + v * poses[i + 5]) * (poses[i + 7] - poses[j + 7]) + (u * poses[i + 8] + v * poses[i + 9]) * (poses[i + 11] - poses[j + 11]);
  lineB[3] = lineB[1] / sineB;
  lineB[4] = -lineB[0] / sineB;
  lineB[5] = 0;
}
function deepest(sine, cosine2, out) {
  let found3 = false;
  for (let i = 0; i < cutA.count * ROW; i += ROW) {
    for (let j = 0; j < cutB.count * ROW; j += ROW) {
      const a = cutA.rows;
      const b = cutB.rows;
      const shift4 = Math.min(a[i + 1] - b[j], b[j + 1] - a[i]);
      if (shift4 <= TOUCH) continue;
      const heightA = a[i + 2];
      const heightB = b[j + 2];
      const poke = Math.min(heightA, heightB);
      const push = Math.min(poke, shift4);
      const depth = Math.min(poke / sine, shift4);
      if (found3 && (push < out.push || push === out.push && depth <= out.depth)) continue;
      found3 = true;
      out.push = push;
      out.depth = depth;
      const middle3 = (Math.max(a[i], b[j]) + Math.min(a[i + 1], b[j + 1])) / 2;
      const pokes = poke / sine <= shift4;
      if (pokes && heightA <= heightB) {
        out.ax = a[i + 3];
        out.ay = a[i + 4];
      } else {
        out.ax = pointX(lineA, sine, middle3);
        out.ay = pointY(lineA, sine, middle3);
      }
      if (pokes && heightB < heightA) {
        out.bx = b[j + 3];
        out.by = b[j + 4];
      } else {
        out.bx = pointX(lineB, sine, middle3);
        out.by = pointY(lineB, sine, middle3);
      }
    }
  }
  if (found3) out.angle = Math.atan2(sine, cosine2);
  return found3;
}
function pointX(line2, sine, place3) {
  return (place3 - line2[5]) * line2[3] - line2[2] / (sine * sine) * line2[0];
}
function pointY(line2, sine, place3) {
  return (place3 - line2[5]) * line2[4] - line2[2] / (sine * sine) * line2[1];
}

// card/src/score/clash/between.ts
var MOST_KEPT = 6e6;
var FINEST2 = 0.04;
var Between = class {
  /** Halvings of a frame's step. */
  levels = 0;
  opening;
  kept = [];
  used = 0;
  places = /* @__PURE__ */ new Map();
  start(opening2) {
    this.opening = opening2;
    this.used = 0;
    this.places.clear();
    const step = opening2.count > 1 ? opening2.pageAngles[0] - opening2.pageAngles[1] : 0;
    this.levels = Math.max(0, Math.ceil(Math.log2(step / FINEST2)));
  }
  /** Number of finest steps in a frame. */
  get parts() {
    return 1 << this.levels;
  }
  /** The page angle so many finest steps after a frame, degrees. */
  pageAngle(frame, part2) {
    const { pageAngles: pageAngles2 } = this.opening;
    const share = part2 / this.parts;
    return part2 === 0 ? pageAngles2[frame] : (1 - share) * pageAngles2[frame] + share * pageAngles2[frame + 1];
  }
  /** The poses there; 0 < part < parts. Stays valid until the next start. */
  poses(frame, part2) {
    const key = frame * this.parts + part2;
    const place3 = this.places.get(key);
    if (place3 !== void 0) return this.kept[place3];
    const there = this.opening.at(this.pageAngle(frame, part2));
    if (this.used * there.length > MOST_KEPT) return there.slice();
    let copy2 = this.kept[this.used];
    if (copy2 === void 0 || copy2.length !== there.length) {
      copy2 = new Float64Array(there.length);
      this.kept[this.used] = copy2;
    }
    copy2.set(there);
    this.places.set(key, this.used++);
    return copy2;
  }
};

// card/src/score/clash/bodies.ts
var SAME2 = { xx: 1, xy: 0, x0: 0, yx: 0, yy: 1, y0: 0 };
function bodiesOf(assembly) {
  const byBody = /* @__PURE__ */ new Map();
  assembly.panels.forEach(({ body }, k) => {
    const members = byBody.get(body);
    if (members === void 0) byBody.set(body, [k]);
    else members.push(k);
  });
  return [...byBody].map(([panel, all]) => bodyOf(assembly, panel, all));
}
function bodyOf({ panels, open: open2 }, panel, all) {
  if (all.length === 1) {
    const hull2 = hullOf(panels[panel].outline);
    return { panel, members: all, hull: hull2, ...boundingCircle(hull2) };
  }
  const placed = all.map((k) => placedShape(panels[k], placingIn(open2, k, panel)));
  const needed = all.map((_, i) => i).filter((i) => !placed.some((on, j) => j < i && liesOn(placed[i], on)));
  const hull = needed.length === 1 ? hullOf(placed[needed[0]].outline) : convexHull(needed.flatMap((i) => Array.from(placed[i].outline)));
  return { panel, members: needed.map((i) => all[i]), hull, ...boundingCircle(hull) };
}
var hullOf = (ring) => isConvex(ring) ? ring : convexHull(ring);
function placingIn(poses, k, frame) {
  if (k === frame) return SAME2;
  const i = k * POSE;
  const j = frame * POSE;
  const along3 = (axis2, x, y, z29) => poses[j + axis2] * x + poses[j + 4 + axis2] * y + poses[j + 8 + axis2] * z29;
  const column = (axis2, c) => along3(axis2, poses[i + c], poses[i + 4 + c], poses[i + 8 + c]);
  const shift4 = (axis2) => along3(axis2, poses[i + 3] - poses[j + 3], poses[i + 7] - poses[j + 7], poses[i + 11] - poses[j + 11]);
  return {
    xx: column(0, 0),
    xy: column(0, 1),
    x0: shift4(0),
    yx: column(1, 0),
    yy: column(1, 1),
    y0: shift4(1)
  };
}
function placedRing(ring, placing) {
  if (placing === SAME2) return ring;
  const { xx, xy, x0, yx, yy, y0 } = placing;
  const placed = zeros(ring.length);
  for (let i = 0; i < ring.length; i += 2) {
    placed[i] = xx * ring[i] + xy * ring[i + 1] + x0;
    placed[i + 1] = yx * ring[i] + yy * ring[i + 1] + y0;
  }
  return placed;
}
function placedShape({ outline, holes }, placing) {
  return {
    outline: placedRing(outline, placing),
    holes: holes.map((hole) => placedRing(hole, placing))
  };
}
function placedPoint([x, y], { xx, xy, x0, yx, yy, y0 }) {
  return [xx * x + xy * y + x0, yx * x + yy * y + y0];
}
function placedLine(line2, { xx, xy, x0, yx, yy, y0 }) {
  return {
    x0: xx * line2.x0 + xy * line2.y0 + x0,
    y0: yx * line2.x0 + yy * line2.y0 + y0,
    x1: xx * line2.x1 + xy * line2.y1 + x0,
    y1: yx * line2.x1 + yy * line2.y1 + y0
  };
}
var ON_EDGE = 1e-6;
function liesOn(inner, outer) {
  const { outline } = inner;
  const rings = [outer.outline, ...outer.holes];
  for (let i = 0; i < outline.length; i += 2) {
    const j = (i + 2) % outline.length;
    const [x, y] = [outline[i], outline[i + 1]];
    if (outsideOf(outer.outline, [x, y]) > ON_EDGE) return false;
    for (const hole of outer.holes) if (outsideOf(hole, [x, y]) < -ON_EDGE) return false;
    for (const ring of rings) if (passesThrough(ring, x, y, outline[j] - x, outline[j + 1] - y)) return false;
  }
  return rings.every((ring) => !edgeInside(ring, outline));
}
function edgeInside(ring, within) {
  for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
    if (outsideOf(within, [ring[i], ring[i + 1]]) < -ON_EDGE) return true;
    if (outsideOf(within, [(ring[i] + ring[j]) / 2, (ring[i + 1] + ring[j + 1]) / 2]) < -ON_EDGE) return true;
  }
  return false;
}
function passesThrough(ring, x, y, dx, dy) {
  const long = Math.sqrt(dx * dx + dy * dy) || 1;
  for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
    const ex = ring[i] - ring[j];
    const ey = ring[i + 1] - ring[j + 1];
    const edge = Math.sqrt(ex * ex + ey * ey) || 1;
    const a = (dx * (ring[j + 1] - y) - dy * (ring[j] - x)) / long;
    const b = (dx * (ring[i + 1] - y) - dy * (ring[i] - x)) / long;
    const c = (ex * (y - ring[j + 1]) - ey * (x - ring[j])) / edge;
    const d = (ex * (y + dy - ring[j + 1]) - ey * (x + dx - ring[j])) / edge;
    if (parted(a, b) && parted(c, d)) return true;
  }
  return false;
}
var parted = (a, b) => a > ON_EDGE && b < -ON_EDGE || a < -ON_EDGE && b > ON_EDGE;

// card/src/score/clash/contacts.ts
var FINE2 = 0.02;
var NEARLY = 0.7;
var Contacts = class {
  opening;
  pressing = 0;
  press = 0;
  /** The greatest page angle at which a contact was seen to count, −1 for none. */
  first = -1;
  all = [];
  found = newCrossing();
  /** @param pressing push up to which a contact only presses, mm */
  start(opening2, pressing) {
    this.opening = opening2;
    this.pressing = pressing;
    this.press = 0;
    this.first = -1;
    this.all.length = 0;
  }
  /** Takes note of two panels that have come into contact for the first time. */
  add(a, b, meet) {
    const meeters = { a, b, meet, worst: null, first: -1 };
    this.all.push(meeters);
    return meeters;
  }
  /** Takes note of one contact, which only presses up to a push of `pressing`. @returns whether it counts */
  note(meeters, found3, pageAngle2, pressing = this.pressing) {
    const counts2 = found3.push > pressing;
    const { worst } = meeters;
    const counted2 = meeters.first >= 0;
    const worse = worst === null || (counts2 ? !counted2 || isDeeper(found3, worst) : !counted2 && found3.push > worst.push);
    if (counts2) {
      meeters.first = Math.max(meeters.first, pageAngle2);
      this.first = Math.max(this.first, pageAngle2);
    } else this.press = Math.max(this.press, found3.push);
    if (worse)
      meeters.worst = {
        depth: found3.depth,
        push: found3.push,
        pageAngle: pageAngle2,
        between: [meeters.a, meeters.b],
        points: [
          [found3.ax, found3.ay],
          [found3.bx, found3.by]
        ]
      };
    return counts2;
  }
  /** A contact that can't push by more than this, mm, tells nothing new. */
  get dull() {
    return Math.min(this.press, NEARLY * this.pressing);
  }
  get anyCounts() {
    return this.first >= 0;
  }
  /** Narrows down where contacts are deepest and where they start. */
  result() {
    if (!this.anyCounts) {
      for (const each of this.all) if (pushOf(each) > NEARLY * this.pressing) this.deepen(each);
    }
    const counting = this.all.filter(({ first }) => first >= 0);
    if (counting.length === 0) return { worst: null, firstPageAngle: null, press: this.press };
    const deepest2 = Math.max(...counting.map(depthOf));
    for (const each of counting) if (depthOf(each) > NEARLY * deepest2) this.deepen(each);
    const { worst } = counting.reduce((most, each) => depthOf(each) > depthOf(most) ? each : most);
    const earliest = Math.max(...counting.map(({ first }) => first));
    const firstPageAngle = Math.max(
      ...counting.filter(({ first }) => first > earliest - this.step).map((each) => this.startOf(each))
    );
    return { worst, firstPageAngle, press: this.press };
  }
  /** The deepest catch of each two panels that catch, and where they begin to: the deepest first. */
  catches() {
    const counting = this.all.filter(({ first }) => first >= 0);
    return counting.map((each) => {
      this.deepen(each);
      return { ...each.worst, startsAt: this.startOf(each) };
    }).sort((a, b) => b.depth - a.depth);
  }
  get step() {
    const { count, pageAngles: pageAngles2 } = this.opening;
    return count > 1 ? pageAngles2[0] - pageAngles2[1] : 0;
  }
  /** Between the frames on either side of the worst contact, finds the page angle at which it is worst. */
  deepen(meeters) {
    const { pageAngles: pageAngles2, count } = this.opening;
    for (let part2 = this.step / 2; part2 >= FINE2; part2 /= 2) {
      const middle3 = meeters.worst?.pageAngle;
      for (const angle2 of [middle3 + part2, middle3 - part2])
        if (angle2 <= 180 && angle2 >= pageAngles2[count - 1]) this.look(meeters, angle2);
    }
  }
  /** Where, between the page angle at which two panels are known to catch and the frame before, they start to. */
  startOf(meeters) {
    let counts2 = meeters.first;
    let free = Math.min(180, counts2 + this.step);
    while (free - counts2 > FINE2) {
      const middle3 = (free + counts2) / 2;
      if (this.look(meeters, middle3)) counts2 = middle3;
      else free = middle3;
    }
    return counts2;
  }
  look(meeters, pageAngle2) {
    return meeters.meet(this.opening.at(pageAngle2), this.found) && this.note(meeters, this.found, pageAngle2);
  }
};
var isDeeper = (one2, other) => one2.depth > other.depth || one2.depth === other.depth && one2.push > other.push;
var pushOf = ({ worst }) => worst?.push ?? 0;
var depthOf = ({ worst }) => worst?.depth ?? 0;

// card/src/score/clash/hinges.ts
function hingesOf(assembly, bodies) {
  const { panels, joints, open: open2 } = assembly;
  const byPanel = new Map(bodies.map((body) => [body.panel, body]));
  const receiver = /* @__PURE__ */ new Map();
  for (const joint of joints)
    if (joint.kind === "glue" && panels[joint.between[1]].role === "tab")
      receiver.set(joint.between[1], joint.between[0]);
  const hinges = [];
  for (const joint of joints) {
    if (joint.kind !== "crease") continue;
    const [bodyA, bodyB] = joint.between.map((k) => byPanel.get(panels[k].body));
    if (bodyA === bodyB) continue;
    const [lineA2, lineB2] = [bodyA, bodyB].map(
      (body, end) => placedLine(joint.lines[end], placingIn(open2, joint.between[end], body.panel))
    );
    const [leftA, rightA] = reaches(bodyA.hull, lineA2);
    const [leftB, rightB] = reaches(bodyB.hull, lineB2);
    hinges.push({
      a: receiver.get(joint.between[0]) ?? joint.between[0],
      b: joint.between[1],
      bodyA,
      bodyB,
      lineA: lineA2,
      lineB: lineB2,
      reachAt0: Math.max(Math.min(leftA, leftB), Math.min(rightA, rightB)),
      reachAt180: Math.max(Math.min(leftA, rightB), Math.min(rightA, leftB))
    });
  }
  return hinges;
}
function across2({ x0, y0, x1, y1 }) {
  const long = Math.hypot(x1 - x0, y1 - y0);
  return [(y0 - y1) / long, (x1 - x0) / long];
}
function reaches(hull, line2) {
  const [nx, ny] = across2(line2);
  let left = 0;
  let right2 = 0;
  for (let i = 0; i < hull.length; i += 2) {
    const d = (hull[i] - line2.x0) * nx + (hull[i + 1] - line2.y0) * ny;
    left = Math.max(left, d);
    right2 = Math.max(right2, -d);
  }
  return [left > 1e-6 ? left : 0, right2 > 1e-6 ? right2 : 0];
}
function meetingAt(assembly, hinge, at) {
  const [ringsA, ringsB] = [hinge.bodyA, hinge.bodyB].map((body, end) => {
    const line2 = end === 0 ? hinge.lineA : hinge.lineB;
    const over = end === 1 && at === 180 ? -1 : 1;
    return body.members.map((k) => {
      const panel = assembly.panels[k];
      const { outline, holes } = placedShape(panel, placingIn(assembly.open, k, body.panel));
      return {
        outline: alongCrease(outline, line2, over),
        holes: holes.map((hole) => alongCrease(hole, line2, over))
      };
    });
  });
  let reach2 = 0;
  let place3 = [0, 0];
  for (const a of ringsA)
    for (const b of ringsB)
      visitCells([a, b], [0, 0], (cell2) => {
        if (cell2.count < 2 || cell2.height < SLIVER || cell2.across < SLIVER) return;
        const far = Math.abs(cell2.y) + cell2.height / 2;
        if (far <= reach2) return;
        reach2 = far;
        place3 = [cell2.x, Math.sign(cell2.y) * far];
      });
  if (reach2 === 0) return null;
  return {
    reach: reach2,
    pointA: offCrease(place3, hinge.lineA, 1),
    pointB: offCrease(place3, hinge.lineB, at === 180 ? -1 : 1)
  };
}
function alongCrease(ring, line2, over) {
  const [nx, ny] = across2(line2);
  return placedRing(ring, {
    xx: ny,
    xy: -nx,
    x0: nx * line2.y0 - ny * line2.x0,
    yx: over * nx,
    yy: over * ny,
    y0: -over * (nx * line2.x0 + ny * line2.y0)
  });
}
function offCrease([x, y], line2, over) {
  const [nx, ny] = across2(line2);
  return [line2.x0 + x * ny + over * y * nx, line2.y0 - x * nx + over * y * ny];
}
var FLAT2 = 5e-4;
var FoldAngle = class {
  sine = 0;
  cosine = 1;
  i;
  j;
  acrossA;
  acrossB;
  constructor({ bodyA, bodyB, lineA: lineA2, lineB: lineB2 }) {
    this.i = bodyA.panel * POSE;
    this.j = bodyB.panel * POSE;
    this.acrossA = across2(lineA2);
    this.acrossB = across2(lineB2);
  }
  /** Reads it off the poses of one page angle. */
  read(poses) {
    const { i, j, acrossA, acrossB } = this;
    const bx = poses[j] * acrossB[0] + poses[j + 1] * acrossB[1];
    const by = poses[j + 4] * acrossB[0] + poses[j + 5] * acrossB[1];
    const bz = poses[j + 8] * acrossB[0] + poses[j + 9] * acrossB[1];
    this.sine = bx * poses[i + 2] + by * poses[i + 6] + bz * poses[i + 10];
    const ax = poses[i] * acrossA[0] + poses[i + 1] * acrossA[1];
    const ay = poses[i + 4] * acrossA[0] + poses[i + 5] * acrossA[1];
    const az = poses[i + 8] * acrossA[0] + poses[i + 9] * acrossA[1];
    this.cosine = ax * bx + ay * by + az * bz;
  }
};
var FoldThrough = class {
  constructor(hinge) {
    this.hinge = hinge;
  }
  hinge;
  /** Number of the half turn: 0 for 0° to 180°, 1 for 180° to 360°, −1 for −180° to 0°, … */
  half = 0;
  known = false;
  /** The half turns that it may be in. */
  least = 0;
  most = 0;
  /** Takes the next fold angle; page angles must fall from one call to the next, and no step may turn by 90°. */
  follow({ sine, cosine: cosine2 }) {
    const now = sine > FLAT2 ? 0 : sine < -FLAT2 ? 1 : -1;
    if (now < 0) return;
    if (!this.known) {
      this.known = true;
      this.half = now === 0 ? 0 : -1;
      this.least = this.half;
      this.most = this.half;
      while (this.most < this.half + 2 && this.reachAt(this.most + 1) === 0) this.most++;
      while (this.least > this.half - 2 && this.reachAt(this.least) === 0) this.least--;
      return;
    }
    if (now === (this.half & 1)) return;
    const even = this.half % 2 === 0;
    this.half += cosine2 > 0 === even ? -1 : 1;
  }
  /** Which flat state it has been folded through: 0, 180, or null when it has not. */
  get through() {
    if (!this.known || this.half >= this.least && this.half <= this.most) return null;
    const turns = this.half > this.most ? this.most + 1 : this.least;
    return (turns & 1) === 0 ? 0 : 180;
  }
  /** What meets at the flat state where half turn n begins. */
  reachAt(n2) {
    return (n2 & 1) === 0 ? this.hinge.reachAt0 : this.hinge.reachAt180;
  }
};

// card/src/score/clash/motion-bounds.ts
var BOUND = 4;
var SPEED = 0;
var TURN = 1;
var BEND = 2;
var TWIST = 3;
var TOP = 5;
var MotionBounds = class {
  rows = new Float64Array(0);
  starts = new Int32Array(TOP + 1);
  nodes = 0;
  bends = new Float64Array(0);
  twists = new Float64Array(0);
  run(bodies, opening2, panels) {
    const spans = Math.max(1, opening2.count - 1);
    let nodes = 0;
    for (let level = 0; level <= TOP; level++) {
      this.starts[level] = nodes;
      nodes += (spans - 1 >> level) + 1;
    }
    this.nodes = nodes;
    if (this.rows.length < bodies.length * nodes * BOUND)
      this.rows = new Float64Array(bodies.length * nodes * BOUND);
    if (this.bends.length < opening2.count) {
      this.bends = new Float64Array(opening2.count);
      this.twists = new Float64Array(opening2.count);
    }
    for (let k = 0; k < bodies.length; k++) {
      this.measure(bodies[k], opening2, panels * POSE, k * nodes * BOUND);
      this.gather(spans, k * nodes);
    }
  }
  /** Where the row of a body's bounds over a span begins in `values`. */
  row(body, level, span2) {
    return (body * this.nodes + this.starts[level] + span2) * BOUND;
  }
  get values() {
    return this.rows;
  }
  /** Fills the rows of one body over single frames. */
  measure({ panel, x, y }, opening2, stride, at) {
    const { rows, bends, twists } = this;
    const { poses, count } = opening2;
    for (let frame = 0; frame + 1 < count; frame++) {
      const i = frame * stride + panel * POSE;
      const j = i + stride;
      const row = at + frame * BOUND;
      let moved2 = 0;
      let turned = 0;
      let bend = 0;
      let twist = 0;
      for (let axis2 = 0; axis2 < POSE; axis2 += 4) {
        const dx = poses[j + axis2] - poses[i + axis2];
        const dy = poses[j + axis2 + 1] - poses[i + axis2 + 1];
        const dn = poses[j + axis2 + 2] - poses[i + axis2 + 2];
        const dc = x * dx + y * dy + poses[j + axis2 + 3] - poses[i + axis2 + 3];
        moved2 += dc * dc;
        turned += dx * dx + dy * dy + dn * dn;
        if (frame === 0) continue;
        const b = i - stride + axis2;
        const ddx = dx - poses[i + axis2] + poses[b];
        const ddy = dy - poses[i + axis2 + 1] + poses[b + 1];
        const ddn = dn - poses[i + axis2 + 2] + poses[b + 2];
        const ddc = dc - (x * (poses[i + axis2] - poses[b]) + y * (poses[i + axis2 + 1] - poses[b + 1]));
        const whole2 = ddc - (poses[i + axis2 + 3] - poses[b + 3]);
        bend += whole2 * whole2;
        twist += ddx * ddx + ddy * ddy + ddn * ddn;
      }
      rows[row + SPEED] = Math.sqrt(moved2);
      rows[row + TURN] = Math.sqrt(turned / 2);
      bends[frame] = Math.sqrt(bend);
      twists[frame] = Math.sqrt(twist);
    }
    for (let frame = 0; frame + 1 < count; frame++) {
      const row = at + frame * BOUND;
      const bend = boundOver(bends, frame, count, rows[row + SPEED]);
      const twist = boundOver(twists, frame, count, rows[row + TURN]);
      rows[row + BEND] = bend;
      rows[row + TWIST] = twist;
      rows[row + SPEED] += bend / 2;
      rows[row + TURN] += twist / 2;
    }
  }
  /** Each longer span has the greatest bounds of its two halves. */
  gather(spans, first) {
    const { rows, starts } = this;
    for (let level = 1; level <= TOP; level++) {
      const count = (spans - 1 >> level) + 1;
      const below = (spans - 1 >> level - 1) + 1;
      for (let span2 = 0; span2 < count; span2++) {
        const row = (first + starts[level] + span2) * BOUND;
        const left = (first + starts[level - 1] + 2 * span2) * BOUND;
        const right2 = 2 * span2 + 1 < below ? left + BOUND : left;
        for (let q2 = 0; q2 < BOUND; q2++) {
          const a = rows[left + q2];
          const b = rows[right2 + q2];
          rows[row + q2] = Math.max(a, b);
        }
      }
    }
  }
};
function boundOver(differences, frame, count, change) {
  const from2 = Math.max(frame, 1);
  const to2 = Math.min(frame + 1, count - 2);
  if (from2 > to2) return 4 * change;
  let most = 0;
  for (let f2 = from2; f2 <= to2; f2++) if (differences[f2] > most) most = differences[f2];
  let uneven = 0;
  for (let f2 = Math.max(1, from2 - 1); f2 < Math.min(count - 2, to2 + 1); f2++) {
    const change2 = Math.abs(differences[f2 + 1] - differences[f2]);
    if (change2 > uneven) uneven = change2;
  }
  return most + 3 * uneven;
}

// card/src/score/clash/hinge-test.ts
var HingeTest = class {
  assembly;
  opening;
  between;
  contacts;
  pressing = 0;
  found = newCrossing();
  sines = new Float64Array(0);
  bends = new Float64Array(0);
  run(assembly, opening2, bodies, between4, contacts, pressing) {
    this.assembly = assembly;
    this.opening = opening2;
    this.between = between4;
    this.contacts = contacts;
    this.pressing = pressing;
    if (this.sines.length < opening2.count) {
      this.sines = new Float64Array(opening2.count);
      this.bends = new Float64Array(opening2.count);
    }
    for (const hinge of hingesOf(assembly, bodies)) this.test(hinge);
  }
  test(hinge) {
    if (hinge.reachAt0 === 0 && hinge.reachAt180 === 0) return;
    const { opening: opening2, sines } = this;
    const angle2 = new FoldAngle(hinge);
    const follower = new FoldThrough(hinge);
    let meeters = null;
    let flat = null;
    for (let frame = 0; frame < opening2.count; frame++) {
      const poses = opening2.frame(frame);
      angle2.read(poses);
      sines[frame] = angle2.sine;
      follower.follow(angle2);
      if (follower.through !== flat) {
        flat = follower.through;
        if (flat === null) continue;
        meeters = this.meeters(hinge, flat, Math.sign(angle2.sine));
        if (meeters === null) {
          this.test(flat === 0 ? { ...hinge, reachAt0: 0 } : { ...hinge, reachAt180: 0 });
          return;
        }
      }
      if (flat === null || meeters === null || !meeters.meet(poses, this.found)) continue;
      this.contacts.note(meeters, this.found, opening2.pageAngles[frame]);
    }
    if (meeters === null) this.lookBetween(hinge, angle2);
  }
  /** Bodies folded through a flat state, on the side where the sine has this sign; null if nothing meets there. */
  meeters(hinge, flat, side2) {
    const meeting3 = meetingAt(this.assembly, hinge, flat);
    if (meeting3 === null) return null;
    const { a, b, bodyA, bodyB } = hinge;
    const { open: open2 } = this.assembly;
    const pointA = placedPoint(meeting3.pointA, placingIn(open2, bodyA.panel, a));
    const pointB = placedPoint(meeting3.pointB, placingIn(open2, bodyB.panel, b));
    const angle2 = new FoldAngle(hinge);
    return this.contacts.add(a, b, (poses, out) => {
      angle2.read(poses);
      const beyond2 = side2 * angle2.sine;
      if (beyond2 <= 0) return false;
      out.depth = meeting3.reach;
      out.push = meeting3.reach * ((flat === 0 ? angle2.cosine : -angle2.cosine) > 0 ? beyond2 : 1);
      out.angle = Math.atan2(beyond2, Math.abs(angle2.cosine));
      [out.ax, out.ay] = pointA;
      [out.bx, out.by] = pointB;
      return true;
    });
  }
  /** Looks between frames where the fold angle comes so near to a flat state that it may dip through and come back. */
  lookBetween(hinge, angle2) {
    const { sines, bends, opening: opening2, between: between4, pressing } = this;
    const { count } = opening2;
    for (let f2 = 1; f2 + 1 < count; f2++) bends[f2] = Math.abs(sines[f2 + 1] - 2 * sines[f2] + sines[f2 - 1]);
    const reach2 = Math.max(hinge.reachAt0, hinge.reachAt180);
    for (let f2 = 0; f2 + 1 < count; f2++) {
      const nearest2 = Math.min(Math.abs(sines[f2]), Math.abs(sines[f2 + 1]));
      const dip = boundOver(bends, f2, count, Math.abs(sines[f2 + 1] - sines[f2])) / 8;
      if ((dip - nearest2) * reach2 <= pressing) continue;
      const side2 = Math.sign(Math.abs(sines[f2]) > Math.abs(sines[f2 + 1]) ? sines[f2] : sines[f2 + 1]);
      let meeters = null;
      for (let part2 = 1; part2 < between4.parts; part2++) {
        const poses = between4.poses(f2, part2);
        angle2.read(poses);
        if (side2 * angle2.sine >= 0) continue;
        const flat = angle2.cosine > 0 ? 0 : 180;
        if ((flat === 0 ? hinge.reachAt0 : hinge.reachAt180) === 0) continue;
        meeters ??= this.meeters(hinge, flat, -side2);
        if (meeters?.meet(poses, this.found))
          this.contacts.note(meeters, this.found, between4.pageAngle(f2, part2));
      }
    }
  }
};

// card/src/score/clash/edge-planes.ts
var EDGE = 4;
function edgesOf3(hull, point2) {
  const edges2 = [];
  const n2 = hull.length;
  for (let i = 0; i < n2; i += 2) {
    const j = (i + 2) % n2;
    if (point2 === null) addLine(edges2, hull, hull[i], hull[i + 1], hull[j], hull[j + 1]);
    else addLine(edges2, hull, point2[0], point2[1], hull[i], hull[i + 1]);
  }
  return numbers(edges2);
}
var ON_LINE = 1e-6;
function addLine(edges2, hull, x0, y0, x1, y1) {
  const long = Math.hypot(x1 - x0, y1 - y0);
  if (long < 1e-4) return;
  const [nx, ny] = [(y0 - y1) / long, (x1 - x0) / long];
  let [least, most] = [Infinity, -Infinity];
  for (let i = 0; i < hull.length; i += 2) {
    const off = (hull[i] - x0) * nx + (hull[i + 1] - y0) * ny;
    least = Math.min(least, off);
    most = Math.max(most, off);
  }
  if (most <= ON_LINE) edges2.push(x0, y0, nx, ny);
  else if (least >= -ON_LINE) edges2.push(x0, y0, -nx, -ny);
}
var seen = new Float64Array(64);
var before = new Float64Array(64);
var newEdgePlane = () => ({ edge: -1, out: 0, up: 0, gap: 0 });
function findEdgePlane(corners, moving2, fixed, edges2, first, second, enough, plane) {
  const { length: length2 } = corners;
  see(corners, first, moving2 * POSE, fixed * POSE);
  if (plane.edge >= 0 && gapTo(length2, edges2, plane) > enough) {
    const gap3 = plane.gap;
    see(corners, second, moving2 * POSE, fixed * POSE);
    plane.gap = Math.min(gap3, gapTo(length2, edges2, plane));
    if (plane.gap > enough) return;
    see(corners, first, moving2 * POSE, fixed * POSE);
  }
  plane.gap = 0;
  for (let e = 0; e < edges2.length; e += EDGE) choose(length2, edges2, e, plane);
  if (plane.gap <= 0) return;
  see(corners, second, moving2 * POSE, fixed * POSE);
  const gap2 = plane.gap;
  plane.gap = Math.min(gap2, gapTo(length2, edges2, plane));
}
function see(corners, poses, i, j) {
  if (seen.length < 2 * corners.length) seen = new Float64Array(2 * corners.length);
  for (let axis2 = 0; axis2 < 3; axis2++) {
    const nx = poses[j + axis2];
    const ny = poses[j + 4 + axis2];
    const nz = poses[j + 8 + axis2];
    const px = nx * poses[i] + ny * poses[i + 4] + nz * poses[i + 8];
    const py = nx * poses[i + 1] + ny * poses[i + 5] + nz * poses[i + 9];
    const p0 = nx * (poses[i + 3] - poses[j + 3]) + ny * (poses[i + 7] - poses[j + 7]) + nz * (poses[i + 11] - poses[j + 11]);
    for (let c = 0, k = axis2; c < corners.length; c += 3, k += 4)
      seen[k] = px * corners[c] + py * corners[c + 1] + p0;
  }
  for (let c = 0, k = 3; c < corners.length; c += 3, k += 4) seen[k] = corners[c + 2];
}
function longestChord(corners, moving2, fixed, first, second) {
  see(corners, first, moving2 * POSE, fixed * POSE);
  if (before.length < seen.length) before = new Float64Array(seen.length);
  before.set(seen);
  see(corners, second, moving2 * POSE, fixed * POSE);
  let squared = 0;
  for (let c = 0, k = 0; c < corners.length; c += 3, k += 4) {
    const dx = seen[k] - before[k];
    const dy = seen[k + 1] - before[k + 1];
    const dz = seen[k + 2] - before[k + 2];
    squared = Math.max(squared, dx * dx + dy * dy + dz * dz);
  }
  return Math.sqrt(squared);
}
var tried = newEdgePlane();
function choose(length2, edges2, e, plane) {
  let least = Infinity;
  let most = -Infinity;
  let lowOut = 0;
  let lowUp = 0;
  let highOut = 0;
  let highUp = 0;
  for (let c = 0, k = 0; c < length2; c += 3, k += 4) {
    const out = (seen[k] - edges2[e]) * edges2[e + 2] + (seen[k + 1] - edges2[e + 1]) * edges2[e + 3];
    const up = seen[k + 2];
    const share = up / (Math.abs(out) + Math.abs(up) + 1e-300);
    const turn = out >= 0 ? share : up >= 0 ? 2 - share : -2 - share;
    if (turn < least) {
      least = turn;
      lowOut = out;
      lowUp = up;
    }
    if (turn > most) {
      most = turn;
      highOut = out;
      highUp = up;
    }
  }
  const low = Math.atan2(lowUp, lowOut);
  const high = Math.atan2(highUp, highOut);
  const middle3 = (low + high) / 2;
  if (high - low >= Math.PI || Math.abs(middle3) > Math.PI / 2) return;
  tried.edge = e;
  tried.out = Math.cos(middle3);
  tried.up = Math.sin(middle3);
  if (gapTo(length2, edges2, tried) <= plane.gap) return;
  plane.edge = e;
  plane.out = tried.out;
  plane.up = tried.up;
  plane.gap = tried.gap;
}
function gapTo(length2, edges2, plane) {
  const { edge: e, up } = plane;
  const px = plane.out * edges2[e + 2];
  const py = plane.out * edges2[e + 3];
  const p0 = px * edges2[e] + py * edges2[e + 1];
  let gap2 = Infinity;
  for (let c = 0, k = 0; c < length2; c += 3, k += 4) {
    const beyond2 = (px * seen[k] + py * seen[k + 1] + up * seen[k + 2] - p0) * seen[k + 3];
    if (beyond2 < gap2) gap2 = beyond2;
  }
  plane.gap = gap2;
  return gap2;
}

// card/src/score/clash/pairs.ts
var Side = class {
  constructor(hull, point2) {
    this.hull = hull;
    this.point = point2;
    const corners = zeros(hull.length / 2 * 3);
    let count = 0;
    let reach2 = point2 === null ? 1 : 0;
    for (let i = 0; i < hull.length; i += 2) {
      const away2 = point2 === null ? 1 : Math.hypot(hull[i] - point2[0], hull[i + 1] - point2[1]);
      if (away2 < SAME_PLACE3) continue;
      corners[count++] = hull[i];
      corners[count++] = hull[i + 1];
      corners[count++] = 1 / away2;
      if (away2 > reach2) reach2 = away2;
    }
    this.corners = corners.subarray(0, count);
    this.reach = reach2;
  }
  hull;
  point;
  /**
   * Corners of the body's hull, three numbers each: x, y and a weight for their height over another body's plane. The
   * weight is 1; or, where a point is shared, 1 / distance from it, and a corner at that point is left out.
   */
  corners;
  /** Where a point is shared: how far the hull reaches from it, mm; else 1. */
  reach;
  lines = null;
  /** Lines through which a plane may stand that leaves the whole hull on one side (see `edgesOf`). */
  get edges() {
    this.lines ??= edgesOf3(this.hull, this.point);
    return this.lines;
  }
};
var ON_LINE2 = 1e-6;
var SAME_PLACE3 = 1e-4;
var FAR = 4;
function pairsOf(assembly, opening2, bodies) {
  const bodyOf2 = new Int32Array(assembly.panels.length);
  const placeOf = new Map(bodies.map(({ panel }, place3) => [panel, place3]));
  assembly.panels.forEach(({ body }, k) => {
    bodyOf2[k] = placeOf.get(body);
  });
  const exempt = exemptPairs(assembly.joints, bodyOf2, bodies.length);
  const seams = seamsOf(assembly, bodies, bodyOf2);
  const plain2 = bodies.map(({ hull }) => new Side(hull, null));
  const pairs = [];
  for (let a = 0; a < bodies.length; a++)
    for (let b = a + 1; b < bodies.length; b++) {
      if (exempt.has(a * bodies.length + b)) continue;
      const seam = seams[a].find(({ other }) => other === b);
      const panels = panelPairs(assembly, bodies[a], bodies[b], seam);
      if (panels.length === 0) continue;
      const point2 = seam === void 0 && opening2.count > 0 ? sharedPoint(opening2, bodies[a], bodies[b], seams[a], seams[b]) : null;
      pairs.push({
        a,
        b,
        panels,
        joined: seam !== void 0,
        shared: point2 !== null,
        sideA: point2 === null ? plain2[a] : new Side(bodies[a].hull, point2[0]),
        sideB: point2 === null ? plain2[b] : new Side(bodies[b].hull, point2[1])
      });
    }
  return pairs;
}
function exemptPairs(joints, bodyOf2, count) {
  const keys = /* @__PURE__ */ new Set();
  const add2 = (k, m2) => {
    const [a, b] = [bodyOf2[k], bodyOf2[m2]];
    keys.add(Math.min(a, b) * count + Math.max(a, b));
  };
  const slides = joints.filter((joint) => joint.kind === "slide");
  for (const joint of joints) if (joint.kind === "pivot") add2(...joint.between);
  for (const slide of slides) {
    add2(...slide.between);
    for (const other of slides)
      if (other.between[1] === slide.between[1] && other.along.every((p2, end) => p2.every((v, axis2) => v === slide.along[end][axis2])))
        add2(slide.between[0], other.between[0]);
  }
  return keys;
}
function seamsOf({ joints, open: open2 }, bodies, bodyOf2) {
  const seams = bodies.map(() => []);
  for (const joint of joints) {
    if (joint.kind !== "crease") continue;
    const [a, b] = joint.between.map((k) => bodyOf2[k]);
    if (a === b) continue;
    const [lineA2, lineB2] = joint.lines.map(
      (line2, end) => placedLine(line2, placingIn(open2, joint.between[end], bodies[end === 0 ? a : b].panel))
    );
    seams[a].push({ other: b, own: lineA2, others: lineB2 });
    seams[b].push({ other: a, own: lineB2, others: lineA2 });
  }
  return seams;
}
function panelPairs({ panels, open: open2 }, a, b, seam) {
  const crosses = ({ members, panel }, line2) => line2 === void 0 ? members : members.filter((k) => liesAstride(placedRing(panels[k].outline, placingIn(open2, k, panel)), line2));
  const found3 = [];
  const ofB = crosses(b, seam?.others);
  for (const k of crosses(a, seam?.own)) for (const m2 of ofB) found3.push(k, m2);
  return found3;
}
function liesAstride(ring, { x0, y0, x1, y1 }) {
  const long = Math.hypot(x1 - x0, y1 - y0);
  const [nx, ny] = [(y0 - y1) / long, (x1 - x0) / long];
  let [left, right2] = [false, false];
  for (let i = 0; i < ring.length; i += 2) {
    const off = (ring[i] - x0) * nx + (ring[i + 1] - y0) * ny;
    if (off > ON_LINE2) left = true;
    else if (off < -ON_LINE2) right2 = true;
  }
  return left && right2;
}
function sharedPoint(opening2, a, b, ofA, ofB) {
  for (const seamA of ofA)
    for (const seamB of ofB) {
      if (seamA.other !== seamB.other) continue;
      const places = meeting2(seamA.others, seamB.others);
      if (places === null) continue;
      const onA = along2(seamA.own, places[0]);
      const onB = along2(seamB.own, places[1]);
      if (Math.hypot(onA[0] - a.x, onA[1] - a.y) > FAR * a.radius) continue;
      if (Math.hypot(onB[0] - b.x, onB[1] - b.y) > FAR * b.radius) continue;
      if (staysOne(opening2, a.panel, onA, b.panel, onB)) return [onA, onB];
    }
  return null;
}
function meeting2(p2, q2) {
  const [ux, uy] = [p2.x1 - p2.x0, p2.y1 - p2.y0];
  const [vx, vy] = [q2.x1 - q2.x0, q2.y1 - q2.y0];
  const turn = ux * vy - uy * vx;
  if (Math.abs(turn) < 0.02 * Math.hypot(ux, uy) * Math.hypot(vx, vy)) return null;
  const [dx, dy] = [q2.x0 - p2.x0, q2.y0 - p2.y0];
  return [(dx * vy - dy * vx) / turn, (dx * uy - dy * ux) / turn];
}
var along2 = ({ x0, y0, x1, y1 }, share) => [
  x0 + share * (x1 - x0),
  y0 + share * (y1 - y0)
];
var p = new Float64Array(3);
var q = new Float64Array(3);
function staysOne(opening2, a, onA, b, onB) {
  const last = opening2.count - 1;
  for (const frame of [0, last >> 2, last >> 1, 3 * last >> 2, last]) {
    worldPoint(opening2.frame(frame), a, onA[0], onA[1], p);
    worldPoint(opening2.frame(frame), b, onB[0], onB[1], q);
    if (Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]) > SAME_PLACE3) return false;
  }
  return true;
}

// card/src/score/clash/separation.ts
var ROW2 = 5;
var EDGEWISE = 8;
var Separation = class {
  poses = [];
  known = new Int32Array(0);
  rows = new Float64Array(0);
  /** Slots at which no plane through an edge parts the pair. */
  entwined = new Int32Array(0);
  pair;
  a;
  b;
  serial = 0;
  /** The planes that parted the pair last: through an edge of a, and of b. */
  planeA = newEdgePlane();
  planeB = newEdgePlane();
  /** How far, at most, a corner of a strays from its chord in b's frame over the span last asked for, and one of b in a's. */
  offA = 0;
  offB = 0;
  /** Makes room for slots, and forgets what was known. */
  start(slots) {
    if (this.known.length < slots) {
      this.known = new Int32Array(slots);
      this.rows = new Float64Array(slots * ROW2);
      this.entwined = new Int32Array(slots);
      this.poses = new Array(slots).fill(null);
      this.serial = 0;
    }
  }
  /** Sets the poses of a slot. */
  setPoses(slot2, poses) {
    this.poses[slot2] = poses;
    this.known[slot2] = 0;
    this.entwined[slot2] = 0;
  }
  setPair(pair, a, b) {
    this.pair = pair;
    this.a = a;
    this.b = b;
    this.serial++;
    this.planeA.edge = -1;
    this.planeB.edge = -1;
  }
  /**
   * Whether no contact between the slots i and j can push by more than `slack`, mm.
   * @param frames how many frames lie between the two slots (a fraction between frames)
   * @param bounds where `rowA` and `rowB` say how the two bodies move there
   */
  isClear(i, j, frames, slack, bounds, rowA, rowB) {
    const { rows, a, b, pair } = this;
    const p2 = this.look(i);
    const q2 = this.look(j);
    const eighth = frames * frames / 8;
    const speeds = bounds[rowA + SPEED] + bounds[rowB + SPEED];
    if (rows[p2 + 4] + rows[q2 + 4] - frames * speeds > 2 * (a.radius + b.radius)) return true;
    const turnA = bounds[rowA + TURN];
    const turnB = bounds[rowB + TURN];
    const twistA = bounds[rowA + TWIST];
    const twistB = bounds[rowB + TWIST];
    const sideA = sideOf(rows, p2, q2);
    const sideB = sideOf(rows, p2 + 2, q2 + 2);
    if (pair.shared) {
      this.offA = eighth * (twistA + twistB + 2 * turnA * turnB);
      this.offB = this.offA;
    } else {
      const bends = bounds[rowA + BEND] + bounds[rowB + BEND] + twistA * a.radius + twistB * b.radius;
      const apart2 = Math.max(rows[p2 + 4], rows[q2 + 4]) + frames * speeds / 2;
      this.offA = eighth * (twistB * (apart2 + a.radius) + 2 * turnB * (speeds + turnA * a.radius) + bends);
      this.offB = eighth * (twistA * (apart2 + b.radius) + 2 * turnA * (speeds + turnB * b.radius) + bends);
    }
    if (sideA >= this.offA - slack / pair.sideA.reach || sideB >= this.offB - slack / pair.sideB.reach)
      return true;
    if (frames > EDGEWISE || frames > 1 && (sideA > 0 || sideB > 0)) return false;
    if (this.entwined[i] === this.serial || this.entwined[j] === this.serial) return false;
    const first = this.poses[i];
    const second = this.poses[j];
    const { planeA, planeB } = this;
    findEdgePlane(pair.sideA.corners, a.panel, b.panel, pair.sideB.edges, first, second, this.offA, planeB);
    if (planeB.gap > this.offA) return true;
    findEdgePlane(pair.sideB.corners, b.panel, a.panel, pair.sideA.edges, first, second, this.offB, planeA);
    if (planeB.gap === 0 && planeA.gap === 0) this.entwined[i] = this.serial;
    return planeA.gap > this.offB;
  }
  /**
   * How far, at most, any corner of a moves against b, mm, from the nearer of two slots to anywhere between them; the
   * span must be the one that `isClear` was last asked about.
   */
  shift(i, j) {
    const { a, b, pair } = this;
    const chord = longestChord(
      pair.sideA.corners,
      a.panel,
      b.panel,
      this.poses[i],
      this.poses[j]
    );
    return chord / 2 + this.offA * pair.sideA.reach;
  }
  /** Whether, at one page angle, either body is within `slack` mm of lying on one side of the other's plane. */
  isOneSided(slot2, slack) {
    const { rows, pair } = this;
    const p2 = this.look(slot2);
    return sideOf(rows, p2, p2) >= -slack / pair.sideA.reach || sideOf(rows, p2 + 2, p2 + 2) >= -slack / pair.sideB.reach;
  }
  /** Finds what is kept of the pair at a slot, unless it is known; returns where its row begins. */
  look(slot2) {
    const row = slot2 * ROW2;
    if (this.known[slot2] === this.serial) return row;
    this.known[slot2] = this.serial;
    const { rows, a, b, pair } = this;
    const poses = this.poses[slot2];
    const i = a.panel * POSE;
    const j = b.panel * POSE;
    extent2(pair.sideA.corners, poses, i, j, rows, row);
    extent2(pair.sideB.corners, poses, j, i, rows, row + 2);
    const dx = poses[i] * a.x + poses[i + 1] * a.y + poses[i + 3] - poses[j] * b.x - poses[j + 1] * b.y - poses[j + 3];
    const dy = poses[i + 4] * a.x + poses[i + 5] * a.y + poses[i + 7] - poses[j + 4] * b.x - poses[j + 5] * b.y - poses[j + 7];
    const dz = poses[i + 8] * a.x + poses[i + 9] * a.y + poses[i + 11] - poses[j + 8] * b.x - poses[j + 9] * b.y - poses[j + 11];
    rows[row + 4] = Math.sqrt(dx * dx + dy * dy + dz * dz);
    return row;
  }
};
function sideOf(rows, p2, q2) {
  const above = Math.min(rows[p2], rows[q2]);
  const below = Math.max(rows[p2 + 1], rows[q2 + 1]);
  return Math.max(above, -below);
}
function extent2(corners, poses, i, j, rows, at) {
  const nx = poses[j + 2];
  const ny = poses[j + 6];
  const nz = poses[j + 10];
  const px = nx * poses[i] + ny * poses[i + 4] + nz * poses[i + 8];
  const py = nx * poses[i + 1] + ny * poses[i + 5] + nz * poses[i + 9];
  const p0 = nx * (poses[i + 3] - poses[j + 3]) + ny * (poses[i + 7] - poses[j + 7]) + nz * (poses[i + 11] - poses[j + 11]);
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

// card/src/score/clash/clash.ts
var FAINT = 0.02;
var SLANT = 2;
var LOOK_AHEAD = 3;
var DOUBT = 4;
var ClashTest = class {
  assembly;
  opening;
  pressing = 0;
  hinged = 0;
  usual = 0;
  bodies = [];
  pairs = [];
  bounds = new MotionBounds();
  separation = new Separation();
  between = new Between();
  hinges = new HingeTest();
  contacts = new Contacts();
  met = /* @__PURE__ */ new Map();
  found = newCrossing();
  every = false;
  /** The pair at hand, and its place among the pairs. */
  pair;
  at = 0;
  /** At each frame: the last pair that was tested there, and its push. */
  tested = new Int32Array(0);
  pushes = new Float64Array(0);
  /** Of each span of one frame in which a catch can't be ruled out: pair, frame, push at its start and at its end. */
  doubts = new Float64Array(16 * DOUBT);
  doubtful = 0;
  /**
   * @param pressing push up to which a contact only presses, mm
   * @param hinged the same of two panels that a crease joins
   */
  run(assembly, opening2, pressing, hinged = pressing) {
    this.hinged = hinged;
    this.find(assembly, opening2, pressing, false);
    return this.contacts.result();
  }
  /** The deepest catch of each two panels that catch, and where they begin to: the deepest first. */
  catches(assembly, opening2, pressing) {
    this.hinged = pressing;
    this.find(assembly, opening2, pressing, true);
    return this.contacts.catches();
  }
  /** @param every whether every catch is wanted, and not just the worst and the first */
  find(assembly, opening2, pressing, every) {
    this.assembly = assembly;
    this.opening = opening2;
    this.pressing = pressing;
    this.usual = pressing;
    this.every = every;
    this.doubtful = 0;
    this.between.start(opening2);
    this.contacts.start(opening2, pressing);
    this.met.clear();
    this.bodies = bodiesOf(assembly);
    this.pairs = pairsOf(assembly, opening2, this.bodies);
    this.bounds.run(this.bodies, opening2, assembly.panels.length);
    this.makeRoom();
    for (let frame = 0; frame < opening2.count; frame++) this.separation.setPoses(frame, opening2.frame(frame));
    for (let k = 0; k < this.pairs.length; k++) this.testPair(k);
    this.hinges.run(assembly, opening2, this.bodies, this.between, this.contacts, this.hinged);
    if (every || !this.contacts.anyCounts) this.settleDoubts();
  }
  makeRoom() {
    const { count } = this.opening;
    this.separation.start(count + this.between.levels + 1);
    if (this.pushes.length < count) {
      this.pushes = new Float64Array(count);
      this.tested = new Int32Array(count);
    }
    this.tested.fill(-1);
  }
  testPair(k) {
    this.take(k);
    const last = this.opening.count - 1;
    if (this.pair.joined || last === 0) {
      for (let frame = 0; frame <= last; frame++) this.testFrame(frame);
      return;
    }
    for (let span2 = 0; span2 << TOP < last; span2++) this.visit(TOP, span2);
  }
  take(k) {
    this.at = k;
    this.pair = this.pairs[k];
    this.separation.setPair(this.pair, this.bodies[this.pair.a], this.bodies[this.pair.b]);
    if (this.hinged !== this.usual) this.pressing = this.isHinged(this.pair) ? this.hinged : this.usual;
  }
  /** Whether a crease joins them, if only one that closes a loop and may miss. */
  isHinged({ panels }) {
    const body = (panel) => this.assembly.panels[panel].body;
    const [a, b] = [body(panels[0]), body(panels[1])];
    return this.assembly.joints.some(({ kind, between: [c, d] }) => {
      const [e, f2] = [body(c), body(d)];
      return kind === "crease" && (a === e && b === f2 || a === f2 && b === e);
    });
  }
  /** Goes through a span that begins at frame `span << level`. */
  visit(level, span2) {
    const last = this.opening.count - 1;
    const from2 = span2 << level;
    const to2 = Math.min(span2 + 1 << level, last);
    const dull = this.dull;
    if (this.isClear(from2, to2, to2 - from2, dull, level, span2)) return;
    if (dull > FAINT && level > 0 && level <= LOOK_AHEAD) {
      const push = Math.max(this.testFrame(from2), this.testFrame(to2));
      if (push + SLANT * this.separation.shift(from2, to2) <= dull) return;
    }
    if (level > 0) {
      this.visit(level - 1, 2 * span2);
      if (2 * span2 + 1 << level - 1 < last) this.visit(level - 1, 2 * span2 + 1);
      return;
    }
    const before2 = this.testFrame(from2);
    const after = this.testFrame(to2);
    if (before2 > this.pressing || after > this.pressing) return;
    if (this.contacts.anyCounts && !this.every) return;
    if (!this.isClear(from2, to2, 1, this.pressing, 0, span2)) this.addDoubt(from2, before2, after);
  }
  /** Up to what push a contact has nothing new to tell: where something catches, those that only press have not. */
  get dull() {
    return this.every || !this.contacts.anyCounts ? FAINT : Math.max(FAINT, this.pressing);
  }
  isClear(from2, to2, frames, slack, level, span2) {
    const { bounds, pair } = this;
    const rowA = bounds.row(pair.a, level, span2);
    const rowB = bounds.row(pair.b, level, span2);
    return this.separation.isClear(from2, to2, frames, slack, bounds.values, rowA, rowB);
  }
  /** Tests the pair at a frame, unless it has been. @returns its greatest push there, or somewhat more, mm */
  testFrame(frame) {
    if (this.tested[frame] !== this.at) {
      this.tested[frame] = this.at;
      this.pushes[frame] = this.test(frame, this.opening.frame(frame), this.opening.pageAngles[frame]);
    }
    return this.pushes[frame];
  }
  test(slot2, poses, pageAngle2) {
    const { contacts, found: found3, pair } = this;
    const dull = Math.max(FAINT, contacts.dull);
    if (this.separation.isOneSided(slot2, dull)) return dull;
    const { panels } = this.assembly;
    let push = 0;
    for (let i = 0; i < pair.panels.length; i += 2) {
      const a = pair.panels[i];
      const b = pair.panels[i + 1];
      if (!crossing(panels[a], panels[b], poses, a, b, found3)) continue;
      contacts.note(this.meeters(a, b), found3, pageAngle2, this.pressing);
      push = Math.max(push, found3.push);
    }
    return push;
  }
  meeters(a, b) {
    const { panels } = this.assembly;
    const key = a * panels.length + b;
    let both = this.met.get(key);
    if (both === void 0) {
      both = this.contacts.add(a, b, (poses, out) => crossing(panels[a], panels[b], poses, a, b, out));
      this.met.set(key, both);
    }
    return both;
  }
  addDoubt(frame, before2, after) {
    if (this.doubtful * DOUBT === this.doubts.length) {
      const longer3 = new Float64Array(2 * this.doubts.length);
      longer3.set(this.doubts);
      this.doubts = longer3;
    }
    this.doubts.set([this.at, frame, before2, after], this.doubtful * DOUBT);
    this.doubtful++;
  }
  settleDoubts() {
    for (let i = 0; i < this.doubtful; i++) {
      const [k, frame, before2, after] = this.doubts.subarray(i * DOUBT, (i + 1) * DOUBT);
      this.take(k);
      this.settle(frame, frame, before2, frame + 1, after, 0, this.between.parts, 0);
    }
  }
  /**
   * Halves a part of a frame's step until it is clear of any catch that counts, or so short that nothing moves far in it.
   * @param i slot of the poses at its start, `j` at its end, and the greatest push at either
   * @param from finest steps from the frame to the start, `to` to the end
   */
  settle(frame, i, before2, j, after, from2, to2, depth) {
    const { between: between4, bounds, pair, separation, pressing } = this;
    const share = (to2 - from2) / between4.parts;
    const rowA = bounds.row(pair.a, 0, frame);
    const rowB = bounds.row(pair.b, 0, frame);
    if (to2 - from2 < 2) return;
    if (separation.isClear(i, j, share, pressing, bounds.values, rowA, rowB)) return;
    if (Math.max(before2, after) + SLANT * separation.shift(i, j) <= pressing) return;
    const middle3 = from2 + to2 >> 1;
    const slot2 = this.opening.count + depth;
    const poses = between4.poses(frame, middle3);
    separation.setPoses(slot2, poses);
    const push = this.test(slot2, poses, between4.pageAngle(frame, middle3));
    if (push > pressing) return;
    this.settle(frame, i, before2, slot2, push, from2, middle3, depth + 1);
    this.settle(frame, slot2, push, j, after, middle3, to2, depth + 1);
  }
};

// card/src/score/desirability.ts
function desirability(value, want, scale) {
  let worth = 1;
  if (want.least !== void 0)
    worth = Math.min(worth, ramp((value - want.least) / (Math.abs(want.least) || scale)));
  if (want.most !== void 0)
    worth = Math.min(worth, ramp((want.most - value) / (Math.abs(want.most) || scale)));
  if (want.target !== void 0 && want.tolerance !== void 0)
    worth = Math.min(worth, Math.max(0, 1 - Math.abs(value - want.target) / (2 * want.tolerance)));
  return worth;
}
var ramp = (t2) => Math.min(1, Math.max(0, (1 + t2) / 2));
function overall(worths) {
  let sum = 0;
  let weights = 0;
  for (const { worth, weight } of worths) {
    if (weight === 0) continue;
    if (worth <= 0) return 0;
    sum += weight * Math.log(worth);
    weights += weight;
  }
  return weights === 0 ? 1 : Math.exp(sum / weights);
}

// card/src/card/between-walls.ts
var WAVES = 1.4 * 4;

// card/src/card/too-short.ts
var openingShare = (sectors) => Math.min(1, Math.max(0.07, 0.4 - 0.2 * (sectors - 129 * RADIANS4) / (31 * RADIANS4)));
var RADIANS4 = Math.PI / 180;

// card/src/card/fold-spring.ts
function parallelSpring(feet, widths, length2, way, card2, thickness, pile3) {
  const longer3 = Math.max(widths[0], widths[1]);
  const together2 = widths[0] + widths[1];
  const foot2 = (feet[0] + feet[1]) / 2;
  const membrane = card2.pull * length2 / together2;
  return {
    excess: excessOf(feet, widths, way),
    room: parallelRoom(feet, widths, way),
    bowLoad: cylinderBowLoad(card2.bend, length2, longer3),
    membrane,
    waves: WAVES * card2.bend * length2 / longer3,
    slope: middleOf(foot2, together2 / 4, way, (x) => x),
    pile: pile3,
    feet,
    vertex: false,
    reach: together2,
    opening: membrane,
    longer: longer3,
    together: together2,
    thickness,
    radius: 1
  };
}
function vertexSpring(glue2, sectors, outer, inner, way, card2, thickness, pile3) {
  const longer3 = Math.max(sectors[0], sectors[1]);
  const together2 = sectors[0] + sectors[1];
  const spread = coneSpread(outer, inner);
  const membrane = card2.pull * Math.max(outer * outer - inner * inner, outer) / 2 / together2;
  return {
    excess: excessOf(glue2, sectors, way),
    room: vertexRoom(glue2, sectors, way),
    bowLoad: coneBowLoad(card2.bend, spread, longer3),
    membrane,
    waves: WAVES * card2.bend * spread / longer3,
    slope: middleOf((glue2[0] + glue2[1]) / 2, together2 / 4, way, (x) => Math.abs(Math.sin(x))),
    pile: pile3 / outer,
    feet: glue2,
    vertex: true,
    reach: Math.min(together2, 2 * Math.PI - together2),
    opening: membrane * openingShare(together2),
    longer: longer3,
    together: together2,
    thickness,
    radius: outer
  };
}
function middleOf(foot2, half, way, at) {
  if (way === 1) return at(foot2 + half);
  return half * 2 <= foot2 ? at(foot2 - half) : Math.max(at(2 * half - foot2 / 2), at(foot2 / 2));
}
function onFold(spring, parent, ratio2) {
  const scale = spring.radius / parent.radius;
  const bowLoad = Math.min(spring.bowLoad, parent.bowLoad * scale);
  const slope = parent.slope * ratio2;
  const waves = parent.waves * scale * scale;
  const own = spring.waves / spring.slope ** 2;
  return slope > 0 && waves / slope ** 2 < own ? { ...spring, bowLoad, waves: waves / slope ** 2 * spring.slope ** 2 } : { ...spring, bowLoad };
}
var newFoldState = () => ({
  forced: 0,
  lacking: 0,
  energy: 0,
  slope: 0,
  bow: 0,
  membraneStrain: 0,
  bendingStrain: 0
});
function foldState(spring, theta, state) {
  const half = Math.sin(theta / 2);
  const forced = Math.max(0, Math.abs(spring.excess) - spring.room * half * half);
  const height = spring.slope * theta - spring.pile;
  state.forced = forced;
  state.energy = 0;
  state.slope = 0;
  state.bow = 0;
  state.membraneStrain = 0;
  state.bendingStrain = 0;
  if (forced > 0) {
    const slope = -spring.room * Math.sin(theta) / 2;
    const squeezed = spring.membrane * forced * forced / 2;
    const squeezedSlope = spring.membrane * forced * slope;
    let share = 1;
    if (height > 0) {
      const ratio2 = spring.waves * forced / (height * height * spring.bowLoad);
      const bowed = 1 / (1 + ratio2 ** 4);
      const bend = ratio2 < 1 ? spring.bowLoad * forced * (1 + ratio2 ** 4) ** 0.25 : spring.bowLoad * forced * ratio2 * (1 + ratio2 ** -4) ** 0.25;
      const bendSlope = bend * (bowed * slope / forced + (1 - bowed) * (2 * slope / forced - 2 * spring.slope / height));
      state.energy = 1 / (1 / bend + 1 / squeezed);
      state.slope = state.energy * (state.energy / bend) * (bendSlope / bend) + state.energy * (state.energy / squeezed) * (squeezedSlope / squeezed);
      share = bend / (bend + squeezed);
      const free = spring.vertex ? coneBow(forced, spring.longer, spring.radius) : cylinderBow(forced, spring.longer);
      state.bow = Math.min(free, height * spring.radius);
      const long = spring.vertex ? spring.longer * spring.radius / 2 : spring.longer;
      const bow = spring.vertex ? state.bow / 2 : state.bow;
      const given2 = spring.vertex ? forced * spring.radius / 2 : forced;
      const room = spring.vertex ? height * spring.radius / 2 : height;
      state.bendingStrain = Math.max(
        spring.thickness * Math.PI ** 2 * bow / (2 * long * long),
        3.7 * spring.thickness * given2 / (long * room) * (1 - share)
      );
    } else {
      state.energy = squeezed;
      state.slope = squeezedSlope;
    }
    state.membraneStrain = PEAK_SQUEEZED * forced / spring.together * share;
  }
  addOpening(spring, theta, half, state);
  return state;
}
var PEAK_SQUEEZED = 1.2;
var PEAK_OPENED = 1.35;
function addOpening(spring, theta, half, state) {
  const apart2 = feetApart(spring, half);
  const lacking = apart2 - spring.reach;
  state.lacking = Math.max(0, lacking);
  if (lacking <= 0) return;
  const [a, b] = spring.feet;
  const sine = spring.vertex ? Math.sin(apart2) : apart2;
  const product2 = spring.vertex ? Math.sin(a) * Math.sin(b) : a * b;
  const slope = sine > 1e-9 ? product2 * Math.sin(theta) / sine : 1;
  state.energy += spring.opening * lacking * lacking / 2;
  state.slope += spring.opening * lacking * slope;
  state.membraneStrain = Math.max(state.membraneStrain, PEAK_OPENED * lacking / spring.together);
}
function feetApart({ feet: [a, b], vertex }, half) {
  if (!vertex) return Math.sqrt((a - b) ** 2 + 4 * a * b * half * half);
  const hav = Math.sin((a - b) / 2) ** 2 + Math.sin(a) * Math.sin(b) * half * half;
  return 2 * Math.asin(Math.min(1, Math.sqrt(Math.max(0, hav))));
}
function parentsAngle({ feet: [a, b], vertex }, square) {
  const least = vertex ? (2 * Math.sin((a - b) / 2)) ** 2 : (a - b) ** 2;
  const whole2 = 4 * (vertex ? Math.sin(a) * Math.sin(b) : a * b);
  return 2 * Math.asin(Math.min(1, Math.sqrt(Math.max(0, (square - least) / whole2))));
}

// card/src/card/measured.ts
var RADIANS5 = Math.PI / 180;
var GRAVITY = 9.80665;

// card/src/score/force/creases.ts
var RADIANS6 = Math.PI / 180;
var EVERY = 6;
function creaseTorques(assembly, opening2, card2) {
  const creases = assembly.joints.flatMap((joint) => {
    if (joint.kind !== "crease") return [];
    const [a, b] = joint.between;
    if (assembly.panels[a].piece === "page" && assembly.panels[b].piece === "page") return [];
    const [first, second] = joint.lines;
    const { crease } = card2.of(assembly.panels[b].piece);
    const long = Math.hypot(first.x1 - first.x0, first.y1 - first.y0);
    return [
      {
        a: a * POSE,
        b: b * POSE,
        from: away(first, assembly.panels[a].outline),
        to: away(second, assembly.panels[b].outline),
        stiffness: crease.stiffness * long,
        rest: crease.rest
      }
    ];
  });
  const pageAngles2 = [];
  const torques = [];
  let before2 = null;
  let beforeAt = 0;
  for (let frame = 0; frame < opening2.count; frame++) {
    const at = opening2.pageAngles[frame];
    if (before2 !== null && beforeAt - at < EVERY - 1e-9 && frame + 1 < opening2.count) continue;
    const q2 = opening2.frame(frame);
    const now = creases.map(({ a, b, from: from2, to: to2 }) => {
      const dot3 = (q2[a] * from2[0] + q2[a + 1] * from2[1]) * (q2[b] * to2[0] + q2[b + 1] * to2[1]) + (q2[a + 4] * from2[0] + q2[a + 5] * from2[1]) * (q2[b + 4] * to2[0] + q2[b + 5] * to2[1]) + (q2[a + 8] * from2[0] + q2[a + 9] * from2[1]) * (q2[b + 8] * to2[0] + q2[b + 9] * to2[1]);
      return Math.acos(Math.min(1, Math.max(-1, dot3)));
    });
    if (before2 !== null) {
      let sum = 0;
      for (let k = 0; k < creases.length; k++) {
        const turn = (now[k] - before2[k]) / ((at - beforeAt) * RADIANS6);
        sum += creases[k].stiffness * (creases[k].rest - (now[k] + before2[k]) / 2) * turn;
      }
      pageAngles2.push((at + beforeAt) / 2);
      torques.push(sum);
    }
    before2 = now;
    beforeAt = at;
  }
  return { pageAngles: pageAngles2, torques };
}
function torqueAt({ pageAngles: pageAngles2, torques }, pageAngle2) {
  const last = pageAngles2.length - 1;
  if (last < 0) return 0;
  if (pageAngle2 >= pageAngles2[0]) return torques[0];
  let k = 0;
  while (k < last && pageAngles2[k + 1] > pageAngle2) k++;
  if (k === last) return torques[last];
  const share = (pageAngles2[k] - pageAngle2) / (pageAngles2[k] - pageAngles2[k + 1]);
  return torques[k] + share * (torques[k + 1] - torques[k]);
}
function away({ x0, y0, x1, y1 }, outline) {
  const long = Math.hypot(x1 - x0, y1 - y0) || 1;
  const [nx, ny] = [-(y1 - y0) / long, (x1 - x0) / long];
  let sum = 0;
  for (let v = 0; v < outline.length; v += 2) sum += (outline[v] - x0) * nx + (outline[v + 1] - y0) * ny;
  return sum >= 0 ? [nx, ny] : [-nx, -ny];
}

// card/src/score/force/springs.ts
var EXACT2 = 1e-9;
function sprungFolds(assembly, opening2, card2) {
  const sprung = [];
  for (const fold of assembly.folds) {
    const spring = springOf(assembly, fold, card2);
    if (Math.abs(spring.excess) < EXACT2 && spring.reach >= farthest(fold) - EXACT2) continue;
    const angles = anglesBetween(fold, spring, opening2);
    const parent = assembly.folds.find(({ panels }) => panels.some((panel) => fold.on.includes(panel)));
    sprung.push({
      fold,
      angles,
      spring: parent === void 0 ? spring : softened(assembly, spring, angles, parent, opening2, card2)
    });
  }
  return sprung;
}
var farthest = ({ feet: [a, b], vertex }) => vertex ? Math.min(a + b, 2 * Math.PI - a - b) : a + b;
function springOf(assembly, fold, card2) {
  const { thickness, grain, stiffness } = card2.of(fold.piece);
  const bent = grain === "any" ? stiffness.any : stiffness[grain === "along" ? "across" : "along"];
  const pile3 = fold.on.reduce((sum, panel) => sum + Math.min(thickness, assembly.panels[panel].thickness), 0);
  return fold.vertex ? vertexSpring(fold.feet, fold.sides, fold.length, fold.inner, fold.way, bent, thickness, pile3) : parallelSpring(fold.feet, fold.sides, fold.length, fold.way, bent, thickness, pile3);
}
function softened(assembly, spring, angles, parent, opening2, card2) {
  const under = springOf(assembly, parent, card2);
  const theirs = anglesBetween(parent, under, opening2);
  let frame = opening2.count - 1;
  while (frame > 0 && !(angles[frame] > 0.05 && theirs[frame] > 0.05)) frame--;
  return angles[frame] > 0 ? onFold(spring, under, theirs[frame] / angles[frame]) : spring;
}
function anglesBetween(fold, spring, opening2) {
  const { on, marks, along: along3, vertex } = fold;
  const angles = new Float64Array(opening2.count);
  const [i, j] = [on[0] * POSE, on[1] * POSE];
  const [[ax, ay], [bx, by]] = marks;
  for (let frame = 0; frame < opening2.count; frame++) {
    const q2 = opening2.frame(frame);
    const o = vertex ? 0 : 1;
    const x = q2[j] * bx + q2[j + 1] * by + o * q2[j + 3] - q2[i] * ax - q2[i + 1] * ay - o * q2[i + 3];
    const y = q2[j + 4] * bx + q2[j + 5] * by + o * q2[j + 7] - q2[i + 4] * ax - q2[i + 5] * ay - o * q2[i + 7];
    const z29 = q2[j + 8] * bx + q2[j + 9] * by + o * q2[j + 11] - q2[i + 8] * ax - q2[i + 9] * ay - o * q2[i + 11];
    let square = x * x + y * y + z29 * z29;
    if (!vertex) {
      const ex = q2[i] * along3[0] + q2[i + 1] * along3[1];
      const ey = q2[i + 4] * along3[0] + q2[i + 5] * along3[1];
      const ez = q2[i + 8] * along3[0] + q2[i + 9] * along3[1];
      square -= (x * ex + y * ey + z29 * ez) ** 2;
    }
    angles[frame] = parentsAngle(spring, square);
  }
  return angles;
}

// card/src/score/force/force.ts
var RADIANS7 = Math.PI / 180;
var SHUT = 2;
var NEAR2 = 6;
var NEAR_OPEN = 168;
var FINE3 = 0.5;
function curveOf(assembly, opening2, card2, sprung) {
  const pageAngles2 = samples(opening2);
  const state = newFoldState();
  const { width } = assembly.page;
  const creased = creaseTorques(assembly, opening2, card2);
  const creases = pageAngles2.map((at) => torqueAt(creased, at) / width);
  const total = creases.slice();
  const byPart = /* @__PURE__ */ new Map();
  for (const { fold, spring, angles } of sprung) {
    const newtons = byPart.get(fold.part) ?? pageAngles2.map(() => 0);
    pageAngles2.forEach((at, k) => {
      const { theta, turn } = between2(opening2, angles, at);
      const push = -foldState(spring, theta, state).slope * turn / width;
      newtons[k] += push;
      total[k] += push;
    });
    byPart.set(fold.part, newtons);
  }
  return {
    pageAngles: pageAngles2,
    total,
    creases,
    parts: Array.from(byPart, ([part2, newtons]) => ({ part: part2, newtons }))
  };
}
function measureForce(assembly, opening2, card2, strengths) {
  if (opening2.count === 0) return null;
  const sprung = sprungFolds(assembly, opening2, card2);
  const curve = curveOf(assembly, opening2, card2, sprung);
  const { pageAngles: pageAngles2, total } = curve;
  const last = pageAngles2.length - 1;
  const parts = partForces(assembly, opening2, sprung, curve);
  const worst = (of) => parts.map(of).reduce((most, peak2) => peak2.value > most.value ? peak2 : most, NONE);
  const part2 = (k, sign) => curve.parts.reduce(
    (most, { part: part3, newtons }) => sign * newtons[k] > most.push ? { part: part3, push: sign * newtons[k] } : most,
    { part: null, push: sign * curve.creases[k] }
  ).part;
  const peak = (sign) => {
    let at = -1;
    for (let k = 0; k <= last; k++) if (sign * total[k] > Math.max(0, at < 0 ? 0 : sign * total[at])) at = k;
    return at < 0 ? NONE : { value: sign * total[at], pageAngle: pageAngles2[at], part: part2(at, sign) };
  };
  const toShut = peak(1);
  const toOpen = peak(-1);
  const strain2 = worst((each) => each.strain);
  const bending = worst((each) => each.bending);
  return {
    grade: gradeOf(Math.max(toShut.value, toOpen.value), strain2.value, bending.value, strengths),
    toShut,
    toOpen,
    atShut: pageAngles2[last] > SHUT + 1e-9 ? null : total[last],
    clicks: clicksOf(curve),
    standsOpen: standsOpen(assembly, curve, card2),
    bow: worst((each) => each.bow),
    strain: strain2,
    bending,
    parts
  };
}
var NONE = { value: 0, pageAngle: null, part: null };
function samples(opening2) {
  const angles = [];
  for (let frame = 0; frame < opening2.count; frame++) {
    const at = opening2.pageAngles[frame];
    if (at < SHUT - 1e-9) break;
    angles.push(at);
    const next = frame + 1 < opening2.count ? opening2.pageAngles[frame + 1] : at;
    if (at > NEAR2 + 1e-9 && at <= NEAR_OPEN + 1e-9) continue;
    for (let finer = at - FINE3; finer > Math.max(next, SHUT) + 1e-9; finer -= FINE3) angles.push(finer);
  }
  return angles;
}
function between2(opening2, angles, pageAngle2) {
  const { pageAngles: pageAngles2, count } = opening2;
  if (count < 2) return { theta: angles[0], turn: 1 };
  const step = pageAngles2[0] - pageAngles2[1];
  const frame = Math.min(count - 2, Math.max(0, Math.floor((pageAngles2[0] - pageAngle2) / step + 1e-9)));
  const share = (pageAngles2[frame] - pageAngle2) / (pageAngles2[frame] - pageAngles2[frame + 1]);
  const slope = (k) => (angles[k] - angles[k + 1]) / ((pageAngles2[k] - pageAngles2[k + 1]) * RADIANS7);
  const here = slope(frame);
  const other = share < 0.5 ? slope(Math.max(0, frame - 1)) : slope(Math.min(count - 2, frame + 1));
  const near = Math.abs(share - 0.5);
  return {
    theta: angles[frame] + share * (angles[frame + 1] - angles[frame]),
    turn: (1 - near) * here + near * other
  };
}
function partForces(assembly, opening2, sprung, { pageAngles: pageAngles2, parts }) {
  const state = newFoldState();
  return parts.map(({ part: part2, newtons }) => {
    const found3 = { toShut: NONE, toOpen: NONE, bow: NONE, strain: NONE, bending: NONE };
    const raise = (of, value, pageAngle2, name2 = part2) => {
      if (value > found3[of].value) found3[of] = { value, pageAngle: pageAngle2, part: name2 };
    };
    pageAngles2.forEach((at, k) => {
      raise("toShut", newtons[k], at);
      raise("toOpen", -newtons[k], at);
    });
    for (const { fold, spring, angles } of sprung) {
      if (fold.part !== part2) continue;
      const longer3 = fold.sides[0] >= fold.sides[1] ? 0 : 1;
      for (const at of pageAngles2) {
        foldState(spring, between2(opening2, angles, at).theta, state);
        raise("bow", state.bow, at, assembly.panels[fold.panels[longer3]].name);
        raise("strain", state.membraneStrain, at);
        raise("bending", state.bendingStrain, at);
      }
    }
    return { part: part2, ...found3 };
  });
}
var CLICK = 0.1;
function clicksOf({ pageAngles: pageAngles2, total }) {
  const clicks = [];
  let pushed = 0;
  let crossed = null;
  for (let k = 0; k < total.length; k++) {
    if (total[k] > 0) {
      pushed = crossed === null ? Math.max(pushed, total[k]) : total[k];
      crossed = null;
      continue;
    }
    crossed ??= pageAngles2[k];
    if (pushed >= CLICK && -total[k] >= CLICK) {
      clicks.push(crossed);
      pushed = 0;
    }
  }
  return clicks;
}
function standsOpen(assembly, { pageAngles: pageAngles2, total }, card2) {
  const { width, height } = assembly.page;
  const { grammage, thickness } = card2.of("page");
  const mass = (grammage ?? 1e3 * thickness / 1.2) * 1e-9 * width * height;
  const weight = (pageAngle2) => mass * GRAVITY * Math.cos(pageAngle2 * RADIANS7) / 2;
  for (let k = pageAngles2.length - 1; k >= 0; k--)
    if (total[k] <= weight(pageAngles2[k])) return k === pageAngles2.length - 1 ? null : pageAngles2[k];
  return 180;
}

// card/src/score/glue.ts
var GLUE_MARGIN = 2;
var SPECK = 0.5;
function findGlueFaults(assembly, opening2) {
  const { panels, open: open2 } = assembly;
  const faces = layDown(assembly, opening2);
  const toBeFree = faces.length > 0 ? placesToBeFree(assembly, opening2, faces) : [];
  const faults = [];
  for (const face of faces) {
    const add2 = (kind, other, area) => {
      const [glued, receiver] = [panels[face.panel].name, panels[face.receiver].name];
      if (area > SPECK) faults.push({ glued, receiver, kind, other, area });
    };
    add2("off card", panels[face.receiver].name, areaOff(face, assembly));
    for (const k of between3(face)) {
      const card2 = placedShape(panels[k], placingIn(open2, k, face.body));
      add2("card between", panels[k].name, glueWithin(face, card2));
    }
    for (const { kind, other, body, covered: covered2 } of toBeFree)
      if (body === face.body) add2(kind, other, covered2(face));
  }
  return faults.sort((a, b) => b.area - a.area);
}
function layDown(assembly, opening2) {
  const { panels, joints, open: open2 } = assembly;
  const owners = /* @__PURE__ */ new Map();
  for (const { kind, between: between4 } of joints)
    if (kind === "crease" && panels[between4[0]].role === "tab") owners.set(between4[0], between4[1]);
  const faces = [];
  const stacks = /* @__PURE__ */ new Map();
  const sides = /* @__PURE__ */ new Map();
  for (const { kind, between: between4 } of joints) {
    if (kind !== "glue") continue;
    const [receiver, panel] = between4;
    const { body } = panels[panel];
    const stands = owners.get(panel) ?? -1;
    const under = sides.get(receiver);
    const side2 = stands < 0 ? 1 : sideOf2(assembly, opening2, body, stands) || 1;
    const stack = stacks.get(body) ?? [body];
    const place3 = stack.indexOf(receiver);
    if (under === -side2) stack.splice(side2 > 0 ? place3 + 1 : place3, 0, panel);
    else if (side2 > 0) stack.push(panel);
    else stack.unshift(panel);
    stacks.set(body, stack);
    sides.set(panel, side2);
    faces.push({
      panel,
      receiver,
      stands,
      body,
      stack,
      side: side2,
      shape: placedShape(panels[panel], placingIn(open2, panel, body)),
      under: placedShape(panels[receiver], placingIn(open2, receiver, body))
    });
  }
  return faces;
}
function between3({ panel, receiver, stack }) {
  const [low, high] = [stack.indexOf(panel), stack.indexOf(receiver)].sort((a, b) => a - b);
  return stack.slice(low + 1, high);
}
function glueWithin({ stands, shape, under }, region) {
  const area = overlapArea(shape, region);
  return area <= SPECK || stands >= 0 ? area : commonArea([shape, under, region]);
}
function areaOff({ shape, under, body, stands }, { panels, open: open2 }) {
  if (stands < 0) return overlapArea(shape, under) > SPECK ? 0 : cardArea(shape);
  if (liesOn(shape, under)) return 0;
  const card2 = panels.flatMap(
    (panel, k) => panel.body === body && panel.role === "card" ? [placedShape(panel, placingIn(open2, k, body))] : []
  );
  let off = 0;
  visitCells([shape, ...card2], [1, ...card2.map(() => 2)], ({ weight, width, height }) => {
    if (weight === 1) off += width * height;
  });
  return off;
}
function placesToBeFree(assembly, opening2, faces) {
  const { panels, joints, open: open2 } = assembly;
  const places = [];
  const inBody = (k) => placingIn(open2, k, panels[k].body);
  const sideOn = (on, mover) => sideOf2(assembly, opening2, panels[on].body, mover);
  const add2 = (kind, other, on, covered2) => places.push({ kind, other, body: panels[on].body, covered: covered2 });
  const addCrease = (on, mover, own) => {
    const line2 = placedLine(own, inBody(on));
    const stoodOn = faces.find(({ panel }) => panel === on)?.receiver;
    add2("at a crease", panels[mover].name, on, (face) => {
      const there = face.receiver === on || face.receiver === stoodOn || between3(face).includes(on);
      if (!there || face.panel === on || !comesNear(line2, face.shape)) return 0;
      return sideOn(on, mover) === face.side ? overlapArea(face.shape, band(line2)) : 0;
    });
  };
  const addSlit = (on, mover, side2, make) => {
    const region = once(make);
    add2("at a slit", panels[mover].name, on, (face) => {
      const there = face.panel === on ? side2 === -face.side : side2 === face.side && (face.receiver === on || between3(face).includes(on));
      return there ? glueWithin(face, region()) : 0;
    });
  };
  let standing = 0;
  for (const joint of joints) {
    const [a, b] = joint.between;
    if (!faces.some(({ body }) => joint.between.some((k) => panels[k].body === body))) continue;
    switch (joint.kind) {
      case "crease":
        if (panels[a].body === panels[b].body) break;
        addCrease(a, b, joint.lines[0]);
        addCrease(b, a, joint.lines[1]);
        break;
      case "slot": {
        const hole = solid(placedRing(panels[b].holes[joint.hole], inBody(b)));
        add2("over a slot", panels[a].name, b, ({ shape }) => overlapArea(shape, hole));
        break;
      }
      case "pivot":
        joint.between.forEach((k, end) => {
          const shoulder = once(() => disc(placedPoint(joint.points[end], inBody(k)), joint.hub.shoulder));
          add2(
            "hub between",
            joint.part,
            k,
            (face) => k === face.panel || k === face.receiver && !isCoverFlap(assembly, face.panel) ? glueWithin(face, shoulder()) : 0
          );
        });
        break;
      case "slide":
        if (panels[a].role === "card") {
          const [[x0, y0], [x1, y1]] = joint.along;
          standing = sideOn(b, a);
          addSlit(b, a, standing, () => band(placedLine({ x0, y0, x1, y1 }, inBody(b))));
        } else addSlit(b, a, -standing, () => swept(assembly, opening2, a, panels[b].body));
    }
  }
  return places;
}
function once(make) {
  let made;
  return () => {
    made ??= make();
    return made;
  };
}
function swept({ panels }, opening2, panel, body) {
  const corners = [];
  for (let frame = 0; frame < opening2.count; frame++)
    corners.push(...placedRing(panels[panel].outline, placingIn(opening2.frame(frame), panel, body)));
  return solid(convexHull(corners));
}
function comesNear({ x0, y0, x1, y1 }, { outline }) {
  const long = Math.hypot(x1 - x0, y1 - y0);
  const [ex, ey] = [(x1 - x0) / long, (y1 - y0) / long];
  let [back, ahead, right2, left] = [Infinity, -Infinity, Infinity, -Infinity];
  for (let i = 0; i < outline.length; i += 2) {
    const [dx, dy] = [outline[i] - x0, outline[i + 1] - y0];
    const along3 = dx * ex + dy * ey;
    const across3 = dy * ex - dx * ey;
    back = Math.min(back, along3);
    ahead = Math.max(ahead, along3);
    right2 = Math.min(right2, across3);
    left = Math.max(left, across3);
  }
  return left > -GLUE_MARGIN && right2 < GLUE_MARGIN && ahead > 0 && back < long;
}
function band({ x0, y0, x1, y1 }) {
  const long = Math.hypot(x1 - x0, y1 - y0);
  const [nx, ny] = [-GLUE_MARGIN * (y1 - y0) / long, GLUE_MARGIN * (x1 - x0) / long];
  return solid(Float64Array.of(x0 - nx, y0 - ny, x1 - nx, y1 - ny, x1 + nx, y1 + ny, x0 + nx, y0 + ny));
}
var ROUND = 60;
function disc([x, y], diameter) {
  const ring = zeros(2 * ROUND);
  for (let i = 0; i < ROUND; i++) {
    const angle2 = 2 * Math.PI * i / ROUND;
    ring[2 * i] = x + diameter / 2 * Math.cos(angle2);
    ring[2 * i + 1] = y + diameter / 2 * Math.sin(angle2);
  }
  return solid(ring);
}
var solid = (outline) => ({ outline, holes: [] });
var FLAT3 = 1e-3;
function sideOf2({ panels }, opening2, body, panel) {
  const { outline } = panels[panel];
  let farthest2 = 0;
  for (const share of [0.25, 0.5, 0.75]) {
    const poses = opening2.frame(Math.floor(share * (opening2.count - 1)));
    const i = panel * POSE;
    const j = body * POSE;
    let sum = 0;
    for (let c = 0; c < outline.length; c += 2)
      for (let axis2 = 0; axis2 < POSE; axis2 += 4)
        sum += poses[j + axis2 + 2] * (poses[i + axis2] * outline[c] + poses[i + axis2 + 1] * outline[c + 1] + poses[i + axis2 + 3] - poses[j + axis2 + 3]);
    if (Math.abs(sum) > Math.abs(farthest2)) farthest2 = sum;
  }
  return Math.abs(farthest2) < FLAT3 ? 0 : Math.sign(farthest2);
}

// card/src/score/keep-clear.ts
var ROUND_OFF6 = 1e-6;
function findIntrusion(assembly, opening2, boxes2) {
  let worst = { depth: 0, pageAngle: null, panel: null, box: null };
  for (const box of boxes2) {
    const page = box.on === "left page" ? LEFT_PAGE : RIGHT_PAGE;
    for (let frame = 0; frame < opening2.count; frame++) {
      const poses = opening2.frame(frame);
      if (!hasRoom(box, poses, page)) break;
      for (let k = FIRST; k < assembly.panels.length; k++) {
        const { body, outline } = assembly.panels[k];
        if (body === LEFT_PAGE || body === RIGHT_PAGE) continue;
        const depth = depthInBox(outline, poses, k, page, box);
        if (depth > Math.max(worst.depth, ROUND_OFF6))
          worst = { depth, pageAngle: opening2.pageAngles[frame], panel: k, box: box.name };
      }
    }
  }
  return worst;
}
function hasRoom(box, poses, page) {
  const i = page * POSE;
  const j = (page === LEFT_PAGE ? RIGHT_PAGE : LEFT_PAGE) * POSE;
  for (const x of [box.least[0], box.most[0]])
    for (const z29 of [box.least[2], box.most[2]]) {
      const wx = poses[i] * x + poses[i + 2] * z29;
      const wz = poses[i + 8] * x + poses[i + 10] * z29;
      if (poses[j + 2] * wx + poses[j + 10] * wz < -ROUND_OFF6) return false;
    }
  return true;
}
function depthInBox(outline, poses, k, page, box) {
  let ring = [];
  const i = k * POSE;
  const j = page * POSE;
  for (let v = 0; v < outline.length; v += 2) {
    const w2 = [0, 4, 8].map(
      (r2) => poses[i + r2] * outline[v] + poses[i + r2 + 1] * outline[v + 1] + poses[i + r2 + 3]
    );
    ring.push(
      [0, 1, 2].map(
        (axis2) => poses[j + axis2] * w2[0] + poses[j + 4 + axis2] * w2[1] + poses[j + 8 + axis2] * w2[2]
      )
    );
  }
  for (let axis2 = 0; axis2 < 3; axis2++)
    for (const [sign, bound2] of [
      [1, box.least[axis2]],
      [-1, -box.most[axis2]]
    ])
      ring = clip(ring, (p2) => sign * p2[axis2] - bound2);
  if (ring.length === 0) return 0;
  let soonest = Number.POSITIVE_INFINITY;
  for (let axis2 = 0; axis2 < 3; axis2++) {
    soonest = Math.min(soonest, Math.max(...ring.map((p2) => p2[axis2] - box.least[axis2])));
    soonest = Math.min(soonest, Math.max(...ring.map((p2) => box.most[axis2] - p2[axis2])));
  }
  return soonest;
}
function clip(ring, height) {
  const kept = [];
  for (let v = 0; v < ring.length; v++) {
    const p2 = ring[v];
    const q2 = ring[(v + 1) % ring.length];
    const [hp, hq] = [height(p2), height(q2)];
    if (hp >= 0) kept.push(p2);
    if (hp >= 0 !== hq >= 0) {
      const t2 = hp / (hp - hq);
      kept.push(p2.map((v2, axis2) => v2 + t2 * (q2[axis2] - v2)));
    }
  }
  return kept;
}

// card/src/score/poses.ts
function posesDocument(assembly, opening2, scorecard) {
  const name2 = (k) => assembly.panels[k].name;
  const frames = [];
  for (let frame = 0; frame < opening2.count; frame++) {
    const poses = opening2.frame(frame);
    frames.push({
      pageAngle: opening2.pageAngles[frame],
      poses: assembly.panels.map((_, k) => Array.from(poses.subarray(k * POSE, (k + 1) * POSE)))
    });
  }
  return {
    format: "poses 1",
    panels: assembly.panels.map(({ name: name3, piece: piece2, outline, holes }) => ({
      name: name3,
      piece: piece2,
      outline: pointsOf2(outline),
      holes: holes.map(pointsOf2)
    })),
    joints: assembly.joints.map((joint) => {
      const between4 = joint.between.map(name2);
      if (joint.kind !== "crease") return { ...joint, between: between4 };
      return { kind: joint.kind, between: between4, lines: joint.lines.map(ends2), closesLoop: joint.closesLoop };
    }),
    frames,
    scorecard
  };
}
var ends2 = (line2) => [
  [line2.x0, line2.y0],
  [line2.x1, line2.y1]
];
function pointsOf2(ring) {
  const points2 = [];
  for (let i = 0; i < ring.length; i += 2) points2.push([ring[i], ring[i + 1]]);
  return points2;
}

// card/src/score/reach.ts
var DEGREES2 = 180 / Math.PI;
function measure(want, assembly, opening2) {
  const last = want.kind === "follow" ? Math.min(...want.at.map(([angle2]) => angle2)) : Math.min(want.from, want.to);
  if (opening2.lock !== null && last < opening2.lock.pageAngle)
    return { unknown: { because: "it locks before", pageAngle: opening2.lock.pageAngle, before: last } };
  const panel = (name2) => assembly.panelNamed(name2, "panel");
  switch (want.kind) {
    case "turn":
      return turnOf(opening2, headingOf2(assembly, panel(want.panel), want.line, panel(want.reference)), want);
    case "against": {
      const [a, b] = want.panels.map(
        (name2) => turnOf(opening2, headingOf2(assembly, panel(name2), want.line, panel(want.reference)), want)
      );
      if ("unknown" in a) return a;
      if ("unknown" in b) return b;
      const lesser = Math.min(Math.abs(a.value), Math.abs(b.value));
      return { value: a.value * b.value < 0 ? lesser : -lesser };
    }
    case "follow":
      return worstHeading(
        opening2,
        headingOf2(assembly, panel(want.panel), want.line, panel(want.reference)),
        want.at
      );
    case "travel":
      return travelOf(assembly, opening2, panel(want.panel), want.point, panel(want.reference), want);
    case "rise":
      return riseOf(assembly, opening2, panel(want.panel), want.point, want);
    case "level":
      return levelOf2(opening2, panel(want.panel), panel(want.reference), want);
  }
}
function pageAngles(opening2, { from: from2, to: to2 }) {
  const [low, high] = [Math.min(from2, to2), Math.max(from2, to2)];
  const between4 = Array.from(opening2.pageAngles.subarray(0, opening2.count)).filter(
    (a) => a > low && a < high
  );
  const falling = [high, ...between4, low];
  return from2 >= to2 ? falling : falling.reverse();
}
var END_ON = 1e-4;
function headingOf2(assembly, panel, degrees, reference2) {
  const x = Math.cos(degrees / DEGREES2);
  const y = assembly.panels[panel].up * Math.sin(degrees / DEGREES2);
  return (poses) => {
    const i = panel * POSE;
    const j = reference2 * POSE;
    const dx = poses[i] * x + poses[i + 1] * y;
    const dy = poses[i + 4] * x + poses[i + 5] * y;
    const dz = poses[i + 8] * x + poses[i + 9] * y;
    const along3 = poses[j] * dx + poses[j + 4] * dy + poses[j + 8] * dz;
    const across3 = poses[j + 1] * dx + poses[j + 5] * dy + poses[j + 9] * dz;
    return Math.hypot(along3, across3) < END_ON ? Number.NaN : Math.atan2(across3, along3) * DEGREES2;
  };
}
function changes(opening2, heading, angles) {
  const turned = [];
  let last = Number.NaN;
  let sum = 0;
  for (const angle2 of angles) {
    const now = heading(opening2.at(angle2));
    if (!Number.isNaN(now)) {
      if (!Number.isNaN(last)) sum += now - last - 360 * Math.round((now - last) / 360);
      last = now;
    }
    turned.push(Number.isNaN(now) ? Number.NaN : sum);
  }
  return Number.isNaN(turned[0]) ? null : turned;
}
function turnOf(opening2, heading, span2) {
  const turned = changes(opening2, heading, pageAngles(opening2, span2));
  const total = turned?.at(-1);
  return total === void 0 || Number.isNaN(total) ? { unknown: { because: "it is seen end on" } } : { value: total };
}
function worstHeading(opening2, heading, wanted) {
  let worst = 0;
  for (const [pageAngle2, degrees] of wanted) {
    if (pageAngle2 === 180) {
      worst = Math.max(worst, Math.abs(degrees));
      continue;
    }
    const turned = turnOf(opening2, heading, { from: 180, to: pageAngle2 });
    if ("unknown" in turned) return turned;
    worst = Math.max(worst, Math.abs(turned.value - degrees));
  }
  return { value: worst };
}
function travelOf(assembly, opening2, panel, [x, y], reference2, span2) {
  const p2 = new Float64Array(3);
  const place3 = (poses) => {
    worldPoint(poses, panel, x, assembly.panels[panel].up * y, p2);
    const j = reference2 * POSE;
    const d = [p2[0] - poses[j + 3], p2[1] - poses[j + 7], p2[2] - poses[j + 11]];
    return [0, 1, 2].map(
      (axis2) => poses[j + axis2] * d[0] + poses[j + 4 + axis2] * d[1] + poses[j + 8 + axis2] * d[2]
    );
  };
  const angles = pageAngles(opening2, span2);
  const start = place3(opening2.at(angles[0]));
  let farthest2 = 0;
  for (const angle2 of angles) {
    const now = place3(opening2.at(angle2));
    farthest2 = Math.max(farthest2, Math.hypot(now[0] - start[0], now[1] - start[1], now[2] - start[2]));
  }
  return { value: farthest2 };
}
function riseOf(assembly, opening2, panel, point2, span2) {
  const { outline, up } = assembly.panels[panel];
  const corners = point2 === void 0 ? outline : [point2[0], up * point2[1]];
  const p2 = new Float64Array(3);
  const r2 = RIGHT_PAGE * POSE;
  let highest = -Infinity;
  for (const angle2 of pageAngles(opening2, span2)) {
    const poses = opening2.at(angle2);
    for (let v = 0; v < corners.length; v += 2) {
      worldPoint(poses, panel, corners[v], corners[v + 1], p2);
      const overRight = poses[r2 + 2] * p2[0] + poses[r2 + 10] * p2[2];
      highest = Math.max(highest, Math.min(p2[2], overRight));
    }
  }
  return { value: highest };
}
function levelOf2(opening2, panel, reference2, span2) {
  let worst = 0;
  const i = panel * POSE;
  const j = reference2 * POSE;
  for (const angle2 of pageAngles(opening2, span2)) {
    const q2 = opening2.at(angle2);
    const cross2 = Math.hypot(
      q2[i + 6] * q2[j + 10] - q2[i + 10] * q2[j + 6],
      q2[i + 10] * q2[j + 2] - q2[i + 2] * q2[j + 10],
      q2[i + 2] * q2[j + 6] - q2[i + 6] * q2[j + 2]
    );
    const dot3 = q2[i + 2] * q2[j + 2] + q2[i + 6] * q2[j + 6] + q2[i + 10] * q2[j + 10];
    worst = Math.max(worst, Math.atan2(cross2, Math.abs(dot3)) * DEGREES2);
  }
  return { value: worst };
}

// card/src/score/slots.ts
function findSlotRooms(assembly, opening2) {
  const rooms = [];
  for (const joint of assembly.joints) {
    if (joint.kind !== "slot") continue;
    const [passing, panel] = joint.between;
    const { outline, holes } = assembly.panels[panel];
    let least = { room: null, pageAngle: null, at: null };
    for (let frame = 0; frame < opening2.count; frame++)
      for (const [from2, to2] of sections2(assembly.panels[passing], opening2.frame(frame), passing, panel)) {
        const sides = [from2, to2].map((end) => -outsideOf(holes[joint.hole], end));
        const [room, at] = sides[0] <= sides[1] ? [sides[0], from2] : [sides[1], to2];
        if (least.room !== null && room >= least.room) continue;
        if (!(lengthWithin({ x0: from2[0], y0: from2[1], x1: to2[0], y1: to2[1] }, outline) > 0)) continue;
        least = { room, pageAngle: opening2.pageAngles[frame], at };
      }
    rooms.push({ passing: assembly.panels[passing].name, panel: assembly.panels[panel].name, ...least });
  }
  return rooms;
}
var PARALLEL2 = 1e-6;
function sections2(shape, poses, k, plane) {
  const i = k * POSE;
  const j = plane * POSE;
  const ring = shape.outline;
  const ends3 = [];
  const along3 = (axis2, x, y) => {
    let sum = 0;
    for (let r2 = 0; r2 < POSE; r2 += 4)
      sum += poses[j + r2 + axis2] * (poses[i + r2] * x + poses[i + r2 + 1] * y + poses[i + r2 + 3] - poses[j + r2 + 3]);
    return sum;
  };
  let [x0, y0] = [ring[ring.length - 2], ring[ring.length - 1]];
  let height = along3(2, x0, y0);
  for (let v = 0; v < ring.length; v += 2) {
    const [x1, y1] = [ring[v], ring[v + 1]];
    const next = along3(2, x1, y1);
    if (height > 0 !== next > 0) {
      const t2 = height / (height - next);
      const [x, y] = [x0 + t2 * (x1 - x0), y0 + t2 * (y1 - y0)];
      ends3.push([along3(0, x, y), along3(1, x, y)]);
    }
    [x0, y0, height] = [x1, y1, next];
  }
  const across3 = (axis2) => poses[j + axis2] * poses[i + 2] + poses[j + 4 + axis2] * poses[i + 6] + poses[j + 8 + axis2] * poses[i + 10];
  const [dx, dy] = [-across3(1), across3(0)];
  if (Math.hypot(dx, dy) < PARALLEL2) return [];
  ends3.sort((p2, q2) => (p2[0] - q2[0]) * dx + (p2[1] - q2[1]) * dy);
  return Array.from({ length: ends3.length >> 1 }, (_, n2) => [ends3[2 * n2], ends3[2 * n2 + 1]]);
}

// card/src/score/scorer.ts
var MARGIN_WEIGHT = 0.1;
var SCALE = { degrees: 10, mm: 5 };
var Scorer = class {
  constructor(figure) {
    this.figure = figure;
    this.has = { keepClear: figure.keepClear.length > 0, chains: figure.hasChains };
  }
  figure;
  opening = new Opening();
  clash = new ClashTest();
  has;
  /** Whether nothing catches in a candidate as it is drawn, by its template. */
  clean = /* @__PURE__ */ new WeakMap();
  /** The whole score of one candidate (see `Figure` for its vector). */
  score(vector) {
    return this.scoreBuilt(() => this.figure.build(vector), vector);
  }
  /** The score of a dummy of that candidate, cut by hand with these errors: one to each cut of the template. */
  scoreCut(template, errors, vector) {
    let clean = this.clean.get(template);
    if (clean === void 0) {
      clean = this.score(vector).clash.deepest === 0;
      this.clean.set(template, clean);
    }
    return this.scoreBuilt(() => template.build(errors), vector, clean);
  }
  scoreBuilt(build, vector, givesWay = false) {
    try {
      const assembly = build();
      return this.scoreOf(assembly, this.figure.wantsOf(vector), givesWay);
    } catch (error) {
      if (error instanceof CannotBuild)
        return this.notBuilt(`${error.message} (line ${this.figure.lineOf(error.field)})`);
      throw error;
    }
  }
  /** The score together with the motion, for `check --poses`. Throws CannotBuild. */
  poses(vector) {
    const assembly = this.figure.build(vector);
    const card2 = this.scoreOf(assembly, this.figure.wantsOf(vector));
    return posesDocument(assembly, this.opening, card2);
  }
  /** @param givesWay whether card may bend aside, as that of a dummy does by what its maker's hand errs */
  scoreOf(assembly, wants, givesWay = false) {
    const { limits: allowed, keepClear, opening: cover } = this.figure;
    const { opening: opening2 } = this;
    opening2.run(assembly, cover.step);
    const moves = opening2.count > 0;
    const name2 = (k) => assembly.panels[k].name;
    const named = (k) => k === null ? null : name2(k);
    const { lock } = opening2;
    const pressing = givesWay ? Math.max(allowed.press, BENDS_ASIDE) : allowed.press;
    const hinged = givesWay ? Math.max(allowed.press, LIES_FLAT) : allowed.press;
    const clash = this.clash.run(assembly, opening2, pressing, hinged);
    const { worst } = clash;
    const between4 = worst === null ? null : [name2(worst.between[0]), name2(worst.between[1])];
    const book = findOutOfBook(assembly, opening2);
    const flat = measureFlatness(assembly, opening2);
    const binding = greatest(assembly, opening2, "gap");
    const chains = this.figure.hasChains && moves ? chainExtremes(assembly, opening2) : null;
    const forced = greatest(assembly, opening2, "forced");
    const misfit = forced.value > binding.value ? forced : binding;
    const glue2 = moves ? findGlueFaults(assembly, opening2) : [];
    const force2 = measureForce(assembly, opening2, this.figure.card, strengthsOf(allowed));
    const measured = {
      force: force2,
      moves,
      lock,
      catch: worst === null || between4 === null ? null : { ...worst, between: between4 },
      binding,
      outside: { value: book.out, pageAngle: book.pageAngle, panel: named(book.panel) },
      shut: flat.shut === null ? null : { ...flat.shut, overhanging: named(flat.shut.overhanging) },
      openResidue: flat.openResidue,
      handCut: assembly.handCut,
      glue: glue2,
      uncovered: allowed.coveredBelow > 0 ? findOverhangs(assembly, opening2, allowed.coveredBelow).map((out) => ({
        ...out,
        panel: name2(out.panel)
      })) : null,
      intrusion: keepClear.length > 0 ? intrusionOf(findIntrusion(assembly, opening2, keepClear), named) : null,
      chains
    };
    const { limits, violation } = judge(allowed, this.has, measured);
    const reached = wants.map((want) => scoreWant(want, assembly, opening2));
    const { shut } = flat;
    return {
      works: violation === 0 && limits.every(({ met }) => met) && reached.every(({ met }) => met),
      cannotBuild: null,
      violation,
      desirability: moves ? overallOf(reached, limits) : null,
      wants: reached,
      limits,
      clash: {
        deepest: moves ? worst?.depth ?? 0 : null,
        push: moves ? worst?.push ?? 0 : null,
        pageAngle: worst?.pageAngle ?? null,
        between: between4,
        points: worst?.points ?? null,
        firstPageAngle: clash.firstPageAngle,
        press: moves ? clash.press : null
      },
      flat: {
        residue: shut?.residue ?? null,
        overhang: shut?.overhang ?? null,
        pile: shut?.pile ?? null,
        openResidue: flat.openResidue
      },
      bind: moves ? {
        misfit: misfit.value,
        pageAngle: misfit.pageAngle,
        firstPageAngle: firstBeyond(assembly, opening2, allowed.give),
        at: misfit.at
      } : NO_BINDING,
      force: force2,
      chains,
      slots: findSlotRooms(assembly, opening2),
      glue: glue2,
      book: {
        out: moves ? book.out : null,
        pageAngle: book.pageAngle,
        part: named(book.panel)
      },
      locks: lock
    };
  }
  /** A candidate that is no card: nothing was computed, and the reason stands in place of every figure. */
  notBuilt(reason) {
    const unknown3 = { because: "it cannot be built", reason };
    return {
      works: false,
      cannotBuild: reason,
      violation: null,
      desirability: null,
      wants: this.figure.wants.map(({ name: name2, kind, unit: unit3, weight }) => ({
        name: name2,
        kind,
        unit: unit3,
        weight,
        value: null,
        met: false,
        desirability: null,
        unknown: unknown3
      })),
      limits: notJudged(this.figure.limits, this.has, unknown3),
      clash: {
        deepest: null,
        push: null,
        pageAngle: null,
        between: null,
        points: null,
        firstPageAngle: null,
        press: null
      },
      flat: { residue: null, overhang: null, pile: null, openResidue: null },
      bind: NO_BINDING,
      force: null,
      chains: null,
      slots: [],
      glue: [],
      book: { out: null, pageAngle: null, part: null },
      locks: null
    };
  }
};
var strengthsOf = ({ force: force2, easyForce, strain: strain2, easyStrain }) => ({
  easy: easyForce,
  hard: force2,
  strain: easyStrain / 100,
  tears: strain2 / 100,
  marks: easyStrain / 100
});
var NO_BINDING = { misfit: null, pageAngle: null, firstPageAngle: null, at: null };
var intrusionOf = ({ depth, pageAngle: pageAngle2, panel, box }, named) => ({ value: depth, pageAngle: pageAngle2, panel: named(panel), space: box });
function scoreWant(want, assembly, opening2) {
  const { name: name2, kind, unit: unit3, weight } = want;
  const measured = measure(want, assembly, opening2);
  if ("unknown" in measured)
    return {
      name: name2,
      kind,
      unit: unit3,
      weight,
      value: null,
      met: false,
      desirability: null,
      unknown: measured.unknown
    };
  const { value } = measured;
  const met = (want.least === void 0 || value >= want.least) && (want.most === void 0 || value <= want.most) && (want.target === void 0 || Math.abs(value - want.target) <= (want.tolerance ?? 0));
  return { name: name2, kind, unit: unit3, weight, value, met, desirability: desirability(value, want, SCALE[unit3]) };
}
function overallOf(wants, limits) {
  const worths = [];
  for (const { desirability: worth, weight } of wants) {
    if (worth === null) return null;
    worths.push({ worth, weight });
  }
  for (const { value, most } of limits)
    if (value !== null && most !== void 0 && most > 0)
      worths.push({ worth: desirability(value, { most }, most), weight: MARGIN_WEIGHT });
  return overall(worths);
}

// card/src/search/random.ts
var Random = class {
  #a;
  #b;
  #c;
  #d;
  /** Four 32-bit words of state, not all zero. Most callers want `stream`. */
  constructor(a, b, c, d) {
    if ((a | b | c | d) === 0) throw new RangeError("The state of a random stream must not be all zero.");
    this.#a = a | 0;
    this.#b = b | 0;
    this.#c = c | 0;
    this.#d = d | 0;
  }
  /** The next 32 random bits, as a number from 0 to 2^32 - 1. */
  bits() {
    const five = Math.imul(this.#b, 5);
    const result = Math.imul(five << 7 | five >>> 25, 9);
    const shifted = this.#b << 9;
    this.#c ^= this.#a;
    this.#d ^= this.#b;
    this.#b ^= this.#c;
    this.#a ^= this.#d;
    this.#c ^= shifted;
    this.#d = this.#d << 11 | this.#d >>> 21;
    return result >>> 0;
  }
  /** Uniform in [0, 1), with all 53 bits of a double. */
  next() {
    const high = this.bits() >>> 5;
    const low = this.bits() >>> 6;
    return (high * 67108864 + low) / 9007199254740992;
  }
  /** A whole number from 0 to n - 1; its bias, n / 2^53, is far below what any use here could see. */
  below(n2) {
    return Math.floor(this.next() * n2);
  }
  /** Standard normal (Box and Muller 1958; the second of the pair is let go, so that there is no state to keep). */
  normal() {
    return Math.sqrt(-2 * Math.log(1 - this.next())) * Math.cos(2 * Math.PI * this.next());
  }
  /** Shuffles in place (Fisher and Yates) and returns the same list. */
  shuffle(list) {
    for (let i = list.length - 1; i > 0; i--) {
      const j = this.below(i + 1);
      const kept = list[i];
      list[i] = list[j];
      list[j] = kept;
    }
    return list;
  }
};
function mix(word3) {
  let h = word3 | 0;
  h = Math.imul(h ^ h >>> 16, 2246822507);
  h = Math.imul(h ^ h >>> 13, 3266489909);
  return (h ^ h >>> 16) >>> 0;
}
function hashText(text, basis = 2166136261) {
  let h = basis | 0;
  for (let i = 0; i < text.length; i++) h = Math.imul(h ^ text.charCodeAt(i), 16777619);
  return mix(h);
}
function stream(seed, label2) {
  const text = `${seed}/${label2}`;
  const words = [1, 2, 3, 4].map((k) => hashText(text, mix(k)));
  return new Random(words[0] | 1, words[1], words[2], words[3]);
}

// rob2.ts
var f = process.argv[3];
var fig = compileFigure(parseFigure(readFileSync(f, "utf8"), f));
var s = new Scorer(fig);
var t = fig.template(fig.start);
var r = stream(1, "cut by hand");
console.log(t.cuts.map((c) => c.part + ": " + c.field).join(" | "));
for (let k = 0; k < +process.argv[2]; k++) {
  const e = Float64Array.from(t.cuts, (c2) => r.normal() * (c2.closedOn ? 0.15 : 0.3));
  const c = s.scoreCut(t, e, fig.start);
  console.log(c.clash.between?.join(" x "), "depth", c.clash.deepest?.toFixed(2), "push", c.clash.push?.toFixed(2), "at", c.clash.pageAngle, "first", c.clash.firstPageAngle, "forced", c.bind.misfit?.toFixed(2), c.bind.at?.part, "res", c.flat.residue?.toFixed(2), "F", c.force?.toShut.value.toFixed(1), "limits", c.limits.filter((l) => !l.met).map((l) => l.name + " " + l.value?.toFixed(2)).join(";"), c.wants.filter((l) => !l.met).map((l) => l.name + " " + l.value?.toFixed(2)).join(";"));
}
