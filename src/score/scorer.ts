import type { Figure } from '../figure/figure.js';
import type { Template } from '../figure/template.js';
import type { Goal, Want } from '../figure/wants.js';
import type { Finding, Unknown } from '../limits/finding.js';
import { judge, type LimitScore, notJudged } from '../limits/judge.js';
import type { Has } from '../limits/limit.js';
import type { Measured, SlotRoom } from '../limits/measured.js';
import { type Assembly, asDrawn } from '../motion/assembly.js';
import { CannotBuild } from '../motion/cannot-build.js';
import { Opening } from '../motion/opening.js';
import { findOutOfBook, findOverhangs } from './book.js';
import { type ChainExtremes, chainExtremes, type Extreme, firstBeyond, greatest } from './chain-extremes.js';
import { type ClashResult, ClashTest } from './clash/clash.js';
import { rubsOf } from './clash/rubs.js';
import { leastCreaseOnCard } from './crease-on-card.js';
import { desirability, overall, roomWorth } from './desirability.js';
import { measureFlatness } from './flat.js';
import { foldsOf, shortestFold } from './folds.js';
import { chainPulls, type PulledChain, takeUp } from './force/chain-pulls.js';
import { type ForceScore, forceOf } from './force/force.js';
import { strengthsOf } from './force/strengths.js';
import { findGlueFaults } from './glue.js';
import { leastGlue } from './glue-size.js';
import { findIntrusion, type Intrusion } from './keep-clear.js';
import { narrowestCard } from './narrowest.js';
import { type PosesDocument, posesDocument } from './poses.js';
import { measure } from './reach.js';
import { NO_CLASH, type Scorecard, type WantScore } from './scorecard.js';
import { findSlotRooms } from './slots.js';

/** How much the margin to a limit weighs beside a want of weight 1: it only decides between equals. */
const MARGIN_WEIGHT = 0.1;
/** What counts as much in a want whose bound is near zero. */
const SCALE = { degrees: 10, mm: 5 } as const;

/** Scores candidates of one figure, one after another, in buffers that are used again. */
export class Scorer {
  readonly #figure: Figure;
  readonly #opening = new Opening();
  readonly #clash = new ClashTest();

  readonly #has: Has;

