import { InputError } from '../figure/text/input-error.js';

/**
 * Dims set by hand, from `--set dim=value` given any number of times.
 * @throws InputError for what is no setting, or for a dim set twice
 */
export function settingsOf(written: readonly string[]): Map<string, string> {
  const settings = new Map<string, string>();
  for (const text of written) {
    const [, dim, value] = /^([^=]*)=(.*)$/s.exec(text) ?? [];
    if (dim === undefined || dim.trim() === '') {
      throw new InputError({
        file: '--set',
        found: `'${text}'`,
        remedy: "write dim=value, such as 'height=32.5'",
      });
    }
    if (settings.has(dim.trim())) {
      throw new InputError({ file: '--set', field: dim.trim(), found: 'it twice', remedy: 'set it once' });
    }
    settings.set(dim.trim(), value);
  }
  return settings;
}
