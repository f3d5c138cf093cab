/**
 * Random figures, drawn from the grammar of docs/figure-file.md: most are tied so that they shut, some lock, many catch.
 * The same seed gives the same figure.
 */
import { addChain } from './chains.js';
import { between } from './grammar-carried.js';
import type { Figure, Part } from './rigid.js';
import { withSlot } from './slots.js';
import { chance, RAD } from './space.js';

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
  tab() {
    return { width: this.from(4, 10), side: this.oneOf('inner', 'outer'), mitre: this.from(40, 90, 1) };
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
  const twin = draw.oneOf(...draw.parts);
  if (draw.likely(0.15)) {
    const name = draw.name('w');
    draw.parts.push({ name, 'twin of': twin.name, at: draw.from(20, 170) } as unknown as Part);
  }
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
  const glue = [one, draw.likely(0.4) ? one : draw.from(35, 80, 1)];
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
  if (draw.likely(0.2)) part.tab = draw.tab();
  if (draw.likely(0.2) && part.start === undefined) part.outlines = { left: windowed(draw, part) };
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

/** A panel with card beyond its foot and its ridge, and with a window. */
function windowed(draw: Draw, { feet, ridge, glue, panels, points }: Part) {
  const p = (panels ?? (points === 'out' ? [180 - glue[1]] : [glue[1]]))[0] * RAD;
  const tip = [ridge * Math.cos(p), ridge * Math.sin(p)];
  const beyond = [(feet[0] + tip[0]) / 2 + draw.from(2, 12), tip[1] / 2 + draw.from(2, 12)];
  const hole = [0.3, 0.45].map((k) => [k * (feet[0] + tip[0]) * 0.6, k * tip[1] * 0.6]);
  const middle = [hole[1][0] + 1, hole[0][1]];
  return { polygon: [[0, 0], [feet[0], 0], beyond, tip], holes: [[hole[0], middle, hole[1]]] };
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
  if (draw.likely(0.2)) part.tab = draw.tab();
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
  // Drawn so that its panel lies to the left of it: from the piece's first corner to its second.
  if (draw.likely(0.3)) {
    const edge = { panel: flat.name, line: [outline[0], outline[1]] };
    draw.parts.push({ name: draw.name('f'), kind: 'cover-flap', edge, depth: draw.from(3, wide) });
  }
  draw.panels.push({ name: flat.name, along: [3, long / 2], up: wide / 2 });
}
