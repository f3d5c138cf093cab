import type { Piece } from '../layout/piece.js';

/** What to take care of. The printed words stand by themselves: the page may be all that a maker has. */
export function cautions(small: readonly Piece[], hubs: number): string[] {
  const lines = [
    'Craft knife: cut on a mat, along a steel rule, away from the hand that holds it; change the blade when it drags; children cut only with an adult beside them.',
    'Glue: use it where there is air to breathe, and as its maker says.',
  ];
  if (hubs > 0)
    lines.push(
      'Keep glue away from the hubs: a trace of it in the hole sets the joint. Let glue near them dry open.',
    );
  lines.push(
    'Cutting machines: cut a test first. Cut one small piece with a crease from the same card, measure it, fold it, and only then the rest.',
    'Laser cutting: card catches fire and its fumes harm. Never leave a running machine, extract the fumes, have an extinguisher at hand, and test speed and power on waste first.',
    'Small parts: for children under three years, local toy-safety rules decide, and accredited testing shows whether a figure meets them. This sheet does neither.',
  );
  lines.push(
    small.length === 0
      ? 'None of the pieces, as cut and flat, fits into the small-parts cylinder of 16 CFR 1501 (31.7 mm across, 25.4 to 57.1 mm deep); what is torn off or crumpled may.'
      : `As cut and flat, these may fit into the small-parts cylinder of 16 CFR 1501 (31.7 mm across, 25.4 to 57.1 mm deep): ${small
          .map(({ number, net }) => `${number} ${net.name}`)
          .join(
            '; ',
          )}. Keep them from children under three. 16 CFR 1501.3 exempts books and other articles made of paper; other countries differ.`,
  );
  return lines;
}
