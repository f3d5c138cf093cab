/**
 * Panels near each other, counted without the clash test's own means: at a page angle, two panels that are neither glued to
 * each other nor both pages, whose boxes along the axes of space meet. And what such a pair costs at least.
 */
import { cpu } from './examples.mjs';

const POSE = 12;
/** Pairs that the tight loop goes over. */
const LOOP = 4096;

/** @returns how many there are, over all page angles of an opening; the first of them go into `kept`, up to LOOP */
export function countNearPairs({ panels }, opening, kept) {
  let count = 0;
  const boxes = new Float64Array(panels.length * 6);
  for (let frame = 0; frame < opening.count; frame++) {
    const poses = opening.frame(frame);
    const corners = panels.map(({ outline }, k) => placed(outline, poses, k));
    for (const [k, corner] of corners.entries()) boxOf(corner, boxes.subarray(6 * k, 6 * k + 6));
    for (let a = 0; a < panels.length; a++)
      for (let b = Math.max(2, a + 1); b < panels.length; b++) {
        if (panels[a].body === panels[b].body || !meet(boxes, 6 * a, 6 * b)) continue;
        count++;
        if (kept.length < LOOP)
          kept.push({ a: corners[a], b: corners[b], planeA: planeOf(poses, a), planeB: planeOf(poses, b) });
      }
  }
  return count;
}

/**
 * Nanoseconds for the sums that no test of two flat panels can do without: how far the corners of each lie from the plane
 * of the other, one after another, and the least and the greatest of it.
 */
export function tightPair(pairs) {
  const rounds = 200;
  let sum = 0;
  const ms = cpu(() => {
    for (let round = 0; round < rounds; round++)
      for (const { a, b, planeA, planeB } of pairs) sum += extent(a, planeB) + extent(b, planeA);
  });
  if (Number.isNaN(sum)) throw new Error('a panel has no place');
  return (ms * 1e6) / (rounds * pairs.length);
}

function extent(corners, plane) {
  const nx = plane[0];
  const ny = plane[1];
  const nz = plane[2];
  const d = plane[3];
  let min = Infinity;
  let max = -Infinity;
  for (let i = 0; i < corners.length; i += 3) {
    const height = nx * corners[i] + ny * corners[i + 1] + nz * corners[i + 2] - d;
    if (height < min) min = height;
    if (height > max) max = height;
  }
  return max - min;
}

function placed(ring, poses, k) {
  const i = POSE * k;
  const corners = new Float64Array((ring.length / 2) * 3);
  for (let v = 0, c = 0; v < ring.length; v += 2)
    for (let row = 0; row < POSE; row += 4)
      corners[c++] = poses[i + row] * ring[v] + poses[i + row + 1] * ring[v + 1] + poses[i + row + 3];
  return corners;
}

function planeOf(poses, k) {
  const i = POSE * k;
  const [nx, ny, nz] = [poses[i + 2], poses[i + 6], poses[i + 10]];
  return Float64Array.of(nx, ny, nz, nx * poses[i + 3] + ny * poses[i + 7] + nz * poses[i + 11]);
}

/** Least x, y, z, then greatest. */
function boxOf(corners, box) {
  box.fill(Infinity, 0, 3);
  box.fill(-Infinity, 3, 6);
  for (let i = 0; i < corners.length; i++) {
    const axis = i % 3;
    box[axis] = Math.min(box[axis], corners[i]);
    box[3 + axis] = Math.max(box[3 + axis], corners[i]);
  }
}

function meet(boxes, i, j) {
  for (let axis = 0; axis < 3; axis++)
    if (boxes[i + axis] > boxes[j + 3 + axis] || boxes[j + axis] > boxes[i + 3 + axis]) return false;
  return true;
}
