import { max, min } from 'simple-statistics';
import type { Goal } from '../figure/wants.js';
import { hypervolume } from '../search/hypervolume.js';
import type { Layout } from '../study/row.js';
import type { ScoreRows } from '../study/score-log.js';
import type { StudyTable } from '../study/table.js';
import { type Labour, labourOf } from './labour.js';
import { mostRobust } from './robustness.js';
import type { Variant } from './variants.js';
import type { Measure } from './weigh.js';

/** One exploration of one variant. */
export interface Run {
  readonly variant: number;
  readonly seed: number;
  readonly table: StudyTable;
  /** The dummy that is worth most when it is cut by hand, among those that work; null when none does. */
  readonly best: number | null;
  /** Whether the maker's own dummy works, and how desirable it is; null where it was not scored. */
  readonly own: { readonly works: boolean; readonly desirability: number } | null;
  /** What the best takes to make. */
  readonly labour: Labour | null;
  /** Robustness: the share of dummies of the best that still work when cut by hand, per cent. */
  readonly robust: number | null;
}

/** With more wants than this the front's share of their space takes too long to work out. */
const MOST_WANTS = 5;
/** Differences that a maker would not see, or not care about, are none. */
const MATTERS: Readonly<Record<string, number>> = {
  '%': 1,
  mm: 0.1,
  degrees: 0.5,
  'cm²': 1,
  N: 1,
  '': 0.01,
};

export async function runOf(
  variant: Variant,
  place: number,
  seed: number,
  table: StudyTable,
  layout: Layout,
  scoreRows: ScoreRows,
): Promise<Run> {
  const worth = (candidate: number) => layout.desirability(table.numbers(candidate)) || 0;
  const own = table.hasOwn ? { works: table.outcome(0) === 'works', desirability: worth(0) } : null;
  const found = await mostRobust(variant, table, layout, seed, scoreRows);
  if (found === null) return { variant: place, seed, table, best: null, own, labour: null, robust: null };
  const { candidate: best, share: robust } = found;
  const labour = labourOf(variant.figure.build(table.vector(best).slice()));
  return { variant: place, seed, table, best, own, labour, robust };
}

/** All by which variants are weighed, from the runs of all of them. */
export function measuresOf(
  runs: readonly Run[],
  variants: number,
  layouts: readonly Layout[],
  goals: readonly Goal[],
): Measure[] {
  const values = (of: (run: Run, layout: Layout) => number | null) =>
    Array.from({ length: variants }, (_, variant) =>
      runs.filter((run) => run.variant === variant).map((run) => of(run, layouts[variant])),
    );
  const measure = (
    name: string,
    unit: string,
    better: Measure['better'],
    of: (run: Run, layout: Layout) => number | null,
    nothingIsWorst = true,
  ): Measure => ({ name, unit, better, values: values(of), matters: MATTERS[unit], nothingIsWorst });
  return [
    measure('plain samples that work', '%', 'more', shareThatWorks),
    measure('greatest desirability', '', 'more', greatestDesirability),
    ...(goals.length >= 2 && goals.length <= MOST_WANTS
      ? [measure('wants covered by the front', '%', 'more', frontShare)]
      : []),
    ...goals.map((goal, want) =>
      measure(
        nameOf(goal),
        goal.unit,
        goal.least === undefined || goal.most !== undefined ? 'less' : 'more',
        (run, layout) => bestOf(run, layout, goal, want),
      ),
    ),
    measure('robustness of the best', '%', 'more', ({ robust }) => robust),
    measure('hardest force of the best', 'N', 'less', ({ table, best }, layout) =>
      best === null ? null : numberOf(layout.force(table.numbers(best))),
    ),
    measure('card of the best', 'cm²', 'less', ({ labour }) => labour?.card ?? null, false),
    measure('pieces of the best', '', 'less', ({ labour }) => labour?.pieces ?? null, false),
    measure('glue joints of the best', '', 'less', ({ labour }) => labour?.glueJoints ?? null, false),
  ];
}

/** Null for what is not known. */
const numberOf = (value: number): number | null => (Number.isNaN(value) ? null : value);

/** Of the dummies that were spread evenly through the ranges, per cent. */
function shareThatWorks({ table }: Run): number {
  const spread = table.spread();
  const works = spread.filter((candidate) => table.outcome(candidate) === 'works').length;
  return (100 * works) / spread.length;
}

/** Of what works, as drawn. */
function greatestDesirability({ table }: Run, layout: Layout): number | null {
  const working = table.where((candidate) => table.outcome(candidate) === 'works');
  return working.reduce<number | null>(
    (most, candidate) => Math.max(most ?? 0, layout.desirability(table.numbers(candidate))),
    null,
  );
}

/**
 * How much of all that could be wished for the front reaches: the hypervolume of the wants' desirabilities, per cent. 100
 * would be one dummy that meets every want wholly.
 */
function frontShare({ table }: Run, layout: Layout): number | null {
  const working = table.where((candidate) => table.outcome(candidate) === 'works');
  if (working.length === 0) return null;
  const points = working.map((candidate) =>
    layout.wants.map((_, want) => 1 - layout.wantDesirability(table.numbers(candidate), want)),
  );
  return (
    100 *
    hypervolume(
      points,
      layout.wants.map(() => 1),
    )
  );
}

/** A want that has no better side is measured by how far it is off its middle. */
const nameOf = ({ name, least, most, target }: Goal): string =>
  target !== undefined || (least !== undefined && most !== undefined) ? `${name}, off its middle` : name;

/** The best value of a want among the dummies that work. */
function bestOf({ table }: Run, layout: Layout, { least, most, target }: Goal, want: number): number | null {
  const middle = target ?? (least !== undefined && most !== undefined ? (least + most) / 2 : null);
  const values = table
    .where((candidate) => table.outcome(candidate) === 'works')
    .map((candidate) => layout.wantValue(table.numbers(candidate), want));
  if (values.length === 0) return null;
  if (middle !== null) return min(values.map((value) => Math.abs(value - middle)));
  return least === undefined ? min(values) : max(values);
}
