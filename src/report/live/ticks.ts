/**
 * Round numbers inside a range, for an axis: at most `count` steps of 1, 2 or 5 times a
 * power of ten.
 * @example ticks(0, 10, 5) // [0, 2, 4, 6, 8, 10]
 */
export function ticks(least: number, most: number, count: number): number[] {
  if (!(most > least)) return [least];
  const rough = (most - least) / count;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = power * ([1, 2, 5].find((round) => rough / power <= round + 1e-9) ?? 10);
  const first = Math.ceil(least / step - 1e-9);
  const last = Math.floor(most / step + 1e-9);
  // Divided rather than multiplied where the step is a fraction: 3 · 0.1 is not 0.3.
  const at = (k: number) => (step < 1 ? k / Math.round(1 / step) : k * step);
  return Array.from({ length: last - first + 1 }, (_, i) => at(first + i) + 0);
}
