import type { Assembly } from '../motion/assembly.js';
import { CannotBuild } from '../motion/cannot-build.js';
import type { Trim } from '../parts/trim.js';
import type { Card } from './card.js';
import type { Dims } from './dims.js';
import { faultAt } from './text/check.js';
import type { Path } from './text/input-error.js';
import { knownNames } from './text/near.js';
import type { FigureSource } from './text/source.js';
import type { Want } from './wants.js';

/** Most candidates to try. More options than that are only found wanting when they are scored. */
const MOST_TRIALS = 300;

/**
 * Builds the figure as it starts, and once for each other option of each choice, and throws an InputError where it is
 * the file that is wrong: a name that no panel bears, say. A candidate that merely cannot be built is no fault of the file.
 */
export function tryOut(
  source: FigureSource,
  dims: Dims,
  figure: {
    build(vector: Float64Array): Assembly;
    wantsOf(vector: Float64Array): readonly Want[];
    readonly card: Card;
    readonly trims: readonly Trim[];
    readonly faces: ReadonlyMap<string, unknown>;
    readonly art: readonly { readonly on: readonly string[] }[];
  },
): void {
  const pieces = new Set<string>();
  let tried = 0;
  let unbuilt = 0;
  for (const vector of trials(dims)) {
    if (++tried > MOST_TRIALS) return;
    try {
      const assembly = figure.build(vector);
      for (const { piece } of assembly.panels) pieces.add(piece);
      for (const [i, want] of figure.wantsOf(vector).entries()) checkPanels(want, i, assembly);
      for (const [i, { on }] of figure.art.entries())
        for (const name of on)
          if (!assembly.panels.some(({ piece }) => piece === name)) assembly.panelNamed(name, `art.${i}.on`);
      for (const [i, { panel }] of figure.trims.entries()) assembly.panelNamed(panel, `trims.${i}.panel`);
    } catch (error) {
      if (!(error instanceof CannotBuild)) throw error;
      if (error.structural) throw faultAt(source, pathTo(error.field), error.message);
      unbuilt++;
    }
  }
  // A piece may belong to parts that were never reached.
  if (unbuilt > 0) return;
  const named = [
    ...Object.keys(figure.card.pieces).map((piece) => ['card', 'pieces', piece]),
    ...Array.from(figure.faces.keys(), (piece) => ['faces', piece]),
  ];
  for (const path of named) {
    const piece = path[path.length - 1];
    if (!pieces.has(piece))
      throw faultAt(source, path, knownNames(piece, [...pieces], 'piece'), `'${piece}'`);
  }
}

function* trials(dims: Dims): Generator<Float64Array> {
  yield dims.start();
  for (const [place, dim] of dims.freeDims.entries()) {
    if (dim.kind !== 'choice') continue;
    for (let option = 1; option < dim.options.length; option++) {
      const vector = dims.start();
      vector[place] = option;
      yield vector;
    }
  }
}

function checkPanels(want: Want, i: number, assembly: Assembly): void {
  const check = (name: string, field: string) => assembly.panelNamed(name, `wants.${i}.${field}`);
  if ('panel' in want) check(want.panel, 'panel');
  if ('panels' in want) for (const [j, panel] of want.panels.entries()) check(panel, `panels.${j}`);
  if ('reference' in want && want.reference !== undefined) check(want.reference, 'reference');
  if (want.kind === 'through') assembly.slotNamed(want.slot, `wants.${i}.slot`);
}

const pathTo = (field: string): Path =>
  field.split('.').map((step) => (/^\d+$/.test(step) ? Number(step) : step));
