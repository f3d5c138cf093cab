/** At most so many of a list, spread evenly, the first always among them. */
export function thin<T>(list: readonly T[], most: number): readonly T[] {
  if (list.length <= most) return list;
  const step = list.length / most;
  return Array.from({ length: most }, (_, i) => list[Math.floor(i * step)]);
}
