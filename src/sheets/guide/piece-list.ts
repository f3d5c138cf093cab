import type { Piece } from '../layout/piece.js';

/** One row of the list of pieces. */
export interface PieceRow {
  readonly number: number;
  readonly name: string;
  /** Closed and open cuts, creases, and places of glue on it, given or received. */
  readonly cuts: number;
  readonly creases: number;
  readonly gluePoints: number;
  /** Which face lies up on the sheet and is printed: that which the reader sees (front), or the other. Null for a hub. */
  readonly face: 'front' | 'back' | null;
}

/** Counts what there is to do on each piece. */
export function pieceRows(pieces: readonly Piece[]): PieceRow[] {
  return pieces.map(({ number, net, lines, marks, face }) => ({
    number,
    name: net.name,
    face,
    cuts: lines.contours.length + lines.holes.length + lines.slits.length,
    creases: lines.creases.length,
    gluePoints: marks.length,
  }));
}
