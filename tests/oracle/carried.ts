/** What is glued flat on panels, or carried on hinges of two of them. */
import type { Part, Scene } from './rigid.js';
import { cross, far, normal, at as pointAt, squareTo, sub, turned, unit, type V3 } from './space.js';

/** Its along and up turned in the plane of what it lies on. */
export function glued(scene: Scene, { name, on, at, turn = 0 }: Part): void {
  const under = scene.panel(on);
  const u = turned(under.u, under.v, turn);
  scene.panels.set(name, { o: pointAt(under, at), u, v: turned(under.u, under.v, turn + 90) });
}

/** A line on a panel, as `{ panel, line }` has it: its two ends in space. */
export const hinge = (scene: Scene, { panel, line }: Part['foot']): [V3, V3] => {
  const under = scene.panel(panel);
  return [pointAt(under, line[0]), pointAt(under, line[1])];
};

/** A panel on two hinges that stay as far apart as they are: it lies in the plane of both. */
function between(scene: Scene, name: string, [first, end]: [V3, V3], other: V3): void {
  const u = unit(sub(end, first));
  scene.panels.set(name, { o: first, u, v: squareTo(u, sub(other, first)) });
}

export function strut(scene: Scene, { name, foot, top }: Part): void {
  between(scene, name, hinge(scene, foot), hinge(scene, top)[0]);
}

/** The first two supports place it; of every further one that says where it `meets` the plate, it is told what it misses. */
export function plate(scene: Scene, { name, supports }: Part): void {
  const [first, second, ...others] = supports;
  between(scene, name, hinge(scene, first), hinge(scene, second)[0]);
  for (const support of others)
    hinge(scene, support).forEach((p, k) => {
      const missed = far(p, pointAt(scene.panel(name), support.meets[k]));
      scene.misfit = Math.max(scene.misfit, missed);
    });
}

/** A flap that lies on the panel whose edge it is creased to; the oracle's flaps are drawn with their panel to the left. */
export function coverFlap(scene: Scene, { name, edge }: Part): void {
  const [first, end] = hinge(scene, edge);
  const u = unit(sub(end, first));
  scene.panels.set(name, { o: first, u, v: cross(normal(scene.panel(edge.panel)), u) });
}
