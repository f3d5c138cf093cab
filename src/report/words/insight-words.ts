import type { FreeDim } from '../../figure/dims.js';
import type { Cut } from '../../figure/hand/cut.js';
import type { CandidateInsight } from '../../insight/figure-insight.js';
import type { FailureCause } from '../../insight/hand/failure-causes.js';
import { type Hand, leastError } from '../../insight/hand/figure-tolerance.js';
import type { Robustness } from '../../insight/hand/robustness.js';
import type { CheckedNudge } from '../../insight/local/nudge-check.js';
import type { SafeEnd } from '../../insight/local/safe-range.js';
import type { Share } from '../../insight/sensitivity/wilson.js';
import type { LimitScore } from '../../limits/judge.js';
import type { Named } from '../../study/row.js';
import { WORKS_PLACE } from '../../study/scores.js';
import { counted } from '../../text/phrases.js';
import { decimal, share, withUnit } from './numbers.js';
import { section } from './section.js';

/** Causes and failures that are listed. */
const MOST = 6;
/** A nudge that changes a score by less than this share of its largest is not told. */
const FAINT = 0.05;

/** A limit that it takes more than so many nudges to reach is out of reach: what moves it is not told. */
const OUT_OF_REACH = 20;

/**
 * What was found of one candidate, line by line.
 * @param limits how far it is from each: what is far off is not told
 */
export function insightInWords(
  {
    cuts,
    rooms,
    tolerance,
    causes,
    parts,
    safe,
    nudges,
    robust,
  }: CandidateInsight & { readonly robust?: Robustness },
  hand: Hand,
  free: readonly FreeDim[],
  vector: Float64Array,
  scores: readonly Pick<Named, 'name' | 'unit'>[],
  limits: readonly LimitScore[] = [],
): string[] {
  const { works, failures, asDrawn } = tolerance;
  return [
    '',
    `Cut by hand (${handInWords(hand)}, each of ${counted(cuts.length, 'length, angle and place', 'lengths, angles and places')} by itself)`,
    ...(robust === undefined
      ? [`  ${shareInWords(works)} of ${works.of} dummies work.`]
      : [
          `  ${shareInWords(robust.sound)} of ${works.of} dummies shut and open without a jam; ${shareInWords(works)} work: they also do all that is wanted.`,
          `  Desirability to be expected, a dummy that fails counted 0: ${decimal(robust.expected, 3)}.`,
        ]),
    ...closedOnWords(cuts),
    ...(asDrawn === null ? [] : [`  Cut exactly as drawn it fails, too: ${asDrawn}.`]),
    ...section(
      'What fails first',
      failures.slice(0, MOST).map(({ failure, count }) => [share(count, works.of), failure, '']),
    ),
    ...section('Take care over (made exact, so many of the failed dummies would have worked)', [
      ...parts
        .filter(({ cured }) => cured.count > 0)
        .slice(0, MOST)
        .map(({ part, cured }) => [`${part}, all of it`, shareInWords(cured), '']),
      ...causes.causes.filter(({ cured }) => cured !== null && cured.count > 0).map(causeRow),
    ]),
    ...section(
      'How exact (the error of one cut, all others exact)',
      tightestCuts(cuts, rooms, hand).map(([cut, off, beyond]) => [cut, `up to ${off}`, `beyond: ${beyond}`]),
    ),
    ...section(
      'Safe ranges (each dim by itself, the others as they are)',
      asDrawn === null || free.length === 0
        ? free.map((dim, i) => [dim.name, ...safeWords(dim, safe[i], vector[i])])
        : [[`None, since the figure itself fails: ${asDrawn}`, '', '']],
    ),
    ...section('Nudges (what one unit more changes)', nudgeRows(free, nudges, scores, limits)),
  ];
}

/** Which tabs the page is shut on: theirs is half the error. */
function closedOnWords(cuts: readonly Cut[]): string[] {
  const parts = [...new Set(cuts.filter(({ closedOn }) => closedOn).map(({ part }) => part))];
  return parts.length === 0
    ? []
    : [
        `  Glued by shutting the page on the last tab of ${parts.join(', ')}; by measure they would err more.`,
      ];
}

/** @example 'errors of 0.3 mm and 0.3° by standard deviation' */
export function handInWords({ mm, degrees }: Hand): string {
  return `errors of ${mm} mm and ${degrees}° by standard deviation`;
}

