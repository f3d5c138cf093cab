/** The point of the edge from one corner of a ring to another, by their places in it, that is nearest to (x, y). */
export function nearestOnEdge(
  ring: Float64Array,
  from: number,
  to: number,
  x: number,
  y: number,
): [number, number] {
  const [ax, ay] = [ring[from], ring[from + 1]];
  const [ex, ey] = [ring[to] - ax, ring[to + 1] - ay];
  const t = Math.min(1, Math.max(0, ((x - ax) * ex + (y - ay) * ey) / (ex * ex + ey * ey || 1)));
  return [ax + t * ex, ay + t * ey];
}

/** The point of a ring's edges that is nearest to a point. */
export function nearestOn(ring: Float64Array, [x, y]: readonly [number, number]): [number, number] {
  let nearest: [number, number] = [ring[0], ring[1]];
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
    const [px, py] = nearestOnEdge(ring, j, i, x, y);
    const away = Math.hypot(x - px, y - py);
    if (away < least) [least, nearest] = [away, [px, py]];
  }
  return nearest;
}

/** How far a point lies outside a ring, mm: its distance from the nearest edge, negative inside the ring. */
export function outsideOf(ring: Float64Array, [x, y]: readonly [number, number]): number {
  let nearest = Number.POSITIVE_INFINITY;
  let inside = false;
  for (let i = 0, j = ring.length - 2; i < ring.length; j = i, i += 2) {
    const [ax, ay, bx, by] = [ring[j], ring[j + 1], ring[i], ring[i + 1]];
    const [ex, ey] = [bx - ax, by - ay];
    const t = Math.min(1, Math.max(0, ((x - ax) * ex + (y - ay) * ey) / (ex * ex + ey * ey || 1)));
    const squared = (x - ax - t * ex) ** 2 + (y - ay - t * ey) ** 2;
    if (squared < nearest) nearest = squared;
    if (ay > y !== by > y && x < ax + (ex * (y - ay)) / ey) inside = !inside;
  }
  return inside ? -Math.sqrt(nearest) : Math.sqrt(nearest);
}
