import { counted } from '../../text/phrases.js';
import type { ShutBook } from '../shut-book.js';
import { decimal, withUnit } from './numbers.js';
import { section } from './section.js';

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
