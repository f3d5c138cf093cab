import { type Assembly, FIRST_AFTER_PAGES as FIRST, isPage, RIGHT_PAGE } from '../motion/assembly.js';
import type { Opening } from '../motion/opening.js';
import { POSE } from '../motion/pose.js';

export interface OutOfBook {
  /** Farthest that card lies behind either page, mm; 0 when all stays between them. */
  readonly out: number;
  readonly pageAngle: number | null;
  readonly panel: number | null;
}

/** Round-off in a pose, mm: a tab lies in the page's plane to about this. */
const ROUND_OFF = 1e-6;

/** How far card leaves the wedge between the planes of the two pages, over the whole opening. */
export function findOutOfBook(assembly: Assembly, opening: Opening): OutOfBook {
  let out = ROUND_OFF;
  let pageAngle: number | null = null;
  let panel: number | null = null;
  for (let frame = 0; frame < opening.count; frame++) {
    const poses = opening.frame(frame);
    const r = RIGHT_PAGE * POSE;
    // Both pages pass through the gutter, x = z = 0; their normals point into the wedge.
    const nx = poses[r + 2];
    const nz = poses[r + 10];
    for (let k = FIRST; k < assembly.panels.length; k++) {
      const { body, outline } = assembly.panels[k];
      if (isPage(body)) continue;
      const i = k * POSE;
      for (let v = 0; v < outline.length; v += 2) {
        const x = poses[i] * outline[v] + poses[i + 1] * outline[v + 1] + poses[i + 3];
        const z = poses[i + 8] * outline[v] + poses[i + 9] * outline[v + 1] + poses[i + 11];
        const behind = Math.max(-z, -(nx * x + nz * z));
        if (behind > out) {
          out = behind;
          pageAngle = opening.pageAngles[frame];
          panel = k;
        }
      }
    }
  }
  return panel === null ? { out: 0, pageAngle: null, panel: null } : { out, pageAngle, panel };
}

/** How far card sticks out past an edge of the pages, and where. */
export interface Overhang {
  /** mm */
  readonly past: number;
  readonly edge: 'head' | 'foot' | 'fore-edge' | 'spine';
  readonly pageAngle: number;
  readonly panel: number;
}

/**
 * How far each part sticks out past the edges of the pages at page angles up to one, the farthest part first: past head
 * and foot along the gutter; past the fore-edge by its distance from the gutter; past the spine when shut. Empty where
 * nothing does. Page angles that the figure never reaches are left out.
 */
export function findOverhangs(assembly: Assembly, opening: Opening, below: number): Overhang[] {
  const byPart = new Map<string, Overhang>();
  const look = (pageAngle: number, poses: Float64Array) => {
    for (let k = FIRST; k < assembly.panels.length; k++) {
      const worst = byPart.get(assembly.panels[k].part)?.past ?? ROUND_OFF;
      const found = overhangAt(assembly, poses, pageAngle, k, worst);
      if (found !== null) byPart.set(assembly.panels[k].part, found);
    }
  };
  for (let frame = opening.count - 1; frame >= 0 && opening.pageAngles[frame] <= below; frame--)
    look(opening.pageAngles[frame], opening.frame(frame));
  // It may lock after its last frame.
  const least = opening.lock?.pageAngle ?? 0;
  if (opening.count > 0 && below >= least)
    for (const pageAngle of [least, below]) look(pageAngle, opening.at(pageAngle));
  return [...byPart.values()].sort((a, b) => b.past - a.past);
}

/** How far one panel sticks out, if farther than `least`. */
function overhangAt(
  { page, panels }: Assembly,
  poses: Float64Array,
  pageAngle: number,
  panel: number,
  least: number,
): Overhang | null {
  const { outline } = panels[panel];
  const i = panel * POSE;
  let past = least;
  let edge: Overhang['edge'] | null = null;
  const take = (by: number, over: Overhang['edge']) => {
    if (by <= past) return;
    past = by;
    edge = over;
  };
  for (let v = 0; v < outline.length; v += 2) {
    const x = poses[i] * outline[v] + poses[i + 1] * outline[v + 1] + poses[i + 3];
    const y = poses[i + 4] * outline[v] + poses[i + 5] * outline[v + 1] + poses[i + 7];
    const z = poses[i + 8] * outline[v] + poses[i + 9] * outline[v + 1] + poses[i + 11];
    take(y - page.height, 'head');
    take(-y, 'foot');
    // Shut, the spine is at x = 0 and all card should lie on one side of it.
    if (pageAngle === 0) take(x, 'spine');
    if (pageAngle > 0 || x < 0) take(Math.sqrt(x * x + z * z) - page.width, 'fore-edge');
  }
  return edge === null ? null : { past, edge, pageAngle, panel };
}
