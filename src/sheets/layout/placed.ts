import type { Isometry } from '../../geometry/plane.js';
import type { PlacedArt } from '../art/placed-art.js';
import type { Card } from '../settings.js';
import type { Paper } from './paper.js';
import type { Piece } from './piece.js';

/** A piece in its place on a sheet. */
export interface Placed {
  readonly piece: Piece;
  readonly place: Isometry;
  /** 1 for the first of each. */
  readonly copy: number;
  /** What is printed on it. */
  readonly art?: readonly PlacedArt[];
}

/** One sheet of card with what is cut from it. */
export interface Sheet {
  readonly paper: Paper;
  readonly card: Card;
  readonly placed: readonly Placed[];
}
