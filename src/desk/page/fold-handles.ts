import type { BuiltFigure } from '../../figure/built.js';
import type { Crease } from '../../motion/crease.js';
import { type Flat, type Footing, lengthOf, takeStance, unit } from '../../parts/attach.js';
import { fieldOf, type HeldPart, sideOf } from './held-part.js';
import type { Handle, Hold } from './hold.js';
import { type Field, type Finding, held, isFields, lineHandles } from './point-handles.js';

/** A fold that stands on a crease, and one of its two sides. */
interface FoldSide {
  readonly part: HeldPart;
  readonly finding: Finding;
  /** Left (0) or right. */
  readonly side: number;
  readonly footing: Footing;
}

const FOLDS: ReadonlySet<string> = new Set(['v-fold', 'parallel-fold', 'counter-fold']);
const SIDES = ['left', 'right'];

/** What of a fold stands along its crease, and the ends of its feet, diagonals and ridge. */
export function foldHandles(part: HeldPart, finding: Finding): Handle[] {
  const { built } = finding;
  if (!FOLDS.has(part.kind)) return [];
  const on = fieldOf(part, 'on');
  const crease = built.assembly.creases.get(built.word(on.value, on.path) ?? 'gutter');
  const at = crease === undefined ? null : alongCrease(part, crease, built);
  if (crease === undefined || at === null) return [];
  const facing = fieldOf(part, 'toward');
  const toward = built.word(facing.value, facing.path) === 'start' ? 'start' : 'end';
  const isTent = part.kind === 'parallel-fold';
  const start = takeStance(crease, 0, 'end').footings;
  const sides = takeStance(crease, at, toward).footings.flatMap((footing, side) => {
    const fold: FoldSide = { part, finding, side, footing };
    const { panel, along } = start[side];
    const hold = lengths(start[side].at, along);
    const place: Field = { value: at, path: part.pathOf('at') };
    const what = isTent ? 'beginning' : 'apex';
    return [
      ...held(hold, [place], { part: part.name, what }, panel, finding),
      ...(isTent ? endAndFoot(fold) : endOfFoot(fold)),
    ];
  });
  return isTent ? sides : [...sides, ...ridgeEnd(part, finding)];
}

/** How far from its beginning a fold stands along its crease, mm; null where that cannot be worked out. */
function alongCrease(part: HeldPart, crease: Crease, built: BuiltFigure): number | null {
  const [at, length] = [fieldOf(part, 'at'), fieldOf(part, 'length')];
  const own = part.kind === 'parallel-fold' ? (built.number(length.value, length.path) ?? 0) : 0;
  return built.number(at.value, at.path, Math.max(0, lengthOf(crease.lines[0]) - own));
}

const lengths = (from: Flat, ...axes: Flat[]): Hold => ({ by: 'lengths', from, axes });

/** How long a tent or box is along its crease, and how far off that its foot is glued. */
function endAndFoot({ part, finding, side, footing: { panel, at, along, inward } }: FoldSide): Handle[] {
  const named = (what: string) => ({ part: part.name, what });
  return [
    ...held(lengths(at, along), [fieldOf(part, 'length')], named('end'), panel, finding),
    ...held(lengths(at, inward), [sideOf(part, 'glue', side)], named(`${SIDES[side]} foot`), panel, finding),
  ];
}

/** The end of a foot of a V-fold, or of a diagonal: its angle and its length; or so far along a line that is drawn. */
function endOfFoot(fold: FoldSide): Handle[] {
  const { part, finding, side, footing } = fold;
  const isVFold = part.kind === 'v-fold';
  const [turn, far] = isVFold
    ? [sideOf(part, 'glue', side), sideOf(part, 'feet', side)]
    : [fieldOf(part, 'diagonal'), fieldOf(part, 'side')];
  if (isFields(turn.value)) return alongGlueLine(fold, turn, far);
  const { panel, at, along, inward } = footing;
  const what = `end of its ${SIDES[side]} ${isVFold ? 'foot' : 'diagonal'}`;
  const hold: Hold = { by: 'turn', from: at, zero: along, ninety: inward };
  return held(hold, [turn, far], { part: part.name, what }, panel, finding);
}

/** The end of a foot that is glued along a line: how far it goes along that, and what the line is drawn from. */
function alongGlueLine({ part, finding, side, footing }: FoldSide, turn: Field, far: Field): Handle[] {
  const { built } = finding;
  const { panel } = footing;
  const own = built.assembly.panels.findIndex((each) => each.name === `${part.name} ${SIDES[side]}`);
  const [from, to] = [0, 1].map((x) => built.pricked({ panel: own, x, y: 0, opened: 180 }, panel));
  if (own < 0 || from === null || to === null) return [];
  const named = (what: string) => ({ part: part.name, what, panel });
  return [
    ...held(
      lengths(from, [to[0] - from[0], to[1] - from[1]]),
      [far],
      named(`end of its ${SIDES[side]} foot`),
      panel,
      finding,
    ),
    ...lineHandles(turn.value, turn.path, named(`${SIDES[side]} glue line`), finding),
  ];
}

/** The far end of the ridge of a V-fold, or of the moving crease of a counter-fold: its length. */
function ridgeEnd(part: HeldPart, finding: Finding): Handle[] {
  const { built } = finding;
  const ridge = built.assembly.creases.get(`${part.name} ridge`);
  if (ridge === undefined) return [];
  const [line] = ridge.lines;
  const far = lengthOf(line);
  if (far < 1e-6) return [];
  const [ex, ey] = unit(line);
  const written = fieldOf(part, part.kind === 'v-fold' ? 'ridge' : 'length');
  // Counted from the apex, also where card begins farther up.
  const long = built.number(written.value, written.path) ?? far;
  const hold = lengths([line.x1 - long * ex, line.y1 - long * ey], [ex, ey]);
  return held(hold, [written], { part: part.name, what: 'end of its ridge' }, ridge.between[0], finding);
}
