/** A count and its noun. @example counted(1, 'limit') // '1 limit' */
export function counted(count: number, noun: string, nouns = `${noun}s`): string {
  return `${count.toLocaleString('en')} ${count === 1 ? noun : nouns}`;
}

/** A list as a person would say it. @example spoken(['a', 'b', 'c']) // 'a, b and c' */
export function spoken(items: readonly string[]): string {
  if (items.length < 2) return items.join('');
  return `${items.slice(0, -1).join(', ')} and ${items[items.length - 1]}`;
}

/** A sentence with a capital at its beginning. */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
