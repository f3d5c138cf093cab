import type { Goal } from '../../figure/wants.js';
import { HAND } from '../../insight/hand/figure-tolerance.js';
import type { ForceScore } from '../../score/force/force.js';
import type { Scorecard } from '../../score/scorecard.js';
import { capital, counted, spoken } from '../../text/phrases.js';
import type { Trouble } from '../../tune/diagnosis.js';
import type { ByHand } from '../../tune/hand-room.js';
import type { NamedTie } from '../../tune/named-ties.js';
import type { ShutRelation } from '../../tune/shut-relations.js';
import type { Stiffener } from '../../tune/stiffeners.js';
import type { Change, Remedy, Tuned } from '../../tune/tune.js';
import { catchesInWords } from './catch-words.js';
import { meetingInWords, reasonOf } from './finding-words.js';
import { handInWords } from './insight-words.js';
import { decimal, withUnit } from './numbers.js';
import { faults, goalInWords } from './scorecard-words.js';

const angle = (degrees: number) => withUnit(degrees, 'degrees');

/** All that was found, for the terminal. `files` are those of the remedies, in their order. */
export function tunedInWords(
  name: string,
  tuned: Tuned,
  goals: readonly Goal[],
  files: readonly string[],
): string[] {
  if (tuned.card.works) return [`${name} works as it is: there is nothing to free.`];
  return [
    `${name} does not work.`,
    '',
    'What is wrong, in the order in which it comes as the page closes',
    ...tuned.troubles.map((trouble, i) => `  ${i + 1}. ${troubleInWords(trouble)}`),
    '',
    ...(tuned.remedies.length > 0
      ? [
          'Remedies, the smallest first',
          ...tuned.remedies.flatMap((remedy, i) => remedyInWords(tuned, remedy, i + 1, files[i])),
        ]
      : noneFound(tuned, goals)),
    ...(tuned.leftOut === 0
      ? []
      : ['', `Not looked at: ${counted(tuned.leftOut, 'number')} more, the last points of outlines first.`]),
    ...(tuned.ties.length === 0
      ? []
      : ['', 'Taken as tied', ...tiesInWords(tuned.ties).map((line) => `  ${line}`)]),
  ];
}

/** One thing that is wrong, in a sentence or two. */
export function troubleInWords(trouble: Trouble): string {
  switch (trouble.kind) {
    case 'no card':
      return `It cannot be built: ${trouble.reason}.`;
    case 'stops':
      return `It stops at ${angle(trouble.pageAngle)}: '${trouble.part}' locks there, as ${meetingInWords(trouble.at)} do not meet any more.`;
    case 'does not fit':
      return doesNotFit(trouble.relation);
    case 'catches': {
      const [a, b] = trouble.between;
      return `'${a}' catches on '${b}', ${withUnit(trouble.depth, 'mm')} deep at ${angle(trouble.worstAt)}; closing, the first catch is at ${angle(trouble.startsAt)}.`;
    }
    case 'binds':
      return `It binds from ${angle(trouble.startsAt)} on: ${meetingInWords(trouble.at)} do not meet, by ${withUnit(trouble.misfit, 'mm')} at ${angle(trouble.worstAt)}.`;
    case 'pokes out':
      return `'${trouble.part}' goes through a page, by ${withUnit(trouble.out, 'mm')} at ${angle(trouble.worstAt)}.`;
    case 'limit': {
      const { name, value, unit } = trouble.limit;
      const reason = reasonOf(trouble.limit);
      const amount = value === null ? 'not computed' : withUnit(value, unit);
      const bound = ` where ${goalInWords(trouble.limit)} ${trouble.limit.least === undefined ? 'may' : 'must'} be`;
      return `${capital(name)}: ${amount}${bound}${reason === '' ? '' : `; ${reason}`}.`;
    }
    case 'misses': {
      const { name, value, unit } = trouble.want;
      const reason = reasonOf(trouble.want);
      const amount =
        value === null
          ? `could not be measured${reason === '' ? '' : ` (${reason})`}`
          : withUnit(value, unit);
      return `It does not do what is wanted: ${name}, ${amount}; wanted is ${goalInWords(trouble.goal)}.`;
    }
  }
}

