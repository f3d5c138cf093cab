import { describe, expect, it } from 'vitest';
import type { Point } from '../../src/geometry/plane.js';
import { artOn } from '../../src/sheets/art/place-art.js';
import { printedPanels } from '../../src/sheets/art/printed-panels.js';
import { assemble } from '../support/assemble.js';
import { plan } from './figures.js';

const front = () => 'front' as const;
const drawing = { width: 60, height: 40, strokes: [], picture: null, left: [] };
const at = ([a, b, c, d, e, f]: readonly number[], [x, y]: Point): Point => [
  a * x + c * y + e,
  b * x + d * y + f,
];

/** A tent, a card glued on its left panel, and one on the right page. */
const figure = assemble([
  { name: 'tent', kind: 'parallel-fold', at: 40, length: 60, glue: [30, 30], widths: [40, 40] },
  {
    name: 'flag',
    kind: 'glued-piece',
    on: 'tent left',
    at: [5, 5],
    outline: [
      [0, 0],
      [30, 0],
      [30, 20],
      [0, 20],
    ],
  },
  { name: 'card', kind: 'stiffener', on: 'right page', at: [50, 20], size: [60, 40] },
]);
const place = (name: string) => figure.panelNamed(name, '');

describe('art on the panels of a figure', () => {
  it('lies upright, in the millimetres of its panel, on the face that a reader sees', () => {
    const art = [{ on: 'card', drawing, zero: [10, 30] as const, turn: 0, scale: 1 }];
    const [found, ...more] = printedPanels(figure, front, art);
    expect(more).toEqual([]);
    expect(found).toMatchObject({ panel: place('card'), face: 1, art: 0 });
    // 10 mm from the drawing's left and 30 from its top is the panel's (0, 0); 5 to the right and 3 up of that.
    const zero = at(found.matrix, [10, 30]);
    expect([zero[0] + 0, zero[1] + 0].map((v) => Math.round(v * 1e9) / 1e9 + 0)).toEqual([0, 0]);
    const other = at(found.matrix, [15, 27]);
    expect(other[0]).toBeCloseTo(5, 9);
    expect(other[1]).toBeCloseTo(3, 9);
  });

  it('goes to the other face where the file says so, and can still be read there', () => {
    const art = [{ on: 'card', drawing, turn: 0, scale: 1 }];
    const [own] = printedPanels(figure, front, art);
    const [other] = printedPanels(figure, () => 'back', art);
    expect(other.face).toBe(-own.face);
    // Seen from its face, what is to the right on the drawing is to the right: the map turns over with the face.
    const handed = ([a, b, c, d]: readonly number[]) => Math.sign(a * d - b * c);
    // The drawing's y runs down.
    expect(handed(own.matrix)).toBe(-own.face);
    expect(handed(other.matrix)).toBe(-other.face);
  });

  it('lies as on the sheets, also over all panels of a piece', () => {
    const art = [
      { on: 'tent', drawing, turn: 30, scale: 'fit' as const },
      { on: 'flag', drawing, zero: [3, 4] as const, turn: -20, scale: 1.5 },
    ];
    const found = printedPanels(figure, front, art);
    expect(found.map(({ panel }) => panel).sort()).toEqual(
      ['tent left', 'tent right', 'flag'].map(place).sort(),
    );
    const { pieces } = plan(figure, { paper: 'A2', art });
    const still = { c: 1, s: 0, x: 0, y: 0, flip: 1 as const };
    for (const { panel, face, matrix, art: which } of found) {
      const piece = pieces.find(({ net }) => net.areas.some((area) => area.panel === panel));
      const area = piece?.net.areas.find((each) => each.panel === panel);
      if (piece === undefined || area === undefined) throw new Error('not on the sheets');
      expect(face).toBe(area.place.flip);
      // The same point of the drawing, by way of the panel and by way of the sheet: a picture tells its own matrix.
      const picture = { ...drawing, picture: new Uint8Array(1) };
      const [placed] = artOn(figure, piece, still, [{ ...art[which], drawing: picture }]);
      const { c, s, x, y, flip } = area.place;
      for (const point of [
        [0, 0],
        [60, 0],
        [17, 33],
      ] as const) {
        const [px, py] = at(matrix, point);
        const onSheet = [c * px - s * flip * py + x, s * px + c * flip * py + y];
        const [qx, qy] = at(placed.picture?.matrix ?? [], point);
        expect(Math.hypot(onSheet[0] - qx, onSheet[1] - qy)).toBeLessThan(1e-9);
      }
    }
  });

  it('of a panel that there is not is none', () => {
    expect(printedPanels(figure, front, [{ on: 'nothing', drawing, turn: 0, scale: 1 }])).toEqual([]);
  });
});
