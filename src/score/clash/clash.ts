import { type Crossing, crossing, newCrossing } from '../../geometry/crossing.js';
import type { Assembly } from '../../motion/assembly.js';
import type { Opening } from '../../motion/opening.js';
import { Between } from './between.js';
import { type Body, bodiesOf } from './bodies.js';
import { type ClashResult, Contacts, type Meeters, type PairCatch } from './contacts.js';
import { HingeTest } from './hinge-test.js';
import { FLAT } from './hinges.js';
import { MotionBounds, TOP } from './motion-bounds.js';
import { type BodyPair, isAtNeck, pairsOf } from './pairs.js';
import { FOLDED_FLAT, type Rubs } from './rubs.js';
import { Separation } from './separation.js';

export type { Catch, ClashResult, PairCatch } from './contacts.js';

/** Contacts that push by less than this, mm, are not even told as pressing. */
const FAINT = 0.02;
/**
 * How much a push may grow for each millimetre that two panels move against each other: by as much where a panel pokes
 * through; by up to the cotangent of its slant where an edge slides along the other panel. Taken for slants of 27° and more.
 */
const SLANT = 2;
/** Spans up to this level are judged by how hard a pair may push in them, once something is known to catch. */
const LOOK_AHEAD = 3;
/** By what share of a push that only presses a point that two panels share may come apart, and still be taken as one. */
const STRAYS = 0.8;
/** Numbers kept of a doubt. */
const DOUBT = 4;

/**
 * Finds panels that pass through one another anywhere in an opening.
 *
 * For each pair of bodies, the opening is halved and halved again until each span is known to be clear of contact (see
 * `Separation`) or is down to one frame's step; then the pair is tested at the frames at both its ends. Where neither end
 * shows a catch that counts, and yet one in between can't be ruled out, the halving goes on between the frames: but only
 * once no frame of the whole opening has shown a catch, since then the verdict hangs on it.
 */
export class ClashTest {
  #assembly!: Assembly;
  #opening!: Opening;
  #pressing = 0;
  #rubs: Rubs | null = null;
  #bodies: readonly Body[] = [];
  #pairs: readonly BodyPair[] = [];
  readonly #bounds = new MotionBounds();
  readonly #separation = new Separation();
  readonly #between = new Between();
  readonly #hinges = new HingeTest();
  readonly #contacts = new Contacts();
  readonly #met = new Map<number, Meeters>();
  readonly #found = newCrossing();
  #every = false;
  /** The pair at hand, and its place among the pairs. */
  #pair!: BodyPair;
  #at = 0;
  /** At each frame: the last pair that was tested there, and its push. */
  #tested = new Int32Array(0);
  #pushes = new Float64Array(0);
  /** Of each span of one frame in which a catch can't be ruled out: pair, frame, push at its start and at its end. */
  #doubts = new Float64Array(16 * DOUBT);
  #doubtful = 0;

  /**
   * @param pressing push up to which a contact only presses, mm
   * @param rubs what card bends aside; null for rigid card
   */
  run(assembly: Assembly, opening: Opening, pressing: number, rubs: Rubs | null = null): ClashResult {
    this.#find(assembly, opening, pressing, rubs, false);
    return this.#contacts.result();
  }

  /** The deepest catch of each two panels that catch, and where they begin to: the deepest first. */
  catches(assembly: Assembly, opening: Opening, pressing: number, rubs: Rubs | null = null): PairCatch[] {
    this.#find(assembly, opening, pressing, rubs, true);
    return this.#contacts.catches();
  }

