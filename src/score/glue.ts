import { overlapArea } from '../geometry/coverage.js';
import type { Shape } from '../geometry/polygon.js';
import { visitCells } from '../geometry/trapezoids.js';
import { type Assembly, POSE } from '../motion/assembly.js';
import type { Opening } from '../motion/opening.js';
import { lengthWithin } from '../parts/trim-breaks.js';
import { liesOn, placedLine, placedShape, placingIn } from './bodies.js';

/** A place where glue does not hold, or holds what it should not. */
export interface GlueFault {
  readonly tab: string;
  /** Hangs over an edge, a hole or a crease; lies on another tab; or a crease that moves runs across it. */
  readonly kind: 'off card' | 'on a tab' | 'under a crease';
  /** What it hangs off, lies on, or has moving across it. */
  readonly other: string;
  /** Area of glue concerned, mm². */
  readonly area: number;
}

/** So near to a crease that moves, on either side, glue would set it, mm. (Common practice, no source.) */
const MARGIN = 2;
/** Areas smaller than this, mm², are round-off and corners that touch. */
const SPECK = 0.5;

/**
 * Where glue tabs don't lie flat on bare card of what they are glued to, or lie where a part on the same face moves; the
 * greatest area first. All of it stays as it is while the page moves, so it is looked at once.
 */
export function findGlueFaults(assembly: Assembly, opening: Opening): GlueFault[] {
  const { panels, joints, open } = assembly;
  const faults: GlueFault[] = [];
  const tabs = tabsOf(assembly);
  const face = (tab: Tab) => faceOf(assembly, opening, tab.body, tab.stands);
  for (const tab of tabs) {
    const add = (kind: GlueFault['kind'], other: number, area: number) => {
      if (area > SPECK) faults.push({ tab: panels[tab.panel].name, kind, other: panels[other].name, area });
    };
    add('off card', tab.receiver, areaOff(tab, assembly));
    for (const other of tabs) {
      if (other.panel <= tab.panel || other.body !== tab.body) continue;
      const area = overlapArea(tab.shape, other.shape);
      if (area > SPECK && face(other) === face(tab)) add('on a tab', other.panel, area);
    }
    for (const joint of joints) {
      if (joint.kind !== 'crease') continue;
      for (const end of [0, 1] as const) {
        const k = joint.between[end];
        const mover = joint.between[1 - end];
        if (panels[k].body !== tab.body || panels[mover].body === tab.body) continue;
        if (k === tab.panel || mover === tab.stands) continue;
        const line = placedLine(joint.lines[end], placingIn(open, k, tab.body));
        const area = 2 * MARGIN * lengthWithin(line, tab.shape.outline);
        if (area > SPECK && faceOf(assembly, opening, tab.body, mover) === face(tab))
          add('under a crease', mover, area);
      }
    }
  }
  return faults.sort((a, b) => b.area - a.area);
}

interface Tab {
  readonly panel: number;
  readonly receiver: number;
  /** The panel that stands on it. */
  readonly stands: number;
  readonly body: number;
  /** In the frame of the body. */
  readonly shape: Shape;
}

function tabsOf({ panels, joints, open }: Assembly): Tab[] {
  const receivers = new Map<number, number>();
  for (const { kind, between } of joints)
    if (kind === 'glue' && panels[between[1]].role === 'tab') receivers.set(between[1], between[0]);
  const tabs: Tab[] = [];
  for (const { kind, between } of joints) {
    const [panel, stands] = between;
    const receiver = receivers.get(panel);
    if (kind !== 'crease' || receiver === undefined) continue;
    const { body } = panels[panel];
    tabs.push({
      panel,
      receiver,
      stands,
      body,
      shape: placedShape(panels[panel], placingIn(open, panel, body)),
    });
  }
  return tabs;
}

/** How much of a tab no card of its body lies under, mm². */
function areaOff({ shape, body, receiver }: Tab, { panels, open }: Assembly): number {
  if (liesOn(shape, placedShape(panels[receiver], placingIn(open, receiver, body)))) return 0;
  const card = panels.flatMap((panel, k) =>
    panel.body === body && panel.role === 'card' ? [placedShape(panel, placingIn(open, k, body))] : [],
  );
  let off = 0;
  visitCells([shape, ...card], [1, ...card.map(() => 2)], ({ weight, width, height }) => {
    if (weight === 1) off += width * height;
  });
  return off;
}

/** On which side of a body's plane a panel stands: looked at where it is farthest from the plane. */
function faceOf({ panels }: Assembly, opening: Opening, body: number, panel: number): number {
  const { outline } = panels[panel];
  let farthest = 0;
  for (const share of [0.25, 0.5, 0.75]) {
    const poses = opening.frame(Math.floor(share * (opening.count - 1)));
    const i = panel * POSE;
    const j = body * POSE;
    let sum = 0;
    for (let c = 0; c < outline.length; c += 2)
      for (let axis = 0; axis < POSE; axis += 4)
        sum +=
          poses[j + axis + 2] *
          (poses[i + axis] * outline[c] +
            poses[i + axis + 1] * outline[c + 1] +
            poses[i + axis + 3] -
            poses[j + axis + 3]);
    if (Math.abs(sum) > Math.abs(farthest)) farthest = sum;
  }
  return Math.sign(farthest);
}
