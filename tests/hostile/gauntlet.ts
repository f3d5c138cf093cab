import { createRequire } from 'node:module';
import { parseHTML } from 'linkedom';
import { SaxesParser } from 'saxes';
import { compileFigure, type Figure } from '../../src/figure/figure.js';
import { InputError } from '../../src/figure/text/input-error.js';
import { type FigureSource, parseFigure } from '../../src/figure/text/source.js';
import { chartFiles, studyCharts } from '../../src/report/charts/study-charts.js';
import { glb } from '../../src/report/gltf.js';
import { reportPage } from '../../src/report/pages/page.js';
import { tunePage } from '../../src/report/pages/tune-page.js';
import { reportOf } from '../../src/report/report-of.js';
import { shutBook } from '../../src/report/shut-book.js';
import { scorecardInWords } from '../../src/report/words/scorecard-words.js';
import { shutInWords } from '../../src/report/words/shut-words.js';
import { trimsInWords } from '../../src/report/words/trim-words.js';
import { tunedAsJson } from '../../src/report/words/tune-json.js';
import { tunedInWords } from '../../src/report/words/tune-words.js';
import { Scorer } from '../../src/score/scorer.js';
import { findTrims } from '../../src/score/trims/trims.js';
import { SheetError } from '../../src/sheets/layout/paper.js';
import { makeSheets } from '../../src/sheets/make-sheets.js';
import { Layout } from '../../src/study/row.js';
import { StudyTable } from '../../src/study/table.js';
import { OutOfBudget, Trials } from '../../src/tune/trials.js';
import { Tuning } from '../../src/tune/tune.js';

/** What the program does with a figure file, one after another: each in the words of its command. */
export const STAGES = [
  'read',
  'score',
  'poses',
  'words',
  'trims',
  'cut',
  'sheets',
  'models',
  'report',
  'tune',
] as const;
export type Stage = (typeof STAGES)[number];

export interface Outcome {
  readonly end: 'refused' | 'no card' | 'card';
  /** Milliseconds that each stage took. */
  readonly took: ReadonlyMap<Stage, number>;
}

/** A fault of the program itself: which stage, and what it threw or let through. */
export class Fault extends Error {
  constructor(
    readonly stage: Stage,
    readonly why: unknown,
  ) {
    super(`${stage}: ${why instanceof Error ? why.stack : String(why)}`);
  }
}

/**
 * Sends the text of a figure file through the whole program, in this thread and without writing.
 * @param asked stages beyond reading and scoring
 * @throws Fault where anything else comes of it than a refusal in words or sound results
 */
export async function gauntlet(text: string, asked: readonly Stage[], file = 'f.yaml'): Promise<Outcome> {
  const took = new Map<Stage, number>();
  const stage = async <T>(name: Stage, work: () => T | Promise<T>): Promise<T> => {
    const started = performance.now();
    try {
      return await work();
    } catch (error) {
      throw error instanceof Fault ? error : new Fault(name, error);
    } finally {
      took.set(name, (took.get(name) ?? 0) + performance.now() - started);
    }
  };
  const read = await stage('read', () => understood(text, file));
  if (read === null) return { end: 'refused', took };
  const { source, figure } = read;
  const scorer = new Scorer(figure);
  const vectors = vectorsOf(figure);
  let built: Float64Array | null = null;
  for (const vector of vectors) {
    const card = await stage('score', () => {
      const scored = scorer.score(vector);
      mustBeSound(scored);
      return scored;
    });
    if (card.cannotBuild === null) built ??= vector;
    await stage('words', () => mustBeWords(scorecardInWords(figure.name, card, figure.wants).join('\n')));
  }
  const wants = (name: Stage) => asked.includes(name);
  if (wants('report') && figure.free.length > 0)
    await stage('report', () => reported(source, figure, vectors));
  if (wants('tune')) await stage('tune', () => tuned(source, figure));
  if (built === null) return { end: 'no card', took };
  const vector = built;
  if (wants('poses')) await stage('poses', () => mustBeSound(scorer.poses(vector)));
  if (wants('words'))
    await stage('words', () => mustBeWords(shutInWords(shutBook(figure, vector)).join('\n')));
  if (wants('trims'))
    await stage('trims', () => {
      const trims = findTrims(figure, vector);
      mustBeSound(trims);
      mustBeWords(trimsInWords(trims).join('\n'));
    });
  if (wants('cut')) await stage('cut', () => cutByHand(figure, scorer, vector));
  if (wants('sheets')) await stage('sheets', () => madeSheets(figure, vector));
  if (wants('models')) await stage('models', () => glb(figure, vector));
  return { end: 'card', took };
}

