import type { Candidates, Packed } from './data.js';

/** Kinds of the arrays. Their bytes are written as they lie in memory: little-endian, as on every machine with a browser. */
const KINDS = {
  number: Uint32Array,
  rank: Uint32Array,
  stage: Uint8Array,
  outcome: Uint8Array,
  grade: Uint8Array,
  vectors: Float64Array,
  desirability: Float32Array,
  values: Float32Array,
  met: Uint8Array,
} as const;

type Name = keyof typeof KINDS;
const NAMES = Object.keys(KINDS) as Name[];

/** Writes candidates as text: base64 keeps every bit of a dim, in two thirds of the room that decimals take. */
export function packed(candidates: Candidates): Packed {
  const texts = NAMES.map((name) => [name, base64(candidates[name])]);
  return { count: candidates.count, ...Object.fromEntries(texts) } as Packed;
}

/** Reads what `packed` wrote. */
export function unpacked(written: Packed): Candidates {
  const arrays = NAMES.map((name) => [name, new KINDS[name](bytesOf(written[name]).buffer)]);
  return { count: written.count, ...Object.fromEntries(arrays) } as Candidates;
}

/** Bytes a candidate takes in the page. */
export function bytesEach(candidates: Candidates): number {
  const bytes = NAMES.reduce((sum, name) => sum + candidates[name].byteLength, 0);
  return (4 / 3) * (bytes / Math.max(1, candidates.count));
}

/** Some of the candidates, by their places. */
export function picked(candidates: Candidates, places: readonly number[]): Candidates {
  const arrays = NAMES.map((name) => {
    const from = candidates[name];
    const width = from.length / candidates.count;
    const to = new KINDS[name](places.length * width);
    places.forEach((place, i) => {
      to.set(from.subarray(place * width, (place + 1) * width), i * width);
    });
    return [name, to];
  });
  return { count: places.length, ...Object.fromEntries(arrays) } as Candidates;
}

/** More arguments than this to one call overflow the stack. */
const CHUNK = 0x8000;

function base64(array: ArrayBufferView): string {
  const bytes = new Uint8Array(array.buffer, array.byteOffset, array.byteLength);
  let text = '';
  for (let i = 0; i < bytes.length; i += CHUNK) text += String.fromCharCode(...bytes.subarray(i, i + CHUNK));
  return btoa(text);
}

function bytesOf(text: string): Uint8Array<ArrayBuffer> {
  const letters = atob(text);
  const bytes = new Uint8Array(letters.length);
  for (let i = 0; i < bytes.length; i++) bytes[i] = letters.charCodeAt(i);
  return bytes;
}
