import type { Figure } from '../../figure/figure.js';
import { overlapArea } from '../../geometry/coverage.js';
import { cardArea } from '../../geometry/polygon.js';
import type { Assembly } from '../../motion/assembly.js';
import { Opening } from '../../motion/opening.js';
import { applyTrims, type Trim, trimmed } from '../../parts/trim.js';
import { whatTrimBreaks } from '../../parts/trim-breaks.js';
import { type Catch, ClashTest } from '../clash/clash.js';
import { rubsOf } from '../clash/rubs.js';
import type { Scorecard } from '../scorecard.js';
import { Scorer } from '../scorer.js';
import { knifeCuts } from './knife.js';
import { MOST_CUT } from './most-cut.js';
import { Referred } from './referred.js';
import { partsOf, sweptThrough } from './sweep.js';

/** A cut from one panel that frees a catch: scored again with it, the two panels no longer catch. */
export interface TrimOffer {
  readonly panel: string;
  /** What to write under `trims` of the figure file. */
  readonly trims: readonly Trim[];
  /** Card lost, mm². */
  readonly area: number;
  /** The same and what trims took before, per cent of the panel as it was without any. */
  readonly share: number;
  /** Strokes of the knife. */
  readonly strokes: number;
}

/** Two panels that catch, and what would free them. */
export interface FreeableCatch {
  readonly between: readonly [string, string];
  readonly depth: number;
  readonly push: number;
  readonly pageAngle: number;
  /** The least card lost first; none where every cut would break something. */
  readonly offers: readonly TrimOffer[];
  /** For each panel that has no cut to offer: why. */
  readonly without: readonly { readonly panel: string; readonly why: string }[];
}

export interface TrimOffers {
  readonly catches: readonly FreeableCatch[];
  /** How many catches, less deep than these, were not looked at. */
  readonly more: number;
  /** The smallest offers, taken one catch after another until nothing catches or nothing more is to offer. */
  readonly together: readonly TrimOffer[];
  /** The score with all of `together`; null when there is none. */
  readonly after: Scorecard | null;
}

/**
 * For every catch of a candidate, the smallest cuts that free it, each proved by scoring again. None takes what a want or
 * a slot refers to (see `Referred`), or more of a panel than is allowed.
 * @throws CannotBuild
 */
export function findTrims(
  figure: Figure,
  vector: Float64Array,
  { most = MOST_CUT, atWork = () => {} }: TrimOptions = {},
): TrimOffers {
  const finder = new TrimFinder(figure, vector, most, atWork);
  const found = finder.catchesWith([]);
  const catches = found.slice(0, MOST_CATCHES).map((each) => finder.offersFor(each, []));
  const together: TrimOffer[] = [];
  let next = catches.find(({ offers }) => offers.length > 0)?.offers[0];
  while (next !== undefined && together.length < MOST_ROUNDS) {
    together.push(next);
    next = finder.firstOffer(together.flatMap(({ trims }) => trims));
  }
  const after = together.length === 0 ? null : finder.scoreWith(together.flatMap(({ trims }) => trims));
  return { catches, more: found.length - catches.length, together, after };
}

export interface TrimOptions {
  /** How much of a panel cuts may take in all, per cent. */
  readonly most?: number;
  /** Called now and then while it looks: a figure of fine outlines may take a minute. */
  readonly atWork?: () => void;
}

/** Catches looked at, the worst first: a figure of more has to be drawn otherwise, and to look at thousands takes minutes. */
const MOST_CATCHES = 30;

/** A figure that needs more trims than this has to be drawn otherwise. */
const MOST_ROUNDS = 12;
/** Cuts tried on one panel for one place, the best first. */
const MOST_TRIED = 300;
/** Card that falls away with a cut, beyond what its strokes take, mm²: less is round-off. */
const FALLS = 0.5;

class TrimFinder {
  readonly #figure: Figure;
  readonly #vector: Float64Array;
  readonly #most: number;
  readonly #atWork: () => void;
  readonly #opening = new Opening();
  readonly #clash = new ClashTest();

  constructor(figure: Figure, vector: Float64Array, most: number, atWork: () => void) {
    this.#figure = figure;
    this.#vector = vector;
    this.#most = most;
    this.#atWork = atWork;
  }

  catchesWith(trims: readonly Trim[]): Catch[] {
    const { limits, opening: cover } = this.#figure;
    const assembly = this.#build(trims);
    this.#opening.run(assembly, cover.step);
    return this.#clash.catches(assembly, this.#opening, limits.press, rubsOf(this.#figure, assembly));
  }

  /** The smallest offer for the first catch, with the trims taken so far, that has any. */
  firstOffer(taken: readonly Trim[]): TrimOffer | undefined {
    for (const each of this.catchesWith(taken).slice(0, MOST_CATCHES)) {
      const [offer] = this.offersFor(each, taken).offers;
      if (offer !== undefined) return offer;
    }
    return undefined;
  }

