import {
  after,
  type Box,
  boxOf,
  distance,
  distanceTo,
  edgesOf,
  type Isometry,
  inside,
  movedRing,
  movedShape,
  onCard,
  type Point,
  type Ring,
  type Segment,
  type Shape,
} from '../../geometry/plane.js';
import { less } from '../../geometry/region.js';
import { clearOf, widePlace } from '../../geometry/room.js';
import { drawPiece, type Piece } from '../layout/piece.js';
import type { Placed } from '../layout/placed.js';
import { CAPITAL, type Drawing, emptyDrawing, LEAST_TYPE, type Text, widthOfText } from './drawing.js';
import { StrokeGrid } from './stroke-grid.js';

/** Sizes of type to try for a letter, a name and a number alone, mm. */
const LETTER_SIZES = [4, 3.4, LEAST_TYPE];
const NAME_SIZES = [3.4, LEAST_TYPE];
/** Least room between a text and any line, mm. */
const CLEAR = 0.4;
/** A patch of glue whose box is smaller has no letter of its own, mm². */
const SPECK = 2;
/** How far from its place a letter may stand that has a leader, mm. */
const NEAREST = 3;
const FARTHEST = 40;

/** A letter or number to be written. */
interface Label {
  readonly text: string;
  readonly bold: boolean;
  readonly sizes: readonly number[];
  /** Where it belongs, on the sheet. */
  readonly areas: readonly Shape[];
  /** Of `placed`, the piece that it is about. */
  readonly owner: number;
}

/**
 * Writes the letters of all glue, and the number and name of every piece, on a sheet whose lines are drawn already:
 * each where it belongs and over no line; where there is no room, in the open beside it, with a leader.
 */
export function writeLabels(
  drawing: Drawing,
  placed: readonly Placed[],
): { readonly beside: number; readonly over: number } {
  const sheet = new LabelledSheet(drawing, placed);
  placed.forEach(({ piece, place }, owner) => {
    for (const { spot, letter } of piece.marks)
      for (const shape of spot.shapes.filter((patch, _, all) => all.length === 1 || boxAreaOf(patch) > SPECK))
        sheet.write({
          text: spot.face === 1 ? letter : `(${letter})`,
          bold: true,
          sizes: LETTER_SIZES,
          areas: [movedShape(place, shape)],
          owner,
        });
  });
  placed.forEach(({ piece, place, art }, owner) => {
    const free = piece.net.areas.flatMap(({ shape, kind }, area) => {
      if (kind !== 'panel') return [];
      const taken = piece.marks.filter(({ spot }) => spot.area === area).flatMap(({ spot }) => spot.shapes);
      return taken.length === 0 ? [shape] : less(shape, ...taken);
    });
    const areas = widestFirst(free).map((shape) => movedShape(place, shape));
    const named = `${piece.number}  ${piece.net.name}`;
    const label = { bold: false, sizes: NAME_SIZES, areas, owner };
    // On art, which will be seen, stands no more than must.
    const full =
      (art ?? []).length > 0
        ? []
        : [`${named}  ·  ${piece.face} up`, named].slice(piece.face === null ? 1 : 0);
    if (full.some((text) => sheet.writeInside({ ...label, text }))) return;
    if (areas.length > 0 && sheet.writeInside({ ...label, text: `${piece.number}` })) return;
    const whole = piece.lines.contours.map((ring) => ({ outline: movedRing(place, ring), holes: [] }));
    sheet.write({ ...label, text: `${piece.number}`, areas: areas.length > 0 ? areas : whole });
  });
  return sheet;
}

/** Room around a piece in which letters with leaders can stand, mm. */
const ASIDE = 9;

/** How much room a piece needs around it for letters that don't fit on it, mm. */
export function roomAround(piece: Piece, turn: Isometry): number {
  const { left, low, right, high } = boxOf(movedRing(turn, piece.lines.contours.flat()));
  const far = 2 * FARTHEST;
  const drawing = emptyDrawing(right - left + 2 * far, high - low + 2 * far);
  const place = after({ c: 1, s: 0, x: far - left, y: far - low, flip: 1 }, turn);
  drawPiece(drawing, piece, place);
  return writeLabels(drawing, [{ piece, place, copy: 1 }]).beside > 0 ? ASIDE : 0;
}

/** Whether all letters and numbers of a sheet find room. */
export function lettersFit(placed: readonly Placed[], width: number, height: number): boolean {
  const drawing = emptyDrawing(width, height);
  for (const { piece, place } of placed) drawPiece(drawing, piece, place);
  return writeLabels(drawing, placed).over === 0;
}

