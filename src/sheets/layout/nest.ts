import { type Box, boxOf, edgesOf, type Segment, type Shape } from '../../geometry/plane.js';

/** Something to be nested by its outline. */
export interface Nested {
  /** What of it takes up room, one for each way in which it may be turned. Equal things share one list. */
  readonly ways: readonly Mask[];
}

/** Where it went: which sheet, which way, and the lower left corner of that way's box, mm. */
export interface NestedAt<N extends Nested> {
  readonly item: N;
  readonly sheet: number;
  readonly way: number;
  readonly x: number;
  readonly y: number;
}

/** Rows of bits, from below, each of so many words. */
interface Rows {
  readonly words: number;
  readonly bits: Uint32Array;
}

/** The cells of a grid that a shape touches. */
export interface Mask extends Rows {
  readonly columns: number;
  readonly rows: number;
  readonly area: number;
  /** The same, moved to the right by so many bits, made as they are needed. */
  readonly moved: Map<number, Rows>;
}

/** Side of a cell on a sheet of that size, mm: fine for small sheets, and no more cells than can be searched for large ones. */
export const cellFor = (width: number, height: number): number => Math.max(1, Math.max(width, height) / 500);

/** A box may be larger than its cells by this, mm: round-off. */
const ROUND_OFF = 0.02;

/** Cells that shapes touch. Their box lies at the grid's corner. */
export function maskOf(shapes: readonly Shape[], cell: number): Mask {
  const rings = shapes.flatMap(({ outline, holes }) => [outline, ...holes]);
  const { left, low, right, high }: Box = boxOf(rings.flat());
  const columns = Math.max(1, Math.ceil((right - left - ROUND_OFF) / cell));
  const rows = Math.max(1, Math.ceil((high - low - ROUND_OFF) / cell));
  const words = Math.ceil(columns / 32);
  const bits = new Uint32Array(rows * words);
  let area = 0;
  const set = (x: number, y: number) => {
    const column = Math.min(columns - 1, Math.max(0, Math.floor((x - left) / cell)));
    const row = Math.min(rows - 1, Math.max(0, Math.floor((y - low) / cell)));
    const [at, bit] = [row * words + (column >> 5), 1 << (column & 31)];
    if ((bits[at] & bit) === 0) area++;
    bits[at] |= bit;
  };
  const edges = rings.flatMap(edgesOf);
  for (const [[ax, ay], [bx, by]] of edges) {
    const parts = Math.max(1, Math.ceil(Math.hypot(bx - ax, by - ay) / (cell / 8)));
    for (let k = 0; k <= parts; k++) set(ax + ((bx - ax) * k) / parts, ay + ((by - ay) * k) / parts);
  }
  for (let row = 0; row < rows; row++)
    for (const [from, to] of spans(edges, low + (row + 0.5) * cell))
      for (let x = from; x <= to; x += cell) set(x, low + (row + 0.5) * cell);
  return { columns, rows, words, bits, area, moved: new Map() };
}

/** Where a level line is inside the rings of these edges (even-odd). */
function spans(edges: readonly Segment[], y: number): [number, number][] {
  const xs: number[] = [];
  for (const [a, b] of edges)
    if (a[1] < y !== b[1] < y) xs.push(a[0] + ((b[0] - a[0]) * (y - a[1])) / (b[1] - a[1]));
  xs.sort((a, b) => a - b);
  return Array.from({ length: xs.length >> 1 }, (_, i) => [xs[2 * i], xs[2 * i + 1]]);
}

/**
 * Nests things by their outlines, largest first, each on the first sheet with room, as low as it goes, then as far left
 * (bottom-left on a grid; nothing proves it the best there is).
 * @returns null where one fits no empty sheet
 */
export function nest<N extends Nested>(
  items: readonly N[],
  width: number,
  height: number,
  cell: number,
): NestedAt<N>[] | null {
  const columns = Math.floor((width + ROUND_OFF) / cell);
  const rows = Math.floor((height + ROUND_OFF) / cell);
  const words = Math.ceil(columns / 32) + 1;
  const sheets: Rows[] = [];
  /** Where the last of its sort went, by sheet: a sheet only fills up, so what is equal fits nowhere before that. */
  const reached = new Map<Mask, (readonly [number, number])[]>();
  const place = (item: N): NestedAt<N> | null => {
    for (let sheet = 0; ; sheet++) {
      const isNew = sheet === sheets.length;
      if (isNew) sheets.push({ words, bits: new Uint32Array(rows * words) });
      const found = item.ways.flatMap((mask, way) => {
        const known = reached.get(mask) ?? [];
        reached.set(mask, known);
        const at = lowest(sheets[sheet], mask, columns, rows, known[sheet] ?? [0, 0]);
        known[sheet] = at ?? [0, rows];
        return at === null ? [] : [{ way, x: at[0], y: at[1], top: at[1] + mask.rows }];
      });
      if (found.length > 0) {
        const { way, x, y } = found.reduce((a, b) => ((b.top - a.top || b.x - a.x) < 0 ? b : a));
        fill(sheets[sheet], item.ways[way], x, y);
        return { item, sheet, way, x: x * cell, y: y * cell };
      }
      if (isNew) return null;
    }
  };
  const out: NestedAt<N>[] = [];
  for (const item of [...items].sort((a, b) => b.ways[0].area - a.ways[0].area)) {
    const placed = place(item);
    if (placed === null) return null;
    out.push(placed);
  }
  return out;
}

/** The lowest free place of a mask, of equals the leftmost, from a place on. */
function lowest(
  sheet: Rows,
  mask: Mask,
  columns: number,
  rows: number,
  [fromX, fromY]: readonly [number, number],
): readonly [number, number] | null {
  for (let y = fromY; y + mask.rows <= rows; y++)
    for (let x = y === fromY ? fromX : 0; x + mask.columns <= columns; x++)
      if (isFree(sheet, movedBy(mask, x & 31), mask.rows, x >> 5, y)) return [x, y];
  return null;
}

function isFree(sheet: Rows, { words, bits }: Rows, rows: number, at: number, y: number): boolean {
  for (let j = 0; j < rows; j++)
    for (let k = 0; k < words; k++)
      if ((bits[j * words + k] & sheet.bits[(y + j) * sheet.words + at + k]) !== 0) return false;
  return true;
}

function fill(sheet: Rows, mask: Mask, x: number, y: number): void {
  const { words, bits } = movedBy(mask, x & 31);
  for (let j = 0; j < mask.rows; j++)
    for (let k = 0; k < words; k++) sheet.bits[(y + j) * sheet.words + (x >> 5) + k] |= bits[j * words + k];
}

function movedBy(mask: Mask, by: number): Rows {
  if (by === 0) return mask;
  const known = mask.moved.get(by);
  if (known !== undefined) return known;
  const words = mask.words + 1;
  const bits = new Uint32Array(mask.rows * words);
  for (let j = 0; j < mask.rows; j++)
    for (let k = 0; k < mask.words; k++) {
      const word = mask.bits[j * mask.words + k];
      bits[j * words + k] |= word << by;
      bits[j * words + k + 1] |= word >>> (32 - by);
    }
  const made = { words, bits };
  mask.moved.set(by, made);
  return made;
}
