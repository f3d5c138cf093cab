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

/** A share in per cent, never rounded to 0 or 100 unless it is. */
export function share(part: number, whole: number): string {
  if (part === 0 || part === whole) return `${part === 0 ? 0 : 100} %`;
  const percent = (100 * part) / whole;
  if (percent < 0.1) return 'under 0.1 %';
  if (percent > 99.9) return 'over 99.9 %';
  return `${percent.toFixed(percent < 10 || percent > 90 ? 1 : 0)} %`;
}

/** A unit as it stands beside a number or a name where there is little room. @example unitSign('degrees') // '°' */
export const unitSign = (unit: string): string => (unit === 'degrees' ? '°' : unit);

/** A name with its unit. @example titled({ name: 'lean', unit: 'degrees' }) // 'lean (°)' */
export const titled = ({ name, unit }: { readonly name: string; readonly unit: string }): string =>
  unit === '' ? name : `${name} (${unitSign(unit)})`;
