import { cardIn, type Shape } from '../../geometry/plane.js';
import type { Piece } from '../layout/piece.js';
import type { Sheet } from '../layout/placed.js';

/** Card needed. */
export interface Amount {
  readonly sheets: number;
  /** m²: of the sheets, and of the pieces on them. */
  readonly sheetArea: number;
  readonly pieceArea: number;
  /** Grams; null where the figure does not say what its card weighs. */
  readonly sheetGrams: number | null;
  readonly pieceGrams: number | null;
}

const SQUARE_MM = 1e-6;

export function amountOf(sheets: readonly Sheet[]): Amount {
  let [sheetArea, pieceArea, sheetGrams, pieceGrams] = [0, 0, 0, 0];
  for (const { paper, card, placed } of sheets) {
    const whole = paper.width * paper.height * SQUARE_MM;
    const cut = placed.reduce((sum, { piece }) => sum + cardOfPiece(piece), 0) * SQUARE_MM;
    sheetArea += whole;
    pieceArea += cut;
    sheetGrams += whole * (card.grammage ?? Number.NaN);
    pieceGrams += cut * (card.grammage ?? Number.NaN);
  }
  const known = (grams: number) => (Number.isNaN(grams) ? null : grams);
  return {
    sheets: sheets.length,
    sheetArea,
    pieceArea,
    sheetGrams: known(sheetGrams),
    pieceGrams: known(pieceGrams),
  };
}

/** Card in a piece, mm². */
function cardOfPiece({ net }: Piece): number {
  return net.areas.reduce((sum, { shape }: { shape: Shape }) => sum + cardIn(shape), 0);
}
