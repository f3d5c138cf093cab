import { rowFronts } from './pareto.js';

/** What ranking needs to know of scored candidates, a column each: a long study has a million of them. */
export interface Rankable {
  /** 1 for what breaks no limit and meets every want. */
  readonly works: Uint8Array;
  /** 0 for what breaks no limit, else how far it does, summed; infinite for what could not be scored, or was not scored whole. */
  readonly violation: Float64Array;
  /** Overall desirability, 0 to 1. */
  readonly desirability: Float64Array;
  /** For each want, how far it is from being wholly met, 0 to 1, infinite where unknown: to be minimised. Row by row. */
  readonly objectives: Float64Array;
}

/**
 * The order of candidates, best first, as their places in the columns: first those that work, then those that only miss
 * a want, both by non-dominated front (see `sortIntoFronts`) and inside a front by desirability; then those that break a
 * limit, by how far. Ties keep the order of the columns.
 */
export function rank({ works, violation, desirability, objectives }: Rankable): number[] {
  const count = works.length;
  const width = objectives.length / count;
  const places = Uint32Array.from({ length: count }, (_, place) => place);
  const sound = places.filter((place) => violation[place] === 0);
  const rows = new Float64Array(sound.length * width);
  sound.forEach((place, i) => {
    rows.set(objectives.subarray(place * width, (place + 1) * width), i * width);
  });
  // Of those that break a limit, how far they do says all; for the others it is 0.
  const order = Float64Array.from(violation);
  rowFronts(rows, width, sound.length).forEach((front, i) => {
    order[sound[i]] = front;
  });
  const group = (place: number) => (works[place] ? 0 : violation[place] === 0 ? 1 : 2);
  places.sort(
    (a, b) =>
      group(a) - group(b) ||
      (order[a] === order[b] ? 0 : order[a] - order[b]) ||
      desirability[b] - desirability[a] ||
      a - b,
  );
  return Array.from(places);
}
