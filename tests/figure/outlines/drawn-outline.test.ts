import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Drawing } from '../../../src/figure/outlines/drawing.js';
import { drawnOutline } from '../../../src/figure/outlines/drawn-outline.js';
import { flatten, PathFault, TOLERANCE } from '../../../src/figure/outlines/flatten.js';
import { signedArea } from '../../../src/geometry/polygon.js';

const MM = 'width="200mm" height="100mm" viewBox="0 0 200 100"';
const drawing = (inner: string, root = MM) =>
  `<svg xmlns="http://www.w3.org/2000/svg" ${root}>${inner}</svg>`;
const outlineFromSvg = (svg: string, id: string, zero?: [number, number]) =>
  drawnOutline(new Drawing(svg), id, zero);
const pathOf = (d: string, more = '') => `<path id="hull" ${more} d="${d}"/>`;
const outline = (d: string, zero?: [number, number]) => outlineFromSvg(drawing(pathOf(d)), 'hull', zero);
const areaOf = (ring: number[][]) => Math.abs(signedArea(Float64Array.from(ring.flat())));

function fault(svg: string, id = 'hull'): string {
  try {
    outlineFromSvg(svg, id);
  } catch (error) {
    if (error instanceof PathFault) return error.message;
    throw error;
  }
  throw new Error('it was accepted');
}

describe('an outline from an SVG file', () => {
  it('has its y turned up, and its lower left corner at (0, 0)', () => {
    expect(outline('M 50 20 h 30 v 40 h -30 z').polygon).toEqual([
      [0, 40],
      [30, 40],
      [30, 0],
      [0, 0],
    ]);
  });

  it('may be placed by a point of the drawing', () => {
    expect(outline('M 50 20 H 80 V 60 H 50', [60, 50]).polygon).toEqual([
      [-10, 30],
      [20, 30],
      [20, -10],
      [-10, -10],
    ]);
  });

  it('has the smaller rings as holes, whichever comes first', () => {
    const { polygon, holes } = outline('M 5 5 h 4 v 4 h -4 z m 15 5 l 4 0 l 0 4 z M 0 0 H 40 V 40 H 0 Z');
    expect(areaOf(polygon)).toBe(1600);
    expect(holes?.map(areaOf)).toEqual([16, 8]);
  });

  it('goes on from where a ring was closed', () => {
    expect(flatten('M 1 2 h 4 v 4 z h -4 v -4', [])).toEqual([
      [
        [1, 2],
        [5, 2],
        [5, 6],
      ],
      [
        [1, 2],
        [-3, 2],
        [-3, -2],
      ],
    ]);
  });

  it.each([
    ['quarter circles as arcs', 'M 0 20 A 20 20 0 0 1 40 20 A 20 20 0 0 1 0 20 Z', Math.PI * 400],
    // Four cubic curves with the usual handle: 4/3 (√2 − 1) of the radius.
    [
      'a circle of cubic curves',
      'M 40 20 c 0 11.0457 -8.9543 20 -20 20 s -20 -8.9543 -20 -20 s 8.9543 -20 20 -20 s 20 8.9543 20 20 z',
      Math.PI * 400,
    ],
    // Archimedes: a parabola's segment is two thirds of the box around it. Here 40 wide, 20 high.
    ['a parabola', 'M 0 0 Q 20 40 40 0 Z', (2 / 3) * 40 * 20],
    ['two parabolas', 'M 0 0 Q 20 40 40 0 T 80 0 L 80 -40 L 0 -40 Z', 80 * 40],
  ])('flattens %s', (_, d, area) => {
    const { polygon } = outline(d);
    // A chord takes away at most the tolerance along its length.
    expect(Math.abs(areaOf(polygon) - area)).toBeLessThan(TOLERANCE * 160);
    expect(polygon.length).toBeLessThan(200);
  });

  it('keeps a curve within its tolerance of the chords', () => {
    const coordinate = fc.double({ min: 0, max: 100, noNaN: true }).map((v) => Math.round(v * 100) / 100);
    const point = fc.tuple(coordinate, coordinate);
    fc.assert(
      fc.property(point, point, (p1, p2) => {
        // Drawn above a base line so that it is one simple outline: handles lie over the ends.
        const [h1, h2] = [p1[1] + 5, p2[1] + 5];
        const { polygon } = outline(`M 0 0 C 0 ${-h1} 100 ${-h2} 100 0 L 100 30 L 0 30 Z`, [0, 0]);
        for (let i = 0; i <= 200; i++) {
          const t = i / 200;
          // Bernstein's form, worked out here.
          const x = 3 * (1 - t) * t * t * 100 + t ** 3 * 100;
          const y = 3 * (1 - t) ** 2 * t * h1 + 3 * (1 - t) * t * t * h2;
          expect(distanceTo(polygon, x, y)).toBeLessThan(TOLERANCE + 0.001);
        }
      }),
      { numRuns: 100 },
    );
  });
});

