/**
 * Random figures, drawn from the grammar of docs/figure-file.md: most are tied so that they shut, some lock, many catch.
 * The same seed gives the same figure.
 */
import { addChain } from './chains.js';
import type { Figure, Part } from './rigid.js';
import { withSlot } from './slots.js';
import { chance, type P2, RAD } from './space.js';

/** A crease that is there to stand on: how long it is, and whether what stands on top of it points out. */
interface Place {
  crease: string;
  from: number;
  to: number;
  up: boolean;
}

export class Draw {
  readonly rnd: () => number;
  readonly parts: Part[] = [];
  readonly places: Place[] = [{ crease: 'gutter', from: 20, to: 190, up: false }];
  /** Panels on which something flat can be glued: half their breadth along, and how high they are. */
  readonly panels: { name: string; along: [number, number]; up: number }[] = [];
  #named = 0;

  constructor(seed: number) {
    this.rnd = chance(seed);
  }

  /** A number between two, in steps. */
  from(least: number, most: number, step = 0.5): number {
    return Math.round((least + this.rnd() * (most - least)) / step) * step;
  }
  oneOf<T>(...options: T[]): T {
    return options[Math.floor(this.rnd() * options.length)];
  }
  pair(least: number, most: number): [number, number] {
    return [this.from(least, most), this.from(least, most)];
  }
  /** A stretch of a length, 8 mm or more. */
  span(length: number): [number, number] {
    const from = this.from(0, length - 8);
    return [from, this.from(from + 8, length)];
  }
  likely(share: number): boolean {
    return this.rnd() < share;
  }
  name(kind: string): string {
    return `${kind} ${++this.#named}`;
  }
}

export function randomFigure(seed: number): Figure {
  const draw = new Draw(seed);
  if (draw.likely(0.08)) {
    addChain(draw);
    return { page: { width: 148, height: 210 }, parts: draw.parts };
  }
  const grounds = 1 + Math.floor(draw.rnd() * 3);
  for (let i = 0; i < grounds; i++) fold(draw, draw.places[0]);
  const more = Math.floor(draw.rnd() * 4);
  for (let i = 0; i < more; i++) {
    const place = draw.oneOf(...draw.places);
    const kind = draw.rnd();
    if (kind < 0.3) glue(draw);
    else if (kind < 0.55) counterFold(draw, place);
    else if (kind < 0.75) between(draw);
    else fold(draw, place);
  }
  const figure = { page: { width: 148, height: 210 }, parts: draw.parts };
  return draw.likely(0.5) ? withSlot(figure, draw.from(-0.5, 4)) : figure;
}

function fold(draw: Draw, place: Place): void {
  if (draw.likely(0.55)) vFold(draw, place);
  else parallelFold(draw, place);
}

function vFold(draw: Draw, { crease, from, to, up }: Place): void {
  const name = draw.name('v');
  const small = crease === 'gutter' ? 1 : 0.5;
  const one = draw.from(35, 80, 1);
  const glue = [one, draw.likely(0.6) ? one : draw.from(35, 80, 1)];
  if (draw.likely(0.1)) glue[0] = draw.from(91, 175 - glue[1], 1);
  else if (draw.likely(0.05)) for (const k of [0, 1]) glue[k] = 180 - glue[k];
  const points = up !== draw.likely(0.2) ? 'out' : 'in';
  const part: Part = { name, kind: 'v-fold', on: crease, at: draw.from(from, to), glue, points };
  const opens = points === 'out' ? [180 - glue[1], 180 - glue[0]] : [glue[1], glue[0]];
  const how = draw.rnd();
  // Wider by as much on both sides it stands; by much more on one side it locks.
  const more = (points === 'out' ? -1 : 1) * draw.from(3, 25, 1);
  if (how < 0.55) part.panels = [opens[0] + more, opens[1] + more + (how < 0.04 ? draw.from(7, 20, 1) : 0)];
  part.feet = [draw.from(15, 45 * small), draw.from(15, 45 * small)];
  part.ridge = draw.from(15, 60 * small);
  if (draw.likely(0.2)) part.start = draw.from(3, 8);
  if (draw.likely(0.3)) part.toward = 'start';
  draw.parts.push(part);
  const start = part.start ?? 0;
  draw.places.push({ crease: `${name} ridge`, from: 2, to: part.ridge - start - 5, up: true });
  for (const [k, side] of ['left', 'right'].entries()) {
    for (const which of ['inner', 'outer'])
      draw.places.push({
        crease: `${name} ${side} foot ${which}`,
        from: 2,
        to: part.feet[k] - start - 5,
        up: false,
      });
    draw.panels.push({ name: `${name} ${side}`, along: [3, part.feet[k] / 2], up: part.ridge / 2 });
  }
}

