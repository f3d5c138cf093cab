import { asWritten, listOf } from '../../edit/mentions.js';
import { compileFigure, type Figure } from '../../figure/figure.js';
import { valueAt } from '../../figure/text/check.js';
import type { FigureSource } from '../../figure/text/source.js';
import { cardArea } from '../../geometry/polygon.js';
import { CannotBuild } from '../../motion/cannot-build.js';
import { turnChart } from '../../report/charts/turn-chart.js';
import { tiesInWords } from '../../report/words/tune-words.js';
import { turningOf } from '../../score/force/turning.js';
import type { Kernel } from './kernel.js';
import type { BesideSent } from './sent.js';

/** How hard the page turns, all that is tied, and what trims have taken. */
export function besideOf(id: number, kernel: Pick<Kernel, 'source' | 'figure' | 'findTies'>): BesideSent {
  const { source, figure } = kernel;
  const turning = turningOf(figure, figure.start);
  return {
    tell: 'beside',
    id,
    turnChart: turnChart({ name: figure.name, turning }),
    ties: tiesInWords(kernel.findTies().all),
    trims: trimmedFrom(source, figure),
  };
}

/** What trims have taken from each panel: the figure is built with them and without. */
export function trimmedFrom(source: FigureSource, figure: Figure): BesideSent['trims'] {
  if (listOf(valueAt(asWritten(source), ['trims'])).length === 0) return [];
  const { trims: _, ...data } = source.data as { [field: string]: never };
  try {
    const trimmed = new Set(figure.trims.map(({ panel }) => panel));
    const whole = compileFigure({ ...source, data }).build(figure.start).panels;
    const { panels } = figure.build(figure.start);
    return [...trimmed].flatMap((name) => {
      const [before, now] = [whole, panels].map((all) => all.find((panel) => panel.name === name));
      if (before === undefined || now === undefined) return [];
      const lost = cardArea(before) - cardArea(now);
      return [{ panel: name, lost, share: (100 * lost) / cardArea(before) }];
    });
  } catch (error) {
    // The scorecard says why it can't be built.
    if (error instanceof CannotBuild) return [];
    throw error;
  }
}
