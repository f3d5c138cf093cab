import { LEFT_PAGE, RIGHT_PAGE } from '../../motion/assembly.js';
import { worldPoint } from '../../motion/pose.js';
import { measureFlatness } from '../../score/flat.js';
import type { Motion } from '../../view/motion.js';

/** The figure shut, seen through the right page: where card lies on card. */
export interface PileMap {
  /** The `d` of an SVG path for each panel between the pages, and how thick its card is, mm. */
  readonly panels: readonly { readonly d: string; readonly thickness: number }[];
  /** x, y, width, height of the left page, y downwards, mm. */
  readonly page: readonly [number, number, number, number];
  /** The thickest pile, mm, and where it is in the same coordinates; null where nothing lies between the pages. */
  readonly thickest: number;
  readonly at: readonly [number, number] | null;
}

/** The pile of a figure that shuts; null for one that doesn't. */
export function pileMapOf({ assembly, opening }: Motion): PileMap | null {
  const lying = measureFlatness(assembly, opening).shut;
  if (lying === null) return null;
  const { pile, pileAt } = lying;
  const shut = opening.frame(opening.count - 1);
  const { width, height } = assembly.page;
  const point = new Float64Array(3);
  const ring = (k: number, corners: Float64Array) => {
    let d = '';
    for (let i = 0; i < corners.length; i += 2) {
      worldPoint(shut, k, corners[i], corners[i + 1], point);
      d += `${i === 0 ? 'M' : 'L'}${point[0].toFixed(1)} ${(-point[1]).toFixed(1)}`;
    }
    return `${d}Z`;
  };
  const panels = assembly.panels.flatMap(({ outline, holes, thickness }, k) =>
    k === LEFT_PAGE || k === RIGHT_PAGE
      ? []
      : [{ d: [outline, ...holes].map((corners) => ring(k, corners)).join(''), thickness }],
  );
  return {
    panels,
    page: [-width, -height, width, height],
    thickest: pile,
    at: pileAt === null ? null : [pileAt[0], -pileAt[1]],
  };
}
