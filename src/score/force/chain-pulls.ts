import { cylinderBow, eulerLoad } from '../../card/bow.js';
import { closedLoop, endGives } from '../../card/closed-loop.js';
import { bendAcross } from '../../card/doubled.js';
import { BOWS } from '../../card/gives-way.js';
import type { Card } from '../../figure/card.js';
import { nearestOn } from '../../geometry/ring-distance.js';
import type { Assembly } from '../../motion/assembly.js';
import type { ClosedChain } from '../../motion/chains.js';
import { found, span } from '../../motion/loop/span.js';
import { type Ties, tieAt, tiesOf } from '../../motion/loop/ties.js';
import type { Opening } from '../../motion/opening.js';
import { POSE } from '../../motion/pose.js';
import { placedLine, placedPoint, placingIn } from '../clash/bodies.js';
import type { PageTorque } from './creases.js';
import { stripsBetween } from './strips.js';

/** How card of a chain gives at one page angle where its joints cannot all meet. */
export interface ChainPull {
  /** N mm. */
  readonly energy: number;
  /** The hardest pull or push at a joint, N. */
  readonly newtons: number;
  /** The greatest pull or push at a joint, over what card holds there before it tears out. */
  readonly torn: number;
  /** How far the panel that bends most is bent out of its plane at a joint, mm, and which it is. */
  readonly bend: number;
  readonly bends: number;
  /** How far a limb that is pushed bows, mm, by how much it is shortened, and which it is; −1 where none does. */
  readonly bow: number;
  readonly shortened: number;
  readonly limb: number;
  /** How far card gives where the end of the chain is glued down, mm. */
  readonly lift: number;
}

const NONE: ChainPull = {
  energy: 0,
  newtons: 0,
  torn: 0,
  bend: 0,
  bends: -1,
  bow: 0,
  shortened: 0,
  limb: -1,
  lift: 0,
};

/** A chain that is pulled or pushed somewhere, with what its card does at every frame. */
export interface PulledChain {
  readonly chain: ClosedChain;
  readonly pulls: readonly ChainPull[];
}

/** Hubs that are held only by how far they tilt stand apart by a little: a chain counts as pulled by what it misses beyond this, mm. */
const APART = 0.01;

/** What card gives in every chain whose joints do not meet anywhere: most have none. */
export function chainPulls(assembly: Assembly, opening: Opening, card: Card): PulledChain[] {
  const pulled: PulledChain[] = [];
  for (const chain of assembly.chains.closed) {
    let strained: StrainedChain | null = null;
    const pulls: ChainPull[] = [];
    for (let frame = 0; frame < opening.count; frame++) {
      if (!(opening.misfitsAt(frame)[chain.gap] > APART)) {
        pulls.push(NONE);
        continue;
      }
      strained ??= new StrainedChain(assembly, chain, card);
      const missed = opening.misfitsAt(frame)[chain.gap];
      pulls.push(strained.at(opening.frame(frame), 1 - APART / missed));
    }
    if (strained !== null) pulled.push({ chain, pulls });
  }
  return pulled;
}

/**
 * By how much card of a chain is forced, mm, in place of how far its joints miss each other: never more than that. Soft card
 * bends for it, and `BOWS` of that is told and no fault; what a limb that bows is shortened by counts, for it juts up; and
 * the nearer a joint is to tearing out, the more of all that it misses by.
 * @param missed how far the joints miss in all, mm
 */
export const forcedIn = ({ bend, shortened, torn }: ChainPull, missed: number): number =>
  Math.min(missed, Math.max(shortened, bend - BOWS, missed - BOWS, missed * Math.min(1, torn)));

/** The torque on the page of a chain, N mm: above 0 it opens the book. */
export function torqueOf({ pulls }: PulledChain, { pageAngles }: Opening): PageTorque {
  const between: number[] = [];
  const torques: number[] = [];
  for (let frame = 1; frame < pulls.length; frame++) {
    const [before, here] = [pageAngles[frame - 1], pageAngles[frame]];
    between.push((before + here) / 2);
    torques.push((pulls[frame].energy - pulls[frame - 1].energy) / ((before - here) * RADIANS));
  }
  return { pageAngles: between, torques };
}

const RADIANS = Math.PI / 180;

/**
 * Writes into the misfits of an opening by how much card is forced, in place of how far joints miss: card of chains; and in a
 * dummy that is cut by hand a plate or strut that misses its support, which bows for next to nothing (`BOWS`).
 */
export function takeUp(
  { chains, misfits: measured, handCut }: Assembly,
  pulled: readonly PulledChain[],
  opening: Opening,
): void {
  if (handCut)
    measured.forEach(({ of, joint }, slot) => {
      if (of !== 'gap' || joint === 'joints') return;
      for (let frame = 0; frame < opening.count; frame++) {
        const misfits = opening.misfitsAt(frame);
        misfits[slot] = Math.max(0, misfits[slot] - BOWS);
      }
    });
  for (const chain of chains.closed) {
    const pulls = pulled.find((each) => each.chain === chain)?.pulls;
    for (let frame = 0; frame < opening.count; frame++) {
      const misfits = opening.misfitsAt(frame);
      const pull = pulls?.[frame] ?? NONE;
      misfits[chain.gap] = forcedIn(pull, Math.max(0, misfits[chain.gap] - APART));
      misfits[chain.lift] = pull.lift;
    }
  }
}

