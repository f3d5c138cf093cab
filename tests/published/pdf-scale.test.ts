import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { describe, expect, it } from 'vitest';
import { movedRing, type Ring } from '../../src/geometry/plane.js';
import { makeSheets } from '../../src/sheets/make-sheets.js';
import { example, plan } from '../sheets/figures.js';
import { type ReadPath, readPdf } from '../sheets/read-pdf.js';

/**
 * The PDFs, read back by pdfjs-dist (Mozilla), against the plan they were drawn from, and against what PDF itself says:
 * 72 points an inch (ISO 32000-1, 8.3.2.3), so that 100 mm are 7200/25.4 = 283.46 points.
 */

const printer = { spots: { cut: 'Die Cut', crease: 'red', glue: 'No-Ink.1' } };
const options = { figure: 'heron', candidate: 'candidate 17 of study heron', paper: 'A4', printer };
const assembly = example('heron');
const made = await makeSheets(assembly, options);
const { sheets, bonds } = plan(assembly, options);
const file = (name: string): Uint8Array => {
  const found = made.files.find((one) => one.name === name);
  if (found === undefined || typeof found.content === 'string') throw new Error(`no ${name}`);
  return found.content;
};
const pages = await readPdf(file('heron-sheets.pdf'));

/** Farthest that any corner of a ring lies from the nearest corner of a path. */
const awayFrom = (ring: Ring, { points }: ReadPath): number =>
  Math.max(...ring.map(([x, y]) => Math.min(...points.map(([px, py]) => Math.hypot(px - x, py - y)))));

const nearest = (ring: Ring, paths: readonly ReadPath[]): number =>
  Math.min(
    ...paths.filter(({ points }) => points.length === ring.length).map((path) => awayFrom(ring, path)),
  );

describe('the sheets in PDF', () => {
  it.each([
    ['A4', 595.28, 841.89],
    ['A3', 841.89, 1190.55],
    ['Letter', 612, 792],
  ])('of %s have that page box, in points', async (paper, width, height) => {
    const { files } = await makeSheets(assembly, { figure: 'heron', paper });
    const pdf = files.find(({ name }) => name === 'heron-sheets.pdf')?.content as Uint8Array;
    for (const page of await readPdf(pdf)) {
      expect((page.width * 72) / 25.4).toBeCloseTo(width, 1);
      expect((page.height * 72) / 25.4).toBeCloseTo(height, 1);
    }
  });

  it('have a ruler of 283.46 points on every sheet, and one of 4 inches, 288 points', () => {
    expect(pages).toHaveLength(sheets.length);
    for (const { paths, texts } of pages) {
      const level = (long: number) =>
        paths.filter(
          ({ points: [[ax, ay], b], points }) =>
            points.length === 2 &&
            Math.abs(((b[0] - ax) * 72) / 25.4 - long) < 0.01 &&
            Math.abs(b[1] - ay) < 1e-6,
        );
      expect(level(283.46)).toHaveLength(1);
      expect(level(288)).toHaveLength(1);
      expect(texts.map(({ text }) => text).join(' ')).toMatch(/100 mm above, 4 inches below: print at 100 %/);
    }
  });

  it('have a layer for each kind of line, all of them shown, each the same one on every page', async () => {
    const document = await getDocument({ data: Uint8Array.from(file('heron-sheets.pdf')), verbosity: 0 })
      .promise;
    const layers = [...(await document.getOptionalContentConfig())].map(([, layer]) => layer);
    expect(layers.map(({ name }) => name).sort()).toEqual(
      [
        'cut',
        'mountain',
        'valley',
        'glue line',
        'glue area',
        'glue behind',
        'note',
        'shading',
        'key',
        'text',
      ].sort(),
    );
    expect(layers.every(({ visible }) => visible)).toBe(true);
    // Every stroke lies on one: what is marked as of a layer opens and ends by turns.
    for (let i = 1; i <= document.numPages; i++) {
      const { fnArray } = await (await document.getPage(i)).getOperatorList();
      let open = 0;
      for (const op of fnArray) {
        if (op === OPS.beginMarkedContentProps) open++;
        else if (op === OPS.endMarkedContent) open--;
        else if (op === OPS.constructPath) expect(open).toBe(1);
      }
      expect(open).toBe(0);
    }
    await document.destroy();
  });

  it('show every cut contour closed, at its true size and place, to 0.01 mm', () => {
    sheets.forEach(({ placed }, i) => {
      const closed = pages[i].paths.filter((path) => path.closed && !path.filled);
      for (const { piece, place } of placed)
        for (const ring of [...piece.lines.contours, ...piece.lines.holes])
          expect(nearest(movedRing(place, ring), closed), piece.net.name).toBeLessThan(0.01);
    });
  });

  it('draw valleys in dashes, mountains in dashes and dots', () => {
    const count = { mountain: 0, valley: 0 };
    sheets.forEach(({ placed }, i) => {
      for (const { piece, place } of placed)
        for (const { segment, fold } of piece.lines.creases) {
          const { sense } = piece.net.folds[fold];
          if (sense !== 'mountain' && sense !== 'valley') continue;
          const lines = pages[i].paths.filter(({ points, dash }) => points.length === 2 && dash.length > 0);
          const drawn = lines.find(
            (line) => awayFrom(movedRing(place, segment), line) < 0.01 && line.dash[0] > 0.5,
          );
          expect(drawn?.dash).toHaveLength(sense === 'mountain' ? 4 : 2);
          count[sense]++;
        }
    });
    expect(count.mountain).toBeGreaterThan(2);
    expect(count.valley).toBeGreaterThan(2);
  });

  it('print every letter exactly twice, in brackets where it is on the back', () => {
    const texts = pages.flatMap((page) => page.texts.map(({ text }) => text));
    for (const { bond, letter } of bonds) {
      const shown = [bond.giver, bond.receiver].map(({ face }) => (face === 1 ? letter : `(${letter})`));
      const found = texts.filter((text) => text === letter || text === `(${letter})`);
      expect(found.sort(), letter).toEqual(shown.sort());
    }
  });

  it('name the figure, the candidate and every piece', () => {
    const words = pages.map(({ texts }) => texts.map(({ text }) => text).join(' ')).join(' ');
    expect(words).toContain('heron');
    expect(words).toContain('candidate 17 of study heron');
    for (const { placed } of sheets) for (const { piece } of placed) expect(words).toContain(piece.net.name);
  });

  it('come out the same, byte for byte, a second time', async () => {
    const again = await makeSheets(example('heron'), options);
    expect(again.files.map(({ name }) => name)).toEqual(made.files.map(({ name }) => name));
    again.files.forEach(({ content }, i) => {
      expect(
        Buffer.from(content as Uint8Array).equals(Buffer.from(made.files[i].content as Uint8Array)),
      ).toBe(true);
    });
  });
});

