import { gluedTogether } from '../../card/doubled.js';
import type { Card } from '../../figure/card.js';
import { cutToConvex } from '../../geometry/convex-cut.js';
import { signedArea } from '../../geometry/polygon.js';
import type { Assembly } from '../../motion/assembly.js';
import { placedShape, placingIn } from '../clash/bodies.js';

type Flat = readonly [number, number];

/** Into so many strips the way between two points of a panel is cut. */
const STRIPS = 8;
/** Card this narrow is taken to be there in any case, mm. */
const LEAST = 0.5;
/** A force that is brought in by a hub spreads from about so far to either side, mm. */
const SHOULDER = 2;

/**
 * Stiffness of the card of a panel, with all that is glued on it, on the way from one point to another: to bend across
 * that way (B = Σ D b, N mm²) and to be pulled along it (A = Σ E t b, N). Where two pieces lie over one another on it each
 * counts by itself, which is too little.
 * @param spreads whether a force that comes in at the first point spreads at 45° from there; else the whole breadth bears
 */
export function stripsBetween(
  assembly: Assembly,
  panel: number,
  from: Flat,
  to: Flat,
  card: Card,
  spreads: boolean,
): { bends: Float64Array; pulls: Float64Array } {
  const { panels, open } = assembly;
  const own = card.of(panels[panel].piece);
  const { any } = own.stiffness;
  const bends = new Float64Array(STRIPS);
  const pulls = new Float64Array(STRIPS);
  const long = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const [ex, ey] = [(to[0] - from[0]) / long, (to[1] - from[1]) / long];
  const step = long / STRIPS;
  const stripOf = (near: number, far: number, half: number) => {
    const corner = (along: number, across: number) => [
      from[0] + along * ex - across * ey,
      from[1] + along * ey + across * ex,
    ];
    return Float64Array.from(
      [corner(near, -half), corner(far, -half), corner(far, half), corner(near, half)].flat(),
    );
  };
  panels.forEach(({ body, piece, thickness }, k) => {
    if (body !== panels[panel].body) return;
    const on =
      k === panel ? null : gluedTogether(any, own.thickness, card.of(piece).stiffness.any, thickness);
    const [bend, pull] = on === null ? [any.bend, any.pull] : [on.bend - any.bend, on.pull - any.pull];
    const { outline, holes } = placedShape(panels[k], placingIn(open, k, panel));
    for (const [ring, sign] of [[outline, 1] as const, ...holes.map((hole) => [hole, -1] as const)]) {
      const [least, most] = reachAlong(ring, from, ex, ey);
      for (let s = 0; s < STRIPS; s++) {
        const [near, far] = [s * step, (s + 1) * step];
        if (far <= least || near >= most) continue;
        const half = spreads ? SHOULDER + (near + far) / 2 : FAR;
        const broad = (sign * Math.abs(signedArea(cutToConvex(ring, stripOf(near, far, half))))) / step;
        bends[s] += bend * broad;
        pulls[s] += pull * broad;
      }
    }
  });
  for (let s = 0; s < STRIPS; s++) {
    bends[s] = Math.max(bends[s], LEAST * any.bend);
    pulls[s] = Math.max(pulls[s], LEAST * any.pull);
  }
  return { bends, pulls };
}

/** From where to where a ring reaches along a way from a point, mm: most holes lie in few of its strips. */
function reachAlong(ring: Float64Array, from: Flat, ex: number, ey: number): readonly [number, number] {
  let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let i = 0; i < ring.length; i += 2) {
    const along = (ring[i] - from[0]) * ex + (ring[i + 1] - from[1]) * ey;
    least = Math.min(least, along);
    most = Math.max(most, along);
  }
  return [least, most];
}

/** Farther than any panel is broad, mm. */
const FAR = 1e4;
