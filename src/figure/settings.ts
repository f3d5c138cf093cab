import { GREATEST, type WrittenDim } from './dim-file.js';
import { type Dims, wordsOf } from './dims.js';
import { InputError, quoted } from './text/input-error.js';
import { knownNames } from './text/near.js';

/**
 * The start vector with some dims set by hand, as `--set dim=value` gives them. Where a dim that is a plain number in
 * the file is set, the vector goes on with the values of all such dims.
 * @throws InputError for an unknown dim, and for a value that it cannot have
 */
export function vectorFrom(dims: Dims, settings: ReadonlyMap<string, string>): Float64Array {
  const free = dims.start();
  const fixed = Float64Array.from(dims.fixedDims, (dim) => dim.value);
  let overridden = false;
  for (const [name, text] of settings) {
    const dim = dims.named(name);
    if (dim === undefined) {
      const known = dims.written.map((each) => each.name);
      throw refused(name, quoted(name), knownNames(name, known, 'dim'));
    }
    const place = dims.freeDims.indexOf(dim);
    if (place >= 0) free[place] = valueFor(dim, text);
    else if (dim.kind === 'number') {
      fixed[dims.fixedDims.indexOf(dim)] = valueFor(dim, text);
      overridden = true;
    } else if (dim.kind === 'arithmetic')
      throw refused(name, quoted(text), 'it follows from other dims; set those');
    else valueFor(dim, text);
  }
  return overridden ? Float64Array.from([...free, ...fixed]) : free;
}

function valueFor(dim: WrittenDim, text: string): number {
  const value = text.trim() === '' ? Number.NaN : Number(text);
  switch (dim.kind) {
    case 'choice': {
      const words = wordsOf(dim);
      const options: readonly (string | number)[] = dim.options;
      const place = words === undefined ? options.indexOf(value) : words.indexOf(text.trim());
      if (place < 0) throw refused(dim.name, quoted(text), `give one of ${options.join(', ')}`);
      return place;
    }
    case 'range':
      if (!(value >= dim.from && value <= dim.to))
        throw refused(dim.name, quoted(text), `give a number from ${dim.from} to ${dim.to}`);
      return value;
    default:
      if (!(Math.abs(value) <= GREATEST)) throw refused(dim.name, quoted(text), 'give a number');
      return value;
  }
}

const refused = (field: string, found: string, remedy: string): InputError =>
  new InputError({ file: '--set', field, found, remedy });
