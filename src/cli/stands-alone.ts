import { InputError } from '../figure/text/input-error.js';

/**
 * Refuses options that do nothing without another one, which was not given.
 * @param options by their names as typed; undefined where not given
 */
export function mustNotStandAlone(options: Readonly<Record<string, unknown>>, without: string): void {
  for (const [file, value] of Object.entries(options))
    if (value !== undefined)
      throw new InputError({ file, found: `it without ${without}`, remedy: `give ${without}, too` });
}
