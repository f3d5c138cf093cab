import type { Figure } from '../figure/figure.js';
import type { Template } from '../figure/template.js';
import type { Want } from '../figure/wants.js';
import type { Assembly } from '../motion/assembly.js';
import { CannotBuild } from '../motion/cannot-build.js';
import { Opening } from '../motion/opening.js';
import { findOutOfBook, findOverhangs } from './book.js';
import { ClashTest } from './clash/clash.js';
import { desirability, overall } from './desirability.js';
import { measureFlatness } from './flat.js';
import { findGlueFaults } from './glue.js';
import { findIntrusion } from './keep-clear.js';
import { type Findings, type Has, judge, notJudged } from './limits.js';
import { type PosesDocument, posesDocument } from './poses.js';
import { measure } from './reach.js';
import type { LimitScore, Scorecard, WantScore } from './scorecard.js';
import { findSlotRooms } from './slots.js';
import { findStrains, greatest } from './strain.js';

/** How much the margin to a limit weighs beside a want of weight 1: it only decides between equals. */
const MARGIN_WEIGHT = 0.1;
/** What counts as much in a want whose bound is near zero. */
const SCALE = { degrees: 10, mm: 5 } as const;

/** Scores candidates of one figure, one after another, in buffers that are used again. */
export class Scorer {
  private readonly opening = new Opening();
  private readonly clash = new ClashTest();

  private readonly has: Has;

  constructor(private readonly figure: Figure) {
    this.has = { keepClear: figure.keepClear.length > 0, chains: figure.hasChains };
  }

  /** The whole score of one candidate (see `Figure` for its vector). */
  score(vector: Float64Array): Scorecard {
    return this.scoreBuilt(() => this.figure.build(vector), vector);
  }

  /** The score of a dummy of that candidate, cut by hand with these errors: one to each cut of the template. */
  scoreCut(template: Template, errors: Float64Array, vector: Float64Array): Scorecard {
    return this.scoreBuilt(() => template.build(errors), vector);
  }

  private scoreBuilt(build: () => Assembly, vector: Float64Array): Scorecard {
    try {
      const assembly = build();
      return this.scoreOf(assembly, this.figure.wantsOf(vector));
    } catch (error) {
      if (error instanceof CannotBuild)
        return this.notBuilt(`${error.message} (line ${this.figure.lineOf(error.field)})`);
      throw error;
    }
  }

  /** The score together with the motion, for `check --poses`. Throws CannotBuild. */
  poses(vector: Float64Array): PosesDocument {
    const assembly = this.figure.build(vector);
    const card = this.scoreOf(assembly, this.figure.wantsOf(vector));
    return posesDocument(assembly, this.opening, card);
  }

  private scoreOf(assembly: Assembly, wants: readonly Want[]): Scorecard {
    const { limits: allowed, keepClear, opening: cover } = this.figure;
    const { opening } = this;
    opening.run(assembly, cover.step, allowed.give);
    const moves = opening.count > 0;
    const found: Findings = {
      moves,
      lock: opening.lock,
      clash: this.clash.run(assembly, opening, allowed.press),
      intrusion: keepClear.length > 0 ? findIntrusion(assembly, opening, keepClear) : null,
      book: findOutOfBook(assembly, opening),
      uncovered: allowed.coveredBelow > 0 ? findOverhangs(assembly, opening, allowed.coveredBelow) : null,
      flat: measureFlatness(assembly, opening),
      glue: moves ? findGlueFaults(assembly, opening) : [],
      binding: greatest(assembly, opening, 'gap'),
      strains: this.figure.hasChains && moves ? findStrains(assembly, opening) : null,
    };
    const { limits, violation } = judge(allowed, this.has, assembly, found);
    const reached = wants.map((want) => scoreWant(want, assembly, opening));
    const { lock, clash, book, flat, binding } = found;
    const name = (k: number) => assembly.panels[k].name;
    return {
      works: violation === 0 && limits.every(({ met }) => met) && reached.every(({ met }) => met),
      cannotBuild: null,
      violation,
      desirability: overallOf(reached, limits),
      wants: reached,
      limits,
      clash: {
        deepest: moves ? (clash.worst?.depth ?? 0) : null,
        push: moves ? (clash.worst?.push ?? 0) : null,
        pageAngle: clash.worst?.pageAngle ?? null,
        between: clash.worst === null ? null : [name(clash.worst.between[0]), name(clash.worst.between[1])],
        points: clash.worst?.points ?? null,
        firstPageAngle: clash.firstPageAngle,
        press: moves ? clash.press : null,
      },
      flat: {
        residue: flat.residue,
        overhang: flat.overhang,
        pile: flat.pile,
        openResidue: flat.openResidue,
        ...(lock === null ? {} : { reason: `it locks at ${lock.pageAngle.toFixed(1)}°` }),
      },
      bind: moves
        ? { misfit: binding.value, pageAngle: binding.pageAngle, where: binding.where }
        : { misfit: null, pageAngle: null, where: null },
      chains: found.strains,
      slots: findSlotRooms(assembly, opening),
      glue: found.glue,
      book: {
        out: moves ? book.out : null,
        pageAngle: book.pageAngle,
        part: book.panel === null ? null : name(book.panel),
      },
      locks: lock,
    };
  }

  /** A candidate that is no card: nothing was computed, and the reason stands in place of every figure. */
  private notBuilt(reason: string): Scorecard {
    return {
      works: false,
      cannotBuild: reason,
      violation: null,
      desirability: null,
      wants: this.figure.wants.map(({ name, kind, unit, weight }) => ({
        name,
        kind,
        unit,
        weight,
        value: null,
        met: false,
        desirability: null,
        reason,
      })),
      limits: notJudged(this.figure.limits, this.has, reason),
      clash: {
        deepest: null,
        push: null,
        pageAngle: null,
        between: null,
        points: null,
        firstPageAngle: null,
        press: null,
      },
      flat: { residue: null, overhang: null, pile: null, openResidue: null, reason },
      bind: { misfit: null, pageAngle: null, where: null },
      chains: null,
      slots: [],
      glue: [],
      book: { out: null, pageAngle: null, part: null },
      locks: null,
    };
  }
}

function scoreWant(want: Want, assembly: Assembly, opening: Opening): WantScore {
  const { name, kind, unit, weight } = want;
  const measured = measure(want, assembly, opening);
  if ('reason' in measured)
    return { name, kind, unit, weight, value: null, met: false, desirability: null, reason: measured.reason };
  const { value } = measured;
  const met =
    (want.least === undefined || value >= want.least) &&
    (want.most === undefined || value <= want.most) &&
    (want.target === undefined || Math.abs(value - want.target) <= (want.tolerance ?? 0));
  return { name, kind, unit, weight, value, met, desirability: desirability(value, want, SCALE[unit]) };
}

/** Wants by their weights, and a little for the room left to each limit; null when a want was not computed. */
function overallOf(wants: readonly WantScore[], limits: readonly LimitScore[]): number | null {
  const worths: { worth: number; weight: number }[] = [];
  for (const { desirability: worth, weight } of wants) {
    if (worth === null) return null;
    worths.push({ worth, weight });
  }
  for (const { value, most } of limits)
    if (value !== null && most !== undefined && most > 0)
      worths.push({ worth: desirability(value, { most }, most), weight: MARGIN_WEIGHT });
  return overall(worths);
}
