import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { Scorer } from '../../src/score/scorer.js';
import { apply } from '../../src/tune/change.js';
import { movesOf } from '../../src/tune/moves.js';
import { type OpenedFigure, openFigure } from '../../src/tune/opened.js';
import { figureFrom } from './support.js';

const vFold = (glue: number[], panels: number[]) =>
  `page: { width: 400, height: 400 }
parts:
  - { name: v, kind: v-fold, at: 200, glue: [${glue}], panels: [${panels}], feet: [20, 20], ridge: 30, start: 1 }
`;
const tent = (glue: (number | string)[], widths: (number | string)[]) =>
  `page: { width: 400, height: 400 }
parts:
  - { name: tent, kind: parallel-fold, at: 40, length: 60, glue: [${glue}], widths: [${widths}] }
`;

function opened(text: string): OpenedFigure {
  const source = figureFrom(text);
  return openFigure(source, compileFigure(source));
}

/** Whether the motion gets from open to shut between the pages, and lies flat there: what the ties are to keep. */
function shuts({ figure }: OpenedFigure, vector: Float64Array): boolean {
  const { locks, flat, book } = new Scorer(figure).score(vector);
  return locks === null && (flat.residue ?? 1) < 1e-3 && (book.out ?? 1) < 1e-3;
}

const names = ({ settings }: OpenedFigure, steps: readonly { setting: number; by: number }[]) =>
  steps.map(({ setting, by }) => `${by > 0 ? '+' : '-'}${settings[setting].name}`).join(' ');

describe('ties', () => {
  const angle = fc.integer({ min: 40, max: 75 });
  it('of a V-fold that shuts: whatever is moved, by the motion itself it still shuts', () => {
    fc.assert(
      fc.property(angle, angle, fc.integer({ min: 2, max: 14 }), (g1, g2, more) => {
        const figure = opened(vFold([g1, g2], [g2 + more, g1 + more]));
        expect(shuts(figure, figure.now)).toBe(true);
        for (const move of movesOf(figure, () => false)) {
          if (!/panels|glue/.test(names(figure, move.steps))) continue;
          const vector = apply(figure, [{ move, amount: 1 }]);
          if (vector === null) continue;
          const { cannotBuild } = new Scorer(figure.figure).score(vector);
          if (cannotBuild === null) expect(shuts(figure, vector), names(figure, move.steps)).toBe(true);
        }
      }),
      { numRuns: 15 },
    );
  });

  it('a lone panel angle, or a lone glue line, is not moved: by the motion it would not shut', () => {
    const figure = opened(vFold([60, 60], [66, 66]));
    const moved = movesOf(figure, () => false).map(({ steps }) => names(figure, steps));
    for (const name of ['v.glue.0', 'v.glue.1', 'v.panels.0', 'v.panels.1']) {
      expect(moved).not.toContain(`+${name}`);
      const i = figure.settings.findIndex((setting) => setting.name === name);
      const vector = figure.now.slice();
      vector[i] += 3;
      expect(shuts(figure, vector)).toBe(false);
    }
    expect(moved).toEqual(expect.arrayContaining(['+v.glue.0 +v.glue.1', '+v.panels.0 +v.panels.1']));
  });

  it('of a post whose opposite sectors are equal: it lies flat both ways only if they stay so', () => {
    const text = `${vFold([80, 45], [45, 80])}limits: { flatWhenOpen: yes }\n`;
    const figure = opened(text);
    const moved = movesOf(figure, () => false)
      .map(({ steps }) => names(figure, steps))
      .filter((name) => /panels|glue/.test(name));
    expect(moved.sort()).toEqual(['+v.glue.0 +v.panels.1', '+v.glue.1 +v.panels.0']);
  });

  it('are released where the fold does not fit, and the amount that mends it is known', () => {
    const figure = opened(tent([24, 24], [40, 33]));
    const moves = movesOf(figure, () => false);
    const side = moves.find(({ steps }) => names(figure, steps) === '+tent.widths.0');
    expect(side?.fitting).toContain(-7);
    const foot = moves.find(({ steps }) => names(figure, steps) === '+tent.glue.0');
    expect(foot?.fitting).toContain(-7);
    for (const [move, amount] of [
      [side, -7],
      [foot, -7],
    ] as const) {
      const vector = apply(figure, move === undefined ? [] : [{ move, amount }]);
      expect(vector !== null && shuts(figure, vector)).toBe(true);
    }
  });

  it('of numbers that are equal in mirrored places, or in twin parts, are said', () => {
    const text = `${tent([24, 24], [40, 40])}  - { name: roof, kind: parallel-fold, at: 140, length: 60, glue: [24, 24], widths: [50, 50] }\n`;
    const figure = opened(text);
    const equal = movesOf(figure, () => false)
      .flatMap(({ ties }) => ties)
      .filter(({ because }) => because === 'equal')
      .map(({ settings }) => settings.map((i) => figure.settings[i].name).join());
    expect(equal).toEqual(
      expect.arrayContaining([
        'tent.widths.0,tent.widths.1',
        'tent.glue.0,tent.glue.1',
        'tent.glue.0,tent.glue.1,roof.glue.0,roof.glue.1',
        'tent.length,roof.length',
      ]),
    );
    expect(equal.join()).not.toContain('tent.widths.0,roof');
  });

  it('come from the file too: arithmetic over one dim moves as it is written', () => {
    const text = tent(['foot', 'foot'], ['side', 'side']).replace(
      'parts:',
      'dims: { foot: 24, slack: 12, side: foot + slack }\nparts:',
    );
    const figure = opened(text);
    const moved = movesOf(figure, () => false).map(({ steps }) => names(figure, steps));
    expect(moved).toEqual(expect.arrayContaining(['+foot', '+slack']));
    expect(moved.join()).not.toMatch(/glue|widths|\+side/);
  });

  it('a held setting takes all that are tied to it with it', () => {
    const figure = opened(tent([24, 24], [40, 40]));
    const held = figure.settings.findIndex(({ name }) => name === 'tent.glue.1');
    const moved = movesOf(figure, (setting) => setting === held).map(({ steps }) => names(figure, steps));
    expect(moved.join()).not.toContain('tent.glue.1');
    expect(moved).not.toContain('+tent.glue.0');
  });
});

