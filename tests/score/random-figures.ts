import type { Assembly } from '../../src/motion/assembly.js';
import { CannotBuild } from '../../src/motion/cannot-build.js';
import { assemble, type PlainPart } from '../support/assemble.js';

/** The same numbers from the same seed: mulberry32, public domain. */
export function random(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t = (t + Math.imul(t ^ (t >>> 7), t | 61)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

/**
 * A figure of a few parts set down at random, with arms that reach across one another: tents, V-folds upright and
 * swinging over, counter-folds with arms of every shape, some of them thin as a straw or with a hook at the end.
 */
export function randomFigure(rnd: () => number): Assembly {
  for (;;) {
    try {
      return assemble(randomParts(rnd));
    } catch (error) {
      if (!(error instanceof CannotBuild)) throw error;
    }
  }
}

/** The parts of such a figure; not all can be built. */
export function randomParts(rnd: () => number): PlainPart[] {
  const between = (least: number, most: number) => least + rnd() * (most - least);
  const parts: PlainPart[] = [];
  const stands = 1 + Math.floor(3 * rnd());
  for (let k = 0; k < stands; k++) {
    const name = `stand ${k}`;
    const at = 10 + 60 * k + between(0, 30);
    const kind = rnd();
    if (kind < 0.3) {
      const feet = between(8, 40);
      const length = Math.min(200 - at, between(15, 60));
      parts.push({
        name,
        kind: 'parallel-fold',
        at,
        length,
        glue: [feet, feet],
        widths: [feet + between(0, 25), feet + between(0, 25)].map((w, i, both) => (i === 0 ? w : both[0])),
        tab: { width: 4 },
      });
      parts.push(...arm(`${name} sail`, `${name} left`, rnd));
    } else {
      const g = between(25, 80);
      const other = kind < 0.5 ? between(25, 80) : g;
      const more = kind < 0.5 ? 0 : between(0, 30);
      parts.push({
        name,
        kind: 'v-fold',
        at,
        toward: rnd() < 0.5 ? 'end' : 'start',
        glue: [g, other],
        panels: [other + more, g + more],
        feet: [between(10, 60), between(10, 60)],
        ridge: between(20, 80),
        tab: { width: 4 },
      });
      if (rnd() < 0.7) {
        parts.push({
          name: `${name} fork`,
          kind: 'counter-fold',
          on: `${name} ridge`,
          at: between(1, 12),
          diagonal: between(15, 40),
          side: between(5, 10),
          length: between(6, 12),
        });
        parts.push(...arm(`${name} arm`, `${name} fork left`, rnd));
      } else parts.push(...arm(`${name} wing`, `${name} right`, rnd));
    }
  }
  return parts;
}

/** A piece glued on a panel: a strip, a hook or a frame with a window. */
function arm(name: string, on: string, rnd: () => number): PlainPart[] {
  if (rnd() < 0.3) return [];
  const long = 5 + 60 * rnd() * rnd();
  const half = rnd() < 0.3 ? 0.5 : 1 + 5 * rnd();
  const turn = 90 * rnd() * (rnd() < 0.5 ? 1 : 4);
  const shape = rnd();
  const strip = [
    [0, -half],
    [long, -half],
    [long, half],
    [0, half],
  ];
  const hook = [
    [0, -half],
    [long, -half],
    [long, 4 * half],
    [long - 2 * half, 4 * half],
    [long - 2 * half, half],
    [0, half],
  ];
  const outline =
    shape < 0.5
      ? { polygon: strip }
      : shape < 0.8
        ? { polygon: hook }
        : {
            polygon: [
              [0, 0],
              [long, 0],
              [long, long / 2],
              [0, long / 2],
            ],
            holes: [
              [
                [3, 3],
                [long - 3, 3],
                [long - 3, long / 2 - 3],
                [3, long / 2 - 3],
              ],
            ],
          };
  return [{ name, kind: 'glued-piece', on, at: [2, 2], turn, outline }];
}
