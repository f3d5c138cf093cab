import type { Warning } from '../../score/warnings.js';
import { decimal, withUnit } from './numbers.js';
import { section } from './section.js';

/** That dims change nothing, in a sentence. */
export function unusedInWords(dims: readonly string[]): string {
  const names = dims.map((name) => `'${name}'`).join(', ');
  return dims.length === 1
    ? `The dim ${names} changes nothing: no part and no want uses it.`
    : `The dims ${names} change nothing: no part and no want uses them.`;
}

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
    case 'unused':
      return ['unused', warning.dims.join(', '), 'changes nothing: no part and no want uses it'];
    case 'swings': {
      const { panel, reference, swing, want } = warning;
      return [
        'no turn',
        want,
        `'${panel}' swings by ${withUnit(swing, 'degrees')} out of the plane of '${reference}', in which a turn is seen: 'kind: swing' tells that`,
      ];
    }
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
