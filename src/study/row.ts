import { GRADES, type Grade } from '../card/grade.js';
import { force } from '../limits/force.js';
import type { Scorecard } from '../score/scorecard.js';

/**
 * A scorecard as numbers and words in fixed places: what workers send back and the log keeps. `Layout` knows the
 * places. NaN stands for what was not computed, inside the program only; a person is shown nothing, and the reason.
 */
export interface Row {
  outcome: Outcome;
  numbers: Float64Array;
  /** 1 where met: for each want, then for each limit. */
  met: Uint8Array;
  words: string[];
}

/** Not built: the dims ask for what can't be card. Not scored: the scoring itself failed, so nothing is known. */
export type Outcome = (typeof OUTCOMES)[number];
export const OUTCOMES = ['works', 'fails', 'not built', 'not scored'] as const;

/** Numbers before those of the wants. */
const VIOLATION = 0;
const DESIRABILITY = 1;
const WANTS = 2;

/** Details beside what the figure file asks for, as their headers read in a table; the units are in brackets. */
const DETAILS = [
  'catch push (mm)',
  'catch at (degrees)',
  'catch starts at (degrees)',
  'press (mm)',
  'misfit at (degrees)',
  'lift (mm)',
  'least slot room (mm)',
];
/** Last of the numbers, as a place in GRADES: rows of before it was kept end before it. */
const GRADE = 'grade';
const WORDS = ['catch between', 'misfit where', 'lock where', 'reason'];
const REASON = WORDS.length - 1;

/** The names and units that rows of one figure share, and where in a row each number stands. */
export class Layout {
  readonly wants: readonly Named[];
  readonly limits: readonly Named[];
  /** How many numbers a row has. */
  readonly numbers: number;
  /** Headers of the numbers and words of a row, in the order of `cells`. */
  readonly headers: readonly string[];

  /** @param card of any candidate of the figure, built or not: which wants and limits there are doesn't change */
  constructor(card: { readonly wants: readonly Named[]; readonly limits: readonly Omit<Named, 'weight'>[] }) {
    this.wants = card.wants.map(({ name, unit, weight }) => ({ name, unit, weight }));
    this.limits = card.limits.map(({ name, unit }) => ({ name, unit, weight: 0 }));
    this.numbers = WANTS + 2 * this.wants.length + this.limits.length + DETAILS.length + 1;
    this.headers = [
      'desirability',
      'violation',
      GRADE,
      ...[...this.wants, ...this.limits].map(headed),
      ...DETAILS,
      ...WORDS.slice(0, REASON),
      'not met',
      WORDS[REASON],
    ];
  }

  /**
   * Puts a scorecard into a row. Its numbers are rounded to what the kernel can vouch for and more, which spares tables
   * the likes of 4.199999999999999.
   * @param words what tables say of it, as `rowWords` of the report makes them; none where nobody reads them
   * @throws Error for a scorecard of other wants or limits
   */
  rowOf(card: Scorecard, words: readonly string[] = WORDS.map(() => '')): Row {
    const { wants, limits, clash, bind, chains } = card;
    this.#check(card);
    const built = card.cannotBuild === null;
    const rooms = card.slots.map(({ room }) => room).filter((room) => room !== null);
    const numbers = [
      card.violation,
      card.desirability,
      ...wants.map((want) => want.value),
      ...wants.map((want) => want.desirability),
      ...limits.map((limit) => limit.value),
      clash.push,
      clash.pageAngle,
      clash.firstPageAngle,
      clash.press,
      bind.pageAngle,
      chains?.lift.value ?? null,
      rooms.length > 0 ? Math.min(...rooms) : null,
      card.force && GRADES.indexOf(card.force.grade),
    ];
    return {
      outcome: !built ? 'not built' : card.works ? 'works' : 'fails',
      numbers: Float64Array.from(numbers, (number) => (number === null ? Number.NaN : rounded(number))),
      met: Uint8Array.from([...wants, ...limits], ({ met }) => (met ? 1 : 0)),
      words: [...words],
    };
  }

