import { type Bend, type BentAlong, bendLines, heightAt } from './bends.js';
import type { Layer } from './layers.js';
import { type CutLine, type Slab, slabOf } from './slab.js';

/** A slab of card that can be bent: as it is flat, and the arrays in which it is drawn. */
export interface BentSlab {
  readonly flat: Slab;
  readonly drawn: Slab;
  readonly bend: Bend;
  /** x, y of the panel's plane → the height of every point over it, and its rise along x and y, for a bow of 1 mm. */
  readonly points: Float32Array<ArrayBuffer>;
  readonly edges: Float32Array<ArrayBuffer>;
}

/** The card of a panel that bends along with another, cut into strips. */
export function bentSlab(
  shape: Parameters<typeof slabOf>[0],
  { low, high }: Layer,
  bend: Bend,
  along: BentAlong,
): BentSlab {
  const lines: CutLine[] = bendLines(bend, along);
  const flat = slabOf(shape, low, high, lines);
  const copied = { positions: flat.positions.slice(), normals: flat.normals.slice() };
  const drawn = { ...flat, ...copied, edges: flat.edges.slice() };
  const rises = (positions: Float32Array) => {
    const found = new Float32Array(positions.length);
    const out = new Float64Array(3);
    for (let i = 0; i < positions.length; i += 3) {
      const [x, y] = [positions[i], positions[i + 1]];
      const of = ([a, b, c]: readonly number[]) => a * x + b * y + c;
      heightAt(bend, of(along.x), of(along.y), out);
      found[i] = along.face * out[0];
      found[i + 1] = along.face * (out[1] * along.x[0] + out[2] * along.y[0]);
      found[i + 2] = along.face * (out[1] * along.x[1] + out[2] * along.y[1]);
    }
    return found;
  };
  return { flat, drawn, bend, points: rises(flat.positions), edges: rises(flat.edges) };
}

/** Bends what is drawn. @param bow mm */
export function bendTo({ flat, drawn, points, edges }: BentSlab, bow: number): void {
  for (let i = 0; i < points.length; i += 3) {
    drawn.positions[i + 2] = flat.positions[i + 2] + bow * points[i];
    const [nx, ny, nz] = flat.normals.subarray(i, i + 3);
    // Normals of faces lean against the rise; those of walls lie in the plane, and nearly stay.
    const [x, y] = [nx - nz * bow * points[i + 1], ny - nz * bow * points[i + 2]];
    const long = Math.hypot(x, y, nz);
    drawn.normals.set([x / long, y / long, nz / long], i);
  }
  for (let i = 0; i < edges.length; i += 3) drawn.edges[i + 2] = flat.edges[i + 2] + bow * edges[i];
}
