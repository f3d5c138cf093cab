import type { Move, Tie } from './moves.js';
import type { OpenedFigure } from './opened.js';

/** Settings that are moved together, and why; `part` is the one that would not shut otherwise. */
export interface NamedTie {
  readonly because: Tie['because'];
  readonly part?: string;
  readonly names: readonly string[];
}

/**
 * Every tie once; of a part that must shut, all settings in one. Words, what the file leaves out, and points of
 * outlines go without saying.
 */
export function allTies(opened: OpenedFigure, moves: readonly Move[]): NamedTie[] {
  const ties = new Map<string, NamedTie>();
  const { settings } = opened;
  const isTold = ({ because, settings: tied }: Tie) =>
    (because === 'equal' || because === 'shuts') &&
    tied.every((i) => {
      const { kind, isWritten, place } = settings[i];
      return kind === 'number' && isWritten && !place.includes('polygon') && !place.includes('outline');
    });
  for (const tie of moves.flatMap((move) => move.ties.filter(isTold).map((each) => namedTie(opened, each)))) {
    const { part } = tie;
    if (part === undefined) ties.set(tie.names.join(), tie);
    else {
      const own = tie.names.filter((name) => name.startsWith(`${part}.`) || !name.includes('.'));
      const names = new Set([...(ties.get(part)?.names ?? []), ...own]);
      ties.set(part, { ...tie, names: [...names].sort() });
    }
  }
  return [...ties.values()];
}

/** A tie with the names of what it ties. */
export function namedTie({ settings }: OpenedFigure, tie: Tie): NamedTie {
  const names = tie.settings.map((setting) => settings[setting].name);
  return { because: tie.because, names, ...(tie.because === 'shuts' ? { part: tie.part } : {}) };
}
