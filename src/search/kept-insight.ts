import { existsSync, readFileSync, rmSync } from 'node:fs';
import { writeWhole } from './files.js';
import type { StudyFolder } from './study-folder.js';
import type { StudyInsight } from './study-insight.js';

const FILE = 'sensitivity.json';
const FORMAT = 'sensitivity 2';

/** Writes what was measured of a study, for other programs and to show it again; what was there goes if there is nothing. */
export function keepInsight(folder: StudyFolder, insight: StudyInsight | null): void {
  if (insight === null) rmSync(folder.file(FILE), { force: true });
  else writeWhole(folder.file(FILE), `${JSON.stringify({ format: FORMAT, ...insight }, null, 1)}\n`);
}

/** What was measured of the study in a folder; null when there is nothing of ours, or not of a study of this size. */
export function keptInsight(folder: StudyFolder, candidates: number): StudyInsight | null {
  if (!existsSync(folder.file(FILE))) return null;
  try {
    const kept = JSON.parse(readFileSync(folder.file(FILE), 'utf8'));
    const { format, ...insight } = kept as { format: unknown } & StudyInsight;
    const known = [...insight.robust, ...insight.local, ...(insight.best === null ? [] : [insight.best])];
    return format === FORMAT && known.every(({ candidate }) => candidate < candidates) ? insight : null;
  } catch {
    return null;
  }
}