describe('for the printer', () => {
  it('die-lines have cut, crease and glue as separations of the given names, even that of a web colour', () => {
    const raw = Buffer.from(file('heron-die-lines.pdf')).toString('latin1');
    // PDF writes a blank in a name as #20 (ISO 32000-1, 7.3.5).
    for (const name of ['Die#20Cut', 'red', 'No-Ink.1'])
      expect(raw).toContain(`/Separation /${name} /DeviceCMYK`);
    expect(raw.match(/\/Separation/g)).toHaveLength(3);
    expect(raw).toMatch(/\/OP true/);
  });

  it('die-lines close every contour and cut no line twice', async () => {
    const dies = await readPdf(file('heron-die-lines.pdf'));
    sheets.forEach(({ placed }, i) => {
      const solid = dies[i].paths.filter(({ filled, dash }) => !filled && dash.length === 0);
      const closed = solid.filter((path) => path.closed);
      for (const { piece, place } of placed)
        expect(nearest(movedRing(place, piece.lines.contours[0]), closed), piece.net.name).toBeLessThan(0.01);
      const edges = solid.flatMap(({ points, closed: round }) =>
        points
          .slice(round ? 0 : 1)
          .map((p, k) => [points[(k + (round ? 1 : 0)) % points.length], p] as const),
      );
      const keys = edges.map((edge) =>
        edge
          .map(([x, y]) => `${x.toFixed(2)} ${y.toFixed(2)}`)
          .sort()
          .join(' '),
      );
      expect(new Set(keys).size).toBe(keys.length);
    });
  });

  it('artwork templates are mirrored in register: x of the back is the width less x of the front', async () => {
    const faces = await readPdf(file('heron-artwork.pdf'));
    expect(faces).toHaveLength(2 * sheets.length);
    sheets.forEach(({ paper, placed }, i) => {
      const [front, back] = [faces[2 * i], faces[2 * i + 1]];
      for (const { piece, place } of placed) {
        const ring = movedRing(place, piece.lines.contours[0]);
        const over = ring.map(([x, y]): [number, number] => [paper.width - x, y]);
        expect(nearest(ring, front.paths)).toBeLessThan(0.01);
        expect(nearest(over, back.paths)).toBeLessThan(0.01);
        // Glue of either face is left unprinted on that face only.
        for (const { spot } of piece.marks) {
          const area = movedRing(place, spot.shapes[0].outline);
          const turned = area.map(([x, y]): [number, number] => [paper.width - x, y]);
          const fills = (page: typeof front) => page.paths.filter(({ filled }) => filled);
          expect(nearest(area, fills(front)) < 0.01).toBe(spot.face === 1);
          expect(nearest(turned, fills(back)) < 0.01).toBe(spot.face === -1);
        }
      }
    });
  });

  it('refuses names that no separation can have', async () => {
    for (const cut of [
      'All',
      'None',
      'Black',
      '',
      '/Cut',
      'Cut)\n<<',
      '__proto__',
      'Schnitt ü',
      'x'.repeat(41),
    ])
      await expect(makeSheets(assembly, { ...options, printer: { spots: { cut } } })).rejects.toThrow(
        /cannot name a spot colour/,
      );
  });
});

describe('the guide', () => {
  it('has every step, every letter, the cautions and the card needed', async () => {
    const guide = await readPdf(file('heron-assembly.pdf'));
    const words = guide
      .flatMap(({ texts }) => texts.map(({ text }) => text))
      .join(' ')
      .replace(/\s+/g, ' ');
    const { steps } = plan(assembly, options);
    steps.forEach((_, i) => {
      expect(words).toContain(`${i + 1}. `);
    });
    for (const { letter } of bonds) expect(words).toContain(`${letter}: `);
    for (const caution of [
      'Craft knife',
      'air to breathe',
      'Never leave a running machine',
      '16 CFR 1501',
      'accredited testing',
    ])
      expect(words).toContain(caution);
    expect(words).toMatch(/Card needed: \d+ sheets of A4, 0\.\d{3} m²/);
    for (const { width, height } of guide) expect([width, height].map(Math.round)).toEqual([210, 297]);
  });
});
