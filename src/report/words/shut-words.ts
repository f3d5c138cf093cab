import type { Figure } from '../../figure/figure.js';
import { Opening } from '../../motion/opening.js';
import { findOverhangs } from '../../score/book.js';
import { measureFlatness } from '../../score/flat.js';
import { stackWhenShut } from '../../score/stack.js';
import { counted } from '../../text/phrases.js';
import { decimal, section, withUnit } from './words.js';

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

/** How the card lies in the shut book, in words, line by line; nothing for a figure that does not shut. */
export function shutInWords(book: ShutBook | null): string[] {
  if (book === null) return [];
  const { stack, pileAt, overhangs } = book;
  const rows: string[][] = [];
  if (stack !== null && stack.length > 0)
    rows.push(['stack', counted(stack.length, 'panel'), `from the left page up: ${named(stack)}`]);
  if (pileAt !== null)
    rows.push([
      'pile',
      'thickest',
      `${decimal(-pileAt[0], 0)} mm from the gutter, ${decimal(pileAt[1], 0)} mm from the foot of the page`,
    ]);
  for (const { panel, edge, past } of overhangs)
    rows.push(['past', panel, `${withUnit(past, 'mm')} past the ${edge}`]);
  return section('When shut', rows);
}

/** Names told from either end of a long list. */
const TOLD = 20;

function named(panels: readonly string[]): string {
  const left = panels.length - 2 * TOLD;
  if (left <= 1) return panels.join(', ');
  return [...panels.slice(0, TOLD), `… ${left} more …`, ...panels.slice(-TOLD)].join(', ');
}
