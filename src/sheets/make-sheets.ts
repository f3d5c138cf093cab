import type { Assembly } from '../motion/assembly.js';
import { counted } from '../text/phrases.js';
import { templatesOf } from './art/templates.js';
import { toDxf } from './drawn/dxf.js';
import { Pdf } from './drawn/pdf.js';
import { artwork, dieLines } from './drawn/printer.js';
import { fileName } from './drawn/safe-text.js';
import { drawSheet } from './drawn/sheet-drawing.js';
import { toSvg } from './drawn/svg.js';
import { amountOf } from './guide/amount.js';
import { costInWords, costOf } from './guide/costs.js';
import { amountInWords, guide } from './guide/guide.js';
import { pieceRows } from './guide/piece-list.js';
import { type Plan, planSheets } from './plan.js';
import { type SheetOptions, type SheetSettings, settingsOf } from './settings.js';

/** A file to be written: its name (no folder in it) and what goes in. */
export interface SheetFile {
  readonly name: string;
  readonly content: Uint8Array | string;
}

export interface MadeSheets {
  readonly files: readonly SheetFile[];
  /** What was made, in words, a line each. */
  readonly summary: readonly string[];
  /** What the maker should know before cutting, a line each; empty when there is nothing to say. */
  readonly warnings: readonly string[];
}

/**
 * Makes all that a maker needs to cut and glue a figure: sheets at true scale (PDF, SVG, DXF), the guide to putting it
 * together (PDF), and if asked die-lines and artwork templates for a printer (PDF). Writes nothing to disk.
 * @param assembly one candidate, as built; its dimensions in mm
 * @param atWork called between stages with what comes next: sheets of fine outlines may take a minute
 * @throws SheetError where a piece does not fit the sheet or an option cannot be; its message is for the maker
 * @example
 * const { files, summary } = await makeSheets(figure.build(vector), { figure: 'Ferryman', paper: 'A4' });
 */
export async function makeSheets(
  assembly: Assembly,
  options: SheetOptions,
  atWork: (stage: string) => void = () => {},
): Promise<MadeSheets> {
  const settings = settingsOf(options, assembly.thicknessOf);
  const plan = planSheets(assembly, settings, atWork);
  const amount = amountOf(plan.sheets);
  const base = fileName(settings.figure);
  const named = [settings.figure, settings.candidate].filter((part) => part !== '').join(', ');
  const pdf = new Pdf(`${named}: sheets to cut`, true);
  const files = [
    ...(await sheetsToCut(plan, settings, { base, named, pdf }, atWork)),
    ...(await templateOfBase(plan, settings, { base, named })),
  ];
  atWork('drawing the guide');
  files.push({ name: `${base}-assembly.pdf`, content: await guide(assembly, plan, amount, settings) });
  if (settings.artTemplates)
    for (const { panel, drawing } of templatesOf(assembly, plan.pieces))
      files.push({
        name: nameOnce(files, `${base}-art-${fileName(panel)}`, 'svg'),
        content: toSvg(drawing, `${panel}: art`),
      });
  const { printer } = settings;
  if (printer !== null) {
    const lines = await dieLines(plan.sheets, settings, printer);
    files.push({ name: `${base}-die-lines.pdf`, content: lines });
    files.push({ name: `${base}-artwork.pdf`, content: await artwork(plan.sheets, settings, printer) });
  }
  const pieces = counted(pieceRows(plan.pieces).length, 'piece');
  const summary = [
    `${named}: ${pieces} on ${counted(plan.sheets.length, 'sheet')} of ${settings.paper.name}, ${counted(plan.bonds.length, 'glue point')}, ${counted(plan.steps.length, 'step')} of assembly.`,
    amountInWords(amount, settings),
    costInWords(costOf(plan, settings.copies, settings.costs), settings.costs),
    'Print at 100 % and measure the ruler on every sheet, 100 mm and 4 inches.',
  ];
  return {
    files,
    summary,
    warnings: [...plan.warnings, ...unprintableOf(plan, settings, pdf)],
  };
}

/** What files begin with, and how the figure is called in them. */
interface Names {
  readonly base: string;
  readonly named: string;
}

/** The sheets, all in one PDF, and each as SVG and DXF. */
async function sheetsToCut(
  { sheets }: Plan,
  settings: SheetSettings,
  { base, named, pdf }: Names & { readonly pdf: Pdf },
  atWork: (stage: string) => void,
): Promise<SheetFile[]> {
  const drawings = sheets.map((sheet, i) => {
    atWork('drawing sheets');
    return drawSheet(sheet, i, sheets.length, settings);
  });
  for (const drawing of drawings) {
    atWork('writing sheets');
    pdf.addPage(drawing.width, drawing.height);
    pdf.draw(drawing);
  }
  const files: SheetFile[] = [{ name: `${base}-sheets.pdf`, content: await pdf.finish() }];
  drawings.forEach((drawing, i) => {
    atWork('writing sheets');
    const title = `${named}, sheet ${i + 1} of ${drawings.length}`;
    const name = `${base}-sheet-${i + 1}`;
    files.push({ name: `${name}.svg`, content: toSvg(drawing, title) });
    files.push({ name: `${name}.dxf`, content: toDxf(drawing) });
  });
  return files;
}

/** The base to be pricked through, where it is not cut from the sheets itself. */
async function templateOfBase(
  { template }: Plan,
  settings: SheetSettings,
  { base, named }: Names,
): Promise<SheetFile[]> {
  if (template.length === 0) return [];
  const pdf = new Pdf(`${named}: template of the base`, true);
  template.forEach((sheet, i) => {
    const what = 'template: prick its glue lines through';
    const drawing = drawSheet(sheet, i, template.length, settings, what);
    pdf.addPage(drawing.width, drawing.height);
    pdf.draw(drawing);
  });
  return [{ name: `${base}-template.pdf`, content: await pdf.finish() }];
}

/** Tells which names the PDFs can't print. */
function unprintableOf({ pieces }: Plan, { figure, candidate }: SheetSettings, pdf: Pdf): string[] {
  const names = [
    ...(pdf.canPrint(figure) ? [] : ["the figure's own"]),
    ...(pdf.canPrint(candidate) ? [] : ["the study's"]),
    ...pieces
      .filter(({ net }) => !pdf.canPrint(net.name))
      .map(({ number, net }) => `${number} '${net.name}'`),
  ];
  if (names.length === 0) return [];
  const named = names.slice(0, 6);
  const more = names.length > named.length ? ` and ${names.length - named.length} more` : '';
  return [
    `The PDFs are set in DejaVu Sans, which has Latin, Greek, Cyrillic, Hebrew and Arabic letters and not all of these: ${named.join(', ')}${more}. What it has not stands there as ${'\u25af'}, beside the number; the SVG files show it in a font of your machine.`,
  ];
}

/** A name that no file has yet: names of panels in other scripts come to the same plain name. */
function nameOnce(files: readonly SheetFile[], name: string, kind: string): string {
  for (let i = 1; ; i++) {
    const tried = `${name}${i === 1 ? '' : `-${i}`}.${kind}`;
    if (files.every((file) => file.name !== tried)) return tried;
  }
}
