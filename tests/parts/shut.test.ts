import { describe, expect, it } from 'vitest';
import { compileFigure, type Figure } from '../../src/figure/figure.js';
import { parseFigure } from '../../src/figure/text/source.js';
import { filledInWords } from '../../src/report/words/filled-words.js';
import { Scorer } from '../../src/score/scorer.js';

const figureOf = (part: string): Figure =>
  compileFigure(
    parseFigure(
      `page: A5\nparts:\n  - { name: base, kind: parallel-fold, at: 40, length: 120, glue: 26, widths: 38 }\n  - { name: fold, ${part} }\n`,
      'x.yaml',
    ),
  );

const shuts = (figure: Figure) => {
  const { locks, flat, bind } = new Scorer(figure).score(figure.start);
  return locks === null && (flat.residue ?? 9) < 0.01 && (bind.misfit ?? 9) < 0.01;
};

const filledIn = (part: string) => {
  const figure = figureOf(part);
  return [shuts(figure), figure.filled(figure.start).filter((each) => each.part === 'fold')] as const;
};

describe('sizes that are left out so that a fold shuts', () => {
  it.each([
    ['kind: v-fold, at: 175, glue: [75, 50], feet: 30, ridge: 30', 'panels', [50, 75]],
    ['kind: v-fold, at: 175, glue: 60, feet: 30, ridge: 30, panels: 64', 'panels', [64, 64]],
    ['kind: v-fold, at: 175, glue: [75, 50], feet: 30, ridge: 30, panels: 55', 'panels', [55, 80]],
    ['kind: v-fold, at: 175, glue: 75, feet: 30, ridge: 30, panels: [55, 80]', 'glue', [75, 50]],
    [
      'kind: v-fold, on: base ridge, at: 60, points: out, glue: 60, feet: 20, ridge: 30',
      'panels',
      [120, 120],
    ],
    [
      'kind: v-fold, on: base ridge, at: 60, points: out, glue: [70, 60], panels: 120, feet: 20, ridge: 30',
      'panels',
      [120, 110],
    ],
    ['kind: parallel-fold, at: 170, length: 30, glue: [30, 20], widths: 28', 'widths', [28, 38]],
    ['kind: parallel-fold, at: 170, length: 30, glue: [30, 20]', 'widths', [20, 30]],
    ['kind: parallel-fold, at: 170, length: 30, glue: 30, widths: [28, 38]', 'glue', [30, 20]],
  ])('%s: %s %s', (part, field, values) => {
    const [whole, filled] = filledIn(part);
    expect(filled.find((each) => each.field === field)?.values).toEqual(values);
    expect(whole).toBe(true);
  });

  it('are told; what is given wins', () => {
    const figure = figureOf('kind: v-fold, at: 175, glue: [75, 50], feet: 30, ridge: 30');
    expect(filledInWords(figure.filled(figure.start)).join('\n')).toMatch(
      /Filled in, so that it shuts\n.*\n {2}base {2}widths 38.00 mm and 38.00 mm, alike.*\n {2}fold {2}panels 50.0° and 75.0°/,
    );
    const given = figureOf('kind: v-fold, at: 175, glue: [75, 50], panels: [60, 60], feet: 30, ridge: 30');
    expect(given.filled(given.start).some((each) => each.part === 'fold')).toBe(false);
    expect(shuts(given)).toBe(false);
  });
});
