import { direction, edgesOf, type Ring } from '../../geometry/plane.js';
import { type Costs, WORKS, type Work } from '../costs.js';
import type { Plan } from '../plan.js';

/** What one figure takes. */
export interface Cost {
  readonly counts: Readonly<Record<Work, number>>;
  /** Minutes for all of each kind, and of all. */
  readonly minutes: Readonly<Record<Work, number>>;
  readonly total: number;
  /** Of one copy; each null where a price is not told, and the sum where none is. */
  readonly sheets: number | null;
  readonly glue: number | null;
  readonly hand: number | null;
  readonly sum: number | null;
}

/** Counts the work on one figure, and what one of so many copies costs. */
export function costOf({ pieces, bonds, steps, hubs, sheets }: Plan, copies: number, costs: Costs): Cost {
  const counts: Record<Work, number> = {
    stroke: pieces.reduce(
      (sum, { lines: { contours, holes, slits } }) =>
        sum + [...contours, ...holes].reduce((own, ring) => own + strokesOf(ring), 0) + slits.length,
      0,
    ),
    crease: pieces.reduce((sum, { lines }) => sum + lines.creases.length, 0),
    glue: bonds.length,
    hub: hubs.length,
    pass: steps.filter(({ kind }) => kind === 'thread' || kind === 'tongue').length,
  };
  const each = (work: Work) => counts[work] * costs.minutes[work];
  const minutes: Record<Work, number> = {
    stroke: each('stroke'),
    crease: each('crease'),
    glue: each('glue'),
    hub: each('hub'),
    pass: each('pass'),
  };
  const total = WORKS.reduce((sum, work) => sum + minutes[work], 0);
  const { sheet, glue, hour } = costs.prices;
  const parts = {
    sheets: sheet === null ? null : (sheet * sheets.length) / copies,
    glue: glue === null ? null : glue * counts.glue,
    hand: hour === null ? null : (hour * total) / 60,
  };
  const known = Object.values(parts).filter((part) => part !== null);
  const sum = known.length === 0 ? null : known.reduce((a, b) => a + b, 0);
  return { counts, minutes, total, ...parts, sum };
}

/** The knife goes on round a bend of less than this, degrees. (Common practice, no source.) */
const BEND = 20;

/** Strokes of the knife for a closed cut: from corner to corner; a round hole is one. */
export function strokesOf(ring: Ring): number {
  const edges = edgesOf(ring);
  const corners = edges.filter((edge, i) => {
    const [ax, ay] = direction(edge);
    const [bx, by] = direction(edges[(i + 1) % edges.length]);
    return (Math.atan2(Math.abs(ax * by - ay * bx), ax * bx + ay * by) * 180) / Math.PI > BEND;
  });
  return Math.max(1, corners.length);
}

const NAMES: Readonly<Record<Work, readonly [string, string]>> = {
  stroke: ['stroke of the knife', 'strokes of the knife'],
  crease: ['crease', 'creases'],
  glue: ['glue joint', 'glue joints'],
  hub: ['hub', 'hubs'],
  pass: ['pass through a slot', 'passes through slots'],
};

/** What one figure takes, a row for each kind of work there is: what, how many, minutes for one, and for all. */
export function workRows({ counts, minutes }: Cost, costs: Costs): string[][] {
  return WORKS.filter((work) => counts[work] > 0).map((work) => [
    NAMES[work][1],
    `${counts[work]}`,
    `${costs.minutes[work]}`,
    minutes[work].toFixed(1),
  ]);
}

/** What one figure takes and costs, in a sentence or two. */
export function costInWords({ counts, total, sheets, glue, hand, sum }: Cost, { prices }: Costs): string {
  const work = WORKS.filter((kind) => counts[kind] > 0).map(
    (kind) => `${counts[kind]} ${NAMES[kind][counts[kind] === 1 ? 0 : 1]}`,
  );
  const made = `One figure: ${work.join(', ')}; about ${total.toFixed(0)} minutes by hand.`;
  if (sum === null) return made;
  const parts = [
    ['sheets', sheets],
    ['glue', glue],
    ['work by hand', hand],
  ].flatMap(([what, value]) => (typeof value === 'number' ? [`${what} ${value.toFixed(2)}`] : []));
  const untold = [
    ['sheets', sheets],
    ['glue', glue],
    ['work by hand', hand],
  ].flatMap(([what, value]) => (value === null ? [what] : []));
  const without = untold.length === 0 ? '' : `, without ${untold.join(' and ')}: no price is given`;
  return `${made} A copy costs ${`${sum.toFixed(2)} ${prices.currency}`.trim()}: ${parts.join(', ')}${without}.`;
}
