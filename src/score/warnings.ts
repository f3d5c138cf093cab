import type { Figure } from '../figure/figure.js';
import { Opening } from '../motion/opening.js';
import { narrowestCard } from './narrowest.js';
import { measure, type Reached } from './reach.js';
import { stackWhenShut } from './stack.js';

/** What is no failure, and yet a maker should look at. Panels by name; lengths in mm. */
export type Warning =
  /**
   * Shut, each of these panels lies on the next, and the last on the first. Of three and more that need be no fault: flaps
   * lie on one another all round on the bottom of a carton, and a page shuts them by itself where card gives a little. But it
   * can't be put to rights by hand one panel after the other, and card that is woven so wears: it is for the maker to say.
   */
  | { readonly kind: 'woven'; readonly panels: readonly string[] }
  /** Dims that change nothing. */
  | { readonly kind: 'unused'; readonly dims: readonly string[] }
  /** A want for a turn that is none, since the panel swings out of the plane in which it is seen. */
  | {
      readonly kind: 'swings';
      readonly want: string;
      readonly panel: string;
      readonly reference: string;
      /** Degrees. */
      readonly swing: number;
    }
  /** Card narrower than most hands can cut and handle without tearing it, though not so narrow that it fails. */
  | {
      readonly kind: 'narrow';
      readonly panels: readonly string[];
      readonly breadth: number;
      readonly at: readonly [number, number];
    };

/** Card below this breadth tears easily, mm. (Common practice, no source.) */
export const TEARS = 2;

/** A turn below the one is none that a maker would ask for, degrees; one who sees a swing beyond the other meant that. Ours. */
const NO_TURN = 2;
const SWINGS = 15;

const degreesOf = (found: Reached, otherwise: number): number =>
  'value' in found ? Math.abs(found.value) : otherwise;

/** What is worth a look in a candidate. @throws CannotBuild */
export function findWarnings(figure: Figure, vector: Float64Array): Warning[] {
  const assembly = figure.build(vector);
  const opening = new Opening();
  opening.run(assembly, figure.opening.step);
  const named = (all: readonly number[]) => all.map((k) => assembly.panels[k].name);
  const warnings: Warning[] = [];
  const loop = stackWhenShut(assembly, opening)?.loop ?? null;
  if (loop !== null) warnings.push({ kind: 'woven', panels: named(loop) });
  const narrowest = narrowestCard(assembly);
  // Narrower than the limit it fails, and is told there.
  if (narrowest !== null && narrowest.breadth < TEARS && narrowest.breadth >= figure.limits.cardBreadth)
    warnings.push({
      kind: 'narrow',
      panels: named(narrowest.panels),
      breadth: narrowest.breadth,
      at: narrowest.at,
    });
  if (figure.unused.length > 0) warnings.push({ kind: 'unused', dims: figure.unused });
  for (const want of figure.wantsOf(vector)) {
    if (want.kind !== 'turn') continue;
    const { name, panel, reference } = want;
    const turn = measure(want, assembly, opening);
    const swing = measure({ ...want, kind: 'swing' }, assembly, opening);
    if (degreesOf(turn, Infinity) < NO_TURN && degreesOf(swing, 0) > SWINGS)
      warnings.push({ kind: 'swings', want: name, panel, reference, swing: degreesOf(swing, 0) });
  }
  return warnings;
}
