import type { Figure } from '../figure/figure.js';
import { valueAt } from '../figure/text/check.js';
import { InputError, type Path } from '../figure/text/input-error.js';
import { type FigureSource, type Json, parseFigure } from '../figure/text/source.js';
import { isTwin, withTwins } from '../figure/twins.js';
import { Leaf, Quantity, Word } from '../parts/fields.js';
import { partKinds } from '../parts/index.js';
import { type Bounds, sensibleRange } from './sensible-range.js';

/** One value of a figure file that a maker could change: a dim, or a number or a word written in a part. */
export interface Setting {
  /** As a person says it: `high`, or `man.panels.0` for what is written in a part. */
  readonly name: string;
  /** Where it stands in the file; it may be left out there. */
  readonly place: Path;
  readonly unit: 'mm' | 'degrees' | '';
  readonly kind: 'number' | 'word';
  readonly now: number | string;
  /** False where the file leaves it out, so that its usual value counts. */
  readonly isWritten: boolean;
  /** Of a number: how far it may go. */
  readonly bounds: Bounds;
  /** Of a number: the maker's own step, if the file gives one. */
  readonly step: number | undefined;
  /** Kind of the part in which it is written; empty for a dim. */
  readonly twins: string;
  /** Of a word: all that it may be, the present one among them. */
  readonly options: readonly (string | number)[];
}

/** More than this are not looked at. */
const MOST_SETTINGS = 150;

/**
 * Everything in a figure file that could be changed. Zeros of points and lines stay: they say where something begins.
 * Arithmetic stays too: what it follows from is listed instead. Points of outlines stand last.
 */
export function settingsOf(source: FigureSource, figure: Figure): Setting[] {
  const parts = (valueAt(withTwins(source), ['parts']) ?? []) as { [field: string]: Json }[];
  const options = new Map<string, readonly string[]>();
  // As the file has it: an outline that comes from a drawing is not written there.
  const asWritten = parseFigure(source.text, source.file);
  const written = parts.flatMap(({ name, kind, ...fields }, i) => {
    const place: Path = ['parts', i];
    const collector = new Collector(String(kind), options);
    const checked = partKinds[String(kind)].fields.parse(fields);
    const inFile = valueAt(asWritten, place) ?? null;
    collector.collect(checked, inFile, place, String(name));
    // What a twin takes over changes with the part whose twin it is.
    return isTwin(inFile) ? collector.found.filter(({ isWritten }) => isWritten) : collector.found;
  });
  const dims = figure.dims.flatMap((dim) => dimSetting(source, figure, dim.name, options.get(dim.name)));
  // Slots first: they are what most often is too small.
  const outlines = written
    .filter(isOutline)
    .sort((a, b) => Number(b.twins === 'slot') - Number(a.twins === 'slot'));
  const rest = written.filter((setting) => !isOutline(setting));
  return [...dims, ...rest, ...outlines];
}

const isOutline = ({ place }: Setting): boolean =>
  place.includes('polygon') || place.includes('holes') || place.includes('outline');

/**
 * Of too many settings those that are looked at: points of outlines are the first to be left out, then what the file leaves out; but
 * slots are what most often is too small.
 */
export function lookedAt(all: readonly Setting[]): Setting[] {
  const rank = (setting: Setting): number => {
    if (isOutline(setting)) return setting.twins === 'slot' ? 1 : 3;
    return setting.isWritten ? 0 : 2;
  };
  const kept = new Set([...all].sort((a, b) => rank(a) - rank(b)).slice(0, MOST_SETTINGS));
  return all.filter((setting) => kept.has(setting));
}

/** @param options of the word fields in which the dim stands */
function dimSetting(
  source: FigureSource,
  figure: Figure,
  name: string,
  options: readonly string[] | undefined,
): Setting[] {
  const unit = figure.dims.find((dim) => dim.name === name)?.unit ?? '';
  const place: Path = ['dims', name];
  const common = { name, place, twins: '', isWritten: true, step: undefined, options: [] } as const;
  // Read as it is written: arithmetic may give no number as the figure starts.
  const written = valueAt(source, place);
  if (typeof written === 'number')
    return [{ ...common, unit, kind: 'number', now: written, bounds: sensibleRange(written, unit, {}) }];
  const free = figure.free.find((dim) => dim.name === name);
  if (free?.kind === 'real') {
    const { start: now, min: low, max: high, step } = free;
    return [{ ...common, unit, kind: 'number', now, bounds: { low, high }, step }];
  }
  const chosen = valueAt(source, [...place, 'choose']) as (string | number)[] | undefined;
  if (chosen === undefined) return [];
  const all = chosen.length > 1 ? chosen : (options ?? chosen);
  const [now] = chosen;
  return all.length > 1 ? [{ ...common, unit: '', kind: 'word', now, bounds: NOWHERE, options: all }] : [];
}

/** The bounds of a word. */
const NOWHERE: Bounds = { low: 0, high: 0 };

/** Finds numbers and words among the checked fields of a part; remembers which dims choose between which words. */
class Collector {
  readonly #kind: string;
  readonly #options: Map<string, readonly string[]>;
  readonly found: Setting[] = [];

  constructor(kind: string, options: Map<string, readonly string[]>) {
    this.#kind = kind;
    this.#options = options;
  }

  /** @param written what stands in the file there, if anything */
  collect(checked: unknown, written: Json | undefined, place: Path, name: string): void {
    const isWritten = written !== undefined;
    const common = { name, place, twins: this.#kind, isWritten, step: undefined } as const;
    if (checked instanceof Quantity) {
      const { written: now, unit } = checked;
      if (typeof now !== 'number' || (now === 0 && typeof place.at(-1) === 'number')) return;
      const bounds = sensibleRange(now, unit, checked, isWritten);
      this.found.push({ ...common, unit, kind: 'number', now, bounds, options: [] });
    } else if (checked instanceof Word) {
      const { written: now, options, ofTheHand } = checked;
      if (options.length < 2 || ofTheHand) return;
      if (!options.includes(now)) this.#options.set(now, options);
      else this.found.push({ ...common, unit: '', kind: 'word', now, bounds: NOWHERE, options });
    } else if (checked instanceof Leaf) {
      if (!isDrawn(written)) this.collect(checked.form, written, place, name);
    } else if (typeof checked === 'object' && checked !== null && !isDrawn(written)) {
      for (const [field, inner] of Object.entries(checked)) {
        const at = Array.isArray(checked) ? Number(field) : field;
        const below = (written as { [field: string]: Json } | undefined)?.[field];
        this.collect(inner, below, [...place, at], `${name}.${field}`);
      }
    }
  }
}

const isDrawn = (written: Json | undefined): boolean =>
  typeof written === 'object' && written !== null && Object.hasOwn(written, 'svg');

/** Words that may really be changed: those for whose every option the file is still one that can be used. */
export function changeable(
  settings: readonly Setting[],
  compileWith: (setting: Setting, option: string | number) => void,
): Setting[] {
  return settings.filter((setting) => {
    if (setting.kind !== 'word') return true;
    return setting.options.every((option) => {
      if (option === setting.now) return true;
      try {
        compileWith(setting, option);
        return true;
      } catch (error) {
        if (error instanceof InputError) return false;
        throw error;
      }
    });
  });
}
