import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { compileFigure, type Figure } from '../../src/figure/figure.js';
import { patterns } from '../../src/figure/patterns/index.js';
import { readFigure } from '../../src/figure/read.js';
import { parseFigure } from '../../src/figure/text/source.js';
import type { Assembly } from '../../src/motion/assembly.js';
import { CannotBuild } from '../../src/motion/cannot-build.js';
import { stream } from '../../src/search/random.js';
import { drawSheet } from '../../src/sheets/drawn/sheet-drawing.js';
import { toSvg } from '../../src/sheets/drawn/svg.js';
import { settingsOf } from '../../src/sheets/settings.js';
import { figures, plan } from './figures.js';
import { foldBack } from './fold-back.js';
import { readSheet } from './read-sheet.js';

/**
 * Sheets as they are printed, folded back in space: corners and creases agree to 0.01 mm at every page angle, creases go
 * the way that is drawn, and the two places of each letter lie face on face.
 */
const examples = readdirSync('examples').filter((name) => name.endsWith('.yaml'));
const bases = readdirSync('tests/broken/bases');
const files: [string, Figure][] = [
  ...examples.map((name): [string, Figure] => [name, compileFigure(readFigure(`examples/${name}`))]),
  ...bases.map((name): [string, Figure] => [name, compileFigure(readFigure(`tests/broken/bases/${name}`))]),
  ...patterns.map(({ name, text }): [string, Figure] => [name, compileFigure(parseFigure(text, name))]),
];

function back(assembly: Assembly) {
  const made = plan(assembly, { paper: 'A2' });
  const settings = settingsOf({ figure: 'test', paper: 'A2' }, assembly.thicknessOf);
  const svgs = made.sheets.map((sheet, i) =>
    toSvg(drawSheet(sheet, i, made.sheets.length, settings), 'test'),
  );
  return { made, found: foldBack(assembly, svgs.map(readSheet)) };
}

/** Whether a crease ends less than 0.3 mm from a corner of one of its panels, but not at it. */
const endsBesideCorner = ({ panels, joints }: Assembly): boolean =>
  joints.some(
    (joint) =>
      joint.kind === 'crease' &&
      joint.between.some((k, end) => {
        const { x0, y0, x1, y1 } = joint.lines[end];
        const { outline } = panels[k];
        return Array.from({ length: outline.length / 2 }, (_, i) =>
          Math.min(
            Math.hypot(outline[2 * i] - x0, outline[2 * i + 1] - y0),
            Math.hypot(outline[2 * i] - x1, outline[2 * i + 1] - y1),
          ),
        ).some((far) => far > 1e-3 && far < 0.3);
      }),
  );

describe('sheets folded back give the model:', () => {
  it.each([
    ...files.map(([name, figure]): [string, () => Assembly] => [name, () => figure.build(figure.start)]),
    ...Object.entries(figures),
  ])('%s', (_, make) => {
    const { found } = back(make());
    expect(found?.faults).toEqual([]);
    expect(found?.worst).toBeLessThan(0.01);
    expect(found?.panels).toBeGreaterThan(2);
  });

  it('twenty figures drawn by chance from the ranges of these', () => {
    // Chains of links take long to place, and are looked at one by one above.
    const quick = files.filter(([name]) => !/tightrope|ferryman|knee|limb/.test(name));
    const random = stream(22, 'sheets');
    let [panels, letters, drawn] = [0, 0, 0];
    while (drawn < 20) {
      const [name, figure] = quick[random.below(quick.length)];
      const vector = Float64Array.from(figure.free, (dim) =>
        dim.kind === 'choice'
          ? random.below(dim.options.length)
          : dim.min + (dim.max - dim.min) * random.next(),
      );
      let assembly: Assembly;
      try {
        assembly = figure.build(vector);
      } catch (error) {
        if (error instanceof CannotBuild) continue;
        throw error;
      }
      // A tab that ends a hair beside a corner makes an edge that is too short to be read from a sheet.
      if (endsBesideCorner(assembly)) continue;
      const { found, made } = back(assembly);
      if (found === null || made.warnings.some((line) => /cannot be cut|never fold/.test(line))) continue;
      drawn++;
      panels += found.panels;
      letters += found.letters;
      expect(found.faults, `${name} ${[...vector]}`).toEqual([]);
    }
    expect(panels).toBeGreaterThan(80);
    expect(letters).toBeGreaterThan(40);
  });
});