/** How a panel gives at the end of a tie, mm/N, out of its plane and in it. */
interface Gives {
  readonly panel: number;
  readonly out: number;
  readonly along: number;
}
const HELD = { out: 0, along: 0 };

/** A strip between two joints that may bow: the ties at either end, and the load at which it does, N. */
interface Limb {
  readonly panel: number;
  readonly ends: readonly [readonly number[], readonly number[]];
  readonly length: number;
  readonly load: number;
}

/** A chain with the stiffness of its card. */
class StrainedChain {
  readonly #ties: Ties;
  readonly #gives: readonly (readonly [Gives, Gives])[];
  readonly #limbs: readonly Limb[];
  /** Of all limbs in a row, mm. */
  readonly #long: number;
  readonly #crease: readonly boolean[];
  /** What card holds at each tie, on the weaker side, N. */
  readonly #holds: readonly number[];
  /** What each tie misses by, in space. */
  readonly #off: Float64Array;

  constructor(assembly: Assembly, { panels, joints }: ClosedChain, card: Card) {
    const all = new Map(assembly.panels.map((_, k) => [k, k]));
    const ties = tiesOf(joints, all);
    this.#ties = ties;
    this.#off = new Float64Array(3 * ties.count);
    const at = (k: number, side: 0 | 1): [number, number] => {
      const t = tieAt(k);
      // A slide is taken in the middle of its slit.
      return side === 0
        ? [ties.at[t], ties.at[t + 1]]
        : [ties.at[t + 2] + ties.at[t + 4] / 2, ties.at[t + 3] + ties.at[t + 5] / 2];
    };
    const indices = Array.from({ length: ties.count }, (_, k) => k);
    this.#crease = indices.map((k) => joints[ties.joint[k]].kind === 'crease');
    const holds = (panel: number) => card.of(assembly.panels[panel].piece).hubHolds;
    this.#holds = indices.map((k) => Math.min(holds(ties.a[k]), holds(ties.b[k])));
    this.#gives = indices.map((k) => [
      givesAt(assembly, ties.a[k], at(k, 0), card),
      givesAt(assembly, ties.b[k], at(k, 1), card),
    ]);
    this.#limbs = panels.flatMap((panel) => limbOf(assembly, panel, ties, at, card));
    this.#long = this.#limbs.reduce((sum, { length }) => sum + length, 0);
  }

  /** @param beyond what share counts of what joints miss by */
  at(poses: Float64Array, beyond: number): ChainPull {
    const off = this.#off;
    const ties = this.#ties;
    let missed = 0;
    let compliance = 0;
    let most = 0;
    let torn = 0;
    let apart = 0;
    const out = this.#gives.map(([a, b], k) => {
      span(poses, ties, k);
      const distance = found.distance[0];
      const share = distance > 0 ? beyond * Math.max(0, 1 - ties.at[tieAt(k) + 6] / distance) : 0;
      const square = (share * distance) ** 2;
      for (let i = 0; i < 3; i++) off[3 * k + i] = share * found.apart[i];
      missed += square;
      most = Math.max(most, share * distance);
      torn = Math.max(torn, (share * distance) / this.#holds[k]);
      apart += share * distance;
      const [outA, outB] = [a, b].map(({ panel }) => Math.abs(this.#alongNormal(poses, panel, k)));
      compliance +=
        a.out * outA ** 2 +
        a.along * (square - outA ** 2) +
        b.out * outB ** 2 +
        b.along * (square - outB ** 2);
      return [outA, outB];
    });
    if (missed === 0 || compliance === 0) return NONE;
    let [weakest, scaleThere, push] = [-1, Number.POSITIVE_INFINITY, 0];
    this.#limbs.forEach((limb, k) => {
      const pushed = this.#pushOn(poses, limb);
      if (pushed > 0 && limb.load / pushed < scaleThere)
        [weakest, scaleThere, push] = [k, limb.load / pushed, pushed];
    });
    const { scale, energy, bowed } = closedLoop(missed, compliance, scaleThere);
    // What is short by m a taut limb of length ℓ gains where its end moves aside by √(2ℓm), whatever else gives.
    const farthest = Math.sqrt(2 * this.#long * apart);
    const bent = { bend: 0, bends: -1 };
    let lift = 0;
    for (const [k, both] of this.#gives.entries())
      for (const [side, { panel, out: gives }] of both.entries()) {
        const bend = Math.min(farthest, scale * gives * out[k][side]);
        if (bend > bent.bend) Object.assign(bent, { bend, bends: panel });
        if (this.#crease[k]) lift = Math.max(lift, bend);
      }
    const bows = bowed > 0 && weakest >= 0 ? this.#limbs[weakest] : null;
    const shortened = bows === null ? 0 : bowed / push;
    return {
      energy,
      newtons: scale * most,
      torn: scale * torn,
      ...bent,
      shortened,
      limb: bows?.panel ?? -1,
      bow: bows === null ? 0 : cylinderBow(shortened, bows.length),
      lift,
    };
  }

  /** How far a tie misses along a panel's normal, mm. */
  #alongNormal(poses: Float64Array, panel: number, k: number): number {
    const i = panel * POSE;
    const off = this.#off;
    return poses[i + 2] * off[3 * k] + poses[i + 6] * off[3 * k + 1] + poses[i + 10] * off[3 * k + 2];
  }

  /** By what a limb is pushed along itself, over the scale of forces, mm; below 0 where it is pulled. */
  #pushOn(poses: Float64Array, { panel, ends }: Limb): number {
    const [from, to] = ends.map((ties) => this.#meanOn(poses, panel, ties));
    const way = [0, 1, 2].map((i) => to.at[i] - from.at[i]);
    const long = Math.hypot(...way);
    return way.reduce((sum, d, i) => sum + (d * (from.force[i] - to.force[i])) / (2 * long), 0);
  }

  /** Where ties of a panel are in space, on the mean, and the force of all of them on it, over the scale. */
  #meanOn(poses: Float64Array, panel: number, ties: readonly number[]) {
    const at = [0, 0, 0];
    const force = [0, 0, 0];
    for (const k of ties) {
      span(poses, this.#ties, k);
      const isA = this.#ties.a[k] === panel;
      for (let i = 0; i < 3; i++) {
        at[i] += (isA ? found.point[i] : found.foot[i]) / ties.length;
        // What a misses b by draws it there.
        force[i] += (isA ? -1 : 1) * this.#off[3 * k + i];
      }
    }
    return { at, force };
  }
}

