import { hashText } from './random.js';
import { JOE_KUO } from './sobol-table.js';

const BITS = 32;

/** 32 direction words for each of the first `dims` dimensions, one after the other. */
function directionWords(dims: number): Uint32Array {
  const groups = JOE_KUO.trim().split(';');
  if (!(dims >= 1 && dims <= groups.length + 1)) {
    throw new RangeError(`The Sobol sequence here has 1 to ${groups.length + 1} dimensions, not ${dims}.`);
  }
  const words = new Uint32Array(dims * BITS);
  for (let bit = 0; bit < BITS; bit++) words[bit] = 1 << (BITS - 1 - bit);
  for (let d = 1; d < dims; d++) {
    const [a, ...m] = groups[d - 1].trim().split(/\s+/).map(Number);
    const degree = m.length;
    const at = d * BITS;
    for (let bit = 0; bit < BITS; bit++) {
      if (bit < degree) {
        words[at + bit] = m[bit] << (BITS - 1 - bit);
        continue;
      }
      // Joe and Kuo 2008, equation 2: the recurrence of the primitive polynomial.
      let word = words[at + bit - degree] ^ (words[at + bit - degree] >>> degree);
      for (let k = 1; k < degree; k++) {
        if ((a >>> (degree - 1 - k)) & 1) word ^= words[at + bit - k];
      }
      words[at + bit] = word;
    }
  }
  return words;
}

function reversed(word: number): number {
  let x = word;
  x = ((x >>> 1) & 0x55555555) | ((x & 0x55555555) << 1);
  x = ((x >>> 2) & 0x33333333) | ((x & 0x33333333) << 2);
  x = ((x >>> 4) & 0x0f0f0f0f) | ((x & 0x0f0f0f0f) << 4);
  x = ((x >>> 8) & 0x00ff00ff) | ((x & 0x00ff00ff) << 8);
  return (x >>> 16) | (x << 16);
}

/**
 * Owen's nested scrambling by a hash (Laine and Karras 2011, in the form of B. Burley, "Practical hash-based Owen
 * scrambling", Journal of Computer Graphics Techniques 9(4), 2020; constants from memory). With its bits reversed, every
 * step lets a bit change higher bits only: bit k of a coordinate is flipped by a function of the bits before it, which
 * is what nested scrambling means, and why every dyadic box keeps its number of points.
 */
function scrambled(word: number, seed: number): number {
  let x = (reversed(word) + seed) | 0;
  x ^= Math.imul(x, 0x6c50b47c);
  x ^= Math.imul(x, 0xb82f1e52);
  x ^= Math.imul(x, 0xc7afe638);
  x ^= Math.imul(x, 0x8d22f6e6);
  return reversed(x);
}

/**
 * The Sobol sequence in the order of Joe and Kuo's own generator (by Gray code), any point of it at once, so that a
 * worker or a resumed study can start anywhere.
 *
 * Source: S. Joe, F. Y. Kuo, SIAM Journal on Scientific Computing 30 (2008) 2635-2654; the Gray code of Antonov and
 * Saleev 1979.
 * @example const sobol = new Sobol(3, 42); sobol.point(0); // the first of the points that seed 42 makes
 */
export class Sobol {
  readonly dims: number;
  readonly #words: Uint32Array;
  readonly #seeds: Uint32Array | undefined;

  /**
   * @param dims 1 to 256
   * @param seed scrambles the points, in the same way each time; left out, they are the published ones
   */
  constructor(dims: number, seed?: number) {
    this.dims = dims;
    this.#words = directionWords(dims);
    if (seed !== undefined) {
      this.#seeds = Uint32Array.from({ length: dims }, (_, d) => hashText(`${seed}/sobol/${d}`));
    }
  }

  /** Point `index` (0 to 2^32 - 1), each coordinate in [0, 1), written into `out`. */
  point(index: number, out: Float64Array = new Float64Array(this.dims)): Float64Array {
    const gray = (index ^ (index >>> 1)) >>> 0;
    for (let d = 0; d < this.dims; d++) {
      let word = 0;
      for (let bit = 0, rest = gray; rest !== 0; bit++, rest >>>= 1) {
        if (rest & 1) word ^= this.#words[d * BITS + bit];
      }
      if (this.#seeds) word = scrambled(word, this.#seeds[d]);
      out[d] = (word >>> 0) / 4294967296;
    }
    return out;
  }
}
