/** Random struts and plates, with the folds that carry them. */
import type { Draw } from './grammar.js';
import type { Part } from './rigid.js';
import { type P2, RAD } from './space.js';

const line = (panel: string, [x0, x1]: P2, up: number) => ({
  panel,
  line: [
    [x0, up],
    [x1, up],
  ],
});

/** A strut or a plate on hinges that keep their distance; or now and then on one more that does not. */
export function between(draw: Draw): void {
  const kind = draw.oneOf(layerStrut, boxStrut, boxPlate, foldPlate, layerPlate);
  kind(draw, draw.name('b'), draw.from(20, 120));
}

/** The hinge of a page, along the gutter. */
const onPage = (side: string, off: number, [y0, y1]: P2) => ({
  panel: `${side} page`,
  line: [y0, y1].map((y) => [side === 'left' ? -off : off, y]),
});

function layerStrut(draw: Draw, name: string, at: number): void {
  const { layer, d, layers, length } = addLayer(draw, at);
  const k = draw.oneOf(0, 1);
  const side = ['left', 'right'][k];
  const [along, off] = [draw.span(length), draw.from(2, layers[k] - 2)];
  const foot = onPage(side, d[k] + off, [at + along[0], at + along[1]]);
  draw.parts.push({ name, kind: 'strut', foot, top: line(`${layer} layer ${side}`, along, off) });
}

function layerPlate(draw: Draw, name: string, at: number): void {
  const { layer, widths, length } = addLayer(draw, at);
  const k = draw.oneOf(0, 1);
  const side = ['left', 'right'][k];
  const [along, up] = [draw.span(length), draw.from(2, widths[k] - 2)];
  const supports = [line(`${layer} ${side}`, along, up), line(`${layer} wall ${side}`, along, up)];
  draw.parts.push({ name, kind: 'plate', supports, margin: draw.from(0, 5) });
}

function addLayer(draw: Draw, at: number) {
  const layer = draw.name('p');
  const [d, layers] = [draw.pair(12, 40), draw.pair(14, 30)];
  const more = draw.from(2, 25);
  const [widths, length] = [[d[1] + more, d[0] + more], draw.from(20, 50)];
  draw.parts.push({
    name: layer,
    kind: 'parallel-fold',
    shape: 'layer',
    at,
    length,
    glue: d,
    widths,
    layers,
  });
  return { layer, d, layers, widths, length };
}

/** Beside the left panel of a box and as high: from the left page to the right panel, which lies like it. */
function boxStrut(draw: Draw, name: string, at: number): void {
  const [box, d, length] = [draw.name('p'), draw.pair(15, 40), draw.from(20, 50)];
  draw.parts.push({ name: box, kind: 'parallel-fold', shape: 'box', at, length, glue: d });
  const [along, off] = [draw.span(length), draw.from(3, d[0] - 3)];
  const foot = onPage('left', off, [at + along[0], at + along[1]]);
  draw.parts.push({ name, kind: 'strut', foot, top: line(`${box} right`, along, off) });
}

/** On two boxes whose left panels lie like the right page: one behind the other, or side by side. */
function boxPlate(draw: Draw, name: string, at: number): void {
  const [one, other] = [draw.name('p'), draw.name('p')];
  const [d, length] = [draw.pair(15, 30), draw.from(20, 40)];
  const box = { kind: 'parallel-fold', shape: 'box', length };
  draw.parts.push({ ...box, name: one, at, glue: d });
  draw.parts.push({
    ...box,
    name: other,
    at: at + draw.from(-15, 15),
    glue: [d[0] + draw.from(10, 40), d[1]],
  });
  const up = draw.likely(0.5) ? d[1] : draw.from(4, d[1]);
  const supports = [one, other].map((support) => line(`${support} left`, draw.span(length), up));
  draw.parts.push({ name, kind: 'plate', supports, margin: draw.from(0, 5) });
}

/** On two or three V-folds that are alike, one after the other along the gutter. */
function foldPlate(draw: Draw, name: string, at: number): void {
  const g = draw.from(40, 75, 1);
  const more = draw.from(3, 25, 1);
  const [foot, ridge, apart] = [draw.from(25, 45), draw.from(30, 50), [draw.from(15, 40), draw.from(45, 70)]];
  const folds = [0, ...apart].map((k) => ({
    ...{ name: draw.name('v'), kind: 'v-fold', at: at + k, glue: [g, g], panels: [g + more, g + more] },
    ...{ feet: [foot, foot], ridge },
  }));
  const [along, up] = [draw.span(foot / 2), draw.from(5, 12)];
  const supports: Part['supports'] = folds.map((fold) => line(`${fold.name} left`, along, up));
  const three = draw.likely(0.5);
  draw.parts.push(...(three ? folds : folds.slice(0, 2)));
  if (!three) supports.pop();
  else {
    const [x, y] = [Math.cos(g * RAD) * apart[1], Math.sin(g * RAD) * apart[1]];
    supports[2].meets = [
      [x, y],
      [x + along[1] - along[0], y],
    ];
    // A third that is higher misses by as much throughout.
    if (draw.likely(0.3)) for (const point of supports[2].line) point[1] += draw.from(0.2, 2, 0.1);
    supports[2].line[1][1] = supports[2].line[0][1];
  }
  draw.parts.push({ name, kind: 'plate', supports, margin: draw.from(0, 5) });
}