describe('moves of outlines', () => {
  const board = (slot: string) => `page: { width: 400, height: 400 }
parts:
  - { name: tent, kind: parallel-fold, at: 40, length: 60, glue: [40, 40], widths: [60, 60] }
  - { name: arm, kind: glued-piece, on: tent right, at: [10, 10], outline: [[0, 0], [50, 0], [50, 6], [0, 6]] }
  - { name: sleeve, kind: slot, on: tent left, outline: ${slot}, passes: arm }
`;
  const corners = (figure: OpenedFigure, because: string) =>
    movesOf(figure, () => false)
      .filter(({ ties }) => ties[0]?.because === because)
      .map((move) => {
        const vector = apply(figure, [{ move, amount: 2 }]) ?? figure.now;
        return figure.settings.flatMap(({ name }, i) =>
          vector[i] === figure.now[i] ? [] : [`${name.replace('.outline', '')} ${vector[i]}`],
        );
      });

  it('set an edge in or out by both its corners, where neither is 0', () => {
    const figure = opened(board('[[10, 20], [30, 20], [30, 26], [10, 26]]'));
    expect(corners(figure, 'edge').filter(([first]) => first.startsWith('arm'))).toEqual([
      ['arm.1.0 52', 'arm.2.0 52'],
      ['arm.2.1 8', 'arm.3.1 8'],
    ]);
    expect(corners(figure, 'edge')).toContainEqual(['sleeve.1.0 32', 'sleeve.2.0 32']);
  });

  it('move a slot as a whole, and make it larger about its middle', () => {
    const figure = opened(board('[[10, 20], [30, 20], [30, 26], [10, 26]]'));
    expect(corners(figure, 'moved')).toEqual([
      ['sleeve.0.1 22', 'sleeve.1.1 22', 'sleeve.2.1 28', 'sleeve.3.1 28'],
      ['sleeve.0.0 12', 'sleeve.1.0 32', 'sleeve.2.0 32', 'sleeve.3.0 12'],
    ]);
    expect(corners(figure, 'larger')).toEqual([
      [
        ['sleeve.0.0 8', 'sleeve.0.1 18', 'sleeve.1.0 32', 'sleeve.1.1 18'],
        ['sleeve.2.0 32', 'sleeve.2.1 28', 'sleeve.3.0 8', 'sleeve.3.1 28'],
      ].flat(),
    ]);
  });

  it('move what lies askew square to its edges', () => {
    // A slot of 20 × 5 mm, turned by the angle of a 3-4-5 triangle.
    const figure = opened(board('[[10, 10], [26, 22], [23, 26], [7, 14]]'));
    expect(corners(figure, 'moved')).toEqual([
      [
        'sleeve.0.0 8.8',
        'sleeve.0.1 11.6',
        'sleeve.1.0 24.8',
        'sleeve.1.1 23.6',
        'sleeve.2.0 21.8',
        'sleeve.2.1 27.6',
        'sleeve.3.0 5.8',
        'sleeve.3.1 15.6',
      ],
      [
        'sleeve.0.0 11.6',
        'sleeve.0.1 11.2',
        'sleeve.1.0 27.6',
        'sleeve.1.1 23.2',
        'sleeve.2.0 24.6',
        'sleeve.2.1 27.2',
        'sleeve.3.0 8.6',
        'sleeve.3.1 15.2',
      ],
    ]);
  });
});
