/**
 * Where every panel of a figure is at a page angle, from the figure file alone: each new crease is where three spheres
 * meet, since card does not stretch; of the two points where they do, `points` or `fold` says which.
 */
import { coverFlap, glued, plate, strut } from './carried.js';
import {
  add,
  cross,
  dot,
  type Frame,
  far,
  RAD,
  size,
  spheresMeet,
  squareTo,
  sub,
  times,
  turned,
  unit,
  type V3,
} from './space.js';

/** A part as it stands in the figure file. */
export interface Part {
  name: string;
  kind: string;
  // biome-ignore lint/suspicious/noExplicitAny: what a figure file holds, by kind
  [field: string]: any;
}
export interface Figure {
  page: { width: number; height: number };
  parts: Part[];
  limits?: Record<string, unknown>;
}

/** A line on which something can stand: its beginning, its way, and into which way either panel goes off from it. */
export interface Crease {
  o: V3;
  e: V3;
  a: V3;
  b: V3;
  left: string;
  right: string;
}

/** The parts of a figure with their twins written out: a twin is like another part but for the fields that it gives itself. */
export function withTwins(figure: Figure): Figure {
  const parts = new Map<string, Part>();
  for (const part of figure.parts) {
    const { 'twin of': other, ...own } = part;
    parts.set(part.name, other === undefined ? part : ({ ...parts.get(other), ...own } as Part));
  }
  return { ...figure, parts: [...parts.values()] };
}

/** What would have to be forced by more than 3 mm or 3°. */
export class Locked extends Error {
  constructor(readonly part: string) {
    super(part);
  }
}
const MOST_FORCED = 3;

/** All panels and creases at one page angle. */
export class Scene {
  readonly panels = new Map<string, Frame>();
  readonly creases = new Map<string, Crease>();
  /** To which side of its crease's left panel the right one is folded: 1 or −1; what stands on it goes by it. */
  readonly senses = new Map<string, number>();
  readonly ridges = new Map<string, V3>();
  /** Whether a part is forced: then where its panels go the oracle does not know. */
  forced = false;
  /** mm: the worst that a plate misses one of its further supports by. */
  misfit = 0;

  /** @param known a scene at another page angle: senses are taken from it, and flat ends lie nearest to it */
  constructor(
    readonly figure: Figure,
    readonly pageAngle: number,
    readonly known: Scene | null = null,
  ) {
    const right: V3 = [-Math.cos(pageAngle * RAD), 0, Math.sin(pageAngle * RAD)];
    this.panels.set('left page', { o: [0, 0, 0], u: [1, 0, 0], v: [0, 1, 0] });
    this.panels.set('right page', { o: [0, 0, 0], u: right, v: [0, 1, 0] });
    this.creases.set('gutter', {
      ...{ o: [0, 0, 0], e: [0, 1, 0], a: [-1, 0, 0], b: right },
      ...{ left: 'left page', right: 'right page' },
    });
    for (const part of figure.parts) PLACERS[part.kind](this, part);
  }

  panel(name: string): Frame {
    const frame = this.panels.get(name);
    if (frame === undefined) throw new Error(`no panel ${name}`);
    return frame;
  }

  crease(part: Part): Crease {
    const crease = this.creases.get(part.on ?? 'gutter');
    if (crease === undefined) throw new Error(`no crease ${part.on}`);
    return crease;
  }

  sense(part: Part, { e, a, b }: Crease): number {
    const sense = this.known?.senses.get(part.name) ?? Math.sign(dot(cross(e, a), b));
    this.senses.set(part.name, sense);
    return sense;
  }

  /** A triangle with two sides that are given closes over a third, or is forced by so much. */
  closes(part: Part, third: number, one: number, other: number, most = Infinity): void {
    const forced = Math.max(Math.abs(one - other) - third, third - Math.min(one + other, most - one - other));
    if (forced > MOST_FORCED) throw new Locked(part.name);
    if (forced > 1e-5) this.forced = true;
  }

