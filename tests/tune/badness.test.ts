import { describe, expect, test } from 'vitest';
import type { Goal } from '../../src/figure/wants.js';
import { Layout, type Row } from '../../src/study/row.js';
import { badness } from '../../src/tune/badness.js';

const layout = new Layout({
  wants: [
    { name: 'stands', unit: 'mm', weight: 1 },
    { name: 'leans', unit: 'degrees', weight: 3 },
  ],
  limits: [
    { name: 'overhang', unit: 'mm' },
    { name: 'shuts', unit: 'degrees' },
  ],
});
const STANDS = { name: 'stands', kind: 'rise', unit: 'mm', weight: 1, from: 180, to: 0 } as const;
const AT_LEAST: Goal = { ...STANDS, least: 40 };
const BETWEEN: Goal = { ...STANDS, name: 'leans', kind: 'turn', unit: 'degrees', least: 10, most: 30 };

/** How bad a dummy is that stands so many mm and leans so many degrees, where two wants and two limits are met or not. */
function bad(
  { violation = 0, stands = 40, leans = 20, shuts = 0 },
  met: readonly number[],
  goals: readonly Goal[] = [AT_LEAST, BETWEEN],
  { outcome = 'fails', unbuilt = 0 }: { outcome?: Row['outcome']; unbuilt?: number } = {},
): number {
  const numbers = new Float64Array(layout.numbers);
  numbers.set([violation, 0, stands, leans, 0, 0, 0, shuts]);
  return badness({ outcome, numbers, met: Uint8Array.from(met), words: [] }, layout, goals, unbuilt);
}

describe('how far a dummy is from working', () => {
  test('is by how many mm a want is missed, two degrees counting as one', () => {
    expect(bad({ stands: 33 }, [0, 1, 1, 1])).toBeCloseTo(7, 9);
    expect(bad({ leans: 36 }, [1, 0, 1, 1])).toBeCloseTo(3, 9);
    expect(bad({ leans: 4 }, [1, 0, 1, 1])).toBeCloseTo(3, 9);
    expect(bad({ stands: 33, leans: 36 }, [0, 0, 1, 1])).toBeCloseTo(10, 9);
  });

  test('is measured from the edge of what a target tolerates', () => {
    const target: Goal = { ...STANDS, target: 50, tolerance: 2 };
    expect(bad({ stands: 45 }, [0, 1, 1, 1], [target, BETWEEN])).toBeCloseTo(3, 9);
    expect(bad({ stands: 56 }, [0, 1, 1, 1], [target, BETWEEN])).toBeCloseTo(4, 9);
  });

  test('adds what is missed to what is broken', () => {
    expect(bad({ violation: 2.5 }, [1, 1, 0, 1])).toBeCloseTo(2.5, 9);
    expect(bad({ violation: 2.5, stands: 33 }, [0, 1, 0, 1])).toBeCloseTo(9.5, 9);
  });

  test('a want that nobody could measure is missed by 20 mm', () => {
    expect(bad({ stands: Number.NaN }, [0, 1, 1, 1])).toBeCloseTo(20, 9);
  });

  test('is nothing where it works, and never nothing where it does not', () => {
    expect(bad({}, [1, 1, 1, 1], undefined, { outcome: 'works' })).toBe(0);
    expect(bad({ violation: 1e-12 }, [1, 1, 0, 1])).toBeGreaterThan(0);
  });

  test('what locks is worse than all that shuts, and the worse the sooner; what cannot be built is worst', () => {
    const early = bad({ shuts: 120, stands: 33 }, [0, 1, 1, 0]);
    const late = bad({ shuts: 30, stands: 33 }, [0, 1, 1, 0]);
    expect(late).toBeCloseTo(1000 * (1 + 3) + 7, 6);
    expect(early).toBeGreaterThan(late);
    expect(late).toBeGreaterThan(bad({ violation: 300, stands: 0 }, [0, 1, 0, 1]));
    const unbuilt = [0, 1, 2].map((count) =>
      bad({}, [0, 0, 0, 0], undefined, { outcome: 'not built', unbuilt: count }),
    );
    expect(unbuilt).toEqual(unbuilt.toSorted((a, b) => a - b));
    expect(new Set(unbuilt).size).toBe(3);
    expect(unbuilt[0]).toBeGreaterThan(early);
  });
});
