import type { Limits } from '../figure/limits.js';
import type { Assembly } from '../motion/assembly.js';
import type { Lock } from '../motion/opening.js';
import type { OutOfBook, Overhang } from './book.js';
import type { ClashResult } from './clash.js';
import type { Flatness } from './flat.js';
import { GLUE_MARGIN, type GlueFault } from './glue.js';
import type { Intrusion } from './keep-clear.js';
import type { LimitScore } from './scorecard.js';
import type { Extreme, Strains } from './strain.js';

/** What was found of one candidate. */
export interface Findings {
  readonly lock: Lock | null;
  readonly clash: ClashResult;
  /** null where the figure keeps nothing clear. */
  readonly intrusion: Intrusion | null;
  readonly book: OutOfBook;
  /** How parts stick out while the page turns, the farthest first; null where the figure asks nothing of it. */
  readonly uncovered: readonly Overhang[] | null;
  readonly flat: Flatness;
  /** The worst first. */
  readonly glue: readonly GlueFault[];
  readonly binding: Extreme;
  /** null where the figure has no chain of links. */
  readonly strains: Strains | null;
}

/** A limit's score with how far it is broken, in units of a scale at which it hurts: for `violation`. */
interface Judged {
  readonly score: LimitScore;
  readonly excess: number;
}

/** Degrees that count as one unit of violation; for lengths it is 1 mm. */
const DEGREE_SCALE = 10;
/** Area of glue that counts as one unit of violation, mm². */
const GLUE_SCALE = 10;
/** Card that stands no higher than this on the open pages lies flat, mm. */
const FLAT_OPEN = 0.3;

/** Judges what was found by the figure's limits. */
export function judge(
  limits: Limits,
  assembly: Assembly,
  found: Findings,
): { readonly limits: readonly LimitScore[]; readonly violation: number } {
  const name = (k: number | null) => (k === null ? '' : `'${assembly.panels[k].name}'`);
  const at = (pageAngle: number | null) => `at a page angle of ${pageAngle?.toFixed(1)}°`;
  const mm = (limit: string, value: number | null, most: number, reason: string): Judged => {
    const met = value !== null && value <= most;
    return {
      score: { name: limit, value, most, unit: 'mm', met, ...(met ? {} : { reason }) },
      excess: value === null || met ? 0 : value - most,
    };
  };
  const degrees = (limit: string, value: number, most: number, reason: string): Judged => ({
    score: {
      name: limit,
      value,
      most,
      unit: 'degrees',
      met: value <= most,
      ...(value <= most ? {} : { reason }),
    },
    excess: Math.max(0, value - most) / DEGREE_SCALE,
  });
  const { lock, clash, intrusion, book, uncovered, flat, glue, binding, strains } = found;
  const neverShut = lock === null ? '' : `it never shuts: it locks at ${lock.pageAngle.toFixed(1)}°`;
  const { worst } = clash;

  const judged: Judged[] = [
    {
      score: {
        name: 'shuts',
        value: lock?.pageAngle ?? 0,
        most: 0,
        unit: 'degrees',
        met: lock === null,
        ...(lock === null
          ? {}
          : { reason: `'${lock.part}' locks ${at(lock.pageAngle)}: ${lock.where} do not meet beyond it` }),
      },
      excess: lock === null ? 0 : Math.max(0.1, lock.pageAngle / DEGREE_SCALE),
    },
    mm(
      'catch',
      worst?.depth ?? 0,
      limits.catch,
      worst === null ? '' : `${worst.between.map(name).join(' catches on ')} ${at(worst.pageAngle)}`,
    ),
    mm('give', binding.value, limits.give, `${binding.where} do not meet ${at(binding.pageAngle)}`),
    mm('outside', book.out, limits.outside, `${name(book.panel)} leaves the pages ${at(book.pageAngle)}`),
    mm('residue', flat.residue, limits.residue, neverShut || 'card stands off the page when shut'),
    mm(
      'overhang',
      flat.overhang,
      limits.overhang,
      neverShut || `${name(flat.overhanging)} sticks out when shut`,
    ),
    mm('pile', flat.pile, limits.pile, neverShut || 'the pile of card is too thick when shut'),
    gluedWell(glue, limits.glue),
  ];
  if (uncovered !== null) {
    const [worst] = uncovered;
    const late = lock !== null && lock.pageAngle > limits.coveredBelow;
    judged.push(
      mm(
        'covered',
        late ? null : (worst?.past ?? 0),
        limits.overhang,
        late
          ? neverShut
          : worst && `${name(worst.panel)} sticks out past the ${worst.edge} ${at(worst.pageAngle)}`,
      ),
    );
  }
  if (intrusion !== null)
    judged.push(
      mm(
        'keep clear',
        intrusion.depth,
        0,
        `${name(intrusion.panel)} enters '${intrusion.box}' ${at(intrusion.pageAngle)}`,
      ),
    );
  if (strains !== null) {
    const { tilt, jump } = strains;
    judged.push(
      degrees('tilt', tilt.value, limits.tilt, `${tilt.where} tilt ${at(tilt.pageAngle)}`),
      degrees('jump', jump.value, limits.jump, `${jump.where} jumps ${at(jump.pageAngle)}: a dead point`),
    );
  }
  if (limits.flatWhenOpen !== 'any')
    judged.push(flatWhenOpen(limits.flatWhenOpen === 'yes', flat.openResidue));
  return {
    limits: judged.map(({ score }) => score),
    violation: judged.reduce((sum, { excess }) => sum + excess, 0),
  };
}

