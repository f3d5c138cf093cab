import { Matrix4, Vector3 } from 'three';
import type { Assembly } from '../../src/motion/assembly.js';
import { Opening } from '../../src/motion/opening.js';
import { poseOf } from './in-space.js';
import { areaOf, away, type P, type ReadPiece, type ReadSheet, within } from './read-sheet.js';

/**
 * Folds printed sheets back to the model, from what is printed alone: which area is which panel is found by trying, and
 * then all creases must come together in space at every page angle. Shares no code with what made the sheets.
 */

/** Corners and creases must agree to this, mm. */
const AGREES = 0.01;

/** An area of a piece in space: which panel it turned out to be, and the motion from the sheet to that panel's plane. */
interface Folded {
  readonly area: readonly P[];
  readonly panel: number;
  readonly toPanel: Matrix4;
  /** +1 where the printed face is the panel's own. */
  readonly flip: 1 | -1;
}

export interface FoldedBack {
  /** What does not agree, in words; empty when the sheets give the model. */
  readonly faults: string[];
  /** How many areas were found to be panels, and how many creases and letters were looked at. */
  readonly panels: number;
  readonly creases: number;
  readonly letters: number;
  readonly worst: number;
}

interface Model {
  readonly assembly: Assembly;
  readonly frames: readonly Float64Array[];
  readonly rings: readonly P[][];
}

/** @returns null where the figure locks so early that there is nothing to fold. */
export function foldBack(assembly: Assembly, sheets: readonly ReadSheet[]): FoldedBack | null {
  const opening = new Opening();
  opening.run(assembly, 5);
  const frames = Array.from({ length: opening.count }, (_, i) => i)
    .filter((i) => i === 0 || i % 6 === 2)
    .map((i) => opening.frame(i).slice());
  if (frames.length < 3) return null;
  const rings = assembly.panels.map(({ outline }) =>
    Array.from({ length: outline.length / 2 }, (_, i): P => [outline[2 * i], outline[2 * i + 1]]),
  );
  const model: Model = { assembly, frames, rings };
  const pieces = inReach(sheets.flatMap((sheet) => sheet.pieces));
  // A piece that is its own mirror image, or looks alike turned about, can be laid in more than one way: glue tells.
  const ways = pieces.map((piece) => waysOf(model, piece));
  let best: FoldedBack | null = null;
  for (const first of ways[0] ?? []) {
    const chosen: Way[] = [first];
    for (const [i, some] of ways.entries()) {
      if (i === 0) continue;
      const taken = new Set(chosen.flatMap(({ folded }) => folded.map(({ panel }) => panel)));
      const free = some.filter(({ folded }) => folded.every(({ panel }) => !taken.has(panel)));
      const faults = free.map((way) => lettersOf(model, pieces, [...chosen, way]).faults.length);
      chosen.push(free[faults.indexOf(Math.min(...faults))] ?? NO_WAY);
    }
    const letters = lettersOf(model, pieces, chosen);
    const taken = new Set(chosen.flatMap(({ folded }) => folded.map(({ panel }) => panel)));
    const lost = assembly.panels.flatMap(({ name, role }, k) =>
      role === 'card' && !taken.has(k) ? [`'${name}' is on no sheet`] : [],
    );
    const faults = [
      ...chosen.flatMap((way, i) => way.faults.map((fault) => `piece ${pieces[i].number}: ${fault}`)),
      ...letters.faults,
      ...lost,
    ];
    if (best !== null && faults.length >= best.faults.length) continue;
    best = {
      faults,
      panels: taken.size,
      creases: chosen.reduce((sum, { creases }) => sum + creases, 0),
      letters: letters.count,
      worst: Math.max(...chosen.map(({ worst }) => worst)),
    };
  }
  return best;
}

