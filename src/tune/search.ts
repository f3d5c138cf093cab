import type { Goal } from '../figure/wants.js';
import type { Layout } from '../study/row.js';
import { badness } from './badness.js';
import { apply, cheaper, costOf, type Done, measurable, overlaps, type Tariff } from './change.js';
import { differentIdeas } from './ideas.js';
import { LADDER } from './ladder.js';
import type { Move } from './moves.js';
import type { OpenedFigure } from './opened.js';
import { mostPromising } from './promising.js';
import type { Concern } from './relevance.js';
import { type Attempt, Track } from './track.js';
import { OutOfBudget, type Trials } from './trials.js';

/** Once a move works, others that cost no more are tried to so many rungs beyond: for the maker to choose from. */
const FURTHER = 1;
/** A fold shuts even where its numbers are off by about so much, mm or degrees. */
const BARELY = 1;
/** How many of the most promising are followed up with one more move, and how many moves deep. */
const WIDTH = 5;
const DEPTH = 3;
/** Where several things are wrong at once, so many rounds of changes are made on top of one another. */
const ROUNDS = 6;
/** A round must take away this share of what is wrong, or there is no use in another. */
const GAIN = 0.02;
/** A change that is given, rather than measured out, is made at once where it takes away this share of what is wrong. */
const MOST = 0.75;
/** Most remedies that are offered. */
const MOST_REMEDIES = 8;
/** How much more or less of what was done is tried once the rest is done, mm or degrees. */
const NEARBY = [0.5, 1, 2, 3.5, 6];
/** How many of the most promising moves are followed to their best amount, and in how many steps. */
const FOLLOWED = 10;
const FOLLOW_STEPS = 7;

export interface Problem {
  readonly opened: OpenedFigure;
  readonly layout: Layout;
  readonly goals: readonly Goal[];
  readonly moves: readonly Move[];
  readonly tariff: Tariff;
  /** Whether a candidate may be tried at all (see `--keep-glued`). */
  readonly allowed: (vector: Float64Array) => boolean;
  /** What is wrong with a candidate, each thing with the parts that have to do with it. */
  readonly concerns: (vector: Float64Array) => readonly Concern[];
  /** For each setting, the parts whose fields it changes. */
  readonly touches: readonly ReadonlySet<string>[];
  /** Whether a candidate has much less card somewhere than the figure. */
  readonly losesCard: (vector: Float64Array) => boolean;
  /** Told of what comes nearer than all before, and what share of what was wrong it takes away. */
  readonly onNearer: (attempt: Attempt, gone: number) => void;
}

export interface Found {
  /** Those that work, best first. */
  readonly remedies: Attempt[];
  /** The least bad of all that was tried. */
  readonly nearest: Attempt;
  /** False when the budget ran out, or the maker stopped it. */
  readonly finished: boolean;
}

/**
 * Finds the smallest remedies. One move alone is tried first, all moves side by side, from small amounts to large. Where
 * none does, what did good is done together, and again on top of that, as long as it helps: of a figure with several
 * faults each round mends some. What is more than needed is then left out. Only where that fails too, or two moves may do,
 * are those that came nearest followed up one by one with a second, and a third.
 */
export async function findRemedies(problem: Problem, trials: Trials): Promise<Found> {
  const search = new RemedySearch(problem, trials);
  let finished = true;
  try {
    await search.run();
  } catch (error) {
    if (!(error instanceof OutOfBudget)) throw error;
    finished = false;
    search.offerAllThatWork();
  }
  const { remedies, nearest } = search;
  if (nearest === null) throw new OutOfBudget();
  const sorted = [...remedies.values()].sort((a, b) => cheaper(a.cost, b.cost));
  const different = differentIdeas(sorted, problem.opened.settings);
  return { remedies: different.slice(0, MOST_REMEDIES), nearest, finished };
}

