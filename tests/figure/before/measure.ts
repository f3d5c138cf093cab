import type { Figure } from '../../../src/figure/figure.js';
import { CannotBuild } from '../../../src/motion/cannot-build.js';
import { Opening } from '../../../src/motion/opening.js';
import { worldPoint } from '../../../src/motion/pose.js';
import { measure } from '../../../src/score/reach.js';

/**
 * Where the card of a figure lies as its page turns, and what it reaches: for the figure as it starts, and with every
 * range a quarter and three quarters along. All to a thousandth of a millimetre or degree.
 */
export function measured(figure: Figure): object {
  const at = (share: number) =>
    Float64Array.from(figure.free, (dim) =>
      dim.kind === 'real'
        ? dim.min + share * (dim.max - dim.min)
        : Math.round(share * (dim.options.length - 1)),
    );
  return {
    start: of(figure, figure.start),
    quarter: of(figure, at(0.25)),
    'three quarters': of(figure, at(0.75)),
  };
}

function of(figure: Figure, vector: Float64Array): object {
  const opening = new Opening();
  try {
    const assembly = figure.build(vector);
    opening.run(assembly, 10);
    const places = assembly.panels.flatMap(({ name, outline, role }, k) => {
      // Tabs are the program's own.
      if (role === 'tab') return [];
      const corners: number[] = [];
      for (const frame of [0, 6, 12, 18])
        for (const corner of [0, 2]) {
          if (frame >= opening.count) continue;
          const p = [0, 0, 0];
          worldPoint(opening.frame(frame), k, outline[corner], outline[corner + 1], p);
          corners.push(...p.map(rounded));
        }
      return [[name, corners.join(' ')]];
    });
    const wants = figure.wantsOf(vector).map((want) => {
      const found = measure(want, assembly, opening);
      return [want.name, 'value' in found ? rounded(found.value) : found.unknown.because];
    });
    return { lock: opening.lock, places: Object.fromEntries(places), wants: Object.fromEntries(wants) };
  } catch (error) {
    if (!(error instanceof CannotBuild)) throw error;
    return { cannotBuild: error.message };
  }
}

const rounded = (value: number): number => Math.round(value * 1000) / 1000 || 0;
