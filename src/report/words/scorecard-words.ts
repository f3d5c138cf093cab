import type { Goal } from '../../figure/wants.js';
import type { LimitScore } from '../../limits/judge.js';
import { roomWorth } from '../../score/desirability.js';
import type { Scorecard, WantScore } from '../../score/scorecard.js';
import { counted } from '../../text/phrases.js';
import { glueFaultInWords, meetingInWords, reasonOf } from './finding-words.js';
import { forceRows, stiffInWords } from './force-words.js';
import { decimal, withUnit } from './numbers.js';
import { section } from './section.js';

/** Says in one sentence how a candidate came out. */
export function verdict(name: string, card: Scorecard): string {
  if (card.cannotBuild !== null) return `${name} cannot be built: ${card.cannotBuild}.`;
  if (card.works) return `${name} works: it breaks no limit and meets every want.${stiffInWords(card.force)}`;
  const broken = card.limits.filter(isBroken).length;
  const missed = card.wants.filter(({ met }) => !met).length;
  const faults = [
    broken > 0 ? `breaks ${counted(broken, 'limit')}` : '',
    missed > 0 ? `misses ${counted(missed, 'want')}` : '',
  ].filter((fault) => fault !== '');
  return `${name} does not work: it ${faults.join(' and ') || 'locks'}.`;
}

/** What is wrong with a candidate, a line for each fault; empty when it works. */
export function faults(card: Scorecard, goals: readonly Goal[]): string[] {
  if (card.cannotBuild !== null) return [`cannot be built: ${card.cannotBuild}`];
  return [
    ...card.limits.filter(isBroken).map((limit) => `${limit.name}: ${limitInWords(limit)}`),
    ...card.wants.filter(({ met }) => !met).map((want) => `${want.name}: ${wantInWords(want, goals)}`),
  ];
}

/** A whole scorecard in words, line by line. */
export function scorecardInWords(name: string, card: Scorecard, goals: readonly Goal[]): string[] {
  const lines = [verdict(name, card)];
  if (card.cannotBuild !== null) return lines;
  if (card.desirability !== null)
    lines.push(`Desirability ${decimal(card.desirability, 3)}, of at most 1${nothingWorth(card)}.`);
  lines.push(
    ...section(
      'Wants',
      card.wants.map((want) => [want.met ? 'met' : 'NOT MET', want.name, wantInWords(want, goals)]),
    ),
    ...section(
      'Limits',
      card.limits.map((limit) => [holds(limit), limit.name, limitInWords(limit)]),
    ),
    ...(card.force === null ? [] : section('Force', forceRows(card.force))),
    ...section('Where', where(card)),
  );
  return lines;
}

/** Why a desirability is 0: a want or the room left to a limit is worth nothing. @example ": 'glue' is worth nothing" */
function nothingWorth({ desirability, wants, limits }: Scorecard): string {
  if (desirability !== 0) return '';
  const names = [
    ...wants.filter((want) => want.desirability === 0),
    ...limits.filter((limit) => roomWorth(limit) === 0),
  ].map(({ name }) => `'${name}'`);
  return names.length === 0 ? '' : `: ${names.join(', ')} ${names.length === 1 ? 'is' : 'are'} worth nothing`;
}

/** What could not be looked at, since it locks before, is not known to be broken. */
const isBroken = ({ met, value }: LimitScore): boolean => !met && value !== null;
const holds = (limit: LimitScore): string => (limit.met ? 'holds' : isBroken(limit) ? 'BROKEN' : 'not known');

function wantInWords(want: WantScore, goals: readonly Goal[]): string {
  const { name, value, unit } = want;
  const goal = goals.find((each) => each.name === name);
  const wanted = goal === undefined ? '' : `, wanted: ${goalInWords(goal)}`;
  return `${value === null ? 'not computed' : withUnit(value, unit)}${wanted}${after(want)}`;
}

type Bounds = Pick<Goal, 'least' | 'most' | 'target' | 'tolerance'> & { readonly unit: string };

/** What a want or a limit asks for. @example 'at least 15.0°' */
export function goalInWords({ least, most, target, tolerance, unit }: Bounds): string {
  if (target !== undefined)
    return `${withUnit(target, unit)}, give or take ${withUnit(tolerance ?? 0, unit)}`;
  if (least !== undefined && most !== undefined) return `${withUnit(least, unit)} to ${withUnit(most, unit)}`;
  return least !== undefined ? `at least ${withUnit(least, unit)}` : `at most ${withUnit(most ?? 0, unit)}`;
}

