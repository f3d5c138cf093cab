/** The outline of every panel, in its own coordinates, from the figure file alone; and what is glued to what. */
import {
  Clipper,
  ClipperD,
  ClipType,
  EndType,
  FillRule,
  JoinType,
  type PolyPathD,
  PolyTreeD,
} from 'clipper2-ts';
import { hinge } from './carried.js';
import { type Crease, type Figure, type Part, type Scene, sectors, widthsOf } from './rigid.js';
import {
  add,
  at,
  cross,
  type Frame,
  normal,
  type P2,
  RAD,
  size,
  squareTo,
  sub,
  times,
  unit,
  within,
} from './space.js';

/** Rings of a flat area: of each part of it the outline, then its holes. */
export type Area = P2[][][];

export interface Card {
  name: string;
  /** The panel in whose coordinates `area` is: a tab's is the panel that it is glued to, and moves with. */
  in: string;
  /** What it is glued flat to: it moves with that. */
  glued: string | null;
  area: Area;
  /** Of a tab: its area before it is cut back to what it is glued to. */
  strip: Area | null;
  /** And what is left of it at the least: more than 2 mm from the edges of that, and from the crease that its part stands on. */
  sure: Area;
}

const ring = (...points: P2[]): Area => [[points]];

export const areaOf = (area: Area): number =>
  area.reduce(
    (sum, [outline, ...holes]) =>
      sum + Math.abs(shoelace(outline)) - holes.reduce((s, hole) => s + Math.abs(shoelace(hole)), 0),
    0,
  );

function shoelace(points: P2[]): number {
  let sum = 0;
  points.forEach(([x, y], i) => {
    const [u, v] = points[(i + 1) % points.length];
    sum += x * v - u * y;
  });
  return sum / 2;
}

export const common = (a: Area, b: Area): Area => clipped(ClipType.Intersection, a, b);
export const without = (a: Area, b: Area): Area => clipped(ClipType.Difference, a, b);
export const differing = (a: Area, b: Area): Area => clipped(ClipType.Xor, a, b);

/** Clipper, to a millionth of a millimetre. */
function clipped(how: ClipType, a: Area, b: Area): Area {
  const clipper = new ClipperD(6);
  clipper.addSubjectPaths(pathsOf(a));
  clipper.addClipPaths(pathsOf(b));
  const tree = new PolyTreeD();
  clipper.execute(how, FillRule.EvenOdd, tree);
  const parts: Area = [];
  const take = (outline: PolyPathD) => {
    const holes = childrenOf(outline);
    parts.push([outline, ...holes].map(({ poly }) => (poly ?? []).map(({ x, y }): P2 => [x, y])));
    for (const hole of holes) childrenOf(hole).forEach(take);
  };
  childrenOf(tree).forEach(take);
  return parts;
}

/** What is left of an area more than so many mm from its edges. */
export function inset(area: Area, by: number): Area {
  const rings = Clipper.inflatePathsD(pathsOf(area), -by, JoinType.Miter, EndType.Polygon, 4, 6);
  return rings.map((ring) => [ring.map(({ x, y }): P2 => [x, y])]);
}

const pathsOf = (area: Area) => area.flat().map((ring) => ring.map(([x, y]) => ({ x, y })));
const childrenOf = (of: PolyPathD): PolyPathD[] => Array.from({ length: of.count }, (_, i) => of.child(i));

/** An area in one panel's coordinates, in those of another that lies in the same plane. */
export const moved = (area: Area, from: Frame, to: Frame): Area =>
  area.map((rings) => rings.map((points) => points.map((p) => within(to, at(from, p)))));

