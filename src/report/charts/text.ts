/**
 * How wide a text is, in px, near enough to place it: there is no font to measure in a program without a screen.
 * Means of common sans-serif fonts, leaning to the wide side; no source.
 */
export function textWidth(text: string, size: number): number {
  let ems = 0;
  for (const letter of text) {
    if (/[ ijl.,:;'|!()[\]]/.test(letter)) ems += 0.34;
    else if (/[mwMW@%—]/.test(letter)) ems += 0.92;
    else if (/\p{Lu}/u.test(letter)) ems += 0.7;
    else if (letter > '\u2e7f') ems += 1;
    else ems += 0.6;
  }
  return ems * size;
}

/** Cuts the middle out of a text that is too wide, since names often differ at their ends. */
export function shorten(text: string, width: number, size: number): string {
  if (textWidth(text, size) <= width) return text;
  const letters = Array.from(text);
  for (let kept = letters.length - 1; kept > 1; kept--) {
    const head = Math.ceil(kept / 2);
    const cut = `${letters.slice(0, head).join('').trimEnd()}…${letters
      .slice(letters.length - (kept - head))
      .join('')
      .trimStart()}`;
    if (textWidth(cut, size) <= width) return cut;
  }
  return '…';
}

/** Breaks a text into lines of at most `width` px, at spaces; a word that is too wide is shortened. */
export function wrap(text: string, width: number, size: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(/\s+/).filter((part) => part !== '')) {
    const last = lines.at(-1);
    const longer = `${last} ${word}`;
    if (last !== undefined && textWidth(longer, size) <= width) lines[lines.length - 1] = longer;
    else lines.push(shorten(word, width, size));
  }
  return lines;
}

/** A name as a label of at most `most` lines, parted by line breaks as Plot wants them. */
export function label(name: string, width: number, size: number, most = 2): string {
  const lines = wrap(name, width, size);
  if (lines.length <= most) return lines.join('\n');
  const rest = shorten(lines.slice(most - 1).join(' '), width, size);
  return [...lines.slice(0, most - 1), rest].join('\n');
}

const THREE_DIGITS = new Intl.NumberFormat('en', { maximumSignificantDigits: 3, useGrouping: false });

/** A number to three digits, with a true minus. @example threeDigits(-2.34567) // '−2.35' */
export function threeDigits(value: number): string {
  const text = THREE_DIGITS.format(value);
  return text === '-0' ? '0' : text.replace('-', '−');
}

/** A number with its unit. @example quantity(12.34, 'mm') // '12.3 mm' */
export function quantity(value: number, unit: string): string {
  if (unit === '') return threeDigits(value);
  return unit === '°' ? `${threeDigits(value)}°` : `${threeDigits(value)} ${unit}`;
}

/** A share in per cent. @example percent(0.126) // '13 %' */
export function percent(share: number): string {
  return `${Math.round(100 * share)} %`;
}

/** The title of an axis: its name and, in brackets, its unit. */
export function axisTitle(name: string, unit: string): string {
  return unit === '' ? name : `${name} (${unit})`;
}
