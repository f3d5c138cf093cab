import { decimal } from '../words/numbers.js';

import type { Column } from './columns.js';

/** A value of a column as a table shows it; a dash where it was not computed. */
export function cell({ options, unit, kind }: Column, value: number): string {
  if (Number.isNaN(value)) return '–';
  if (options !== null) return options[value] ?? '–';
  return decimal(value, kind === 'desirability' ? 3 : unit === 'degrees' ? 1 : 2);
}
