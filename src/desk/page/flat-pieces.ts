import type { Figure } from '../../figure/figure.js';
import type { Isometry, Point, Ring, Segment } from '../../geometry/plane.js';
import type { Assembly } from '../../motion/assembly.js';
import { cutLinesOf } from '../../sheets/nets/cut-lines.js';
import type { Sense } from '../../sheets/nets/fold-sense.js';
import { layFlat } from '../../sheets/nets/lay-flat.js';

/** A piece as it is cut, laid flat with its printed face up, y upwards, mm. */
export interface FlatPiece {
  readonly name: string;
  readonly areas: readonly {
    /** Its place among the figure's panels; −1 for what is made for the cut: a join tab, a hub. */
    readonly panel: number;
    readonly rings: readonly Ring[];
    /** From the panel's own plane onto the piece. */
    readonly place: Isometry;
  }[];
  /** Closed cuts: outer edges and holes. */
  readonly cuts: readonly (readonly Point[])[];
  readonly slits: readonly Segment[];
  readonly creases: readonly { readonly line: Segment; readonly sense: Sense }[];
}

/** Every piece of a figure laid flat, as the sheets have it. */
export function flatPiecesOf({ faces }: Pick<Figure, 'faces'>, assembly: Assembly): FlatPiece[] {
  const faceOf = (piece: string) => faces.get(piece) ?? 'front';
  const { nets, hubs } = layFlat(assembly, { faceOf, tabsBehindPage: false }, new Set(), []);
  return [...nets, ...hubs.map(({ net }) => net)].map((net) => {
    const { contours, holes, slits, creases } = cutLinesOf(net);
    return {
      name: net.name,
      areas: net.areas.map(({ panel, shape, place }) => ({
        panel,
        rings: [shape.outline, ...shape.holes],
        place,
      })),
      cuts: [...contours, ...holes],
      slits,
      creases: creases.map(({ segment, fold }) => ({ line: segment, sense: net.folds[fold].sense })),
    };
  });
}
