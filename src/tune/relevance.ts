import type { Scorecard } from '../score/scorecard.js';
import type { BuiltPart } from './opened.js';
import { HOLDS_LINKS, partOf, withSupports, wordsIn } from './part-names.js';

/** One thing that is wrong with a candidate, by the parts that have to do with it. */
export interface Concern {
  /** The parts that are named in it. */
  readonly named: ReadonlySet<string>;
  /** These, all that they follow from, and what is cut into their card: none of the others can change anything about it. */
  readonly all: ReadonlySet<string>;
}

/** Parts that cut into the card of those that they name. */
const CUTTERS = new Set(['slot', 'pivot', 'tongue', 'counter-fold']);

/**
 * What is wrong with a candidate, each thing by itself. Where the figure locks or cannot be built, only that is looked at,
 * since the rest may follow from it. What names nothing (a pile that is too thick) is left out: anything may bear on it.
 * @param wantPanels for each want, the panels that it looks at
 */
export function concernsOf(
  card: Scorecard,
  parts: readonly BuiltPart[],
  wantPanels: ReadonlyMap<string, readonly string[]>,
): Concern[] {
  const names = parts.map(({ name }) => name);
  return namedIn(card, names, wantPanels).flatMap((each) => {
    const named = withSlots(withChains(each, parts, names), parts, names);
    return named.size === 0 ? [] : [{ named, all: bearingOn(named, parts, names) }];
  });
}

/** Parts, and of a link all of its chain, which is named by its first part: the other links, and what holds them. */
function withChains(
  some: readonly string[],
  parts: readonly BuiltPart[],
  names: readonly string[],
): ReadonlySet<string> {
  const kinds = new Map(parts.map(({ name, kind }) => [name, kind]));
  const all = new Set(some);
  for (const link of all)
    for (const { name, kind, fields } of kinds.get(link) === 'link' ? parts : []) {
      const held = HOLDS_LINKS.has(kind) ? wordsIn(fields).map((word) => partOf(word, names) ?? '') : [];
      if (!held.includes(link)) continue;
      for (const other of held) if (kinds.get(other) === 'link') all.add(other);
      all.add(name);
    }
  return all;
}

function bearingOn(
  named: ReadonlySet<string>,
  parts: readonly BuiltPart[],
  names: readonly string[],
): ReadonlySet<string> {
  const cutters = parts.filter(
    ({ kind, fields }) =>
      CUTTERS.has(kind) && wordsIn(fields).some((word) => named.has(partOf(word, names) ?? '')),
  );
  const bearing = withSupports(new Set([...named, ...cutters.map(({ name }) => name)]), parts);
  return withSlots(bearing, parts, names);
}

/** Parts, and the slots in which one of them passes through another. */
function withSlots(
  some: ReadonlySet<string>,
  parts: readonly BuiltPart[],
  names: readonly string[],
): ReadonlySet<string> {
  const slots = parts.filter(({ kind, fields }) => {
    const { on, passes } = fields as { on?: string; passes?: string };
    return kind === 'slot' && [on, passes].every((panel) => some.has(partOf(String(panel), names) ?? ''));
  });
  return new Set([...some, ...slots.map(({ name }) => name)]);
}

/** For each thing that is wrong, the parts that are named in it. */
function namedIn(
  { cannotBuild, locks, limits, wants }: Scorecard,
  parts: readonly string[],
  wantPanels: ReadonlyMap<string, readonly string[]>,
): string[][] {
  if (cannotBuild !== null) return [parts.filter((name) => cannotBuild.startsWith(`${name}: `))];
  const partsOf = (panels: readonly string[]) => panels.flatMap((panel) => partOf(panel, parts) ?? []);
  if (locks !== null) return [partsOf([locks.part])];
  const broken = limits.filter(({ met }) => !met).flatMap(({ finding }) => finding ?? []);
  const missed = wants.filter(({ met }) => !met);
  return [
    ...broken.map(({ panels, part, place }) =>
      partsOf([
        ...panels,
        ...(part === null ? [] : [part]),
        ...(place !== null && 'other' in place ? [place.other] : []),
      ]),
    ),
    ...missed.map(({ name }) => partsOf(wantPanels.get(name) ?? [])),
  ];
}
