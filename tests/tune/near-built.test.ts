import { expect, test } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { tunePage } from '../../src/report/pages/tune-page.js';
import { changesOf, figureFrom, textWorks, tuned } from './support.js';

/** Two folds: the apex of the first lies below the page, and the second, that comes after it in the file, does not shut. */
const OFF_THE_PAGE = `page: A5
parts:
  - { name: gate, kind: v-fold, at: -12, glue: [55, 55], panels: [68, 68], feet: [26, 26], ridge: 26 }
  - { name: sail, kind: v-fold, at: 110, glue: [60, 60], panels: [63, 70], feet: [30, 30], ridge: 30 }
wants:
  - { name: the sail rises, kind: rise, panel: sail left, least: 15 }
`;

test('what comes after a part that has no place is known all the same: sides are made to fit, and stay so', async () => {
  const hold = ['gate.glue', 'gate.panels', 'gate.feet', 'gate.tab', 'sail.glue', 'sail.feet', 'sail.tab'];
  const { troubles, remedies } = await tuned(figureFrom(OFF_THE_PAGE), { hold }, 600);
  expect(troubles).toMatchObject([{ kind: 'no card' }]);
  const [first] = remedies;
  // A fold shuts where glue line and panel come to the same on both sides, though card would bow for a degree or two.
  expect(changesOf(first)).toContain('sail.panels.0 63 → 70');
  // The tip of its foot lies on the page, but for the half millimetre of the limit: 26 mm · cos 55° = 14.91 mm below the apex.
  expect(changesOf(first)).toContain('gate.at -12 → 14.5');
  expect(first.changes.length).toBe(2);
  expect(textWorks(first.text)).toBe(true);
});

test('card that a remedy takes is told also of a figure that could not be built', async () => {
  const text = `page: A5
parts:
  - { name: gate, kind: v-fold, at: -12, glue: [55, 55], panels: [68, 68], feet: [26, 26], ridge: 26 }
  - { name: man, kind: v-fold, at: 120, glue: [60, 60], panels: [64, 64], feet: [40, 40], ridge: 50 }
  - { name: arm, kind: glued-piece, on: man left, at: [20, 10], outline: [[0, 0], [165, 0], [165, 8], [0, 8]] }
wants: [{ name: his hand goes, kind: travel, panel: arm, point: [60, 4], least: 20 }]
`;
  const hold = [
    'gate.glue',
    'gate.panels',
    'gate.feet',
    'gate.tab',
    'gate.start',
    'man',
    'arm.at',
    'arm.turn',
  ];
  const found = await tuned(figureFrom(text), { hold }, 600);
  const [{ changes, cardLosses }] = found.remedies;
  expect(changes.map(({ setting }) => setting.name)).toContain('arm.outline.1.0');
  expect(cardLosses).toMatchObject([{ panel: 'arm' }]);
  // Its page has the loss in words; there is no picture of the figure as it was to draw it in.
  const remedies = found.remedies.map((remedy, i) => ({
    figure: compileFigure(figureFrom(remedy.text)),
    file: `remedy-${i + 1}.yaml`,
  }));
  const page = tunePage(compileFigure(figureFrom(text)), found, remedies);
  expect(page).toContain('loses');
  expect(page).not.toContain('Dashed');
});
