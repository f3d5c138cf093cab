import { type Box, boxOf, type Point } from '../../geometry/plane.js';
import { LEFT_PAGE, RIGHT_PAGE } from '../../motion/assembly.js';
import { depthOrder } from '../../view/depth-order.js';
import { type Drawing, emptyDrawing } from '../drawn/drawing.js';
import type { Net } from '../nets/net.js';
import type { Mark, Scene, View } from './scene.js';

/** Size of letters, and least way between two, mm. */
const LETTER = 3.4;

/**
 * One step: what is fixed already in white, what is added in grey, with letters where the glue is, from the side from
 * which most of it is seen. One drawing for each panel, the farthest first, to be drawn over one another.
 * @param there what is in its place already, and touched or stood beside; nothing else is drawn
 * @param touched of both, what the step is about: all of it is in the picture
 */
export function drawStep(
  scene: Scene,
  there: readonly Net[],
  added: readonly Net[],
  touched: readonly Net[],
  letters: readonly (Mark & { readonly letter: string })[],
  width: number,
  height: number,
): Drawing[] {
  const grey = new Map<number, number>();
  for (const [nets, shade] of [
    [there, 1],
    [added, 0.78],
  ] as const)
    for (const { panel } of nets.flatMap(({ areas }) => areas)) if (panel >= 0) grey.set(panel, shade);
  const panels = [...grey.keys()];
  const view = scene.best(panels, panelsOf(added), letters);
  const box = closeUp(view, panels, panelsOf(touched));
  const scale = Math.min((width - 8) / (box.right - box.left), (height - 8) / (box.high - box.low));
  const [midX, midY] = [(box.left + box.right) / 2, (box.low + box.high) / 2];
  const onPaper = ([x, y]: Point): Point => [width / 2 + (x - midX) * scale, height / 2 + (y - midY) * scale];
  const layers: Drawing[] = [];
  const place = new Map(panels.map((panel, i) => [panel, i]));
  const pairs = view.hidden.flatMap(([a, b]) => {
    const [i, j] = [place.get(a), place.get(b)];
    return i === undefined || j === undefined ? [] : [[i, j] as const];
  });
  const order = depthOrder(
    panels.map((panel) => view.panels[panel]),
    pairs,
  );
  for (const i of order) {
    const panel = panels[i];
    const rings = view.panels[panel].rings.map((ring) => ring.map(onPaper));
    const layer = emptyDrawing(width, height);
    layer.fills.push({ rings, grey: grey.get(panel) ?? 1 });
    for (const points of rings) layer.strokes.push({ kind: 'note', points, closed: true });
    layers.push(layer);
  }
  // Edges of what is added show through what hides them.
  const top = emptyDrawing(width, height);
  for (const panel of panelsOf(added))
    for (const ring of view.panels[panel].rings)
      top.strokes.push({ kind: 'glue behind', points: ring.map(onPaper), closed: true });
  const written = emptyDrawing(width, height);
  for (const { letter, panel, at } of letters) {
    const [x, y] = view.look(panel, ...at);
    writeLetter(written, letter, onPaper([x, y]));
  }
  layers.push(top, written);
  return layers;
}

const panelsOf = (nets: readonly Net[]): number[] =>
  nets.flatMap(({ areas }) => areas.flatMap(({ panel }) => (panel < 0 ? [] : [panel])));

/** Half a letter with a little room around it, mm: lines end there. */
const HALF = 0.6 * LETTER;

/** A letter on white at its spot, or where another stands there beside it, with a leader. */
export function writeLetter(top: Drawing, letter: string, spot: Point): void {
  const taken = top.texts.map(({ at }) => at);
  const apart = ([x, y]: Point) =>
    taken.every(([u, v]) => Math.abs(u - x) > 1.5 * LETTER || Math.abs(v - y) > 1.1 * LETTER);
  const free = (at: Point) =>
    apart(at) &&
    at[0] > LETTER &&
    at[1] > LETTER &&
    at[0] < top.width - LETTER &&
    at[1] < top.height - LETTER;
  let at = spot;
  for (let away = 0; away < 30 && !free(at); away++)
    at = [
      spot[0] + LETTER * (1 + away / 8) * 1.8 * Math.cos((away * Math.PI) / 4),
      spot[1] + LETTER * (1 + away / 8) * 1.8 * Math.sin((away * Math.PI) / 4),
    ];
  top.texts.push({ at, text: letter, size: LETTER, anchor: 'middle', turn: 0, bold: true });
  if (/^\p{L}/u.test(letter)) top.fills.push({ rings: [squareAround(at)], grey: 1 });
  const far = Math.hypot(at[0] - spot[0], at[1] - spot[1]);
  // From the letter that stands at the spot, if one does, to this one.
  const [from, to] = [apart(spot) ? 0 : HALF, far - HALF];
  if (far < 1 || to <= from) return;
  const along = (way: number): Point => [
    spot[0] + ((at[0] - spot[0]) * way) / far,
    spot[1] + ((at[1] - spot[1]) * way) / far,
  ];
  top.strokes.push({ kind: 'note', points: [along(from), along(to)], closed: false });
}

const squareAround = ([x, y]: Point): Point[] => [
  [x - HALF, y - HALF],
  [x + HALF, y - HALF],
  [x + HALF, y + HALF],
  [x - HALF, y + HALF],
];

/** A picture shows at least this share of all that is there, so that a small part is still seen in its place. */
const LEAST_SHOWN = 0.4;
/** The nearest corner of the page is shown where that makes the picture no larger than so many times. */
const FOR_CORNER = 1.6;

/** The part of the view that shows all of what is touched, with some of what is around it and a corner of the page. */
function closeUp({ panels }: View, shown: readonly number[], touched: readonly number[]): Box {
  const boxAround = (some: readonly number[]) => boxOf(some.flatMap((panel) => panels[panel].rings[0]));
  const whole = boxAround(shown);
  const figure = touched.filter((panel) => panel !== LEFT_PAGE && panel !== RIGHT_PAGE);
  const own = boxAround(figure.length > 0 ? figure : touched.length > 0 ? touched : shown);
  const least = (size: number, of: number) => Math.max(1.15 * size, LEAST_SHOWN * of) / 2;
  const across = least(own.right - own.left, whole.right - whole.left);
  const up = least(own.high - own.low, whole.high - whole.low);
  const [x, y] = [(own.left + own.right) / 2, (own.low + own.high) / 2];
  const box: Box = { left: x - across, right: x + across, low: y - up, high: y + up };
  const corners = [LEFT_PAGE, RIGHT_PAGE]
    .filter((page) => shown.includes(page))
    .flatMap((page) => panels[page].rings[0])
    .map((corner) => boxOf([corner, [box.left, box.low], [box.right, box.high]]))
    .sort((a, b) => sizeOf(a) - sizeOf(b));
  const [nearest] = corners;
  return nearest !== undefined && sizeOf(nearest) < FOR_CORNER * sizeOf(box) ? nearest : box;
}

const sizeOf = ({ left, low, right, high }: Box): number => Math.max(right - left, high - low);
