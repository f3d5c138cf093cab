/** A word as a shell takes it, quoted only where it must be. */
export function shellWord(word: string): string {
  return /^[\w./=+-]+$/.test(word) ? word : `'${word.replaceAll("'", "'\\''")}'`;
}
