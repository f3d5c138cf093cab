import { Clipper, FillRule, type Paths64 } from 'clipper2-ts';

/**
 * Areas by a general library for polygons: Clipper2 (A. Johnson), on whole numbers, here hundred-thousandths of a mm. So
 * they are true to about 1e-4 mm² for shapes of a few centimetres.
 */
const UNIT = 1e5;

export type Ring = readonly (readonly [number, number])[];

/** x, y pairs as a ring. */
export const ringOf = (corners: ArrayLike<number>): Ring =>
  Array.from({ length: corners.length / 2 }, (_, i) => [corners[2 * i], corners[2 * i + 1]] as const);

const paths = (rings: readonly Ring[]): Paths64 =>
  rings.map((ring) => ring.map(([x, y]) => ({ x: Math.round(x * UNIT), y: Math.round(y * UNIT) })));

const areaOf = (all: Paths64): number => Math.abs(Clipper.areaPaths(all)) / UNIT ** 2;

/** Area that all rings have in common, mm². */
export function areaInCommon(first: Ring, ...others: readonly Ring[]): number {
  let common = paths([first]);
  for (const ring of others) common = Clipper.intersect(common, paths([ring]), FillRule.NonZero);
  return areaOf(common);
}

/** Area of a ring that lies in none of the others, mm². */
export const areaBeyond = (ring: Ring, others: readonly Ring[]): number =>
  areaOf(Clipper.difference(paths([ring]), paths(others), FillRule.NonZero));
