import type { FilledIn } from '../../figure/figure.js';

const WHY: Readonly<Record<FilledIn['rule'], string>> = {
  'other side': 'each as on the other side asks, which also lies flat when open',
  'same sum': 'so that both sides come to the same',
  alike: 'alike on both sides',
};

/** What was left out of a figure file and filled in, a line each, under a heading; nothing where there is none. */
export function filledInWords(filled: readonly FilledIn[]): string[] {
  if (filled.length === 0) return [];
  return [
    '',
    'Filled in, so that it shuts',
    ...filled.map(({ part, field, values, unit, rule }) => {
      const said = values.map((value) => (unit === 'mm' ? `${value.toFixed(2)} mm` : `${value.toFixed(1)}°`));
      return `  ${part}  ${field} ${said.join(' and ')}, ${WHY[rule]}`;
    }),
  ];
}
