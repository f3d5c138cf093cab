import { textWidth } from './text.js';

/** A point to be named, in px from the top left. */
export interface Named {
  name: string;
  px: number;
  py: number;
}

/** Where a name stands beside its point: an offset in px and the end of the text that lies there. */
export interface Slot {
  dx: number;
  dy: number;
  anchor: 'start' | 'middle' | 'end';
}

export const SLOTS: readonly Slot[] = [
  { dx: 9, dy: 0, anchor: 'start' },
  { dx: -9, dy: 0, anchor: 'end' },
  { dx: 0, dy: -13, anchor: 'middle' },
  { dx: 0, dy: 13, anchor: 'middle' },
];

interface Box {
  left: number;
  right: number;
  top: number;
  bottom: number;
}

/**
 * Finds each name the first place beside its point that lies on the paper and covers no point and no name before it.
 * @returns the number of the slot for each point; null where there is no room, and the name is left to the tip
 */
export function placeNames(
  points: readonly Named[],
  width: number,
  height: number,
  size: number,
): (number | null)[] {
  const taken: Box[] = points.map(({ px, py }) => ({
    left: px - 6,
    right: px + 6,
    top: py - 6,
    bottom: py + 6,
  }));
  return points.map((point) => {
    for (let slot = 0; slot < SLOTS.length; slot++) {
      const box = boxOf(point, SLOTS[slot], size);
      const inside = box.left >= 0 && box.right <= width && box.top >= 0 && box.bottom <= height;
      if (inside && !taken.some((other) => overlap(box, other))) {
        taken.push(box);
        return slot;
      }
    }
    return null;
  });
}

function boxOf({ name, px, py }: Named, { dx, dy, anchor }: Slot, size: number): Box {
  const width = textWidth(name, size);
  const left = px + dx - (anchor === 'start' ? 0 : anchor === 'end' ? width : width / 2);
  return { left, right: left + width, top: py + dy - size / 2, bottom: py + dy + size / 2 };
}

function overlap(a: Box, b: Box): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}