/** A sheet with what is on it already. */
class LabelledSheet {
  readonly #drawing: Drawing;
  readonly #grid = new StrokeGrid();
  readonly #taken: Box[] = [];
  readonly #places = new Map<Shape, Places>();
  /** How many texts stand outside the piece that they are about, or over something. */
  beside = 0;
  /** How many found no room, and stand over something. */
  over = 0;
  /** Of each piece its outer edges, and the box around them. */
  readonly #pieces: readonly {
    readonly rings: readonly Ring[];
    readonly edges: readonly Segment[];
    readonly box: Box;
  }[];
  /** All glue, which a letter of other glue must not stand in. */
  readonly #glue: readonly Shape[];

  constructor(drawing: Drawing, placed: readonly Placed[]) {
    this.#drawing = drawing;
    for (const { points, closed } of drawing.strokes) this.#grid.add(points, closed);
    for (const text of drawing.texts) this.#taken.push(boxOfText(text));
    this.#pieces = placed.map(({ piece, place }) => {
      const rings = piece.lines.contours.map((ring) => movedRing(place, ring));
      return { rings, edges: rings.flatMap(edgesOf), box: boxOf(rings.flat()) };
    });
    this.#glue = placed.flatMap(({ piece, place }) =>
      piece.marks.flatMap(({ spot }) => spot.shapes.map((shape) => movedShape(place, shape))),
    );
  }

  write(label: Label): void {
    if (this.writeInside(label)) return;
    const at = this.#writeBeside(label);
    if (at === null) {
      this.over++;
      this.#writeAnyhow(label);
    }
    if (at === null || !this.#isWithin(at, label.owner)) this.beside++;
  }

  /** Writes it within its areas, as large as there is room, if there is any. */
  writeInside({ text, bold, sizes, areas }: Label): boolean {
    const places = areas.map((shape) => this.#placesIn(shape));
    for (const size of sizes)
      for (const turn of bold ? ([0] as const) : ([0, 90] as const)) {
        const look = { text, size, anchor: 'middle', turn, bold } as const;
        const room = roomOfText(look);
        for (const all of places)
          for (const at of all.onCard()) {
            const box = boxAt(at, look, room);
            if (!this.#isFree(box)) continue;
            this.#put({ at, ...look }, box);
            return true;
          }
      }
    return false;
  }

  /** Writes it near its areas, with a leader from a dot in the widest of them. */
  #writeBeside({ text, bold, areas, owner }: Label): Box | null {
    const from = this.#placesIn(areas[0]).widest;
    const look = { text, size: LEAST_TYPE, anchor: 'middle', turn: 0, bold } as const;
    const room = roomOfText(look);
    for (let away = NEAREST; away <= FARTHEST; away += 1.5)
      for (let k = 0; k < 24; k++) {
        const way = (2 * Math.PI * k) / 24;
        const at: Point = [from[0] + away * Math.cos(way), from[1] + away * Math.sin(way)];
        const box = boxAt(at, look, room);
        const end = towards(from, box);
        if (distance(from, end) < 1 || !this.#isFree(box) || this.#isCrossed([from, end], owner)) continue;
        if (this.#isOthers(at, owner) || this.#glue.some((shape) => onCard(shape, at))) continue;
        this.#put({ at, ...look }, box);
        this.#drawing.strokes.push({ kind: 'note', points: [from, end], closed: false });
        this.#drawing.fills.push({ rings: [dot(from)], grey: 0 });
        this.#grid.add([from, end], false);
        return box;
      }
    return null;
  }

  /** Whether a text that crosses no line lies on a piece. */
  #isWithin({ left, low, right, high }: Box, index: number): boolean {
    const at: Point = [(left + right) / 2, (low + high) / 2];
    return this.#pieces[index].rings.some((ring) => inside(ring, at));
  }

  /** Where there is no room anywhere, it stands in its widest place, over whatever is there. */
  #writeAnyhow({ text, bold, areas }: Label): void {
    const at = this.#placesIn(areas[0]).widest;
    const label: Text = { at, text, size: LEAST_TYPE, anchor: 'middle', turn: 0, bold };
    this.#taken.push(boxOfText(label));
    this.#drawing.texts.push(label);
  }

  /** Places in an area, worked out once for all that is to be written there. */
  #placesIn(shape: Shape): Places {
    const places = this.#places.get(shape) ?? new Places(shape);
    this.#places.set(shape, places);
    return places;
  }

  /** Whether a box lies on the sheet, away from its edge, from every text and from every line. */
  #isFree(box: Box): boolean {
    const { width, height } = this.#drawing;
    if (box.left < 1 || box.low < 1 || box.right > width - 1 || box.high > height - 1) return false;
    return !this.#taken.some((other) => meet(box, other)) && this.#grid.isClear(box);
  }

  #put(text: Text, box: Box): void {
    const { left, low, right, high } = box;
    this.#taken.push(box);
    // On printed art it would not be read.
    if (this.#drawing.art.length > 0)
      this.#drawing.fills.push({
        rings: [
          [
            [left, low],
            [right, low],
            [right, high],
            [left, high],
          ],
        ],
        grey: 1,
      });
    this.#drawing.texts.push(text);
  }

  /** Whether a point lies in another piece, or nearer to one than to its own. */
  #isOthers(at: Point, owner: number): boolean {
    const own = this.#farFrom(owner, at, Number.POSITIVE_INFINITY);
    return this.#pieces.some((_, i) => i !== owner && this.#farFrom(i, at, own) < own);
  }

  /** How far a point lies from a piece, 0 on it; where it is as far as `least` or more, anything of that sort. */
  #farFrom(index: number, at: Point, least: number): number {
    const { rings, edges, box } = this.#pieces[index];
    const outside = Math.max(box.left - at[0], at[0] - box.right, box.low - at[1], at[1] - box.high);
    if (outside >= least) return outside;
    if (rings.some((ring) => inside(ring, at))) return 0;
    return edges.reduce((far, edge) => Math.min(far, distanceTo(edge, at)), Number.POSITIVE_INFINITY);
  }

  /** Whether a leader passes over another piece or a text. */
  #isCrossed([a, b]: readonly [Point, Point], owner: number): boolean {
    if (this.#taken.some(({ left, low, right, high }) => !clearOf([a, b], left, low, right, high)))
      return true;
    return this.#pieces.some(({ rings, box }, i) => {
      if (i === owner || clearOf([a, b], box.left, box.low, box.right, box.high)) return false;
      const steps = Math.ceil(distance(a, b));
      for (let k = 0; k <= steps; k++) {
        const t = k / steps;
        const at: Point = [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
        if (rings.some((ring) => inside(ring, at))) return true;
      }
      return false;
    });
  }
}

