import * as Plot from '@observablehq/plot';
import { SLIVER } from '../../geometry/coverage.js';
import type { Shape } from '../../geometry/polygon.js';
import { visitCells } from '../../geometry/trapezoids.js';
import type { Assembly } from '../../motion/assembly.js';
import type { Opening } from '../../motion/opening.js';
import { measureFlatness, shutShapes } from '../../score/flat.js';
import { framed, type Panel } from './frame.js';
import { ACCENT, INK, PAPER, QUIET, WIDTH } from './style.js';
import { figure, quantity } from './text.js';

/** Of the map, px for a millimetre at most, and its greatest height. */
const SCALE = 3;
const HEIGHT = 560;
const MARGIN = 30;

/**
 * The pile of card in the shut book as a map, seen through the right page: darker where more card lies on card, with the
 * thickest place marked. A figure that does not shut has no pile: the picture says so.
 */
export function pileMap(name: string, assembly: Assembly, opening: Opening): string {
  const title = `${name}: the pile of card when shut`;
  const { pile, pileAt } = measureFlatness(assembly, opening);
  if (pile === null || pileAt === null)
    return framed({
      title,
      description: 'No pile.',
      caption: [pile === null ? 'It does not shut, so there is no pile.' : 'No card lies between the pages.'],
      panels: [],
    });
  const shut = opening.frame(opening.count - 1);
  const { shapes, thicknesses } = shutShapes(assembly, shut);
  const steps = stepsOf(shapes, thicknesses);
  const { width, height } = assembly.page;
  const [left, right, low, high] = extentOf(shapes, width, height);
  const scale = Math.min(SCALE, (WIDTH - 2 * MARGIN) / (right - left), HEIGHT / (high - low));
  const thickest = steps[steps.length - 1];
  const where = `${(-pileAt[0]).toFixed(0)} mm from the gutter and ${pileAt[1].toFixed(0)} mm from the foot`;
  return framed({
    title,
    description: `Thickest: ${quantity(pile, 'mm')}, ${where}. ${steps
      .map(({ thickness, area }) => `${quantity(thickness, 'mm')} over ${quantity(area, 'mm²')}.`)
      .join(' ')}`,
    caption: [
      `Seen through the right page; the gutter is on the right. Pale is one layer, the darkest is ${quantity(pile, 'mm')}: ${where}, over ${quantity(thickest.area, 'mm²')}.`,
      'Thickness by the overlap of all card between the pages, tabs included.',
    ],
    panels: [
      {
        width: (right - left) * scale + 2 * MARGIN,
        height: (high - low) * scale + 2 * MARGIN,
        plot: {
          margin: MARGIN,
          x: { domain: [left, right], axis: null },
          y: { domain: [low, high], axis: null },
          color: { type: 'linear', domain: [0, pile], range: [PAPER, ACCENT], interpolate: 'rgb' },
          marks: [
            Plot.geo(steps, {
              geometry: ({ rings }: Step) => ({
                type: 'MultiPolygon',
                coordinates: rings.map((ring) => [ring]),
              }),
              fill: 'thickness',
              stroke: 'thickness',
              strokeWidth: 0.7,
            }),
            Plot.rect([{}], {
              x1: -width,
              x2: 0,
              y1: 0,
              y2: height,
              stroke: INK,
              strokeWidth: 1.5,
              fill: 'none',
            }),
            Plot.dot([pileAt], { x: '0', y: '1', r: 6, stroke: INK, strokeWidth: 2 }),
          ],
        },
      },
      legend(steps, (high - low) * scale + 2 * MARGIN, pile),
    ],
  });
}

/** All places where card is equally thick. */
interface Step {
  readonly thickness: number;
  /** mm² */
  area: number;
  /** Whether it is anywhere wider than a sliver, as the pile has to be. */
  counts: boolean;
  /** Closed rings of x, y. */
  readonly rings: [number, number][][];
}

/** Sums of thicknesses that differ by less than this, mm, are one step. */
const SAME = 1e-6;

/** The overlay of the shapes, gathered by thickness, the thinnest first; without what only slivers are thick. */
function stepsOf(shapes: readonly Shape[], thicknesses: readonly number[]): Step[] {
  const steps: Step[] = [];
  visitCells(shapes, thicknesses, ({ weight, x, y, width, height, across, leanLeft, leanRight }) => {
    let step = steps.find(({ thickness }) => Math.abs(thickness - weight) < SAME);
    if (step === undefined) {
      step = { thickness: weight, area: 0, counts: false, rings: [] };
      steps.push(step);
    }
    step.area += width * height;
    step.counts ||= height >= SLIVER && across >= SLIVER;
    const [left, right] = [x - width / 2, x + width / 2];
    const [foot, head] = [y - height / 2, y + height / 2];
    // Clockwise as seen, so that it is the inside that is filled.
    step.rings.push([
      [left - leanLeft, foot],
      [left + leanLeft, head],
      [right + leanRight, head],
      [right - leanRight, foot],
      [left - leanLeft, foot],
    ]);
  });
  return steps.filter(({ counts }) => counts).sort((a, b) => a.thickness - b.thickness);
}

/** The page, and what sticks out of it: left, right, low, high. */
function extentOf(shapes: readonly Shape[], width: number, height: number): [number, number, number, number] {
  const extent: [number, number, number, number] = [-width, 0, 0, height];
  for (const { outline } of shapes)
    for (let i = 0; i < outline.length; i += 2) {
      extent[0] = Math.min(extent[0], outline[i]);
      extent[1] = Math.max(extent[1], outline[i]);
      extent[2] = Math.min(extent[2], outline[i + 1]);
      extent[3] = Math.max(extent[3], outline[i + 1]);
    }
  return extent;
}

/** A patch for each thickness, with its number. */
function legend(steps: readonly Step[], y: number, pile: number): Panel {
  const labels = steps.map(({ thickness }) => figure(thickness));
  return {
    y,
    width: Math.min(WIDTH - 2 * MARGIN, 60 + 46 * steps.length),
    height: 52,
    plot: {
      marginLeft: MARGIN,
      marginTop: 4,
      marginBottom: 34,
      x: { type: 'band', domain: labels, label: 'thickness (mm)', tickSize: 0 },
      color: { type: 'linear', domain: [0, pile], range: [PAPER, ACCENT], interpolate: 'rgb' },
      marks: [
        Plot.cellX(steps, {
          x: ({ thickness }: Step) => figure(thickness),
          fill: 'thickness',
          stroke: QUIET,
          strokeWidth: 0.5,
        }),
      ],
    },
  };
}
