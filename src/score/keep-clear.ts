import type { ClearSpace } from '../figure/keep-clear.js';
import {
  type Assembly,
  FIRST_AFTER_PAGES as FIRST,
  isPage,
  LEFT_PAGE,
  RIGHT_PAGE,
} from '../motion/assembly.js';
import type { Opening } from '../motion/opening.js';
import { POSE } from '../motion/pose.js';

export interface Intrusion {
  /** How far card would have to be shifted to leave the box, mm; 0 when nothing enters one. */
  readonly depth: number;
  readonly pageAngle: number | null;
  readonly panel: number | null;
  readonly box: string | null;
}

/** Contacts shallower than this, mm, are round-off. */
const ROUND_OFF = 1e-6;

/**
 * How far card enters the spaces to be kept clear. A box stands on a page and turns with it; what it stands for folds
 * away by itself as the page shuts, so a box counts only while the other page leaves it room.
 */
export function findIntrusion(assembly: Assembly, opening: Opening, boxes: readonly ClearSpace[]): Intrusion {
  let worst: Intrusion = { depth: 0, pageAngle: null, panel: null, box: null };
  for (const box of boxes) {
    const page = box.on === 'left page' ? LEFT_PAGE : RIGHT_PAGE;
    for (let frame = 0; frame < opening.count; frame++) {
      const poses = opening.frame(frame);
      if (!hasRoom(box, poses, page)) break;
      for (let k = FIRST; k < assembly.panels.length; k++) {
        const { body, outline } = assembly.panels[k];
        if (isPage(body)) continue;
        const depth = depthInBox(outline, poses, k, page, box);
        if (depth > Math.max(worst.depth, ROUND_OFF))
          worst = { depth, pageAngle: opening.pageAngles[frame], panel: k, box: box.name };
      }
    }
  }
  return worst;
}

/** Whether the whole box lies on the inner side of the other page. */
function hasRoom(box: ClearSpace, poses: Float64Array, page: number): boolean {
  const i = page * POSE;
  const j = (page === LEFT_PAGE ? RIGHT_PAGE : LEFT_PAGE) * POSE;
  for (const x of [box.least[0], box.most[0]])
    for (const z of [box.least[2], box.most[2]]) {
      const wx = poses[i] * x + poses[i + 2] * z;
      const wz = poses[i + 8] * x + poses[i + 10] * z;
      if (poses[j + 2] * wx + poses[j + 10] * wz < -ROUND_OFF) return false;
    }
  return true;
}

/**
 * Clips the panel by the six faces of the box (Sutherland and Hodgman, in the page's frame), and finds the face by which
 * what is left would get out soonest: the least, over the faces, of its greatest depth behind that face.
 */
function depthInBox(
  outline: Float64Array,
  poses: Float64Array,
  k: number,
  page: number,
  box: ClearSpace,
): number {
  let ring: [number, number, number][] = [];
  const i = k * POSE;
  const j = page * POSE;
  for (let v = 0; v < outline.length; v += 2) {
    const w = [0, 4, 8].map(
      (r) => poses[i + r] * outline[v] + poses[i + r + 1] * outline[v + 1] + poses[i + r + 3],
    );
    ring.push(
      [0, 1, 2].map(
        (axis) => poses[j + axis] * w[0] + poses[j + 4 + axis] * w[1] + poses[j + 8 + axis] * w[2],
      ) as [number, number, number],
    );
  }
  for (let axis = 0; axis < 3; axis++)
    for (const [sign, bound] of [
      [1, box.least[axis]],
      [-1, -box.most[axis]],
    ])
      ring = clip(ring, (p) => sign * p[axis] - bound);
  if (ring.length === 0) return 0;
  let soonest = Number.POSITIVE_INFINITY;
  for (let axis = 0; axis < 3; axis++) {
    soonest = Math.min(soonest, Math.max(...ring.map((p) => p[axis] - box.least[axis])));
    soonest = Math.min(soonest, Math.max(...ring.map((p) => box.most[axis] - p[axis])));
  }
  return soonest;
}

type Point = [number, number, number];

/** The part of a ring where `height` is not negative. */
function clip(ring: readonly Point[], height: (p: Point) => number): Point[] {
  const kept: Point[] = [];
  for (let v = 0; v < ring.length; v++) {
    const p = ring[v];
    const q = ring[(v + 1) % ring.length];
    const [hp, hq] = [height(p), height(q)];
    if (hp >= 0) kept.push(p);
    if (hp >= 0 !== hq >= 0) {
      const t = hp / (hp - hq);
      kept.push(p.map((v, axis) => v + t * (q[axis] - v)) as Point);
    }
  }
  return kept;
}
