/** No fingerprint is negative. */
const NONE = -1;

/**
 * The fingerprints of all that was ever asked for: 11 to 23 bytes each, where a Set takes some 40 and ends at 2²⁴ entries.
 * An open table, at most three quarters full, that doubles.
 */
export class Fingerprints {
  #table = new Float64Array(1024).fill(NONE);
  #size = 0;

  get size(): number {
    return this.#size;
  }

  has(print: number): boolean {
    return this.#table[placeOf(this.#table, print)] === print;
  }

  /** @param print a whole number from 0 to 2⁵³ − 1 */
  add(print: number): void {
    const place = placeOf(this.#table, print);
    if (this.#table[place] === print) return;
    this.#table[place] = print;
    if (++this.#size > 0.75 * this.#table.length) this.#grow();
  }

  #grow(): void {
    const wider = new Float64Array(2 * this.#table.length).fill(NONE);
    for (const print of this.#table) if (print !== NONE) wider[placeOf(wider, print)] = print;
    this.#table = wider;
  }
}

/** Where a print stands, or would: from the place that its low bits name, the first that is its own or free. */
function placeOf(table: Float64Array, print: number): number {
  const mask = table.length - 1;
  // The remainder keeps bits that a shift of whole numbers beyond 2³² would lose.
  let place = print % table.length;
  while (table[place] !== NONE && table[place] !== print) place = (place + 1) & mask;
  return place;
}
