import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { type Document, parseDocument } from 'yaml';
import { compileFigure } from '../../src/figure/figure.js';
import { type FigureSource, parseFigure } from '../../src/figure/text/source.js';
import { Scorer } from '../../src/score/scorer.js';
import type { Break } from './ways.js';

const folder = (name: string) => fileURLToPath(new URL(name, import.meta.url));

/** What was done to each of the twenty figures. */
export const BREAKS: readonly Break[] = JSON.parse(readFileSync(folder('breaks.json'), 'utf8')).breaks;

/** The text of a broken figure. */
export const brokenText = ({ file }: Break): string => readFileSync(folder(`figures/${file}`), 'utf8');

/** A broken figure, as read. */
export const brokenFigure = (broken: Break): FigureSource => parseFigure(brokenText(broken), broken.file);

/** The figure as it was before it was broken. */
export function mended(broken: Break): FigureSource {
  const document: Document = parseDocument(brokenText(broken));
  if (broken.from === null) document.deleteIn(broken.place);
  else document.setIn(broken.place, broken.from);
  return parseFigure(document.toString({ lineWidth: 110 }), broken.file);
}

/** Whether a figure works as it starts. */
export function works(source: FigureSource): boolean {
  const figure = compileFigure(source);
  return new Scorer(figure).score(figure.start).works;
}
