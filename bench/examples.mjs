/** What the benches share: the examples, compiled, and plain samples of them. */
import { fileURLToPath } from 'node:url';
import { compileFigure } from '../dist/src/figure/figure.js';
import { readFigure } from '../dist/src/figure/read.js';
import { Sobol } from '../dist/src/search/sobol.js';

export const example = (name) =>
  compileFigure(readFigure(fileURLToPath(new URL(`../examples/${name}.yaml`, import.meta.url))));

/** The first `count` points of the figure's Sobol sequence, as candidates. */
export function samples(figure, count, seed = 1) {
  const sobol = new Sobol(figure.free.length, seed);
  return Array.from({ length: count }, (_, i) => {
    const unit = sobol.point(i);
    return Float64Array.from(figure.free, (dim, k) =>
      dim.kind === 'choice'
        ? Math.floor(unit[k] * dim.options.length)
        : dim.min + unit[k] * (dim.max - dim.min),
    );
  });
}

/** Milliseconds of processor time that `work` takes. */
export function cpu(work) {
  const from = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(from);
  return (user + system) / 1000;
}
