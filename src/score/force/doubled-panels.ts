import { bendAcross, gluedTogether, pullAcross } from '../../card/doubled.js';
import type { Stiffness } from '../../card/stock.js';
import type { Card } from '../../figure/card.js';
import type { Assembly } from '../../motion/assembly.js';
import type { CardFold } from '../../motion/card-fold.js';
import { placedShape, placingIn } from '../clash/bodies.js';

/** Strips into which a panel is cut from crease to crease. */
const STRIPS = 16;

/**
 * The stiffness of a fold's card with all that is glued flat on its panels: to bend that of the longer one, which bows, to
 * pull that of both in line. Where two pieces lie over one another on a panel each counts by itself, which is too
 * little; a piece's own grain is not turned with it.
 * @param own of the fold's card alone
 */
export function withGlued(assembly: Assembly, fold: CardFold, card: Card, own: Stiffness): Stiffness {
  const [longer, shorter] = fold.sides[0] >= fold.sides[1] ? [0, 1] : [1, 0];
  const [bowed, other] = [longer, shorter].map((side) => stripsOf(assembly, fold, side as 0 | 1, card, own));
  if (bowed === null && other === null) return own;
  const pulls = [bowed, other].map((strips) => (strips === null ? own.pull : pullAcross(strips.pulls)));
  const [long, short] = [fold.sides[longer], fold.sides[shorter]];
  return {
    bend: bowed === null ? own.bend : bendAcross(bowed.bends),
    pull: (long + short) / (long / pulls[0] + short / pulls[1]),
  };
}

interface Strips {
  /** Of each strip: D and E t, the mean of all along it. */
  readonly bends: Float64Array;
  readonly pulls: Float64Array;
}

function stripsOf(
  assembly: Assembly,
  fold: CardFold,
  side: 0 | 1,
  card: Card,
  own: Stiffness,
): Strips | null {
  const { panels, open } = assembly;
  const host = fold.panels[side];
  const { body, piece } = panels[host];
  const glued = panels.flatMap((panel, k) => (panel.body === body && k !== host ? [k] : []));
  if (glued.length === 0) return null;
  const bends = new Float64Array(STRIPS).fill(own.bend);
  const pulls = new Float64Array(STRIPS).fill(own.pull);
  const { thickness } = card.of(piece);
  for (const k of glued) {
    const stock = card.of(panels[k].piece);
    const both = gluedTogether(own, thickness, stock.stiffness.any, stock.thickness);
    const { outline, holes } = placedShape(panels[k], placingIn(open, k, host));
    for (const [ring, sign] of [[outline, 1] as const, ...holes.map((hole) => [hole, -1] as const)]) {
      const { bend, pull } = sharesOf(ring, fold, side, panels[host].up);
      for (let s = 0; s < STRIPS; s++) {
        bends[s] += sign * bend[s] * (both.bend - own.bend);
        pulls[s] += sign * pull[s] * (both.pull - own.pull);
      }
    }
  }
  return { bends, pulls };
}

/** Three places and weights between 0 and 1 that integrate polynomials to the fifth degree (Gauss and Legendre). */
const GAUSS = [
  [0.5 - Math.sqrt(0.15), 5 / 18],
  [0.5, 4 / 9],
  [0.5 + Math.sqrt(0.15), 5 / 18],
] as const;

/**
 * The share of each strip of a panel that a ring covers, as it counts for bending and for pulling. On a strip, what is covered
 * is G at the far edge less G at the near one, with G = x along parallel creases; about a vertex ln r for bending, whose
 * stiffness is ∫ D dr/r, and r²/2 for pulling. So each edge of the ring adds ∫ G over the strips that it crosses, which
 * changes without a leap as the ring is moved.
 */
function sharesOf(
  ring: Float64Array,
  { vertex, sides, length, inner }: CardFold,
  side: 0 | 1,
  up: 1 | -1,
): { bend: Float64Array; pull: Float64Array } {
  const bend = new Float64Array(STRIPS);
  const pull = new Float64Array(STRIPS);
  const size = sides[side];
  const within = (x: number) => Math.min(length, Math.max(inner, x));
  const [whole, area] = vertex
    ? [Math.log(length / inner), (length * length - inner * inner) / 2]
    : [length, length];
  if (!(whole > 0)) return { bend, pull };
  for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
    const [x0, y0, x1, y1] = [ring[j], up * ring[j + 1], ring[i], up * ring[i + 1]];
    // Across from crease to crease, and where along the edge it is.
    let from = vertex ? Math.atan2(y0, x0) : y0;
    let turn = vertex ? Math.atan2(x0 * y1 - y0 * x1, x0 * x1 + y0 * y1) : y1 - y0;
    if (turn === 0) continue;
    const way = Math.sign(turn);
    if (turn < 0) [from, turn] = [from + turn, -turn];
    // An edge behind the vertex may begin before −180° and come round.
    if (vertex && from < -Math.PI) from += 2 * Math.PI;
    const cross = x0 * y1 - y0 * x1;
    const along = (at: number) =>
      vertex
        ? within(cross / ((y1 - y0) * Math.cos(at) - (x1 - x0) * Math.sin(at)))
        : within(x0 + ((at - y0) / (y1 - y0)) * (x1 - x0));
    const strip = size / STRIPS;
    const first = Math.max(0, Math.floor(from / strip));
    for (let s = first; s < STRIPS && s * strip < from + turn; s++) {
      const [low, high] = [Math.max(from, s * strip), Math.min(from + turn, (s + 1) * strip)];
      for (const [share, weight] of GAUSS) {
        const far = along(low + share * (high - low));
        const part = (way * weight * (high - low)) / strip;
        bend[s] += (part * (vertex ? Math.log(far / inner) : far)) / whole;
        pull[s] += (part * (vertex ? (far * far - inner * inner) / 2 : far)) / area;
      }
    }
  }
  // A ring runs either way round.
  return { bend: bend.map(Math.abs), pull: pull.map(Math.abs) };
}
