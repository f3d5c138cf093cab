import { betweenRings, breadthOf, leastBreadth, type NarrowPlace } from '../geometry/breadth.js';
import { shareOnCard } from '../geometry/on-card.js';
import { outsideOf } from '../geometry/ring-distance.js';
import { type Assembly, asDrawn, isPage } from '../motion/assembly.js';
import { Backing } from './backing.js';
import { foldsOf } from './folds.js';

/** The narrowest card: of one panel, at a place as a figure file has it; or of two, the length of crease on which they hang. */
export interface Narrowest extends NarrowPlace {
  readonly panels: readonly number[];
}

/**
 * The narrowest card of a figure, mm: panels and necks of their outlines, what is left between holes, slits and edges, and
 * the whole length of crease between two panels of a piece, on which one hangs; the waist of a hub, and its shoulders beyond the
 * hole; the neck of a tongue, and what of the tongue reaches past its slit. Card that is glued flat on other card
 * counts with it. Tabs are left to what judges glue; of the
 * pages only holes and slits count. Null where there is nothing but pages.
 */
export function narrowestCard(assembly: Assembly, folds = foldsOf(assembly)): Narrowest | null {
  const { panels, joints } = assembly;
  let least: Narrowest | null = null;
  const take = (k: readonly number[], neck: NarrowPlace | null) => {
    if (neck !== null && (least === null || neck.breadth < least.breadth)) least = { ...neck, panels: k };
  };
  const backing = new Backing(assembly);
  const breadthSoFar = () => least?.breadth ?? Infinity;
  panels.forEach(({ outline, holes, role }, k) => {
    if (role === 'tab') return;
    if (!isPage(k)) take([k], backing.neckOf(k));
    holes.forEach((hole, i) => {
      for (const ring of [outline, ...holes.slice(0, i)]) take([k], betweenRings(hole, ring));
    });
  });
  const hubs = joints.filter((joint) => joint.kind === 'pivot');
  for (const [i, one] of hubs.entries())
    for (const other of hubs.slice(0, i))
      one.between.forEach((k, end) => {
        if (!other.between.includes(k)) return;
        const [[x, y], [p, q]] = [one.points[end], other.points[other.between.indexOf(k)]];
        const between = Math.hypot(x - p, y - q) - (one.hub.hole + other.hub.hole) / 2;
        take([k], { breadth: Math.max(0, between), at: [x, y] });
      });
  for (const joint of joints) {
    if (joint.kind === 'pivot') {
      const { hole, waist, shoulder } = joint.hub;
      take([joint.between[0]], { breadth: Math.min(waist, (shoulder - hole) / 2), at: joint.points[0] });
      joint.between.forEach((k, end) => {
        const at = joint.points[end];
        for (const [ring, side] of [
          [panels[k].outline, -1] as const,
          ...panels[k].holes.map((hole) => [hole, 1] as const),
        ])
          take([k], { breadth: Math.max(0, side * outsideOf(ring, at) - hole / 2), at });
      });
    }
    if (joint.kind === 'slide' && joint.neck !== undefined) {
      const { link, lines, holds } = joint.neck;
      const { x0, x1 } = lines[1];
      const onCard = (x1 - x0) * shareOnCard(lines[0], panels[link]);
      take([joint.between[0]], { breadth: Math.min(onCard, holds), at: [0, 0] });
    }
    if (joint.kind === 'slide')
      for (const at of joint.along) {
        const k = joint.between[1];
        take([k], { breadth: Math.max(0, -outsideOf(panels[k].outline, at)), at });
      }
  }
  for (const { between, length, at } of folds) take(between, { breadth: length, at });
  // The largest disc takes longest: only of what may be narrower than all that is known.
  const whole = panels
    .map((panel, k) => ({
      panel,
      k,
      bound: panel.role === 'tab' || isPage(k) ? Infinity : leastBreadth(panel),
    }))
    .sort((a, b) => a.bound - b.bound);
  for (const { panel, k, bound } of whole)
    if (bound < Infinity && !(bound >= breadthSoFar())) {
      const whole = breadthOf(panel);
      if (!(whole.breadth >= breadthSoFar()) && !backing.isWhole(k, whole.breadth)) take([k], whole);
    }
  // Set within `take`, where the compiler does not see it.
  const found = least as Narrowest | null;
  return found && { ...found, at: asDrawn(panels[found.panels[0]], found.at) };
}
