import { describe, expect, it } from 'vitest';
import { compileFigure } from '../../src/figure/figure.js';
import { openFigure } from '../../src/tune/opened.js';
import { lookedAt, type Setting } from '../../src/tune/settings.js';
import { withTrims, withValues } from '../../src/tune/with-values.js';
import { BREAKS, brokenFigure } from '../broken/breaks.js';
import { figureFrom } from './support.js';

const settingsIn = (text: string): readonly Setting[] => {
  const source = figureFrom(text);
  return openFigure(source, compileFigure(source)).settings;
};

function changed(text: string, values: Record<string, number | string>): string {
  const settings = settingsIn(text);
  const list = Object.entries(values).map(([name, value]) => {
    const setting = settings.find((each) => each.name === name);
    if (setting === undefined)
      throw new Error(`no ${name} among ${settings.map((each) => each.name).join(', ')}`);
    return { setting, value };
  });
  return withValues(figureFrom(text), list);
}

const BLOCK = `# A tent.
page: A5
dims:
  foot: 30        # from the gutter
  side: { from: 30, to: 60, start: 40 } # a range
  way: { choose: [in, out] }
parts:
  - name: tent
    kind: parallel-fold
    at: 40   # along the gutter
    length: 60
    glue: [foot, foot]
    widths: [side, side]
    points: way
  # The flag.
  - { name: flag, kind: glued-piece, on: tent left, at: [5, 5], outline: { polygon: [[0, 0], [10, 0], [0, 12.5]] } }
`;

describe('a figure file with other values', () => {
  it('keeps every other letter', () => {
    expect(changed(BLOCK, { foot: 31.5 })).toBe(BLOCK.replace('foot: 30 ', 'foot: 31.5 '));
    expect(changed(BLOCK, { 'tent.at': 42 })).toBe(BLOCK.replace('at: 40 ', 'at: 42 '));
    expect(changed(BLOCK, { 'flag.outline.polygon.2.1': 11 })).toBe(BLOCK.replace('12.5', '11'));
  });

  it('moves the start of a range, and puts the chosen option first', () => {
    expect(changed(BLOCK, { side: 44 })).toBe(BLOCK.replace('start: 40', 'start: 44'));
    expect(changed(BLOCK.replace(', start: 40', ''), { side: 44 })).toBe(
      BLOCK.replace('start: 40', 'start: 44'),
    );
    expect(changed(BLOCK, { way: 'out' })).toBe(BLOCK.replace('[in, out]', '[out, in]'));
  });

  it('has words in quotes where they would be read as yes, no or nothing', () => {
    for (const word of ['True', 'FALSE', 'Null', 'true'])
      expect(
        changed(BLOCK.replace('dims:', `dims:\n  mood: { choose: [sad, "${word}"] }`), { mood: word }),
      ).toContain(`mood: { choose: ["${word}", sad] }`);
  });

  it('puts in what was left out, in block and in flow, several in one place', () => {
    const text = changed(BLOCK, { 'tent.tab.side': 'outer', 'tent.tab.width': 6, 'flag.turn': -4 });
    expect(text).toContain('    points: way\n    tab: { side: outer, width: 6 }\n  # The flag.');
    expect(text).toContain('[0, 12.5]] }, turn: -4 }');
  });

  it('is read again with just these values, for any setting of any of the broken figures', {
    timeout: 60_000,
  }, () => {
    for (const broken of BREAKS) {
      const source = brokenFigure(broken);
      const settings = openFigure(source, compileFigure(source)).settings;
      // Every 97th, to be quick; all kinds of places are among them.
      for (const [i, setting] of settings.entries()) {
        if (i % 97 !== 0) continue;
        const value =
          setting.kind === 'number'
            ? Number(setting.now) + 0.125
            : setting.options[(setting.options.indexOf(setting.now) + 1) % setting.options.length];
        const again = settingsIn(withValues(source, [{ setting, value }]));
        const now = new Map(again.map((each) => [each.name, each.now]));
        for (const each of settings)
          expect(now.get(each.name), `${broken.file} ${each.name}`).toBe(each === setting ? value : each.now);
      }
    }
  });
});

