/**
 * Links between a page and a layer that floats over it. How links tilt on their hubs the docs leave open, so the oracle
 * places none; but hubs must meet where the panels at either end take them, a knee stays on its side, and a chain is too
 * short or too long by what its ends, as three points in space, say.
 */
import type { Poses } from './compare.js';
import type { Draw } from './grammar.js';
import { type Figure, type Part, reference, type Scene, sceneAt } from './rigid.js';
import { add, at, cross, dot, far, type P2, size, sub, unit, type V3, within } from './space.js';

/** Less than this a hub or a neck can shift to either side, mm: half of hole less waist. */
const HUB = 0.2;
const NECK = 0.35;

const isChain = ({ kind }: Part) => ['link', 'pivot', 'tongue'].includes(kind);
export const hasChain = ({ parts }: Figure): boolean => parts.some(isChain);
/** Whether a panel is a link, or the tail of its tongue. */
export const ofChain = ({ parts }: Figure, panel: string): boolean =>
  parts.some((part) => isChain(part) && (panel === part.name || panel === `${part.name} tail`));

/** Adds a layer and, from the left page to it, a limb of two links, or one that ends in a slit. */
export function addChain(draw: Draw): void {
  const layer = draw.name('p');
  const [d, layers, length] = [draw.pair(15, 30), draw.pair(30, 50), draw.from(40, 70)];
  const more = draw.from(1, 6);
  const [widths, start] = [[d[1] + more, d[0] + more], draw.from(20, 120)];
  const fold = {
    name: layer,
    kind: 'parallel-fold',
    shape: 'layer',
    at: start,
    length,
    glue: d,
    widths,
    layers,
  };
  draw.parts.push(fold);
  const figure = { page: { width: 148, height: 210 }, parts: [fold] };
  const open = sceneAt(figure, 180, reference(figure) as Scene);
  const rounded = ([x, y]: readonly number[]): P2 => [Math.round(x * 10) / 10, Math.round(y * 10) / 10];
  const top = rounded(
    at(open.panel(`${layer} layer left`), [draw.from(7, length - 7), draw.from(9, layers[0] - 7)]),
  );
  const end = draw.likely(0.5) ? 1 : -1;
  const [name, other] = [draw.name('l'), draw.name('l')];
  const link = { kind: 'link', width: 8 };
  if (draw.likely(0.4)) {
    const toe = rounded([top[0] + draw.from(-15, 15), top[1] + end * draw.from(35, 60)]);
    const reach = draw.oneOf(20, 40, 70);
    const slit = {
      panel: 'left page',
      line: [rounded([toe[0] - reach, toe[1]]), rounded([Math.min(toe[0] + reach, -3), toe[1]])],
    };
    draw.parts.push(
      { ...link, name, from: top, to: toe },
      { name: draw.name('h'), kind: 'pivot', between: [name, `${layer} layer left`], at: [0, 0] },
      {
        name: draw.name('t'),
        kind: 'tongue',
        panel: name,
        at: [Math.hypot(toe[0] - top[0], toe[1] - top[1]), 0],
        slit,
      },
    );
    return;
  }
  const hip = rounded([top[0] + draw.from(-30, 30), top[1] + end * draw.from(20, 50)]);
  const knee = rounded([(top[0] + hip[0]) / 2 + draw.oneOf(-1, 1) * draw.from(8, 40), (top[1] + hip[1]) / 2]);
  const shin = Math.hypot(top[0] - knee[0], top[1] - knee[1]);
  const thigh = Math.hypot(hip[0] - knee[0], hip[1] - knee[1]);
  draw.parts.push(
    { ...link, name, from: hip, to: knee },
    { ...link, name: other, from: knee, to: top },
    { name: draw.name('h'), kind: 'pivot', between: ['left page', name], at: hip },
    { name: draw.name('h'), kind: 'pivot', between: [name, other], at: [thigh, 0] },
    { name: draw.name('h'), kind: 'pivot', between: [other, `${layer} layer left`], at: [shin, 0] },
  );
}

/** Where a joint sits on both its panels: on links along them, on others as the open figure has it. */
interface Joint {
  panels: [string, string];
  points: [P2, P2];
  play: number;
}

