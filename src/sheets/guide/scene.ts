import { areaOf, inside, type Point, type Ring, type Shape, shapeOf } from '../../geometry/plane.js';
import type { Assembly } from '../../motion/assembly.js';
import type { Seen } from '../../view/depth-order.js';
import { type Eye, type Look, lookAt } from '../../view/look.js';
import type { Bond } from '../nets/bonds.js';
import type { Frames } from '../nets/fold-sense.js';

/** Drawn at the page angle nearest to this, degrees: open enough to see in, shut enough to see what stands. */
const SHOWN_AT = 110;

/** From the foot, a little aside, is where hands are; others are taken where more is seen. From the head last. */
const EYES: readonly Eye[] = [
  [0.3, 0.6],
  [-0.3, 0.6],
  [0.3, 1.1],
  [-0.3, 1.1],
  [0.9, 0.6],
  [-0.9, 0.6],
  [1.5, 0.7],
  [-1.5, 0.7],
  [2.8, 0.6],
  [-2.8, 0.6],
  [2.8, 1.1],
  [-2.8, 1.1],
].map(([aside, down]) => ({ aside, down }));

/** Eyes with more aside than this look from the head of the page, where no hands are: worth so much less. */
const FROM_HEAD = { aside: 2, less: 0.2 };

/** A place on a panel at which something is to be seen. */
export interface Mark {
  readonly panel: number;
  readonly at: Point;
}

/** The panels of a figure as they look from one place. */
export interface View {
  readonly panels: readonly Seen[];
  readonly look: Look;
  /** Which of two glued panels hides the other here, the hidden one first. */
  readonly hidden: readonly (readonly [number, number])[];
}

/** A figure half open, to be looked at from any side. */
export class Scene {
  readonly #frames: Frames;
  readonly #bonds: readonly Bond[];
  readonly #frame: number;
  readonly #shapes: readonly Shape[];
  readonly #seen = new Map<Eye, View>();

  constructor(assembly: Assembly, frames: Frames, bonds: readonly Bond[]) {
    this.#frames = frames;
    this.#bonds = bonds;
    const off = (i: number) => Math.abs(frames.pageAngles[i] - SHOWN_AT);
    this.#frame = frames.pageAngles.reduce((best, _, i) => (off(i) < off(best) ? i : best), 0);
    this.#shapes = assembly.panels.map(shapeOf);
  }

  /** The view in which most of the marks, and most of what is added, lie uncovered; the usual one where it is as good. */
  best(shown: readonly number[], added: readonly number[], marks: readonly Mark[]): View {
    let best = EYES[0];
    let most = Number.NEGATIVE_INFINITY;
    EYES.forEach((eye, i) => {
      const view = this.#from(eye);
      const own = added.reduce((sum, k) => sum + Math.abs(areaOf(view.panels[k].rings[0])), 0);
      const whole = added.reduce((sum, k) => sum + Math.abs(areaOf(this.#shapes[k].outline)), 0);
      const less = Math.abs(eye.aside) > FROM_HEAD.aside ? FROM_HEAD.less : 0;
      const open = marks.filter((mark) => !isCovered(view, mark, shown)).length;
      const worth = open / Math.max(1, marks.length) + (0.5 * own) / Math.max(1, whole) - 0.03 * i - less;
      if (worth > most + 1e-9) {
        most = worth;
        best = eye;
      }
    });
    return this.#from(best);
  }

  #from(eye: Eye): View {
    const known = this.#seen.get(eye);
    if (known !== undefined) return known;
    const look = lookAt(this.#frames.poses[this.#frame], this.#frames.pageAngles[this.#frame], eye);
    const panels = this.#shapes.map(({ outline, holes }, panel) => {
      const rings = [outline, ...holes].map((ring) => ring.map(([x, y]) => look(panel, x, y)));
      return {
        rings: rings.map((ring): Ring => ring.map(([x, y]) => [x, y])),
        depths: rings[0].map(([, , far]) => far),
      };
    });
    // Of two glued together, the giver hides the receiver where the receiver shows us the face that carries the glue.
    const hidden = this.#bonds.flatMap(({ giver, receiver }) => {
      const [under, over] = [receiver, giver].map(({ net, area }) => net.areas[area]);
      if (under.panel < 0 || over.panel < 0) return [];
      const shown = areaOf(panels[under.panel].rings[0]) > 0 ? 1 : -1;
      const pair = [under.panel, over.panel] as const;
      return [receiver.face * under.place.flip === shown ? pair : ([pair[1], pair[0]] as const)];
    });
    const view: View = { panels, look, hidden };
    this.#seen.set(eye, view);
    return view;
  }
}

/** Nearer to the eye by more than this counts as before something, mm. */
const BEFORE = 0.5;

/** Whether another panel lies before a mark. */
function isCovered({ panels, look }: View, { panel, at }: Mark, shown: readonly number[]): boolean {
  const [x, y, far] = look(panel, ...at);
  return shown.some((k) => {
    if (k === panel || !inside(panels[k].rings[0], [x, y])) return false;
    if (panels[k].rings.slice(1).some((hole) => inside(hole, [x, y]))) return false;
    const there = depthAt(panels[k], [x, y]);
    return there !== null && there < far - BEFORE;
  });
}

/** How far off a panel is at a point of the picture; null for one seen edge on. */
function depthAt({ rings: [ring], depths }: Seen, [x, y]: Point): number | null {
  const [[x0, y0]] = ring;
  let best = 1e-3;
  let depth: number | null = null;
  for (let i = 1; i + 1 < ring.length; i++) {
    const [ax, ay, az] = [ring[i][0] - x0, ring[i][1] - y0, depths[i] - depths[0]];
    const [bx, by, bz] = [ring[i + 1][0] - x0, ring[i + 1][1] - y0, depths[i + 1] - depths[0]];
    const turn = ax * by - ay * bx;
    if (Math.abs(turn) <= best) continue;
    best = Math.abs(turn);
    depth = depths[0] + ((az * by - bz * ay) * (x - x0) + (bz * ax - az * bx) * (y - y0)) / turn;
  }
  return depth;
}
