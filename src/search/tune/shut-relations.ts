import type { BuiltPart } from './opened.js';

/** Relations of one part; each holds where its value is 0, in degrees or mm. */
export interface ShutRelations {
  readonly part: string;
  /** It can shut flat where one of the two holds. */
  readonly shuts: readonly [number, number];
  /** It lies flat when the parent crease is open. */
  readonly open: number;
}

/**
 * What must hold of the numbers of V-folds and tents so that they shut.
 *
 * Shut, the two lines on which a V-fold stands lie |g₁ − g₂| apart in one plane, and its ridge lies in that plane too, at
 * p₁ from the one line and p₂ from the other, on the same side of both or between them. A pair that shuts keeps its
 * ridge outside: |p₁ − p₂| = |g₁ − g₂|. Open, the lines are g₁ + g₂ apart and the ridge lies between: p₁ + p₂ = g₁ + g₂.
 * A tent is the same with distances in place of angles: |w₁ − w₂| = |a₁ − a₂|, and w₁ + w₂ = a₁ + a₂.
 * A box and a counter-fold hold to it by themselves. (`shared/design.md`'s two closed forms; derivation above.)
 */
export function shutRelations(parts: readonly BuiltPart[]): ShutRelations[] {
  return parts.flatMap(({ name, kind, fields }) => {
    const pairs = pairsOf(kind, fields as Partial<Record<string, [number, number]>>);
    if (pairs === null) return [];
    const [[g1, g2], [p1, p2]] = pairs;
    const [across, along] = [g1 - g2, p1 - p2];
    return [{ part: name, shuts: [along - across, along + across], open: p1 + p2 - g1 - g2 }];
  });
}

type Pair = readonly [number, number];

function pairsOf(kind: string, fields: Partial<Record<string, Pair>>): [Pair, Pair] | null {
  const { glue, panels, widths } = fields;
  if (kind === 'v-fold' && glue && panels) return [glue, panels];
  if (kind === 'parallel-fold' && glue && widths) return [glue, widths];
  return null;
}
