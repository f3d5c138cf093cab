import { describe, expect, it } from 'vitest';
import { distance, distanceTo, edgesOf, inside, movedRing } from '../../src/geometry/plane.js';
import { boxOfText } from '../../src/sheets/drawn/labels.js';
import { drawSheet } from '../../src/sheets/drawn/sheet-drawing.js';
import { settingsOf } from '../../src/sheets/settings.js';
import { assemble, rectangle } from '../support/assemble.js';
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

describe.each(all)('letters and numbers on the sheets of %s', (_, make) => {
  const assembly = make();
  const { sheets } = plan(assembly);
  const settings = settingsOf({ figure: 'test' }, assembly.thicknessOf);
  const drawn = sheets.map((sheet, i) => ({ sheet, ...drawSheet(sheet, i, sheets.length, settings) }));

  it('in brackets are told in the key wherever there are some', () => {
    for (const { texts } of drawn) {
      const isThere = texts.some(({ text }) => /^\([A-Z]+\)$/.test(text));
      expect(texts.some(({ text }) => /\(A\).*on the back/.test(text))).toBe(isThere);
    }
  });

  it('are not written over one another, nor over a line', () => {
    const met: string[] = [];
    for (const { texts, strokes } of drawn)
      texts.forEach((a, k) => {
        const box = boxOfText(a, 0.1);
        for (const b of texts.slice(k + 1)) {
          const other = boxOfText(b, 0.1);
          const across = Math.max(box.left, other.left) - Math.min(box.right, other.right);
          const up = Math.max(box.low, other.low) - Math.min(box.high, other.high);
          if (!(Math.max(across, up) > 0)) met.push(`${a.text} and ${b.text}`);
        }
        for (const { points, closed, kind } of strokes)
          for (const [from, to] of edgesOf(points).slice(0, closed ? undefined : -1)) {
            const apart =
              Math.max(from[0], to[0]) < box.left ||
              Math.min(from[0], to[0]) > box.right ||
              Math.max(from[1], to[1]) < box.low ||
              Math.min(from[1], to[1]) > box.high;
            if (apart) continue;
            for (let t = 0; t <= 1; t += 0.2 / Math.max(0.2, distance(from, to))) {
              const [x, y] = [from[0] + (to[0] - from[0]) * t, from[1] + (to[1] - from[1]) * t];
              const inside = x > box.left && x < box.right && y > box.low && y < box.high;
              if (inside) met.push(`${a.text} on a line of ${kind}`);
            }
          }
      });
    expect(met).toEqual([]);
  });

  it('have capitals of 2 mm at least', () => {
    for (const { texts } of drawn) for (const { size } of texts) expect(0.73 * size).toBeGreaterThan(1.999);
  });

  it('stand nearer to their own piece than to any other: number, and letter', () => {
    for (const { texts, sheet } of drawn)
      for (const { at, text, anchor } of texts) {
        if (anchor === 'left') continue;
        const far = sheet.placed.map(({ piece, place }) => {
          const rings = piece.lines.contours.map((ring) => movedRing(place, ring));
          const on = rings.some((ring) => inside(ring, at));
          const away = Math.min(...rings.flatMap(edgesOf).map((edge) => distanceTo(edge, at)));
          return { piece, away: on ? 0 : away };
        });
        const nearest = far.reduce((a, b) => (b.away < a.away ? b : a)).piece;
        const own = /^\d/.test(text)
          ? text.split(' ')[0] === `${nearest.number}`
          : nearest.marks.some(({ letter }) => letter === text.replace(/[()]/g, ''));
        expect(own, `${text} beside ${nearest.net.name}`).toBe(true);
      }
  });
});

it('a glue area in two patches has its letter on each', () => {
  // A bar glued over a window: it holds on either side of it.
  const assembly = assemble([
    {
      name: 'card',
      kind: 'glued-piece',
      on: 'left page',
      at: [-120, 40],
      outline: { polygon: rectangle(80, 60), holes: [rectangle(30, 40).map(([x, y]) => [x + 25, y + 10])] },
    },
    { name: 'bar', kind: 'glued-piece', on: 'card', at: [5, 20], outline: { polygon: rectangle(70, 15) } },
  ]);
  const { sheets, bonds } = plan(assembly);
  const letter = bonds.find(({ bond }) => bond.giver.net.name === 'bar')?.letter ?? '';
  const settings = settingsOf({ figure: 'test' }, assembly.thicknessOf);
  const texts = sheets.flatMap((sheet, i) => drawSheet(sheet, i, sheets.length, settings).texts);
  expect(texts.filter(({ text }) => text.replace(/[()]/g, '') === letter)).toHaveLength(4);
});