  constructor(figure: Figure) {
    this.#figure = figure;
    this.#has = {
      keepClear: figure.keepClear.length > 0,
      chains: figure.hasChains,
      slots: figure.hasSlots,
      flatPieces: figure.hasFlatPieces,
    };
  }

  /** The whole score of one candidate (see `Figure` for its vector). */
  score(vector: Float64Array): Scorecard {
    return this.#scoreBuilt(() => this.#figure.build(vector), vector, false);
  }

  /**
   * The same of what works. What fails by how it moves and lies shut, or misses a want, is not looked at further: neither its
   * violation nor its desirability is known then, and limits that take more to look at say why they are not.
   */
  scoreInShort(vector: Float64Array): Scorecard {
    return this.#scoreBuilt(() => this.#figure.build(vector), vector, true);
  }

  /** The score of a dummy of that candidate, cut by hand with these errors: one to each cut of the template. */
  scoreCut(template: Template, errors: Float64Array, vector: Float64Array): Scorecard {
    return this.#scoreBuilt(() => template.build(errors), vector, false);
  }

  #scoreBuilt(build: () => Assembly, vector: Float64Array, inShort: boolean): Scorecard {
    try {
      const assembly = build();
      return this.#scoreOf(assembly, this.#figure.wantsOf(vector), inShort);
    } catch (error) {
      if (error instanceof CannotBuild)
        return this.#notBuilt(`${error.message} (line ${this.#figure.lineOf(error.field)})`);
      throw error;
    }
  }

  /** The score together with the motion, for `check --poses`. Throws CannotBuild. */
  poses(vector: Float64Array): PosesDocument {
    const assembly = this.#figure.build(vector);
    const card = this.#scoreOf(assembly, this.#figure.wantsOf(vector), false);
    return posesDocument(assembly, this.#opening, card);
  }

  #scoreOf(assembly: Assembly, wants: readonly Want[], inShort: boolean): Scorecard {
    this.#opening.run(assembly, this.#figure.opening.step);
    const { limits: allowed } = this.#figure;
    const motion = this.#lookAtMotion(assembly, wants);
    const { measured } = motion;
    if (inShort) {
      const { limits } = judge(allowed, this.#has, { ...measured, ...NOT_LOOKED_AT }, false);
      const fails = limits.some(({ met, unknown }) => !met && unknown?.because !== 'it fails before');
      if (fails || motion.wants.some(({ met }) => !met)) return cardOf(motion, null, limits, null);
    }
    const more = this.#lookAtCard(assembly, motion.pulled);
    const { limits, violation } = judge(allowed, this.#has, { ...measured, ...more.measured });
    return cardOf(motion, more, limits, violation);
  }

  /** How it moves, lies shut and does what is wanted. */
  #lookAtMotion(assembly: Assembly, wanted: readonly Want[]): Motion {
    const { limits: allowed, keepClear, card, hasChains } = this.#figure;
    const opening = this.#opening;
    const moves = opening.count > 0;
    const named = (k: number | null) => (k === null ? null : assembly.panels[k].name);
    const book = findOutOfBook(assembly, opening);
    const flat = measureFlatness(assembly, opening);
    const pulled = chainPulls(assembly, opening, card);
    takeUp(assembly, pulled, opening);
    const binding = greatest(assembly, opening, 'gap');
    const chains = hasChains && moves ? chainExtremes(assembly, opening, pulled) : null;
    const forced = greatest(assembly, opening, 'forced');
    const measured = {
      moves,
      lock: opening.lock,
      binding,
      outside: { value: book.out, pageAngle: book.pageAngle, panel: named(book.panel) },
      shut:
        flat.shut === null
          ? null
          : {
              ...flat.shut,
              standing: named(flat.shut.standing),
              overhanging: named(flat.shut.overhanging),
            },
      openResidue: flat.openResidue,
      openStanding: named(flat.openStanding),
      handCut: assembly.handCut,
      uncovered:
        allowed.coveredBelow > 0
          ? findOverhangs(assembly, opening, allowed.coveredBelow).map((out) => ({
              ...out,
              panel: assembly.panels[out.panel].name,
            }))
          : null,
      intrusion:
        keepClear.length > 0 ? intrusionOf(findIntrusion(assembly, opening, keepClear), named) : null,
      chains,
    };
    return {
      measured,
      pulled,
      chains,
      misfit: forced.value > binding.value ? forced : binding,
      bindsFrom: moves ? firstBeyond(assembly, opening, allowed.give) : null,
      wants: wanted.map((want) => scoreWant(want, assembly, opening)),
    };
  }

  /** What takes more to look at: what catches, how it is glued, how its card holds, how hard it is to turn. */
  #lookAtCard(assembly: Assembly, pulled: readonly PulledChain[]): Whole {
    const { limits: allowed, card } = this.#figure;
    const opening = this.#opening;
    const name = (k: number) => assembly.panels[k].name;
    const two = ([a, b]: readonly [number, number]) => [name(a), name(b)] as const;
    const on = (k: number, at: readonly [number, number]) => asDrawn(assembly.panels[k], at);
    const clash = this.#clash.run(assembly, opening, allowed.press, rubsOf(this.#figure, assembly));
    const { worst } = clash;
    const slots = findSlotRooms(assembly, opening);
    const crease = leastCreaseOnCard(assembly);
    const smallest = leastGlue(assembly);
    const folds = foldsOf(assembly);
    const fold = shortestFold(folds);
    const narrowest = narrowestCard(assembly, folds);
    const force = forceOf(assembly, opening, card, strengthsOf(allowed), pulled)?.score ?? null;
    const measured = {
      catch: worst && {
        ...worst,
        between: two(worst.between),
        points: [on(worst.between[0], worst.points[0]), on(worst.between[1], worst.points[1])] as const,
      },
      force,
      slots,
      crease: crease && { share: crease.share, between: two(crease.between) },
      fold: fold && { share: fold.share, between: two(fold.between) },
      leastGlue: smallest && {
        area: { value: smallest.area.value, between: two(smallest.area.between) },
        breadth: { value: smallest.breadth.value, between: two(smallest.breadth.between) },
        share: smallest.share && { value: smallest.share.value, between: two(smallest.share.between) },
      },
      narrowest: narrowest && { ...narrowest, panels: narrowest.panels.map(name) },
      glue: opening.count > 0 ? findGlueFaults(assembly, opening) : [],
    };
    return { clash, measured, force, slots };
  }

  /** A candidate that is no card: nothing was computed, and the reason stands in place of every figure. */
  #notBuilt(reason: string): Scorecard {
    const unknown: Unknown = { because: 'it cannot be built', reason };
    return {
      works: false,
      cannotBuild: reason,
      violation: null,
      desirability: null,
      wants: this.#figure.wants.map((want) => notMeasured(want, unknown)),
      limits: notJudged(this.#figure.limits, this.#has, unknown),
      clash: NO_CLASH,
      flat: { residue: null, overhang: null, pile: null, openResidue: null },
      bind: NO_BINDING,
      force: null,
      chains: null,
      slots: [],
      glue: [],
      book: { out: null, pageAngle: null, part: null },
      locks: null,
    };
  }
}