/** All cards of a figure; the scene gives where lines of the one lie on the other. */
export function cardsOf(figure: Figure, scene: Scene): Card[] {
  const { width, height } = figure.page;
  const cards = new Map<string, Card>();
  const put = (name: string, area: Area, glued: string | null = null) =>
    cards.set(name, { name, in: name, glued, area, strip: null, sure: area });
  put('left page', ring([-width, 0], [0, 0], [0, height], [-width, height]));
  put('right page', ring([0, 0], [width, 0], [width, height], [0, height]));
  const tabs: (() => void)[] = [];
  /** A tab along a glue line on a panel: along `lies.u` from its origin, to the side of `lies.v`. */
  const tab = (name: string, on: string, lies: Frame, from: number, to: number, part: Part, number = '') => {
    const { tab: given } = part;
    const wide = given?.width ?? 8;
    // A short tab keeps a fifth of its length: its ends are then cut steeper.
    const cut = Math.min(wide / Math.tan((given?.mitre ?? 45) * RAD), 0.4 * (to - from));
    const side = given?.side === 'outer' ? -1 : 1;
    const lying = ring([from, 0], [to, 0], [to - cut, side * wide], [from + cut, side * wide]);
    const strip = moved(lying, lies, scene.panel(on));
    tabs.push(() => {
      const card = (cards.get(on) as Card).area;
      const lasts = (off: number) => common(strip, offCrease(scene, part, on, inset(card, off), off));
      const called = `${name} tab${number}`;
      cards.set(called, { name: called, in: on, glued: on, area: lasts(0), strip, sure: lasts(2) });
    });
  };
  for (const part of figure.parts) outline(part, scene, put, tab, cards);
  for (const glue of tabs) glue();
  return [...cards.values()];
}

type Put = (name: string, area: Area, glued?: string | null) => void;
/** What of an area on a panel lies so far on its own side of the crease that a fold stands on. */
function offCrease(scene: Scene, part: Part, on: string, area: Area, off: number): Area {
  if (!['v-fold', 'parallel-fold', 'counter-fold'].includes(part.kind)) return area;
  const { o, e, a, b, left, right } = scene.crease(part);
  const away = on === left ? a : on === right ? b : null;
  if (away === null) return area;
  const LONG = 500;
  const lies = { o, u: e, v: away };
  const side = ring([-LONG, off], [LONG, off], [LONG, LONG], [-LONG, LONG]);
  return common(area, moved(side, lies, scene.panel(on)));
}

type Tab = (
  name: string,
  on: string,
  lies: Frame,
  from: number,
  to: number,
  part: Part,
  number?: string,
) => void;