function distanceTo(ring: readonly (readonly [number, number])[], x: number, y: number): number {
  return Math.min(
    ...ring.map(([x0, y0], i) => {
      const [x1, y1] = ring[(i + 1) % ring.length];
      const along = ((x - x0) * (x1 - x0) + (y - y0) * (y1 - y0)) / Math.hypot(x1 - x0, y1 - y0) ** 2;
      const t = Math.min(1, Math.max(0, along));
      return Math.hypot(x - x0 - t * (x1 - x0), y - y0 - t * (y1 - y0));
    }),
  );
}

describe('the size of a drawing', () => {
  const square = (root: string, around = (path: string) => path) =>
    outlineFromSvg(drawing(around(pathOf('M 10 10 h 10 v 10 h -10 z')), root), 'hull').polygon[1];

  it.each([
    ['in mm', 'width="100mm" height="50mm" viewBox="0 0 100 50"', 10],
    ['in mm, drawn larger', 'width="100mm" height="50mm" viewBox="0 0 200 100"', 5],
    ['in cm', 'width="10cm" height="5cm" viewBox="0 0 100 50"', 10],
    ['in inches', 'width="10in" height="5in" viewBox="0 0 254 127"', 10],
    // CSS Values and Units: 96 px, 72 pt and 6 pc are one inch.
    ['in points', 'width="720pt" height="360pt" viewBox="0 0 254 127"', 10],
    ['in picas', 'width="60pc" height="30pc" viewBox="0 0 254 127"', 10],
    ['in pixels', 'width="960" height="480px" viewBox="0 0 254 127"', 10],
    ['without a viewBox', 'width="10mm" height="3mm"', 254 / 96],
    ['with a viewBox that begins elsewhere', 'width="100mm" height="50mm" viewBox="-50,-20 100 50"', 10],
  ])('is understood %s', (_, root, side) => {
    const [x, y] = square(root);
    expect(x).toBeCloseTo(side, 2);
    expect(y).toBeCloseTo(side, 2);
  });

  it('counts from the top left corner of the drawing', () => {
    const svg = drawing(
      pathOf('M 10 10 h 10 v 10 h -10 z'),
      'width="100mm" height="50mm" viewBox="-50 -20 100 50"',
    );
    expect(outlineFromSvg(svg, 'hull', [0, 0]).polygon[0]).toEqual([60, -30]);
  });

  it.each([
    ['viewBox="0 0 100 50"', 'found a drawing without a size; give the drawing'],
    ['width="100%" height="100%" viewBox="0 0 100 50"', "found the size '100%'"],
    ['width="0mm" height="50mm" viewBox="0 0 100 50"', "found the size '0mm'"],
    ['width="100mm" height="80mm" viewBox="0 0 100 50"', 'of another shape than the viewBox'],
    ['width="100mm" height="50mm" viewBox="0 0 100"', "found the viewBox '0 0 100'"],
    ['width="100mm" height="50mm" viewBox="0 0 0 0"', "found the viewBox '0 0 0 0'"],
    ['width="5em" height="5em" viewBox="0 0 5 5"', "found the size '5em'"],
  ])('is refused when it is %s', (root, message) => {
    expect(fault(drawing(pathOf('M 0 0 h 9 v 9 z'), root))).toContain(message);
  });
});

describe('what moves a path in its drawing', () => {
  it('counts, from the path outward', () => {
    const svg = drawing(
      `<g transform="translate(100 0)"><g transform="scale(2)">${pathOf('M 1 1 h 5 v 5 h -5 z', 'transform="rotate(90)"')}</g></g>`,
    );
    // (x, y) turns to (−y, x), doubles, moves by 100: (1, 1) → (98, 2), (6, 1) → (98, 12), (6, 6) → (88, 12).
    expect(outlineFromSvg(svg, 'hull', [0, 0]).polygon).toEqual([
      [98, -2],
      [98, -12],
      [88, -12],
      [88, -2],
    ]);
  });

  it.each([
    ['transform="perspective(3)"', "found the transform 'perspective(3)'"],
    ['transform="translate(3mm)"', "found the transform 'translate(3mm)'"],
    ['transform="scale(1,2,3)"', "found the transform 'scale(1,2,3)'"],
    ['transform="rotate(10) nonsense"', "found the transform 'nonsense'"],
    ['style="transform: scale(2)"', 'found a transform in a style'],
  ])('is refused when it is %s', (more, message) => {
    expect(fault(drawing(pathOf('M 0 0 h 9 v 9 z', more)))).toContain(message);
  });

  it('is refused where a path stands in something that is not drawn in place', () => {
    expect(fault(drawing(`<symbol viewBox="0 0 1 1">${pathOf('M 0 0 h 9 v 9 z')}</symbol>`))).toContain(
      "found a path inside 'symbol'; put it in the drawing itself",
    );
    expect(fault(drawing(pathOf('M 0 0 h 9 v 9 z'), `${MM} transform="scale(2)"`))).toContain(
      'on the whole drawing',
    );
  });
});

