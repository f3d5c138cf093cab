import { thin } from '../live/thin.js';
import type { StudyReport } from '../study-report.js';
import { unitSign } from '../words/numbers.js';
import { type Axis, parallelCoordinates } from './parallel-coordinates.js';

/** More lines than this only blacken the paper. */
const MOST = 300;
const BEST = 8;

/** The dummies that work, dim by dim and want by want, the best in colour; where none works, those that come nearest. */
export function dummyLines({ table, layout, dims, ranking }: StudyReport): string {
  const working = ranking.filter((candidate) => table.outcome(candidate) === 'works');
  const drawn = working.length > 1 ? working : ranking;
  const best = drawn.slice(0, BEST);
  const shown = thin(drawn.slice(BEST), MOST);
  const candidates = [...best, ...shown];
  const values = (candidate: number) => {
    const numbers = table.numbers(candidate);
    return [
      ...table.vector(candidate),
      layout.desirability(numbers),
      ...layout.wants.map((_, want) => layout.wantValue(numbers, want)),
    ].map((value) => (Number.isFinite(value) ? value : null));
  };
  const rows = candidates.map(values);
  const axis = (name: string, unit: string, place: number, options?: readonly string[]): Axis => {
    const known = rows.map((row) => row[place]).filter((value) => value !== null);
    const [min, max] = known.length === 0 ? [0, 1] : [Math.min(...known), Math.max(...known)];
    return { name, unit: unitSign(unit), min, max, ...(options ? { options } : {}) };
  };
  const axes = [
    ...dims.map(({ name, unit, options }, place) => {
      const words = options?.map(String);
      const free = axis(name, unit, place, words);
      return words ? { ...free, min: 0, max: words.length - 1 } : free;
    }),
    axis('desirability', '', dims.length),
    ...layout.wants.map(({ name, unit }, want) => axis(name, unit, dims.length + 1 + want)),
  ];
  const note =
    working.length > 1
      ? `Drawn: the best ${best.length} and ${shown.length} more of ${working.length} dummies that work.`
      : `Drawn: the nearest ${best.length} and ${shown.length} more dummies; few or none of them work.`;
  const dummies = candidates.map((candidate, place) => ({
    name: `dummy ${candidate + 1}`,
    values: rows[place],
    best: place < best.length,
  }));
  return parallelCoordinates(axes, dummies, note);
}
