import type { Figure } from '../figure/figure.js';
import type { Variable } from '../search/evaluator.js';

/** The free dims of a figure as search sees them. */
export function variablesOf({ free }: Pick<Figure, 'free'>): Variable[] {
  return free.map((dim) =>
    dim.kind === 'choice'
      ? { name: dim.name, kind: 'choice', options: dim.options.length }
      : { name: dim.name, kind: 'real', min: dim.min, max: dim.max, step: dim.step },
  );
}
