/** A straight line in a panel's own plane: from (x0, y0) to (x1, y1), mm. */
export interface Line {
  x0: number;
  y0: number;
  x1: number;
  y1: number;
}
