import { rmSync } from 'node:fs';
import { join } from 'node:path';
import * as z from 'zod';
import { writeWhole } from '../disk/files.js';
import { readJson } from '../disk/read-json.js';
import type { StudyFolder } from '../study/folder.js';
import type { Layout } from '../study/row.js';
import { scoresOf } from '../study/scores.js';
import type { StudyTable } from '../study/table.js';
import { insightSchema } from './insight-schema.js';
import type { StudyInsight } from './study-insight.js';

/** The file that holds what was measured of a study. */
export const INSIGHT_FILE = 'sensitivity.json';
const FORMAT = 'sensitivity 2';

/** Writes what was measured of a study, for other programs and to show it again; what was there goes if there is nothing. */
export function keepInsight(folder: StudyFolder, insight: StudyInsight | null): void {
  if (insight === null) rmSync(folder.file(INSIGHT_FILE), { force: true });
  else writeWhole(folder.file(INSIGHT_FILE), `${JSON.stringify({ format: FORMAT, ...insight }, null, 1)}\n`);
}

/** What was measured of the study in a folder; null when there is nothing of ours, or not of this study. */
export function keptInsight(folder: string, table: StudyTable, layout: Layout): StudyInsight | null {
  const insight = insightSchema(table.size, table.dims, scoresOf(layout).length);
  const kept = readJson(join(folder, INSIGHT_FILE), z.object({ format: z.literal(FORMAT) }).and(insight));
  if (kept === null) return null;
  const { format, ...rest } = kept;
  return rest;
}
