import { compileFigure, type Figure } from '../figure/figure.js';
import { valueAt } from '../figure/text/check.js';
import type { FigureSource, Json } from '../figure/text/source.js';
import { withItem } from '../figure/text/yaml-items.js';
import { holds } from '../geometry/polygon.js';
import type { Assembly, Panel } from '../motion/assembly.js';
import { CannotBuild } from '../motion/cannot-build.js';
import type { Scorecard } from '../score/scorecard.js';
import { Scorer } from '../score/scorer.js';

/** A rectangle of card to be glued on a panel, as a figure file has it. */
export interface Stiffener {
  readonly name: string;
  readonly on: string;
  /** Its corner on the panel, y upwards from its foot, its length and width, mm. */
  readonly at: readonly [number, number];
  readonly size: readonly [number, number];
  readonly face: 'front' | 'back';
}

/** A stiffener that frees a figure. */
export interface StiffenRemedy {
  readonly stiffener: Stiffener;
  readonly card: Scorecard;
  /** The figure file with it. */
  readonly text: string;
}

/** A stiffener keeps so far from edges, creases and the shoulders of hubs, mm. */
const CLEAR = 1;
/** Narrower or shorter than this none is cut, mm. */
const LEAST = 4;

/**
 * Stiffeners that free a figure whose links are too long or too short: on a limb that bows where it is pushed, or on a panel
 * that bends where it is pulled, so that something else gives. Each is proved by a full score: where it only makes the page
 * harder to turn, or a hub tear, none is offered. Of several on one panel the smallest.
 * @param may whether a panel may be stiffened at all
 */
export function stiffenRemedies(
  source: FigureSource,
  figure: Figure,
  card: Scorecard,
  may: (panel: string) => boolean,
): StiffenRemedy[] {
  const bows = [card.chains?.bow, card.chains?.bend].flatMap((extreme) => extreme?.at?.panels ?? []);
  const binds = card.limits.some(({ name, met }) => name === 'give' && !met);
  if (!binds || bows.length === 0) return [];
  const assembly = built(figure);
  if (assembly === null) return [];
  return [...new Set(bows)].filter(may).flatMap((on) => {
    const panel = assembly.panels.find(({ name }) => name === on) as Panel;
    const fitting = rectanglesOn(assembly, panel)
      .flatMap((rectangle) => (['front', 'back'] as const).map((face) => ({ ...rectangle, face })))
      .sort((a, b) => areaOf(a) - areaOf(b));
    for (const rectangle of fitting) {
      const stiffener = { name: freeName(assembly, `${on} stiffener`), on, ...rectangle };
      const remedy = tried(source, stiffener);
      if (remedy !== null) return [remedy];
    }
    return [];
  });
}

type Rectangle = Pick<Stiffener, 'at' | 'size'>;

const areaOf = ({ size: [long, wide] }: Rectangle): number => long * wide;

/** Rectangles between and beside the joints of a panel, as large as its card has room for. */
function rectanglesOn({ panels, joints }: Assembly, panel: Panel): Rectangle[] {
  const index = panels.indexOf(panel);
  const { outline, up } = panel;
  const hubs = joints.flatMap((joint) => {
    const end = joint.between.indexOf(index);
    if (end < 0) return [];
    if (joint.kind === 'pivot') return [{ at: joint.points[end], radius: joint.hub.shoulder / 2 }];
    return joint.kind === 'slide' && end === 0 ? [{ at: joint.point, radius: CLEAR }] : [];
  });
  const bounds = (axis: 0 | 1) => {
    const values = Array.from({ length: outline.length / 2 }, (_, i) => outline[2 * i + axis]);
    return [Math.min(...values) + CLEAR, Math.max(...values) - CLEAR] as const;
  };
  const whole = [bounds(0), bounds(1)] as const;
  // What lies on one side of all hubs, or between two that follow one another, along x and along y.
  const spans = ([0, 1] as const).flatMap((axis) => {
    const taken = hubs
      .map(({ at, radius }) => [at[axis] - radius - CLEAR, at[axis] + radius + CLEAR] as const)
      .sort((a, b) => a[0] - b[0]);
    const ends = [whole[axis][0], ...taken.flat(), whole[axis][1]];
    return Array.from({ length: ends.length / 2 }, (_, i) =>
      axis === 0
        ? ([[ends[2 * i], ends[2 * i + 1]], whole[1]] as const)
        : ([whole[0], [ends[2 * i], ends[2 * i + 1]]] as const),
    );
  });
  return spans.flatMap(([[left, right], [low, high]]): Rectangle[] => {
    const corners = [
      [left, low],
      [right, low],
      [right, high],
      [left, high],
    ];
    if (right - left < LEAST || high - low < LEAST) return [];
    if (!corners.every(([x, y]) => holds(panel, x, y))) return [];
    const [long, wide] = [rounded(right - left), rounded(high - low)];
    return [{ at: [rounded(left), rounded(up > 0 ? low : -high)], size: [long, wide] }];
  });
}

/** To a tenth, as it is measured and cut. */
const rounded = (mm: number): number => Math.round(10 * mm) / 10;

function tried(source: FigureSource, stiffener: Stiffener): StiffenRemedy | null {
  const part = partOf(stiffener);
  const parts = valueAt(source, ['parts']) as Json[];
  const data = { ...(source.data as { [field: string]: Json }), parts: [...parts, part] };
  const stiffened = compileFigure({ ...source, data });
  const card = new Scorer(stiffened).score(stiffened.start);
  return card.works ? { stiffener, card, text: withItem(source.text, ['parts'], parts.length, part) } : null;
}

/** The part as it is written. */
const partOf = ({ name, on, at, size, face }: Stiffener): { [field: string]: Json } => ({
  name,
  kind: 'stiffener',
  on,
  at: [...at],
  size: [...size],
  ...(face === 'back' ? { face } : {}),
});

function freeName({ panels }: Assembly, name: string): string {
  const taken = new Set(panels.flatMap((panel) => [panel.name, panel.part]));
  for (let i = 1; ; i++) {
    const free = i === 1 ? name : `${name} ${i}`;
    if (!taken.has(free)) return free;
  }
}

function built(figure: Figure): Assembly | null {
  try {
    return figure.build(figure.start);
  } catch (error) {
    if (error instanceof CannotBuild) return null;
    throw error;
  }
}
