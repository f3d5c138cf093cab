import type { Warning } from '../../score/warnings.js';
import { decimal, section, withUnit } from './words.js';

/** What is worth a look, for the terminal; nothing where there is none. */
export function warningsInWords(warnings: readonly Warning[]): string[] {
  return section('Worth a look', warnings.map(rowOf));
}

function rowOf(warning: Warning): string[] {
  switch (warning.kind) {
    case 'woven':
      return [
        'woven',
        warning.panels.join(', '),
        "each lies on the next when shut, the last on the first: they can't be laid down one by one",
      ];
    case 'narrow': {
      const [x, y] = warning.at;
      return [
        'narrow',
        warning.panels.join(' and '),
        `${withUnit(warning.breadth, 'mm')} of card at (${decimal(x, 1)}, ${decimal(y, 1)}) mm: it tears easily`,
      ];
    }
  }
}