/**
 * How a panel gives at a point: as a strip that is held at the nearest crease or hub other than the one there. Pages are held:
 * one lies on the table, the other in the hand.
 */
function givesAt(assembly: Assembly, panel: number, at: readonly [number, number], card: Card): Gives {
  if (assembly.panels[panel].piece === 'page') return { panel, ...HELD };
  let nearest: readonly [number, number] | null = null;
  let least = Number.POSITIVE_INFINITY;
  const take = (point: readonly [number, number]) => {
    const away = Math.hypot(point[0] - at[0], point[1] - at[1]);
    if (away > ITSELF && away < least) [nearest, least] = [point, away];
  };
  const { panels, open, joints } = assembly;
  for (const joint of joints)
    joint.between.forEach((k, end) => {
      // A plate is held by the tabs that are glued on it.
      if (panels[k].body !== panels[panel].body) return;
      const placing = placingIn(open, k, panel);
      if (joint.kind === 'crease') {
        const { x0, y0, x1, y1 } = placedLine(joint.lines[end], placing);
        take(nearestOn(Float64Array.of(x0, y0, x1, y1), at));
      } else if (joint.kind === 'pivot') take(placedPoint(joint.points[end], placing));
      else if (joint.kind === 'slide' && end === 0) take(placedPoint(joint.point, placing));
    });
  if (nearest === null) return { panel, ...HELD };
  const { bends, pulls } = stripsBetween(assembly, panel, at, nearest, card, true);
  return { panel, ...endGives(bends, pulls, least) };
}

/** A joint this near is the one itself, mm. */
const ITSELF = 0.01;

/** A free panel as a strip between its two joints that lie farthest apart; none where it has but one. */
function limbOf(
  assembly: Assembly,
  panel: number,
  ties: Ties,
  at: (k: number, side: 0 | 1) => [number, number],
  card: Card,
): Limb[] {
  const byJoint = new Map<number, number[]>();
  for (let k = 0; k < ties.count; k++)
    if (ties.a[k] === panel || ties.b[k] === panel)
      byJoint.set(ties.joint[k], [...(byJoint.get(ties.joint[k]) ?? []), k]);
  const places = [...byJoint.values()].map((mine) => {
    const points = mine.map((k) => at(k, ties.a[k] === panel ? 0 : 1));
    const mean = (axis: 0 | 1) => points.reduce((sum, point) => sum + point[axis], 0) / points.length;
    return { mine, at: [mean(0), mean(1)] as [number, number] };
  });
  let farthest: Limb | null = null;
  for (const [i, one] of places.entries())
    for (const other of places.slice(i + 1)) {
      const length = Math.hypot(other.at[0] - one.at[0], other.at[1] - one.at[1]);
      if (length <= Math.max(ITSELF, farthest?.length ?? 0)) continue;
      const { bends } = stripsBetween(assembly, panel, one.at, other.at, card, false);
      const load = eulerLoad(bendAcross(bends), length);
      farthest = { panel, ends: [one.mine, other.mine], length, load };
    }
  return farthest === null ? [] : [farthest];
}
