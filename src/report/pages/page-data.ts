import { GRADES, type Grade } from '../../card/grade.js';
import type { FigureSource } from '../../figure/text/source.js';
import { OUTCOMES } from '../../study/row.js';
import type { Candidates, PageData } from '../live/data.js';
import { bytesEach, picked } from '../live/packed.js';
import { thin } from '../live/thin.js';
import { pageArtOf } from '../page-art.js';
import type { StudyReport } from '../study-report.js';
import { stageName } from '../words/stages.js';

/** Most candidates in a page: enough for any chart, and little enough to filter while a hand moves. */
const MOST = 10_000;
/** Most bytes that they take there. */
const MOST_BYTES = 4_500_000;

type About = Pick<
  StudyReport,
  'name' | 'summary' | 'layout' | 'better' | 'table' | 'facts' | 'ranking' | 'dims' | 'underWay'
>;

/**
 * What the live page shows of a study.
 * @param made charts and words made beforehand
 */
export function pageData(
  report: About,
  figure: FigureSource,
  made: Pick<PageData, 'sections' | 'failures' | 'plain'>,
): PageData {
  const { name, summary, layout, better, table, facts } = report;
  const stages: string[] = [];
  const all = candidatesOf(report, stages);
  const { art, notes } = pageArtOf(figure);
  return {
    title: name,
    summary,
    figure,
    better,
    limits: layout.limits.map(({ name, unit }) => ({ name, unit })),
    stages,
    scored: table.size,
    underWay: report.underWay !== null,
    candidates: kept(all, Math.min(MOST, Math.floor(MOST_BYTES / bytesEach(all)))),
    facts: [...facts, ...notes.map((note): readonly [string, string] => ['art', note])],
    art,
    ...made,
  };
}

/** All candidates of a study, best first. Names of stages are put into `stages` as they come. */
function candidatesOf({ layout, table, ranking, dims }: About, stages: string[]): Candidates {
  const count = ranking.length;
  const scores = layout.wants.length + layout.limits.length;
  const candidates = {
    count,
    number: Uint32Array.from(ranking, (candidate) => candidate + 1),
    rank: Uint32Array.from(ranking, (_, place) => place + 1),
    stage: new Uint8Array(count),
    outcome: Uint8Array.from(ranking, (candidate) => OUTCOMES.indexOf(table.outcome(candidate))),
    grade: Uint8Array.from(ranking, (candidate) => gradePlace(layout.grade(table.numbers(candidate)))),
    vectors: new Float64Array(count * dims.length),
    desirability: Float32Array.from(ranking, (candidate) => layout.desirability(table.numbers(candidate))),
    values: new Float32Array(count * scores),
    met: new Uint8Array(count * scores),
  };
  ranking.forEach((candidate, place) => {
    const stage = stageName(table.stage(candidate)).toLowerCase();
    if (!stages.includes(stage)) stages.push(stage);
    candidates.stage[place] = stages.indexOf(stage);
    candidates.vectors.set(table.vector(candidate), place * dims.length);
    const numbers = table.numbers(candidate);
    const values = [
      ...layout.wants.map((_, want) => layout.wantValue(numbers, want)),
      ...layout.limits.map((_, limit) => layout.limitValue(numbers, limit)),
    ];
    candidates.values.set(values, place * scores);
    const outcome = table.outcome(candidate);
    const met = table.met(candidate);
    if (outcome === 'fails') {
      candidates.met.fill(1, place * scores, (place + 1) * scores);
      for (const missed of layout.missed({ outcome, numbers, met }))
        candidates.met[place * scores + missed] = 0;
    } else candidates.met.set(met, place * scores);
  });
  return candidates;
}

const gradePlace = (grade: Grade | null): number => (grade === null ? GRADES.length : GRADES.indexOf(grade));

/** At most so many candidates: the best half of them, the rest spread evenly through the ranking. */
function kept(candidates: Candidates, most: number): Candidates {
  const places = Array.from({ length: candidates.count }, (_, place) => place);
  if (places.length <= most) return candidates;
  const best = Math.floor(most / 2);
  return picked(candidates, [...places.slice(0, best), ...thin(places.slice(best), most - best)]);
}