  /** @param every whether every catch is wanted, and not just the worst and the first */
  #find(assembly: Assembly, opening: Opening, pressing: number, rubs: Rubs | null, every: boolean): void {
    this.#assembly = assembly;
    this.#opening = opening;
    this.#pressing = pressing;
    this.#rubs = rubs;
    this.#every = every;
    this.#doubtful = 0;
    this.#between.start(opening);
    this.#contacts.start(opening, pressing, rubs);
    this.#met.clear();
    this.#bodies = bodiesOf(assembly);
    this.#pairs = pairsOf(assembly, opening, this.#bodies, STRAYS * pressing);
    this.#bounds.run(this.#bodies, opening, assembly.panels.length);
    this.#makeRoom();
    for (let frame = 0; frame < opening.count; frame++)
      this.#separation.setPoses(frame, opening.frame(frame));

    for (let k = 0; k < this.#pairs.length; k++) this.#testPair(k);
    this.#hinges.run(
      assembly,
      opening,
      this.#bodies,
      this.#between,
      this.#contacts,
      pressing,
      rubs === null ? FLAT : FOLDED_FLAT,
    );
    if (every || !this.#contacts.anyCounts) this.#settleDoubts();
  }

  #makeRoom(): void {
    const { count } = this.#opening;
    this.#separation.start(count + this.#between.levels + 1);
    if (this.#pushes.length < count) {
      this.#pushes = new Float64Array(count);
      this.#tested = new Int32Array(count);
    }
    this.#tested.fill(-1);
  }

  #testPair(k: number): void {
    this.#take(k);
    const last = this.#opening.count - 1;
    const { joined, onHub, necks } = this.#pair;
    if (joined || onHub || necks.length > 0 || last === 0) {
      // The line in which the planes of joined panels meet stays put on both, and on a hub or by a neck they are never clear of each
      // other: what the frames don't show isn't there.
      for (let frame = 0; frame <= last; frame++) this.#testFrame(frame);
      return;
    }
    for (let span = 0; span << TOP < last; span++) this.#visit(TOP, span);
  }

  #take(k: number): void {
    this.#at = k;
    this.#pair = this.#pairs[k];
    this.#separation.setPair(this.#pair, this.#bodies[this.#pair.a], this.#bodies[this.#pair.b]);
  }

  /** Goes through a span that begins at frame `span << level`. */
  #visit(level: number, span: number): void {
    const last = this.#opening.count - 1;
    const from = span << level;
    const to = Math.min((span + 1) << level, last);
    const dull = this.#dull;
    if (this.#isClear(from, to, to - from, dull, level, span)) return;
    if (dull > FAINT && level > 0 && level <= LOOK_AHEAD) {
      const push = Math.max(this.#testFrame(from), this.#testFrame(to));
      if (push + SLANT * this.#separation.shift(from, to) <= dull) return;
    }
    if (level > 0) {
      this.#visit(level - 1, 2 * span);
      if ((2 * span + 1) << (level - 1) < last) this.#visit(level - 1, 2 * span + 1);
      return;
    }
    const before = this.#testFrame(from);
    const after = this.#testFrame(to);
    if (before > this.#pressing || after > this.#pressing) return;
    if (this.#contacts.anyCounts && !this.#every) return;
    if (!this.#isClear(from, to, 1, this.#pressing, 0, span)) this.#addDoubt(from, before, after);
  }

  /** Up to what push a contact has nothing new to tell: where something catches, those that only press have not. */
  get #dull(): number {
    return this.#every || !this.#contacts.anyCounts ? FAINT : Math.max(FAINT, this.#pressing);
  }

  #isClear(from: number, to: number, frames: number, slack: number, level: number, span: number): boolean {
    const bounds = this.#bounds;
    const pair = this.#pair;
    const rowA = bounds.row(pair.a, level, span);
    const rowB = bounds.row(pair.b, level, span);
    return this.#separation.isClear(from, to, frames, slack, bounds.values, rowA, rowB);
  }

  /** Tests the pair at a frame, unless it has been. @returns its greatest push there, or somewhat more, mm */
  #testFrame(frame: number): number {
    if (this.#tested[frame] !== this.#at) {
      this.#tested[frame] = this.#at;
      this.#pushes[frame] = this.#test(frame, this.#opening.frame(frame), this.#opening.pageAngles[frame]);
    }
    return this.#pushes[frame];
  }

  #test(slot: number, poses: Float64Array, pageAngle: number): number {
    const contacts = this.#contacts;
    const found = this.#found;
    const pair = this.#pair;
    const dull = Math.max(FAINT, contacts.dull);
    if (this.#separation.isOneSided(slot, dull)) return dull;
    const { panels } = this.#assembly;
    let push = 0;
    for (let i = 0; i < pair.panels.length; i += 2) {
      const a = pair.panels[i];
      const b = pair.panels[i + 1];
      if (!crossing(panels[a], panels[b], poses, a, b, found) || this.#isExcused(pair, a, b, found)) continue;
      contacts.note(this.#meeters(a, b), found, pageAngle);
      push = Math.max(push, found.push);
    }
    return push;
  }

  /** Whether two panels cross as a hub or a slit that they share lets them: that is not even told as pressing. */
  #isExcused(pair: BodyPair, a: number, b: number, found: Readonly<Crossing>): boolean {
    if (pair.onHub && (this.#rubs === null || found.push <= this.#rubs.allowed(a, b, found))) return true;
    return isAtNeck(pair, a, b, found);
  }

  #meeters(a: number, b: number): Meeters {
    const { panels } = this.#assembly;
    const key = a * panels.length + b;
    let both = this.#met.get(key);
    if (both === undefined) {
      const pair = this.#pair;
      both = this.#contacts.add(
        a,
        b,
        (poses, out) => crossing(panels[a], panels[b], poses, a, b, out) && !this.#isExcused(pair, a, b, out),
      );
      this.#met.set(key, both);
    }
    return both;
  }

  #addDoubt(frame: number, before: number, after: number): void {
    if (this.#doubtful * DOUBT === this.#doubts.length) {
      const longer = new Float64Array(2 * this.#doubts.length);
      longer.set(this.#doubts);
      this.#doubts = longer;
    }
    this.#doubts.set([this.#at, frame, before, after], this.#doubtful * DOUBT);
    this.#doubtful++;
  }

  #settleDoubts(): void {
    for (let i = 0; i < this.#doubtful; i++) {
      const [k, frame, before, after] = this.#doubts.subarray(i * DOUBT, (i + 1) * DOUBT);
      this.#take(k);
      this.#settle(frame, frame, before, frame + 1, after, 0, this.#between.parts, 0);
    }
  }

  /**
   * Halves a part of a frame's step until it is clear of any catch that counts, or so short that nothing moves far in it.
   * @param i slot of the poses at its start, `j` at its end, and the greatest push at either
   * @param from finest steps from the frame to the start, `to` to the end
   */
  #settle(
    frame: number,
    i: number,
    before: number,
    j: number,
    after: number,
    from: number,
    to: number,
    depth: number,
  ): void {
    const between = this.#between;
    const bounds = this.#bounds;
    const pair = this.#pair;
    const separation = this.#separation;
    const pressing = this.#pressing;
    const share = (to - from) / between.parts;
    const rowA = bounds.row(pair.a, 0, frame);
    const rowB = bounds.row(pair.b, 0, frame);
    if (to - from < 2) return;
    if (separation.isClear(i, j, share, pressing, bounds.values, rowA, rowB)) return;
    if (Math.max(before, after) + SLANT * separation.shift(i, j) <= pressing) return;
    const middle = (from + to) >> 1;
    const slot = this.#opening.count + depth;
    const poses = between.poses(frame, middle);
    separation.setPoses(slot, poses);
    const push = this.#test(slot, poses, between.pageAngle(frame, middle));
    if (push > pressing) return;
    this.#settle(frame, i, before, slot, push, from, middle, depth + 1);
    this.#settle(frame, slot, push, j, after, middle, to, depth + 1);
  }
}
