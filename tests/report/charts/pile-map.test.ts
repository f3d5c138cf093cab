import { DOMParser } from 'linkedom';
import { describe, expect, test } from 'vitest';
import { pileMap } from '../../../src/report/charts/pile-map.js';
import { assemble, open, type PlainPart } from '../../support/assemble.js';
import { readSvg } from './svg.js';

const PAGE = { width: 100, height: 150 };
/** Card of 0.3 mm (as `assemble` has it): a tent whose feet stand 30 mm from the gutter, with tabs of 8 mm inside them. */
const hut: PlainPart = {
  name: 'hut',
  kind: 'parallel-fold',
  at: 20,
  length: 50,
  glue: [30, 30],
  widths: [50, 50],
  tab: { width: 8, mitre: 90 },
};
const plank = (name: string, at: [number, number], size: [number, number], turn = 0): PlainPart => ({
  name,
  kind: 'stiffener',
  on: 'left page',
  at,
  size,
  turn,
});

const mapOf = (parts: PlainPart[], name = 'shed') => {
  const assembly = assemble(parts, PAGE);
  return pileMap(name, assembly, open(assembly));
};

/** What is drawn, in mm from the gutter (to the left is minus) and from the foot: its rings, by colour. */
function drawn(svg: string) {
  const root = new DOMParser().parseFromString(svg, 'image/svg+xml');
  const marks = (label: string) => [...root.querySelectorAll(`[aria-label="${label}"]`)][0];
  const page = marks('rect').querySelector('rect') as unknown as { getAttribute(name: string): string };
  const [left, top, wide, high] = ['x', 'y', 'width', 'height'].map((name) =>
    Number(page.getAttribute(name)),
  );
  const scale = wide / PAGE.width;
  expect(high / PAGE.height).toBeCloseTo(scale, 9);
  const place = (x: number, y: number): [number, number] => [
    (x - left) / scale - PAGE.width,
    PAGE.height - (y - top) / scale,
  ];
  const paths = [...marks('geo').querySelectorAll('path')] as unknown as {
    getAttribute(name: string): string;
  }[];
  const steps = paths.map((path) => ({
    fill: path.getAttribute('fill'),
    rings: path
      .getAttribute('d')
      .split('M')
      .slice(1)
      .map((ring) =>
        ring
          .replace('Z', '')
          .split('L')
          .map((point) => place(...(point.split(',').map(Number) as [number, number]))),
      ),
  }));
  const dot = marks('dot').querySelector('circle') as unknown as { getAttribute(name: string): string };
  const pixels = paths.flatMap((path) =>
    [...path.getAttribute('d').matchAll(/([\d.-]+),([\d.-]+)/g)].map(([, x, y]) => [Number(x), Number(y)]),
  );
  return { steps, pixels, thickest: place(Number(dot.getAttribute('cx')), Number(dot.getAttribute('cy'))) };
}

const areaOf = (rings: readonly [number, number][][]): number =>
  rings.reduce((sum, ring) => {
    const twice = ring.reduce((all, [x, y], i) => {
      const [px, py] = ring[(i + ring.length - 1) % ring.length];
      return all + px * y - x * py;
    }, 0);
    return sum + Math.abs(twice) / 2;
  }, 0);
const extentOf = (rings: readonly [number, number][][]) => {
  const [xs, ys] = [0, 1].map((axis) => rings.flat().map((point) => point[axis]));
  return [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
};
const near = (values: number[]) => values.map((value) => expect.closeTo(value, 2));

describe('the map of the pile', () => {
  test('shows card where it lies when shut, and how thick, by a sum on paper', () => {
    // Shut, both sides of the tent lie from 30 to 80 mm from the gutter, both tabs from 22 to 30; a plank of 20 × 45 mm
    // sticks out at the head, another lies on 10 × 20 mm of them.
    const svg = mapOf([hut, plank('flag', [-90, 120], [20, 45]), plank('shelf', [-50, 60], [10, 20])]);
    const { steps, thickest } = drawn(svg);
    const sum = [20 * 45 + 10 * 10, (8 + 50) * 50 - 10 * 10, 10 * 10];
    expect(steps.map(({ rings }) => areaOf(rings))).toEqual(near(sum));
    expect(readSvg(svg).description).toBe(
      'Thickest: 0.9 mm, 45 mm from the gutter and 65 mm from the foot. 0.3 mm over 1000 mm². 0.6 mm over 2800 mm². 0.9 mm over 100 mm².',
    );
    expect(steps.map(({ rings }) => extentOf(rings))).toEqual(
      [
        [-90, -40, 70, 165],
        [-80, -22, 20, 70],
        [-50, -40, 60, 70],
      ].map(near),
    );
    expect(thickest).toEqual(near([-45, 65]));
  });

  test('shows slanting card as it lies, and all that sticks out', () => {
    const [c, s] = [Math.cos(Math.PI / 6), Math.sin(Math.PI / 6)];
    const { steps, pixels } = drawn(mapOf([plank('flag', [-70, 130], [80, 20], 30)]));
    expect(areaOf(steps[0].rings)).toBeCloseTo(80 * 20, 1);
    expect(extentOf(steps[0].rings)).toEqual(near([-70 - 20 * s, -70 + 80 * c, 130, 130 + 80 * s + 20 * c]));
    for (const [x, y] of pixels) expect(Math.min(x, y)).toBeGreaterThan(0);
  });

  test('is darker where it is thicker', () => {
    const { steps } = drawn(
      mapOf([hut, plank('flag', [-90, 120], [20, 20]), plank('shelf', [-50, 60], [10, 20])]),
    );
    const brightness = steps.map(({ fill }) =>
      (fill.match(/\d+/g) as string[]).reduce((sum, c) => sum + Number(c), 0),
    );
    expect(brightness).toEqual([...brightness].sort((a, b) => b - a));
    expect(new Set(brightness).size).toBe(3);
  });

  test('leaves out what is thick over a sliver only, as the pile does', () => {
    // Two planks that overlap by 0.01 mm.
    const { description } = readSvg(
      mapOf([plank('one', [-60, 60], [20, 30]), plank('other', [-80, 60], [20.01, 10])]),
    );
    expect(description).toBe(
      'Thickest: 0.3 mm, 50 mm from the gutter and 80 mm from the foot. 0.3 mm over 800 mm².',
    );
  });

  test('says so where nothing lies between the pages, and where the book does not shut', () => {
    expect(readSvg(mapOf([])).texts.join(' ')).toContain('No card lies between the pages.');
    const wide = { ...hut, widths: [60, 50] };
    expect(readSvg(mapOf([wide])).texts.join(' ')).toContain('It does not shut, so there is no pile.');
  });

  test('is well formed whatever the figure is called, and the same each time', () => {
    for (const name of [
      '<script>alert(1)</script>',
      '"/><image href="x"/>',
      '&nope; \u0000 \ud800',
      'a'.repeat(400),
    ]) {
      const svg = readSvg(mapOf([hut], name));
      for (const never of ['script', 'image', 'style', 'a', 'foreignObject'])
        expect(svg.counts.has(never)).toBe(false);
    }
    expect(mapOf([hut])).toBe(mapOf([hut]));
    expect(mapOf([hut])).not.toMatch(/NaN|undefined|Infinity|null/);
  });
});
