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
function where(card: Scorecard): string[][] {
  return [
    ...catchRows(card),
    ...bindRows(card),
    ...slotRows(card),
    ...lockRows(card),
    ...glueRows(card),
    ...narrowRows(card),
    ...outsideRows(card),
  ];
}

const at = (pageAngle: number): string => `at page angle ${withUnit(pageAngle, 'degrees')}`;
const spot = ([x, y]: readonly [number, number]): string => `(${decimal(x, 1)}, ${decimal(y, 1)}) mm`;

function catchRows({ clash }: Scorecard): string[][] {
  const { deepest, between, pageAngle, firstPageAngle, points } = clash;
  if (deepest === null || deepest <= 0 || between === null || pageAngle === null) return [];
  const start =
    firstPageAngle === null ? '' : `; closing, it starts at ${withUnit(firstPageAngle, 'degrees')}`;
  return [
    ['catch', between.join(' and '), `${withUnit(deepest, 'mm')} deep ${at(pageAngle)}${start}`],
    ...(points ?? []).map((point, i) => ['', between[i] ?? '', `at ${spot(point)}`]),
  ];
}

/** What joints miss each other by, and what chains of links are forced by it. */
function bindRows({ bind, chains }: Scorecard): string[][] {
  const rows: string[][] = [];
  if (bind.at !== null && bind.pageAngle !== null && bind.misfit !== null && bind.misfit >= UNSEEN)
    rows.push(['misfit', meetingInWords(bind.at), `${withUnit(bind.misfit, 'mm')} ${at(bind.pageAngle)}`]);
  if (chains === null) return rows;
  for (const [name, { value, at: where, pageAngle }, unit] of [
    ['pull', chains.pull, 'N'],
    ['bend', chains.bend, 'mm'],
    ['bow', chains.bow, 'mm'],
    ['lift', chains.lift, 'mm'],
  ] as const)
    if (where !== null && pageAngle !== null && value >= UNSEEN)
      rows.push([
        name,
        where.panels.length > 0 ? where.panels.join(' and ') : meetingInWords(where),
        `${withUnit(value, unit)} ${at(pageAngle)}`,
      ]);
  return rows;
}

const slotRows = ({ slots }: Scorecard): string[][] =>
  slots.flatMap(({ passing, panel, room, pageAngle }) => {
    if (room === null || pageAngle === null) return [];
    const left = room < 0 ? `${withUnit(-room, 'mm')} past its edge` : `${withUnit(room, 'mm')} of room`;
    return [['slot', `${passing} in ${panel}`, `${left} ${at(pageAngle)}`]];
  });

const lockRows = ({ locks }: Scorecard): string[][] =>
  locks === null ? [] : [['lock', locks.part, `${meetingInWords(locks.at)}, ${at(locks.pageAngle)}`]];

function glueRows({ glue, limits }: Scorecard): string[][] {
  const most = limits.find(({ name }) => name === 'stray glue')?.most ?? 0;
  const faulty = glue.filter(({ area }) => area > most);
  const more = faulty.length - MOST_GLUE;
  return [
    ...faulty
      .slice(0, MOST_GLUE)
      .map((fault) => [
        'stray glue',
        fault.glued,
        `${glueFaultInWords(fault)}: ${withUnit(fault.area, 'mm²')}`,
      ]),
    ...(more > 0 ? [['', '', `and ${counted(more, 'fault')} of glue more`]] : []),
  ];
}

const narrowRows = ({ limits }: Scorecard): string[][] =>
  limits.flatMap(({ finding }) => {
    if (finding?.kind !== 'is too narrow' || finding.place === null || !('points' in finding.place))
      return [];
    const [point] = finding.place.points;
    return [
      ['narrow', finding.panels.join(' and '), `${withUnit(finding.value, 'mm')} of card at ${spot(point)}`],
    ];
  });

const outsideRows = ({ book: { part, pageAngle, out } }: Scorecard): string[][] =>
  part === null || pageAngle === null || out === null || out <= 0
    ? []
    : [['out', part, `${withUnit(out, 'mm')} outside the pages ${at(pageAngle)}`]];
