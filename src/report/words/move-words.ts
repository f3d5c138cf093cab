import type { MoveFinding } from '../../edit/move-number.js';
import { spoken } from '../../text/phrases.js';

/** What of a number that was moved a maker would not expect. */
export function moveInWords(found: MoveFinding): string {
  if (found.kind === 'place') return `'${found.written}' is a number now`;
  if (found.kind === 'by dim') return `by the dim ${found.dim}`;
  if (found.kind === 'range ends') return `${found.dim} goes from ${found.from} to ${found.to}, no farther`;
  const { names, shuts } = found;
  return `${spoken(names)} ${names.length === 1 ? 'moves' : 'move'} along: else ${shuts ?? 'it'} would not shut`;
}
