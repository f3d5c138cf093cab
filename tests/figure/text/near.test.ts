import { expect, test } from 'vitest';
import { compileFigure } from '../../../src/figure/figure.js';
import { knownNames } from '../../../src/figure/text/near.js';
import { parseFigure } from '../../../src/figure/text/source.js';

test('a name that is only the end of a longer one asks which of these was meant', () => {
  const creases = ['gutter', 'crane left foot inner', 'shed ridge', 'crane ridge'];
  expect(knownNames('ridge', creases, 'crease')).toMatch(
    /^did you mean 'shed ridge' or 'crane ridge'\? the creases are: /,
  );
  expect(knownNames('keel', creases, 'crease')).toMatch(/^the creases are: /);
});

test('a place that stands where a number does is told as a place, and what would do', () => {
  const figure = `page: A5
places: { toe: { on: left page, at: [-97, 65] } }
parts:
  - { name: bar, kind: link, on: left page, from: [-20, 65], to: { on: left page, at: toe }, width: 8 }
`;
  expect(() => compileFigure(parseFigure(figure, 'bar.yaml'))).toThrow(
    "bar.yaml:4:87  parts.0.to.at: found the place 'toe' where a number stands; where a point is asked for, write 'toe' alone",
  );
});
