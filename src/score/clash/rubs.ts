import { BOWS } from '../../card/gives-way.js';
import { STRENGTHS } from '../../card/grade.js';
import type { Figure } from '../../figure/figure.js';
import type { Crossing } from '../../geometry/crossing.js';
import type { Line } from '../../geometry/line.js';
import { holds, type Polygon } from '../../geometry/polygon.js';
import type { Assembly } from '../../motion/assembly.js';
import { LOCKS_BEYOND } from '../../motion/forced.js';
import { HUB_TILT } from '../../motion/loop/ties.js';
import { receiversOf } from '../receivers.js';
import { placedLine, placedShape, placingIn } from './bodies.js';

/** However soft an edge is, it is bent aside by no more than this without being told as a catch, mm. */
const FARTHEST = 2;
/** Two panels at less than this to each other, radians, lie on one another; from twice as much on they do not. */
const LIES_ON = Math.PI / 18;
/**
 * Sine of the fold angle up to which two panels that are folded together lie on each other, on whichever side: by that much
 * they may turn on, or start, by what a fold is off.
 */
export const FOLDED_FLAT = Math.sin(Math.PI / 20);
/** Between these angles of two panels, radians, an edge that slides along card turns into one that hooks on it. */
const SLIDES = Math.PI / 4;
const HOOKS = Math.PI / 3;

/** Where a panel is held so that it cannot bend: along lines, or all over some areas. */
interface Held {
  readonly lines: readonly Line[];
  readonly areas: readonly Polygon[];
  readonly points: readonly { readonly at: readonly [number, number]; readonly radius: number }[];
}

/**
 * Tells a rub from a catch. Card that meets other card at a slant is bent aside. As a strip that is held at one end
 * (Timoshenko and Gere: w = F L³/3 E I, for a width b of card E I = D b) it pushes back with
 *
 *   F = k w,   k = 3 D b / L³
 *
 * where w is the push of the contact, L the way from there to where the panel is held next (a crease, card glued on, the
 * shoulder of a hub), and b the card that bends with it: the push spreads at 45° to both sides, so 2 L, or as broad as the
 * panel is. Of two panels the softer gives way. Pages and tabs are held. Where panels stand at more than 60° to each other
 * an edge does not slide but hooks: then nothing is excused, between 45° and 60° less and less.
 *
 * Panels that lie on one another, at less than 10°, need not bend at all: they tilt at their creases by the little that one
 * stands in the other's way, and what holds them is forced by as much as any fold may be (`LOCKS_BEYOND`); that force is
 * told by the folds, which bow. Two panels on one crease that are folded together, and off by δ, bow over their width w at
 * 3 D ℓ δ/w: 9° of a panel 50 mm wide and 60 mm long are 5 N mm, 0.03 N at the edge of an A5 page.
 * Two panels on one hub that tilt against each other turn about it: within its shoulder it is the hub that gives, which the limit
 * `tilt` judges; what the one pokes through the other beyond that, as card does past a hub that it is levered on, is a rub or a catch
 * by what is left of it once the other hubs of the chain have taken the more of the tilt.
 * Where a crease that closes a loop misses, the edge of the one panel that ends there pierces the other beside it; by how much
 * it misses, `give` judges.
 */
export class Rubs {
  readonly #assembly: Assembly;
  readonly #bendOf: (panel: number) => number;
  readonly #newtons: number;
  #closing: readonly ClosingCrease[] | null = null;
  readonly #hubs: readonly SharedHub[];
  readonly #held = new Map<number, Held | null>();

  /**
   * @param bendOf D of a panel's card, N mm
   * @param newtons force up to which card only rubs, N
   * @param shut page angle to which the book is to be shut, degrees
   */
  constructor(
    assembly: Assembly,
    bendOf: (panel: number) => number,
    newtons: number,
    readonly shut: number = STRENGTHS.shut,
  ) {
    this.#assembly = assembly;
    this.#bendOf = bendOf;
    this.#newtons = newtons;
    this.#hubs = sharedHubs(assembly);
  }

