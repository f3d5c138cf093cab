import { type Crossing, newCrossing } from '../../geometry/crossing.js';
import type { Assembly } from '../../motion/assembly.js';
import type { Opening } from '../../motion/opening.js';
import type { Between } from './between.js';
import { type Body, placedPoint, placingIn } from './bodies.js';
import type { Contacts, Meeters } from './contacts.js';
import { type BodyHinge, FLAT, FoldAngle, FoldThrough, hingesOf, meetingAt } from './hinges.js';
import { boundOver } from './motion-bounds.js';

/**
 * Looks for bodies that are folded through each other at a crease, and takes note of them as contacts: the depth is how
 * far card meets card from the crease, the push is that times the sine of the angle by which it was folded too far (all
 * of it from 90° on).
 */
export class HingeTest {
  #assembly!: Assembly;
  #opening!: Opening;
  #between!: Between;
  #contacts!: Contacts;
  #pressing = 0;
  #flat = FLAT;
  readonly #found = newCrossing();
  #sines = new Float64Array(0);
  #bends = new Float64Array(0);

  /** @param flat sine of the fold angle up to which two bodies, folded together, lie on each other and no more */
  run(
    assembly: Assembly,
    opening: Opening,
    bodies: readonly Body[],
    between: Between,
    contacts: Contacts,
    pressing: number,
    flat: number,
  ): void {
    this.#assembly = assembly;
    this.#opening = opening;
    this.#between = between;
    this.#contacts = contacts;
    this.#pressing = pressing;
    this.#flat = flat;
    if (this.#sines.length < opening.count) {
      this.#sines = new Float64Array(opening.count);
      this.#bends = new Float64Array(opening.count);
    }
    for (const hinge of hingesOf(assembly, bodies)) this.#test(hinge);
  }

  /** How far rigid card may go through: not at all. */
  get #slack(): number {
    return this.#flat === FLAT ? 0 : this.#flat;
  }

  #test(hinge: BodyHinge): void {
    if (hinge.reachAt0 === 0 && hinge.reachAt180 === 0) return;
    const opening = this.#opening;
    const sines = this.#sines;
    const angle = new FoldAngle(hinge);
    const follower = new FoldThrough(hinge, this.#flat);
    let meeters: Meeters | null = null;
    let flat: 0 | 180 | null = null;
    for (let frame = 0; frame < opening.count; frame++) {
      const poses = opening.frame(frame);
      angle.read(poses);
      sines[frame] = angle.sine;
      follower.follow(angle);
      if (follower.through !== flat) {
        flat = follower.through;
        if (flat === null) continue;
        meeters = this.#meeters(hinge, flat, Math.sign(angle.sine));
        // Nothing meets there after all, so it may turn on, and there may be something to meet at the next flat state.
        if (meeters === null) {
          this.#test(flat === 0 ? { ...hinge, reachAt0: 0 } : { ...hinge, reachAt180: 0 });
          return;
        }
      }
      if (flat === null || meeters === null || !meeters.meet(poses, this.#found)) continue;
      this.#contacts.note(meeters, this.#found, opening.pageAngles[frame]);
    }
    if (meeters === null) this.#lookBetween(hinge, angle);
  }

  /** Bodies folded through a flat state, on the side where the sine has this sign; null if nothing meets there. */
  #meeters(hinge: BodyHinge, flat: 0 | 180, side: number): Meeters | null {
    const meeting = meetingAt(this.#assembly, hinge, flat);
    if (meeting === null) return null;
    const { a, b, bodyA, bodyB } = hinge;
    const { open } = this.#assembly;
    const pointA = placedPoint(meeting.pointA, placingIn(open, bodyA.panel, a));
    const pointB = placedPoint(meeting.pointB, placingIn(open, bodyB.panel, b));
    const angle = new FoldAngle(hinge);
    return this.#contacts.add(a, b, (poses: Float64Array, out: Crossing): boolean => {
      angle.read(poses);
      const beyond = side * angle.sine;
      if (beyond <= 0) return false;
      out.depth = meeting.reach;
      out.push = meeting.reach * ((flat === 0 ? angle.cosine : -angle.cosine) > 0 ? beyond : 1);
      out.angle = Math.atan2(beyond, Math.abs(angle.cosine));
      [out.ax, out.ay] = pointA;
      [out.bx, out.by] = pointB;
      return true;
    });
  }

  /** Looks between frames where the fold angle comes so near to a flat state that it may dip through and come back. */
  #lookBetween(hinge: BodyHinge, angle: FoldAngle): void {
    const sines = this.#sines;
    const bends = this.#bends;
    const opening = this.#opening;
    const between = this.#between;
    const pressing = this.#pressing;
    const { count } = opening;
    for (let f = 1; f + 1 < count; f++) bends[f] = Math.abs(sines[f + 1] - 2 * sines[f] + sines[f - 1]);
    const reach = Math.max(hinge.reachAt0, hinge.reachAt180);
    for (let f = 0; f + 1 < count; f++) {
      const nearest = Math.min(Math.abs(sines[f]), Math.abs(sines[f + 1]));
      const dip = boundOver(bends, f, count, Math.abs(sines[f + 1] - sines[f])) / 8;
      if ((dip - nearest) * reach <= pressing || dip <= nearest + this.#slack) continue;
      const side = Math.sign(Math.abs(sines[f]) > Math.abs(sines[f + 1]) ? sines[f] : sines[f + 1]);
      let meeters: Meeters | null = null;
      for (let part = 1; part < between.parts; part++) {
        const poses = between.poses(f, part);
        angle.read(poses);
        if (side * angle.sine > -this.#slack) continue;
        const flat = angle.cosine > 0 ? 0 : 180;
        if ((flat === 0 ? hinge.reachAt0 : hinge.reachAt180) === 0) continue;
        meeters ??= this.#meeters(hinge, flat, -side);
        if (meeters?.meet(poses, this.#found))
          this.#contacts.note(meeters, this.#found, between.pageAngle(f, part));
      }
    }
  }
}
