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
