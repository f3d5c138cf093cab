import type { SensitivityRow } from '../insight/sensitivity/sensitivity.js';
import type { StudyInsight } from '../insight/study-insight.js';
import type { PlainSample, StudyDim } from '../insight/study-sensitivity.js';
import type { Turning } from '../score/force/turning.js';
import type { Layout } from '../study/row.js';
import type { StudyTable } from '../study/table.js';
import type { Hindrance } from './why-unbuilt.js';
import type { UnderWay } from './words/standing.js';

/** All that a report is made of. */
export interface StudyReport {
  /** What the figure is called. */
  name: string;
  /** How the study came out, a sentence each. */
  summary: readonly string[];
  layout: Layout;
  dims: readonly StudyDim[];
  /** For each want, whether more of its value is better or less, or null when it has a target. */
  better: readonly ('more' | 'less' | null)[];
  table: StudyTable;
  /** Candidates, best first. */
  ranking: readonly number[];
  /** Some that work, good and different from one another in their dims, best first. */
  different: readonly number[];
  /** The best, and how hard its page is to turn. */
  turned: { readonly name: string; readonly turning: Turning };
  /** Candidates spread evenly through the ranges: what the chart of failures rests on. */
  spread: readonly number[];
  /** Why those of them that could not be built could not, the most frequent reason first. */
  hindrances: readonly Hindrance[];
  /** These, and the plain samples that were scored for the indices: what trends and curves rest on. */
  plain: PlainSample;
  sensitivity: readonly SensitivityRow[];
  /** What was measured once all was scored; null where it was not. */
  insight: StudyInsight | null;
  /** What the study is busy with, where it goes on; else null. */
  underWay: UnderWay | null;
  /** How robust the best are, as far as that is known: for those that were cut by hand. */
  robust: StudyInsight['robust'];
  /** What the study was run with, as pairs of words. */
  facts: readonly (readonly [string, string])[];
}
