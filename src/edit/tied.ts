import type { BuiltFigure } from '../figure/built.js';
import { compileFigure } from '../figure/figure.js';
import { valueAt } from '../figure/text/check.js';
import type { Path } from '../figure/text/input-error.js';
import type { FigureSource, Json } from '../figure/text/source.js';
import { type Move, movesOf } from '../tune/moves.js';
import { allTies, type NamedTie } from '../tune/named-ties.js';
import { openFigure } from '../tune/opened.js';
import { writtenParts } from './mentions.js';
import { type MovedNumbers, moveNumber, type NewNumber, rounded } from './move-number.js';

/** What moves with what in a figure, so that a fold that shuts still shuts: plain data, found once for a text. */
export interface Ties {
  readonly settings: readonly { readonly name: string; readonly place: Path }[];
  /** The number of each as the figure starts; of words, the place of the option. */
  readonly now: Float64Array;
  /** Numbers that may be moved, alone or together. */
  readonly moves: readonly Move[];
  /** All that is tied. */
  readonly all: readonly NamedTie[];
}

/** @throws InputError for a figure file that cannot be used */
export function tiesOf(source: FigureSource): Ties {
  const opened = openFigure(source, compileFigure(source));
  const moves = movesOf(opened, () => false);
  return {
    settings: opened.settings.map(({ name, place }) => ({ name, place })),
    now: opened.now,
    moves: moves.filter(({ kind }) => kind === 'number'),
    all: allTies(opened, moves),
  };
}

/**
 * What makes a field come to a value, as `moveNumber` says, with all that must move along.
 * @param built the figure as it stands; null where it cannot be built
 * @throws EditFault where nothing that may change moves it
 */
export function moveTied(
  ties: Ties,
  source: FigureSource,
  path: Path,
  value: number,
  built: BuiltFigure | null = null,
): MovedNumbers {
  const { changes, findings } = moveNumber(source, path, value, built);
  const along = changes.map((change) => withTied(ties, change));
  return {
    changes: along.flatMap(({ changes: all }) => all),
    findings: [...findings, ...along.flatMap((each) => each.findings)],
  };
}

/** Ties that were found for a text, as far as they hold for one with other numbers; null where its parts are others. */
export function tiesNow(ties: Ties, found: FigureSource, source: FigureSource): Ties | null {
  const named = (of: FigureSource) => JSON.stringify(writtenParts(of).map(({ name, kind }) => [name, kind]));
  if (named(found) !== named(source)) return null;
  const now = ties.now.map((before, i) => startOf(valueAt(source, ties.settings[i].place)) ?? before);
  return { ...ties, now };
}

/** The number that is written somewhere, or with which a range starts. */
function startOf(written: Json | undefined): number | null {
  if (typeof written === 'number') return written;
  const { start } = (typeof written === 'object' ? (written ?? {}) : {}) as { start?: Json };
  return typeof start === 'number' ? start : null;
}

function withTied({ settings, now, moves }: Ties, change: NewNumber): MovedNumbers {
  const alone: MovedNumbers = { changes: [change], findings: [] };
  const key = change.path.join('.');
  const setting = settings.findIndex(({ place }) => place.join('.') === key);
  const move = fewest(moves.filter(({ steps }) => steps.some((step) => step.setting === setting)));
  const step = move?.steps.find((each) => each.setting === setting);
  if (move === undefined || step === undefined || move.steps.length === 1) return alone;
  const amount = (change.value - now[setting]) / step.by;
  const others = move.steps.filter((each) => each !== step);
  const tie = move.ties.find(({ because }) => because === 'shuts') ?? move.ties[0];
  const names = others.map((each) => settings[each.setting].name);
  return {
    changes: [
      change,
      ...others.map(({ setting: other, by }) => ({
        path: settings[other].place,
        value: rounded(now[other] + by * amount),
      })),
    ],
    findings: [{ kind: 'along', names, shuts: tie?.because === 'shuts' ? tie.part : null }],
  };
}

/** One that leaves all else alone, else that which moves the fewest; equal ones before others. */
function fewest(moves: readonly Move[]): Move | undefined {
  return moves.reduce<Move | undefined>(
    (best, move) => (best === undefined || move.steps.length < best.steps.length ? move : best),
    undefined,
  );
}