/** Pieces in such an order that each has a letter in common with one before it: the page first, which is the largest. */
function inReach(pieces: readonly ReadPiece[]): ReadPiece[] {
  const size = ({ areas }: ReadPiece) => areas.reduce((sum, area) => sum + areaOf(area), 0);
  const left = [...pieces].sort((a, b) => size(b) - size(a));
  const order: ReadPiece[] = [];
  const known = new Set<string>();
  while (left.length > 0) {
    const next = Math.max(
      0,
      left.findIndex(({ letters }) => letters.some(({ letter }) => known.has(letter))),
    );
    const [piece] = left.splice(next, 1);
    for (const { letter } of piece.letters) known.add(letter);
    order.push(piece);
  }
  return order;
}

/** One way in which a piece can be the model's. */
interface Way {
  readonly folded: readonly Folded[];
  readonly faults: readonly string[];
  readonly creases: number;
  readonly worst: number;
}

const NO_WAY: Way = { folded: [], faults: [], creases: 0, worst: 0 };

/** The ways that agree best: most panels, fewest faults. A hub, say, has none. */
function waysOf(model: Model, piece: ReadPiece): Way[] {
  const areas = [...piece.areas].sort((a, b) => areaOf(b) - areaOf(a));
  for (const first of areas.slice(0, 2)) {
    const tried = [...matches(model, first)].map((start) => grow(model, piece, start));
    const worth = (way: Way) => 100 * way.folded.length - way.faults.length;
    const most = Math.max(...tried.map(worth));
    if (tried.length > 0) return tried.filter((way) => worth(way) === most);
  }
  return [NO_WAY];
}

/** From one area that is known, over every crease to the next. */
function grow(model: Model, piece: ReadPiece, start: Folded): Way {
  const { assembly, frames } = model;
  const folded = [start];
  const faults: string[] = [];
  const looked = new Set<ReadPiece['creases'][number]>();
  let creases = 0;
  let worst = 0;
  for (const from of folded)
    for (const crease of piece.creases) {
      if (looked.has(crease)) continue;
      const [a, b] = crease.line;
      const on = (ring: readonly P[]) => [a, b, mid(a, b)].every((p) => away(ring, p) < AGREES);
      if (!on(from.area)) continue;
      const area = piece.areas.find((other) => other !== from.area && on(other));
      if (area === undefined) continue;
      const name = assembly.panels[from.panel].name;
      const known = folded.find((other) => other.area === area);
      const used = new Set(folded.map(({ panel }) => panel));
      const choices =
        known !== undefined
          ? [known]
          : neighbours(model, from.panel, used).flatMap((k) => matchesOf(model, area, k));
      const here = frames.map((frame) => [a, b].map((p) => inSpace(frame, from, p)));
      const missOf = (to: Folded) =>
        Math.max(
          ...frames.flatMap((frame, i) =>
            [a, b].map((p, end) => here[i][end].distanceTo(inSpace(frame, to, p))),
          ),
        );
      const misses = choices.map(missOf);
      const off = Math.min(...misses);
      const to = choices[misses.indexOf(off)] ?? null;
      looked.add(crease);
      if (to === null) {
        // A tab that is made for the sheets alone, to join what had to be split.
        if (areaOf(area) > 2500) faults.push(`nothing is beyond a crease of '${name}'`);
        continue;
      }
      const loop = assembly.joints.some(
        (joint) =>
          joint.kind === 'crease' &&
          joint.closesLoop &&
          joint.between.includes(from.panel) &&
          joint.between.includes(to.panel),
      );
      if (!loop && off > AGREES) {
        if (known === undefined) continue;
        faults.push(
          `the crease between '${name}' and '${assembly.panels[to.panel].name}' gapes by ${off.toFixed(3)} mm`,
        );
      }
      if (!loop) worst = Math.max(worst, off);
      creases++;
      const angles = frames.map((frame) => foldAngle(frame, from, to, crease.line));
      const is = { valley: Math.max(...angles) > 1, mountain: Math.min(...angles) < -1 };
      const sure = angles.some((angle) => Math.abs(angle) < 179);
      const kind =
        is.valley && is.mountain ? 'both-ways' : is.valley ? 'valley' : is.mountain ? 'mountain' : 'flat';
      if (sure && kind !== crease.kind && !angles.some((angle) => Math.abs(angle) > 178))
        faults.push(
          `the crease between '${name}' and '${assembly.panels[to.panel].name}' is drawn ${crease.kind} and folds ${kind}`,
        );
      if (known === undefined) folded.push(to);
    }
  return { folded, faults, creases, worst };
}

