import type { Box, Point, Segment } from '../../geometry/plane.js';
import { clearOf } from '../../geometry/room.js';

/** Side of a cell, mm. */
const CELL = 8;

/** The lines of a sheet, sorted into cells, so that what lies near a place is found without looking at all. */
export class StrokeGrid {
  readonly #lines = new Map<number, Segment[]>();

  add(points: readonly Point[], closed: boolean): void {
    points.forEach((p, i) => {
      const next = i + 1 < points.length ? points[i + 1] : closed ? points[0] : undefined;
      if (next !== undefined) this.#addLine([p, next]);
    });
  }

  /** Whether no line comes into a box. */
  isClear({ left, low, right, high }: Box): boolean {
    for (const key of cellsOf(left, low, right, high))
      for (const line of this.#lines.get(key) ?? []) if (!clearOf(line, left, low, right, high)) return false;
    return true;
  }

  #addLine(line: Segment): void {
    const [[ax, ay], [bx, by]] = line;
    // Cut into lengths of a cell, so that a long slanted line fills only the cells that it passes.
    const parts = Math.max(1, Math.ceil(Math.hypot(bx - ax, by - ay) / CELL));
    const seen = new Set<number>();
    for (let i = 0; i < parts; i++) {
      const at = (t: number): Point => [ax + (bx - ax) * t, ay + (by - ay) * t];
      const [p, q] = [at(i / parts), at((i + 1) / parts)];
      for (const key of cellsOf(
        Math.min(p[0], q[0]),
        Math.min(p[1], q[1]),
        Math.max(p[0], q[0]),
        Math.max(p[1], q[1]),
      ))
        seen.add(key);
    }
    for (const key of seen) {
      const own = this.#lines.get(key);
      if (own === undefined) this.#lines.set(key, [line]);
      else own.push(line);
    }
  }
}

/** Numbers of the cells that a box reaches. Two far apart may share one: then lines that are far are looked at, too. */
function cellsOf(left: number, low: number, right: number, high: number): number[] {
  const cells: number[] = [];
  for (let x = Math.floor(left / CELL); x <= Math.floor(right / CELL); x++)
    for (let y = Math.floor(low / CELL); y <= Math.floor(high / CELL); y++) cells.push(x * 4096 + y);
  return cells;
}