/** A share with its interval. @example '62 % (53 to 70 %)' */
export function shareInWords({ count, of, low, high }: Share): string {
  return `${share(count, of)} (${percent(low)} to ${percent(high)} %)`;
}

const percent = (part: number): string => decimal(100 * part, 100 * part < 10 ? 1 : 0);

function causeRow({ name, cured }: FailureCause): string[] {
  return [name, cured === null ? '' : shareInWords(cured), ''];
}

/** The cuts that may be off by least, beside the hand's own error: which, by how much, and what fails beyond. */
export function tightestCuts(
  cuts: readonly Cut[],
  rooms: CandidateInsight['rooms'],
  hand: Hand,
): [cut: string, off: string, beyond: string][] {
  return cuts
    .map((cut, k) => ({ ...cut, room: rooms[k].range, least: leastError(rooms[k]) }))
    .sort((a, b) => a.least / hand[a.unit] - b.least / hand[b.unit])
    .slice(0, MOST)
    .flatMap(({ part, field, unit, room, least }) => {
      if (room === null || !Number.isFinite(least)) return [];
      const failure = -room.low.value === least ? room.low.failure : room.high.failure;
      return [[`${part}: ${field}`, withUnit(least, unit), failure ?? '']];
    });
}

/** How far a dim may go, and what fails beyond. */
export function safeWords(
  { unit, kind }: FreeDim,
  { range, reason }: CandidateInsight['safe'][number],
  value: number,
): string[] {
  if (range === null) return [reason ?? '', ''];
  const end = (side: SafeEnd) => withUnit(side.value, unit);
  const beyond = (word: string, { failure }: SafeEnd) => `${word}: ${failure ?? 'the range ends'}`;
  return [
    `${end(range.low)} to ${end(range.high)}${kind === 'real' ? `, now ${withUnit(value, unit)}` : ''}`,
    `${beyond('below', range.low)}; ${beyond('above', range.high)}`,
  ];
}

/** A change with its sign and unit; what is rounded to nothing has none. @example '+0.42 mm' */
export function signed(change: number, unit: string): string {
  const text = unit === '' ? decimal(change, 3) : withUnit(change, unit);
  return change > 0 && /[1-9]/.test(text) ? `+${text}` : text;
}

/** Where the score has a corner: what it does on each side. */
function cornerWords({ verdict, sides }: CheckedNudge, unit: string): string {
  if (verdict !== 'corner' || sides.below === null || sides.above === null) return '';
  return ` (corner: ${signed(sides.below, unit)} below, ${signed(sides.above, unit)} above)`;
}

/** How far a score is from its limit; 0 for what is no limit, or has none. */
function roomTo(limits: readonly LimitScore[], name: string): number {
  const limit = limits.find((each) => each.name === name);
  if (limit === undefined || limit.value === null) return 0;
  return Math.abs(limit.value - (limit.most ?? limit.least ?? limit.value));
}

/** Desirability and wants; of limits only those that a nudge moves, and that some nudges would reach. */
function nudgeRows(
  free: readonly FreeDim[],
  nudges: CandidateInsight['nudges'],
  scores: readonly Pick<Named, 'name' | 'unit'>[],
  limits: readonly LimitScore[],
): string[][] {
  const most = scores.map((_, score) =>
    Math.max(...nudges.map((byScore) => Math.abs(byScore[score].change ?? 0))),
  );
  return free.flatMap((dim, i) => {
    const told = scores.flatMap(({ name, unit }, score) => {
      // Yes or no has no slope: where it turns is told by the safe ranges.
      if (score === WORKS_PLACE) return [];
      const { change, from } = nudges[i][score];
      if (change === null || Math.abs(change) < FAINT * most[score]) return [];
      // What reads as 0 is no change, whatever it is.
      if (!/[1-9]/.test(signed(change, unit))) return [];
      if (roomTo(limits, name) > OUT_OF_REACH * Math.abs(change)) return [];
      const side = from === 'both sides' ? '' : ` (${from} alone)`;
      return [`${name} ${signed(change, unit)}${side}${cornerWords(nudges[i][score], unit)}`];
    });
    const step = dim.unit === 'degrees' ? '+1°' : dim.unit === '' ? '+1' : `+1 ${dim.unit}`;
    if (dim.kind === 'choice') return [];
    return [[`${step} of ${dim.name}`, told.join(', ') || 'next to nothing', '']];
  });
}
