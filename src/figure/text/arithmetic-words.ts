const RADIANS = Math.PI / 180;

export type Apply = (...values: number[]) => number;

interface ArithmeticFunction {
  readonly least: number;
  readonly most: number;
  readonly apply: Apply;
}

const one = (apply: (x: number) => number): ArithmeticFunction => ({ least: 1, most: 1, apply });

/** All functions of arithmetic. Angles are in degrees, going in and coming out. */
export const FUNCTIONS: Readonly<Record<string, ArithmeticFunction>> = {
  min: { least: 1, most: 50, apply: Math.min },
  max: { least: 1, most: 50, apply: Math.max },
  sqrt: one(Math.sqrt),
  abs: one(Math.abs),
  sin: one((x) => Math.sin(x * RADIANS)),
  cos: one((x) => Math.cos(x * RADIANS)),
  tan: one((x) => Math.tan(x * RADIANS)),
  asin: one((x) => Math.asin(x) / RADIANS),
  acos: one((x) => Math.acos(x) / RADIANS),
  atan: one((x) => Math.atan(x) / RADIANS),
};

/** What arithmetic may ask of the open figure: of how many names, and how it is written. */
export const MEASURES: Readonly<Record<string, { readonly names: number; readonly form: string }>> = {
  distance: { names: 2, form: 'distance(one place to another)' },
  length: { names: 1, form: 'length(crease or line)' },
  angle: { names: 2, form: 'angle(one line to another)' },
  heading: { names: 2, form: 'heading(line on panel)' },
  along: { names: 2, form: 'along(place on panel or line)' },
  up: { names: 2, form: 'up(place on panel or line)' },
};

/** Arithmetic that cannot be read: where within its text (from 0), what was found and what would do. */
export class ArithmeticError extends Error {
  constructor(
    readonly at: number,
    readonly found: string,
    readonly remedy: string,
  ) {
    super(`found ${found} at place ${at + 1}; ${remedy}`);
    this.name = 'ArithmeticError';
  }
}
