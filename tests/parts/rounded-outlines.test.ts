import { describe, expect, test } from 'vitest';
import { assemble, type PlainPart } from '../support/assemble.js';

/** An upright V-fold whose left panel is drawn, its corner at the ridge's end as given. */
const drawn = (corner: [number, number]): PlainPart => ({
  name: 'v',
  kind: 'v-fold',
  at: 60,
  glue: [60, 60],
  panels: [60, 60],
  feet: [40, 40],
  ridge: 40,
  outlines: { left: { polygon: [[0, 0], [40, 0], [50, 30], corner] } },
});
const fork: PlainPart = {
  name: 'fork',
  kind: 'counter-fold',
  on: 'v ridge',
  at: 10,
  diagonal: 30,
  side: 8,
  length: 10,
};

describe('an outline whose corners are rounded to hundredths of a millimetre', () => {
  test.each([[[20, 34.641]], [[20.01, 34.64]], [[19.99, 34.65]]] as [number, number][][])(
    'with a corner at %j, has its ridge on card, and carries a counter-fold',
    (corner) => {
      const assembly = assemble([drawn(corner)]);
      const { outline } = assembly.panels[assembly.panelNamed('v left', '')];
      expect(
        Math.min(
          ...[4, 6].map((i) => Math.hypot(outline[i] - 20, outline[i + 1] - 40 * Math.sin(Math.PI / 3))),
        ),
      ).toBeLessThan(1e-9);
      expect(() => assemble([drawn(corner), fork])).not.toThrow();
    },
  );

  test('what misses the ridge by more stays where it is drawn', () => {
    expect(() => assemble([drawn([19.9, 34.6]), fork])).toThrow(/no straight edge of card/);
  });
});