/** Why a fold cannot shut, by its own numbers. */
function doesNotFit({ part, unit, points, sides, feet, open }: ShutRelation): string {
  const [panels, lines] = unit === 'mm' ? ['sides', 'feet'] : ['panels', 'glue lines'];
  const pair = ([a, b]: readonly [number, number]) => `${withUnit(a, unit)} and ${withUnit(b, unit)}`;
  if (open < 0)
    return `'${part}' is too short: its ${panels} (${pair(sides)}) do not reach across its ${lines} (${pair(feet)}) when it is open.`;
  const sum = (i: 0 | 1) => withUnit(points === 'in' ? feet[i] + sides[i] : feet[i] - sides[i], unit);
  const sign = points === 'in' ? 'and' : 'less';
  const [foot, side] = unit === 'mm' ? ['foot', 'side'] : ['glue line', 'panel'];
  return `'${part}' does not fit: ${foot} ${sign} ${side} come to ${sum(0)} on its left and ${sum(1)} on its right (${lines} ${pair(feet)}, ${panels} ${pair(sides)}); to shut, it must be the same.`;
}

/** A remedy in a few words: dims changed, card cut away, card glued on. */
export function remedyInShort({
  changes,
  cuts,
  stiffener,
}: Pick<Remedy, 'changes' | 'cuts' | 'stiffener'>): string {
  const cut = cuts.map(
    ({ panel, area, share, strokes }) =>
      `cut ${decimal(area, 1)} mm² (${perCent(share)} of it) off '${panel}' (${counted(strokes, 'stroke')} of the knife)`,
  );
  const glued = stiffener === null ? [] : [stiffenerInWords(stiffener)];
  return [...(changes.length > 0 ? [changesInWords(changes)] : []), ...cut, ...glued].join(', ');
}

/** @example "stiffen 'oar': glue 32 × 6 mm of card on its back, its corner at (8, −3)" */
function stiffenerInWords({ on, at: [x, y], size: [long, wide], face }: Stiffener): string {
  return `stiffen '${on}': glue ${plain(long)} × ${plain(wide)} mm of card on its ${face}, its corner at (${plain(x)}, ${plain(y)})`;
}

/** More numbers of one outline than these are told as one: those of an edge stand there. */
const MOST_OF_AN_OUTLINE = 4;

/** Changes in a few words. @example 'sail.ridge 97 → 86.5 mm', 'sleeve.outline, 8 numbers by at most 3.5 mm' */
function changesInWords(changes: readonly Change[]): string {
  const outlines = new Map<string, Change[]>();
  for (const change of changes) {
    const { place, name } = change.setting;
    const isCorner = place.slice(-2).every((step) => typeof step === 'number');
    const key = isCorner ? name.split('.').slice(0, -2).join('.') : name;
    outlines.set(key, [...(outlines.get(key) ?? []), change]);
  }
  return spoken(
    [...outlines].flatMap(([outline, of]) => {
      if (of.length <= MOST_OF_AN_OUTLINE) return of.map(changeInWords);
      const farthest = Math.max(...of.map(({ from, to }) => Math.abs(Number(to) - Number(from))));
      return `${outline}, ${of.length} numbers by at most ${withUnit(farthest, 'mm')}`;
    }),
  );
}

function changeInWords({ setting, from, to }: Change): string {
  const unit = setting.unit === 'degrees' ? '°' : setting.unit === '' ? '' : ` ${setting.unit}`;
  return `${setting.name} ${plain(from)} → ${plain(to)}${unit}`;
}

/** What has come nearest while it is looked for. @example 'nearest so far: sail.ridge 97 → 86.5 mm; 40 % of what is wrong is gone' */
export function nearerInWords(changes: readonly Change[], gone: number): string {
  const left = gone >= 1 ? 'it works' : `${perCent(100 * gone)} of what is wrong is gone`;
  return `nearest so far: ${changesInWords(changes)}; ${left}`;
}

function remedyInWords(tuned: Tuned, remedy: Remedy, number: number, file: string | undefined): string[] {
  return [
    `  ${number}. ${remedyInShort(remedy)}`,
    ...costsInWords(remedy).map((line) => `     ${line}`),
    ...remedy.ties.map((tie) => `     ${tieInWords(tie)}`),
    `     ${motionInWords(tuned, remedy)}`,
    ...handInRemedy(remedy).map((line) => `     ${line}`),
    ...(file === undefined ? [] : [`     ${file}`]),
  ];
}

