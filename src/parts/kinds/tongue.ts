import * as z from 'zod';
import type { Line } from '../../geometry/line.js';
import type { Assembly } from '../../motion/assembly.js';
import { CannotBuild } from '../../motion/cannot-build.js';
import { POSE, type Step, worldPoint, writePose } from '../../motion/pose.js';
import { type Flat, lengthOf, unit } from '../attach.js';
import { endAlong } from '../chain-end.js';
import { name, size } from '../fields.js';
import { growAround } from '../grow.js';
import { hingeFields, hingeOn } from '../hinge.js';
import { cutHole, points } from '../outline.js';
import { partKind } from '../part.js';
import { pointOn } from '../spots.js';

/**
 * The far end of a chain, held in a slit of a page or a plate: the link ends there in a narrow neck that stands in the slit, and
 * behind the card in a tongue too broad to come out again. It slides along the slit, and turns in it as a hub does: its neck is
 * no broader than the slit is wide, whichever way it stands in it.
 */
export const tongue = partKind({
  kind: 'tongue',
  fields: z.strictObject({
    /** The link, and the point on it that stays in the slit; the link ends there. */
    panel: name(),
    at: pointOn('panel'),
    /** The way of the neck's middle, a line on a page or plate; the slit is cut longer, by half its width at either end. */
    slit: hingeFields,
    /** Width of the slit, and breadth of the neck that turns in it, mm. */
    width: size().prefault(2.7),
    waist: size().prefault(2),
    /** Length of the tongue under the card, its neck included, and its breadth, mm. */
    tail: size().prefault(10),
    breadth: size().prefault(6),
  }),
  build(partName, f, assembly) {
    const panel = assembly.panelNamed(f.panel, 'panel');
    const slit = hingeOn(assembly, f.slit, 'slit');
    if (!assembly.chains.holds(panel)) throw new CannotBuild('only a link has a tongue', 'panel', true);
    const { waist, width, tail: long, breadth } = f;
    const thick = assembly.panels[panel].thickness;
    const turned = Math.hypot(waist, thick);
    if (turned >= width)
      throw new CannotBuild(
        `a waist of ${waist.toFixed(2)} mm, ${thick.toFixed(2)} mm thick, does not turn in a slit of ${width.toFixed(2)} mm`,
        'waist',
      );
    if (breadth <= width)
      throw new CannotBuild(
        `a tongue of ${breadth.toFixed(2)} mm slips out of a slit of ${width.toFixed(2)} mm`,
        'breadth',
      );
    if (long <= width)
      throw new CannotBuild(
        `a tongue ${long.toFixed(2)} mm long ends in its neck, which is as long as the slit is wide: ${width.toFixed(2)} mm`,
        'tail',
      );
    const at: [number, number] = [f.at[0], assembly.panels[panel].up * f.at[1]];
    const across = acrossAt(assembly, panel, at, slit.panel);
    endAlong(assembly, panel, lineThrough(at, across, 1), 'at');
    const { line } = slit;
    const play = width - waist;
    const ring = slitRing(line, width / 2);
    growAround(assembly, slit.panel, ring);
    cutHole(assembly.panels[slit.panel], Float64Array.from(ring), 'slit', 'slit.line');

    const tail = assembly.addPanel({
      name: `${partName} tail`,
      part: partName,
      piece: assembly.panels[panel].piece,
      role: 'tab',
      outline: points([
        [-waist / 2, 0],
        [waist / 2, 0],
        [waist / 2, width],
        [breadth / 2, width],
        [breadth / 2, long],
        [-breadth / 2, long],
        [-breadth / 2, width],
        [-waist / 2, width],
      ]),
    });
    const along: [[number, number], [number, number]] = [
      [line.x0, line.y0],
      [line.x1, line.y1],
    ];
    const slide = { kind: 'slide', play, along, closesLoop: true } as const;
    assembly.addJoint({ ...slide, between: [panel, slit.panel], point: at });
    const lines = [lineThrough(at, across, waist / 2), lineThrough([0, 0], [1, 0], waist / 2)] as const;
    assembly.addJoint({
      ...slide,
      between: [tail, slit.panel],
      point: [0, 0],
      neck: { link: panel, lines, breadth, holds: Math.min(long - width, (breadth - width) / 2) },
    });
    assembly.chains.addJoint(
      { kind: 'slide', a: panel, b: slit.panel, pointA: at, alongB: along, play },
      partName,
      assembly.steps.length,
    );
    assembly.addStep(tailStep(assembly, partName, tail, panel, at, slit.panel, across));
  },
  // A tongue is made to slide in its slit, so that the play is as meant.
  byHand: { exact: ['width', 'waist'] },
});

/** By what sine a link is to stand off the card before its neck is bent along that card rather than across the link. */
const STANDS = Math.sin((15 * Math.PI) / 180);

