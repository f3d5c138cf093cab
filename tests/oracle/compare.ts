/** The oracle's verdicts beside the program's, of one figure. */
import { compareChains, hasChain, ofChain } from './chains.js';
import { apart, boxOf, type Crossing, crossing, type Placed } from './crossing.js';
import { type Crease, type Figure, Locked, reference, type Scene, sceneAt } from './rigid.js';
import { type Area, areaOf, type Card, cardsOf, differing, without } from './shapes.js';
import { overhang, pile, standsUp } from './shut.js';
import { roomOf } from './slots.js';
import { at, cross, dot, far, type P2, RAD, type V3, within } from './space.js';

/** Of a scorecard, what the oracle has a word on: mm, degrees. */
export interface Scorecard {
  locks: { pageAngle: number; part: string } | null;
  bind: { misfit: number };
  chains: { pull: { value: number } };
  slots: { slot: string; room: number; crosses: boolean }[];
  flat: Record<'residue' | 'overhang' | 'pile' | 'openResidue', number>;
  clash: { deepest: number; pageAngle: number; between: [string, string] };
}

/** What `check --poses` writes. */
export interface Poses {
  panels: { name: string; outline: P2[]; holes: P2[][] }[];
  frames: { pageAngle: number; poses: number[][] }[];
  scorecard: Scorecard;
}

export interface Compared {
  /** What the oracle and the program say differently. */
  disagreements: string[];
  /** Why the oracle says nothing of this figure. */
  passedOver: string | null;
  crosses: boolean;
  locks: boolean;
}

const THICK = 0.3;
/** From this page angle down the book counts as shut; and a pair that crosses at less than this is excused in part. */
const SHUT = 2.5;
const STEEP = 60;
const PRESS = 0.3;

/** @param step how far apart the page angles are at which poses and crossings are looked at, an even number of degrees */
export function compare(figure: Figure, program: Poses, step = 2): Compared {
  const disagreements: string[] = [];
  const told = { disagreements, passedOver: null as string | null, crosses: false, locks: false };
  const { scorecard } = program;
  const known = reference(figure);
  if (known === null) return { ...told, passedOver: 'the oracle finds no page angle at which it stands' };
  const scenes = new Map<number, Scene>();
  const locks = opened(figure, known, scenes, step);
  if (throughFlat(figure, [...scenes.values()]))
    return { ...told, passedOver: 'a crease passes through flat' };
  told.locks = locks !== null;
  const said = scorecard.locks;
  const LOCK = 0.1;
  if (
    (said === null) !== (locks === null) ||
    (said && locks && Math.abs(said.pageAngle - locks.pageAngle) > LOCK)
  )
    disagreements.push(`locks: oracle ${JSON.stringify(locks)}, program ${JSON.stringify(said)}`);
  const cards = cardsOf(figure, known);
  if (locks === null && [...scenes.values()].some(({ forced }) => forced))
    return { ...told, passedOver: 'forced, but no lock' };
  for (const [pageAngle, scene] of scenes) if (scene.forced) scenes.delete(pageAngle);
  if (scenes.size === 0 || program.frames.length === 0) return told;
  const chained = hasChain(figure);
  if (chained) compareChains(figure, program, scenes, disagreements);
  comparePoses(figure, program, scenes, cards, disagreements);
  if (disagreements.length > 0) return told;
  const misfit = Math.max(...[...scenes.values()].map((scene) => scene.misfit));
  if (locks === null && !chained && Math.abs(misfit - scorecard.bind.misfit) > 1e-4 + misfit / 100)
    disagreements.push(`misfit: oracle ${misfit}, program ${scorecard.bind.misfit}`);
  compareSlots(
    figure,
    program,
    (pageAngle) => scenes.get(pageAngle) ?? sceneAt(figure, pageAngle, known),
    cards,
    disagreements,
  );
  if (locks === null && !chained) compareFlat(figure, scorecard.flat, scenes, cards, disagreements);
  told.crosses = compareCrossing(figure, scorecard, scenes, cards, known, disagreements);
  return told;
}

/** All scenes from the open page on, and where it locks, to 0.01°. */
function opened(
  figure: Figure,
  known: Scene,
  scenes: Map<number, Scene>,
  step: number,
): { pageAngle: number; part: string } | null {
  const lockAt = (pageAngle: number): string | null => {
    try {
      scenes.set(pageAngle, sceneAt(figure, pageAngle, known));
      return null;
    } catch (error) {
      if (!(error instanceof Locked)) throw error;
      return error.part;
    }
  };
  for (let pageAngle = 180; pageAngle >= 0; pageAngle -= step) {
    let part = lockAt(pageAngle);
    if (part === null) continue;
    let [free, stuck] = [pageAngle + step, pageAngle];
    while (free <= 180 && free - stuck > 0.01) {
      const middle = (free + stuck) / 2;
      const there = lockAt(middle);
      scenes.delete(middle);
      if (there === null) free = middle;
      else [stuck, part] = [middle, there];
    }
    return { pageAngle: stuck, part };
  }
  return null;
}

