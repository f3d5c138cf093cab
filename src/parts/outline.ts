import * as z from 'zod';
import { faultOf, faultOfHole } from '../geometry/faults.js';
import { numbers } from '../geometry/numbers.js';
import { counterClockwise } from '../geometry/polygon.js';
import { type Assembly, growthOf, type Panel } from '../motion/assembly.js';
import { CannotBuild } from '../motion/cannot-build.js';
import { growAround } from './grow.js';
import { type OutlineFields, outlineOn } from './outline-forms.js';

export type { OutlineFields } from './outline-forms.js';

/** Outlines for one or both of a fold's two panels; the other keeps its default shape. */
export const outlineOfEach = z
  .strictObject({ left: outlineOn().optional(), right: outlineOn().optional() })
  .optional();

/** Card around what stands on a panel that grows, mm, if the file does not say. (Common practice, no source.) */
const GROWN = 3;

/** x, y pairs of a drawn polygon, mirrored for a panel that rises to −y. */
export function points(drawn: readonly (readonly [number, number])[], up: 1 | -1 = 1): number[] {
  return drawn.flatMap(([x, y]) => [x, up * y]);
}

/**
 * What is wrong with a drawn outline as a shape of card, in words with the place, mm; undefined where it is sound.
 * An outline that no dim changes is asked once, when its figure is compiled: the figure freezes it then.
 */
export function outlineFault({ polygon, holes = [] }: OutlineFields): string | undefined {
  if (polygon === undefined) return undefined;
  const ring = (drawn: readonly (readonly [number, number])[]) => numbers(points(drawn));
  const fault = faultOf({ outline: ring(polygon), holes: holes.map(ring) });
  return fault && `no shape of card at ${fault.x.toFixed(2)}, ${fault.y.toFixed(2)}: ${fault.why}`;
}

/**
 * Outline and holes for `Assembly.addPanel`: as drawn, or else the default shape (in the same coordinates).
 * @throws CannotBuild where dims, or errors of cutting by hand, have made a drawn outline no shape of card
 */
export function shapeOf(
  drawn: OutlineFields | undefined,
  standard: readonly (readonly [number, number])[],
  up: 1 | -1 = 1,
): Pick<Parameters<Assembly['addPanel']>[0], 'outline' | 'holes' | 'up' | 'margin'> {
  const fault = drawn === undefined || Object.isFrozen(drawn) ? undefined : outlineFault(drawn);
  if (fault !== undefined) throw new CannotBuild(`its outline is ${fault}`, 'outline');
  return {
    outline: counterClockwise(numbers(points(drawn?.polygon ?? standard, up))),
    holes: (drawn?.holes ?? []).map((hole) => numbers(points(hole, up))),
    up,
    margin: marginOf(drawn),
  };
}

const marginOf = (drawn: OutlineFields | undefined): number | undefined =>
  drawn?.grow === 'yes' ? (drawn.margin ?? GROWN) : undefined;

/**
 * Draws another outline on a panel that stands already.
 * @throws CannotBuild where it is no shape of card
 */
export function drawOutline(assembly: Assembly, k: number, drawn: OutlineFields, field: string): void {
  const panel = assembly.panels[k];
  const fault = outlineFault(drawn);
  if (fault !== undefined) throw new CannotBuild(`its outline is ${fault}`, field);
  const { outline, holes } = shapeOf(Object.freeze(drawn), [], panel.up);
  panel.outline = numbers(outline);
  panel.holes = (holes ?? []).map((hole) => numbers(hole));
  const margin = marginOf(drawn);
  panel.growth = margin === undefined ? null : growthOf(panel.outline, margin);
  // Tabs of the part itself that lie on it already.
  for (const { kind, between } of assembly.joints)
    if (kind === 'glue' && between[0] === k) {
      const { role, outline: tab } = assembly.panels[between[1]];
      if (role === 'tab') growAround(assembly, k, Array.from(tab));
    }
}

/**
 * Cuts one more hole into a panel, in the panel's plane.
 * @param what the hole is, in a word @param field what to blame
 * @throws CannotBuild unless all of its edge lies on the panel's card and meets nothing, itself included
 */
export function cutHole(panel: Panel, hole: Float64Array, what: string, field: string): void {
  const fault = faultOfHole(panel, hole);
  if (fault !== undefined)
    throw new CannotBuild(
      `the ${what} cannot be cut out of '${panel.name}' at ${fault.x.toFixed(2)}, ${(panel.up * fault.y).toFixed(2)}: ${fault.why}`,
      field,
    );
  panel.holes.push(hole);
}
