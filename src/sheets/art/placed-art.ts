import type { Ring } from '../../geometry/plane.js';
import type { ArtStroke } from './clean-drawing.js';

/** Art in its place on a sheet: shapes in mm from the sheet's lower left corner, y up, and where they may be seen. */
export interface PlacedArt {
  readonly clip: readonly Ring[];
  readonly strokes: readonly ArtStroke[];
  /** A PNG, its size in mm, and what takes mm from its top left corner, y down, to the sheet. */
  readonly picture: {
    readonly png: Uint8Array;
    readonly width: number;
    readonly height: number;
    readonly matrix: readonly [number, number, number, number, number, number];
  } | null;
}
