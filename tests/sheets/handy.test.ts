import { describe, expect, it } from 'vitest';
import { areaOf } from '../../src/geometry/plane.js';
import { fileName, plainText } from '../../src/sheets/drawn/safe-text.js';
import { drawSheet } from '../../src/sheets/drawn/sheet-drawing.js';
import { amountOf } from '../../src/sheets/guide/amount.js';
import { cautions } from '../../src/sheets/guide/cautions.js';
import { letter } from '../../src/sheets/guide/letters.js';
import { pieceRows } from '../../src/sheets/guide/piece-list.js';
import { smallParts } from '../../src/sheets/guide/small-parts.js';
import { warningsOf } from '../../src/sheets/guide/warnings.js';
import { withBleed } from '../../src/sheets/layout/bleed.js';
import { lookalikes } from '../../src/sheets/layout/mirror.js';
import type { Piece } from '../../src/sheets/layout/piece.js';
import { makeSheets } from '../../src/sheets/make-sheets.js';
import { settingsOf } from '../../src/sheets/settings.js';
import { assemble, type PlainPart } from '../support/assemble.js';
import { plan } from './figures.js';

/** Loose cards glued on the page, each of one outline. */
const cards = (...outlines: [number, number][][]) =>
  plan(
    assemble(
      outlines.map(
        (polygon, i): PlainPart => ({
          name: `card ${i + 1}`,
          kind: 'glued-piece',
          on: 'left page',
          at: [-140, 5],
          outline: { polygon },
        }),
      ),
    ),
    // Large enough for all, so that nothing need be nested.
    { paper: 'A2' },
  );

/** A figure of two pieces, for what is the same for any: files and their names. */
const tent = assemble([
  { name: 'tent', kind: 'parallel-fold', at: 40, length: 60, glue: [30, 30], widths: [40, 40] },
]);

const rectangle = (width: number, height: number): [number, number][] => [
  [0, 0],
  [width, 0],
  [width, height],
  [0, height],
];

describe('letters for glue', () => {
  it('go on past Z, and leave out I and O', () => {
    const all = Array.from({ length: 700 }, (_, i) => letter(i));
    expect(all.slice(0, 10).join('')).toBe('ABCDEFGHJK');
    expect(all[23]).toBe('Z');
    expect(all[24]).toBe('AA');
    expect(all[48]).toBe('BA');
    expect(all[24 + 24 * 24]).toBe('AAA');
    expect(new Set(all).size).toBe(700);
    expect(all.join('')).not.toMatch(/[IO]/);
  });
});

describe('small parts', () => {
  /** 16 CFR 1501.4: a cylinder 31.7 mm across, 25.4 to 57.1 mm deep; figures from memory. */
  it('are those that fit into 31.7 × 57.1 mm, however they are turned', () => {
    const small = (...outline: [number, number][]) =>
      smallParts(cards(outline).pieces).some(({ net }) => net.piece === 'card 1');
    expect(small(...rectangle(31.6, 57))).toBe(true);
    expect(small(...rectangle(57, 31.6))).toBe(true);
    expect(small(...rectangle(31.8, 57))).toBe(false);
    expect(small(...rectangle(31.6, 57.2))).toBe(false);
    expect(small(...rectangle(32, 32))).toBe(false);
    // A thin strip lies across the section: its diagonal is √(31.7² + 57.1²) = 65.3 mm.
    expect(small(...rectangle(64, 1))).toBe(true);
    expect(small(...rectangle(66, 1))).toBe(false);
  });

  it('are named in the caution, with what 1501.3 exempts', () => {
    const { pieces } = cards(rectangle(20, 20));
    const words = cautions(smallParts(pieces), 0).join(' ');
    expect(words).toMatch(/card 1/);
    expect(words).toMatch(/1501\.3 exempts books and other articles made of paper; other countries differ/);
    expect(words).toMatch(/accredited testing/);
    expect(cautions([], 0).join(' ')).toMatch(/None of the pieces/);
    expect(cautions([], 0).join(' ')).not.toMatch(/hubs/);
    expect(cautions([], 2).join(' ')).toMatch(/Keep glue away from the hubs/);
  });
});

