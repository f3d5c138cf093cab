import type { PointSource } from './batch.js';

/**
 * The runs behind Sobol indices. A point of the 2d-dimensional cube gives two independent rows A and B of d dims
 * each; row AB(i) is A with its dim i taken from B. So A and AB(i) differ in dim i alone, and B and AB(i) share
 * dim i alone.
 *
 * Source: A. Saltelli et al., Variance based sensitivity analysis of model output, Computer Physics Communications
 * 181 (2010) 259-270. They find that with a quasi-random sequence, A should be its first half of dims, which fill
 * the cube best.
 *
 * @param count how many base points; the cost is count · (groups.length + 2) runs
 * @param point writes point `index` of a 2·dims-dimensional sequence in the unit cube
 * @param groups the dims that are asked about: each by itself, or several as if they were one (the index of a group has the same
 *   formulas); the others vary with A and B, and have no AB
 * @returns rows in the unit cube: for each base point A, B, and AB of each group
 */
export function saltelliRows(
  count: number,
  dims: number,
  point: PointSource,
  groups: readonly (readonly number[])[] = Array.from({ length: dims }, (_, dim) => [dim]),
): Float64Array[] {
  const rows: Float64Array[] = [];
  const both = new Float64Array(2 * dims);
  for (let index = 0; index < count; index++) {
    point(index, both);
    const a = both.slice(0, dims);
    const b = both.slice(dims);
    rows.push(a, b);
    for (const group of groups) {
      const mixed = a.slice();
      for (const dim of group) mixed[dim] = b[dim];
      rows.push(mixed);
    }
  }
  return rows;
}
