import { existsSync, readdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { folderIn, writeWhole } from '../disk/files.js';
import { keepInsight } from '../insight/kept-insight.js';
import type { StudyFolder } from '../study/folder.js';
import type { StudyLog } from '../study/log.js';
import { tally } from '../study/tally.js';
import { chartFiles, isChartFile, type StudyCharts, studyCharts } from './charts/study-charts.js';
import { glb } from './gltf.js';
import { reportPage } from './pages/page.js';
import { reportOf, type Studied } from './report-of.js';
import type { StudyReport } from './study-report.js';
import { writeCandidates, writeSensitivity, writeStudy } from './tables.js';

/** So many of the best can be looked at in other programs. */
const MOST_MODELS = 3;
const modelFile = (place: number) => `best-${place + 1}.glb`;

/** The folder of the charts as files. */
const CHARTS = 'charts';

/** Files that a study leaves in its folder, for a person to open in this order. */
const RESULTS = [
  'report.html',
  ...Array.from({ length: MOST_MODELS }, (_, place) => modelFile(place)),
  'ranking.csv',
  'candidates.csv',
  'sensitivity.csv',
  'sensitivity.json',
  CHARTS,
  'study.json',
];

/**
 * Ranks what was scored and writes all results. Everything but the timings in `study.json`, and what the report says of
 * them, depends on the figure and the settings alone.
 * @returns the report, and which files there are now
 */
export async function writeResults(
  folder: StudyFolder,
  log: StudyLog,
  studied: Studied,
): Promise<{ report: StudyReport; files: string[] }> {
  const report = reportOf(studied);
  const { dims, layout, ranking, insight } = report;
  await writeCandidates(folder, log, dims, layout, ranking, insight?.robust ?? []);
  await writeSensitivity(folder, report.sensitivity);
  keepInsight(folder, insight);
  const charts = studyCharts(report);
  writeCharts(folderIn(folder.path, CHARTS), charts);
  writeWhole(folder.file('report.html'), reportPage(report, studied.source, charts));
  await writeModels(folder, studied, report);
  writeStudy(folder, record(studied, report));
  return { report, files: RESULTS.filter((name) => existsSync(folder.file(name))) };
}

/** Writes the report alone, of a study that goes on. */
export function writePage(folder: StudyFolder, studied: Studied): void {
  writeWhole(folder.file('report.html'), reportPage(reportOf(studied), studied.source));
}

/** Writes the charts as files; those of an earlier study go, whatever else a maker keeps in such a folder stays. */
function writeCharts(path: string, charts: StudyCharts): void {
  for (const name of readdirSync(path)) if (isChartFile(name)) rmSync(join(path, name), { force: true });
  for (const { name, svg } of chartFiles(charts)) writeWhole(join(path, name), svg);
}

/** Writes the best that work, or the one that comes nearest, as glTF; those of an earlier study go. */
async function writeModels(
  folder: StudyFolder,
  { figure }: Studied,
  { table, ranking }: StudyReport,
): Promise<void> {
  const outcome = (candidate: number) => table.outcome(candidate);
  const working = ranking.slice(0, MOST_MODELS).filter((candidate) => outcome(candidate) === 'works');
  const shown =
    working.length > 0 ? working : ranking.slice(0, 1).filter((nearest) => outcome(nearest) === 'fails');
  for (let place = 0; place < MOST_MODELS; place++) {
    const path = folder.file(modelFile(place));
    if (place < shown.length) writeWhole(path, await glb(figure, table.vector(shown[place])));
    else rmSync(path, { force: true });
  }
}

/** What `study.json` holds. */
function record(
  { source, figure, settings, table, finished, timings, surrogate }: Studied,
  report: StudyReport,
): object {
  const counts = tally(table, report.layout, report.ranking);
  return {
    format: 'study 1',
    finished,
    figure: figure.name,
    file: source.file,
    sha256: settings.figure,
    seed: settings.seed,
    samples: settings.samples,
    search: settings.search,
    backend: settings.backend,
    versions: { dummyrun: settings.version, scoring: settings.scoring, node: process.version },
    dims: figure.free,
    wants: report.layout.wants,
    limits: report.layout.limits.map(({ name, unit }) => ({ name, unit })),
    scored: table.size,
    works: counts.works,
    fails: counts.fails,
    notBuilt: counts.notBuilt,
    notScored: counts.notScored,
    inShort: counts.inShort,
    best: report.ranking[0] + 1,
    ...(surrogate ? { surrogate } : {}),
    timings,
  };
}
