import { areaOf, type Box, boxOf, type Point, type Ring } from '../../geometry/plane.js';
import type { Assembly } from '../../motion/assembly.js';
import { depthOrder, type Seen } from '../../view/depth-order.js';
import { type Eye, lookAt } from '../../view/look.js';
import { type Drawing, emptyDrawing } from '../drawn/drawing.js';
import type { Bond } from '../nets/bonds.js';
import { pointsOf } from '../nets/cards.js';
import type { Frames } from '../nets/fold-sense.js';
import type { Net } from '../nets/net.js';

/** Drawn at the page angle nearest to this, degrees: open enough to see in, shut enough to see what stands. */
const SHOWN_AT = 110;
const EYE: Eye = { aside: 0.3, down: 0.6 };

/** What a step is drawn with: the panels in space, as they look from the front. */
export interface View {
  readonly panels: readonly Seen[];
  /** Panels, the farthest first. */
  readonly order: readonly number[];
  /** A point of a panel, on the drawing. */
  readonly point: (panel: number, at: Point) => Point;
  readonly box: Box;
}

/** Looks at the figure half open. The book is turned so that both pages rise alike, then a little aside. */
export function viewOf(assembly: Assembly, frames: Frames, bonds: readonly Bond[]): View {
  let frame = 0;
  frames.pageAngles.forEach((angle, i) => {
    if (Math.abs(angle - SHOWN_AT) < Math.abs(frames.pageAngles[frame] - SHOWN_AT)) frame = i;
  });
  const look = lookAt(frames.poses[frame], frames.pageAngles[frame], EYE);
  const panels = assembly.panels.map(({ outline, holes }, panel) => {
    const seen = [outline, ...holes].map((ring) => pointsOf(ring).map(([x, y]) => look(panel, x, y)));
    return {
      rings: seen.map((ring): Ring => ring.map(([x, y]) => [x, y])),
      depths: seen[0].map(([, , far]) => far),
    };
  });
  // Of two glued together, the giver hides the receiver where the receiver shows us the face that carries the glue.
  const hidden = bonds.flatMap(({ giver, receiver }) => {
    const [under, over] = [receiver, giver].map(({ net, area }) => net.areas[area]);
    if (under.panel < 0 || over.panel < 0) return [];
    const shown = areaOf(panels[under.panel].rings[0]) > 0 ? 1 : -1;
    const pair = [under.panel, over.panel] as const;
    return [receiver.face * under.place.flip === shown ? pair : ([pair[1], pair[0]] as const)];
  });
  // What stands on the page fills the picture, with some of the page around it; a page alone is shown whole.
  const standing = panels.filter((_, panel) => assembly.panels[panel].part !== 'page');
  const { left, low, right, high } = boxOf(
    (standing.length === 0 ? panels : standing).flatMap(({ rings }) => rings[0]),
  );
  const around = 0.12 * Math.max(right - left, high - low);
  return {
    panels,
    order: depthOrder(panels, hidden),
    point(panel, at) {
      const [x, y] = look(panel, ...at);
      return [x, y];
    },
    box: { left: left - around, low: low - around, right: right + around, high: high + around },
  };
}

/**
 * One step: what is there already in white, what is added in grey, with letters where the glue is. One drawing for each
 * panel, the farthest first, to be drawn over one another.
 * @param letters a letter and where on which panel
 */
export function drawStep(
  view: View,
  there: readonly Net[],
  added: readonly Net[],
  letters: readonly { letter: string; panel: number; at: Point }[],
  width: number,
  height: number,
): Drawing[] {
  const box = closeUp(view, added);
  const scale = Math.min((width - 4) / (box.right - box.left), (height - 4) / (box.high - box.low));
  const [midX, midY] = [(box.left + box.right) / 2, (box.low + box.high) / 2];
  const onPaper = ([x, y]: Point): Point => [width / 2 + (x - midX) * scale, height / 2 + (y - midY) * scale];
  const layers: Drawing[] = [];
  const shown = [...there.map((net) => ({ net, grey: 1 })), ...added.map((net) => ({ net, grey: 0.78 }))];
  const greyOf = new Map(shown.flatMap(({ net, grey }) => net.areas.map(({ panel }) => [panel, grey])));
  for (const panel of view.order) {
    const grey = greyOf.get(panel);
    if (grey === undefined) continue;
    const rings = view.panels[panel].rings.map((ring) => ring.map(onPaper));
    const layer = emptyDrawing(width, height);
    layer.fills.push({ rings, grey });
    for (const points of rings) layer.strokes.push({ kind: 'note', points, closed: true });
    layers.push(layer);
  }
  // Edges of what is added show through what hides them.
  const top = emptyDrawing(width, height);
  for (const { panel } of added.flatMap((net) => net.areas))
    if (panel >= 0)
      for (const ring of view.panels[panel].rings)
        top.strokes.push({ kind: 'glue behind', points: ring.map(onPaper), closed: true });
  for (const { letter, panel, at } of letters) {
    let spot = onPaper(view.point(panel, at));
    // Two on one spot would hide each other: the later one stands beside.
    while (top.texts.some((other) => near(other.at, spot))) spot = [spot[0] + LETTER, spot[1]];
    top.texts.push({ at: spot, text: letter, size: LETTER, anchor: 'middle', turn: 0, bold: true });
  }
  layers.push(top);
  return layers;
}

/** Size of letters, mm. */
const LETTER = 3.4;
const near = (a: Point, b: Point): boolean => Math.hypot(a[0] - b[0], a[1] - b[1]) < 0.95 * LETTER;

/** Least share of the whole figure that a picture shows, so that a small part is still seen in its place. */
const LEAST_SHOWN = 0.45;

/** The part of the view that shows what is added, with what is around it. */
function closeUp({ panels, box: whole }: View, added: readonly Net[]): Box {
  const rings = added.flatMap(({ areas }) =>
    areas.flatMap(({ panel }) => (panel < 0 ? [] : panels[panel].rings[0])),
  );
  if (rings.length === 0) return whole;
  const { left, low, right, high } = boxOf(rings);
  const side = (size: number, of: number) => Math.min(of, Math.max(1.5 * size, LEAST_SHOWN * of)) / 2;
  const across = side(right - left, whole.right - whole.left);
  const up = side(high - low, whole.high - whole.low);
  const [x, y] = [(left + right) / 2, (low + high) / 2];
  return { left: x - across, right: x + across, low: y - up, high: y + up };
}
