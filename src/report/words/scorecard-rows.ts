import type { Want } from '../../figure/wants.js';
import type { LimitScore } from '../../limits/judge.js';
import type { Scorecard, WantScore } from '../../score/scorecard.js';
import { meetingInWords, reasonOf } from './finding-words.js';
import { bowInWords, hardestInWords } from './force-words.js';
import { decimal, withUnit } from './numbers.js';

/** A want or limit as a line of the scorecard reads. */
export interface ScoreRow {
  readonly name: string;
  readonly value: string;
  /** What was asked for. */
  readonly asked: string;
  readonly met: boolean;
  /** Why it is not met or not computed; empty where there is nothing to say. */
  readonly reason: string;
}

export function wantRows(card: Scorecard, wants: readonly Want[]): ScoreRow[] {
  return card.wants.map((score, place) => ({
    name: score.name,
    value: figureOf(score),
    asked: askedOf(wants[place]),
    met: score.met,
    reason: reasonOf(score),
  }));
}

export function limitRows(card: Scorecard): ScoreRow[] {
  return card.limits.map((score) => ({
    name: score.name,
    value: figureOf(score),
    asked: askedOf(score),
    met: score.met,
    reason: reasonOf(score),
  }));
}

const figureOf = ({ value, unit }: WantScore | LimitScore): string =>
  value === null ? 'not computed' : withUnit(value, unit);

type Bounds = Pick<Want, 'least' | 'most' | 'target' | 'tolerance'> & { readonly unit: string };

/** @example askedOf({ least: 10, unit: 'degrees', … }) // 'at least 10°' */
function askedOf({ least, most, target, tolerance, unit }: Bounds): string {
  if (target !== undefined) return `${asWritten(target, unit)} ± ${asWritten(tolerance ?? 0, unit)}`;
  if (least !== undefined && most !== undefined)
    return `${asWritten(least, unit)} to ${asWritten(most, unit)}`;
  return least !== undefined ? `at least ${asWritten(least, unit)}` : `at most ${asWritten(most ?? 0, unit)}`;
}

/** A bound as a maker writes it: without noughts at its end. */
const asWritten = (value: number, unit: string): string =>
  withUnit(value, unit).replace(/\.0+(?=\D|$)|(?<=\.\d*[1-9])0+(?=\D|$)/, '');

/** Limits that a sentence of their own tells of. */
const TOLD = ['catch', 'shuts', 'give', 'outside'];

/** Less than this would read as 0.00 mm. */
const UNSEEN = 0.005;

/** What a maker would look at, in sentences: catch, lock, misfit, what leaves the book; and how hard the page turns. */
export function findings({ clash, locks, bind, book, force, limits, wants }: Scorecard): string[] {
  const said: string[] = [];
  if (clash.deepest !== null && clash.deepest > 0 && clash.between && clash.pageAngle !== null)
    said.push(
      `${clash.between.join(' catches on ')}, ${withUnit(clash.deepest, 'mm')} deep at ${withUnit(clash.pageAngle, 'degrees')}; as the page shuts, the first catch starts at ${withUnit(clash.firstPageAngle ?? clash.pageAngle, 'degrees')}.`,
    );
  if (locks !== null)
    said.push(
      `${locks.part} locks at ${withUnit(locks.pageAngle, 'degrees')}: ${meetingInWords(locks.at)} do not meet beyond it.`,
    );
  if (bind.at !== null && bind.pageAngle !== null && bind.misfit !== null && bind.misfit > UNSEEN)
    said.push(
      `${meetingInWords(bind.at)} miss one another by ${withUnit(bind.misfit, 'mm')} at ${withUnit(bind.pageAngle, 'degrees')}.`,
    );
  if (book.part !== null && book.pageAngle !== null && book.out !== null && book.out > UNSEEN)
    said.push(
      `${book.part} stands ${withUnit(book.out, 'mm')} outside the pages at ${withUnit(book.pageAngle, 'degrees')}.`,
    );
  for (const score of [...wants, ...limits]) {
    const reason = reasonOf(score);
    if (!score.met && reason !== '' && !TOLD.includes(score.name)) said.push(`${score.name}: ${reason}.`);
  }
  if (clash.press !== null && clash.press > UNSEEN)
    said.push(
      `Card presses or rubs on card and is bent aside by up to ${decimal(clash.press, 2)} mm: it gives way, which is no catch.`,
    );
  if (force !== null) said.push(hardestInWords(force), bowInWords(force));
  return said.filter((each) => each !== '');
}
