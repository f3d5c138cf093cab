import type { Scorecard } from '../../score/scorecard.js';
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
  const named = new Set<string>();
  const note = (panel: string) => {
    const part = partOf(panel, names);
    if (part !== null) named.add(part);
  };
  if (card.cannotBuild !== null) note(card.cannotBuild.split(':')[0]);
  else if (card.locks !== null) note(card.locks.part);
  else {
    for (const { met, reason } of card.limits)
      if (!met) for (const [, panel] of (reason ?? '').matchAll(/'([^']*)'/g)) note(panel);
    for (const { met, name } of card.wants)
      if (!met) for (const panel of wantPanels.get(name) ?? []) note(panel);
  }
  if (named.size === 0) return () => true;
  const bearing = withSupports(named, parts);
  return ({ steps }) => steps.some(({ setting }) => [...touches[setting]].some((part) => bearing.has(part)));
}
