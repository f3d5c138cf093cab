import type { Figure } from '../figure/figure.js';
import { Opening } from '../motion/opening.js';
import { findOverhangs } from '../score/book.js';
import { measureFlatness } from '../score/flat.js';
import { stackWhenShut } from '../score/stack.js';

/** How a candidate lies in the shut book. Names of panels, from the left page up; lengths in mm. */
export interface ShutBook {
  /** Every panel that overlaps another, each above all that it lies on; null where a loop forbids it. */
  readonly stack: readonly string[] | null;
  /** Where the pile is thickest: x, y on the left page; null where no card lies. */
  readonly pileAt: readonly [number, number] | null;
  /** How far parts stick out past the pages' edges. */
  readonly overhangs: readonly { readonly panel: string; readonly edge: string; readonly past: number }[];
}

/** Looks at the shut book; null where the figure does not shut. Throws CannotBuild. */
export function shutBook(figure: Figure, vector: Float64Array): ShutBook | null {
  const assembly = figure.build(vector);
  const opening = new Opening();
  opening.run(assembly, figure.opening.step);
  const stack = stackWhenShut(assembly, opening);
  if (stack === null) return null;
  const name = (k: number) => assembly.panels[k].name;
  return {
    stack: stack.order?.map(name) ?? null,
    pileAt: measureFlatness(assembly, opening).shut?.pileAt ?? null,
    overhangs: findOverhangs(assembly, opening, 0).map(({ panel, edge, past }) => ({
      panel: name(panel),
      edge,
      past,
    })),
  };
}
