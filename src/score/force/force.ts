import { foldState, newFoldState } from '../../card/fold-spring.js';
import { type Grade, gradeOf, type Strengths } from '../../card/grade.js';
import { GRAVITY } from '../../card/measured.js';
import { type Card, grammageOf } from '../../figure/card.js';
import type { Assembly } from '../../motion/assembly.js';
import type { Opening } from '../../motion/opening.js';
import { type PulledChain, torqueOf } from './chain-pulls.js';
import { creaseTorques, torqueAt } from './creases.js';
import { angleBetween, type Sprung, sprungFolds } from './springs.js';

const RADIANS = Math.PI / 180;
/** Nearer than this to shut and to open, degrees, forces change fast and are looked at every half degree. */
const NEAR = 6;
const NEAR_OPEN = 168;
const FINE = 0.5;

/** A value at its worst, where, and by which part. */
export interface Peak {
  readonly value: number;
  /** Degrees; null where there is none. */
  readonly pageAngle: number | null;
  readonly part: string | null;
}

/** How one part pushes back, and how its card bows. */
export interface PartForce {
  readonly part: string;
  /** Hardest push as the page shuts and pull as it opens, N at the page's edge. */
  readonly toShut: Peak;
  readonly toOpen: Peak;
  /** mm. */
  readonly bow: Peak;
  /** Strain in the plane of the card, and by bending, as a share. */
  readonly strain: Peak;
  readonly bending: Peak;
}

/** How hard the page is to turn, in N at its edge. */
export interface ForceScore {
  readonly grade: Grade;
  /** Hardest push on the way shut, as far as it is to be shut; hardest on the way open; and there, null where it locks before. */
  readonly toShut: Peak;
  readonly toOpen: Peak;
  readonly atShut: number | null;
  /** How far it is to be shut, degrees. */
  readonly shutTo: number;
  /** Page angles at which it clicks over: the page pushes back before and goes on by itself after. */
  readonly clicks: readonly number[];
  /** How far the book stands open by itself, degrees; null where nothing holds it. */
  readonly standsOpen: number | null;
  /** Farthest that a panel bows, mm; greatest strains, as shares. */
  readonly bow: Peak;
  readonly strain: Peak;
  readonly bending: Peak;
  /** Those that need any force, in file order. */
  readonly parts: readonly PartForce[];
}

/** Force over page angle, N at the page's edge: above 0 it resists being shut. */
export interface ForceCurve {
  /** Degrees, falling. */
  readonly pageAngles: readonly number[];
  readonly total: readonly number[];
  readonly creases: readonly number[];
  readonly parts: readonly { readonly part: string; readonly newtons: readonly number[] }[];
}

function curveOf(
  assembly: Assembly,
  opening: Opening,
  card: Card,
  sprung: readonly Sprung[],
  chains: readonly PulledChain[],
  shut: number,
): ForceCurve {
  const pageAngles = samples(opening, shut);
  const state = newFoldState();
  const { width } = assembly.page;
  const creased = creaseTorques(assembly, opening, card);
  const creases = pageAngles.map((at) => torqueAt(creased, at) / width);
  const total = creases.slice();
  const byPart = new Map<string, number[]>();
  for (const { fold, spring, angles } of sprung) {
    const newtons = byPart.get(fold.part) ?? pageAngles.map(() => 0);
    pageAngles.forEach((at, k) => {
      const { theta, turn } = angleBetween(opening, angles, at);
      const push = (-foldState(spring, theta, state).slope * turn) / width;
      newtons[k] += push;
      total[k] += push;
    });
    byPart.set(fold.part, newtons);
  }
  for (const pulled of chains) {
    const torque = torqueOf(pulled, opening);
    const { part } = pulled.chain;
    const newtons = byPart.get(part) ?? pageAngles.map(() => 0);
    pageAngles.forEach((at, k) => {
      const push = torqueAt(torque, at) / width;
      newtons[k] += push;
      total[k] += push;
    });
    byPart.set(part, newtons);
  }
  return {
    pageAngles,
    total,
    creases,
    parts: Array.from(byPart, ([part, newtons]) => ({ part, newtons })),
  };
}

/**
 * How hard the page is to turn, at every page angle and in sum; null where it does not move.
 * @param chains what card gives in chains whose joints do not meet
 */
