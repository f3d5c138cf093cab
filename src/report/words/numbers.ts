/** Decimals shown to a person: a hundredth of a millimetre or a tenth of a degree is finer than card can be cut. */
const DECIMALS: Record<string, number> = { mm: 2, degrees: 1, N: 1 };

/** A number with its unit, to the decimals that matter in card. @example withUnit(12.345, 'degrees') // '12.3°' */
export function withUnit(value: number, unit: string): string {
  const number = decimal(value, DECIMALS[unit] ?? 2);
  if (unit === 'degrees') return `${number}°`;
  return unit === '' ? number : `${number} ${unit}`;
}

/** A number to so many decimals, with a true minus and never '−0.0'. */
export function decimal(value: number, decimals: number): string {
  const text = value.toFixed(decimals);
  return Number(text) === 0 ? text.replace('-', '') : text.replace('-', '−');
}