describe('lookalikes', () => {
  it('tell mirror images from equal outlines, and both from others', () => {
    const hook: [number, number][] = [
      [0, 0],
      [40, 0],
      [40, 10],
      [10, 10],
      [10, 30],
      [0, 30],
    ];
    const turned = hook.map(([x, y]): [number, number] => [60 - y, x]);
    const mirrored = hook.map(([x, y]): [number, number] => [60 - x, y]).reverse();
    const found = lookalikes(cards(hook, turned, mirrored, rectangle(40, 22.5)).pieces.slice(1));
    const names = (pieces: readonly Piece[]) => pieces.map(({ net }) => net.name);
    expect(found.same.map(names)).toEqual([['card 1', 'card 2']]);
    expect(found.mirrored.map(names)).toEqual([['card 1', 'card 3']]);
  });

  it('tell of 24 pieces once, and so of their mirror images', () => {
    const hook: [number, number][] = [
      [0, 0],
      [40, 0],
      [40, 10],
      [10, 10],
      [10, 30],
      [0, 30],
    ];
    const mirrored = hook.map(([x, y]): [number, number] => [60 - x, y]).reverse();
    const { pieces } = cards(...Array.from({ length: 24 }, (_, i) => (i % 3 === 0 ? mirrored : hook)));
    const lines = warningsOf(pieces.slice(1), { pageAngles: [], poses: [], lock: null });
    expect(lines.filter((line) => line.includes('the same outline')).length).toBe(2);
    expect(lines.filter((line) => line.includes('mirror images')).length).toBe(1);
    expect(lines.join('\n')).toMatch(/'card 2', .*'card 9' and 10 more have the same outline/);
  });

  it('call a shape that is its own mirror image just the same', () => {
    const found = lookalikes(cards(rectangle(30, 20), rectangle(30, 20)).pieces.slice(1));
    expect([found.same.length, found.mirrored.length]).toEqual([1, 0]);
  });
});

describe('narrow places', () => {
  it('are found in a star of 600 points as among all pairs of its edges, and near in time to its count', () => {
    const star = (points: number) =>
      Array.from({ length: 2 * points }, (_, i): [number, number] => {
        const [angle, radius] = [(Math.PI * i) / points, i % 2 === 0 ? 60 : 40];
        return [80 + radius * Math.cos(angle), 80 + radius * Math.sin(angle)];
      });
    const [piece] = cards(star(600)).pieces.slice(1);
    const found = piece.narrow;
    // Spikes 0.42 mm apart at their roots: of both card and gaps there is less than can be cut.
    expect(found.map(({ of }) => of).sort()).toEqual(['card', 'gap']);
    for (const { width } of found) expect(width).toBeLessThan(0.7);
  });

  it('are ringed on the sheet, and so is glue under 3 mm, and both are told', () => {
    const tent = (tab: number) =>
      assemble([
        {
          name: 'tent',
          kind: 'parallel-fold',
          at: 40,
          length: 60,
          glue: [30, 30],
          widths: [40, 40],
          tab: { width: tab },
        },
      ]);
    const rings = (tab: number) => {
      const { sheets, warnings } = plan(tent(tab), { paper: 'A3' });
      const settings = settingsOf({ figure: 'test', paper: 'A3' }, tent(tab).thicknessOf);
      const drawn = sheets.map((sheet, i) => drawSheet(sheet, i, sheets.length, settings));
      const round = drawn
        .flatMap(({ strokes }) => strokes)
        .filter(({ kind, points }) => kind === 'note' && points.length === 3);
      return [
        round.length / 12,
        warnings.filter((line) => /glue only 2\.\d mm wide, [AB]/.test(line)).length,
      ];
    };
    // Two tabs, each on the tent and on the page.
    expect(rings(2.5)).toEqual([4, 2]);
    expect(rings(8)).toEqual([0, 0]);
  });

  const narrow = (outline: [number, number][]) =>
    cards(outline)
      .pieces.flatMap(({ narrow }) => narrow)
      .map(({ of, width }) => [of, Number(width.toFixed(6))]);

  it('are webs of card under 2 mm and gaps under 1 mm, and not corners', () => {
    // Two squares joined by a neck, n wide.
    const neck = (n: number): [number, number][] => [
      [0, 0],
      [20, 0],
      [20, 10 - n / 2],
      [40, 10 - n / 2],
      [40, 0],
      [60, 0],
      [60, 20],
      [40, 20],
      [40, 10 + n / 2],
      [20, 10 + n / 2],
      [20, 20],
      [0, 20],
    ];
    expect(narrow(neck(1.5))).toEqual([['card', 1.5]]);
    expect(narrow(neck(2.5))).toEqual([]);
    // A comb with a gap g wide.
    const comb = (g: number): [number, number][] => [
      [0, 0],
      [40, 0],
      [40, 30],
      [20 + g, 30],
      [20 + g, 10],
      [20, 10],
      [20, 30],
      [0, 30],
    ];
    expect(narrow(comb(0.6))).toEqual([['gap', 0.6]]);
    expect(narrow(comb(1.4))).toEqual([]);
    // A bevelled corner is short, not narrow.
    expect(
      narrow([
        [0, 0],
        [40, 0],
        [40, 29.5],
        [39.5, 30],
        [0, 30],
      ]),
    ).toEqual([]);
  });
});

