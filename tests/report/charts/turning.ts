import type { Peak } from '../../../src/score/force/force.js';
import type { Turning } from '../../../src/score/force/turning.js';

const NONE: Peak = { value: 0, pageAngle: null, part: null };

/** A page that locks at 2°, clicks at 30° and is pushed back by each part with so many newtons at its last page angle. */
export function turning(parts: readonly string[], most: readonly number[]): Turning {
  const pageAngles = [180, 90, 10, 2];
  const shares = [0, 0, 0.1, 1];
  const creases = [-0.5, 0.1, 0.2, 0];
  const lines = parts.map((part, i) => ({ part, newtons: shares.map((share) => share * most[i]) }));
  const total = creases.map((crease, k) => lines.reduce((sum, { newtons }) => sum + newtons[k], crease));
  const last = total[total.length - 1];
  return {
    curve: { pageAngles, creases, total, parts: lines },
    score: {
      grade: last > 5 ? 'stiff' : 'works',
      toShut: { value: last, pageAngle: 2, part: parts[0] },
      toOpen: { value: 0.5, pageAngle: 180, part: null },
      atShut: last,
      clicks: [30],
      shutTo: 2,
      standsOpen: 90,
      bow: NONE,
      strain: NONE,
      bending: NONE,
      parts: [],
    },
    easy: 5,
    hard: 15,
    locksAt: 2,
  };
}
