/** What the shut and the open figure are: how thick the pile, what juts out, what stands up. */
import type { Placed } from './crossing.js';
import type { Figure } from './rigid.js';
import { at, type P2 } from './space.js';

/** mm: the farthest corner beyond an edge of the page. At the spine the page has no edge, but what juts out there shows. */
export function overhang({ page }: Figure, cards: Placed[]): number {
  let most = 0;
  for (const [x, y] of cornersOf(cards)) most = Math.max(most, -page.width - x, x, -y, y - page.height);
  return most;
}

/** mm: the highest that card stands off the plane of the left page. */
export const standsUp = (cards: Placed[]): number =>
  Math.max(0, ...cornersOf(cards).map(([, , z]) => Math.abs(z)));

const cornersOf = (cards: Placed[]) =>
  cards.flatMap(({ area, frame }) => area.flat(2).map((p) => at(frame, p)));

/** How many cards lie on each other at most: by card that overlaps by 0.1 mm or more, and by any that does. */
export function pile(cards: Placed[]): { least: number; most: number } {
  const flat = cards.map(({ area, frame }) =>
    area.flat().map((ring) => ring.map((p): P2 => [at(frame, p)[0], at(frame, p)[1]])),
  );
  const edges = flat.flat().flatMap((ring) => ring.map((p, i) => [p, ring[(i + 1) % ring.length]] as const));
  const corners: P2[] = [...flat.flat(2)];
  edges.forEach((edge, i) => {
    for (const other of edges.slice(i + 1)) {
      const p = meeting(edge, other);
      if (p !== null) corners.push(p);
    }
  });
  const boxes = flat.map((rings) => {
    const [xs, ys] = [0, 1].map((k) => rings.flat().map((p) => p[k]));
    return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
  });
  const on = ([x, y]: P2) =>
    flat.filter((rings, i) => {
      const [x0, y0, x1, y1] = boxes[i];
      return x >= x0 && x <= x1 && y >= y0 && y <= y1 && inside(rings, [x, y]);
    });
  let [least, most] = [0, 0];
  for (const [x, y] of corners)
    for (let k = 0; k < 8; k++) {
      const angle = (k + 0.37) * (Math.PI / 4);
      const beside = (far: number): P2 => [x + far * Math.cos(angle), y + far * Math.sin(angle)];
      most = Math.max(most, on(beside(1e-4)).length);
      const p = beside(0.3);
      const there = on(p);
      if (there.length > least)
        least = Math.max(least, there.filter((rings) => edgeFrom(rings, p) > 0.05).length);
    }
  return { least, most };
}

type Edge = readonly [P2, P2];

function meeting([a, b]: Edge, [c, d]: Edge): P2 | null {
  const [r, s, q] = [
    [b[0] - a[0], b[1] - a[1]],
    [d[0] - c[0], d[1] - c[1]],
    [c[0] - a[0], c[1] - a[1]],
  ];
  const det = r[0] * s[1] - r[1] * s[0];
  if (Math.abs(det) < 1e-9) return null;
  const t = (q[0] * s[1] - q[1] * s[0]) / det;
  const u = (q[0] * r[1] - q[1] * r[0]) / det;
  return t < 0 || t > 1 || u < 0 || u > 1 ? null : [a[0] + t * r[0], a[1] + t * r[1]];
}

function inside(rings: P2[][], [x, y]: P2): boolean {
  let within = false;
  for (const ring of rings)
    ring.forEach(([a, b], i) => {
      const [c, d] = ring[(i + 1) % ring.length];
      if (b > y !== d > y && x < a + ((y - b) * (c - a)) / (d - b)) within = !within;
    });
  return within;
}

function edgeFrom(rings: P2[][], [x, y]: P2): number {
  let least = Infinity;
  for (const ring of rings)
    ring.forEach(([a, b], i) => {
      const [c, d] = ring[(i + 1) % ring.length];
      const long2 = (c - a) ** 2 + (d - b) ** 2;
      const t = Math.min(1, Math.max(0, ((x - a) * (c - a) + (y - b) * (d - b)) / (long2 || 1)));
      least = Math.min(least, Math.hypot(x - a - t * (c - a), y - b - t * (d - b)));
    });
  return least;
}
