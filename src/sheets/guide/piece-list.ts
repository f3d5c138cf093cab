import type { Piece } from '../layout/piece.js';

/** One row of the list of pieces. */
export interface PieceRow {
  readonly number: number;
  readonly name: string;
  /** Closed and open cuts, creases, and places of glue on it, given or received. */
  readonly cuts: number;
  readonly creases: number;
  readonly gluePoints: number;
  /** Hand steps, estimated. */
  readonly steps: number;
}

/**
 * Counts what there is to do. Hand steps are an estimate: one for each cut line, one to score and one to fold each
 * crease, and one for each place where the piece itself carries glue.
 */
export function pieceRows(pieces: readonly Piece[]): PieceRow[] {
  return pieces.map(({ number, net, lines, marks }) => {
    const cuts = lines.contours.length + lines.holes.length + lines.slits.length;
    const creases = lines.creases.length;
    const given = marks.filter(({ receives }) => !receives).length;
    return {
      number,
      name: net.name,
      cuts,
      creases,
      gluePoints: marks.length,
      steps: cuts + 2 * creases + given,
    };
  });
}