function parallelFold(draw: Draw, { crease, from, to, up }: Place): void {
  const name = draw.name('p');
  const small = crease === 'gutter' ? 1 : 0.5;
  const d = [draw.from(12, 45 * small), draw.from(12, 45 * small)];
  const shape = draw.oneOf('tent', 'tent', 'box', 'layer');
  const points = up && shape !== 'box' ? 'out' : 'in';
  const more = draw.likely(0.3) && points === 'in' ? 0 : draw.from(2, 25);
  const room = to + 5 - from;
  const length = draw.from(Math.min(8, room), Math.min(60, room));
  const at = draw.from(from, to + 5 - length);
  const part: Part = { name, kind: 'parallel-fold', shape, on: crease, at, length, glue: d, points };
  if (shape !== 'box' && (more > 0 || draw.likely(0.5))) part.widths = [d[1] + more, d[0] + more];
  if (shape === 'layer') part.layers = [draw.from(10, 35 * small), draw.from(10, 35 * small)];
  draw.parts.push(part);
  const widths = part.widths ?? [d[1], d[0]];
  draw.places.push({ crease: `${name} ridge`, from: 2, to: length - 5, up: shape !== 'layer' });
  for (const [k, side] of ['left', 'right'].entries()) {
    for (const which of ['inner', 'outer'])
      draw.places.push({ crease: `${name} ${side} foot ${which}`, from: 2, to: length - 5, up: false });
    draw.panels.push({ name: `${name} ${side}`, along: [3, length - 3], up: widths[k] });
    if (shape === 'layer')
      draw.panels.push({ name: `${name} layer ${side}`, along: [3, length - 3], up: part.layers[k] });
  }
}

const line = (panel: string, [x0, x1]: P2, up: number) => ({
  panel,
  line: [
    [x0, up],
    [x1, up],
  ],
});

/** A strut or a plate on hinges that keep their distance; or now and then on one more that does not. */
function between(draw: Draw): void {
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

function counterFold(draw: Draw, { crease, from, to }: Place): void {
  const name = draw.name('c');
  const diagonal = draw.from(20, 60, 1);
  const part: Part = { name, kind: 'counter-fold', on: crease, at: draw.from(from, to), diagonal };
  part.side = draw.from(8, 18);
  part.length = draw.from(8, 20);
  part.toward = draw.oneOf('end', 'start');
  if (draw.likely(0.2)) Object.assign(part, { fold: 'out', triangle: diagonal + draw.from(5, 25, 1) });
  draw.parts.push(part);
  draw.places.push({ crease: `${name} ridge`, from: 1, to: part.length - 3, up: true });
  for (const side of ['left', 'right'])
    draw.panels.push({ name: `${name} ${side}`, along: [2, part.side - 4], up: 3 });
}

/** An arm, a triangle, or a stiffener. */
function glue(draw: Draw): void {
  const {
    name: on,
    along,
    up,
  } = draw.oneOf({ name: 'left page', along: [-60, -20] as [number, number], up: 150 }, ...draw.panels);
  const at = [draw.from(...along), draw.from(2, up)];
  const turn = draw.from(0, 359, 1);
  const flat = { name: draw.name('g'), on, at, turn };
  if (draw.likely(0.2)) {
    draw.parts.push({ ...flat, kind: 'stiffener', size: [draw.from(6, 20), draw.from(6, 20)] });
    return;
  }
  const [long, wide] = [draw.from(10, 60), draw.oneOf(draw.from(4, 8), draw.from(6, 20))];
  const outline = draw.likely(0.5)
    ? [
        [0, 0],
        [long, 0],
        [long, wide],
        [0, wide],
      ]
    : [
        [-4, -4],
        [long, 0],
        [0, wide],
      ];
  draw.parts.push({ ...flat, kind: 'glued-piece', outline });
  draw.panels.push({ name: flat.name, along: [3, long / 2], up: wide / 2 });
}
