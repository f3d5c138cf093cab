import { crossing, newCrossing, newSides, sides } from '../geometry/crossing.js';
import { TOUCH } from '../geometry/cut.js';
import { boundingCircle } from '../geometry/polygon.js';
import { type Assembly, LEFT_PAGE, POSE, RIGHT_PAGE } from '../motion/assembly.js';
import type { Opening } from '../motion/opening.js';
import { FoldAngle, type Hinge, hingesOf } from './hinges.js';

/** One panel running into another: lengths in mm, page angle in degrees, points in each panel's own plane. */
export interface Catch {
  readonly depth: number;
  readonly push: number;
  readonly pageAngle: number;
  readonly between: readonly [number, number];
  readonly points: readonly [readonly [number, number], readonly [number, number]];
}

export interface ClashResult {
  /** The catch of the greatest push among those that count; null when none does. */
  readonly worst: Catch | null;
  /** First page angle, closing, at which any catch counts. */
  readonly firstPageAngle: number | null;
  /** Greatest push among contacts too shallow to count, mm. */
  readonly press: number;
}

/** How finely a page angle is narrowed down, degrees. */
const FINE = 0.05;

/**
 * Finds panels that pass through one another anywhere in an opening. Tests every pair of panels that are not one body,
 * at every frame; looks between two frames where a panel has changed sides; and narrows down the page angle of the
 * worst catch and of the first one.
 */
export class ClashTest {
  private assembly!: Assembly;
  private opening!: Opening;
  private pressing = 0;
  private worst: Catch | null = null;
  private first: Catch | null = null;
  private press = 0;
  private readonly found = newCrossing();
  private readonly extent = newSides();

  /** @param pressing push up to which a contact only presses, mm */
  run(assembly: Assembly, opening: Opening, pressing: number): ClashResult {
    this.assembly = assembly;
    this.opening = opening;
    this.pressing = pressing;
    this.worst = null;
    this.first = null;
    this.press = 0;
    this.testPairs();
    this.testHinges();
    return this.result();
  }

  private testPairs(): void {
    const { assembly, opening } = this;
    const pairs = pairsOf(assembly);
    const circles = assembly.panels.map(boundingCircle);
    const centres = new Float64Array(circles.length * 3);
    const lastSide = new Int8Array(pairs.length / 2);
    for (let frame = 0; frame < opening.count; frame++) {
      const poses = opening.frame(frame);
      const pageAngle = opening.pageAngles[frame];
      for (let k = 0; k < circles.length; k++) {
        const { x, y } = circles[k];
        const i = k * POSE;
        centres[3 * k] = poses[i] * x + poses[i + 1] * y + poses[i + 3];
        centres[3 * k + 1] = poses[i + 4] * x + poses[i + 5] * y + poses[i + 7];
        centres[3 * k + 2] = poses[i + 8] * x + poses[i + 9] * y + poses[i + 11];
      }
      for (let p = 0; p < pairs.length; p += 2) {
        const a = pairs[p];
        const b = pairs[p + 1];
        const dx = centres[3 * a] - centres[3 * b];
        const dy = centres[3 * a + 1] - centres[3 * b + 1];
        const dz = centres[3 * a + 2] - centres[3 * b + 2];
        const reach = circles[a].radius + circles[b].radius;
        if (dx * dx + dy * dy + dz * dz > reach * reach) {
          lastSide[p / 2] = 0;
          continue;
        }
        const side = this.test(poses, pageAngle, a, b);
        if (side !== 0 && side === -lastSide[p / 2]) this.lookBetween(frame, a, b);
        lastSide[p / 2] = side;
      }
    }
  }

  /**
   * Tests one pair at one page angle.
   * @returns ±1 when b lies wholly on that side of a, ±2 when a lies so of b, 0 when neither
   */
  private test(poses: Float64Array, pageAngle: number, a: number, b: number): number {
    const { panels } = this.assembly;
    const { extent, found } = this;
    sides(panels[b], poses, b, a, extent);
    if (extent.min >= -TOUCH) return extent.max <= TOUCH ? 0 : 1;
    if (extent.max <= TOUCH) return -1;
    sides(panels[a], poses, a, b, extent);
    if (extent.min >= -TOUCH) return 2;
    if (extent.max <= TOUCH) return -2;
    if (!crossing(panels[a], panels[b], poses, a, b, found)) return 0;
    this.note({
      depth: found.depth,
      push: found.push,
      pageAngle,
      between: [a, b],
      points: [
        [found.ax, found.ay],
        [found.bx, found.by],
      ],
    });
    return 0;
  }

