import type { Figure } from '../figure/figure.js';
import { Opening } from '../motion/opening.js';
import { narrowestCard } from './narrowest.js';
import { stackWhenShut } from './stack.js';

/** What is no failure, and yet a maker should look at. Panels by name; lengths in mm. */
export type Warning =
  /**
   * Shut, each of these panels lies on the next, and the last on the first. Of three and more that need be no fault: flaps
   * lie on one another all round on the bottom of a carton, and a page shuts them by itself where card gives a little. But it
   * can't be put to rights by hand one panel after the other, and card that is woven so wears: it is for the maker to say.
   */
  | { readonly kind: 'woven'; readonly panels: readonly string[] }
  /** Card narrower than most hands can cut and handle without tearing it, though not so narrow that it fails. */
  | {
      readonly kind: 'narrow';
      readonly panels: readonly string[];
      readonly breadth: number;
      readonly at: readonly [number, number];
    };

/** Card below this breadth tears easily, mm. (Common practice, no source.) */
export const TEARS = 2;

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
  return warnings;
}
