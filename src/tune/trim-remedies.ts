import { compileFigure, type Figure } from '../figure/figure.js';
import { valueAt } from '../figure/text/check.js';
import type { FigureSource, Json } from '../figure/text/source.js';
import { catches } from '../limits/catch.js';
import type { Trim } from '../parts/trim.js';
import type { Scorecard } from '../score/scorecard.js';
import { Scorer } from '../score/scorer.js';
import { findTrims, type TrimOffer } from '../score/trims/trims.js';
import { withTrims } from './with-values.js';

/** Card cut away so that nothing catches any more. */
export interface TrimRemedy {
  readonly cuts: readonly TrimOffer[];
  readonly card: Scorecard;
  /** The figure file with the trims. */
  readonly text: string;
}

/**
 * Remedies that only cut card away from a figure that gets shut but catches: each cut that frees it alone, or as many as
 * it takes together. Each is proved by a full score of the figure with its trims.
 * @param mayCut whether a panel may be cut at all
 * @param most how much of it, per cent
 */
export function trimRemedies(
  source: FigureSource,
  figure: Figure,
  card: Scorecard,
  mayCut: (panel: string) => boolean,
  most: number | undefined,
): TrimRemedy[] {
  const isCaught = card.limits.some(({ name, met }) => name === catches.name && !met);
  if (card.cannotBuild !== null || card.locks !== null || !isCaught) return [];
  const { catches: freeable, together } = findTrims(figure, figure.start, { most });
  const alone = freeable.flatMap(({ offers }) => offers.map((offer) => [offer]));
  const sets = new Map([...alone, [...together]].map((cuts) => [JSON.stringify(cuts), cuts]));
  return [...sets.values()].flatMap((cuts): TrimRemedy[] => {
    if (cuts.length === 0 || !cuts.every(({ panel }) => mayCut(panel))) return [];
    const trims = cuts.flatMap((cut) => cut.trims);
    const trimmed = compileFigure({ ...source, data: trimmedData(source, trims) });
    const scored = new Scorer(trimmed).score(trimmed.start);
    return scored.works ? [{ cuts, card: scored, text: withTrims(source, trims) }] : [];
  });
}

function trimmedData(source: FigureSource, trims: readonly Trim[]): Json {
  const before = (valueAt(source, ['trims']) ?? []) as Json[];
  const added = trims.map(({ panel, region }) => ({ panel, region: region.map((corner) => [...corner]) }));
  return { ...(source.data as { [field: string]: Json }), trims: [...before, ...added] };
}
