import * as z from 'zod';
import type { Line } from '../../geometry/line.js';
import type { Assembly } from '../../motion/assembly.js';
import { CannotBuild } from '../../motion/cannot-build.js';
import { POSE, type Step, worldPoint, writePose } from '../../motion/pose.js';
import { lengthOf, unit } from '../attach.js';
import { endAlong } from '../chain-end.js';
import { name, size } from '../fields.js';
import { growAround } from '../grow.js';
import { hingeFields, hingeOn } from '../hinge.js';
import { cutHole, points } from '../outline.js';
import { partKind } from '../part.js';
import { pointOn } from '../spots.js';

/**
 * The far end of a chain, held in a slit of a page or a plate: the link ends there in a tongue that is turned under,
 * lies flat behind the card, and slides along the slit.
 */
export const tongue = partKind({
  kind: 'tongue',
  fields: z.strictObject({
    /** The link, and the point on it that stays in the slit; the link ends there. */
    panel: name(),
    at: pointOn('panel'),
    /** The way of the tongue's middle, a line on a page or plate; the slit is cut longer, by half the tongue at either end. */
    slit: hingeFields,
    /** Widths of the slit and of the tongue's waist in it, across the slit, mm. */
    width: size().prefault(1.5),
    waist: size().prefault(0.8),
    /** Length of the tongue under the card, and its breadth along the slit, mm. */
    tail: size().prefault(10),
    breadth: size().prefault(6),
  }),
  build(partName, f, assembly) {
    const panel = assembly.panelNamed(f.panel, 'panel');
    const slit = hingeOn(assembly, f.slit, 'slit');
    if (!assembly.chains.holds(panel)) throw new CannotBuild('only a link has a tongue', 'panel', true);
    if (f.waist >= f.width)
      throw new CannotBuild(
        `a waist of ${f.waist.toFixed(2)} mm does not slide in a slit of ${f.width.toFixed(2)} mm`,
        'waist',
      );
    const at: [number, number] = [f.at[0], assembly.panels[panel].up * f.at[1]];
    endAlong(assembly, panel, acrossAt(assembly, panel, at), 'at');
    const { line } = slit;
    const play = f.width - f.waist;
    const ring = slitRing(line, f.breadth / 2 + play, f.width / 2);
    growAround(assembly, slit.panel, ring);
    cutHole(assembly.panels[slit.panel], Float64Array.from(ring), 'slit', 'slit.line');

    const tail = assembly.addPanel({
      name: `${partName} tail`,
      part: partName,
      piece: assembly.panels[panel].piece,
      role: 'tab',
      outline: points([
        [-f.breadth / 2, 0],
        [f.breadth / 2, 0],
        [f.breadth / 2, f.tail],
        [-f.breadth / 2, f.tail],
      ]),
    });
    const along: [[number, number], [number, number]] = [
      [line.x0, line.y0],
      [line.x1, line.y1],
    ];
    const slide = { kind: 'slide', play, along, closesLoop: true } as const;
    assembly.addJoint({ ...slide, between: [panel, slit.panel], point: at });
    assembly.addJoint({ ...slide, between: [tail, slit.panel], point: [0, 0] });
    assembly.chains.addJoint(
      { kind: 'slide', a: panel, b: slit.panel, pointA: at, alongB: along, play },
      partName,
      assembly.steps.length,
    );
    assembly.addStep(tailStep(partName, tail, panel, at, slit.panel, line));
  },
  // A tongue is made to slide in its slit, so that the play is as meant.
  byHand: { exact: ['width', 'waist'] },
});

/** The line across a link through a point, square to the way from the middle of its card. */
function acrossAt(assembly: Assembly, panel: number, [x, y]: readonly [number, number]): Line {
  const ring = assembly.panels[panel].outline;
  let [mx, my] = [0, 0];
  for (let i = 0; i < ring.length; i += 2) {
    mx += (2 * ring[i]) / ring.length;
    my += (2 * ring[i + 1]) / ring.length;
  }
  const [dx, dy] = [x - mx, y - my];
  if (Math.hypot(dx, dy) < 0.01)
    throw new CannotBuild('a tongue in the middle of its link: it belongs at an end', 'at');
  return { x0: x + dy, y0: y - dx, x1: x - dy, y1: y + dx };
}

/** The slit as it is cut: beyond the way of the tongue's middle by `more` at either end, `half` to either side. */
function slitRing(line: Line, more: number, half: number): number[] {
  const [ex, ey] = unit(line);
  const long = lengthOf(line) + more;
  const corner = (along: number, across: number) => [
    line.x0 + along * ex - across * ey,
    line.y0 + along * ey + across * ex,
  ];
  return [corner(-more, -half), corner(long, -half), corner(long, half), corner(-more, half)].flat();
}

/** The tail lies in the plane of the slit's card, at the link's point, its length square to the slit. */
function tailStep(
  part: string,
  tail: number,
  link: number,
  [x, y]: readonly [number, number],
  card: number,
  line: Line,
): Step {
  const [ex, ey] = unit(line);
  const p = new Float64Array(3);
  return {
    part,
    hangsOn: link,
    place(poses) {
      worldPoint(poses, link, x, y, p);
      const j = card * POSE;
      // Back into the plane of the card: within the play, the point may stand off it.
      const off =
        (p[0] - poses[j + 3]) * poses[j + 2] +
        (p[1] - poses[j + 7]) * poses[j + 6] +
        (p[2] - poses[j + 11]) * poses[j + 10];
      writePose(
        poses,
        tail,
        p[0] - off * poses[j + 2],
        p[1] - off * poses[j + 6],
        p[2] - off * poses[j + 10],
        poses[j] * ex + poses[j + 1] * ey,
        poses[j + 4] * ex + poses[j + 5] * ey,
        poses[j + 8] * ex + poses[j + 9] * ey,
        poses[j + 1] * ex - poses[j] * ey,
        poses[j + 5] * ex - poses[j + 4] * ey,
        poses[j + 9] * ex - poses[j + 8] * ey,
      );
    },
  };
}