function limitInWords(limit: LimitScore): string {
  const { name, value, unit, met } = limit;
  if (value === null) return `not computed${after(limit)}`;
  // The one limit that is no measure: it shuts, or locks at a page angle.
  if (name === 'shuts')
    return met ? 'all the way' : `not further than ${withUnit(value, unit)}${after(limit)}`;
  return `${withUnit(value, unit)}, ${goalInWords(limit)}${after(limit)}`;
}

function after(score: WantScore | LimitScore): string {
  const reason = reasonOf(score);
  return reason === '' ? '' : `: ${reason}`;
}

/** Glue faults that are told one by one; as many more are only counted. */
const MOST_GLUE = 8;

/** Less than this would read as 0.00 mm. */
const UNSEEN = 0.005;

/** The places that a maker would look at: catch, bind, lock, glue that breaks its limit, and what leaves the book. */
function where({ clash, bind, chains, slots, locks, glue, limits, book }: Scorecard): string[][] {
  const rows: string[][] = [];
  if (clash.deepest !== null && clash.deepest > 0 && clash.between !== null && clash.pageAngle !== null) {
    const start =
      clash.firstPageAngle === null
        ? ''
        : `; closing, it starts at ${withUnit(clash.firstPageAngle, 'degrees')}`;
    const depth = `${withUnit(clash.deepest, 'mm')} deep`;
    const angle = withUnit(clash.pageAngle, 'degrees');
    rows.push(['catch', clash.between.join(' and '), `${depth} at page angle ${angle}${start}`]);
    clash.points?.forEach(([x, y], i) => {
      const spot = `(${decimal(x, 1)}, ${decimal(y, 1)}) mm`;
      rows.push(['', clash.between?.[i] ?? '', `at ${spot}`]);
    });
  }
  if (bind.at !== null && bind.pageAngle !== null && bind.misfit !== null && bind.misfit >= UNSEEN) {
    const angle = withUnit(bind.pageAngle, 'degrees');
    rows.push(['misfit', meetingInWords(bind.at), `${withUnit(bind.misfit, 'mm')} at page angle ${angle}`]);
  }
  if (chains !== null)
    for (const [name, { value, at, pageAngle }, unit] of [
      ['pull', chains.pull, 'N'],
      ['bend', chains.bend, 'mm'],
      ['bow', chains.bow, 'mm'],
      ['lift', chains.lift, 'mm'],
    ] as const)
      if (at !== null && pageAngle !== null && value >= UNSEEN)
        rows.push([
          name,
          at.panels.length > 0 ? at.panels.join(' and ') : meetingInWords(at),
          `${withUnit(value, unit)} at page angle ${withUnit(pageAngle, 'degrees')}`,
        ]);
  for (const { passing, panel, room, pageAngle } of slots) {
    if (room === null || pageAngle === null) continue;
    const left = room < 0 ? `${withUnit(-room, 'mm')} past its edge` : `${withUnit(room, 'mm')} of room`;
    rows.push(['slot', `${passing} in ${panel}`, `${left} at page angle ${withUnit(pageAngle, 'degrees')}`]);
  }
  if (locks !== null) {
    rows.push([
      'lock',
      locks.part,
      `${meetingInWords(locks.at)}, at page angle ${withUnit(locks.pageAngle, 'degrees')}`,
    ]);
  }
  const most = limits.find(({ name }) => name === 'stray glue')?.most ?? 0;
  const faulty = glue.filter(({ area }) => area > most);
  for (const fault of faulty.slice(0, MOST_GLUE))
    rows.push(['stray glue', fault.glued, `${glueFaultInWords(fault)}: ${withUnit(fault.area, 'mm²')}`]);
  if (faulty.length > MOST_GLUE) rows.push(['', '', `and ${faulty.length - MOST_GLUE} faults of glue more`]);
  for (const { finding } of limits) {
    if (finding?.kind !== 'is too narrow' || finding.place === null || !('points' in finding.place)) continue;
    const [[x, y]] = finding.place.points;
    const card = `${withUnit(finding.value, 'mm')} of card`;
    rows.push(['narrow', finding.panels.join(' and '), `${card} at (${decimal(x, 1)}, ${decimal(y, 1)}) mm`]);
  }
  if (book.part !== null && book.pageAngle !== null && book.out !== null && book.out > 0) {
    const angle = withUnit(book.pageAngle, 'degrees');
    rows.push(['out', book.part, `${withUnit(book.out, 'mm')} outside the pages at page angle ${angle}`]);
  }
  return rows;
}
