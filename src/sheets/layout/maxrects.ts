/** A rectangle to be packed; one that may not be turned keeps width and height as they are. */
export interface Rectangle {
  readonly width: number;
  readonly height: number;
  readonly fixed: boolean;
}

/** Where a rectangle went: its lower left corner, and whether it was turned by a quarter. */
export interface PackedRectangle<B extends Rectangle> {
  readonly box: B;
  readonly bin: number;
  readonly x: number;
  readonly y: number;
  readonly turned: boolean;
}

interface Free {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** How well a box fits a free rectangle: the less the better. */
export type Rate = (spareAcross: number, spareUp: number, free: Free) => number;

/** The two rules of Jylänki that do best on average: best short side, and best area. */
export const RATES: readonly Rate[] = [
  (across, up) => Math.min(across, up),
  (across, up, free) => free.width * free.height - (free.width - across) * (free.height - up),
];

const EPSILON = 1e-6;

/**
 * Packs boxes in the order given, each in the first bin that takes it (maximal rectangles: J. Jylänki, A Thousand Ways
 * to Pack the Bin, 2010). Every box must fit an empty bin.
 * @param spacing room between boxes, not needed at the bin's edges
 */
export function packRectangles<B extends Rectangle>(
  boxes: readonly B[],
  width: number,
  height: number,
  spacing: number,
  rate: Rate,
): PackedRectangle<B>[] {
  const bins: Free[][] = [];
  return boxes.map((box) => {
    for (let bin = 0; ; bin++) {
      // A box carries its spacing to the right and above; the bin is larger by as much.
      if (bin === bins.length) bins.push([{ x: 0, y: 0, width: width + spacing, height: height + spacing }]);
      const found = bestPlace(bins[bin], box, spacing, rate);
      if (found === null) {
        const [free, ...more] = bins[bin];
        const isEmpty =
          more.length === 0 && free?.width >= width + spacing && free.height >= height + spacing;
        if (isEmpty) throw new Error(`a box of ${box.width} × ${box.height} fits no empty bin`);
        continue;
      }
      bins[bin] = maximal(bins[bin].flatMap((free) => cutOut(free, found.used)));
      return { box, bin, x: found.used.x, y: found.used.y, turned: found.turned };
    }
  });
}

function bestPlace(
  bin: readonly Free[],
  box: Rectangle,
  spacing: number,
  rate: Rate,
): { used: Free; turned: boolean } | null {
  let best: { used: Free; turned: boolean } | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const free of bin)
    for (const turned of box.fixed ? [false] : [false, true]) {
      const width = (turned ? box.height : box.width) + spacing;
      const height = (turned ? box.width : box.height) + spacing;
      const [across, up] = [free.width - width, free.height - height];
      if (across < -EPSILON || up < -EPSILON) continue;
      const cost = rate(across, up, free);
      if (cost >= least - EPSILON) continue;
      least = cost;
      best = { used: { x: free.x, y: free.y, width, height }, turned };
    }
  return best;
}

/** What is left of a free rectangle beside a used one: up to four rectangles, as large as can be, that may overlap. */
function cutOut(free: Free, used: Free): Free[] {
  const right = free.x + free.width;
  const top = free.y + free.height;
  const usedRight = used.x + used.width;
  const usedTop = used.y + used.height;
  const apart =
    used.x >= right - EPSILON ||
    usedRight <= free.x + EPSILON ||
    used.y >= top - EPSILON ||
    usedTop <= free.y + EPSILON;
  if (apart) return [free];
  return [
    { ...free, width: used.x - free.x },
    { ...free, x: usedRight, width: right - usedRight },
    { ...free, height: used.y - free.y },
    { ...free, y: usedTop, height: top - usedTop },
  ].filter(({ width, height }) => width > EPSILON && height > EPSILON);
}

/** Leaves out free rectangles that lie in another. */
function maximal(all: readonly Free[]): Free[] {
  return all.filter((a, i) => !all.some((b, j) => i !== j && within(a, b) && (!within(b, a) || j < i)));
}

function within(a: Free, b: Free): boolean {
  return (
    a.x >= b.x - EPSILON &&
    a.y >= b.y - EPSILON &&
    a.x + a.width <= b.x + b.width + EPSILON &&
    a.y + a.height <= b.y + b.height + EPSILON
  );
}
