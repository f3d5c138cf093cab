import { spoken } from '../../text/phrases.js';
import type { StudyReport } from '../study-report.js';
import { achieved } from './achieved.js';
import { withUnit } from './numbers.js';

type Studied = Pick<StudyReport, 'table' | 'layout' | 'ranking' | 'robust'>;

/** Differences below this, mm or degrees, are none that a maker would see. */
const SEEN = 0.05;
/** The maker's own dummy is scored first. */
export const OWN = 0;

/** Where the maker's own dummy ranks, and what the best does that it does not; nothing where it was not scored. */
export function ownInWords({ table, layout, ranking, robust }: Studied): string[] {
  if (!table.hasOwn) return [];
  const place = ranking.indexOf(OWN);
  const [best] = ranking;
  if (place === 0) {
    if (table.outcome(OWN) !== 'works') return [];
    return robust.length === 0
      ? ['Yours is the best: nothing that was tried does more.']
      : ['Yours is the best: nothing else that was cut by hand is worth more.'];
  }
  const of = `at place ${(place + 1).toLocaleString('en')} of ${ranking.length.toLocaleString('en')}`;
  if (table.outcome(OWN) !== 'works')
    return [`Yours (dummy 1) comes ${of}: it ${whyNot({ table, layout })}.`];
  const gains = layout.wants.flatMap(({ name, unit }, want) => {
    const [own, first] = [OWN, best].map((candidate) => layout.wantValue(table.numbers(candidate), want));
    const more = first - own;
    if (!(Math.abs(more) > SEEN)) return [];
    return [`${name} ${more > 0 ? '+' : '−'}${withUnit(Math.abs(more), unit)}`];
  });
  const change =
    gains.length === 0 ? 'does no more, but keeps farther from limits' : `changes: ${spoken(gains)}`;
  return [`Yours (dummy 1) comes ${of}: ${achieved({ table, layout }, OWN)}. The best ${change}.`];
}

function whyNot({ table, layout }: Pick<StudyReport, 'table' | 'layout'>): string {
  const outcome = table.outcome(OWN);
  if (outcome !== 'fails') return 'cannot be built';
  const met = table.met(OWN);
  const missed = layout.wants.filter((_, want) => met[want] === 0).map(({ name }) => `misses '${name}'`);
  const broken = layout.limits
    .filter((_, limit) => met[layout.wants.length + limit] === 0)
    .map(({ name }) => `breaks '${name}'`);
  return spoken([...broken, ...missed]);
}
