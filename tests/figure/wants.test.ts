import { describe, expect, it } from 'vitest';
import { CannotBuild } from '../../src/motion/cannot-build.js';
import { figureOf, refusal } from './support.js';

const wanting = (want: string) =>
  figureOf(`dims: { reach: { from: 10, to: 20 }, lean: { from: 0, to: 40 } }
parts:
  - { name: arm, kind: post, high: reach }
  - { name: oar, kind: post, high: 3 }
wants:
  - { name: it moves, ${want} }`);

const ofWant = (want: string, ...vector: number[]) => wanting(want).wantsOf(Float64Array.from(vector))[0];

describe('a want', () => {
  it('spans the whole opening and weighs 1 unless it says otherwise', () => {
    const figure = wanting('kind: turn, panel: arm, least: 20');
    expect(figure.wants).toEqual([
      { name: 'it moves', kind: 'turn', unit: 'degrees', least: 20, weight: 1, from: 180, to: 0 },
    ]);
    expect(figure.wantsOf(figure.start)).toEqual([
      {
        name: 'it moves',
        kind: 'turn',
        unit: 'degrees',
        panel: 'arm',
        line: 90,
        reference: 'left page',
        least: 20,
        weight: 1,
        from: 180,
        to: 0,
      },
    ]);
    expect(
      ofWant('kind: level, panel: arm, reference: oar, most: 3, weight: 2.5, from: 150, to: 30', 10, 0),
    ).toMatchObject({ weight: 2.5, from: 150, to: 30, reference: 'oar', unit: 'degrees' });
  });

  it('marks points and lines that follow the dims', () => {
    const travel = 'kind: travel, panel: arm, point: [0, 2 * reach], most: 30';
    expect(ofWant(travel, 12, 0)).toMatchObject({ point: [0, 24], unit: 'mm' });
    expect(ofWant(travel, 15, 0)).toMatchObject({ point: [0, 30] });
    expect(ofWant('kind: turn, panel: arm, line: 90 - lean, least: 1', 12, 30)).toMatchObject({ line: 60 });
  });

  it('gives a line through two points as its angle', () => {
    expect(ofWant('kind: turn, panel: arm, line: [[1, 1], [1 + reach, 11]], least: 1', 10, 0)).toMatchObject({
      line: 45,
    });
    expect(() => ofWant('kind: turn, panel: arm, line: [[15, 0], [reach, 0]], least: 1', 15, 0)).toThrow(
      CannotBuild,
    );
  });

  it('may be of each kind', () => {
    expect(ofWant('kind: rise, panel: arm, least: 5', 10, 0)).not.toHaveProperty('point');
    expect(ofWant('kind: against, panels: [arm, oar], least: 5', 10, 0)).toMatchObject({
      panels: ['arm', 'oar'],
    });
    expect(ofWant('kind: follow, panel: arm, at: [[180, 0], [90, 25]], most: 5', 10, 0)).toMatchObject({
      at: [
        [180, 0],
        [90, 25],
      ],
    });
    expect(ofWant('kind: turn, panel: arm, target: 45, tolerance: 10', 10, 0)).toMatchObject({ target: 45 });
  });

  it.each([
    ['kind: turn, panel: arm', 'wants.0: found no goal; give least, most, or target with tolerance'],
    ['kind: turn, panel: arm, target: 4', 'wants.0.target: found target without tolerance; give both'],
    ['kind: turn, panel: arm, tolerance: 4, least: 1', 'wants.0.tolerance: found tolerance without target'],
    ['kind: turn, panel: arm, target: 4, tolerance: 1, most: 9', 'wants.0.target: found both'],
    ['kind: turn, panel: arm, least: 9, most: 3', 'wants.0.most: found 3; give at least 9, the least wanted'],
    ['kind: turn, panel: arm, least: 9, from: 40, to: 40', 'wants.0.to: found 40, where it begins too'],
    ['kind: turn, panel: arm, least: 9, to: 190', 'wants.0.to: found 190; give a number at most 180'],
    ['kind: turn, panel: arm, least: a', "wants.0.least: found 'a'; give a number"],
    [
      'kind: turn, panel: amr, least: 3',
      "wants.0.panel: found 'amr'; no panel is named 'amr' so far; there are: left",
    ],
    ['kind: against, panels: [arm, oars], least: 3', "wants.0.panels.1: found 'oars'; no panel is named"],
    ['kind: level, panel: arm, reference: x, most: 3', "wants.0.reference: found 'x'; no panel is named"],
    [
      'kind: turn, panel: arm, line: [[0, 0]], least: 3',
      'wants.0.line: found a list of 1; give an angle in degrees',
    ],
    [
      'kind: turn, panel: arm, line: [[0, 0], [0, x]], least: 3',
      "wants.0.line.1.1: found 'x'; the dims are: reach",
    ],
    ['kind: turn, panel: arm, weight: 0, least: 3', 'wants.0.weight: found 0; give a number above 0'],
    ['kind: travel, panel: arm, most: 3', 'wants.0.point: found nothing; give a point [x, y] in mm'],
    [
      'kind: follow, panel: arm, at: [[200, 1]], most: 3',
      'wants.0.at.0.0: found 200; give a number at most 180',
    ],
    [
      'kind: turns, panel: arm',
      "wants.0.kind: found 'turns'; did you mean 'turn'? the kinds are: turn, swing, travel, rise",
    ],
  ])('is refused when it is %s', (want, message) => {
    expect(refusal(() => wanting(want))).toContain(message);
  });
});
