import * as z from 'zod';
import { CannotBuild } from '../motion/cannot-build.js';
import type { Leaf, Quantity, Resolved } from './fields.js';

/** A size that a file leaves out, and that a part's kind filled in so that it shuts. */
export interface Filled {
  readonly field: string;
  readonly values: readonly [number, number];
  readonly unit: 'mm' | 'degrees';
  /** As the sizes of the other side; or so that foot and side come to the same on both; or alike on both sides. */
  readonly rule: 'other side' | 'same sum' | 'alike';
}

/** A size of either side: both, or one of which the other follows. */
export const pairOf = <Size extends z.ZodType<Quantity | Leaf<number>>>(
  size: () => Size,
  error = 'two numbers, [left, right], or one',
) => z.union([z.tuple([size(), size()]), z.tuple([size()]), size()], { error });

type Pair = readonly [number, number];
export type OneOrBoth = Resolved<z.output<ReturnType<typeof pairOf>>>;

const isPair = (size: OneOrBoth | undefined): size is [number, number] =>
  Array.isArray(size) && size.length === 2;
const first = (size: OneOrBoth): number => (Array.isArray(size) ? size[0] : size);

/** Feet and sides of a fold, in degrees or mm, with what was filled in. */
export interface Shut {
  readonly glue: Pair;
  readonly sides: Pair;
  readonly filled: readonly Filled[];
}

/**
 * Fills in what is left out of a fold's feet and sides, so that it shuts. Shut, a ridge that points in lies beyond both
 * feet, at foot + side on either side; one that points out lies before both, at foot − side: on both sides these must agree.
 * With no side given, each is as the foot of the other side: foot + side is then the sum of both feet. Out of an angle, a
 * V-fold is that fold seen from the other end of the crease, where each angle is 180° less it.
 * @param field what holds the sides
 */
export function shut(
  glue: OneOrBoth,
  sides: OneOrBoth | undefined,
  points: 'in' | 'out',
  field: 'panels' | 'widths',
): Shut {
  const unit = field === 'panels' ? 'degrees' : 'mm';
  const way = points === 'in' ? 1 : -1;
  const filled: Filled[] = [];
  const fill = (name: string, values: Pair, rule: Filled['rule']): Pair => {
    for (const value of values)
      if (!(value >= 0.01 && (unit === 'mm' || value < 179.5)))
        throw new CannotBuild(
          `so that it shuts, ${name} would have to be ${values.map((v) => v.toFixed(2)).join(' and ')}; give ${name}`,
          name,
        );
    filled.push({ field: name, values, unit, rule });
    return values;
  };
  const one = first(glue);
  const feet: Pair = isPair(glue)
    ? glue
    : isPair(sides)
      ? fill('glue', [one, one + way * (sides[0] - sides[1])], sides[0] === sides[1] ? 'alike' : 'same sum')
      : fill('glue', [one, one], 'alike');
  if (isPair(sides)) return { glue: feet, sides, filled };
  if (sides !== undefined) {
    const side = first(sides);
    const rule = feet[0] === feet[1] ? 'alike' : 'same sum';
    return { glue: feet, sides: fill(field, [side, side + way * (feet[0] - feet[1])], rule), filled };
  }
  if (points === 'in') return { glue: feet, sides: fill(field, [feet[1], feet[0]], 'other side'), filled };
  if (field === 'widths')
    throw new CannotBuild(
      'a tent that points out needs the width of one side; the other follows',
      'widths',
      true,
    );
  return { glue: feet, sides: fill(field, [180 - feet[1], 180 - feet[0]], 'other side'), filled };
}

/** Both of two sizes; one alone stands for both. */
export const bothOf = (size: OneOrBoth): Pair => (isPair(size) ? size : [first(size), first(size)]);
