import { describe, expect, test } from 'vitest';
import type { Assembly } from '../../src/motion/assembly.js';
import { CannotBuild } from '../../src/motion/cannot-build.js';
import { senseAt } from '../../src/motion/crease-sense.js';
import { POSE } from '../../src/motion/pose.js';
import { random } from '../score/random-figures.js';
import { assemble, open, type PlainPart } from '../support/assemble.js';

const A4 = { width: 210, height: 297 };

/** The panels that turn by more than 20° within the last 0.01° before a flat state, and how far. */
function flips(assembly: Assembly): string[] {
  const opening = open(assembly);
  const found: string[] = [];
  const ends = opening.lock === null ? [0, 180] : [180];
  if (opening.count < 2) return found;
  for (const flat of ends) {
    const before = opening.at(flat === 0 ? 0.01 : 179.99).slice();
    const there = opening.at(flat);
    assembly.panels.forEach(({ name }, k) => {
      let trace = 0;
      for (const r of [0, 1, 2, 4, 5, 6, 8, 9, 10]) trace += before[k * POSE + r] * there[k * POSE + r];
      const turned = (Math.acos(Math.max(-1, Math.min(1, (trace - 1) / 2))) * 180) / Math.PI;
      if (turned > 20) found.push(`${name} by ${turned.toFixed(0)}° at ${flat}`);
    });
  }
  return found;
}

/** Whether a crease that something stands on passes through flat in the middle of the opening: a dead point. */
function passesFlat(assembly: Assembly, parts: readonly PlainPart[]): boolean {
  const opening = open(assembly);
  return parts.some(({ on }) => {
    const crease = assembly.creaseNamed(String(on), 'on');
    const seen = new Set<number>();
    for (let frame = 1; frame < opening.count - 1; frame++) seen.add(senseAt(crease, opening.frame(frame)));
    return seen.has(1) && seen.has(-1);
  });
}

describe('a fold does not flip in a flat state', () => {
  test('on the foot of a V-fold that points out and whose sides differ', () => {
    const parts: PlainPart[] = [
      {
        name: 'layer',
        kind: 'parallel-fold',
        shape: 'layer',
        at: 200,
        length: 62,
        glue: [28, 28],
        widths: [28, 28],
        layers: [28, 25],
      },
      {
        name: 'v',
        kind: 'v-fold',
        on: 'layer left edge',
        at: 37,
        glue: [76, 52],
        panels: [52, 76],
        feet: [33, 33],
        ridge: 28,
        points: 'out',
      },
      {
        name: 'w',
        kind: 'v-fold',
        on: 'v right foot inner',
        at: 25,
        glue: [41, 41],
        panels: [60, 60],
        feet: [6, 6],
        ridge: 7,
      },
    ];
    expect(flips(assemble(parts, A4))).toEqual([]);
  });

  test.each([0.1, 0.3, 1])(
    'on a ridge that is open by a hair: a layer on a layer whose one side is %d mm too wide stays above it',
    (off) => {
      const layer = (name: string, on: string, more: number): PlainPart => ({
        name,
        kind: 'parallel-fold',
        shape: 'layer',
        on,
        at: 2,
        length: on === 'gutter' ? 60 : 40,
        glue: [10, 10],
        widths: [20 + more, 20],
        layers: [30, 30],
      });
      const parts = (more: number) => [layer('water', 'gutter', more), layer('hill', 'water ridge', 0)];
      const exact = open(assemble(parts(0), A4));
      const assembly = assemble(parts(off), A4);
      const cut = open(assembly);
      for (const angle of [10, 2, 0.6, 0.1, 0]) {
        const there = exact.at(angle).slice();
        cut.at(angle).forEach((value, k) => {
          const where = `${assembly.panels[Math.floor(k / POSE)].name} at ${angle}°`;
          // Rotations in the columns; in places a flip is twice the width of a side, 40 mm.
          expect(Math.abs(value - there[k]), where).toBeLessThan(k % 4 === 3 ? 6 : 1.5);
        });
      }
    },
  );

  test('in random figures of folds on folds on folds', () => {
    const rnd = random(11);
    const between = (least: number, most: number) => Math.round(least + rnd() * (most - least));
    const pick = <T>(from: readonly T[]): T => from[Math.floor(rnd() * from.length)];
    const found: string[] = [];
    let built = 0;
    while (built < 500) {
      const parts: PlainPart[] = [];
      let assembly = assemble([], A4);
      for (let i = 0; i < 3; i++) {
        const creases = [...assembly.creases.keys()].filter((name) => i === 0 || name !== 'gutter');
        const on = i === 0 ? 'gutter' : pick(creases);
        const points = rnd() < 0.5 ? 'in' : 'out';
        const small = 3 ** -i;
        let part: PlainPart;
        if (rnd() < 0.5) {
          const a = between(10, 40) * small;
          const b = rnd() < 0.6 ? a : between(10, 40) * small;
          const more = rnd() < 0.4 ? 0 : between(-10, 30) * small;
          const shut = points === 'in' ? a - b : b - a;
          const low = Math.max(1, -shut + 1);
          const widths = [(rnd() < 0.5 ? b : a) + more, 0].map((w) => Math.max(low, w));
          widths[1] = widths[0] + shut;
          const shape = rnd() < 0.3 ? 'layer' : 'tent';
          const layers =
            shape === 'layer' ? { layers: [between(5, 30) * small, between(5, 30) * small] } : {};
          part = {
            name: `p${i}`,
            kind: 'parallel-fold',
            shape,
            on,
            at: 2,
            length: 60 * small,
            glue: [a, b],
            widths,
            points,
            ...layers,
          };
        } else {
          const a = between(20, 85);
          const b = rnd() < 0.6 ? a : between(20, 85);
          const more = rnd() < 0.4 ? 0 : between(0, 30);
          const shut = points === 'in' ? b - a : a - b;
          const p = (rnd() < 0.5 ? a : b) + more;
          part = {
            name: `p${i}`,
            kind: 'v-fold',
            on,
            at: 30 * small,
            glue: [a, b],
            panels: [p, p + shut].map((v) => Math.max(5, v)),
            feet: [30 * small, 30 * small],
            ridge: 30 * small,
            points,
          };
        }
        try {
          assembly = assemble([...parts, part], A4);
          parts.push(part);
        } catch (error) {
          if (!(error instanceof CannotBuild)) throw error;
        }
      }
      if (parts.length < 2 || passesFlat(assembly, parts)) continue;
      built++;
      const flipped = flips(assembly);
      if (flipped.length > 0) found.push(`${JSON.stringify(parts)}: ${flipped.join(', ')}`);
    }
    expect(found).toEqual([]);
  });
});
