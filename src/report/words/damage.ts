/** What is to be told of a study of which not all is left, before anything else. */
export function damageInWords(damage: string): string {
  return `This is what is left of a damaged study: ${damage}. Its best may be another dummy than that of the whole.`;
}
