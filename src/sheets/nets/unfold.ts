import {
  after,
  distance,
  type Isometry,
  moved,
  movedShape,
  type Segment,
  type Shape,
  STILL,
  undoing,
} from '../../geometry/plane.js';
import { type Assembly, LEFT_PAGE } from '../../motion/assembly.js';
import { findConflicts } from './conflicts.js';
import { fromBehind } from './fold-sense.js';
import { joinAcross } from './join-tab.js';
import type { Link } from './links.js';
import type { Area, Fold, Unfolded } from './net.js';

const MIRROR: Isometry = { c: -1, s: 0, x: 0, y: 0, flip: -1 };

/** Lines that should coincide when flat may differ by this, mm. */
const AGREES = 0.01;

/**
 * Lays every piece flat: panel after panel across its creases, loops of creases last. Where a loop does not close
 * when flat, or areas would overlap, the piece is split at a crease and gets a join tab there.
 * @param weights of each panel, how much it counts that its own face is printed, less that its back is
 * @param splitAt joints that must be split, though nothing overlaps (the gutter of a spread too wide for the sheet)
 */
export function unfold(
  assembly: Assembly,
  cards: readonly Shape[],
  links: readonly Link[],
  weights: readonly number[],
  splitAt: ReadonlySet<number> = new Set(),
): Unfolded {
  const out: Unfolded = { nets: [], joins: [], notes: [] };
  const pieces = [...new Set(assembly.panels.map(({ piece }) => piece))];
  const root = assembly.panels.map((_, i) => i);
  const find = (i: number): number => {
    while (root[i] !== i) i = root[i];
    return i;
  };
  const samePiece = ({ panels: [a, b] }: Link) => assembly.panels[a].piece === assembly.panels[b].piece;
  // Creases that hold the figure together first; those that close a loop only where nothing else joins their panels.
  const ordered = [...links].sort((a, b) => Number(a.closesLoop) - Number(b.closesLoop) || a.joint - b.joint);
  const tree: Link[] = [];
  const spare: Link[] = [];
  const cut: Link[] = [];
  for (const link of ordered) {
    const [a, b] = link.panels.map(find);
    if (splitAt.has(link.joint) || !samePiece(link)) cut.push(link);
    else if (a === b) spare.push(link);
    else {
      root[Math.max(a, b)] = Math.min(a, b);
      tree.push(link);
    }
  }
  const places = placeAll(assembly.panels.length, tree);
  const loops = spare.filter((link) => {
    if (agrees(link, places)) return true;
    out.notes.push(
      `'${nameOf(assembly, link.panels[0])}' and '${nameOf(assembly, link.panels[1])}' cannot lie flat together: a join tab closes them.`,
    );
    cut.push(link);
    return false;
  });
  const flat = cards.map((card, i) => movedShape(places[i], card));
  const { cuts, notes } = findConflicts(assembly, flat, places, tree, loops);
  out.notes.push(...notes);
  cut.push(...cuts);
  const kept = [...tree.filter((link) => !cuts.includes(link)), ...loops];
  for (const piece of pieces) addNets(assembly, piece, flat, places, kept, weights, out);
  for (const link of cut) joinAcross(assembly, cards, link, out);
  return out;
}

/** Places every panel in the frame of the first panel that it hangs on. */
function placeAll(count: number, tree: readonly Link[]): Isometry[] {
  const hanging: { to: number; by: Isometry }[][] = Array.from({ length: count }, () => []);
  for (const { panels, flat } of tree) {
    hanging[panels[0]].push({ to: panels[1], by: flat });
    hanging[panels[1]].push({ to: panels[0], by: undoing(flat) });
  }
  const places: (Isometry | undefined)[] = Array.from({ length: count }, () => undefined);
  for (let start = 0; start < count; start++) {
    if (places[start] !== undefined) continue;
    places[start] = STILL;
    const queue = [start];
    for (const at of queue)
      for (const { to, by } of hanging[at]) {
        if (places[to] !== undefined) continue;
        places[to] = after(places[at] as Isometry, by);
        queue.push(to);
      }
  }
  return places as Isometry[];
}

function agrees({ panels, lines }: Link, places: readonly Isometry[]): boolean {
  return [0, 1].every(
    (end) =>
      distance(moved(places[panels[0]], lines[0][end]), moved(places[panels[1]], lines[1][end])) < AGREES,
  );
}

/** Adds the nets of one piece: what still hangs together by the creases that were kept. */
function addNets(
  assembly: Assembly,
  piece: string,
  flat: readonly Shape[],
  places: readonly Isometry[],
  kept: readonly Link[],
  weights: readonly number[],
  out: Unfolded,
): void {
  const members = assembly.panels.map((_, i) => i).filter((i) => assembly.panels[i].piece === piece);
  const groups = groupsOf(members, kept);
  const strips = groups.filter((group) => group.every((i) => assembly.panels[i].role === 'tab'));
  const solids = groups.filter((group) => !strips.includes(group));
  const named = (group: number[]): string => {
    if (strips.includes(group)) return `hinge strip of '${nameOf(assembly, group[0])}'`;
    if (piece === 'page')
      return solids.length === 1
        ? 'base page'
        : `base page, ${group[0] === LEFT_PAGE ? 'left' : 'right'} leaf`;
    return solids.length === 1 ? piece : `${piece}, part ${solids.indexOf(group) + 1} of ${solids.length}`;
  };
  for (const group of groups) {
    // The face that counts for more is printed.
    const counted = group.reduce((sum, i) => sum + weights[i] * places[i].flip, 0);
    const over = piece !== 'page' && counted < 0 ? MIRROR : STILL;
    const laid = new Map(group.map((i) => [i, after(over, places[i])]));
    const areas = group.map((i): Area => {
      const { name, role } = assembly.panels[i];
      const kind = role === 'tab' ? 'tab' : 'panel';
      return { name, kind, panel: i, shape: movedShape(over, flat[i]), place: laid.get(i) as Isometry };
    });
    const folds = kept
      .filter(({ panels }) => group.includes(panels[0]) && group.includes(panels[1]))
      .map(({ panels, lines, sense, joint }): Fold => {
        const place = laid.get(panels[0]) as Isometry;
        const line: Segment = [moved(place, lines[0][0]), moved(place, lines[0][1])];
        return {
          between: [group.indexOf(panels[0]), group.indexOf(panels[1])],
          line,
          sense: place.flip === 1 ? sense : fromBehind(sense),
          joint,
        };
      });
    out.nets.push({ name: named(group), piece, areas, folds, slits: [] });
  }
}

/** Sets of panels that hang together, each in rising order. */
function groupsOf(members: readonly number[], links: readonly Link[]): number[][] {
  const left = new Set(members);
  const groups: number[][] = [];
  for (const start of members) {
    if (!left.delete(start)) continue;
    const group = [start];
    for (const at of group)
      for (const { panels } of links) {
        if (!panels.includes(at)) continue;
        const other = panels[0] === at ? panels[1] : panels[0];
        if (left.delete(other)) group.push(other);
      }
    groups.push(group.sort((a, b) => a - b));
  }
  return groups;
}

const nameOf = (assembly: Assembly, panel: number): string => assembly.panels[panel].name;
