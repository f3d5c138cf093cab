import { describe, expect, it } from 'vitest';
import { Archive } from '../../src/search/archive.js';
import { frontOf } from '../../src/search/pareto.js';
import { stream } from '../../src/search/random.js';
import { scored } from '../support/search-problems.js';

const candidate = (objectives: number[], violation = 0) => ({
  unit: Float64Array.of(0.5),
  scored: scored(objectives, violation),
});

describe('the archive', () => {
  it('keeps the non-dominated, whatever the order they come in', () => {
    const random = stream(1, 'archive');
    const all = Array.from({ length: 600 }, () =>
      candidate([random.next(), random.next(), random.next()], random.next() < 0.3 ? 1 : 0),
    );
    const archive = new Archive(400);
    for (const one of all) archive.add(one);
    const expected = frontOf(all.map((c) => c.scored)).map((i) => all[i]);
    expect(new Set(archive.members)).toEqual(new Set(expected));
  });

  it('takes in nothing that breaks a limit, lacks an objective or only equals a member', () => {
    const archive = new Archive(10);
    for (const one of [
      candidate([1, 1], 0.1),
      candidate([1, NaN]),
      candidate([1, Infinity]),
      candidate([1, 1], NaN),
    ])
      archive.add(one);
    expect(archive.members).toHaveLength(0);
    const first = candidate([1, 2]);
    for (const one of [first, candidate([1, 2])]) archive.add(one);
    expect(archive.members).toEqual([first]);
  });

  it('is thinned when full, and keeps the ends', () => {
    const archive = new Archive(20);
    for (let i = 0; i <= 20; i++) archive.add(candidate([i, 20 - i]));
    expect(archive.members).toHaveLength(10);
    const ends = archive.members.map((m) => m.scored.objectives[0]);
    expect([Math.min(...ends), Math.max(...ends)]).toEqual([0, 20]);
  });
});