describe('a path that is no outline', () => {
  it.each([
    ['', 'found a path without area'],
    ['M 0 0', 'found a path without area'],
    ['M 0 0 L 10 0 Z', 'found a path without area'],
    ['M 0 0 L 30 30 L 30 0 L 0 10 Z', 'mm: the outline meets itself'],
    // A bow-tie and an eight: halves drawn round the other way each, whose areas cancel out.
    [
      'M 0 0 L 10 10 L 10 0 L 0 10 Z',
      'found a path that is no outline near (5, 5) mm: the outline meets itself',
    ],
    ['M 0 0 H 40 V 40 H 0 Z M 5 5 L 15 15 L 15 5 L 5 15 Z', 'mm: the outline meets itself'],
    [
      'M 0 0.0014 V 0.0006 L 60 0.002 Z',
      'found a path that is no outline near (0, 0.001) mm: fewer than three corners',
    ],
    ['M 0 0 h 10 v 10 h -10 z M 20 0 h 10 v 5 h -10 z', 'found a path that is no outline near ('],
    ['M 0 0 L 10 x', 'found a path that cannot be read'],
    ['L 10 10 10 0', 'found a path that cannot be read'],
    ['M 0 0 L 1e9 0 L 0 1e9 Z', 'found a path that leaves all bounds'],
    ['M 0 0 C 1e300 0 0 1e300 5 5 Z', 'found a curve too large'],
    ['M 0 0 L 1e999 0 L 0 5 Z', 'found '],
    [`M 0 0${' l 1 1'.repeat(2001)}`, 'found a path of too many corners; at most 2000'],
    [`M 0 0 L${' 0'.repeat(50_000)}`, 'found a path of 100007 characters; at most 100000'],
    [`M 0 0 L${' 1'.repeat(49_000)}`, 'found a path of too many corners'],
    ['M 0 0 R 1 1 2 2 3 0 4 0', 'found the path command R'],
  ])('such as %j is refused', (d, message) => {
    expect(fault(drawing(pathOf(d)))).toContain(message);
  });
});

describe('an SVG file', () => {
  it.each([
    ['', 'found what XML does not allow'],
    ['\x89PNG', 'found what XML does not allow'],
    ['<svg><path id="hull" d="M 0 0">', 'found what XML does not allow'],
    ['<svg>&boom;</svg>', 'found what XML does not allow'],
    ['<html/>', "found a file of 'html'; give an SVG file"],
    [drawing(''), "found no path with the id 'hull'"],
    [drawing(pathOf('M 0 0 h 9 v 9 z') + pathOf('M 0 0 h 9 v 9 z')), "found the id 'hull' twice"],
    [drawing('<rect id="hull" width="3" height="3"/>'), "found 'rect' with that id; turn it into a path"],
    [drawing('<path id="hull"/>'), "found 'path' with that id"],
    [drawing('<g>'.repeat(300) + '</g>'.repeat(300)), 'found groups 100 deep'],
  ])('such as %j is refused', (svg, message) => {
    expect(fault(svg)).toContain(message);
  });

  it('is not asked to fetch or to expand anything', () => {
    const bomb = `<!DOCTYPE svg [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;"><!ENTITY c SYSTEM "file:///etc/passwd">]>`;
    expect(fault(`${bomb}${drawing(`<text>&b;</text>${pathOf('M 0 0 h 9 v 9 z')}`)}`)).toContain(
      'undefined entity',
    );
    expect(fault(`${bomb}${drawing(`<text>&c;</text>${pathOf('M 0 0 h 9 v 9 z')}`)}`)).toContain(
      'undefined entity',
    );
  });

  it('may have names with a prefix, comments, and a declaration', () => {
    const svg = `<?xml version="1.0" encoding="UTF-8"?><!-- hull --><svg:svg xmlns:svg="http://www.w3.org/2000/svg" ${MM}>
      <svg:g><svg:path id="hull" d="M 0 0 h 9 v 9 z"/></svg:g></svg:svg>`;
    expect(outlineFromSvg(svg, 'hull').polygon).toHaveLength(3);
  });

  it('never brings about anything but a PathFault', () => {
    const bits = fc.constantFrom(
      ...'MmLlHhVvCcSsQqTtAaZzRr',
      '1',
      '-2.5',
      '1e3',
      ' 3 4',
      ',',
      '.',
      '0 0 1',
      '99999',
    );
    const d = fc.array(bits, { maxLength: 30 }).map((all) => `M 0 0 h 5 v 5 ${all.join(' ')}`);
    const transform = fc.constantFrom(
      '',
      'scale(1e300)',
      'scale(0)',
      'matrix(1 2 3 4 5 6)',
      'skewX(90)',
      'rotate(1e99)',
    );
    fc.assert(
      fc.property(d, transform, (path, moved) => {
        try {
          const { polygon } = outlineFromSvg(drawing(pathOf(path, `transform="${moved}"`)), 'hull');
          expect(polygon.flat().every(Number.isFinite)).toBe(true);
        } catch (error) {
          if (!(error instanceof PathFault)) throw error;
        }
      }),
      { numRuns: 2000 },
    );
  });
});