  #check({ wants, limits }: Scorecard): void {
    const same = (cards: readonly { name: string }[], mine: readonly Named[]) =>
      cards.length === mine.length && cards.every(({ name }, i) => name === mine[i].name);
    if (same(wants, this.wants) && same(limits, this.limits)) return;
    throw new Error(`a scorecard of ${limits.map(({ name }) => name).join(', ')} fits no row of this figure`);
  }

  /** The row of a candidate that could not be scored. */
  failed(reason: string): Row {
    const words = WORDS.map(() => '');
    words[REASON] = reason;
    return {
      outcome: 'not scored',
      numbers: new Float64Array(this.numbers).fill(Number.NaN),
      met: new Uint8Array(this.wants.length + this.limits.length),
      words,
    };
  }

  /** NaN where it was not built, not scored, or scored in short (see `Scorer.scoreInShort`). */
  violation(numbers: Float64Array): number {
    return numbers[VIOLATION];
  }

  /** The places in `met` of what a row that fails is known not to meet: not of limits that were not looked at. */
  missed({ outcome, numbers, met }: Pick<Row, 'outcome' | 'numbers' | 'met'>): number[] {
    if (outcome !== 'fails') return [];
    const inShort = Number.isNaN(this.violation(numbers));
    const wants = this.wants.length;
    return Array.from(met.keys()).filter(
      (i) => met[i] === 0 && !(inShort && i >= wants && Number.isNaN(this.limitValue(numbers, i - wants))),
    );
  }

  desirability(numbers: Float64Array): number {
    return numbers[DESIRABILITY];
  }

  wantValue(numbers: Float64Array, want: number): number {
    return numbers[WANTS + want];
  }

  wantDesirability(numbers: Float64Array, want: number): number {
    return numbers[WANTS + this.wants.length + want];
  }

  limitValue(numbers: Float64Array, limit: number): number {
    return numbers[WANTS + 2 * this.wants.length + limit];
  }

  /** How hard the page is to turn; null where it does not move, or was scored before that was kept. */
  grade(numbers: Float64Array): Grade | null {
    return GRADES[numbers[this.numbers - 1]] ?? null;
  }

  /** Hardest push at the page's edge, N; NaN where it is not known. */
  force(numbers: Float64Array): number {
    const place = this.limits.findIndex(({ name }) => name === force.name);
    return place < 0 ? Number.NaN : this.limitValue(numbers, place);
  }

  /** Numbers of a row that may be from before the grade was kept: as many as today. */
  filled(numbers: Float64Array): Float64Array {
    return numbers.length === this.numbers - 1 ? Float64Array.of(...numbers, Number.NaN) : numbers;
  }

  /** The numbers and words of a row, as a table holds them. */
  cells({ outcome, numbers: kept, met, words }: Row): (number | string)[] {
    const numbers = this.filled(kept);
    const named = [...this.wants, ...this.limits];
    // What could not be built or scored has met nothing, but breaks no limit in particular.
    const notMet = this.missed({ outcome, numbers, met }).map((place) => named[place]);
    return [
      numbers[DESIRABILITY],
      numbers[VIOLATION],
      this.grade(numbers) ?? '',
      ...numbers.subarray(WANTS, WANTS + this.wants.length),
      ...numbers.subarray(WANTS + 2 * this.wants.length, this.numbers - 1),
      ...words.slice(0, REASON),
      notMet.map(({ name }) => name).join('; '),
      words[REASON],
    ];
  }
}

/** To a billionth; −0 becomes 0, since text doesn't tell them apart. */
function rounded(value: number): number {
  return Math.round(value * 1e9) / 1e9 + 0;
}

/** A want or a limit; only wants have a weight. */
export interface Named {
  name: string;
  unit: string;
  weight: number;
}

/** A name with its unit, as in the header of a table; what has no unit goes without. */
export function headed({ name, unit }: { name: string; unit: string }): string {
  return unit === '' ? name : `${name} (${unit})`;
}