function understood(text: string, file: string): { source: FigureSource; figure: Figure } | null {
  try {
    const source = parseFigure(text, file);
    return { source, figure: compileFigure(source) };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    if (error.found === '' || error.remedy === '')
      throw new Error(`a message without found or remedy: ${error.message}`);
    if (/undefined|NaN|\[object|\n/.test(error.message.replace(/'[^']*'/g, '')))
      throw new Error(`a message that is not in words: ${error.message}`);
    return null;
  }
}

/** The figure as it starts, the ends of its ranges, and places between. */
function vectorsOf(figure: Figure): Float64Array[] {
  const at = (share: (i: number) => number) =>
    Float64Array.from(figure.free, (dim, i) =>
      dim.kind === 'real'
        ? dim.min + share(i) * (dim.max - dim.min)
        : Math.min(dim.options.length - 1, Math.floor(share(i) * dim.options.length)),
    );
  // Places by the square roots of primes: spread out, and the same each time.
  const spread = [2, 3, 5].map((prime) => at((i) => ((i + 1) * Math.sqrt(prime)) % 1));
  return [figure.start, at(() => 0), at(() => 1), ...spread];
}

/** No number anywhere that is none. */
export function mustBeSound(value: unknown, at = ''): void {
  if (typeof value === 'number' && !Number.isFinite(value)) throw new Error(`${value} at ${at}`);
  if (typeof value === 'string') mustBeWords(value, at);
  if (typeof value !== 'object' || value === null) return;
  for (const [name, part] of Object.entries(value)) mustBeSound(part, `${at}.${name}`);
}

/** Nothing in a text that only a program would say. Names of the file stand in quotes. */
export function mustBeWords(text: string, at = ''): void {
  const found = /\bNaN\b|\bundefined\b|\[object |-?\bInfinity\b/.exec(text.replace(/'[^'\n]*'/g, ''));
  if (found !== null)
    throw new Error(`'${found[0]}' in ${at}: ${text.slice(Math.max(0, found.index - 60), found.index + 60)}`);
}

export function mustBeXml(text: string): void {
  const parser = new SaxesParser({ xmlns: true });
  parser.on('error', (error) => {
    throw error;
  });
  parser.write(text).close();
}

/** Nothing in a page that runs or loads anything, but for its own scripts: those of the report have no attributes. */
export function mustBeHarmless(page: string): void {
  const { document } = parseHTML(page);
  for (const element of document.querySelectorAll('*')) {
    const own = element.localName === 'script' && page.includes('<section id="dummy"');
    if (/^(script|img|iframe|object|embed|link|base|form)$/.test(element.localName) && !own)
      throw new Error(`a page with <${element.localName}>`);
    for (const { name, value } of element.attributes)
      if (/^on|^srcdoc$/i.test(name) || /^\s*(javascript|data):/i.test(value))
        throw new Error(`a page with ${name}="${value}"`);
  }
  const scripts = document.querySelectorAll('script').length;
  if (scripts > 2) throw new Error(`a page with ${scripts} scripts`);
}

// Its types describe another export than the one that Node finds.
const DxfParser = createRequire(import.meta.url)('dxf-parser') as new () => {
  parseSync(text: string): { entities: readonly { text?: string }[] } | null;
};

/** A drawing that another program reads, whose every text is one line of plain letters. */
export function mustBeDxf(text: string): void {
  const found = new DxfParser().parseSync(text);
  if (found === null) throw new Error('no DXF');
  for (const { text = '' } of found.entities)
    if (!/^[\x20-\x7e]*$/.test(text)) throw new Error(`a DXF with the text ${text}`);
}

function cutByHand(figure: Figure, scorer: Scorer, vector: Float64Array): void {
  const template = figure.template(vector);
  for (const size of [0, 0.3, -2]) {
    const errors = Float64Array.from(template.cuts, (_, i) => size * Math.sin(i + 1));
    mustBeSound(scorer.scoreCut(template, errors, vector));
  }
}

async function madeSheets(figure: Figure, vector: Float64Array): Promise<void> {
  try {
    const { files, summary, warnings } = await makeSheets(figure.build(vector), {
      figure: figure.name,
      paper: 'A2',
      cardOf: (piece) => figure.card.of(piece),
      printer: {},
    });
    mustBeWords([...summary, ...warnings].join('\n'));
    for (const { name, content } of files) {
      if (!/^[a-z0-9-]+\.(pdf|svg|dxf)$/.test(name)) throw new Error(`a file called ${name}`);
      if (typeof content !== 'string') continue;
      mustBeWords(content, name);
      if (name.endsWith('.svg')) mustBeXml(content);
      else mustBeDxf(content);
    }
  } catch (error) {
    if (!(error instanceof SheetError)) throw error;
    mustBeWords(error.message);
  }
}

/** A study of a few candidates, with its report and charts. */
function reported(source: FigureSource, figure: Figure, vectors: readonly Float64Array[]): void {
  const scorer = new Scorer(figure);
  const layout = new Layout(scorer.score(figure.start));
  const table = new StudyTable(figure.free.length, layout);
  for (const vector of vectors)
    table.add({ stage: 'spread', vector, row: layout.rowOf(scorer.score(vector)) });
  const settings = {
    figure: '',
    seed: 1,
    samples: vectors.length,
    search: 'samples',
    backend: null,
    version: '1',
    scoring: '',
  } as const;
  const report = reportOf({ source, figure, layout, settings, table, finished: true, timings: null });
  mustBeWords(report.summary.join('\n'));
  const charts = studyCharts(report);
  for (const { name, svg } of chartFiles(charts)) {
    mustBeXml(svg);
    mustBeWords(svg, name);
  }
  const page = reportPage(report, source, charts);
  mustBeHarmless(page);
  mustBeWords(page.slice(0, page.indexOf('<script type="application/json"')), 'report.html');
}

async function tuned(source: FigureSource, figure: Figure): Promise<void> {
  const tuning = new Tuning(source, figure, { hold: [], prices: new Map(), keepGlued: false });
  const scorer = new Scorer(tuning.opened.figure);
  const trials = new Trials(async function* (batch) {
    for (const vector of batch) yield tuning.layout.rowOf(scorer.score(vector));
  }, 60);
  try {
    const result = await tuning.run(trials);
    mustBeSound(tunedAsJson(figure.name, source.file, result, []));
    mustBeWords(tunedInWords(figure.name, result, figure.wants, []).join('\n'));
    const page = tunePage(figure, result, []);
    mustBeHarmless(page);
    mustBeWords(page, 'remedies.html');
    // What is offered must hold as it is written.
    for (const { text } of result.remedies) {
      const remedied = compileFigure(parseFigure(text, 'remedy.yaml'));
      if (!new Scorer(remedied).score(remedied.start).works)
        throw new Error(`a remedy that does not work:\n${text}`);
    }
  } catch (error) {
    if (!(error instanceof OutOfBudget)) throw error;
  }
}
