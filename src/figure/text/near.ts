import { closest, distance } from 'fastest-levenshtein';

/** The known name that the given one was probably meant to be: at most a third of its letters off; else undefined. */
export function nearest(name: string, known: readonly string[]): string | undefined {
  if (known.length === 0) return undefined;
  const best = closest(name, known);
  return distance(name, best) <= Math.max(1, Math.ceil(name.length / 3)) ? best : undefined;
}

const MOST_LISTED = 32;

/** A remedy for a name that is not known: the one that was probably meant, and the names there are. */
export function knownNames(name: string, known: readonly string[], what: string): string {
  if (known.length === 0) return `there are no ${what}s`;
  const near = nearest(name, known);
  const listed = known.slice(0, MOST_LISTED).join(', ') + (known.length > MOST_LISTED ? ', …' : '');
  return `${near === undefined ? '' : `did you mean '${near}'? `}the ${what}s are: ${listed}`;
}
