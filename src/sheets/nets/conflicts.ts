import { cardIn, type Isometry, moved, type Segment, type Shape } from '../../geometry/plane.js';
import { less, overlapOf, totalArea } from '../../geometry/region.js';
import type { Assembly } from '../../motion/assembly.js';
import { mostAlong } from './cut-back.js';
import type { Link } from './links.js';
import { TreePaths } from './tree-paths.js';

/** Less overlap than this, mm², is round-off along a drawn edge. */
const TOUCHES = 0.05;
/** A tab that would keep less than this share of its area is not cut back but made as a strip of its own. */
const WORTH_KEEPING = 0.6;

/**
 * Finds the creases at which pieces must be split, so that nothing overlaps when flat. A tab that only overlaps a
 * little is cut back instead (in `flat`).
 * @param tree creases by which the panels were laid out, without loops
 * @param loops creases that close loops and lie flat too: a crease of a loop cannot be split alone
 */
export function findConflicts(
  assembly: Assembly,
  flat: Shape[],
  places: readonly Isometry[],
  tree: readonly Link[],
  loops: readonly Link[],
): { cuts: Link[]; notes: string[] } {
  const notes: string[] = [];
  const name = (panel: number) => assembly.panels[panel].name;
  const ways = new TreePaths(flat.length, tree);
  const inLoop = new Set<Link>();
  for (const { panels } of loops) for (const link of ways.between(...panels)) inLoop.add(link);
  const paths: { panels: [number, number]; path: Link[] }[] = [];
  const tabLinks = new Map(
    tree.flatMap((link) => (link.tab === null ? [] : [[link.tab.panel, link] as const])),
  );
  const overlaps: { panels: [number, number]; path: Link[] }[] = [];
  for (let a = 0; a < flat.length; a++)
    for (let b = a + 1; b < flat.length; b++)
      if (ways.join(a, b) && totalArea(overlapOf(flat[a], flat[b])) >= TOUCHES)
        overlaps.push({ panels: [a, b], path: ways.between(a, b) });
  // A tab that cannot be cut back clear of all becomes a strip, and then need not be cut back at all.
  const lasting = overlaps.filter(({ panels }) => cutBack(flat, places, tabLinks, panels) === null);
  const strips = new Set(lasting.flatMap(({ panels }) => panels).filter((panel) => tabLinks.has(panel)));
  for (const overlap of overlaps) {
    const cut = overlap.panels.some((panel) => strips.has(panel))
      ? null
      : cutBack(flat, places, tabLinks, overlap.panels);
    if (cut === null) paths.push(overlap);
    else flat[cut.tab] = cut.kept;
  }
  const cuts: Link[] = [];
  while (true) {
    const left = paths.filter(({ path }) => !path.some((link) => cuts.includes(link)));
    const choices = [...new Set(left.flatMap(({ path }) => path))].filter((link) => !inLoop.has(link));
    if (choices.length === 0) {
      for (const { panels } of left)
        notes.push(
          `'${name(panels[0])}' and '${name(panels[1])}' overlap when flat, and a loop of creases holds them together: this piece cannot be cut from one sheet.`,
        );
      return { cuts, notes };
    }
    // The crease that parts most of what overlaps; of equals a tab's, so that the piece itself stays whole.
    const parts = (link: Link) => left.filter(({ path }) => path.includes(link)).length;
    const best = choices.reduce((a, b) => {
      const more = parts(b) - parts(a);
      return more > 0 || (more === 0 && a.tab === null && b.tab !== null) ? b : a;
    });
    cuts.push(best);
    const why = left.find(({ path }) => path.includes(best));
    if (why === undefined) continue;
    const [a, b] = why.panels.map((panel) => `'${name(panel)}'`);
    notes.push(
      best.tab === null
        ? `${a} and ${b} would overlap when flat: '${assembly.panels[best.panels[0]].piece}' is cut in two at the crease between '${name(best.panels[0])}' and '${name(best.panels[1])}', with a join tab.`
        : `The tab '${name(best.tab.panel)}' cannot be cut in one with '${name(best.tab.owner)}' (it would lie over ${best.tab.panel === why.panels[0] ? b : a}): it is a folded strip of its own, glued to both.`,
    );
  }
}

/** What is left of a tab cut back where it overlaps its own piece a little; the later of two yields. Null: no use. */
function cutBack(
  flat: readonly Shape[],
  places: readonly Isometry[],
  tabLinks: ReadonlyMap<number, Link>,
  [a, b]: readonly [number, number],
): { tab: number; kept: Shape } | null {
  for (const [yielding, other] of [
    [b, a],
    [a, b],
  ]) {
    const tab = tabLinks.get(yielding)?.tab;
    if (!tab) continue;
    const place = places[yielding];
    const line: Segment = [moved(place, tab.line[0]), moved(place, tab.line[1])];
    const kept = mostAlong(less(flat[yielding], flat[other]), {
      line,
      side: (tab.side * place.flip) as 1 | -1,
    });
    if (kept !== null && cardIn(kept) >= WORTH_KEEPING * cardIn(flat[yielding]))
      return { tab: yielding, kept };
  }
  return null;
}
