import { pile } from '../geometry/coverage.js';
import { zeros } from '../geometry/numbers.js';
import type { Polygon } from '../geometry/polygon.js';
import { type Assembly, FIRST_AFTER_PAGES as FIRST } from '../motion/assembly.js';
import type { Opening } from '../motion/opening.js';
import { POSE } from '../motion/pose.js';

/** How a figure lies in the shut book, mm. */
export interface ShutBook {
  /** Farthest that any card stands off the left page, and which panel does. */
  readonly residue: number;
  readonly standing: number | null;
  /** Farthest that card sticks out past head, foot or fore-edge, and which panel does. */
  readonly overhang: number;
  readonly overhanging: number | null;
  /** Thickest pile of card between the pages, and where it is (x, y on the left page). */
  readonly pile: number;
  readonly pileAt: readonly [number, number] | null;
}

export interface Flatness {
  /** null where the figure never shuts. */
  readonly shut: ShutBook | null;
  /** Open: farthest that any card stands off the pages, mm, and which panel does. */
  readonly openResidue: number;
  readonly openStanding: number | null;
}

/** How flat the figure lies, shut and open. */
export function measureFlatness(assembly: Assembly, opening: Opening): Flatness {
  const { off, panel } = farthestOff(assembly, opening.count > 0 ? opening.frame(0) : assembly.open);
  const shut = opening.lock === null ? shutFlatness(assembly, opening) : null;
  return { shut, openResidue: off, openStanding: panel };
}

function shutFlatness(assembly: Assembly, opening: Opening): ShutBook {
  const shut = opening.frame(opening.count - 1);
  const { width, height } = assembly.page;
  const { shapes, thicknesses } = shutShapes(assembly, shut);
  let overhang = 0;
  let overhanging: number | null = null;
  shapes.forEach(({ outline }, i) => {
    for (let v = 0; v < outline.length; v += 2) {
      const past = Math.max(-width - outline[v], outline[v], -outline[v + 1], outline[v + 1] - height);
      if (past > overhang + 1e-6) {
        overhang = past;
        overhanging = FIRST + i;
      }
    }
  });
  const thickest = pile(shapes, thicknesses);
  const { off, panel } = farthestOff(assembly, shut);
  return {
    residue: off,
    standing: panel,
    overhang,
    overhanging,
    pile: thickest?.thickness ?? 0,
    pileAt: thickest === undefined ? null : [thickest.x, thickest.y],
  };
}

/** All panels but the pages as they lie in the shut book, seen from above the left page, and their thicknesses. */
export function shutShapes(
  { panels }: Assembly,
  shut: Float64Array,
): { readonly shapes: Polygon[]; readonly thicknesses: number[] } {
  const between = panels.slice(FIRST);
  return {
    shapes: between.map(({ outline, holes }, i) => ({
      outline: onLeftPage(shut, FIRST + i, outline),
      holes: holes.map((hole) => onLeftPage(shut, FIRST + i, hole)),
    })),
    thicknesses: between.map(({ thickness }) => thickness),
  };
}

/** Farthest that any corner lies from the plane of the left page, mm, and whose it is: of several as far, the first panel's. */
function farthestOff(assembly: Assembly, poses: Float64Array): { off: number; panel: number | null } {
  let farthest = 0;
  let panel: number | null = null;
  for (let k = FIRST; k < assembly.panels.length; k++) {
    const { outline } = assembly.panels[k];
    const i = k * POSE + 8;
    for (let v = 0; v < outline.length; v += 2) {
      const off = Math.abs(poses[i] * outline[v] + poses[i + 1] * outline[v + 1] + poses[i + 3]);
      if (off > farthest + 1e-6) panel = k;
      farthest = Math.max(farthest, off);
    }
  }
  return farthest < 1e-5 ? { off: 0, panel: null } : { off: farthest, panel };
}

/** A ring seen from above in the shut book: x, y in the left page's plane. */
function onLeftPage(poses: Float64Array, k: number, ring: Float64Array): Float64Array {
  const i = k * POSE;
  const out = zeros(ring.length);
  for (let v = 0; v < ring.length; v += 2) {
    out[v] = poses[i] * ring[v] + poses[i + 1] * ring[v + 1] + poses[i + 3];
    out[v + 1] = poses[i + 4] * ring[v] + poses[i + 5] * ring[v + 1] + poses[i + 7];
  }
  return out;
}