  private note(contact: Catch): void {
    if (contact.push <= this.pressing) {
      if (contact.push > this.press) this.press = contact.push;
      return;
    }
    if (this.first === null || contact.pageAngle > this.first.pageAngle) this.first = contact;
    if (this.worst === null || contact.push > this.worst.push) this.worst = contact;
  }

  /** Between a frame and the one before, panel b has changed to the other side of a: halves the step until it is fine. */
  private lookBetween(frame: number, a: number, b: number): void {
    const { opening } = this;
    const step = opening.pageAngles[frame - 1] - opening.pageAngles[frame];
    for (let part = step / 2; part >= FINE; part /= 2)
      for (
        let angle = opening.pageAngles[frame] + part;
        angle < opening.pageAngles[frame - 1];
        angle += 2 * part
      )
        this.test(opening.at(angle), angle, a, b);
  }

  private testHinges(): void {
    const { opening } = this;
    for (const hinge of hingesOf(this.assembly)) {
      if (hinge.reachAt0 === 0 && hinge.reachAt180 === 0) continue;
      const fold = new FoldAngle(hinge);
      for (let frame = 0; frame < opening.count; frame++) {
        const push = fold.push(opening.frame(frame));
        if (push > 0) this.note(foldedThrough(hinge, fold.depth, push, opening.pageAngles[frame]));
      }
    }
  }

  private result(): ClashResult {
    if (this.worst !== null) this.worst = this.deepestNear(this.worst);
    const firstPageAngle = this.first === null ? null : this.startOf(this.first);
    return { worst: this.worst, firstPageAngle, press: this.press };
  }

  /** Between the frames on either side of a catch, finds the page angle at which it is deepest. */
  private deepestNear(caught: Catch): Catch {
    const [a, b] = caught.between;
    const step = this.opening.pageAngles[0] - this.opening.pageAngles[1];
    let best = caught;
    for (let part = step / 2; part >= FINE; part /= 2)
      for (const angle of [best.pageAngle + part, best.pageAngle - part]) {
        if (angle > 180 || angle < this.opening.pageAngles[this.opening.count - 1]) continue;
        const there = this.crossingAt(angle, a, b);
        if (there !== null && there.push > best.push) best = there;
      }
    return best;
  }

  /** The page angle at which a catch starts to count, between the frame where it does and the one before. */
  private startOf(caught: Catch): number {
    const [a, b] = caught.between;
    let counted = caught.pageAngle;
    let free = Math.min(180, counted + this.opening.pageAngles[0] - this.opening.pageAngles[1]);
    while (free - counted > FINE) {
      const middle = (free + counted) / 2;
      const there = this.crossingAt(middle, a, b);
      if (there !== null && there.push > this.pressing) counted = middle;
      else free = middle;
    }
    return counted;
  }

  private crossingAt(pageAngle: number, a: number, b: number): Catch | null {
    const { panels } = this.assembly;
    const { found } = this;
    if (!crossing(panels[a], panels[b], this.opening.at(pageAngle), a, b, found)) return null;
    const points: Catch['points'] = [
      [found.ax, found.ay],
      [found.bx, found.by],
    ];
    return { depth: found.depth, push: found.push, pageAngle, between: [a, b], points };
  }
}

function foldedThrough(hinge: Hinge, depth: number, push: number, pageAngle: number): Catch {
  return { depth, push, pageAngle, between: [hinge.a, hinge.b], points: [hinge.middleA, hinge.middleB] };
}

/** Indices, two by two, of every pair of panels that may run into each other: not one body, and not the two pages. */
function pairsOf(assembly: Assembly): number[] {
  const { panels } = assembly;
  const pairs: number[] = [];
  for (let a = 0; a < panels.length; a++)
    for (let b = a + 1; b < panels.length; b++)
      if (panels[a].body !== panels[b].body && !(a === LEFT_PAGE && b === RIGHT_PAGE)) pairs.push(a, b);
  return pairs;
}
