/**
 * How much a fold may be off before the pages force it, and by how much they then do. Signs: `way` is +1 where the fold
 * points in, −1 where out.
 *
 * A fold goes flat with its parents only where both panels bring its crease to one place: d₁ + w₁ = d₂ + w₂, with feet at
 * distances d from the parent crease and panels of width w, where it points in; d₁ − w₁ = d₂ − w₂ where out. The excess e
 * is what the first has more. Away from flat it only leans the fold to one side: with feet D apart, by we/D. There the
 * parents stand (d ± w)θ/2 off the middle (out: the parents' own crease does, beyond which the panels go on). So the parents
 * force what is beyond (d ± w) D θ / 2w = (D²/2d) · (d ± w)/w, or with unequal feet
 *
 *   room = (D² − (d₁ − d₂)²)/(d₁ + d₂) · |d₁ + d₂ ± (w₁ + w₂)|/(w₁ + w₂),   D² − (d₁ − d₂)² = 4 d₁ d₂ sin²(θ/2),
 *
 * and about a vertex, with sines of the angles for lengths,
 *
 *   room = (cos(g₁ − g₂) − cos Δ) · |sin((Σg ± Σp)/2)| / (sin(Σg/2) sin(Σp/2)),   cos(g₁ − g₂) − cos Δ = 2 sin g₁ sin g₂ sin²(θ/2).
 *
 * Hence the square root of the trade: the angle at which an error first needs force grows with its root; 1° in a V-fold
 * shows some 12° short of shut.
 */
export type Way = 1 | -1;
type Pair = readonly [number, number];

/** e, in mm or radians. @param feet distances or glue angles @param sides widths or sectors */
export const excessOf = (feet: Pair, sides: Pair, way: Way): number =>
  sides[0] - sides[1] + way * (feet[0] - feet[1]);

/** Room of a parallel fold, mm, over sin²(θ/2). */
export function parallelRoom([d1, d2]: Pair, [w1, w2]: Pair, way: Way): number {
  const wide = w1 + w2;
  return (((4 * d1 * d2) / (d1 + d2)) * Math.abs(d1 + d2 + way * wide)) / wide;
}

/** Room of a fold about a vertex, radians, over sin²(θ/2). */
export function vertexRoom([g1, g2]: Pair, [p1, p2]: Pair, way: Way): number {
  const glue = (g1 + g2) / 2;
  const sector = (p1 + p2) / 2;
  const feet = 2 * Math.sin(g1) * Math.sin(g2);
  return (feet * Math.abs(Math.sin(glue + way * sector))) / (Math.sin(glue) * Math.sin(sector));
}

/** The angle between the parents at which an excess first needs force, radians; π where it always does. */
export const contactAngle = (excess: number, room: number): number =>
  2 * Math.asin(Math.min(1, Math.sqrt(Math.abs(excess) / room)));