function outline(part: Part, scene: Scene, put: Put, tab: Tab, found: Map<string, Card>): void {
  const { name } = part;
  const under = (side: string, crease: Crease) => (side === 'left' ? crease.left : crease.right);
  if (part.kind === 'v-fold') {
    const { feet, ridge, start = 0 } = part;
    const crease = scene.crease(part);
    const e = part.toward === 'start' ? times(crease.e, -1) : crease.e;
    ['left', 'right'].forEach((side, k) => {
      const p = sectors(part).p[k];
      const top = (r: number): P2 => [r * Math.cos(p * RAD), r * Math.sin(p * RAD)];
      const inner: P2[] = start > 0 ? [top(start), [start, 0]] : [[0, 0]];
      const drawn = part.outlines?.[side];
      put(
        `${name} ${side}`,
        drawn ? [[drawn.polygon, ...drawn.holes]] : ring(...inner, [feet[k], 0], top(ridge)),
      );
      const { o, u } = scene.panel(`${name} ${side}`);
      tab(`${name} ${side}`, under(side, crease), { o, u, v: squareTo(u, e) }, start, feet[k], part);
    });
  }
  if (part.kind === 'parallel-fold') {
    const { length, shape } = part;
    const crease = scene.crease(part);
    ['left', 'right'].forEach((side, k) => {
      const box = (wide: number) => ring([0, 0], [length, 0], [length, wide], [0, wide]);
      const off = side === 'left' ? crease.a : crease.b;
      const foot = (panel: string) => {
        const { o, u } = scene.panel(panel);
        tab(panel, under(side, crease), { o, u, v: times(off, -1) }, 0, length, part);
      };
      put(`${name} ${side}`, box(widthsOf(part)[k]));
      foot(`${name} ${side}`);
      if (shape !== 'layer') return;
      put(`${name} layer ${side}`, box(part.layers[k]));
      const layer = scene.panel(`${name} layer ${side}`);
      tab(`${name} ${side} top`, `${name} layer ${side}`, layer, 0, length, {
        ...part,
        tab: { ...part.tab, side: 'inner' },
      });
      put(`${name} wall ${side}`, box(widthsOf(part)[k]));
      foot(`${name} wall ${side}`);
    });
  }
  if (part.kind === 'counter-fold') {
    const { side: along, length, diagonal, triangle = diagonal } = part;
    const crease = scene.crease(part);
    const e = part.toward === 'start' ? times(crease.e, -1) : crease.e;
    const own = part.fold === 'out' || part.triangle !== undefined || !sameSheet(crease);
    for (const side of ['left', 'right']) {
      const tip: P2 = [length * Math.cos(triangle * RAD), length * Math.sin(triangle * RAD)];
      put(`${name} ${side}`, ring([0, 0], [along, 0], tip));
      const { o, u } = scene.panel(`${name} ${side}`);
      const on = under(side, crease);
      if (own) {
        tab(`${name} ${side}`, on, { o, u, v: squareTo(u, e) }, 0, along, part);
        continue;
      }
      const flap = [o, add(o, u, along), add(o, e, length)].map((p) => within(scene.panel(on), p));
      const card = found.get(on) as Card;
      card.area = without(card.area, [[flap]]);
    }
  }
  if (part.kind === 'strut') {
    const [foot, top] = [hinge(scene, part.foot), hinge(scene, part.top)].map((ends) =>
      ends.map((p) => within(scene.panel(name), p)),
    );
    put(name, ring(foot[0], foot[1], top[1], top[0]));
    // The inner side of a line is the left one as it runs on its panel; on the right panel of a fold the other.
    for (const end of ['foot', 'top']) {
      const side = / right$/.test(part[end].panel) ? 'outer' : 'inner';
      tabAtLine(scene, tab, `${name} ${end}`, part[end], { ...part, tab: { side } });
    }
  }
  if (part.kind === 'plate') {
    const { supports, margin = 5 } = part;
    const frame = scene.panel(name);
    const lines: P2[][] = supports.map(
      (support: Part['foot']) => support.meets ?? hinge(scene, support).map((p) => within(frame, p)),
    );
    const [xs, ys] = [0, 1].map((k) => lines.flat().map((p) => p[k]));
    const [x0, x1] = [Math.min(...xs) - margin, Math.max(...xs) + margin];
    const [y0, y1] = [Math.min(...ys) - margin, Math.max(...ys) + margin];
    put(name, ring([x0, y0], [x1, y0], [x1, y1], [x0, y1]));
    // What it stands on is glued under it: towards the other hinges.
    lines.forEach((line, k) => {
      const inwards = k === 0 ? 1 : -1;
      const way = line[0][0] < line[1][0] ? inwards : -inwards;
      const at = { panel: name, line };
      tabAtLine(
        scene,
        tab,
        name,
        at,
        { ...part, tab: { ...part.tab, side: way > 0 ? 'inner' : 'outer' } },
        ` ${k + 1}`,
      );
    });
  }
  if (part.kind === 'cover-flap') {
    const [first, end] = part.edge.line;
    const long = Math.hypot(end[0] - first[0], end[1] - first[1]);
    const cut = Math.min(part.depth, 0.2 * long);
    put(name, ring([0, 0], [long, 0], [long - cut, part.depth], [cut, part.depth]), part.edge.panel);
  }
  if (part.kind === 'slot') {
    const on = found.get(part.on) as Card;
    on.area = without(on.area, [[part.outline]]);
  }
  if (part.kind === 'tongue') {
    const { slit, width = 2.7 } = part;
    const [first, end] = hinge(scene, slit);
    const u = unit(sub(end, first));
    const on = scene.panel(slit.panel);
    const half = width / 2;
    const [from, to] = [-half, size(sub(end, first)) + half];
    const cut = ring([from, -half], [to, -half], [to, half], [from, half]);
    const card = found.get(slit.panel) as Card;
    card.area = without(card.area, moved(cut, { o: first, u, v: cross(normal(on), u) }, on));
  }
  if (part.kind === 'glued-piece') put(name, ring(...part.outline), part.on);
  if (part.kind === 'stiffener') {
    const [w, h] = part.size;
    put(name, ring([0, 0], [w, 0], [w, h], [0, h]), part.on);
  }
}

function tabAtLine(scene: Scene, tab: Tab, name: string, at: Part['foot'], part: Part, number = ''): void {
  const [first, end] = hinge(scene, at);
  const u = unit(sub(end, first));
  const on = scene.panel(at.panel);
  tab(name, at.panel, { o: first, u, v: cross(normal(on), u) }, 0, size(sub(end, first)), part, number);
}

/** Whether both panels at a crease are of one piece: pages, or the two sides of one fold. */
function sameSheet({ left, right }: Crease): boolean {
  const sheet = (panel: string) => panel.replace(/ ?(layer )?(left|right)( page)?$/, '');
  return sheet(left) === sheet(right);
}