/**
 * The direction on a link along which its neck is bent at a point, its end to the left: so that it lies along the card as
 * nearly as can be while the figure is open, for else the neck is twisted; and where the link lies flat on the card, so that any
 * would do, square to the way from the middle of its card.
 *
 * Of unit vectors e in the link, that for which (g·e)² + s² (d·e)² is least, with g the card's normal as seen in the link, d that
 * way and s the sine above: it goes from the one to the other without a leap.
 */
function acrossAt(assembly: Assembly, panel: number, [x, y]: Flat, card: number): Flat {
  const { open } = assembly;
  const ring = assembly.panels[panel].outline;
  let [mx, my] = [0, 0];
  for (let i = 0; i < ring.length; i += 2) {
    mx += (2 * ring[i]) / ring.length;
    my += (2 * ring[i + 1]) / ring.length;
  }
  const away = Math.hypot(x - mx, y - my);
  if (away < 0.01) throw new CannotBuild('a tongue in the middle of its link: it belongs at an end', 'at');
  const [dx, dy] = [(x - mx) / away, (y - my) / away];
  const [i, j] = [panel * POSE, card * POSE];
  const seen = (axis: 0 | 1) =>
    open[i + axis] * open[j + 2] + open[i + axis + 4] * open[j + 6] + open[i + axis + 8] * open[j + 10];
  const [gx, gy] = [seen(0), seen(1)];
  // The greater principal direction of both, and square to it the least.
  const xx = gx * gx + STANDS * STANDS * dx * dx;
  const yy = gy * gy + STANDS * STANDS * dy * dy;
  const xy = gx * gy + STANDS * STANDS * dx * dy;
  const greatest = Math.atan2(2 * xy, xx - yy) / 2;
  const [ex, ey] = [-Math.sin(greatest), Math.cos(greatest)];
  return ex * dy - ey * dx > 0 ? [ex, ey] : [-ex, -ey];
}

const lineThrough = ([x, y]: Flat, [ex, ey]: Flat, half: number): Line => ({
  x0: x - half * ex,
  y0: y - half * ey,
  x1: x + half * ex,
  y1: y + half * ey,
});

/** The slit as it is cut: `half` beyond the way of the neck's middle at either end, and to either side. */
function slitRing(line: Line, half: number): number[] {
  const [ex, ey] = unit(line);
  const long = lengthOf(line) + half;
  const corner = (along: number, across: number) => [
    line.x0 + along * ex - across * ey,
    line.y0 + along * ey + across * ex,
  ];
  return [corner(-half, -half), corner(long, -half), corner(long, half), corner(-half, half)].flat();
}

/** Less than this of a line across a limb lies along the card when it is edge-on to it, whichever way it then turns. */
const EDGE_ON = 1e-9;

/**
 * The tail lies in the plane of the slit's card, at the link's point, and goes on from the link: it turns with the line across
 * the link, as that is seen on the card. By what that line is tilted to the card, the neck is twisted.
 * @param across the direction on the link along which its neck is bent, the link's end to its left
 */
function tailStep(
  assembly: Assembly,
  part: string,
  tail: number,
  link: number,
  [x, y]: readonly [number, number],
  card: number,
  [ax, ay]: Flat,
): Step {
  const p = new Float64Array(3);
  const { open } = assembly;
  const twist = assembly.addMisfit({ part, joint: 'neck', panels: [], of: 'tilt', locksBeyond: null });
  const [l, m] = [link * POSE, card * POSE];
  const side =
    open[l + 2] * open[m + 2] + open[l + 6] * open[m + 6] + open[l + 10] * open[m + 10] < 0 ? -1 : 1;
  return {
    part,
    hangsOn: link,
    place(poses, misfits) {
      worldPoint(poses, link, x, y, p);
      const i = link * POSE;
      const j = card * POSE;
      const [nx, ny, nz] = [poses[j + 2], poses[j + 6], poses[j + 10]];
      // Back into the plane of the card: within the play, the point may stand off it.
      const off = (p[0] - poses[j + 3]) * nx + (p[1] - poses[j + 7]) * ny + (p[2] - poses[j + 11]) * nz;
      let ex = poses[i] * ax + poses[i + 1] * ay;
      let ey = poses[i + 4] * ax + poses[i + 5] * ay;
      let ez = poses[i + 8] * ax + poses[i + 9] * ay;
      const up = ex * nx + ey * ny + ez * nz;
      ex -= up * nx;
      ey -= up * ny;
      ez -= up * nz;
      const long = Math.sqrt(ex * ex + ey * ey + ez * ez);
      misfits[twist] = (Math.atan2(Math.abs(up), long) * 180) / Math.PI;
      if (long < EDGE_ON) {
        ex = poses[j];
        ey = poses[j + 4];
        ez = poses[j + 8];
      } else {
        ex /= long;
        ey /= long;
        ez /= long;
      }
      writePose(
        poses,
        tail,
        p[0] - off * nx,
        p[1] - off * ny,
        p[2] - off * nz,
        ex,
        ey,
        ez,
        side * (ny * ez - nz * ey),
        side * (nz * ex - nx * ez),
        side * (nx * ey - ny * ex),
      );
    },
  };
}
