import { coneBow, coneBowLoad, coneSpread, cylinderBow, cylinderBowLoad } from './bow.js';
import { excessOf, parallelRoom, vertexRoom, type Way } from './fold-room.js';
import type { Stiffness } from './stock.js';
import { openingShare } from './too-short.js';
import { PEAK_WAVES, WAVES } from './waves.js';

type Pair = readonly [number, number];

/**
 * A fold of two panels as a spring: what it holds when its parents, at an angle θ, force it. Lengths are mm where the
 * fold is parallel to its parents' crease, radians where it meets it in a point; so are its forces N or N mm.
 */
export interface FoldSpring {
  /** e, signed. */
  readonly excess: number;
  /** Room over sin²(θ/2). */
  readonly room: number;
  /** T, K: load that bows the longer panel, and stiffness of both panels in line. */
  readonly bowLoad: number;
  readonly membrane: number;
  /** Energy of waves over f²/h², and the height h = slope θ − pile, mm or radians. */
  readonly waves: number;
  readonly slope: number;
  readonly pile: number;
  /** Square of the distance between the feet, or of its cosine: see `feetApart`. */
  readonly feet: Pair;
  readonly vertex: boolean;
  /** What both panels reach together, and the stiffness against being drawn further apart. */
  readonly reach: number;
  readonly opening: number;
  /** For the bow and the strains: the longer panel, its thickness, the radius at which mm are told (1 for a parallel fold). */
  readonly longer: number;
  readonly together: number;
  readonly thickness: number;
  readonly radius: number;
}

/** The spring of a parallel fold. @param pile card between the parents beside the panel that bows, mm */
export function parallelSpring(
  feet: Pair,
  widths: Pair,
  length: number,
  way: Way,
  card: Stiffness,
  thickness: number,
  pile: number,
): FoldSpring {
  const longer = Math.max(widths[0], widths[1]);
  const together = widths[0] + widths[1];
  const foot = (feet[0] + feet[1]) / 2;
  const membrane = (card.pull * length) / together;
  return {
    excess: excessOf(feet, widths, way),
    room: parallelRoom(feet, widths, way),
    bowLoad: cylinderBowLoad(card.bend, length, longer),
    membrane,
    waves: (WAVES * card.bend * length) / longer,
    slope: middleOf(foot, together / 4, way, (x) => x),
    pile,
    feet,
    vertex: false,
    reach: together,
    opening: membrane,
    longer,
    together,
    thickness,
    radius: 1,
  };
}

/** The spring of a fold about a vertex: glue angles and sectors in radians, card from `inner` to `outer`, mm. */
export function vertexSpring(
  glue: Pair,
  sectors: Pair,
  outer: number,
  inner: number,
  way: Way,
  card: Stiffness,
  thickness: number,
  pile: number,
): FoldSpring {
  const longer = Math.max(sectors[0], sectors[1]);
  const together = sectors[0] + sectors[1];
  const spread = coneSpread(outer, inner);
  // E t ∫ r dr over the arc, of card that is 1/2 mm broad at the least: a rim is no card of no breadth.
  const breadth = Math.max(outer * outer - inner * inner, outer * 1) / 2;
  const membrane = (card.pull * breadth) / together;
  return {
    excess: excessOf(glue, sectors, way),
    room: vertexRoom(glue, sectors, way),
    bowLoad: coneBowLoad(card.bend, spread, longer),
    membrane,
    waves: (WAVES * card.bend * spread) / longer,
    slope: middleOf((glue[0] + glue[1]) / 2, together / 4, way, (x) => Math.abs(Math.sin(x))),
    pile: pile / outer,
    feet: glue,
    vertex: true,
    reach: Math.min(together, 2 * Math.PI - together),
    opening: membrane * openingShare(together),
    longer,
    together,
    thickness,
    radius: outer,
  };
}

/**
 * How far apart the parents are at the middle of a panel, over θ: at d + w/2 where the fold points in. Where it points
 * out, the middle lies at d − w/2 while that is within the parents, and beyond their crease the panel is free to bow
 * outwards: there it counts as far as it stands beyond, w − d/2 at the least that makes no leap.
 */
function middleOf(foot: number, half: number, way: Way, at: (x: number) => number): number {
  if (way === 1) return at(foot + half);
  return half * 2 <= foot ? at(foot - half) : Math.max(at(2 * half - foot / 2), at(foot / 2));
}

/**
 * The spring of a fold that stands on another one: what forces it may bow the panels of either, and the load that bows is
 * the lesser. (Against shells: with rigid parents alone the energy of a tent on a tent comes out four times too great.)
 * @param ratio by how much the parents' own angle is more than the angle between them as this fold sees it, near shut
 */
export function onFold(spring: FoldSpring, parent: FoldSpring, ratio: number): FoldSpring {
  // 1 mm forced in a panel is 1/R rad in a sector: energies are alike, loads and heights per unit are not.
  const scale = spring.radius / parent.radius;
  const bowLoad = Math.min(spring.bowLoad, parent.bowLoad * scale);
  const slope = parent.slope * ratio;
  const waves = parent.waves * scale * scale;
  const own = spring.waves / spring.slope ** 2;
  return slope > 0 && waves / slope ** 2 < own
    ? { ...spring, bowLoad, waves: (waves / slope ** 2) * spring.slope ** 2 }
    : { ...spring, bowLoad };
}

/** What a fold does at one angle between its parents; written to again and again, so that nothing is allocated. */
export interface FoldState {
  /** f: what of the excess is forced, and u: what the card lacks to reach from foot to foot; mm or radians. */
  forced: number;
  lacking: number;
  /** Energy, N mm, and its slope over the parents' angle, N mm/rad. */
  energy: number;
  slope: number;
  /** How far the longer panel bows, mm, and the greatest strains in the plane of the card and by bending. */
  bow: number;
  membraneStrain: number;
  bendingStrain: number;
}