function jointsOf({ parts }: Figure, open: Scene): Joint[] {
  const links = new Map(parts.filter(({ kind }) => kind === 'link').map((link) => [link.name, link]));
  const there = (panel: string, p: P2): V3 => {
    const link = links.get(panel);
    if (link === undefined) return at(open.panel(panel), p);
    const way = unit([link.to[0] - link.from[0], link.to[1] - link.from[1], 0]);
    return add([link.from[0], link.from[1], 0], way, p[0]);
  };
  const onto = (panel: string, p: V3): P2 => {
    const link = links.get(panel);
    if (link === undefined) return within(open.panel(panel), p);
    return [Math.hypot(p[0] - link.from[0], p[1] - link.from[1]), 0];
  };
  return parts
    .filter(({ kind }) => kind === 'pivot')
    .map(({ between: [a, b], at: p }) => ({ panels: [a, b], points: [p, onto(b, there(a, p))], play: HUB }));
}

/** What of the chains of a figure is not as it must be, and by how much they are too short or too long at worst, mm. */
export function compareChains(
  figure: Figure,
  program: Poses,
  scenes: Map<number, Scene>,
  told: string[],
): void {
  const open = scenes.get(180);
  if (open === undefined) return;
  const joints = jointsOf(figure, open);
  const { misfit } = program.scorecard.bind;
  const placed = (scene: Scene, poses: number[][], panel: string, p: P2): V3 => {
    const known = scene.panels.get(panel);
    if (known !== undefined) return at(known, p);
    const m = poses[program.panels.findIndex(({ name }) => name === panel)];
    return [m[0] * p[0] + m[3], m[4] * p[0] + m[7], m[8] * p[0] + m[11]];
  };
  const sides = new Map<string, number>();
  let missed = 0;
  const apart: { by: number; what: string }[] = [];
  for (const { pageAngle, poses } of program.frames) {
    const scene = scenes.get(pageAngle);
    if (scene === undefined) continue;
    const ends = joints.map(({ panels, points }) =>
      panels.map((panel, k) => placed(scene, poses, panel, points[k])),
    );
    joints.forEach(({ panels, play }, k) => {
      apart.push({
        by: far(ends[k][0], ends[k][1]) - play,
        what: `${panels.join(' and ')} at ${pageAngle}°`,
      });
    });
    for (const { kind, name, panel, at: point, slit } of figure.parts) {
      if (kind !== 'tongue') continue;
      const neck = placed(scene, poses, panel, point);
      const [from, to] = slit.line.map((p: P2) => at(scene.panel(slit.panel), p));
      apart.push({ by: fromSegment(neck, from, to) - NECK, what: `${name} and its slit at ${pageAngle}°` });
      const hub = ends[joints.findIndex(({ panels }) => panels[0] === panel)][1];
      const [least, most] = [fromSegment(hub, from, to), Math.max(far(hub, from), far(hub, to))];
      missed = Math.max(missed, least - point[0] - NECK - HUB, point[0] - most - NECK - HUB);
    }
    const knee = joints.findIndex(({ panels }) => panels.every((panel) => !scene.panels.has(panel)));
    if (knee < 0) continue;
    const [hip, ankle] = [ends[knee - 1][0], ends[knee + 1][1]];
    const [a, b] = [joints[knee].points[0][0], joints[knee + 1].points[0][0]];
    const reach = far(hip, ankle);
    missed = Math.max(missed, reach - a - b - 3 * HUB, Math.abs(a - b) - reach - 3 * HUB);
    const bent = cross(sub(ends[knee][0], hip), sub(ankle, hip));
    const side = dot(bent, [0, 0, 1]) / Math.max(1, size(sub(ends[knee][0], hip)) * reach);
    const was = sides.get('knee');
    if (Math.abs(side) > 0.15 && misfit < 0.5) {
      if (was !== undefined && was !== Math.sign(side))
        told.push(`the knee bends to the other side at ${pageAngle}°`);
      sides.set('knee', Math.sign(side));
    }
  }
  for (const { by, what } of apart)
    if (by > missed + 0.05) told.push(`${what} are ${by.toFixed(2)} mm apart, beyond their play`);
  // Of what is missed counts the share that the pull is of 20 N.
  const counts = missed * Math.min(1, program.scorecard.chains.pull.value / 20);
  const near = Math.max(0.5, missed / 4);
  if (misfit > missed + near || misfit < counts - near)
    told.push(
      `a chain misses: oracle ${counts.toFixed(2)} to ${missed.toFixed(2)}, program ${misfit.toFixed(2)} mm`,
    );
}

function fromSegment(p: V3, from: V3, to: V3): number {
  const way = sub(to, from);
  const t = Math.min(1, Math.max(0, dot(sub(p, from), way) / dot(way, way)));
  return far(p, add(from, way, t));
}
