import type { Line } from '../../geometry/line.js';
import type { Flat } from '../../parts/attach.js';
import { withUnit } from '../../report/words/numbers.js';
import { type Handle, placeOf, unitsOf, valuesAt } from './hold.js';

/** Numbers snap to so many mm or degrees; finer with Alt, and farther with Shift where keys move them. */
const GRID = { mm: 0.5, degrees: 1 };
const FINE = { mm: 0.1, degrees: 0.1 };
const FAR = { mm: 5, degrees: 5 };
/** What is this near to a corner, a place or a crease goes onto it, mm. */
const NEAR = 1.2;

/** What there is on a panel for a dragged point to snap to, by what it is called. */
export interface Marks {
  readonly points: readonly { readonly name: string; readonly at: Flat }[];
  readonly creases: readonly { readonly name: string; readonly line: Line }[];
}

/** Where a handle comes to lie. */
export interface Moved {
  readonly at: Flat;
  readonly values: readonly number[];
  /** What it snapped to, by name; empty for the grid. */
  readonly onto: string;
}

/** Where a handle goes that is dragged to a point: onto a mark, a crease, or the grid of its numbers. */
export function draggedTo(handle: Handle, to: Flat, marks: Marks, fine: boolean): Moved {
  const { hold, values: now } = handle;
  const landed = (at: Flat, onto: string): Moved | null => {
    const values = valuesAt(hold, at, now);
    const place = placeOf(hold, values, at);
    // What moves along a line only may pass by.
    return Math.hypot(place[0] - at[0], place[1] - at[1]) < 0.01 ? { at: place, values, onto } : null;
  };
  if (!fine) {
    const away = ([x, y]: Flat) => Math.hypot(x - to[0], y - to[1]);
    const nearest = marks.points
      .filter(({ at }) => away(at) < NEAR && Math.hypot(at[0] - handle.at[0], at[1] - handle.at[1]) > 1e-6)
      .sort((a, b) => away(a.at) - away(b.at));
    for (const { name, at } of nearest) {
      const moved = landed(at, name);
      if (moved !== null) return moved;
    }
    // What has one number only goes along its line anyway.
    for (const { name, line } of now.length === 1 ? [] : marks.creases) {
      const at = onCrease(line, to);
      const moved = at !== null && away(at) < NEAR ? landed(at, name) : null;
      if (moved !== null) return moved;
    }
  }
  const grid = fine ? FINE : GRID;
  const values = valuesAt(hold, to, now).map((value, i) => onGrid(value, grid[unitsOf(hold)[i]]));
  return { at: placeOf(hold, values, to), values, onto: '' };
}

/**
 * Where a handle goes at a key: left and right change its first number, up and down the other.
 * @returns null for any other key
 */
export function steppedBy(
  handle: Handle,
  { key, shiftKey, altKey }: { readonly key: string; readonly shiftKey: boolean; readonly altKey: boolean },
): Moved | null {
  const steps: Record<string, readonly [number, 1 | -1]> = {
    ArrowRight: [0, 1],
    ArrowLeft: [0, -1],
    ArrowUp: [1, 1],
    ArrowDown: [1, -1],
  };
  const step = steps[key];
  if (step === undefined) return null;
  const { hold, values: now } = handle;
  const which = Math.min(step[0], now.length - 1);
  const unit = unitsOf(hold)[which];
  const by = (shiftKey ? FAR : altKey ? FINE : GRID)[unit];
  const values = now.map((value, i) =>
    i === which ? onGrid(value + step[1] * by, altKey ? FINE[unit] : GRID[unit]) : value,
  );
  return { at: placeOf(hold, values, handle.at), values, onto: '' };
}

/** @example inWords(handle, moved) // 'man, apex: 52.5 mm' */
export function inWords(
  { part, what, hold }: Handle,
  { values, onto }: Pick<Moved, 'values' | 'onto'>,
): string {
  const units = unitsOf(hold);
  const numbers = values.map((value, i) => withUnit(value, units[i])).join(', ');
  return `${part}, ${what}: ${numbers}${onto === '' ? '' : `, on ${onto}`}`;
}

const onGrid = (value: number, grid: number): number =>
  Math.round(Math.round(value / grid) * grid * 1e4) / 1e4;

/** The point of a crease that is nearest, on the grid along it, if it lies between its ends. */
function onCrease({ x0, y0, x1, y1 }: Line, [x, y]: Flat): Flat | null {
  const long = Math.hypot(x1 - x0, y1 - y0) || 1;
  const [ex, ey] = [(x1 - x0) / long, (y1 - y0) / long];
  const along = onGrid((x - x0) * ex + (y - y0) * ey, GRID.mm);
  return along < 0 || along > long ? null : [x0 + along * ex, y0 + along * ey];
}
