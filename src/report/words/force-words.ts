import type { ForceScore, Peak } from '../../score/force/force.js';
import { decimal, withUnit } from './numbers.js';

/** Bow that nobody would see, mm. */
const SEEN = 3;
/** Force that nobody feels, N. */
export const FELT = 0.05;

/** How hard the page is to turn, a row for each thing worth knowing: what, of which part, how much. */
export function forceRows(force: ForceScore): string[][] {
  const { grade, toShut, toOpen, atShut, shutTo, clicks, standsOpen, bow, strain, parts } = force;
  const rows = [
    [
      'page',
      grade,
      grade === 'works' ? 'typical card, not measured on yours' : `of typical card: ${why(force)}`,
    ],
  ];
  rows.push(['', 'to shut', pushed(toShut, atShut === null ? '' : `, ${newtons(atShut)} at ${shutTo}°`)]);
  rows.push(['', 'to open flat', pushed(toOpen, '')]);
  for (const click of clicks) rows.push(['', 'clicks over', `at page angle ${withUnit(click, 'degrees')}`]);
  rows.push([
    '',
    'stands open',
    standsOpen === null ? 'not by itself' : `by itself, at about ${decimal(standsOpen, 0)}°`,
  ]);
  for (const each of parts)
    if (Math.max(each.toShut.value, each.toOpen.value) >= FELT)
      rows.push([
        '',
        each.part,
        `${newtons(each.toShut.value)} to shut, ${newtons(each.toOpen.value)} to open`,
      ]);
  if (bow.value > SEEN && bow.pageAngle !== null)
    rows.push([
      '',
      `${bow.part} bows`,
      `${withUnit(bow.value, 'mm')} at page angle ${withUnit(bow.pageAngle, 'degrees')}`,
    ]);
  if (strain.value > 0.001 && strain.pageAngle !== null)
    rows.push([
      '',
      `${strain.part} is strained`,
      `${decimal(strain.value * 100, 2)} % at page angle ${withUnit(strain.pageAngle, 'degrees')}`,
    ]);
  return rows;
}

/** The hardest push each way, and the grade, in two sentences. */
export function hardestInWords({ grade, toShut, toOpen }: ForceScore): string {
  const of = ({ value, pageAngle }: Peak) =>
    pageAngle === null || value < FELT
      ? 'next to nothing'
      : `${newtons(value)} at ${withUnit(pageAngle, 'degrees')}`;
  return `Hardest to shut: ${of(toShut)}; to open: ${of(toOpen)}. Grade: ${grade}.`;
}

/** How far which panel bows, and when; empty where nobody would see it. */
export const bowInWords = ({ bow: { value, pageAngle, part } }: ForceScore): string =>
  pageAngle === null || value < 1
    ? ''
    : `${part} bows by up to ${withUnit(value, 'mm')}, at ${withUnit(pageAngle, 'degrees')}.`;

/** What a page that works all the same is stiff by; empty where it is not. */
export const stiffInWords = (force: ForceScore | null): string =>
  force?.grade === 'stiff' ? ` Its page is stiff: ${why(force)}.` : '';

/** What makes it stiff, or jam. */
function why({ toShut, toOpen, strain, bending }: ForceScore): string {
  const worst = toShut.value >= toOpen.value ? toShut : toOpen;
  return `${newtons(worst.value)} at the page's edge, strained by ${decimal(strain.value * 100, 2)} %, bent by ${decimal(bending.value * 100, 2)} %`;
}

const newtons = (value: number): string => `${decimal(value, 2)} N`;

function pushed({ value, pageAngle, part }: Peak, more: string): string {
  if (pageAngle === null || value < FELT) return `next to nothing${more}`;
  return `${newtons(value)} at its edge, at page angle ${withUnit(pageAngle, 'degrees')}${part === null ? '' : `, most of it for ${part}`}${more}`;
}
