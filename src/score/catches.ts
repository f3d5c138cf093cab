import type { Figure } from '../figure/figure.js';
import { Opening } from '../motion/opening.js';
import { ClashTest } from './clash/clash.js';
import { rubsOf } from './clash/rubs.js';

/** The deepest catch of two panels, by their names: lengths in mm, page angles in degrees, points in each panel's plane. */
export interface NamedCatch {
  readonly between: readonly [string, string];
  readonly depth: number;
  readonly push: number;
  /** Where they are deepest in one another, and the first page angle, closing, at which they catch. */
  readonly pageAngle: number;
  readonly startsAt: number;
  readonly points: readonly [readonly [number, number], readonly [number, number]];
}

/**
 * Every two panels of a candidate that catch, in the order in which they begin to as the page closes; of those that begin
 * together, the deepest first. @throws CannotBuild
 */
export function findCatches(figure: Figure, vector: Float64Array): NamedCatch[] {
  const assembly = figure.build(vector);
  const opening = new Opening();
  opening.run(assembly, figure.opening.step);
  const name = (k: number) => assembly.panels[k].name;
  return new ClashTest()
    .catches(assembly, opening, figure.limits.press, rubsOf(figure, assembly))
    .map(({ between: [a, b], ...rest }) => ({ ...rest, between: [name(a), name(b)] as const }))
    .sort((one, other) => other.startsAt - one.startsAt || other.depth - one.depth);
}
