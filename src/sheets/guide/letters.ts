/** Letters for glue, in order: A, B … Z, AA, AB …, without I and O, which a maker would take for digits. */
const ALPHABET = 'ABCDEFGHJKLMNPQRSTUVWXYZ';

/** @example letter(0) // 'A' */
export function letter(index: number): string {
  const last = ALPHABET[index % ALPHABET.length];
  const before = Math.floor(index / ALPHABET.length);
  return before === 0 ? last : letter(before - 1) + last;
}