export function forceOf(
  assembly: Assembly,
  opening: Opening,
  card: Card,
  strengths: Strengths,
  chains: readonly PulledChain[],
): { readonly curve: ForceCurve; readonly score: ForceScore } | null {
  if (opening.count === 0) return null;
  const sprung = sprungFolds(assembly, opening, card);
  const curve = curveOf(assembly, opening, card, sprung, chains, strengths.shut);
  const { pageAngles, total } = curve;
  const last = pageAngles.length - 1;
  const parts = partForces(assembly, opening, sprung, chains, curve);
  const worst = (of: (part: PartForce) => Peak): Peak =>
    parts.map(of).reduce((most, peak) => (peak.value > most.value ? peak : most), none());
  const part = (k: number, sign: 1 | -1) =>
    curve.parts.reduce<{ part: string | null; push: number }>(
      (most, { part, newtons }) => (sign * newtons[k] > most.push ? { part, push: sign * newtons[k] } : most),
      { part: null, push: sign * curve.creases[k] },
    ).part;
  const peak = (sign: 1 | -1): Peak => {
    let at = -1;
    for (let k = 0; k <= last; k++) if (sign * total[k] > Math.max(0, at < 0 ? 0 : sign * total[at])) at = k;
    return at < 0 ? none() : { value: sign * total[at], pageAngle: pageAngles[at], part: part(at, sign) };
  };
  const toShut = peak(1);
  const toOpen = peak(-1);
  const strain = worst((each) => each.strain);
  const bending = worst((each) => each.bending);
  const score: ForceScore = {
    grade: gradeOf(Math.max(toShut.value, toOpen.value), strain.value, bending.value, strengths),
    toShut,
    toOpen,
    atShut: pageAngles[last] > strengths.shut + 1e-9 ? null : total[last],
    shutTo: strengths.shut,
    clicks: clicksOf(curve),
    standsOpen: standsOpen(assembly, curve, card),
    bow: worst((each) => each.bow),
    strain,
    bending,
    parts,
  };
  return { curve, score };
}

/** Made anew each time: what is given away may be changed by whoever has it. */
const none = (): Peak => ({ value: 0, pageAngle: null, part: null });

/** Page angles at which forces are looked at: the frames, and more of them near the flat states; from 180° to where it is to be shut. */
function samples(opening: Opening, shut: number): number[] {
  const angles: number[] = [];
  for (let frame = 0; frame < opening.count; frame++) {
    const at = opening.pageAngles[frame];
    if (at < shut - 1e-9) {
      if (angles[angles.length - 1] > shut + 1e-9) angles.push(shut);
      break;
    }
    angles.push(at);
    const next = frame + 1 < opening.count ? opening.pageAngles[frame + 1] : at;
    if (at > NEAR + 1e-9 && at <= NEAR_OPEN + 1e-9) continue;
    for (let finer = at - FINE; finer > Math.max(next, shut) + 1e-9; finer -= FINE) angles.push(finer);
  }
  return angles;
}

function partForces(
  assembly: Assembly,
  opening: Opening,
  sprung: readonly Sprung[],
  chains: readonly PulledChain[],
  { pageAngles, parts }: ForceCurve,
): PartForce[] {
  const state = newFoldState();
  return parts.map(({ part, newtons }) => {
    const found = { toShut: none(), toOpen: none(), bow: none(), strain: none(), bending: none() };
    const raise = (of: keyof typeof found, value: number, pageAngle: number, name = part) => {
      if (value > found[of].value) found[of] = { value, pageAngle, part: name };
    };
    pageAngles.forEach((at, k) => {
      raise('toShut', newtons[k], at);
      raise('toOpen', -newtons[k], at);
    });
    for (const { fold, spring, angles } of sprung) {
      if (fold.part !== part) continue;
      const longer = fold.sides[0] >= fold.sides[1] ? 0 : 1;
      for (const at of pageAngles) {
        foldState(spring, angleBetween(opening, angles, at).theta, state);
        raise('bow', state.bow, at, assembly.panels[fold.panels[longer]].name);
        raise('strain', state.membraneStrain, at);
        raise('bending', state.bendingStrain, at);
      }
    }
    for (const { chain, pulls } of chains)
      if (chain.part === part)
        pulls.forEach(({ bow, limb }, frame) => {
          if (limb >= 0) raise('bow', bow, opening.pageAngles[frame], assembly.panels[limb].name);
        });
    return { part, ...found };
  });
}

/** A page that pushes back by less than this, N, does not click. */
const CLICK = 0.1;

/** Where, as it shuts, the page stops pushing back and goes on by itself, with a push worth feeling on both sides. */
function clicksOf({ pageAngles, total }: ForceCurve): number[] {
  const clicks: number[] = [];
  let pushed = 0;
  let crossed: number | null = null;
  for (let k = 0; k < total.length; k++) {
    if (total[k] > 0) {
      pushed = crossed === null ? Math.max(pushed, total[k]) : total[k];
      crossed = null;
      continue;
    }
    crossed ??= pageAngles[k];
    if (pushed >= CLICK && -total[k] >= CLICK) {
      clicks.push(crossed);
      pushed = 0;
    }
  }
  return clicks;
}

/**
 * Where the book comes to rest when it is let go shut, lying on its left page: there its springs hold the leaf's weight,
 * m g W/2 cos φ. Null where they never lift it.
 */
function standsOpen(assembly: Assembly, { pageAngles, total }: ForceCurve, card: Card): number | null {
  const { width, height } = assembly.page;
  const mass = grammageOf(card.of('page')) * 1e-9 * width * height;
  // N at the page's edge.
  const weight = (pageAngle: number) => (mass * GRAVITY * Math.cos(pageAngle * RADIANS)) / 2;
  for (let k = pageAngles.length - 1; k >= 0; k--)
    if (total[k] <= weight(pageAngles[k])) return k === pageAngles.length - 1 ? null : pageAngles[k];
  return 180;
}
