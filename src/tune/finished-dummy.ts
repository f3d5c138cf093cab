import { areaBeyond } from '../geometry/clipper.js';
import type { Line } from '../geometry/line.js';
import type { Assembly, Joint, Panel } from '../motion/assembly.js';
import { POSE } from '../motion/pose.js';

/** Less card than this, mm², is round-off. */
const CRUMB = 0.05;
/** Places nearer than this, mm, are one. */
const SAME = 0.01;

/**
 * Whether a finished dummy can be made into another with knife, needle and loose pieces alone, nothing torn off that is
 * glued. A piece is stuck when it is glued to another piece. Of a stuck piece every panel keeps its creases where they
 * are and loses card at most, and it stays where it is glued; folds may be turned inside out. Pieces that hang on hubs
 * or in slits only may be cut anew.
 */
export function madeWithoutGlue(before: Assembly, after: Assembly): boolean {
  const stuck = stuckPieces(before);
  for (const piece of stuckPieces(after)) stuck.add(piece);
  const were = stuckPanels(before, stuck);
  const are = stuckPanels(after, stuck);
  if (were.size !== are.size) return false;
  for (const [name, k] of are) {
    const was = were.get(name);
    if (was === undefined) return false;
    if (cardAdded(before.panels[was], after.panels[k]) > CRUMB) return false;
  }
  return jointsStay(before, after, were, are);
}

/** Pieces that are glued to another piece. */
function stuckPieces({ panels, joints }: Assembly): Set<string> {
  const stuck = new Set<string>();
  for (const { kind, between } of joints) {
    const [a, b] = between.map((k) => panels[k].piece);
    if (kind === 'glue' && a !== b) stuck.add(a).add(b);
  }
  return stuck;
}

function stuckPanels({ panels }: Assembly, stuck: ReadonlySet<string>): Map<string, number> {
  return new Map(panels.flatMap(({ name, piece }, k) => (stuck.has(piece) ? [[name, k] as const] : [])));
}

/** Card of a panel that was not there before, mm². */
function cardAdded(before: Panel, after: Panel): number {
  if (sameRing(before.outline, after.outline) && before.holes.length === 0) return 0;
  return areaBeyond(after, before);
}

const sameRing = (a: Float64Array, b: Float64Array): boolean =>
  a.length === b.length && a.every((v, i) => Math.abs(v - b[i]) < 1e-6);

/** Whether creases and glue of stuck panels are all where they were. */
function jointsStay(
  before: Assembly,
  after: Assembly,
  were: ReadonlyMap<string, number>,
  are: ReadonlyMap<string, number>,
): boolean {
  return after.joints.every((joint) => {
    const names = joint.between.map((k) => after.panels[k].name);
    if (!names.every((name) => are.has(name))) return true;
    const [a, b] = names.map((name) => were.get(name));
    const like = before.joints.filter(
      ({ kind, between }) => kind === joint.kind && between[0] === a && between[1] === b,
    );
    if (joint.kind === 'glue') return like.some((was) => sameGlue(before, was, after, joint));
    if (joint.kind !== 'crease') return true;
    return like.some(
      (was) => was.kind === 'crease' && joint.lines.every((line, side) => liesOn(line, was.lines[side])),
    );
  });
}

/** Whether one panel lies on the other as it did. */
function sameGlue(before: Assembly, was: Joint, after: Assembly, is: Joint): boolean {
  const [x, y] = [within(before.open, was.between), within(after.open, is.between)];
  return x.every((v, i) => Math.abs(v - y[i]) < SAME);
}

/** The second panel's x axis, y axis and origin, as the first one sees them, in the open figure. */
function within(poses: Float64Array, [a, b]: readonly [number, number]): number[] {
  const [i, j] = [a * POSE, b * POSE];
  const seen: number[] = [];
  for (const axis of [0, 1, 2])
    for (const column of [0, 1, 3]) {
      let sum = 0;
      for (const row of [0, 4, 8]) {
        const from = column === 3 ? poses[i + row + 3] : 0;
        sum += poses[i + row + axis] * (poses[j + row + column] - from);
      }
      seen.push(sum);
    }
  return seen;
}

/** Whether a crease lies on another, and is no longer. */
function liesOn(line: Line, on: Line): boolean {
  const [dx, dy] = [on.x1 - on.x0, on.y1 - on.y0];
  const long = Math.hypot(dx, dy);
  return [
    [line.x0, line.y0],
    [line.x1, line.y1],
  ].every(([x, y]) => {
    const along = ((x - on.x0) * dx + (y - on.y0) * dy) / long;
    const off = ((x - on.x0) * dy - (y - on.y0) * dx) / long;
    return Math.abs(off) < SAME && along > -SAME && along < long + SAME;
  });
}