const boxAreaOf = ({ outline }: Shape): number => {
  const { left, low, right, high } = boxOf(outline);
  return (right - left) * (high - low);
};

/** Shapes, that with the widest place first. */
function widestFirst(shapes: readonly Shape[]): readonly Shape[] {
  if (shapes.length < 2) return shapes;
  return shapes
    .map((shape) => ({ shape, radius: widePlace(shape).radius }))
    .sort((a, b) => b.radius - a.radius)
    .map(({ shape }) => shape);
}

/** Places to try in a shape. Most texts find room in its widest, so that the others are worked out only when asked for. */
class Places {
  readonly widest: Point;
  readonly #shape: Shape;
  #others: readonly Point[] | null = null;

  constructor(shape: Shape) {
    this.#shape = shape;
    this.widest = widePlace(shape).at;
  }

  /** Those on the card: the widest, then others over its box, nearest to the widest first. */
  *onCard(): Generator<Point> {
    if (onCard(this.#shape, this.widest)) yield this.widest;
    this.#others ??= othersIn(this.#shape, this.widest);
    yield* this.#others;
  }
}

function othersIn(shape: Shape, widest: Point): readonly Point[] {
  const { left, low, right, high } = boxOf(shape.outline);
  const places: Point[] = [];
  const STEPS = 14;
  for (let i = 1; i < STEPS; i++)
    for (let j = 1; j < STEPS; j++)
      places.push([left + ((right - left) * i) / STEPS, low + ((high - low) * j) / STEPS]);
  // Along a slanted strip a grid over its box hits little: places on the way from the widest to each corner, too.
  for (const corner of shape.outline.slice(0, 40))
    for (const t of [0.2, 0.4, 0.6, 0.8])
      places.push([widest[0] + (corner[0] - widest[0]) * t, widest[1] + (corner[1] - widest[1]) * t]);
  return places
    .filter((at) => onCard(shape, at))
    .map((at) => ({ at, far: distance(at, widest) }))
    .sort((a, b) => a.far - b.far)
    .map(({ at }) => at);
}

/** The room that a text takes up, with what must stay clear around it. */
export function boxOfText(text: Text, clear = CLEAR): Box {
  return boxAt(text.at, text, roomOfText(text), clear);
}

type Look = Omit<Text, 'at'>;

/** How wide and high a text comes out as it is turned, and how far its letters reach below it, mm. */
function roomOfText({ text, size, turn, bold }: Look): { w: number; h: number; below: number } {
  const [wide, tall] = [widthOfText(text, size, bold), CAPITAL * size];
  // Letters such as p reach below the line, those in brackets above and below.
  const below = /[a-z(]/.test(text) ? 0.2 * size : 0;
  return turn === 0 ? { w: wide, h: tall, below } : { w: tall, h: wide, below };
}

function boxAt(
  [x, y]: Point,
  { anchor, turn }: Look,
  { w, h, below }: ReturnType<typeof roomOfText>,
  clear = CLEAR,
): Box {
  const left = anchor === 'middle' ? x - w / 2 : turn === 0 ? x : x - w;
  const low = anchor === 'middle' ? y - h / 2 : y;
  return {
    left: left - clear,
    low: low - clear - (turn === 0 ? below : 0),
    right: left + w + clear + (turn === 0 ? 0 : below),
    high: low + h + clear,
  };
}

const meet = (a: Box, b: Box): boolean =>
  a.left < b.right && b.left < a.right && a.low < b.high && b.low < a.high;

/** Where a line from a point meets the box around a text. */
function towards([x, y]: Point, { left, low, right, high }: Box): Point {
  return [Math.min(right, Math.max(left, x)), Math.min(high, Math.max(low, y))];
}

function dot([x, y]: Point): Ring {
  return Array.from({ length: 12 }, (_, i) => [
    x + 0.4 * Math.cos((Math.PI * i) / 6),
    y + 0.4 * Math.sin((Math.PI * i) / 6),
  ]);
}
