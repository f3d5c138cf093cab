import type { Scored } from './evaluator.js';

/**
 * Who beats whom. One candidate dominates another if it is no worse in any objective and better in one; with limits,
 * whoever breaks none beats whoever breaks some, and of two that break some the lesser violation wins (constraint
 * domination: K. Deb, A. Pratap, S. Agarwal, T. Meyarivan, "A fast and elitist multiobjective genetic algorithm:
 * NSGA-II", IEEE Transactions on Evolutionary Computation 6(2), 2002, 182-197).
 *
 * An objective that was not computed counts as the worst there is; a violation that was not, as endless.
 */

/** Objectives row by row, with infinity for what was not computed. */
function objectiveTable(scored: readonly Scored[], members: ArrayLike<number>, width: number): Float64Array {
  const table = new Float64Array(members.length * width);
  for (let i = 0; i < members.length; i++) {
    const row = scored[members[i]].objectives;
    for (let j = 0; j < width; j++) table[i * width + j] = Number.isNaN(row[j]) ? Infinity : row[j];
  }
  return table;
}

/** How far a candidate is from breaking no limit; endless where that is unknown. */
export function violationOf(scored: Scored): number {
  return Number.isNaN(scored.violation) ? Infinity : Math.max(0, scored.violation);
}

/** Whether one vector of objectives is no worse than another in each of the first so many. */
export function noWorse(a: Float64Array, b: Float64Array, width = a.length): boolean {
  for (let j = 0; j < width; j++) if (a[j] > b[j]) return false;
  return true;
}

/** Whether row a of a table is no worse than row b throughout and better somewhere. */
function rowDominates(table: Float64Array, width: number, a: number, b: number): boolean {
  let better = false;
  for (let j = 0, p = a * width, q = b * width; j < width; j++, p++, q++) {
    if (table[p] > table[q]) return false;
    if (table[p] < table[q]) better = true;
  }
  return better;
}

/** Rows in lexicographic order, so that none is dominated by a later one; equal rows keep their order. */
function lexicographic(table: Float64Array, width: number, count: number): Uint32Array {
  return Uint32Array.from({ length: count }, (_, i) => i).sort((a, b) => {
    for (let j = 0; j < width; j++) {
      const p = table[a * width + j];
      const q = table[b * width + j];
      if (p !== q) return p < q ? -1 : 1;
    }
    return a - b;
  });
}

/**
 * Front number of each row of `width` objectives, 0 for the non-dominated: efficient non-dominated sort with binary search (X. Zhang,
 * Y. Tian, R. Cheng, Y. Jin, IEEE Transactions on Evolutionary Computation 19(2), 2015). A row need only be compared
 * with those before it, and if a front dominates it, so does every front before that one.
 */
export function rowFronts(table: Float64Array, width: number, count: number): Int32Array {
  const ranks = new Int32Array(count);
  const fronts: number[][] = [];
  for (const row of lexicographic(table, width, count)) {
    let low = 0;
    let high = fronts.length;
    while (low < high) {
      const middle = (low + high) >>> 1;
      const front = fronts[middle];
      // With two objectives the last of a front has the least second one: it alone decides.
      const first = width <= 2 ? front.length - 1 : 0;
      let beaten = false;
      for (let k = front.length - 1; k >= first && !beaten; k--)
        beaten = rowDominates(table, width, front[k], row);
      if (beaten) low = middle + 1;
      else high = middle;
    }
    if (low === fronts.length) fronts.push([]);
    fronts[low].push(row);
    ranks[row] = low;
  }
  return ranks;
}

/**
 * Front number of each candidate under constraint domination: 0 for those that nobody beats, 1 for those that only
 * front 0 beats, and so on. Candidates that break limits come after all that break none, one front for each violation.
 */