  scoreWith(trims: readonly Trim[]): Scorecard {
    const figure = this.#figure;
    const build = (vector: Float64Array): Assembly => {
      const assembly = figure.build(vector);
      applyTrims(assembly, trims);
      return assembly;
    };
    return new Scorer({ ...figure, build }).score(this.#vector);
  }

  /** What frees one catch of the candidate with the trims that it has already. */
  offersFor({ between, depth, push, pageAngle }: Catch, taken: readonly Trim[]): FreeableCatch {
    const { limits, opening: cover } = this.#figure;
    const assembly = this.#build(taken);
    const names = [assembly.panels[between[0]].name, assembly.panels[between[1]].name] as const;
    this.#opening.run(assembly, cover.step);
    const swept = sweptThrough(assembly, this.#opening, between[0], between[1], limits.press);
    const offers: TrimOffer[] = [];
    const without: { panel: string; why: string }[] = [];
    for (const side of [0, 1] as const) {
      const offer = this.#cutFrom(assembly, between[side], partsOf(swept[side]));
      if (typeof offer === 'string') without.push({ panel: names[side], why: offer });
      else if (this.#frees(between, [...taken, ...offer.trims])) offers.push(offer);
      else without.push({ panel: names[side], why: 'no cut of it frees them' });
    }
    offers.sort((a, b) => a.area - b.area);
    return { between: names, depth, push, pageAngle, offers, without };
  }

  /** The best cuts from one panel, one for each place where something sweeps through; or why there are none. */
  #cutFrom(assembly: Assembly, k: number, places: readonly number[][]): TrimOffer | string {
    const panel = assembly.panels[k];
    if (places.length === 0)
      return 'they are folded through each other at their crease: draw the figure otherwise';
    if (panel.role === 'tab') return 'it is a glue tab';
    const trims: Trim[] = [];
    const whole = cardArea(panel) + (panel.cutAway ?? 0);
    const share = (area: number) => (100 * (area + (panel.cutAway ?? 0))) / whole;
    const kept = new Referred(assembly, this.#opening, this.#figure.wantsOf(this.#vector), k);
    let area = 0;
    let strokes = 0;
    for (const points of places) {
      const mayTake = (lost: number) => share(area + lost) <= this.#most;
      const best = bestCut(assembly, k, points, { kept, mayTake }, this.#atWork);
      if (best === 'too much') return `the cut would take more than ${this.#most} % of it`;
      if (typeof best === 'string') return best;
      const corners: [number, number][] = [];
      for (let i = 0; i < best.region.length; i += 2)
        corners.push([best.region[i], panel.up * best.region[i + 1]]);
      trims.push({ panel: panel.name, region: corners });
      area += best.area;
      strokes += best.strokes;
    }
    return { panel: panel.name, trims, area, share: share(area), strokes };
  }

  /** Whether two panels no longer catch with some trims, which take none away: each keeps its place. */
  #frees([a, b]: readonly [number, number], trims: readonly Trim[]): boolean {
    return !this.catchesWith(trims).some(({ between }) => between.includes(a) && between.includes(b));
  }

  #build(trims: readonly Trim[]): Assembly {
    const assembly = this.#figure.build(this.#vector);
    applyTrims(assembly, trims);
    return assembly;
  }
}

/** The best of the cuts that take out what sweeps through at one place, and break nothing; or what they would break. */
function bestCut(
  assembly: Assembly,
  k: number,
  points: readonly number[],
  { kept, mayTake }: { kept: Referred; mayTake: (area: number) => boolean },
  atWork: () => void,
): { region: Float64Array; strokes: number; area: number } | string {
  const panel = assembly.panels[k];
  const whole = cardArea(panel);
  let why = 'no straight cuts take it out';
  for (const { region: exact, wide, strokes, area } of knifeCuts(panel, points).slice(0, MOST_TRIED)) {
    atWork();
    // Tried as it will stand in the figure file.
    const region = exact.map(rounded);
    const broken = whatTrimBreaks(assembly, k, region) ?? kept.takenBy(region);
    const left = broken === null ? trimmed(assembly, k, region) : null;
    const barely = left === null ? null : trimmed(assembly, k, wide);
    if (left === null || barely === null) {
      if (broken !== null) why = `the cut ${broken}`;
      else why = left === null ? 'the cut would part it' : 'the cut would leave a neck too narrow';
      continue;
    }
    const gone = kept.missingFrom(left);
    if (gone !== null) {
      why = `the cut ${gone}`;
      continue;
    }
    const lost = whole - cardArea(left);
    const falls = whole - cardArea(barely) - overlapArea(panel, { outline: wide, holes: [] });
    // Either what stays beyond a neck, or the wall between a window and the edge, is gone when it is cut wider.
    if (falls > lost - area + FALLS || barely.holes.length < left.holes.length)
      why = 'the cut would leave a neck too narrow';
    else if (!mayTake(lost)) why = 'too much';
    else return { region, strokes, area: lost };
  }
  return why;
}

/** To a hundredth of a millimetre. */
const rounded = (value: number): number => Math.round(100 * value) / 100 || 0;