const NO_BINDING: Scorecard['bind'] = { misfit: null, pageAngle: null, firstPageAngle: null, at: null };

/** What takes more to look at than how a figure moves. */
type LateMeasured = Pick<
  Measured,
  'catch' | 'force' | 'slots' | 'crease' | 'fold' | 'leastGlue' | 'narrowest' | 'glue'
>;
const NOT_LOOKED_AT: LateMeasured = {
  catch: null,
  force: null,
  slots: [],
  crease: null,
  fold: null,
  leastGlue: null,
  narrowest: null,
  glue: [],
};

interface Motion {
  readonly measured: Omit<Measured, keyof LateMeasured>;
  readonly pulled: readonly PulledChain[];
  readonly chains: ChainExtremes | null;
  readonly misfit: Extreme;
  readonly bindsFrom: number | null;
  readonly wants: readonly WantScore[];
}

interface Whole {
  readonly clash: ClashResult;
  readonly measured: LateMeasured;
  readonly force: ForceScore | null;
  readonly slots: readonly SlotRoom[];
}

/** @param more null where nothing but its motion was looked at, since it fails by that */
function cardOf(
  { measured, chains, misfit, bindsFrom, wants }: Motion,
  more: Whole | null,
  limits: readonly LimitScore[],
  violation: number | null,
): Scorecard {
  const { moves, shut, openResidue, outside, lock } = measured;
  const caught = more?.measured.catch ?? null;
  return {
    works: violation === 0 && limits.every(({ met }) => met) && wants.every(({ met }) => met),
    cannotBuild: null,
    violation,
    desirability: moves && more !== null ? overallOf(wants, limits) : null,
    wants,
    limits,
    clash:
      more === null
        ? NO_CLASH
        : {
            deepest: moves ? (caught?.depth ?? 0) : null,
            push: moves ? (more.clash.worst?.push ?? 0) : null,
            pageAngle: caught?.pageAngle ?? null,
            between: caught?.between ?? null,
            points: caught?.points ?? null,
            firstPageAngle: more.clash.firstPageAngle,
            press: moves ? more.clash.press : null,
          },
    flat: {
      residue: shut?.residue ?? null,
      overhang: shut?.overhang ?? null,
      pile: shut?.pile ?? null,
      openResidue,
    },
    bind: moves
      ? { misfit: misfit.value, pageAngle: misfit.pageAngle, firstPageAngle: bindsFrom, at: misfit.at }
      : NO_BINDING,
    force: more?.force ?? null,
    chains,
    slots: more?.slots ?? [],
    glue: more?.measured.glue ?? [],
    book: {
      out: moves ? outside.value : null,
      pageAngle: outside.pageAngle,
      part: outside.panel,
    },
    locks: lock,
  };
}

const intrusionOf = (
  { depth, pageAngle, panel, box }: Intrusion,
  named: (panel: number | null) => string | null,
): Measured['intrusion'] => ({ value: depth, pageAngle, panel: named(panel), space: box });

const notMeasured = ({ name, kind, unit, weight }: Goal, unknown: Unknown): WantScore => ({
  name,
  kind,
  unit,
  weight,
  value: null,
  met: false,
  desirability: null,
  unknown,
});

function scoreWant(want: Want, assembly: Assembly, opening: Opening): WantScore {
  const { name, kind, unit, weight } = want;
  const measured = measure(want, assembly, opening);
  if ('unknown' in measured) return notMeasured(want, measured.unknown);
  const { value, off } = measured;
  const met =
    off === undefined &&
    (want.least === undefined || value >= want.least) &&
    (want.most === undefined || value <= want.most) &&
    (want.target === undefined || Math.abs(value - want.target) <= (want.tolerance ?? 0));
  const worth = desirability(value, want, SCALE[unit]) * (off?.worth ?? 1);
  const card = { name, kind, unit, weight, value, met, desirability: worth };
  if (off === undefined) return card;
  const finding: Finding = {
    kind: 'marks no card',
    panels: [off.panel],
    part: null,
    pageAngle: null,
    place: null,
    value: off.mm,
    unit: 'mm',
  };
  return { ...card, finding };
}

/** Wants by their weights, and a little for the room left to each limit; null when a want was not computed. */
function overallOf(wants: readonly WantScore[], limits: readonly LimitScore[]): number | null {
  const worths: { worth: number; weight: number }[] = [];
  for (const { desirability: worth, weight } of wants) {
    if (worth === null) return null;
    worths.push({ worth, weight });
  }
  for (const limit of limits) {
    const worth = roomWorth(limit);
    if (worth !== null) worths.push({ worth, weight: MARGIN_WEIGHT });
  }
  return overall(worths);
}
