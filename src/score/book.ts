import { type Assembly, LEFT_PAGE, POSE, RIGHT_PAGE } from '../motion/assembly.js';
import type { Opening } from '../motion/opening.js';

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
    for (let k = 2; k < assembly.panels.length; k++) {
      const { body, outline } = assembly.panels[k];
      if (body === LEFT_PAGE || body === RIGHT_PAGE) continue;
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
