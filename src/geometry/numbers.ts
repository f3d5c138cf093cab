/** Numbers in one slab: enough for all that a usual figure is made of, too few to matter when one array keeps a slab. */
const SLAB = 8192;

let slab = new Float64Array(SLAB);
let used = 0;

/**
 * A new array of so many numbers, all 0, for what is made many times a candidate. It is cut from a larger one: the engine
 * asks the system for the memory of each typed array of more than eight numbers, which takes 30 to 70 times as long.
 */
export function zeros(count: number): Float64Array {
  if (used + count > slab.length) {
    slab = new Float64Array(Math.max(SLAB, count));
    used = 0;
  }
  used += count;
  return slab.subarray(used - count, used);
}

/** A new array of these numbers (see `zeros`). */
export function numbers(values: ArrayLike<number>): Float64Array {
  const array = zeros(values.length);
  for (let i = 0; i < values.length; i++) array[i] = values[i];
  return array;
}
