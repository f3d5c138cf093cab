import { isCollection, isMap, isScalar } from 'yaml';
import type { Path } from '../figure/text/input-error.js';
import type { FigureSource, Json } from '../figure/text/source.js';
import { toBeEdited } from '../figure/text/yaml-edit.js';
import { endOfPair, flow, withValue } from '../figure/text/yaml-write.js';
import type { Trim } from '../parts/trim.js';
import type { Setting } from './settings.js';

/** A value of a setting and where it goes. */
export interface NewValue {
  readonly setting: Setting;
  readonly value: number | string;
}

/**
 * The text of a figure file with other values for some settings; every other letter stays as it is, comments included.
 * A range keeps its ends and starts at the value; of a choice the value becomes the first. A field that was left out
 * is put in.
 */
export function withValues(source: FigureSource, values: readonly NewValue[]): string {
  return values.reduce((text, { setting, value }) => {
    const place =
      setting.place[0] === 'dims' ? placeOfDim(text, setting, value) : { at: setting.place, value };
    return withValue(text, place.at, place.value);
  }, source.text);
}

/** The text of a figure file with more trims, each on a line of its own. */
export function withTrims(source: FigureSource, trims: readonly Trim[]): string {
  const text = source.text.endsWith('\n') ? source.text : `${source.text}\n`;
  const written = toBeEdited(text).get('trims');
  const before = isCollection(written) ? (written.toJSON() as Json[]) : [];
  const added = trims.map(({ panel, region }) => ({ panel, region: region.map((corner) => [...corner]) }));
  const lines = [...before, ...added].map((trim) => `\n  - ${flow(trim)}`).join('');
  const { from, to } = placeOfTrims(text);
  return `${text.slice(0, from)}trims:${lines}\n${text.slice(to)}`;
}

/** Where the trims stand in a file, name and all, to the end of their last line; else its end. */
function placeOfTrims(text: string): { from: number; to: number } {
  const { contents } = toBeEdited(text);
  const pair = isMap(contents)
    ? contents.items.find(({ key }) => isScalar(key) && key.value === 'trims')
    : undefined;
  if (pair === undefined || !isScalar(pair.key)) return { from: text.length, to: text.length };
  const lineEnd = text.indexOf('\n', endOfPair(pair));
  return { from: pair.key.range?.[0] ?? 0, to: lineEnd < 0 ? text.length : lineEnd + 1 };
}

function placeOfDim(text: string, setting: Setting, value: number | string): { at: Path; value: Json } {
  const written = toBeEdited(text).getIn(setting.place);
  if (!isMap(written)) return { at: setting.place, value };
  if (written.has('from')) return { at: [...setting.place, 'start'], value };
  const choose = toBeEdited(text).getIn([...setting.place, 'choose']);
  const options = isCollection(choose) ? (choose.toJSON() as Json[]) : [];
  const rest = options.length > 1 ? options.filter((option) => option !== value) : [];
  return { at: [...setting.place, 'choose'], value: [value, ...rest] };
}