class RemedySearch {
  readonly #problem: Problem;
  readonly #trials: Trials;
  /** By the settings that they change: of several, the one that changes them least. */
  readonly #found = new Map<string, Attempt>();
  nearest: Attempt | null = null;
  /** The figure as it is. */
  #first: Attempt | null = null;
  /** All that worked, as it was tried: not yet made as small as it can be. */
  readonly #working: Attempt[] = [];
  /** Those that take card which nobody asked for. */
  readonly #costly = new Map<string, Attempt>();

  constructor(problem: Problem, trials: Trials) {
    this.#problem = problem;
    this.#trials = trials;
  }

  /** What works, as small as it can be; what takes card only where there is nothing else. */
  get remedies(): ReadonlyMap<string, Attempt> {
    return this.#found.size > 0 ? this.#found : this.#costly;
  }

  async run(): Promise<void> {
    const { opened, moves } = this.#problem;
    const [start] = await this.#tryAll([[]]);
    if (start === null || start.badness === 0) return;
    const bearing = this.#bearing(start, 'all');
    const first = await this.#climb(start, bearing, 'alone');
    if (this.remedies.size > 0) return;
    if (await this.#dive(start)) return;
    // What does most good at first may lead astray: a word that was turned does little by itself where more is wrong.
    for (const seed of this.#seeds(start, first)) if (await this.#dive(seed)) return;
    const rest = moves.filter((move) => !bearing.includes(move));
    const others = [
      ...(await this.#climb(start, bearing, 'all')),
      ...(await this.#climb(start, rest, 'all')),
    ];
    let front = mostPromising(others, opened, WIDTH);
    for (let depth = 2; depth <= DEPTH && this.remedies.size === 0; depth++) {
      const grown: Attempt[] = [];
      for (const from of front) grown.push(...(await this.#climb(from, this.#bearing(from, 'all'), 'all')));
      front = mostPromising(grown, opened, WIDTH);
    }
  }

  /**
   * Other beginnings than the best: what came as near, or did away with most of what is wrong, too (a fold is made to fit by either
   * side or either foot), then words, then what came nearest of the rest.
   */
  #seeds(start: Attempt, first: readonly Attempt[]): Attempt[] {
    const [best, ...others] = mostPromising(first, this.#problem.opened, first.length);
    if (best === undefined) return [];
    const asNear = Math.max((1 + GAIN) * best.badness, (1 - MOST) * start.badness);
    const [near, rest] = split(others.slice(0, WIDTH), ({ badness }) => badness < asNear);
    const words = others.filter(({ done }) => done.at(-1)?.move.kind === 'word');
    return [...new Set([...near, ...words.slice(0, WIDTH), ...rest])];
  }

  /** Of the best remedy each change is left out in turn, to see whether a smaller one does as well. */
  async #exchange(): Promise<void> {
    const [best] = [...this.remedies.values()].sort((a, b) => cheaper(a.cost, b.cost));
    for (const each of best.done) {
      const [from] = await this.#tryAll([best.done.filter((other) => other !== each)]);
      if (from !== null && from.badness > 0) await this.#climb(from, this.#bearing(from, 'all'), 'alone');
    }
  }

  /** Moves that bear on something that is wrong with an attempt, or on the parts named in it, and change nothing that it has changed. */
  #bearing({ vector, done }: Attempt, whom: 'named' | 'all'): Move[] {
    const { moves, concerns } = this.#problem;
    const all = concerns(vector);
    return moves.filter(
      (move) =>
        !overlaps(move, done) &&
        (all.length === 0 || all.some((concern) => this.#touches(move, concern[whom]))),
    );
  }

  /**
   * What every remedy must do something about, for what is wrong with an attempt, and not by its last change: whatever is
   * wrong where that change reaches nothing is so without it, too.
   */
  #given({ vector, done }: Attempt): Concern[] {
    const last = done.slice(-1);
    return this.#problem
      .concerns(vector)
      .filter(({ all }) => !last.some(({ move }) => this.#touches(move, all)));
  }

  #touches({ steps }: Move, parts: ReadonlySet<string>): boolean {
    return steps.some(({ setting }) => [...this.#problem.touches[setting]].some((part) => parts.has(part)));
  }

  /**
   * Mends one thing after another, and several in one round where they do not get into each other's way: first by what is
   * named in what is wrong, then by what that follows from.
   * @returns whether that frees the figure
   */
  async #dive(start: Attempt): Promise<boolean> {
    for (const whom of ['named', 'all'] as const) {
      let from = start;
      for (let round = 1; round <= ROUNDS; round++) {
        const grown = await this.#climb(from, this.#bearing(from, whom), 'quickly');
        let next = await this.#together(from, grown);
        const enough = (1 - GAIN) * from.badness;
        if (next === null || next.badness > enough) next = await this.#adjusted(next ?? from);
        if (next.badness > enough) break;
        if (next.badness === 0) {
          this.#offer(await this.#shrunk(next.done, 0));
          await this.#exchange();
          return true;
        }
        from = next;
      }
    }
    return false;
  }

  /** What was done, each of it measured anew now that the rest is done, as long as that does good. */
  async #adjusted(from: Attempt): Promise<Attempt> {
    let best = from;
    for (let i = 0; i < from.done.length && best.badness > 0; i++) {
      const { move, amount } = best.done[i];
      if (move.kind === 'word') continue;
      const { settings } = this.#problem.opened;
      const anew = NEARBY.flatMap((by) => [by, -by]).map((by) => measurable(settings, move, amount + by));
      const tried = await this.#tryAll(
        anew.map((to) => best.done.map((each, k) => (k === i ? { move, amount: to } : each))),
      );
      for (const attempt of tried) if (attempt !== null && attempt.badness < best.badness) best = attempt;
    }
    return best;
  }

  /** The best of what came of one move each, with all others added, best first, that make it better still. */
  async #together(from: Attempt, grown: readonly Attempt[]): Promise<Attempt | null> {
    const sorted = [...grown]
      .filter(({ badness }) => badness < from.badness)
      .sort((a, b) => a.badness - b.badness || cheaper(a.cost, b.cost));
    let best: Attempt | null = sorted.shift() ?? null;
    for (const { done } of sorted) {
      if (best === null || best.badness === 0) break;
      const added = done[done.length - 1];
      if (overlaps(added.move, best.done)) continue;
      const [attempt]: (Attempt | null)[] = await this.#tryAll([[...best.done, added]]);
      if (attempt !== null && attempt.badness < (1 - GAIN) * best.badness) best = attempt;
    }
    return best;
  }

  /**
   * Tries one more move each, from small amounts to large.
   * @param how all of them; those only that can free it alone; or quickly, none farther than it does good
   * @returns the best attempt of each move
   */
  async #climb(from: Attempt, moves: readonly Move[], how: 'all' | 'alone' | 'quickly'): Promise<Attempt[]> {
    const { opened, tariff } = this.#problem;
    const all = moves.map((move) => {
      const { price } = costOf([{ move, amount: 1 }], opened.now, tariff);
      return new Track(move, price);
    });
    await this.#extend(from, all, ({ move }) => [...move.fitting, ...move.like]);
    const best = mostPromising(
      all.flatMap((track) => track.best ?? []),
      opened,
      1,
    );
    let tracks = how === 'alone' ? this.#alone(all, this.#problem.concerns(from.vector)) : all;
    if (how === 'alone') for (const attempt of best) tracks = this.#alone(tracks, this.#given(attempt));
    // Where a word turned, or a fold made to fit, does away with most of it, what that hid is looked at first.
    if (how === 'quickly' && best.some(({ badness }) => badness < (1 - MOST) * from.badness)) return best;
    const isPlace = ({ steps }: Move) =>
      steps.some(({ setting }) => opened.settings[setting].place.includes('at'));
    for (const [rung, size] of LADDER.entries()) {
      // A move is of no use any more once one that costs no more has worked at a smaller size.
      const enough = LADDER[rung - 1 - FURTHER] ?? 0;
      const going = tracks.filter(
        ({ move, price }) =>
          move.kind === 'number' && !tracks.some((other) => other.price <= price && other.least <= enough),
      );
      await this.#extend(from, going, (track) =>
        [size, -size].filter(
          (amount) =>
            !track.working.some((a) => a * amount > 0 && Math.abs(a) <= size) &&
            (how !== 'quickly' || track.leadsOn(amount, from.badness, isPlace(track.move))),
        ),
      );
    }
    if (tracks.every(({ working }) => working.length === 0)) await this.#follow(from, tracks);
    for (const track of tracks) await this.#shrinkAll(from, track);
    return all.flatMap((track) => track.best ?? []);
  }

  /** Of tracks, those whose move bears on each of some concerns: no other can do away with all of them. */
  #alone(tracks: readonly Track[], concerns: readonly Concern[]): Track[] {
    return tracks.filter(({ move }) => concerns.every(({ all }) => this.#touches(move, all)));
  }

  /** Tries amounts of each track's move on top of what was done. */
  async #extend(
    from: Attempt,
    tracks: readonly Track[],
    amounts: (track: Track) => readonly number[],
  ): Promise<void> {
    const { settings } = this.#problem.opened;
    const tried = tracks.flatMap((track) =>
      amounts(track).map((amount) => ({
        track,
        amount: isExact(track.move, amount) ? amount : measurable(settings, track.move, amount),
      })),
    );
    const attempts = await this.#tryAll(
      tried.map(({ track: { move }, amount }) => [...from.done, { move, amount }]),
    );
    attempts.forEach((attempt, i) => {
      if (attempt === null) return;
      const isCostly = attempt.badness === 0 && this.#problem.losesCard(attempt.vector);
      tried[i].track.note(tried[i].amount, attempt, isCostly);
    });
  }

  /** Follows the moves that did most good to the amount that does most. */
  async #follow(from: Attempt, tracks: readonly Track[]): Promise<void> {
    const promising = tracks
      .filter(({ move, best }) => move.kind === 'number' && best !== null && best.badness < from.badness)
      .sort((a, b) => (a.best?.badness ?? 0) - (b.best?.badness ?? 0))
      .slice(0, FOLLOWED);
    for (let step = 0; step < FOLLOW_STEPS; step++) {
      const going = promising.filter(({ working }) => working.length === 0);
      const between = new Map(going.map((track) => [track, track.around(from.badness)]));
      await this.#extend(from, going, (track) => between.get(track) ?? []);
    }
  }