  /** The ridge of a part: of the two points where spheres meet the one on the side `side` of `up`. */
  ridge(part: Part, meet: ReturnType<typeof spheresMeet>, side: number, flat: () => [V3, V3]): V3 {
    let found: V3;
    if (meet === null) {
      // Both feet lie in one line, as when folded flat: then all lies in the plane of the panels, where it came from.
      const near = this.known?.ridges.get(part.name);
      // Where nothing is known yet another page angle is tried.
      if (near === undefined) throw new Locked(part.name);
      const [one, other] = flat();
      found = far(one, near) < far(other, near) ? one : other;
    } else {
      const height = meet.height2 < 1e-9 ? 0 : Math.sqrt(meet.height2);
      found = add(meet.foot, meet.up, side * height);
    }
    this.ridges.set(part.name, found);
    return found;
  }
}

/** A V-fold's glue angles and panel angles, with what the docs fill in. */
export function sectors({ glue, panels, points }: Part): { g: [number, number]; p: [number, number] } {
  const g: [number, number] = Array.isArray(glue) ? [glue[0], glue[1]] : [glue, glue];
  if (Array.isArray(panels)) return { g, p: [panels[0], panels[1]] };
  return { g, p: points === 'out' ? [180 - g[1], 180 - g[0]] : [g[1], g[0]] };
}

/** Two panels about a vertex: the new crease at p from either line. A ball of radius 10 mm, not of 1, to keep digits. */
function vertexCrease(
  scene: Scene,
  part: Part,
  crease: Crease,
  e: V3,
  angles: ReturnType<typeof sectors>,
): V3 {
  const { g, p } = angles;
  const [l, r] = [turned(e, crease.a, g[0]), turned(e, crease.b, g[1])];
  const BALL = 10;
  const chord = (angle: number) => 2 * BALL * Math.sin((angle * RAD) / 2);
  const sense = scene.sense(part, { ...crease, e });
  const side = (part.points ?? part.fold) === 'out' ? sense : -sense;
  scene.closes(part, Math.atan2(size(cross(l, r)), dot(l, r)) / RAD, p[0], p[1], 360);
  // It closes, but would stand between the shut pages: those force it flat, back over its crease or away from it.
  const offBy = Math.min(...[1, -1].map((way) => Math.abs(p[0] - p[1] + way * (g[0] - g[1]))));
  if (offBy > 1e-5 && offBy < 2 * MOST_FORCED) scene.forced = true;
  const meet = spheresMeet([0, 0, 0], times(l, BALL), times(r, BALL), BALL, chord(p[0]), chord(p[1]));
  const across = squareTo(l, e);
  return unit(
    scene.ridge(part, meet, side, () => [
      times(turned(l, across, p[0]), BALL),
      times(turned(l, across, -p[0]), BALL),
    ]),
  );
}

function vFold(scene: Scene, part: Part): void {
  const { name, toward, start = 0 } = part;
  const crease = scene.crease(part);
  const e = toward === 'start' ? times(crease.e, -1) : crease.e;
  const apex = add(crease.o, crease.e, part.at);
  const angles = sectors(part);
  const c = vertexCrease(scene, part, crease, e, angles);
  const sides = [
    ['left', crease.a, crease.left, angles.g[0]],
    ['right', crease.b, crease.right, angles.g[1]],
  ] as const;
  for (const [side, off, under, g] of sides) {
    const foot = turned(e, off, g);
    const frame = { o: apex, u: foot, v: squareTo(foot, c) };
    scene.panels.set(`${name} ${side}`, frame);
    const inner = squareTo(foot, e);
    footCreases(scene, `${name} ${side}`, under, add(apex, foot, start), foot, inner, frame.v);
  }
  scene.creases.set(`${name} ridge`, {
    o: add(apex, c, start),
    e: c,
    a: squareTo(c, scene.panel(`${name} left`).u),
    b: squareTo(c, scene.panel(`${name} right`).u),
    left: `${name} left`,
    right: `${name} right`,
  });
}

function footCreases(scene: Scene, name: string, under: string, o: V3, e: V3, inner: V3, up: V3): void {
  const line = { o, e, b: up, left: under, right: name };
  scene.creases.set(`${name} foot inner`, { ...line, a: inner });
  scene.creases.set(`${name} foot outer`, { ...line, a: times(inner, -1) });
}

/** Widths of a parallel fold's two panels, with what the docs fill in. */
export function widthsOf({ shape, glue, widths }: Part): [number, number] {
  if (shape === 'box' || widths === undefined) return [glue[1], glue[0]];
  return [widths[0], widths[1]];
}