export const newFoldState = (): FoldState => ({
  forced: 0,
  lacking: 0,
  energy: 0,
  slope: 0,
  bow: 0,
  membraneStrain: 0,
  bendingStrain: 0,
});

/**
 * The state of a fold whose parents stand at the angle θ, radians.
 *
 * Forced by f the longer panel bows (T f); in what height h is left it folds into waves (waves f²/h²); and both panels
 * are squeezed (½ K f²). The first two pass into each other as the fourth root of the sum of fourth powers, which is
 * smooth and never 20 % more than the greater; they and the third share f as springs in a row: 1/U = 1/U_bend + 1/U_mem.
 */
export function foldState(spring: FoldSpring, theta: number, state: FoldState): FoldState {
  const half = Math.sin(theta / 2);
  const forced = Math.max(0, Math.abs(spring.excess) - spring.room * half * half);
  const height = spring.slope * theta - spring.pile;
  state.forced = forced;
  state.energy = 0;
  state.slope = 0;
  state.bow = 0;
  state.membraneStrain = 0;
  state.bendingStrain = 0;
  if (forced > 0) {
    const slope = (-spring.room * Math.sin(theta)) / 2;
    const squeezed = (spring.membrane * forced * forced) / 2;
    const squeezedSlope = spring.membrane * forced * slope;
    let share = 1;
    if (height > 0) {
      // ratio: waves over bow.
      const ratio = (spring.waves * forced) / (height * height * spring.bowLoad);
      const bowed = 1 / (1 + ratio ** 4);
      const bend =
        ratio < 1
          ? spring.bowLoad * forced * (1 + ratio ** 4) ** 0.25
          : spring.bowLoad * forced * ratio * (1 + ratio ** -4) ** 0.25;
      const bendSlope =
        bend *
        ((bowed * slope) / forced + (1 - bowed) * ((2 * slope) / forced - (2 * spring.slope) / height));
      state.energy = 1 / (1 / bend + 1 / squeezed);
      state.slope =
        state.energy * (state.energy / bend) * (bendSlope / bend) +
        state.energy * (state.energy / squeezed) * (squeezedSlope / squeezed);
      share = bend / (bend + squeezed);
      const free = spring.vertex
        ? coneBow(forced, spring.longer, spring.radius)
        : cylinderBow(forced, spring.longer);
      state.bow = Math.min(free, height * spring.radius);
      // Of a cone, half-way along its creases: nearer the apex it crumples.
      const long = spring.vertex ? (spring.longer * spring.radius) / 2 : spring.longer;
      const bow = spring.vertex ? state.bow / 2 : state.bow;
      const given = spring.vertex ? (forced * spring.radius) / 2 : forced;
      const room = spring.vertex ? (height * spring.radius) / 2 : height;
      state.bendingStrain = Math.max(
        (spring.thickness * Math.PI ** 2 * bow) / (2 * long * long),
        ((PEAK_WAVES * spring.thickness * given) / (long * room)) * (1 - share),
      );
    } else {
      state.energy = squeezed;
      state.slope = squeezedSlope;
    }
    state.membraneStrain = ((PEAK_SQUEEZED * forced) / spring.together) * share;
  }
  addOpening(spring, theta, half, state);
  return state;
}

/** Near the apex and at corners the membrane is strained more than on the whole, shut and open. From the shells. */
const PEAK_SQUEEZED = 1.2;
const PEAK_OPENED = 1.35;

/** Adds what card that is too short holds. */
function addOpening(spring: FoldSpring, theta: number, half: number, state: FoldState): void {
  const apart = feetApart(spring, half);
  const lacking = apart - spring.reach;
  state.lacking = Math.max(0, lacking);
  if (lacking <= 0) return;
  const [a, b] = spring.feet;
  const sine = spring.vertex ? Math.sin(apart) : apart;
  const product = spring.vertex ? Math.sin(a) * Math.sin(b) : a * b;
  const slope = sine > 1e-9 ? (product * Math.sin(theta)) / sine : 1;
  state.energy += (spring.opening * lacking * lacking) / 2;
  state.slope += spring.opening * lacking * slope;
  state.membraneStrain = Math.max(state.membraneStrain, (PEAK_OPENED * lacking) / spring.together);
}

/** Distance (or angle) between the feet. @param half sin(θ/2) */
export function feetApart({ feet: [a, b], vertex }: FoldSpring, half: number): number {
  if (!vertex) return Math.sqrt((a - b) ** 2 + 4 * a * b * half * half);
  // By the half angle, which keeps its digits near 0 and π: hav Δ = hav(a − b) + sin a sin b hav θ.
  const hav = Math.sin((a - b) / 2) ** 2 + Math.sin(a) * Math.sin(b) * half * half;
  return 2 * Math.asin(Math.min(1, Math.sqrt(Math.max(0, hav))));
}

/**
 * The angle between the parents, radians, from how far apart the feet are: the inverse of `feetApart`, so that it
 * can be told from poses. @param square of the distance between the feet; or 2 (1 − cos Δ) = (2 sin(Δ/2))²
 */
export function parentsAngle({ feet: [a, b], vertex }: FoldSpring, square: number): number {
  const least = vertex ? (2 * Math.sin((a - b) / 2)) ** 2 : (a - b) ** 2;
  const whole = 4 * (vertex ? Math.sin(a) * Math.sin(b) : a * b);
  return 2 * Math.asin(Math.min(1, Math.sqrt(Math.max(0, (square - least) / whole))));
}
