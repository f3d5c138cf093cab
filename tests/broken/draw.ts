/**
 * Draws the twenty broken figures of this folder: works out a base figure that works, writes it with fixed dims (or
 * with plain numbers in its parts and no dims at all), and spoils one value of it, so that it no longer works. All by
 * chance, from one seed.
 *
 *   npx esbuild tests/broken/draw.ts --bundle --platform=node --outfile=dist/draw.cjs && node dist/draw.cjs
 *   npx biome check --write tests/broken/figures
 *
 * Run once, before `dummyrun tune` was begun; what it drew is kept as it was.
 */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Document, isCollection, isScalar, parse, parseDocument, visit } from 'yaml';
import { compileFigure, type Figure } from '../../src/figure/figure.js';
import { type FigureSource, type Json, parseFigure } from '../../src/figure/text/source.js';
import { Scorer } from '../../src/score/scorer.js';
import { type Random, stream } from '../../src/search/random.js';
import { inlined } from './inlined.js';
import { type Break, valueAt, WAYS, type Way } from './ways.js';

const SEED = 9;
const HERE = join(process.cwd(), 'tests/broken');
const BASES = [
  ...['roof', 'gate', 'dancers', 'harbour', 'stall', 'table', 'knee', 'shelf'].map((base) =>
    join(HERE, 'bases', base),
  ),
  ...['ferryman', 'heron'].map((base) => join(process.cwd(), 'examples', base)),
];

const figureOf = (text: string): Figure => compileFigure(parseFigure(text, 'drawn.yaml'));
const failsOf = (text: string): string[] => {
  const figure = figureOf(text);
  const { works, cannotBuild, limits, wants } = new Scorer(figure).score(figure.start);
  if (works) return [];
  return cannotBuild === null
    ? [...limits, ...wants].filter(({ met }) => !met).map(({ name }) => name)
    : [cannotBuild];
};

/** A figure file with fixed dims that works, drawn from the ranges of a base; null when none is found. */
function workingText(source: FigureSource, random: Random): string | null {
  const figure = compileFigure(source);
  const scorer = new Scorer(figure);
  for (let attempt = 0; attempt < 300; attempt++) {
    const vector = Float64Array.from(figure.free, (dim) =>
      dim.kind === 'choice'
        ? random.below(dim.options.length)
        : Math.round(2 * (dim.min + (dim.max - dim.min) * random.next())) / 2,
    );
    if (scorer.score(vector).works) return figure.toYaml(vector);
  }
  return null;
}

/** One way spoils one figure drawn from one base; null where it can't, or where the figure works all the same. */
function spoilt(
  way: Way,
  base: string,
  random: Random,
): { text: string; broken: Omit<Break, 'file'> } | null {
  const fixed = workingText(parseFigure(readFileSync(`${base}.yaml`, 'utf8'), base), random);
  if (fixed === null) return null;
  const forms = random.shuffle([fixed, written(inlined(parse(fixed)))]);
  for (const text of forms) {
    if (failsOf(text).length > 0) continue;
    const figure = parse(text);
    for (const weakness of random.shuffle(way.weaknesses(figure)))
      for (let attempt = 0; attempt < 6; attempt++) {
        const to = weakness.spoil(random);
        const document = parseDocument(text);
        document.setIn(weakness.place, to);
        const spoiltText = document.toString({ lineWidth: 110 });
        const fails = failsOrRefused(spoiltText);
        if (fails.length === 0) continue;
        const from = valueAt(figure, weakness.place) ?? null;
        return {
          text: spoiltText,
          broken: {
            base: base.split('/').at(-1) ?? '',
            way: way.name,
            place: weakness.place,
            from,
            to,
            fails,
          },
        };
      }
  }
  return null;
}

/** As `failsOf`; none where the file itself is refused: what is wanted is a figure that a person can score. */
function failsOrRefused(text: string): string[] {
  try {
    return failsOf(text);
  } catch {
    return [];
  }
}

/** Writes a figure with its lists of numbers on one line each. */
function written(figure: Json): string {
  const document = new Document(figure);
  visit(document, {
    Collection(_, node) {
      const leaf = node.items.every((item) => {
        const value = typeof item === 'object' && item !== null && 'value' in item ? item.value : item;
        return isScalar(value) || typeof value !== 'object' || (isCollection(value) && value.flow);
      });
      if (leaf || ('items' in node && String(node.items[0]).startsWith('['))) node.flow = true;
    },
  });
  return document.toString({ lineWidth: 110 });
}

const ways = stream(SEED, 'ways').shuffle([...WAYS]);
const breaks: Break[] = [];
mkdirSync(join(HERE, 'figures'), { recursive: true });
for (const [turn, way] of ways.entries()) {
  const random = stream(SEED, `figure ${turn + 1}`);
  for (const base of random.shuffle([...BASES])) {
    const drawn = spoilt(way, base, random);
    if (drawn === null) continue;
    const number = String(turn + 1).padStart(2, '0');
    const file = `${number}-${drawn.broken.base}.yaml`;
    writeFileSync(join(HERE, 'figures', file), `# Broken on purpose: ${way.name}.\n${drawn.text}`);
    breaks.push({ file, ...drawn.broken });
    console.log(file, way.name, drawn.broken.place.join('.'), drawn.broken.from, '→', drawn.broken.to);
    break;
  }
}
writeFileSync(join(HERE, 'breaks.json'), `${JSON.stringify({ seed: SEED, breaks }, null, 2)}\n`);