/** Whether a crease on which something stands folds from one side to the other on the way. */
function throughFlat({ parts }: Figure, scenes: Scene[]): boolean {
  return parts.some((part) => {
    const first = scenes[0]?.creases.get(part.on ?? '');
    if (first === undefined || part.kind === 'glued-piece') return false;
    const signs = scenes.slice(1, -1).map((scene) => {
      const { e, a, b } = scene.crease(part);
      const side = dot(cross(a, b), e);
      return Math.abs(side) < 1e-5 ? 0 : Math.sign(side);
    });
    return signs.includes(1) && signs.includes(-1);
  });
}

const inWorld = (p: number[], [x, y]: P2): V3 => [
  p[0] * x + p[1] * y + p[3],
  p[4] * x + p[5] * y + p[7],
  p[8] * x + p[9] * y + p[11],
];

/** Outlines in the open figure, then that every corner of them goes where the oracle's panel goes. */
function comparePoses(
  figure: Figure,
  program: Poses,
  scenes: Map<number, Scene>,
  cards: Card[],
  told: string[],
): void {
  const names = new Set(program.panels.map(({ name }) => name));
  for (const { name } of cards) if (!names.has(name)) told.push(`the program has no panel '${name}'`);
  program.panels.forEach(({ name }, k) => {
    if (ofChain(figure, name)) return;
    const card = cards.find((one) => one.name === name);
    const differs =
      card === undefined ? `the oracle has no panel '${name}'` : panelDiffers(program, k, card, scenes);
    if (differs !== null) told.push(differs);
  });
}

function panelDiffers(program: Poses, k: number, card: Card, scenes: Map<number, Scene>): string | null {
  const { name, outline, holes } = program.panels[k];
  const first = program.frames.find(({ pageAngle }) => scenes.has(pageAngle));
  if (first === undefined) return null;
  const there = (scenes.get(first.pageAngle) as Scene).panel(card.in);
  const laid = (ring: P2[]) => ring.map((p) => within(there, inWorld(first.poses[k], p)));
  const area: Area = [[laid(outline), ...holes.map(laid)]];
  const differs = areaOf(differing(area, card.area));
  if (cutBack(area, card)) card.area = area;
  else if (differs > 0.02)
    return `outline of '${name}' differs by ${differs.toFixed(3)} mm²: oracle ${JSON.stringify(card.area)}, program ${JSON.stringify(area)}`;
  for (const { pageAngle, poses } of program.frames) {
    const frame = scenes.get(pageAngle)?.panel(card.in);
    if (frame === undefined) continue;
    const off = Math.max(...outline.map((p, i) => far(inWorld(poses[k], p), at(frame, area[0][0][i]))));
    // Where all lies flat, a height is the root of a number that is as good as nothing.
    const flat = pageAngle === 0 || pageAngle === 180;
    if (!(off <= (flat ? 2e-5 : 1e-6)))
      return `'${name}' at ${pageAngle}° is off by ${off.toExponential(1)} mm`;
  }
  return null;
}

/** How exactly a tab is cut back at an edge the docs leave open; but it lies in its strip, and loses little that lies on card,
 *  more than 2 mm from its edges and from the parent crease. One that would hardly lie on card at all stays as it is, and is told as badly glued. */
function cutBack(tab: Area, { strip, area, sure }: Card): boolean {
  if (strip === null || areaOf(without(tab, strip)) > 0.02) return false;
  const least = areaOf(area) < areaOf(strip) / 2 ? 0 : areaOf(sure) / 2;
  return areaOf(tab) >= least - 2;
}

const placed = (card: Card, scene: Scene): Placed => ({ area: card.area, frame: scene.panel(card.in) });

function compareFlat(
  figure: Figure,
  flat: Scorecard['flat'],
  scenes: Map<number, Scene>,
  cards: Card[],
  told: string[],
): void {
  const figures = cards.slice(2);
  const lies = (pageAngle: number) => figures.map((card) => placed(card, scenes.get(pageAngle) as Scene));
  const shut = lies(0);
  const same = (what: string, oracle: number, said: number, most: number) => {
    if (!(Math.abs(oracle - said) <= most)) told.push(`${what}: oracle ${oracle}, program ${said}`);
  };
  same('overhang', overhang(figure, shut), flat.overhang, 1e-4);
  same('residue', standsUp(shut), flat.residue, 1e-4);
  same('stands when open', standsUp(lies(180)), flat.openResidue, 1e-4);
  const { least, most } = pile(shut);
  if (flat.pile < least * THICK - 1e-6 || flat.pile > most * THICK + 1e-6)
    told.push(`pile: oracle ${least} to ${most} cards, program ${flat.pile / THICK}`);
}

