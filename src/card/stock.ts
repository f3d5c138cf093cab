/**
 * Card as a spring: how hard a strip of it is to pull and to bend, along and across its grain.
 *
 * A fibre web carries by its fibres, so that stiffness by mass is much the same for card of any bulk (the tensile
 * stiffness index): E t = index × grammage. Card of 240 g/m² and 0.3 mm has about 5 GPa along its grain and 2.2 GPa
 * across it (from memory; carton board is 7.4 and 3.5 in Baum, Brennan and Habeger 1981, about 5.6 and 2.0 in Xia, Boyce
 * and Parks 2002), so 6.25 and 2.75 N/mm for each g/m². It bends as a plate: D = E t · t² / 12.
 */
export const TENSILE_INDEX = { along: 6.25, across: 2.75 } as const;

/** Resistance of card in one direction of its grain. */
export interface Stiffness {
  /** E t: force that strains a strip 1 mm wide by 1, N/mm. */
  readonly pull: number;
  /** D: moment that curves a strip 1 mm wide to a radius of 1 mm, N mm. */
  readonly bend: number;
}

export interface StockStiffness {
  readonly along: Stiffness;
  readonly across: Stiffness;
  /** Where the grain is not known: the geometric mean. */
  readonly any: Stiffness;
}

/**
 * Stiffness of card by its thickness (mm) and grammage (g/m²): typical values, not measured on any card; or as measured.
 * @param modulus GPa, along and across @param bending D, N mm, along and across
 */
export function stiffnessOf(
  thickness: number,
  grammage: number,
  modulus?: readonly [number, number],
  bending?: readonly [number, number],
): StockStiffness {
  // One of the two, measured, tells the other: D = E t · t²/12.
  const pulls =
    modulus?.map((gpa) => gpa * 1000 * thickness) ??
    bending?.map((bend) => (12 * bend) / (thickness * thickness)) ??
    [TENSILE_INDEX.along, TENSILE_INDEX.across].map((index) => index * grammage);
  const of = (pull: number, bend = plateStiffness(pull, thickness)): Stiffness => ({ pull, bend });
  const along = of(pulls[0], bending?.[0]);
  const across = of(pulls[1], bending?.[1]);
  const any = of(Math.sqrt(along.pull * across.pull), Math.sqrt(along.bend * across.bend));
  return { along, across, any };
}

/** D = (E t) t² / 12, N mm: a plate of one material (Timoshenko and Gere). @param pull E t, N/mm */
export const plateStiffness = (pull: number, thickness: number): number =>
  (pull * thickness * thickness) / 12;