/** Panels that share a crease with a panel; where there is none left, others of its piece: tongues share none. */
function neighbours({ assembly }: Model, panel: number, used: ReadonlySet<number>): number[] {
  const { piece } = assembly.panels[panel];
  const all = assembly.panels.flatMap((other, k) =>
    k !== panel && other.piece === piece && !used.has(k) ? [k] : [],
  );
  const creased = all.filter((k) =>
    assembly.joints.some(
      ({ kind, between }) => kind === 'crease' && between.includes(k) && between.includes(panel),
    ),
  );
  return creased.length > 0 ? creased : all;
}

function* matches(model: Model, area: readonly P[]): Generator<Folded> {
  for (let k = 0; k < model.rings.length; k++)
    if (model.assembly.panels[k].role === 'card') yield* matchesOf(model, area, k);
}

/** Every way in which an area of a sheet can be a panel: all its corners on the panel's edges, and the reverse. */
function matchesOf({ rings, assembly }: Model, area: readonly P[], panel: number): Folded[] {
  const ring = rings[panel];
  const isTab = assembly.panels[panel].role === 'tab';
  const [small, large] = [Math.abs(areaOf(area)), Math.abs(areaOf(ring))];
  // Tabs are cut back; of a panel its own area comes back, but for corners moved onto a crease.
  if (isTab ? small > large + 1 : Math.abs(small - large) > 0.02 * large + 1) return [];
  const found: Folded[] = [];
  const edges = area
    .map((p, i) => [p, area[(i + 1) % area.length]] as const)
    .sort((one, other) => length(other) - length(one))
    .slice(0, isTab ? 4 : 1);
  for (const [p, q] of edges)
    ring.forEach((u, i) => {
      const v = ring[(i + 1) % ring.length];
      if (!isTab && Math.abs(length([p, q]) - length([u, v])) > 0.3) return;
      for (const [from, to] of [
        [u, v],
        [v, u],
      ])
        for (const flip of [1, -1] as const)
          for (const anchor of isTab ? ([0, 1] as const) : ([0] as const)) {
            const toPanel = onto([p, q], [from, to], flip, anchor);
            const moved = area.map((at) => flat(toPanel, at));
            const fits = isTab
              ? moved.every((at) => within(ring, at) || away(ring, at) < AGREES)
              : moved.every((at) => away(ring, at) < MEANT) && ring.every((at) => away(moved, at) < MEANT);
            if (fits) found.push({ area, panel, toPanel, flip });
          }
    });
  return found;
}

/** Corners within this of a crease are moved onto it when a piece is cut, mm. */
const MEANT = 0.11;

const length = ([[ax, ay], [bx, by]]: readonly [P, P]) => Math.hypot(bx - ax, by - ay);
const mid = ([ax, ay]: P, [bx, by]: P): P => [(ax + bx) / 2, (ay + by) / 2];

/** The motion of the plane that lays one line on another, start on start (0) or end on end (1), mirrored or not. */
function onto([p, q]: readonly [P, P], [u, v]: readonly P[], flip: 1 | -1, anchor: 0 | 1): Matrix4 {
  const turn = Math.atan2(v[1] - u[1], v[0] - u[0]) - flip * Math.atan2(q[1] - p[1], q[0] - p[0]);
  const [at, to] = anchor === 0 ? [p, u] : [q, v];
  return new Matrix4()
    .makeTranslation(to[0], to[1], 0)
    .multiply(new Matrix4().makeRotationZ(turn))
    .multiply(new Matrix4().makeScale(1, flip, flip))
    .multiply(new Matrix4().makeTranslation(-at[0], -at[1], 0));
}

