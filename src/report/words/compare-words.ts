import type { Comparison } from '../../compare/compare.js';
import { SURE, type Weighed } from '../../compare/weigh.js';
import { counted, spoken } from '../../text/phrases.js';
import { decimal, withUnit } from './numbers.js';

/** The verdict, a sentence or two each: who wins at what and by how much, at what nobody does, and what that amounts to. */
export function verdictInWords(comparison: Comparison): string[] {
  const { variants, weighed, seeds, samples, unequal } = comparison;
  const names = variants.map(({ name }) => name);
  const winsOf = (variant: number) => weighed.filter(({ winner }) => winner === variant);
  const undecided = weighed.filter(({ winner }) => winner === null);
  return [
    overall(names, weighed),
    ...names.flatMap((name, variant) => {
      const wins = winsOf(variant);
      return wins.length === 0
        ? []
        : [`${name} wins at: ${wins.map((each) => winInWords(each, variant, names)).join('; ')}.`];
    }),
    ...(undecided.length === 0
      ? []
      : [`No sure winner at: ${undecided.map(({ name }) => name).join('; ')}.`]),
    ...nothingWorks(comparison),
    ...ownInWords(comparison),
    ...(unequal.length === 0
      ? []
      : [`The variants differ in ${spoken(unequal)} too, so that not all is owed to how they are built.`]),
    `Each variant was explored with ${counted(seeds.length, 'seed')}, ${counted(samples, 'dummy', 'dummies')} at most each time. A win is sure: chance alone would make such a difference in fewer than ${100 * SURE} of 100 comparisons.`,
  ];
}

function overall(names: readonly string[], weighed: readonly Weighed[]): string {
  const winners = [...new Set(weighed.flatMap(({ winner }) => winner ?? []))].sort((a, b) => a - b);
  if (winners.length === 0)
    return 'No winner: the variants differ in nothing by more than chance would make them differ.';
  if (winners.length === 1) return `${names[winners[0]]} is the better one: it loses in nothing.`;
  return `None is better in everything: ${spoken(winners.map((winner) => names[winner]))} each win at something.`;
}

function winInWords(
  { name, unit, by, medians, better }: Weighed,
  variant: number,
  names: readonly string[],
): string {
  const others = names
    .map((other, i) => ({ other, value: medians[i], i }))
    .filter(({ i }) => i !== variant)
    .map(({ other, value }) => (value === null ? `${other} none` : `${other} ${amount(value, unit)}`));
  const own = medians[variant];
  const value = own === null ? '' : ` ${amount(own, unit)}`;
  const lead = by === null ? '' : `, ${amount(by, unit)} ${better}`;
  return `${name}${value} against ${spoken(others)}${lead}`;
}

function nothingWorks({ variants, runs }: Comparison): string[] {
  return variants.flatMap(({ name }, variant) => {
    const own = runs.filter((run) => run.variant === variant);
    const empty = own.filter(({ best }) => best === null).length;
    if (empty === 0) return [];
    return [
      `Of ${name} nothing works with ${empty === own.length ? 'any' : `${empty} of ${own.length}`} of the seeds.`,
    ];
  });
}

/** How the dummies that the figure files describe do beside the best that was found, over all seeds. */
function ownInWords({ variants, layouts, runs }: Comparison): string[] {
  return variants.flatMap(({ name }, variant) => {
    const all = runs.filter((run) => run.variant === variant);
    const own = all[0]?.own ?? null;
    if (own === null) return [];
    const bests = all.flatMap(({ best, table }) =>
      best === null ? [] : [layouts[variant].desirability(table.numbers(best))],
    );
    const found = bests.length === 0 ? '' : `, the best found ${decimal(Math.max(...bests), 2)}`;
    return own.works
      ? [`${name} as its file has it works: desirability ${decimal(own.desirability, 2)}${found}.`]
      : [
          `${name} as its file has it does not work${bests.length === 0 ? '' : `; the best found has desirability ${decimal(Math.max(...bests), 2)}`}.`,
        ];
  });
}

/** A number of a measure, with its unit. */
export function amount(value: number, unit: string): string {
  if (unit === '%') return `${decimal(value, 1)} %`;
  if (unit === 'cm²') return `${decimal(value, 0)} cm²`;
  return unit === '' ? decimal(value, 2).replace(/\.00$/, '') : withUnit(value, unit);
}

/** How sure a difference is. */
export function chanceInWords({ winner, chance, medians }: Weighed): string {
  if (chance === null) return medians.includes(null) ? 'nothing works' : 'not compared';
  if (winner !== null) return `sure (chance ${chance < 0.001 ? 'under 0.001' : decimal(chance, 3)})`;
  if (chance <= SURE) return 'too little to matter';
  return `not sure (chance ${decimal(chance, 2)})`;
}

/** The verdict as a table, line by line, columns lined up. */
export function tableInWords({ variants, weighed }: Comparison): string[] {
  const rows = [
    ['', ...variants.map(({ name }) => name), 'winner', ''],
    ...weighed.map((each) => [
      each.name,
      ...each.medians.map((value, variant) => valueInWords(value, each.spans[variant], each.unit)),
      each.winner === null ? '–' : variants[each.winner].name,
      chanceInWords(each),
    ]),
  ];
  const widths = rows[0].map((_, column) => Math.max(...rows.map((row) => row[column].length)));
  return rows.map((row) =>
    `  ${row.map((cell, column) => cell.padEnd(widths[column])).join('  ')}`.trimEnd(),
  );
}

/** A median, with the least and the greatest of the seeds where they differ. */
export function valueInWords(
  value: number | null,
  span: readonly [number, number] | null,
  unit: string,
): string {
  if (value === null || span === null) return 'none works';
  const [low, high] = span.map((end) => amount(end, unit));
  // One unit for both ends, written once.
  const [least, most] = [low, high].map((end) => end.split(' ')[0]);
  return low === high ? amount(value, unit) : `${amount(value, unit)} (${least} to ${most})`;
}
