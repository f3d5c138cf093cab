import { type Assembly, LEFT_PAGE, RIGHT_PAGE } from '../motion/assembly.js';
import { artOn } from './art/place-art.js';
import { letter } from './guide/letters.js';
import { type Step, stepsOf } from './guide/steps.js';
import { warningsOf } from './guide/warnings.js';
import { fitsOn, layOut } from './layout/layout.js';
import { type Piece, pieceOf } from './layout/piece.js';
import type { Sheet } from './layout/placed.js';
import { hasGrain } from './layout/turn-piece.js';
import type { Bond } from './nets/bonds.js';
import type { Frames } from './nets/fold-sense.js';
import type { Hub } from './nets/hub.js';
import { layFlat } from './nets/lay-flat.js';
import type { SheetSettings } from './settings.js';

/** Everything that is to be printed, before it is drawn. */
export interface Plan {
  readonly pieces: readonly Piece[];
  /** Sheets to cut, without a base that is not to be made. */
  readonly sheets: readonly Sheet[];
  /** The base to prick through, where it is not made: sheets of plain paper. */
  readonly template: readonly Sheet[];
  readonly bonds: readonly { readonly bond: Bond; readonly letter: string }[];
  readonly steps: readonly Step[];
  readonly hubs: readonly Hub[];
  readonly frames: Frames;
  /** What a maker should know before cutting. */
  readonly warnings: readonly string[];
}

/** Unfolds a figure, finds its glue, puts its assembly in order and lays it out on sheets. */
export function planSheets(
  assembly: Assembly,
  settings: SheetSettings,
  atWork: (stage: string) => void = () => {},
): Plan {
  const warnings =
    settings.failure === null ? [] : [`This dummy does not work as its file asks: ${settings.failure}.`];
  const {
    frames,
    hubs,
    nets: flat,
    bonds: found,
  } = layFlat(assembly, settings, gutterToSplit(assembly, settings), warnings, atWork);
  const nets = [...flat, ...hubs.map(({ net }) => net)];
  const { steps, circle } = stepsOf(assembly, frames, flat, found, hubs);
  if (circle.length > 0)
    warnings.push(
      `No order of assembly exists: each of these waits for the one before it: ${circle.map(({ name }) => name).join('; ')}.`,
    );
  for (const net of flat)
    if (net.piece !== 'page' && !steps.some(({ nets: handled }) => handled.includes(net)))
      warnings.push(`'${net.name}' is joined to nothing.`);
  const inOrder = steps.flatMap((step) => step.bonds);
  const rest = found.filter((bond) => !inOrder.includes(bond));
  const bonds = [...inOrder, ...rest].map((bond, i) => ({ bond, letter: letter(i) }));
  const pieces = nets.map((net, i) => {
    atWork('drawing pieces');
    return pieceOf(i + 1, net, bonds, settings.faceOf);
  });
  atWork('looking for narrow places');
  warnings.push(...warningsOf(pieces, frames));
  atWork('laying out pieces');
  const cut = settings.base === 'none' ? pieces.filter(({ net }) => net.piece !== 'page') : pieces;
  const left = pieces.filter((piece) => !cut.includes(piece));
  const template = layOut(left, { ...settings, copies: 1, cardOf: () => ({ thickness: 0.1 }) });
  const sheets = layOut(cut, settings).map((sheet) => ({
    ...sheet,
    placed: sheet.placed.map((own) => ({
      ...own,
      art: artOn(assembly, own.piece, own.place, settings.art),
    })),
  }));
  return { pieces, sheets, template, bonds, steps, hubs, frames, warnings };
}

/** The gutter, where the spread is too wide for the sheet in one piece and can be made of two leaves. */
function gutterToSplit(
  assembly: Assembly,
  { paper, margin, cardOf, base }: SheetSettings,
): ReadonlySet<number> {
  const { width, height } = assembly.page;
  const joints = assembly.joints.flatMap((joint, i) =>
    joint.kind === 'crease' && joint.between[0] === LEFT_PAGE && joint.between[1] === RIGHT_PAGE ? [i] : [],
  );
  const leaves = assembly.panels.filter(({ piece, role }) => piece === 'page' && role === 'card');
  const split = joints.length === 1 && leaves.length === 2;
  if (base === 'sheet') return new Set();
  if (base === 'leaves') return new Set(split ? joints : []);
  const grain = cardOf('page').grain;
  // With its grain asked for, the gutter runs along or across an upright sheet's height.
  const [across, up] = grain === 'across' ? [height, 2 * width] : [2 * width, height];
  return new Set(split && !fitsOn(paper, margin, across, up, hasGrain(grain)) ? joints : []);
}
