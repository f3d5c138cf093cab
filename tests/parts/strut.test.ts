import { describe, expect, it } from 'vitest';
import { CannotBuild } from '../../src/motion/cannot-build.js';
import { assemble } from '../support/assemble.js';

describe('a strut whose foot and top lie on one line of the open figure', () => {
  // The tent lies flat on the open pages, glued 30 mm from the gutter: 20 mm up from there is 10 mm from the gutter.
  const strut = (more: object) =>
    assemble([
      { name: 'tent', kind: 'parallel-fold', at: 60, length: 40, glue: [30, 30], widths: [30, 30] },
      {
        name: 'prop',
        kind: 'strut',
        foot: {
          panel: 'left page',
          line: [
            [-10, 60],
            [-10, 100],
          ],
        },
        top: {
          panel: 'tent left',
          line: [
            [0, 20],
            [40, 20],
          ],
        },
        ...more,
      },
    ]);

  it.each([{}, { height: 15 }])('is refused, whatever its height: %j', (more) => {
    expect(() => strut(more)).toThrow(CannotBuild);
    expect(() => strut(more)).toThrow(/foot and top lie on one line/);
  });

  it('is built when its foot is moved', () => {
    expect(() =>
      strut({
        foot: {
          panel: 'left page',
          line: [
            [-15, 60],
            [-15, 100],
          ],
        },
      }),
    ).not.toThrow();
  });
});
