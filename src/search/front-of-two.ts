/** Something that has a value, and whether more of it is better. */
export interface Sided {
  readonly better: 'more' | 'less';
  value(place: number): number;
}

/**
 * Of some places those of which no other is better in one of two values and as good in the other, from the least x on;
 * places that are alike in both stay together. A sweep from the best x down. Values must be numbers.
 */
export function frontOfTwo(places: readonly number[], x: Sided, y: Sided): number[] {
  const [gainX, gainY] = [gain(x), gain(y)];
  const front: number[] = [];
  let best = Number.NEGATIVE_INFINITY;
  let bestAt = Number.NaN;
  for (const place of [...places].sort((a, b) => gainX(b) - gainX(a) || gainY(b) - gainY(a))) {
    // As good in both as the last one of the front is no worse.
    if (gainY(place) > best || (gainY(place) === best && gainX(place) === bestAt)) {
      front.push(place);
      best = gainY(place);
      bestAt = gainX(place);
    }
  }
  return front.sort((a, b) => x.value(a) - x.value(b) || a - b);
}

/** Values turned so that more is better. */
const gain = ({ better, value }: Sided): ((place: number) => number) =>
  better === 'more' ? value : (place) => -value(place);