function compareSlots(
  { parts }: Figure,
  { frames, scorecard }: Poses,
  sceneOf: (pageAngle: number) => Scene,
  cards: Card[],
  told: string[],
): void {
  for (const { name, kind, on, passes, outline } of parts) {
    if (kind !== 'slot') continue;
    const [passing, panel] = [passes, on].map((card) => cards.find((one) => one.name === card) as Card);
    const there = frames.map(({ pageAngle }) => sceneOf(pageAngle));
    const oracle = roomOf(passing, panel, outline, there);
    const said = scorecard.slots.find(({ slot }) => slot === name);
    if (said === undefined || said.crosses !== (oracle !== null))
      told.push(`slot: oracle ${oracle}, program ${JSON.stringify(said)}`);
    else if (oracle !== null && Math.abs(oracle - said.room) > Math.max(0.5, Math.abs(oracle) / 4))
      told.push(`room in the slot: oracle ${oracle.toFixed(2)}, program ${said.room.toFixed(2)} mm`);
  }
}

/** @returns whether the program or the oracle finds a catch */
function compareCrossing(
  figure: Figure,
  scorecard: Scorecard,
  scenes: Map<number, Scene>,
  cards: Card[],
  known: Scene,
  told: string[],
): boolean {
  const body = (card: Card): string => {
    const under = card.glued === null ? undefined : cards.find(({ name }) => name === card.glued);
    return under === undefined ? card.name : body(under);
  };
  const bodies = cards.map(body);
  let worst: (Crossing & { what: string }) | null = null;
  for (const [pageAngle, scene] of scenes) {
    if (pageAngle < SHUT) continue;
    const there = cards.map((card) => placed(card, scene));
    const boxes = there.map(boxOf);
    for (let a = 0; a < cards.length; a++)
      for (let b = Math.max(a + 1, 2); b < cards.length; b++) {
        if (bodies[a] === bodies[b] || apart(boxes[a], boxes[b])) continue;
        const found = crossing(there[a], there[b]);
        if (found === null || found.degrees < STEEP || found.push < PRESS + 0.1) continue;
        if (worst === null || found.depth > worst.depth)
          worst = { ...found, what: `${cards[a].name} and ${cards[b].name} at ${pageAngle}°` };
      }
  }
  const { deepest, between, pageAngle } = scorecard.clash;
  const through = foldsThrough([...scenes.values()]);
  if (through.length > 0 && !(deepest > 0)) told.push(`missed: ${through} folds through what it stands on`);
  const near = (depth: number) => Math.max(0.5, depth / 4);
  if (worst !== null && !(deepest >= worst.depth - near(worst.depth)))
    told.push(
      `missed: ${worst.what} cross by ${worst.depth.toFixed(2)} mm, push ${worst.push.toFixed(2)}, ${worst.degrees.toFixed(0)}°; program ${deepest} ${between} at ${pageAngle}°`,
    );
  if (deepest > 0 && !between.some((name) => ofChain(figure, name))) {
    const scene = sceneAt(figure, pageAngle, known);
    const [a, b] = between.map((name: string) => cards.find((card) => card.name === name) as Card);
    const found = crossing(placed(a, scene), placed(b, scene));
    const folded = through.some((name) => between.includes(name));
    if (!folded && (found === null || Math.abs(found.depth - deepest) > near(deepest)))
      told.push(
        `invented: ${between.join(' and ')} at ${pageAngle}° by ${deepest.toFixed(2)} mm; oracle ${JSON.stringify(found)}`,
      );
  }
  return worst !== null || through.length > 0 || deepest > 0;
}

/** Panels that pass through what their foot stands on: by more than the 9° that are excused. */
function foldsThrough(scenes: Scene[]): string[] {
  const feet = [...scenes[0].creases.keys()].filter((name) => name.endsWith(' foot inner'));
  return feet
    .filter((foot) => {
      const turns = scenes.map((scene) => {
        const { e, a, b } = scene.creases.get(foot) as Crease;
        return Math.atan2(dot(cross(a, b), e), dot(a, b)) / RAD;
      });
      // From 0 to 180° on the one side, and never on the other.
      return turns.some((turn) => turn > 9 && turn < 171) && turns.some((turn) => turn < -9 && turn > -171);
    })
    .map((foot) => foot.replace(' foot inner', ''));
}
