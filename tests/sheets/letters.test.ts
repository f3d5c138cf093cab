import { expect, it } from 'vitest';
import { widthOfText } from '../../src/sheets/drawn/drawing.js';
import { drawSheet } from '../../src/sheets/drawn/sheet-drawing.js';
import { settingsOf } from '../../src/sheets/settings.js';
import { assemble } from '../support/assemble.js';
import { figures, plan } from './figures.js';

/** A narrow lamp room: its left panel is glued on both faces, and joined to itself. */
const lighthouse = () =>
  assemble([
    {
      name: 'lighthouse',
      kind: 'parallel-fold',
      shape: 'layer',
      at: 85,
      length: 18,
      glue: [25, 25],
      widths: [45, 45],
      layers: [12, 12],
    },
    {
      name: 'gallery',
      kind: 'cover-flap',
      edge: {
        panel: 'lighthouse layer left',
        line: [
          [0, 12],
          [18, 12],
        ],
      },
      depth: 5,
    },
  ]);

const all = Object.entries({ ...figures, 'a narrow lamp room': lighthouse });

it.each(all)('no two letters on a sheet of %s are written over one another', (_, make) => {
  const assembly = make();
  const { sheets } = plan(assembly);
  const settings = settingsOf({ figure: 'test' }, assembly.thicknessOf);
  for (const [i, sheet] of sheets.entries()) {
    const letters = drawSheet(sheet, i, sheets.length, settings).texts.filter(({ bold }) => bold);
    letters.forEach((a, k) => {
      for (const b of letters.slice(k + 1)) {
        const across =
          Math.abs(a.at[0] - b.at[0]) - (widthOfText(a.text, a.size) + widthOfText(b.text, b.size)) / 2;
        const up = Math.abs(a.at[1] - b.at[1]) - (a.size + b.size) / 2;
        expect(Math.max(across, up), `${a.text} and ${b.text}`).toBeGreaterThan(-0.1);
      }
    });
  }
});
