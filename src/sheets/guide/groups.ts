import type { Bond } from '../nets/bonds.js';
import type { Net } from '../nets/net.js';

/** What is built on the mat as one thing, before it goes into the book. */
export interface Group {
  readonly nets: ReadonlySet<Net>;
}

/** A pair of nets that are held together: by glue or by a hub. */
export type Pair = readonly [Net, Net];

/**
 * Which nets are built together on the mat. Every net that stands on the page begins a group of its own. What is joined
 * only to one such group, directly or through others, belongs to it: it is glued on while all lies loose. What bridges
 * several of them is a group of its own, and is joined to them in the book, where they stand in their places. The end
 * of a chain of limbs, glued to the page by one tab, does not stand there: its hub is set before.
 * @param joined pairs that are as one piece: parts of a split piece, strips, what is glued on flat
 * @param glued pairs that are glued otherwise
 * @param pinned pairs that are held by a hub
 */
export function groupsOf(
  nets: readonly Net[],
  joined: readonly Pair[],
  glued: readonly Pair[],
  pinned: readonly Pair[],
): ReadonlyMap<Net, Group> {
  const units = new Sets(nets);
  for (const [a, b] of joined) if (!isPage(a) && !isPage(b)) units.join(a, b);
  const feet = new Map<Net, number>();
  for (const [a, b] of [...joined, ...glued]) {
    const foot = isPage(a) ? b : isPage(b) ? a : null;
    if (foot !== null && !isPage(foot)) feet.set(units.of(foot), (feet.get(units.of(foot)) ?? 0) + 1);
  }
  const onHub = new Set(pinned.flat().map((net) => units.of(net)));
  const standing = new Set(
    [...feet].flatMap(([unit, count]) => (count > 1 || !onHub.has(unit) ? [unit] : [])),
  );
  const loose = new Sets(nets);
  const between = [...glued, ...pinned]
    .filter((pair) => !pair.some(isPage))
    .map((pair) => pair.map((net) => units.of(net)));
  for (const [a, b] of between) if (!standing.has(a) && !standing.has(b)) loose.join(a, b);
  const bases = new Map<Net, Set<Net>>();
  for (const [a, b] of between)
    for (const [own, other] of [
      [a, b],
      [b, a],
    ])
      if (!standing.has(own) && standing.has(other)) {
        const at = loose.of(own);
        bases.set(at, (bases.get(at) ?? new Set()).add(other));
      }
  const headOf = (net: Net): Net => {
    const unit = units.of(net);
    if (standing.has(unit)) return unit;
    const head = loose.of(unit);
    const [only, ...more] = bases.get(head) ?? [];
    return only !== undefined && more.length === 0 ? only : head;
  };
  const members = new Map<Net, Set<Net>>();
  for (const net of nets)
    if (!isPage(net)) members.set(headOf(net), (members.get(headOf(net)) ?? new Set()).add(net));
  const groups = new Map<Net, Group>();
  for (const own of members.values()) {
    const group: Group = { nets: own };
    for (const net of own) groups.set(net, group);
  }
  return groups;
}

export const isPage = ({ areas }: Net): boolean =>
  areas.some(({ kind, panel }) => kind === 'panel' && (panel === 0 || panel === 1));

export const pairOf = ({ giver, receiver }: Bond): Pair => [giver.net, receiver.net];

/** Sets of nets that are joined step by step. */
export class Sets {
  readonly #root = new Map<Net, Net>();

  constructor(nets: readonly Net[]) {
    for (const net of nets) this.#root.set(net, net);
  }

  of(net: Net): Net {
    let at = net;
    while (true) {
      const up = this.#root.get(at) ?? at;
      if (up === at) return at;
      at = up;
    }
  }

  join(a: Net, b: Net): void {
    const [to, from] = [this.of(a), this.of(b)];
    if (to !== from) this.#root.set(from, to);
  }
}
