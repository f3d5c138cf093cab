import { type PackedRectangle, packRectangles, RATES, type Rectangle } from './maxrects.js';

const ORDERS: readonly ((a: Rectangle, b: Rectangle) => number)[] = [
  (a, b) => Math.max(b.width, b.height) - Math.max(a.width, a.height),
  (a, b) => b.width * b.height - a.width * a.height,
  (a, b) => b.height - a.height,
  (a, b) => b.width - a.width,
  (a, b) => b.width + b.height - a.width - a.height,
];

/** Ways to lay boxes that may be turned: as each fits best, or all upright, or all on their sides. */
const LAYINGS: readonly ((box: Rectangle) => 'free' | 'as it is' | 'turned')[] = [
  () => 'free',
  ({ width, height }) => (width <= height ? 'as it is' : 'turned'),
  ({ width, height }) => (width >= height ? 'as it is' : 'turned'),
];

interface Laid<B extends Rectangle> extends Rectangle {
  readonly box: B;
  readonly turned: boolean;
}

/**
 * The best of many packings: fewest sheets, and of equals the one whose last sheet holds least, so that what is left
 * over is in one piece. No packing is proved to be the best there is.
 */
export function packOnFewest<B extends Rectangle>(
  boxes: readonly B[],
  width: number,
  height: number,
  spacing: number,
): PackedRectangle<B>[][] {
  let best: PackedRectangle<B>[][] = [];
  let least = Number.POSITIVE_INFINITY;
  for (const laying of LAYINGS) {
    const laid = boxes.map((box) => lay(box, box.fixed ? 'as it is' : laying(box), width, height));
    for (const order of ORDERS)
      for (const rate of RATES) {
        const sheets: PackedRectangle<B>[][] = [];
        for (const packed of packRectangles([...laid].sort(order), width, height, spacing, rate)) {
          const { box, turned } = packed.box;
          sheets[packed.bin] ??= [];
          sheets[packed.bin].push({ ...packed, box, turned: packed.turned !== turned });
        }
        const onLast = (sheets[sheets.length - 1] ?? []).reduce(
          (sum, { box }) => sum + box.width * box.height,
          0,
        );
        const cost = sheets.length + onLast / (width * height);
        if (cost >= least - 1e-9) continue;
        least = cost;
        best = sheets;
        // All that lie on one sheet cost the same.
        if (sheets.length <= 1) return best;
      }
  }
  return best;
}

function lay<B extends Rectangle>(
  box: B,
  how: 'free' | 'as it is' | 'turned',
  width: number,
  height: number,
): Laid<B> {
  const { width: w, height: h } = box;
  if (how === 'turned' && h <= width && w <= height)
    return { box, turned: true, width: h, height: w, fixed: true };
  const fixed = how !== 'free' && w <= width && h <= height;
  return { box, turned: false, width: w, height: h, fixed };
}