function flat(m: Matrix4, [x, y]: P): P {
  const at = new Vector3(x, y, 0).applyMatrix4(m);
  return [at.x, at.y];
}

const inSpace = (frame: Float64Array, { panel, toPanel }: Folded, [x, y]: P): Vector3 =>
  new Vector3(x, y, 0).applyMatrix4(toPanel).applyMatrix4(poseOf(frame, panel));

/** Degrees: 0 flat, positive where the printed faces come together. */
function foldAngle(frame: Float64Array, from: Folded, to: Folded, [a, b]: readonly [P, P]): number {
  const [p, q] = [a, b].map((at) => inSpace(frame, from, at));
  const e = q.sub(p).normalize();
  const front = (area: Folded) =>
    new Vector3(0, 0, 1).transformDirection(poseOf(frame, area.panel).multiply(area.toPanel));
  const [n1, n2] = [front(from), front(to)];
  // Which side of the line the first area lies on, on the sheet.
  const [mx, my] = mid(a, b);
  const long = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const beside: P = [mx - (0.05 * (b[1] - a[1])) / long, my + (0.05 * (b[0] - a[0])) / long];
  const left = within(from.area, beside) ? 1 : -1;
  return (Math.atan2(-left * n1.clone().cross(n2).dot(e), n1.dot(n2)) * 180) / Math.PI;
}

/** The two places of every letter lie on one another in space, the glued faces towards each other. */
function lettersOf({ assembly, frames }: Model, pieces: readonly ReadPiece[], ways: readonly Way[]) {
  const out = { faults: [] as string[], count: 0 };
  const places = new Map<string, { at: Folded; ring: readonly P[]; face: 1 | -1 }[]>();
  const count = new Map<string, number>();
  for (const [i, { folded }] of ways.entries())
    for (const { letter, behind, at } of pieces[i].letters) {
      count.set(letter, (count.get(letter) ?? 0) + 1);
      const own = folded.find(({ area }) => within(area, at));
      if (own === undefined) continue;
      const glue = pieces[i].glue
        .filter((area) => area.behind === behind && within(area.ring, at))
        .sort((a, b) => Math.abs(areaOf(a.ring)) - Math.abs(areaOf(b.ring)))[0];
      const place = { at: own, ring: glue?.ring ?? own.area, face: behind ? -1 : 1 } as const;
      places.set(letter, [...(places.get(letter) ?? []), place]);
    }
  for (const [letter, number] of count) {
    if (ways.length === pieces.length && number % 2 !== 0)
      out.faults.push(`${letter} is written ${number} times`);
    const two = places.get(letter) ?? [];
    if (number !== 2 || two.length !== 2) continue;
    out.count++;
    const [one, other] = two;
    const frame = frames[Math.floor(frames.length / 2)];
    const front = ({ at, face }: (typeof two)[number]) =>
      new Vector3(0, 0, face).transformDirection(poseOf(frame, at.panel).multiply(at.toPanel));
    if (front(one).dot(front(other)) > -0.999999)
      out.faults.push(
        `the faces of ${letter} do not look at each other: '${assembly.panels[one.at.panel].name}' and '${assembly.panels[other.at.panel].name}'`,
      );
    const back = poseOf(frame, other.at.panel).multiply(other.at.toPanel).invert();
    const far = one.ring.map((p) => {
      const at = inSpace(frame, one.at, p).applyMatrix4(back);
      return Math.max(Math.abs(at.z), away(other.ring, [at.x, at.y]));
    });
    if (Math.max(...far) > AGREES)
      out.faults.push(`the places of ${letter} are ${Math.max(...far).toFixed(3)} mm apart`);
  }
  return out;
}