/** The limits of a candidate that could not be built: none is computed. */
export function notJudged(
  limits: Limits,
  has: { keepClear: boolean; chains: boolean },
  reason: string,
): LimitScore[] {
  const none = (name: string, most: number, unit = 'mm'): LimitScore => ({
    name,
    value: null,
    most,
    unit,
    met: false,
    reason,
  });
  return [
    none('shuts', 0, 'degrees'),
    none('catch', limits.catch),
    none('give', limits.give),
    none('outside', limits.outside),
    none('residue', limits.residue),
    none('overhang', limits.overhang),
    none('pile', limits.pile),
    none('glue', limits.glue, 'mm²'),
    ...(limits.coveredBelow > 0 ? [none('covered', limits.overhang)] : []),
    ...(has.keepClear ? [none('keep clear', 0)] : []),
    ...(has.chains ? [none('tilt', limits.tilt, 'degrees'), none('jump', limits.jump, 'degrees')] : []),
    ...(limits.flatWhenOpen === 'any' ? [] : [none('flat when open', FLAT_OPEN)]),
  ];
}

/** What is wrong with glue, in words. */
export function glueFaultInWords({ glued, receiver, kind, other }: GlueFault): string {
  const between = `between '${glued}' and '${receiver}', where they are glued together`;
  switch (kind) {
    case 'off card':
      return `'${glued}' lies off the card of '${receiver}'`;
    case 'card between':
      return `'${other}' lies ${between}`;
    case 'hub between':
      return `the hub '${other}' lies ${between}`;
    case 'over a slot':
      return `'${glued}' is glued over the slot for '${other}'`;
    case 'at a crease':
      return `'${glued}' is glued on a crease at which '${other}' moves, or less than ${GLUE_MARGIN} mm from it`;
    case 'at a slit':
      return `'${glued}' is glued where '${other}' slides in its slit, or less than ${GLUE_MARGIN} mm from it`;
  }
}

function gluedWell([worst]: readonly GlueFault[], most: number): Judged {
  const value = worst?.area ?? 0;
  const met = value <= most;
  return {
    score: {
      name: 'glue',
      value,
      most,
      unit: 'mm²',
      met,
      ...(met ? {} : { reason: glueFaultInWords(worst) }),
    },
    excess: met ? 0 : (value - most) / GLUE_SCALE,
  };
}

function flatWhenOpen(wanted: boolean, residue: number): Judged {
  const flat = residue <= FLAT_OPEN;
  const met = flat === wanted;
  const most = wanted ? FLAT_OPEN : Number.MAX_VALUE;
  return {
    score: {
      name: 'flat when open',
      value: residue,
      most,
      unit: 'mm',
      met,
      ...(met
        ? {}
        : { reason: wanted ? 'card stands off the open pages' : 'nothing stands up from the open pages' }),
    },
    excess: met ? 0 : wanted ? residue - FLAT_OPEN : 1,
  };
}
