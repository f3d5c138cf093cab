import { type Crossing, newCrossing } from '../../geometry/crossing.js';
import type { Opening } from '../../motion/opening.js';
import type { Rubs } from './rubs.js';

/** One panel running into another: lengths in mm, page angle in degrees, points in each panel's own plane. */
export interface Catch {
  readonly depth: number;
  readonly push: number;
  readonly pageAngle: number;
  readonly between: readonly [number, number];
  readonly points: readonly [readonly [number, number], readonly [number, number]];
}

/** The deepest catch of two panels, and the first page angle, closing, at which they catch, degrees. */
export interface PairCatch extends Catch {
  readonly startsAt: number;
}

export interface ClashResult {
  /** The deepest catch among those that count; null when none does. */
  readonly worst: Catch | null;
  /** First page angle, closing, at which any catch counts. */
  readonly firstPageAngle: number | null;
  /** Greatest push among contacts that do not count, mm. */
  readonly press: number;
}

/** Two panels that were found in contact somewhere, and whether they meet at given poses (then `out` says how). */
export interface Meeters {
  readonly a: number;
  readonly b: number;
  readonly meet: (poses: Float64Array, out: Crossing) => boolean;
  /** Their deepest contact that counts, as far as was looked; while none counts, the one of the greatest push. */
  worst: Catch | null;
  /** The greatest page angle at which a contact of theirs was seen to count; −1 for none. */
  first: number;
}

/** How finely a page angle is narrowed down, degrees. */
const FINE = 0.02;
/** A contact that pushes by this share of what counts may count a little before or after. */
const NEARLY = 0.7;

/**
 * Whether two panels that cross so catch: they push by more than what only presses, and by more than card bends aside.
 * Nearer to shut than the book is to be shut, nothing is told of card that bends.
 */
export function counts(
  found: Readonly<Crossing>,
  pageAngle: number,
  pressing: number,
  rubs: Rubs | null,
  a: number,
  b: number,
): boolean {
  if (found.push <= pressing) return false;
  return rubs === null || (pageAngle >= rubs.shut && found.push > rubs.allowed(a, b, found));
}

/** The contacts of one opening: keeps the worst of each two panels and the first of all, and narrows both down. */
export class Contacts {
  #opening!: Opening;
  #pressing = 0;
  #press = 0;
  #rubs: Rubs | null = null;
  /** The greatest page angle at which a contact was seen to count, −1 for none. */
  first = -1;
  readonly #all: Meeters[] = [];
  readonly #found = newCrossing();

  /** @param pressing push up to which a contact only presses, mm @param rubs what card bends aside; null for rigid card */
  start(opening: Opening, pressing: number, rubs: Rubs | null): void {
    this.#opening = opening;
    this.#rubs = rubs;
    this.#pressing = pressing;
    this.#press = 0;
    this.first = -1;
    this.#all.length = 0;
  }

  /** Takes note of two panels that have come into contact for the first time. */
  add(a: number, b: number, meet: Meeters['meet']): Meeters {
    const meeters: Meeters = { a, b, meet, worst: null, first: -1 };
    this.#all.push(meeters);
    return meeters;
  }

  /** Takes note of one contact. @returns whether it counts */
  note(meeters: Meeters, found: Readonly<Crossing>, pageAngle: number): boolean {
    const { a, b } = meeters;
    const counting = counts(found, pageAngle, this.#pressing, this.#rubs, a, b);
    const { worst } = meeters;
    const counted = meeters.first >= 0;
    const worse =
      worst === null || (counting ? !counted || isDeeper(found, worst) : !counted && found.push > worst.push);
    if (counting) {
      meeters.first = Math.max(meeters.first, pageAngle);
      this.first = Math.max(this.first, pageAngle);
    } else this.#press = Math.max(this.#press, found.push);
    if (worse)
      meeters.worst = {
        depth: found.depth,
        push: found.push,
        pageAngle,
        between: [meeters.a, meeters.b],
        points: [
          [found.ax, found.ay],
          [found.bx, found.by],
        ],
      };
    return counting;
  }

  /** A contact that can't push by more than this, mm, tells nothing new. */
  get dull(): number {
    return Math.min(this.#press, NEARLY * this.#pressing);
  }

  get anyCounts(): boolean {
    return this.first >= 0;
  }

  /** Narrows down where contacts are deepest and where they start. */
  result(): ClashResult {
    if (!this.anyCounts)
      for (const each of this.#all) if (pushOf(each) > NEARLY * this.#pressing) this.#deepen(each);
    const counting = this.#all.filter(({ first }) => first >= 0);
    if (counting.length === 0) return { worst: null, firstPageAngle: null, press: this.#press };
    const deepest = Math.max(...counting.map(depthOf));
    // Between the frames, another pair may be deeper in one another than the one that is at a frame.
    for (const each of counting) if (depthOf(each) > NEARLY * deepest) this.#deepen(each);
    const { worst } = counting.reduce((most, each) => (depthOf(each) > depthOf(most) ? each : most));
    const earliest = Math.max(...counting.map(({ first }) => first));
    const firstPageAngle = Math.max(
      ...counting.filter(({ first }) => first > earliest - this.#step).map((each) => this.#startOf(each)),
    );
    return { worst, firstPageAngle, press: this.#press };
  }

  /** The deepest catch of each two panels that catch, and where they begin to: the deepest first. */
  catches(): PairCatch[] {
    const counting = this.#all.filter(({ first }) => first >= 0);
    return counting
      .map((each) => {
        this.#deepen(each);
        return { ...(each.worst as Catch), startsAt: this.#startOf(each) };
      })
      .sort((a, b) => b.depth - a.depth);
  }

  get #step(): number {
    const { count, pageAngles } = this.#opening;
    return count > 1 ? pageAngles[0] - pageAngles[1] : 0;
  }

  /** Between the frames on either side of the worst contact, finds the page angle at which it is worst. */
  #deepen(meeters: Meeters): void {
    const { pageAngles, count } = this.#opening;
    for (let part = this.#step / 2; part >= FINE; part /= 2) {
      const middle = meeters.worst?.pageAngle as number;
      for (const angle of [middle + part, middle - part])
        if (angle <= 180 && angle >= pageAngles[count - 1]) this.#look(meeters, angle);
    }
  }

  /** Where, between the page angle at which two panels are known to catch and the frame before, they start to. */
  #startOf(meeters: Meeters): number {
    let counts = meeters.first;
    let free = Math.min(180, counts + this.#step);
    while (free - counts > FINE) {
      const middle = (free + counts) / 2;
      if (this.#look(meeters, middle)) counts = middle;
      else free = middle;
    }
    return counts;
  }

  #look(meeters: Meeters, pageAngle: number): boolean {
    return (
      meeters.meet(this.#opening.at(pageAngle), this.#found) && this.note(meeters, this.#found, pageAngle)
    );
  }
}

/** Folded through each other at a crease, two panels are as deep at every page angle: then the push decides. */
const isDeeper = (one: Readonly<Crossing>, other: Catch): boolean =>
  one.depth > other.depth || (one.depth === other.depth && one.push > other.push);

const pushOf = ({ worst }: Meeters): number => worst?.push ?? 0;
const depthOf = ({ worst }: Meeters): number => worst?.depth ?? 0;