describe('bleed', () => {
  it('of a rectangle is its rectangle, four bands and four quarter discs', () => {
    const [{ outline }] = withBleed(
      [
        [
          [0, 0],
          [40, 0],
          [40, 20],
          [0, 20],
        ],
      ],
      3,
    );
    expect(areaOf(outline)).toBeCloseTo(40 * 20 + 2 * 3 * (40 + 20) + Math.PI * 9, 0);
  });
});

describe('card needed', () => {
  it('is counted by hand for one sheet', () => {
    const { sheets } = plan(
      assemble([
        {
          name: 'card',
          kind: 'glued-piece',
          on: 'left page',
          at: [-50, 5],
          outline: { polygon: rectangle(30, 20) },
        },
      ]),
      {
        paper: 'A3',
        cardOf: () => ({ thickness: 0.3, grammage: 250 }),
      },
    );
    const amount = amountOf(sheets);
    expect(amount.sheets).toBe(1);
    expect(amount.sheetArea).toBeCloseTo(0.297 * 0.42, 9);
    expect(amount.pieceArea).toBeCloseTo(0.3 * 0.21 + 0.03 * 0.02, 9);
    expect(amount.sheetGrams).toBeCloseTo(250 * 0.297 * 0.42, 6);
    expect(amount.pieceGrams).toBeCloseTo(250 * (0.3 * 0.21 + 0.03 * 0.02), 6);
  });

  it('gives no weight where none is known, and says why', async () => {
    const { summary } = await makeSheets(tent, { figure: 'tent' });
    expect(summary.join(' ')).toMatch(/What it weighs is not known: the figure does not give the grammage/);
    expect(summary.join(' ')).not.toMatch(/NaN|null/);
  });
});

describe('the list of pieces', () => {
  it('counts cuts, creases and glue, and says which face is printed', () => {
    const { pieces } = plan(
      assemble([{ name: 'box', kind: 'parallel-fold', shape: 'box', at: 40, length: 60, glue: [30, 20] }]),
      { paper: 'A3', faceOf: (piece) => (piece === 'box' ? 'back' : 'front') },
    );
    // The page: one outline, the gutter, two tabs received. The box: one outline, three creases, two tabs given.
    expect(pieceRows(pieces)).toEqual([
      { number: 1, name: 'base page', face: 'front', cuts: 1, creases: 1, gluePoints: 2 },
      { number: 2, name: 'box', face: 'back', cuts: 1, creases: 3, gluePoints: 2 },
    ]);
  });
});

describe('names from strangers', () => {
  it.each([
    '../../etc/passwd',
    'C:\\x',
    'con',
    '...',
    '\u202egnp.exe',
    '💣',
    '',
    'a'.repeat(500),
    'Zoë & Söhne/№5',
  ])('%j names files in no other folder', async (figure) => {
    const { files } = await makeSheets(tent, { figure, candidate: '<b>\n1', paper: 'A3' });
    for (const { name } of files) expect(name).toMatch(/^[a-z0-9][a-z0-9-]{0,90}\.(pdf|svg|dxf)$/);
    expect(new Set(files.map(({ name }) => name)).size).toBe(files.length);
  });

  it('become one line of plain text, and a plain file name', () => {
    expect(plainText(' a\u0000b\r\nc\u202ed\u2028e ')).toBe('a b c d e');
    expect(fileName('Zoë’s Übungs-Boot No. 5')).toBe('zoe-s-ubungs-boot-no-5');
    expect(fileName('舟')).toBe('figure');
  });
});

describe('the files', () => {
  it('are sheets in three formats and the guide, and if asked those for a printer', async () => {
    const of = async (options: object) =>
      (await makeSheets(tent, { figure: 'tent', paper: 'A3', ...options })).files.map(({ name }) => name);
    const always = ['tent-sheets.pdf', 'tent-sheet-1.svg', 'tent-sheet-1.dxf', 'tent-assembly.pdf'];
    expect(await of({})).toEqual(always);
    expect(await of({ printer: {} })).toEqual([...always, 'tent-die-lines.pdf', 'tent-artwork.pdf']);
  });
});