export function sortIntoFronts(scored: readonly Scored[]): Int32Array {
  const ranks = new Int32Array(scored.length);
  const sound: number[] = [];
  const broken: number[] = [];
  for (let i = 0; i < scored.length; i++) (violationOf(scored[i]) > 0 ? broken : sound).push(i);

  const width = sound.length > 0 ? scored[sound[0]].objectives.length : 0;
  const soundRanks = rowFronts(objectiveTable(scored, sound, width), width, sound.length);
  let next = 0;
  for (let i = 0; i < sound.length; i++) {
    ranks[sound[i]] = soundRanks[i];
    next = Math.max(next, soundRanks[i] + 1);
  }

  const violation = Float64Array.from(scored, violationOf);
  // Infinity less infinity is no number, hence the test for equality first.
  broken.sort((a, b) => (violation[a] === violation[b] ? a - b : violation[a] - violation[b]));
  for (let i = 0; i < broken.length; i++) {
    if (i > 0 && violation[broken[i]] > violation[broken[i - 1]]) next++;
    ranks[broken[i]] = next;
  }
  return ranks;
}

/** Indices of the candidates that break no limit and that none dominates, in their own order. */
export function frontOf(scored: readonly Scored[]): number[] {
  const sound: number[] = [];
  for (let i = 0; i < scored.length; i++) if (violationOf(scored[i]) === 0) sound.push(i);
  if (sound.length === 0) return [];
  const width = scored[sound[0]].objectives.length;
  const front = rowFront(objectiveTable(scored, sound, width), width, sound.length);
  return front.map((row) => sound[row]).sort((a, b) => a - b);
}

/** The rows of `width` objectives that no other row dominates, in lexicographic order. */
export function rowFront(table: Float64Array, width: number, count: number): number[] {
  const kept: number[] = [];
  for (const row of lexicographic(table, width, count)) {
    const first = width <= 2 ? Math.max(0, kept.length - 1) : 0;
    let beaten = false;
    for (let k = first; k < kept.length && !beaten; k++) beaten = rowDominates(table, width, kept[k], row);
    if (!beaten) kept.push(row);
  }
  return kept;
}

/**
 * Least and greatest finite value of each objective among some candidates; 0 and 1 where there is none.
 */
export function objectiveRange(
  scored: readonly Scored[],
  members: ArrayLike<number>,
): { low: Float64Array; high: Float64Array } {
  const width = members.length > 0 ? scored[members[0]].objectives.length : 0;
  const low = new Float64Array(width).fill(Infinity);
  const high = new Float64Array(width).fill(-Infinity);
  for (let i = 0; i < members.length; i++) {
    const row = scored[members[i]].objectives;
    for (let j = 0; j < width; j++) {
      if (!Number.isFinite(row[j])) continue;
      low[j] = Math.min(low[j], row[j]);
      high[j] = Math.max(high[j], row[j]);
    }
  }
  for (let j = 0; j < width; j++) {
    if (low[j] <= high[j]) continue;
    low[j] = 0;
    high[j] = 1;
  }
  return { low, high };
}

/**
 * Crowding distance of each member of one front (Deb et al. 2002): the sum over the objectives of the gap between its two
 * neighbours, as a share of the front's range; infinite at the ends. Of equal values the lower index stands first.
 */
export function crowding(scored: readonly Scored[], members: readonly number[]): Float64Array {
  const distance = new Float64Array(members.length);
  const { low, high } = objectiveRange(scored, members);
  const table = objectiveTable(scored, members, low.length);
  for (let j = 0; j < low.length; j++) {
    const at = (k: number) => table[k * low.length + j];
    const order = members.map((_, k) => k).sort((a, b) => (at(a) === at(b) ? a - b : at(a) - at(b)));
    distance[order[0]] = Infinity;
    distance[order[order.length - 1]] = Infinity;
    if (high[j] === low[j]) continue;
    for (let k = 1; k < order.length - 1; k++) {
      const gap = at(order[k + 1]) - at(order[k - 1]);
      distance[order[k]] += Number.isNaN(gap) ? 0 : gap / (high[j] - low[j]);
    }
  }
  return distance;
}
