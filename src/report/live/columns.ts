import type { Figure } from '../../figure/figure.js';
import { LIMITS } from '../../limits/index.js';
import type { Better, Candidates, Embedded } from './data.js';

/** One dim or score across all candidates of the page. */
export interface Column {
  readonly name: string;
  /** mm, degrees or nothing. */
  readonly unit: string;
  readonly kind: 'dim' | 'desirability' | 'want' | 'limit';
  /** What the options of a choice are called; its values are then their places. */
  readonly options: readonly string[] | null;
  readonly better: Better;
  /** NaN where not computed. */
  readonly values: Float64Array;
  readonly least: number;
  readonly most: number;
}

/** The columns of a study: its free dims, desirability, wants and limits. */
export function columnsOf(
  figure: Figure,
  page: Pick<Embedded, 'better' | 'limits'>,
  candidates: Candidates,
): Column[] {
  const { count, vectors, desirability, values } = candidates;
  const strided = (from: Float64Array | Float32Array, width: number, place: number) =>
    Float64Array.from({ length: count }, (_, row) => from[row * width + place]);
  const width = figure.wants.length + page.limits.length;
  const dims = figure.free.map((dim, place) =>
    column({
      name: dim.name,
      unit: dim.unit,
      kind: 'dim',
      options: dim.kind === 'choice' ? dim.options.map(String) : null,
      better: null,
      values: strided(vectors, figure.free.length, place),
    }),
  );
  const wants = figure.wants.map(({ name, unit }, place) =>
    column({
      name,
      unit,
      kind: 'want',
      options: null,
      better: page.better[place],
      values: strided(values, width, place),
    }),
  );
  const limits = page.limits.map(({ name, unit }, place) =>
    column({
      name,
      unit,
      kind: 'limit',
      options: null,
      better: betterOf(figure, name),
      values: strided(values, width, figure.wants.length + place),
    }),
  );
  const worth = column({
    name: 'desirability',
    unit: '',
    kind: 'desirability',
    options: null,
    better: 'more',
    values: Float64Array.from(desirability),
  });
  return [...dims, worth, ...wants, ...limits];
}

/** A limit that asks for enough is kept by more. */
function betterOf({ limits }: Figure, name: string): Better {
  const limit = LIMITS.find((each) => each.name === name);
  return limit !== undefined && 'least' in limit.bound(limits) ? 'more' : 'less';
}

function column(of: Omit<Column, 'least' | 'most'>): Column {
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (const value of of.values) {
    if (value < least) least = value;
    if (value > most) most = value;
  }
  return least > most ? { ...of, least: 0, most: 0 } : { ...of, least, most };
}

/** Whether a column tells candidates apart at all. */
export const varies = ({ least, most }: Column): boolean => most > least;
