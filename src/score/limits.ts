import type { Limits } from '../figure/limits.js';
import type { Assembly } from '../motion/assembly.js';
import type { Lock } from '../motion/opening.js';
import type { OutOfBook, Overhang } from './book.js';
import type { ClashResult } from './clash/clash.js';
import type { Flatness } from './flat.js';
import { GLUE_MARGIN, type GlueFault } from './glue.js';
import type { Intrusion } from './keep-clear.js';
import type { LimitScore } from './scorecard.js';
import type { Extreme, Strains } from './strain.js';

/** What was found of one candidate. */
export interface Findings {
  /** Whether the page moves at all; where it locks before it has opened flat, there is nothing to look at. */
  readonly moves: boolean;
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

/** What one limit looks at. */
interface Limit {
  readonly name: string;
  readonly unit: LimitScore['unit'];
  /** What counts as one unit of violation, in its own unit. */
  readonly scale: number;
  /** Whether a figure has this limit at all. */
  applies?(limits: Limits, has: Has): boolean;
  /** The most that it may be; or the least, where it must be more than that. */
  bound(limits: Limits): { readonly most: number } | { readonly least: number };
  /** How much it is, and in words where; null where that can't be told, and why. */
  measure(found: Findings, say: Say, limits: Limits): readonly [value: number | null, reason: string];
}

/** What a figure has that not all have. */
export interface Has {
  readonly keepClear: boolean;
  readonly chains: boolean;
}

/** How places are put in words. */
interface Say {
  panel(k: number | null): string;
  at(pageAngle: number | null): string;
}

/** Degrees that count as one unit of violation; for lengths it is 1 mm. */
const DEGREE_SCALE = 10;
/** Area of glue that counts as one unit of violation, mm². */
const GLUE_SCALE = 10;
/** Card that stands no higher than this on the open pages lies flat, mm. */
const FLAT_OPEN = 0.3;
/** A figure that locks just before it is shut still is broken by this much, in units of violation. */
const LEAST_EXCESS = 0.1;

const LIMITS: readonly Limit[] = [
  {
    name: 'shuts',
    unit: 'degrees',
    scale: DEGREE_SCALE,
    bound: () => ({ most: 0 }),
    measure: ({ lock }, { at }) =>
      lock === null
        ? [0, '']
        : [lock.pageAngle, `'${lock.part}' locks ${at(lock.pageAngle)}: ${lock.where} do not meet beyond it`],
  },
  {
    name: 'catch',
    unit: 'mm',
    scale: 1,
    bound: (limits) => ({ most: limits.catch }),
    measure: moving(({ clash: { worst } }, { panel, at }) =>
      worst === null
        ? [0, '']
        : [worst.depth, `${worst.between.map(panel).join(' catches on ')} ${at(worst.pageAngle)}`],
    ),
  },
  {
    name: 'give',
    unit: 'mm',
    scale: 1,
    bound: (limits) => ({ most: limits.give }),
    measure: moving(({ binding: { value, where, pageAngle } }, { at }) => [
      value,
      `${where} do not meet ${at(pageAngle)}`,
    ]),
  },
  {
    name: 'outside',
    unit: 'mm',
    scale: 1,
    bound: (limits) => ({ most: limits.outside }),
    measure: moving(({ book }, { panel, at }) => [
      book.out,
      `${panel(book.panel)} leaves the pages ${at(book.pageAngle)}`,
    ]),
  },
  {
    name: 'residue',
    unit: 'mm',
    scale: 1,
    bound: (limits) => ({ most: limits.residue }),
    measure: shut(({ flat }) => [flat.residue, 'card stands off the page when shut']),
  },
  {
    name: 'overhang',
    unit: 'mm',
    scale: 1,
    bound: (limits) => ({ most: limits.overhang }),
    measure: shut(({ flat }, { panel }) => [
      flat.overhang,
      `${panel(flat.overhanging)} sticks out when shut`,
    ]),
  },
  {
    name: 'pile',
    unit: 'mm',
    scale: 1,
    bound: (limits) => ({ most: limits.pile }),
    measure: shut(({ flat }) => [flat.pile, 'the pile of card is too thick when shut']),
  },
  {
    name: 'glue',
    unit: 'mm²',
    scale: GLUE_SCALE,
    bound: (limits) => ({ most: limits.glue }),
    measure: moving(({ glue: [worst] }) =>
      worst === undefined ? [0, ''] : [worst.area, glueFaultInWords(worst)],
    ),
  },
  {
    name: 'covered',
    unit: 'mm',
    scale: 1,
    applies: ({ coveredBelow }) => coveredBelow > 0,
    bound: (limits) => ({ most: limits.overhang }),
    measure({ lock, uncovered }, { panel, at }, { coveredBelow }) {
      if (lock !== null && lock.pageAngle > coveredBelow) return [null, neverShut(lock)];
      const worst = uncovered?.[0];
      if (worst === undefined) return [0, ''];
      return [worst.past, `${panel(worst.panel)} sticks out past the ${worst.edge} ${at(worst.pageAngle)}`];
    },
  },
  {
    name: 'keep clear',
    unit: 'mm',
    scale: 1,
    applies: (_, { keepClear }) => keepClear,
    bound: () => ({ most: 0 }),
    measure: moving(({ intrusion }, { panel, at }) =>
      intrusion === null
        ? [0, '']
        : [intrusion.depth, `${panel(intrusion.panel)} enters '${intrusion.box}' ${at(intrusion.pageAngle)}`],
    ),
  },
  {
    name: 'tilt',
    unit: 'degrees',
    scale: DEGREE_SCALE,
    applies: (_, { chains }) => chains,
    bound: (limits) => ({ most: limits.tilt }),
    measure: moving(({ strains }, { at }) =>
      strains === null
        ? [0, '']
        : [strains.tilt.value, `${strains.tilt.where} tilt ${at(strains.tilt.pageAngle)}`],
    ),
  },
  {
    name: 'jump',
    unit: 'degrees',
    scale: DEGREE_SCALE,
    applies: (_, { chains }) => chains,
    bound: (limits) => ({ most: limits.jump }),
    measure: moving(({ strains }, { at }) =>
      strains === null
        ? [0, '']
        : [strains.jump.value, `${strains.jump.where} jumps ${at(strains.jump.pageAngle)}: a dead point`],
    ),
  },
  {
    name: 'flat when open',
    unit: 'mm',
    scale: 1,
    applies: ({ flatWhenOpen }) => flatWhenOpen !== 'any',
    bound: ({ flatWhenOpen }) => (flatWhenOpen === 'yes' ? { most: FLAT_OPEN } : { least: FLAT_OPEN }),
    measure: ({ flat: { openResidue } }, _, { flatWhenOpen }) => [
      openResidue,
      flatWhenOpen === 'yes' ? 'card stands off the open pages' : 'nothing stands up from the open pages',
    ],
  },
];

/** Judges what was found by the figure's limits. `violation` sums the excess over each that is broken, by its scale. */
export function judge(
  limits: Limits,
  has: Has,
  { panels }: Assembly,
  found: Findings,
): { readonly limits: readonly LimitScore[]; readonly violation: number } {
  const say: Say = {
    panel: (k) => (k === null ? '' : `'${panels[k].name}'`),
    at: (pageAngle) => `at a page angle of ${pageAngle?.toFixed(1)}°`,
  };
  let violation = 0;
  const scores = limitsOf(limits, has).map((limit): LimitScore => {
    const { name, unit, scale } = limit;
    const bound = limit.bound(limits);
    const [value, reason] = limit.measure(found, say, limits);
    // What can't be told breaks nothing by itself: something else does, or it could be told.
    const excess = value === null ? 0 : 'most' in bound ? value - bound.most : bound.least - value;
    const met = value !== null && excess <= 0;
    if (excess > 0) violation += Math.max(name === 'shuts' ? LEAST_EXCESS : 0, excess / scale);
    return { name, value, ...bound, unit, met, ...(met ? {} : { reason }) };
  });
  return { limits: scores, violation };
}

/** The limits of a candidate that could not be built: none is computed. */
export const notJudged = (limits: Limits, has: Has, reason: string): LimitScore[] =>
  limitsOf(limits, has).map((limit) => ({
    name: limit.name,
    value: null,
    ...limit.bound(limits),
    unit: limit.unit,
    met: false,
    reason,
  }));

const limitsOf = (limits: Limits, has: Has): Limit[] =>
  LIMITS.filter(({ applies }) => applies === undefined || applies(limits, has));

/** What can be told only of a page that moves: one that locks before it has opened flat never does. */
function moving(measure: Limit['measure']): Limit['measure'] {
  return (found, say, limits) =>
    found.moves ? measure(found, say, limits) : [null, `it never opens flat: ${lockedAt(found.lock)}`];
}

/** What can be told only of the shut book. */
function shut(measure: Limit['measure']): Limit['measure'] {
  return (found, say, limits) =>
    found.lock === null ? measure(found, say, limits) : [null, neverShut(found.lock)];
}

const neverShut = (lock: Lock): string => `it never shuts: ${lockedAt(lock)}`;
const lockedAt = (lock: Lock | null): string => `it locks at ${lock?.pageAngle.toFixed(1)}°`;

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