function parallelFold(scene: Scene, part: Part): void {
  const { name, length, glue, shape = 'tent' } = part;
  const crease = scene.crease(part);
  const { e, a, b } = crease;
  const o = add(crease.o, e, part.at);
  const feet = [add(o, a, glue[0]), add(o, b, glue[1])] as const;
  const widths = widthsOf(part);
  const sense = scene.sense(part, crease);
  const [l, r] = feet;
  scene.closes(part, far(l, r), widths[0], widths[1]);
  const ridge =
    shape === 'box'
      ? add(l, b, glue[1])
      : scene.ridge(
          part,
          spheresMeet(l, add(l, e, length), r, widths[0], Math.hypot(widths[0], length), widths[1]),
          part.points === 'out' ? sense : -sense,
          () => [add(l, a, widths[0]), add(l, a, -widths[0])],
        );
  const sides = [
    ['left', a, crease.left, l, 0],
    ['right', b, crease.right, r, 1],
  ] as const;
  for (const [side, off, under, foot, k] of sides) {
    const frame = { o: foot, u: e, v: unit(sub(ridge, foot)) };
    scene.panels.set(`${name} ${side}`, frame);
    footCreases(scene, `${name} ${side}`, under, foot, e, times(off, -1), frame.v);
    if (shape !== 'layer') continue;
    // Floating panels stay parallel to the pages, so walls stay parallel to the tent's panels.
    const wall = add(foot, off, part.layers[k]);
    scene.panels.set(`${name} layer ${side}`, { o: ridge, u: e, v: off });
    scene.panels.set(`${name} wall ${side}`, { o: wall, u: e, v: frame.v });
    footCreases(scene, `${name} wall ${side}`, under, wall, e, times(off, -1), frame.v);
  }
  const lies = { o: ridge, e, a: unit(sub(l, ridge)), b: unit(sub(r, ridge)) };
  const floats = { o: ridge, e, a, b, left: `${name} layer left`, right: `${name} layer right` };
  scene.creases.set(
    `${name} ridge`,
    shape === 'layer' ? floats : { ...lies, left: `${name} left`, right: `${name} right` },
  );
}

function counterFold(scene: Scene, part: Part): void {
  const { name, toward, diagonal, triangle = diagonal } = part;
  const crease = scene.crease(part);
  const e = toward === 'start' ? times(crease.e, -1) : crease.e;
  const o = add(crease.o, crease.e, part.at);
  const m = vertexCrease(scene, part, crease, e, { g: [diagonal, diagonal], p: [triangle, triangle] });
  const across = [crease.a, crease.b].map((off) => turned(e, off, diagonal));
  ['left', 'right'].forEach((side, k) => {
    scene.panels.set(`${name} ${side}`, { o, u: across[k], v: squareTo(across[k], m) });
  });
  const [left, right] = [`${name} left`, `${name} right`];
  scene.creases.set(`${name} ridge`, {
    ...{ o, e: m, left, right },
    ...{ a: squareTo(m, across[0]), b: squareTo(m, across[1]) },
  });
}

const PLACERS: Record<string, (scene: Scene, part: Part) => void> = {
  'v-fold': vFold,
  'parallel-fold': parallelFold,
  'counter-fold': counterFold,
  'glued-piece': glued,
  stiffener: glued,
  'cover-flap': coverFlap,
  strut,
  plate,
  slot: () => {},
  link: () => {},
  pivot: () => {},
  tongue: () => {},
};

/** A page angle at which nothing lies flat, with all senses: what other page angles are worked out from. */
export function reference(figure: Figure): Scene | null {
  for (const pageAngle of [90, 120, 60, 150, 30, 170, 10])
    try {
      return new Scene(figure, pageAngle);
    } catch (error) {
      if (!(error instanceof Locked)) throw error;
    }
  return null;
}

/** A figure at a page angle. @throws Locked where rigid panels can't close */
export function sceneAt(figure: Figure, pageAngle: number, known: Scene): Scene {
  const flat = pageAngle === 0 || pageAngle === 180;
  const near = flat ? new Scene(figure, Math.abs(pageAngle - 0.3), known) : known;
  return new Scene(figure, pageAngle, near);
}
