/**
 * Seeded random numbers: xoshiro128** (Blackman and Vigna, "Scrambled linear pseudorandom number generators", ACM
 * Transactions on Mathematical Software 47, 2021; the authors' reference code is in the public domain).
 *
 * Each use draws from a stream of its own, made from the study's seed and a label that names the use ("generation 7").
 * So no generator has to be saved: whoever knows the seed and where the study stands can go on with the same numbers.
 */
export class Random {
  #a: number;
  #b: number;
  #c: number;
  #d: number;

  /** Four 32-bit words of state, not all zero. Most callers want `stream`. */
  constructor(a: number, b: number, c: number, d: number) {
    if ((a | b | c | d) === 0) throw new RangeError('The state of a random stream must not be all zero.');
    this.#a = a | 0;
    this.#b = b | 0;
    this.#c = c | 0;
    this.#d = d | 0;
  }

  /** The next 32 random bits, as a number from 0 to 2^32 - 1. */
  bits(): number {
    const five = Math.imul(this.#b, 5);
    const result = Math.imul((five << 7) | (five >>> 25), 9);
    const shifted = this.#b << 9;
    this.#c ^= this.#a;
    this.#d ^= this.#b;
    this.#b ^= this.#c;
    this.#a ^= this.#d;
    this.#c ^= shifted;
    this.#d = (this.#d << 11) | (this.#d >>> 21);
    return result >>> 0;
  }

  /** Uniform in [0, 1), with all 53 bits of a double. */
  next(): number {
    const high = this.bits() >>> 5;
    const low = this.bits() >>> 6;
    return (high * 67108864 + low) / 9007199254740992;
  }

  /** A whole number from 0 to n - 1; its bias, n / 2^53, is far below what any use here could see. */
  below(n: number): number {
    return Math.floor(this.next() * n);
  }

  /** Standard normal (Box and Muller 1958; the second of the pair is let go, so that there is no state to keep). */
  normal(): number {
    return Math.sqrt(-2 * Math.log(1 - this.next())) * Math.cos(2 * Math.PI * this.next());
  }

  /** Shuffles in place (Fisher and Yates) and returns the same list. */
  shuffle<T extends { length: number; [index: number]: unknown }>(list: T): T {
    for (let i = list.length - 1; i > 0; i--) {
      const j = this.below(i + 1);
      const kept = list[i];
      list[i] = list[j];
      list[j] = kept;
    }
    return list;
  }
}

/** Mixes 32 bits so that each depends on all (the finaliser of MurmurHash3, A. Appleby, public domain). */
export function mix(word: number): number {
  let h = word | 0;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return (h ^ (h >>> 16)) >>> 0;
}

/** A 32-bit hash of a text, started from `basis` (FNV-1a over its UTF-16 units, then `mix`). */
export function hashText(text: string, basis = 0x811c9dc5): number {
  let h = basis | 0;
  for (let i = 0; i < text.length; i++) h = Math.imul(h ^ text.charCodeAt(i), 0x01000193);
  return mix(h);
}

/**
 * The random stream of one use, the same whenever seed and label are.
 * @example stream(7, 'generation 12').next()
 */
export function stream(seed: number, label: string): Random {
  const text = `${seed}/${label}`;
  const words = [1, 2, 3, 4].map((k) => hashText(text, mix(k)));
  return new Random(words[0] | 1, words[1], words[2], words[3]);
}
