import type { Scorecard } from '../score/scorecard.js';
import type { Move } from './moves.js';
import type { OpenedFigure } from './opened.js';
import { partOf, withSupports } from './part-names.js';

/**
 * Moves that bear on what is wrong: they change a part that is named in it, or one that such a part follows from. Where
 * the figure locks or cannot be built, only that is looked at, since the rest may follow from it. Where nothing is named
 * (a pile that is too thick), every move bears on it.
 * @param touches for each setting, the parts whose fields it changes
 * @param wantPanels for each want, the panels that it looks at
 */
export function bearingOn(
  card: Scorecard,
  opened: OpenedFigure,
  vector: Float64Array,
  touches: readonly ReadonlySet<string>[],
  wantPanels: ReadonlyMap<string, readonly string[]>,
): (move: Move) => boolean {
  const parts = opened.fieldsOf(vector);
  const names = parts.map(({ name }) => name);
  const named = new Set(namedIn(card, names, wantPanels));
  if (named.size === 0) return () => true;
  const bearing = withSupports(named, parts);
  // A slot bears on the panel that it is cut in, and on what passes.
  for (const { name, kind, fields } of parts) {
    const { on, passes } = fields as { on?: string; passes?: string };
    if (kind === 'slot' && [on, passes].every((panel) => bearing.has(partOf(String(panel), names) ?? '')))
      bearing.add(name);
  }
  return ({ steps }) => steps.some(({ setting }) => [...touches[setting]].some((part) => bearing.has(part)));
}

/** The parts that are named in what is wrong. */
function namedIn(
  { cannotBuild, locks, limits, wants }: Scorecard,
  parts: readonly string[],
  wantPanels: ReadonlyMap<string, readonly string[]>,
): string[] {
  if (cannotBuild !== null) return parts.filter((name) => cannotBuild.startsWith(`${name}: `));
  const partsOf = (panels: readonly string[]) => panels.flatMap((panel) => partOf(panel, parts) ?? []);
  if (locks !== null) return partsOf([locks.part]);
  const broken = limits.filter(({ met }) => !met);
  const missed = wants.filter(({ met }) => !met).flatMap(({ name }) => wantPanels.get(name) ?? []);
  const found = broken.flatMap(({ finding }) => finding ?? []);
  return partsOf([
    ...found.flatMap(({ panels, part, place }) => [
      ...panels,
      ...(part === null ? [] : [part]),
      ...(place !== null && 'other' in place ? [place.other] : []),
    ]),
    ...missed,
  ]);
}