  /** Push up to which panels a and b only rub where they cross like this, mm; 0 where nothing is excused. */
  allowed(a: number, b: number, crossing: Readonly<Crossing>): number {
    const { angle } = crossing;
    this.#closing ??= closingCreases(this.#assembly);
    if (this.#closing.some((crease) => isBeside(crease, a, b, crossing))) return Number.POSITIVE_INFINITY;
    const hub = this.#hubOf(a, b);
    const tilts = Math.min(1, Math.max(0, 2 - angle / LIES_ON)) * LOCKS_BEYOND.mm;
    const lies = hub === undefined ? tilts : tilts / this.#levered(a, b) + hub.radius * Math.sin(angle);
    if (crossing.push <= lies) return lies;
    const slides = Math.min(1, (HOOKS - angle) / (HOOKS - SLIDES));
    return Math.max(lies, slides * Math.min(FARTHEST, this.#newtons / this.softer(a, b, crossing)));
  }

  /** The hub that two panels share. */
  #hubOf(a: number, b: number): SharedHub | undefined {
    const { panels } = this.#assembly;
    const [one, other] = [panels[a].body, panels[b].body];
    return this.#hubs.find(({ bodies: [k, m] }) => (k === one && m === other) || (k === other && m === one));
  }

  /**
   * What of its tilt a limb keeps that is levered on its hub, since the motion lets all hubs of a chain tilt alike. Card that presses
   * at a lever L takes k L² = 3 D 2 L/L³ · L² = 6 D N mm/rad beside the hub's own, and what it does not tilt by another hub must: of two
   * in a row each takes the share that it is softer by, so 2 HUB/(2 HUB + 6 D) of what it would by itself.
   */
  #levered(a: number, b: number): number {
    return 1 / (1 + (3 * Math.min(this.#bendOf(a), this.#bendOf(b))) / HUB_TILT);
  }

  /** k of the softer of two panels where they cross, N/mm. */
  softer(a: number, b: number, { ax, ay, bx, by }: Readonly<Crossing>): number {
    return Math.min(this.stiffness(a, ax, ay), this.stiffness(b, bx, by));
  }

  /** k of a panel that is pushed at a point, N/mm; Infinity where it is held. */
  stiffness(panel: number, x: number, y: number): number {
    let held = this.#held.get(panel);
    if (held === undefined) {
      held = heldOf(this.#assembly, panel);
      this.#held.set(panel, held);
    }
    if (held === null) return Number.POSITIVE_INFINITY;
    const { away, nx, ny } = nearest(held, x, y);
    if (away === Number.POSITIVE_INFINITY || away <= 0) return Number.POSITIVE_INFINITY;
    const broad = Math.min(2 * away, extentAlong(this.#assembly.panels[panel].outline, -ny, nx));
    return (3 * this.#bendOf(panel) * broad) / away ** 3;
  }
}

/** A hub, by the bodies that turn on it, and the radius of its shoulder, mm. */
interface SharedHub {
  readonly bodies: readonly [number, number];
  readonly radius: number;
}

const sharedHubs = ({ panels, joints }: Assembly): SharedHub[] =>
  joints.flatMap((joint) =>
    joint.kind === 'pivot'
      ? [
          {
            bodies: [panels[joint.between[0]].body, panels[joint.between[1]].body] as const,
            radius: joint.hub.shoulder / 2,
          },
        ]
      : [],
  );

/** A crease that closes a loop, and so may miss: its panels, and the line on each. */
interface ClosingCrease {
  readonly panels: readonly [number, number];
  readonly lines: readonly [Line, Line];
}

/** Those at which one panel at least ends, but for what its edge may be off. Card that goes on on both is in each other's way. */
function closingCreases(assembly: Assembly): ClosingCrease[] {
  const { panels, joints, open } = assembly;
  const receivers = receiversOf(assembly);
  return joints.flatMap((joint) => {
    if (joint.kind !== 'crease' || !joint.closesLoop) return [];
    const [one, other] = joint.between.map((k, end) => {
      const panel = receivers.get(k) ?? k;
      return { panel, line: placedLine(joint.lines[end], placingIn(open, k, panel)) };
    });
    const past = [one, other].map(({ panel, line }) => pastLine(panels[panel].outline, line));
    if (Math.min(...past) > BOWS) return [];
    return [{ panels: [one.panel, other.panel], lines: [one.line, other.line] } as const];
  });
}

/** How far card goes past a line, over the line's own length: on that side on which it is less. */
function pastLine(ring: Float64Array, { x0, y0, x1, y1 }: Line): number {
  const long = Math.hypot(x1 - x0, y1 - y0);
  const [ex, ey] = [(x1 - x0) / long, (y1 - y0) / long];
  let [least, most] = [0, 0];
  const take = (height: number) => {
    least = Math.min(least, height);
    most = Math.max(most, height);
  };
  for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
    const [at, height] = [
      (ring[i] - x0) * ex + (ring[i + 1] - y0) * ey,
      (ring[i + 1] - y0) * ex - (ring[i] - x0) * ey,
    ];
    const [before, from] = [
      (ring[j] - x0) * ex + (ring[j + 1] - y0) * ey,
      (ring[j + 1] - y0) * ex - (ring[j] - x0) * ey,
    ];
    if (at >= 0 && at <= long) take(height);
    for (const end of [0, long])
      if (before < end !== at < end) take(from + ((end - before) / (at - before)) * (height - from));
  }
  return Math.min(-least, most);
}

/**
 * Whether two panels on a crease that misses pierce each other no farther beside it than it may miss. Where they do lies
 * farther from the crease the flatter they are to each other: what counts is how far that is out of the other's plane.
 */
function isBeside(
  { panels, lines }: ClosingCrease,
  a: number,
  b: number,
  { ax, ay, bx, by, angle }: Readonly<Crossing>,
): boolean {
  const near = ({ x0, y0, x1, y1 }: Line, x: number, y: number) => {
    const long = Math.hypot(x1 - x0, y1 - y0);
    const along = ((x - x0) * (x1 - x0) + (y - y0) * (y1 - y0)) / long;
    const across = ((y - y0) * (x1 - x0) - (x - x0) * (y1 - y0)) / long;
    return Math.hypot(Math.max(0, -along, along - long), across * Math.sin(angle)) <= BOWS;
  };
  const [one, other] = lines;
  if (panels[0] === a && panels[1] === b) return near(one, ax, ay) || near(other, bx, by);
  return panels[0] === b && panels[1] === a && (near(other, ax, ay) || near(one, bx, by));
}

/** The way to a point from the nearest place of a line, from end to end. */
function fromLine({ x0, y0, x1, y1 }: Line, x: number, y: number): [number, number] {
  const [ex, ey] = [x1 - x0, y1 - y0];
  const t = Math.min(1, Math.max(0, ((x - x0) * ex + (y - y0) * ey) / (ex * ex + ey * ey || 1)));
  return [x - x0 - t * ex, y - y0 - t * ey];
}

/** What card of a figure bends aside. */
export const rubsOf = ({ card, limits }: Pick<Figure, 'card' | 'limits'>, assembly: Assembly): Rubs =>
  new Rubs(
    assembly,
    (panel) => card.of(assembly.panels[panel].piece).stiffness.any.bend,
    limits.rub,
    limits.shutTo,
  );

/** Null for what is held all over. */
function heldOf(assembly: Assembly, panel: number): Held | null {
  const { panels, joints, open } = assembly;
  if (panels[panel].piece === 'page' || panels[panel].role === 'tab') return null;
  const lines: Line[] = [];
  const areas: Polygon[] = [];
  const points: { at: readonly [number, number]; radius: number }[] = [];
  for (const joint of joints) {
    const end = joint.between.indexOf(panel);
    if (end < 0) continue;
    if (joint.kind === 'crease') lines.push(joint.lines[end]);
    else if (joint.kind === 'glue') {
      // What is glued on, or what it is glued to, as it lies on the panel.
      const other = joint.between[1 - end];
      areas.push(placedShape(panels[other], placingIn(open, other, panel)));
    } else if (joint.kind === 'pivot') points.push({ at: joint.points[end], radius: joint.hub.shoulder / 2 });
  }
  return { lines, areas, points };
}

/** How far a point is from what holds the panel, and in which direction from it. */
function nearest({ lines, areas, points }: Held, x: number, y: number) {
  const found = { away: Number.POSITIVE_INFINITY, nx: 0, ny: 0 };
  const take = (dx: number, dy: number, radius: number) => {
    const far = Math.hypot(dx, dy);
    if (far - radius < found.away)
      Object.assign(found, { away: far - radius, nx: dx / (far || 1), ny: dy / (far || 1) });
  };
  for (const line of lines) take(...fromLine(line, x, y), 0);
  for (const { at, radius } of points) take(x - at[0], y - at[1], radius);
  for (const area of areas) {
    const { outline } = area;
    if (holds(area, x, y)) return { away: 0, nx: 0, ny: 0 };
    for (let i = 0, j = outline.length - 2; i < outline.length; j = i, i += 2)
      take(...fromLine({ x0: outline[j], y0: outline[j + 1], x1: outline[i], y1: outline[i + 1] }, x, y), 0);
  }
  return found;
}

/** How broad a ring is in the direction of a unit vector. */
function extentAlong(ring: Float64Array, ux: number, uy: number): number {
  let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let i = 0; i < ring.length; i += 2) {
    const at = ring[i] * ux + ring[i + 1] * uy;
    least = Math.min(least, at);
    most = Math.max(most, at);
  }
  return most - least;
}
