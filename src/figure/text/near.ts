import { closest, distance } from 'fastest-levenshtein';

/** The known name that the given one was probably meant to be: at most a third of its letters off; else undefined. */
export function nearest(name: string, known: readonly string[]): string | undefined {
  if (known.length === 0) return undefined;
  const best = closest(name, known);
  return distance(name, best) <= Math.max(1, Math.ceil(name.length / 3)) ? best : undefined;
}

const MOST_LISTED = 32;
/** So many that end alike are asked about; of more it can't be told which. */
const MOST_MEANT = 4;

/** The names that were probably meant: the nearest, or those that end in the word given, as 'crane ridge' in 'ridge'. */
function meant(name: string, known: readonly string[]): string[] {
  const near = nearest(name, known);
  if (near !== undefined) return [near];
  const longer = known.filter((each) => each.endsWith(` ${name}`));
  return longer.length > MOST_MEANT ? [] : longer;
}

/** A remedy for a name that is not known: what was probably meant, and the names there are. */
export function knownNames(name: string, known: readonly string[], what: string): string {
  if (known.length === 0) return `there are no ${what}s`;
  const probably = meant(name, known).map((each) => `'${each}'`);
  const listed = known.slice(0, MOST_LISTED).join(', ') + (known.length > MOST_LISTED ? ', …' : '');
  return `${probably.length === 0 ? '' : `did you mean ${probably.join(' or ')}? `}the ${what}s are: ${listed}`;
}
