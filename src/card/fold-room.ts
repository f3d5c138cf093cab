/**
 * How much a fold may be off before the pages force it, and by how much they then do. Signs: `way` is +1 where the fold
 * points in, −1 where out.
 *
 * A fold goes flat with its parents only where both panels bring its crease to one place: d₁ + w₁ = d₂ + w₂, with feet at
 * distances d from the parent crease and panels of width w, where it points in; d₁ − w₁ = d₂ − w₂ where out. The excess
 * e = w₁ − w₂ ± (d₁ − d₂) is what the first has more. Away from flat it only leans the fold to one side. With the first
 * parent in z = 0, the second θ from it, and the crease at a height z, to second order in θ and z
 *
 *   w₁ = ±(x − d₁) + z²/2w₁,   w₂ = ±(x − d₂) ± θ²d₂/2 + (z − θd₂)²/2w₂,
 *
 * so that the crease reaches the first parent (z = 0) at e = −½ θ² d₂ (d₂ ± w₂)/w₂, and the second at
 * e = ½ θ² d₁ (d₁ ± w₁)/w₁. (Where it points out and w > d the panels go on past the parents' own crease, and there it is
 * that crease which a panel reaches, at the same e.) So what holds a fold back is the room of one panel alone:
 *
 *   room = ½ θ² dⱼ |dⱼ ± wⱼ|/wⱼ,   about a vertex   ½ θ² sin gⱼ |sin(gⱼ ± pⱼ)|/sin pⱼ,
 *
 * j = 1 where e and d ± w have one sign, else 2. 4 sin²(θ/2) stands for θ², which keeps it true to first order to 180°.
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
export function parallelRoom(feet: Pair, widths: Pair, way: Way): number {
  const past = feet[0] + feet[1] + way * (widths[0] + widths[1]);
  const j = excessOf(feet, widths, way) * past >= 0 ? 0 : 1;
  return (2 * feet[j] * Math.abs(feet[j] + way * widths[j])) / widths[j];
}

/** Room of a fold about a vertex, radians, over sin²(θ/2). */
export function vertexRoom(glue: Pair, sectors: Pair, way: Way): number {
  const past = Math.sin((glue[0] + glue[1] + way * (sectors[0] + sectors[1])) / 2);
  const j = excessOf(glue, sectors, way) * past >= 0 ? 0 : 1;
  return (2 * Math.sin(glue[j]) * Math.abs(Math.sin(glue[j] + way * sectors[j]))) / Math.sin(sectors[j]);
}