  /** Makes each working amount of a track as small as it can be, on either side. */
  async #shrinkAll(from: Attempt, track: Track): Promise<void> {
    for (const side of [1, -1]) {
      const working = track.working.filter((amount) => amount * side > 0);
      if (working.length === 0) continue;
      const smallest = working.reduce((a, b) => (Math.abs(b) < Math.abs(a) ? b : a));
      // What can fit exactly is not made to fit barely.
      const exact = working.find(
        (amount) => track.move.fitting.includes(amount) && Math.abs(amount - smallest) <= BARELY,
      );
      const least = exact ?? smallest;
      const done = [...from.done, { move: track.move, amount: least }];
      const failing = exact ?? track.failingBelow(least);
      this.#offer(await this.#shrunk(done, failing));
    }
  }

  /** The same moves, each as small as it can be while it still works: the last first. */
  async #shrunk(done: readonly Done[], failing: number): Promise<Attempt | null> {
    let kept = await this.#needed(done);
    if (kept.length < done.length) failing = 0;
    for (let i = kept.length - 1; i >= 0; i--) {
      const { move, amount } = kept[i];
      // What is made to fit fits exactly: card would have to bow for less.
      if (move.kind === 'word' || move.shutting.includes(amount)) continue;
      const withAmount = (a: number) => kept.map((each, k) => (k === i ? { move, amount: a } : each));
      let low = i === kept.length - 1 ? failing : 0;
      let high = amount;
      while (Math.abs(high - low) > 0.51) {
        const middle = measurable(this.#problem.opened.settings, move, (low + high) / 2);
        if (Math.abs(middle - low) < 1e-6 || Math.abs(middle - high) < 1e-6) break;
        const [attempt] = await this.#tryAll([withAmount(middle)]);
        if (attempt?.badness === 0) high = middle;
        else low = middle;
      }
      kept = withAmount(high);
    }
    return (await this.#tryAll([kept]))[0];
  }

  /** What of several moves is needed: the others, the first of them first, are left undone. */
  async #needed(done: readonly Done[]): Promise<Done[]> {
    let kept = [...done];
    for (const each of done) {
      const without = kept.filter((other) => other !== each);
      if (without.length === 0) break;
      const [attempt] = await this.#tryAll([without]);
      if (attempt?.badness === 0) kept = without;
    }
    return kept;
  }

  /** When there is no time left to make them small, what works is offered as it is. */
  offerAllThatWork(): void {
    for (const attempt of this.#working) this.#offer(attempt);
  }

  #offer(attempt: Attempt | null): void {
    if (attempt === null || attempt.badness > 0) return;
    const key = keyOf(attempt);
    const those = this.#problem.losesCard(attempt.vector) ? this.#costly : this.#found;
    const known = those.get(key);
    if (known === undefined || cheaper(attempt.cost, known.cost) < 0) those.set(key, attempt);
  }

  /** Scores candidates; null for those that may not be tried. */
  async #tryAll(all: readonly (readonly Done[])[]): Promise<(Attempt | null)[]> {
    const { opened, layout, goals, tariff, allowed, onNearer } = this.#problem;
    const vectors = all.map((done) => {
      const vector = apply(opened, done);
      return vector !== null && (done.length === 0 || allowed(vector)) ? vector : null;
    });
    const rows = await this.#trials.rows(vectors.filter((vector) => vector !== null));
    let next = 0;
    return vectors.map((vector, i) => {
      if (vector === null) return null;
      const row = rows[next++];
      const attempt = {
        done: all[i],
        vector,
        row,
        badness: badness(row, layout, goals, row.outcome === 'not built' ? opened.unbuilt(vector) : 0),
        cost: costOf(all[i], vector, tariff),
      };
      if (attempt.badness === 0 && attempt.done.length > 0) this.#working.push(attempt);
      this.#first ??= attempt;
      if (this.nearest === null || attempt.badness < this.nearest.badness) {
        this.nearest = attempt;
        if (attempt !== this.#first) onNearer(attempt, gone(this.#first.badness, attempt.badness));
      }
      return attempt;
    });
  }
}

/** The settings that are changed, and which way. */
const keyOf = ({ done }: Attempt): string =>
  done
    .flatMap(({ move, amount }) =>
      move.steps.map(({ setting, by }) => `${setting} ${Math.sign(by * amount)}`),
    )
    .sort()
    .join();

/** Those of which something is true, and the others. */
function split<T>(all: readonly T[], is: (one: T) => boolean): [T[], T[]] {
  return [all.filter(is), all.filter((one) => !is(one))];
}

/** What share of what was wrong is gone, 0 to 1: all of it only where nothing is left. */
function gone(before: number, after: number): number {
  if (after === 0) return 1;
  return Number.isFinite(before) ? Math.max(0, Math.min(0.99, 1 - after / before)) : 0;
}

/** Amounts that are given, rather than to be measured out. */
const isExact = ({ fitting, like }: Move, amount: number): boolean =>
  fitting.includes(amount) || like.includes(amount);
