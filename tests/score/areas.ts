import {
  Clipper,
  ClipType,
  EndType,
  FillRule,
  JoinType,
  type Paths64,
  type PolyPath64,
  PolyTree64,
} from 'clipper2-ts';

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

/** How much of a line, mm, lies farther than 0.02 mm inside a ring: by the area of a band as wide as that. */
export function lengthWellInside(
  ring: Ring,
  { x0, y0, x1, y1 }: { x0: number; y0: number; x1: number; y1: number },
): number {
  const inside = Clipper.inflatePaths(
    [Clipper.isPositive(paths([ring])[0]) ? paths([ring])[0] : Clipper.reversePath(paths([ring])[0])],
    -0.02 * UNIT,
    JoinType.Miter,
    EndType.Polygon,
  );
  const long = Math.hypot(x1 - x0, y1 - y0);
  const [nx, ny] = [(0.01 * (y0 - y1)) / long, (0.01 * (x1 - x0)) / long];
  const band: Ring = [
    [x0 - nx, y0 - ny],
    [x1 - nx, y1 - ny],
    [x1 + nx, y1 + ny],
    [x0 + nx, y0 + ny],
  ];
  return areaOf(Clipper.intersect(inside, paths([band]), FillRule.NonZero)) / 0.02;
}

/** Areas of the pieces into which rings (an outline and its holes) fall when others are cut out of them, mm². */
export function piecesOf(shape: readonly Ring[], cut: readonly Ring[]): number[] {
  // By parity, so that holes may run either way.
  const card = Clipper.booleanOp(ClipType.Union, paths(shape), null, FillRule.EvenOdd);
  const tree = new PolyTree64();
  Clipper.booleanOpWithPolyTree(ClipType.Difference, card, paths(cut), tree, FillRule.NonZero);
  const areas: number[] = [];
  const outlines = (node: PolyPath64) => {
    for (let i = 0; i < node.count; i++) {
      const outline = node.child(i);
      let area = Math.abs(Clipper.area(outline.poly ?? []));
      for (let h = 0; h < outline.count; h++) {
        area -= Math.abs(Clipper.area(outline.child(h).poly ?? []));
        outlines(outline.child(h));
      }
      areas.push(area / UNIT ** 2);
    }
  };
  outlines(tree);
  return areas;
}