describe('a figure file with more trims', () => {
  const trim = {
    panel: 'tent left',
    region: [
      [0, 0],
      [5.25, 0],
      [0, 5],
    ] as [number, number][],
  };
  const line = '  - { panel: tent left, region: [[0, 0], [5.25, 0], [0, 5]] }\n';
  const trimmed = (text: string) => withTrims(figureFrom(text), [trim]);

  it('has them at its end, or after those that it had', () => {
    expect(trimmed(BLOCK)).toBe(`${BLOCK}trims:\n${line}`);
    expect(trimmed(BLOCK.trimEnd())).toBe(`${BLOCK}trims:\n${line}`);
    const before = 'trims:\n  - { panel: tent right, region: [[0, 0], [1, 0], [0, 1]] }\n';
    expect(trimmed(`${BLOCK}${before}`)).toBe(`${BLOCK}${before}${line}`);
    const inFront = BLOCK.replace('dims:', `${before}dims:`);
    expect(trimmed(inFront)).toBe(BLOCK.replace('dims:', `${before}${line}dims:`));
  });

  it('is a figure file that has them', () => {
    for (const text of [BLOCK, BLOCK.trimEnd(), `${BLOCK}trims: []\n`, `${BLOCK}trims:\n`]) {
      const { trims } = compileFigure(figureFrom(trimmed(text)));
      expect(trims).toEqual([trim]);
    }
  });
});

describe('what could be changed in a figure', () => {
  it('is its dims, then the numbers and words of its parts, usual ones included; zeros of points are not', () => {
    const names = settingsIn(BLOCK).map(({ name }) => name);
    expect(names.slice(0, 3)).toEqual(['foot', 'side', 'way']);
    expect(names).toEqual(
      expect.arrayContaining([
        'tent.at',
        'tent.length',
        'tent.tab.width',
        'tent.tab.side',
        'flag.at.0',
        'flag.turn',
      ]),
    );
    expect(names).not.toContain('tent.glue.0');
    expect(names).not.toContain('flag.outline.polygon.0.0');
    expect(names.at(-1)).toMatch(/^flag\.outline\./);
  });

  it('leaves out words that would make another file of it: a tent is no box', () => {
    expect(settingsIn(BLOCK).map(({ name }) => name)).not.toContain('tent.shape');
  });

  it('has the maker’s own range where there is one', () => {
    const side = settingsIn(BLOCK).find(({ name }) => name === 'side');
    expect(side?.bounds).toEqual({ low: 30, high: 60 });
  });
});

describe('a figure with more numbers than can be looked at', () => {
  it('is opened all the same, the points of its outlines left out first, and says how many', () => {
    const flag = (i: number) =>
      `  - { name: f${i}, kind: glued-piece, on: left page, at: [-${50 + i}, ${20 + i}], outline: { polygon: [[1, 2], [10, 3], [9, 12.5]] } }\n`;
    const text = `page: A5\nparts:\n${Array.from({ length: 30 }, (_, i) => flag(i)).join('')}`;
    const source = figureFrom(text);
    const { settings, leftOut } = openFigure(source, compileFigure(source));
    // Each has at (2), turn, face and six coordinates.
    expect([settings.length, leftOut]).toEqual([150, 30 * 10 - 150]);
    expect(settings.filter(({ name }) => !name.includes('polygon')).length).toBe(120);
  });

  it('keeps the corners of a slot before what the file leaves out', () => {
    const setting = (place: (string | number)[], twins: string, isWritten: boolean) =>
      ({ place: ['parts', 0, ...place], twins, isWritten }) as unknown as Setting;
    const [written, usual] = [true, false].map((isWritten) => setting(['at'], 'v-fold', isWritten));
    const corner = setting(['outline', 2, 1], 'slot', true);
    const all = [
      ...Array.from({ length: 140 }, () => ({ ...written })),
      ...Array.from({ length: 20 }, () => ({ ...usual })),
      corner,
    ];
    const kept = lookedAt(all);
    expect(kept.length).toBe(150);
    expect(kept.at(-1)).toBe(corner);
    expect(kept.filter(({ isWritten }) => !isWritten).length).toBe(9);
  });
});