/** What a remedy costs, in a sentence that stands before all else of it; none where it costs nothing. */
export function costsInWords({
  wantLosses,
  cardLosses,
}: Pick<Remedy, 'wantLosses' | 'cardLosses'>): string[] {
  const [largest] = cardLosses;
  const more = cardLosses.length > 1 ? ` and ${counted(cardLosses.length - 1, 'more panel')} smaller` : '';
  const costs = [
    ...wantLosses.map(
      ({ name, unit, before, after }) =>
        `${name} ${withUnit(before, unit)} → ${after === null ? 'not computed' : withUnit(after, unit)}`,
    ),
    ...(largest === undefined
      ? []
      : [
          `'${largest.panel}' loses ${decimal(largest.area, 0)} mm² (${perCent(largest.share)} of it)${more}`,
        ]),
  ];
  return costs.length === 0 ? [] : [`It costs: ${costs.join('; ')}.`];
}

const perCent = (percent: number): string => `${decimal(percent, percent < 10 ? 1 : 0)} %`;

/** What a remedy costs, or brings, in motion; and how hard the page is to turn with it. */
export function motionInWords({ card }: Pick<Tuned, 'card'>, remedy: Remedy): string {
  return `${wantsInWords(card, remedy)}${turnInWords(remedy.card.force)}`;
}

/** The last line of the remarks before the figure in the file of a remedy. */
export const END_OF_REMARKS = '#';

/** What comes of a remedy cut by hand; none where that was not tried. */
export function handInRemedy({ byHand, least }: Pick<Remedy, 'byHand' | 'least'>): string[] {
  if (byHand === null) return [];
  const shares = ({ works }: ByHand) => `${works.count} of ${works.of} dummies`;
  const all = `Cut by hand (${handInWords(HAND)}), ${shares(byHand)} work.`;
  if (least === null) return [all];
  return [
    `${all} As drawn ${changesInWords(least.changes)} would do, but then ${shares(least.byHand)} work.`,
  ];
}

/** @example ' Page: stiff, 7.2 N.' */
function turnInWords(force: ForceScore | null): string {
  if (force === null) return '';
  return ` Page: ${force.grade}, ${withUnit(Math.max(force.toShut.value, force.toOpen.value), 'N')}.`;
}

function wantsInWords(card: Scorecard, remedy: Remedy): string {
  const wants = remedy.card.wants.map(({ name, value, unit }, i) => {
    const before = card.wants[i].value;
    const now = value === null ? 'not computed' : withUnit(value, unit);
    if (before === null) return `${name} ${now}, not known before`;
    const by = value === null ? 0 : value - before;
    const change = Math.abs(by) < 0.05 ? 'as before' : `${by > 0 ? '+' : '−'}${withUnit(Math.abs(by), unit)}`;
    return `${name} ${now} (${change})`;
  });
  return wants.length === 0
    ? 'The figure wants nothing: no motion to lose.'
    : `In motion: ${wants.join('; ')}.`;
}

function noneFound({ nearest, tried, finished }: Tuned, goals: readonly Goal[]): string[] {
  const changed =
    nearest.changes.length === 0 ? 'leaving it as it is' : `with ${changesInWords(nearest.changes)}`;
  return [
    `No remedy was found in ${counted(tried, 'trial')}${finished ? '' : ', which were not all that there is to try'}.`,
    `The nearest is ${changed}. What still stands in the way:`,
    ...faults(nearest.card, goals).map((fault) => `  · ${fault}`),
    ...catchesInWords(nearest.catches),
  ];
}

/** All that was taken as tied: what is equal in one sentence, then a sentence for each part that must shut. */
export function tiesInWords(ties: readonly NamedTie[]): string[] {
  const equal = ties.filter(({ because }) => because === 'equal').map(({ names }) => names.join(' = '));
  const shuts = ties.filter(({ because }) => because === 'shuts');
  return [
    ...(equal.length === 0
      ? []
      : [
          `Equal in places that mirror one another, or in twin parts, so probably one dim each (also tried alone): ${equal.join('; ')}.`,
        ]),
    ...shuts.map(tieInWords),
  ];
}

/** Why some settings were moved together. */
export function tieInWords({ because, names, part }: NamedTie): string {
  switch (because) {
    case 'equal':
      return `${spoken(names)} are equal, in places that mirror one another: taken as one dim.`;
    case 'shuts':
      return `${spoken(names)} move together only, or '${part}' would not shut.`;
    case 'edge':
      return `${spoken(names)} move together: an edge that stays as straight as it was.`;
    case 'moved':
      return 'The slot is moved as a whole.';
    case 'larger':
      return 'The slot is made larger about its middle.';
  }
}

/** A value without noughts at its end. */
const plain = (value: number | string): string =>
  typeof value === 'string' ? value : decimal(value, 3).replace(/\.?0+$/, '');
