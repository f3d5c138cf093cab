import type { Link } from './links.js';

/** The ways from panel to panel across creases that close no loop: each panel hangs on one other, up to a first one. */
export class TreePaths<Crease extends Pick<Link, 'panels'>> {
  /** The crease by which each panel hangs, the panel that it hangs on, and how many creases are above it. */
  readonly #by: (Crease | null)[];
  readonly #on: number[];
  readonly #depth: number[];
  /** The first panel of all that hangs together. */
  readonly #first: number[];

  /**
   * @param count of panels
   * @param tree creases between them, without loops
   */
  constructor(count: number, tree: readonly Crease[]) {
    const creases: Crease[][] = Array.from({ length: count }, () => []);
    for (const link of tree) for (const panel of link.panels) creases[panel].push(link);
    this.#by = Array.from({ length: count }, () => null);
    this.#on = Array.from({ length: count }, () => -1);
    this.#depth = Array.from({ length: count }, () => 0);
    this.#first = Array.from({ length: count }, () => -1);
    for (let start = 0; start < count; start++) {
      if (this.#first[start] >= 0) continue;
      this.#first[start] = start;
      const queue = [start];
      for (const at of queue)
        for (const link of creases[at]) {
          const next = link.panels[0] === at ? link.panels[1] : link.panels[0];
          if (this.#first[next] >= 0) continue;
          this.#by[next] = link;
          this.#on[next] = at;
          this.#depth[next] = this.#depth[at] + 1;
          this.#first[next] = start;
          queue.push(next);
        }
    }
  }

  /** Whether two panels hang together. */
  join(a: number, b: number): boolean {
    return this.#first[a] === this.#first[b];
  }

  /** The creases on the way from panel b to panel a, in order; none where they do not hang together. */
  between(a: number, b: number): Crease[] {
    if (!this.join(a, b)) return [];
    const by = this.#by;
    const on = this.#on;
    const depth = this.#depth;
    const fromB: Crease[] = [];
    const fromA: Crease[] = [];
    // The deeper one climbs, until both have come to the panel that they hang on together.
    while (a !== b) {
      if (depth[b] >= depth[a]) {
        fromB.push(by[b] as Crease);
        b = on[b];
      } else {
        fromA.push(by[a] as Crease);
        a = on[a];
      }
    }
    return [...fromB, ...fromA.reverse()];
  }
}
