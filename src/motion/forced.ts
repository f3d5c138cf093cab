/**
 * How much of a fold's excess must be forced, because the fold stands between pages that close on it.
 *
 * A fold goes flat with its parents only where both panels bring its crease to one place: d₁ + w₁ = d₂ + w₂, with feet at
 * distances d from the parent crease and panels of width w, where it points in; d₁ − w₁ = d₂ − w₂ where out. The `excess`
 * is what the first has more, signed, in mm or radians. Away from flat it only leans the fold to one side. Near flat that
 * lean grows without bound while the pages leave ever less room for it: with θ the angle between the parents and equal
 * feet, these are D = dθ apart, an excess e moves the crease off the middle by we/D, and there the pages stand
 * (d ± w)θ/2 off the middle. So the pages force what is beyond
 *
 *   (d ± w) D θ / 2w  =  (D² / 2d) · (d ± w) / w
 *
 * and the fold goes on if the card can give so much. Hence the square root of the trade: what can't give stops at an
 * angle that grows with the root of the excess; 1° stops it some 10° short of flat. Callers take half of that bound as
 * `room`, and 1 for (d ± w)/w where that is more, so that panels keep off the pages. With unequal feet it is
 *
 *   (D² − (d₁ − d₂)²) / 2(d₁ + d₂) · min(1, (d ± w)/w):
 *
 * d₁d₂θ² / 2(d₁ + d₂) for small θ, and always less than D − |d₁ − d₂|, beyond which the panels would not meet. For
 * panels that turn about a vertex, with sines of the angles g and p for lengths,
 *
 *   (cos(g₁ − g₂) − cos ∠(L, R)) / 2 · min(1, sin(g ± p) / sin g sin p).
 *
 * @returns what is forced, of the sign of the excess; 0 while there is room for all of it
 */
export function forcedBy(excess: number, room: number): number {
  const beyond = Math.abs(excess) - Math.max(0, room);
  return beyond <= 0 ? 0 : Math.sign(excess) * beyond;
}
