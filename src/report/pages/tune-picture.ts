import type { Figure } from '../../figure/figure.js';
import { type Ring, shapeOf } from '../../geometry/plane.js';
import { less } from '../../geometry/region.js';
import type { Assembly } from '../../motion/assembly.js';
import { CannotBuild } from '../../motion/cannot-build.js';
import { Opening } from '../../motion/opening.js';
import { depthOrder } from '../../view/depth-order.js';
import { type Eye, lookAt } from '../../view/look.js';
import { ACCENT, INK, LINE, PAPER, TINT } from '../charts/style.js';
import { withUnit } from '../words/numbers.js';
import { type Html, html } from './html.js';

/** Where the figure is seen, and what of it stands out. */
export interface Sight {
  /** Page angle, degrees; the nearest that the figure reaches is shown. */
  readonly pageAngle: number;
  /** Whether a panel, by its name, is to be coloured. */
  readonly isNamed: (panel: string) => boolean;
  /** Places to be ringed: a panel's name, and a point of its plane. */
  readonly marks: readonly { readonly panel: string; readonly at: readonly [number, number] }[];
  /** Panels from which card was taken, and the figure as it was with that. */
  readonly lost?: { readonly from: Figure; readonly panels: readonly string[] };
}

const EYE: Eye = { aside: 0.35, down: 0.5 };
const WIDTH = 340;
const EDGE = 40;

/**
 * A still picture of a figure, seen from the foot of the page with both leaves rising alike, and what stands out in it; null
 * where it can't be built.
 */
export function pictureOf(
  figure: Figure,
  { pageAngle, isNamed, marks, lost }: Sight,
): { drawn: Html; isColoured: boolean; isRinged: boolean } | null {
  const still = stillOf(figure, pageAngle);
  if (still === null) return null;
  const { assembly, shown, look } = still;
  const { panels } = assembly;
  const seen = panels.map(({ outline, holes }, panel) => {
    const rings = [outline, ...holes].map((ring) =>
      Array.from({ length: ring.length / 2 }, (_, i) => look(panel, ring[2 * i], ring[2 * i + 1])),
    );
    return { rings: rings.map((ring) => ring.map(flat)), depths: rings[0].map(([, , far]) => far) };
  });
  // What stands on the page fills the picture, with some of the page around it.
  const standing = seen.filter((_, panel) => panels[panel].part !== 'page');
  const { at, height } = frameAround(
    (standing.length === 0 ? seen : standing).flatMap(({ rings: [ring] }) => ring),
  );
  const path = (rings: readonly Ring[]) =>
    rings.map((ring) => `M${ring.map(([x, y]) => at(x, y).join(' ')).join('L')}Z`).join('');
  // What is glued on lies over what it is glued to.
  const glued = assembly.joints.flatMap(({ kind, between }) => (kind === 'glue' ? [between] : []));
  const shapes = depthOrder(seen, glued).map((panel) => {
    const { name, part } = panels[panel];
    const stands = isNamed(name);
    const fill = stands ? TINT : part === 'page' ? PAPER : LINE;
    const opacity = part === 'page' ? 0.3 : stands ? 0.8 : 0.9;
    return html`<path d="${path(seen[panel].rings)}" fill="${fill}" fill-opacity="${opacity}" fill-rule="evenodd" stroke="${INK}" stroke-width="0.8" stroke-linejoin="round"><title>${name}</title></path>`;
  });
  const rings = marks.flatMap(({ panel, at: [x, y] }) => {
    const index = panels.findIndex(({ name }) => name === panel);
    if (index < 0) return [];
    const [cx, cy] = at(...flat(look(index, x, y)));
    return [html`<circle cx="${cx}" cy="${cy}" r="8" fill="none" stroke="${ACCENT}" stroke-width="2.5"/>`];
  });
  const gone = cardGone(assembly, lost).map(({ panel, rings: area }) => {
    const d = path(area.map((ring) => ring.map(([x, y]) => flat(look(panel, x, y)))));
    return html`<path d="${d}" fill="${ACCENT}" fill-opacity="0.35" fill-rule="evenodd" stroke="${ACCENT}" stroke-width="1.2" stroke-dasharray="4 2"><title>card taken from ${panels[panel].name}</title></path>`;
  });
  const angle = withUnit(shown, 'degrees');
  const drawn = html`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${height.toFixed(0)}" width="${WIDTH}" height="${height.toFixed(0)}" role="img" aria-label="${`${figure.name} at a page angle of ${angle}`}">${shapes}${gone}${rings}</svg>`;
  return { drawn, isColoured: panels.some(({ name }) => isNamed(name)), isRinged: rings.length > 0 };
}

/** A figure as it stands at a page angle, or at the nearest that it reaches; null where it can't be built. */
function stillOf(
  figure: Figure,
  pageAngle: number,
): { assembly: Assembly; shown: number; look: ReturnType<typeof lookAt> } | null {
  const opening = new Opening();
  let assembly: Assembly;
  try {
    assembly = figure.build(figure.start);
    opening.run(assembly, figure.opening.step);
  } catch (error) {
    if (error instanceof CannotBuild) return null;
    throw error;
  }
  const reached = opening.count === 0 ? 180 : opening.pageAngles[opening.count - 1];
  const shown = Math.max(pageAngle, reached);
  const poses = opening.count === 0 ? assembly.open : opening.at(shown);
  return { assembly, shown, look: lookAt(poses, shown, EYE) };
}

/** Where what is seen lies in a picture that it fills, px; and how high that is. */
function frameAround(corners: Ring): { at: (x: number, y: number) => [string, string]; height: number } {
  const [xs, ys] = [corners.map(([x]) => x), corners.map(([, y]) => y)];
  const [left, right] = [Math.min(...xs), Math.max(...xs)];
  const [low, top] = [Math.min(...ys), Math.max(...ys)];
  const scale = (WIDTH - 2 * EDGE) / Math.max(right - left, top - low);
  const before = (WIDTH - 2 * EDGE - (right - left) * scale) / 2;
  return {
    at: (x, y) => [((x - left) * scale + EDGE + before).toFixed(1), ((top - y) * scale + EDGE).toFixed(1)],
    height: (top - low) * scale + 2 * EDGE,
  };
}

const flat = ([x, y]: readonly number[]): [number, number] => [x, y];

/** Where card is gone from panels, in the plane of each. */
function cardGone(
  assembly: Assembly,
  lost: Sight['lost'],
): { readonly panel: number; readonly rings: readonly Ring[] }[] {
  if (lost === undefined) return [];
  const before = lost.from.build(lost.from.start);
  return lost.panels.flatMap((name) => {
    const [was, is] = [before, assembly].map(({ panels }) =>
      panels.findIndex((panel) => panel.name === name),
    );
    if (was < 0 || is < 0) return [];
    return less(shapeOf(before.panels[was]), shapeOf(assembly.panels[is])).map(({ outline, holes }) => ({
      panel: is,
      rings: [outline, ...holes],
    }));
  });
}
