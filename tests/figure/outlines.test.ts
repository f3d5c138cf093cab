import { describe, expect, it } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { InputError } from '../../src/figure/text/input-error.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { CannotBuild } from '../../src/motion/cannot-build.js';

/** A piece glued on a page, of an outline with holes as a figure file has them. JSON is YAML. */
const pieceOf = (polygon: unknown, holes: unknown[] = [], dims: object = {}) =>
  compileFigure(
    parseFigure(
      JSON.stringify({
        page: 'A5',
        dims,
        parts: [
          { name: 'sail', kind: 'glued-piece', on: 'left page', at: [-90, 90], outline: { polygon, holes } },
        ],
      }),
      'figure.yaml',
    ),
  );

/** The corners of a circle, mm. */
const circle = (corners: number, radius: number): [number, number][] =>
  Array.from({ length: corners }, (_, i) => {
    const angle = (2 * Math.PI * i) / corners;
    return [radius * Math.cos(angle), radius * Math.sin(angle)];
  });

describe('a drawn outline', () => {
  it.each([5, 100, 101, 2000])(
    'of %d corners that crosses itself is no card: the file is at fault',
    (corners) => {
      const crossed = circle(corners, 40);
      [crossed[1], crossed[2]] = [crossed[2], crossed[1]];
      expect(() => pieceOf(crossed)).toThrow(InputError);
      expect(() => pieceOf(crossed)).toThrow(
        /parts\.0\.outline: found an outline that is no shape of card at .*: the outline meets itself; draw one simple/,
      );
      expect(() => pieceOf(circle(corners, 40))).not.toThrow();
    },
  );

  it('with a hole over its edge is none either', () => {
    const hole = circle(300, 10).map(([x, y]) => [x + 35, y]);
    expect(() => pieceOf(circle(300, 40), [hole])).toThrow(/a hole meets the outline/);
  });

  it('of many corners that one dim moves is looked at in every candidate', () => {
    const polygon: unknown[] = circle(200, 40);
    polygon[0] = ['tip', 0];
    const figure = pieceOf(polygon, [], { tip: { from: -60, to: 60, start: 50 } });
    expect(() => figure.build(Float64Array.of(50))).not.toThrow();
    expect(() => figure.build(Float64Array.of(-50))).toThrow(CannotBuild);
    expect(() => figure.build(Float64Array.of(-50))).toThrow(
      /its outline is no shape of card at .* meets itself/,
    );
  });

  it('keeps a hole of 4,000 corners, candidate after candidate', () => {
    const figure = pieceOf(circle(4, 100), [circle(4000, 40)]);
    for (let i = 0; i < 100; i++) {
      const holes = figure.build(figure.start).panels.flatMap((panel) => panel.holes);
      expect(holes.map((hole) => hole.length)).toEqual([8000]);
    }
  });
});
