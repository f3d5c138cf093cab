import type { BuiltFigure } from '../figure/built.js';
import { compileFigure } from '../figure/figure.js';
import type { Path } from '../figure/text/input-error.js';
import type { FigureSource } from '../figure/text/source.js';
import { type Move, movesOf } from '../tune/moves.js';
import { allTies, type NamedTie } from '../tune/named-ties.js';
import { type OpenedFigure, openFigure } from '../tune/opened.js';
import { type Change, type Moved, moveNumber, rounded } from './move-number.js';

/** What moves with what in a figure, so that a fold that shuts still shuts. Made once for a text, used for every drag. */
export interface Ties {
  /**
   * What makes a field come to a value, as `moveNumber` says, with all that must move along.
   * @throws EditFault where nothing that may change moves it
   */
  move(path: Path, value: number): Moved;
  /** All that is tied. */
  readonly all: readonly NamedTie[];
}

/**
 * @param built the figure as it stands; null where it cannot be built
 * @throws InputError for a figure file that cannot be used
 */
export function tiesOf(source: FigureSource, built: BuiltFigure | null = null): Ties {
  const opened = openFigure(source, compileFigure(source));
  const moves = movesOf(opened, () => false);
  return {
    all: allTies(opened, moves),
    move(path, value) {
      const { changes, said } = moveNumber(source, path, value, built);
      const along = changes.map((change) => withTied(opened, moves, change));
      return {
        changes: along.flatMap(({ changes: all }) => all),
        said: [...said, ...along.flatMap((each) => each.said)],
      };
    },
  };
}

function withTied(opened: OpenedFigure, moves: readonly Move[], change: Change): Moved {
  const alone: Moved = { changes: [change], said: [] };
  const key = change.path.join('.');
  const setting = opened.settings.findIndex(
    ({ place, kind }) => kind === 'number' && place.join('.') === key,
  );
  if (setting < 0) return alone;
  const move = fewest(
    moves.filter(({ kind, steps }) => kind === 'number' && steps.some((step) => step.setting === setting)),
  );
  const step = move?.steps.find((each) => each.setting === setting);
  if (move === undefined || step === undefined || move.steps.length === 1) return alone;
  const amount = (change.value - opened.now[setting]) / step.by;
  const others = move.steps.filter((each) => each !== step);
  const tie = move.ties.find(({ because }) => because === 'shuts') ?? move.ties[0];
  const names = others.map((each) => opened.settings[each.setting].name).join(', ');
  return {
    changes: [
      change,
      ...others.map(({ setting: other, by }) => ({
        path: opened.settings[other].place,
        value: rounded(opened.now[other] + by * amount),
      })),
    ],
    said: [
      tie?.because === 'shuts'
        ? `${names} moves along: else ${tie.part} would not shut`
        : `${names} moves along: else it would not shut`,
    ],
  };
}

/** One that leaves all else alone, else that which moves the fewest; equal ones before others. */
function fewest(moves: readonly Move[]): Move | undefined {
  return moves.reduce<Move | undefined>(
    (best, move) => (best === undefined || move.steps.length < best.steps.length ? move : best),
    undefined,
  );
}
