import {
  after,
  boxOf,
  type Isometry,
  moved,
  movedRing,
  type Point,
  STILL,
  undoing,
} from '../../geometry/plane.js';
import { widePlace } from '../../geometry/room.js';
import type { Assembly } from '../../motion/assembly.js';
import { type Drawing, emptyDrawing, LEAST_TYPE } from '../drawn/drawing.js';
import type { Piece } from '../layout/piece.js';
import { type Bond, liesOn } from '../nets/bonds.js';
import type { Area, Net } from '../nets/net.js';
import { isPage, pairOf } from './groups.js';
import { writeLetter } from './step-drawing.js';
import type { Step } from './steps.js';

const MIRROR: Isometry = { c: -1, s: 0, x: 0, y: 0, flip: -1 };
/** No picture is larger than so many times the card. */
const LARGEST = 1.5;

/** Two pieces that are put together lying flat: one in its own coordinates, the other laid on it. */
interface Laid {
  readonly base: Net;
  readonly added: Net;
  readonly onBase: Isometry;
  /** The face of the base that lies up. */
  readonly face: 1 | -1;
}

/**
 * A step in which card lies flat on card on the mat, drawn as it lies there: the pieces look as on their sheets.
 * @returns null for a step of another sort
 */
export function drawFlatStep(
  assembly: Assembly,
  step: Step,
  pieces: readonly Piece[],
  letterOf: ReadonlyMap<Bond, string>,
  width: number,
  height: number,
): Drawing[] | null {
  const laid = laidIn(assembly, step);
  if (laid === null) return null;
  const { base, added, onBase, face } = laid;
  const up = face === 1 ? STILL : MIRROR;
  const [below, above] = [up, after(up, onBase)];
  const linesOf = (net: Net) => pieces.find((piece) => piece.net === net)?.lines;
  const [low, high] = [linesOf(base), linesOf(added)];
  if (low === undefined || high === undefined) return null;
  const box = boxOf([...movedRing(below, low.contours.flat()), ...movedRing(above, high.contours.flat())]);
  const across = box.right - box.left;
  const tall = box.high - box.low;
  const scale = Math.min(LARGEST, (width - 8) / across, (height - 12) / tall);
  const at = ([x, y]: Point): Point => [
    width / 2 + (x - box.left - across / 2) * scale,
    height / 2 + 2 + (y - box.low - tall / 2) * scale,
  ];
  const layers = [
    [low, below, 1],
    [high, above, 0.78],
  ] as const;
  const drawn = layers.map(([lines, place, grey]): Drawing => {
    const layer = emptyDrawing(width, height);
    const rings = [...lines.contours, ...lines.holes].map((ring) => movedRing(place, ring).map(at));
    layer.fills.push({ rings, grey });
    for (const points of rings) layer.strokes.push({ kind: 'note', points, closed: true });
    const open = (kind: 'note' | 'glue behind', [a, b]: readonly [Point, Point]) =>
      layer.strokes.push({ kind, points: [at(moved(place, a)), at(moved(place, b))], closed: false });
    for (const slit of lines.slits) open('note', slit);
    for (const { segment } of lines.creases) open('glue behind', segment);
    return layer;
  });
  const top = emptyDrawing(width, height);
  for (const ring of low.contours)
    top.strokes.push({ kind: 'glue behind', points: movedRing(below, ring).map(at), closed: true });
  const written = emptyDrawing(width, height);
  for (const bond of step.bonds) {
    const spot = bond.giver.net === base ? bond.giver : bond.receiver;
    const [patch] = [...spot.shapes].sort((a, b) => widePlace(b).radius - widePlace(a).radius);
    writeLetter(written, letterOf.get(bond) ?? '', at(moved(below, widePlace(patch).at)));
  }
  if (step.hub !== null) {
    const { panel, place } = areaOf(base, step.hub.panels) ?? { panel: -1, place: STILL };
    const own = step.hub.points[step.hub.panels.indexOf(panel)];
    if (own !== undefined) writeLetter(written, '●', at(moved(after(below, place), own)));
  }
  top.texts.push({
    at: [2, 1.5],
    text: face === 1 ? 'white: printed face up' : 'white: back up',
    size: LEAST_TYPE,
    anchor: 'left',
    turn: 0,
    bold: false,
  });
  return [...drawn, top, written];
}

const areaOf = (net: Net, panels: readonly number[]) =>
  net.areas.find(({ panel }) => panel >= 0 && panels.includes(panel));

/** How the two pieces of a step lie on each other, read off the open figure; null where they do not lie flat. */
function laidIn(assembly: Assembly, { where, kind, hub, face, bonds, nets }: Step): Laid | null {
  if (where !== 'mat') return null;
  if (kind === 'hub' && hub !== null) {
    const [base, added] = nets;
    const [under, over] = [areaOf(base, hub.panels), areaOf(added, hub.panels)];
    if (under === undefined || over === undefined) return null;
    return { base, added, onBase: onto(assembly, over, under), face: face === -1 ? -1 : 1 };
  }
  const [bond] = bonds;
  if (bond === undefined || bonds.some(({ of }) => of === 'tab')) return null;
  const [a, b] = pairOf(bond);
  const leaves = bonds.every(({ of }) => of === 'join') && isPage(a) && isPage(b);
  if (!leaves && bonds.some(({ of }) => of === 'join')) return null;
  if (a === b || !bonds.every((other) => [a, b].every((net) => pairOf(other).includes(net)))) return null;
  const added = nets[0];
  const base = added === a ? b : a;
  const spot = bond.giver.net === base ? bond.giver : bond.receiver;
  const [under, over] = [base, added].map((net) => {
    const own = bond.giver.net === net ? bond.giver : bond.receiver;
    const area = net.areas[own.area];
    return area.panel >= 0 ? area : net.areas.find(({ panel }) => panel >= 0);
  });
  if (under === undefined || over === undefined) return null;
  return { base, added, onBase: onto(assembly, over, under), face: spot.face };
}

/** From the net of what lies on top to the net of what it lies on. */
const onto = (assembly: Assembly, over: Area, under: Area): Isometry =>
  after(under.place, after(liesOn(assembly, over.panel, under.panel), undoing(over.place)));
