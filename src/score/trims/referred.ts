import type { Want } from '../../figure/wants.js';
import { lengthWithin } from '../../geometry/line-in-ring.js';
import { holds, type Polygon } from '../../geometry/polygon.js';
import { outsideOf } from '../../geometry/ring-distance.js';
import type { Assembly } from '../../motion/assembly.js';
import type { Opening } from '../../motion/opening.js';
import { passingSections } from '../slots.js';

/** Card that must stay around the point of a want, mm. (Common practice, no source.) */
const MARGIN = 1;
/** Length across a slot, mm, that a cut may touch by round-off. */
const SCRATCH = 0.05;

/**
 * The places of a panel that a want or a slot refers to, and that no cut may take: a hand, say. These are the points of its wants, if they lie on
 * card, and all of it that ever crosses the plane of a slot that it passes through.
 */
export class Referred {
  readonly #points: { readonly want: string; readonly at: readonly [number, number] }[];
  readonly #sections: { readonly slot: string; readonly ends: Ends }[];

  /** @param k the panel; its frames stand in the opening */
  constructor(assembly: Assembly, opening: Opening, wants: readonly Want[], k: number) {
    const panel = assembly.panels[k];
    this.#points = pointsOf(wants, panel).filter(({ at: [x, y] }) => holds(panel, x, y));
    this.#sections = assembly.joints.flatMap((joint) =>
      joint.kind === 'slot' && joint.between[0] === k
        ? passingSections(assembly, opening, joint)
            .filter((ends) => holds(panel, ...middleOf(ends)))
            .map((ends) => ({ slot: joint.part, ends }))
        : [],
    );
  }

  /** What a cut would take, in words that follow on 'the cut …'; null where it leaves all of it. */
  takenBy(region: Float64Array): string | null {
    const near = this.#points.find(({ at }) => outsideOf(region, at) < MARGIN);
    if (near !== undefined) return `takes the point of '${near.want}'`;
    const through = this.#sections.find(
      ({ ends: [x0, y0, x1, y1] }) => lengthWithin({ x0, y0, x1, y1 }, region) > SCRATCH,
    );
    return through === undefined ? null : `takes what passes through '${through.slot}'`;
  }

  /** The same of what falls away with a cut. @param left what is left of the panel */
  missingFrom(left: Polygon): string | null {
    const lost = this.#points.find(({ at: [x, y] }) => !holds(left, x, y));
    if (lost !== undefined) return `takes the point of '${lost.want}'`;
    const through = this.#sections.find(({ ends }) => !holds(left, ...middleOf(ends)));
    return through === undefined ? null : `takes what passes through '${through.slot}'`;
  }
}

type Ends = readonly [number, number, number, number];
const middleOf = ([x0, y0, x1, y1]: Ends): [number, number] => [(x0 + x1) / 2, (y0 + y1) / 2];

/** Points of wants on a panel, in its plane. */
export function pointsOf(
  wants: readonly Want[],
  { name, up }: { readonly name: string; readonly up: 1 | -1 },
): { want: string; at: readonly [number, number] }[] {
  return wants.flatMap((want) => {
    if ((want.kind !== 'travel' && want.kind !== 'rise') || want.panel !== name) return [];
    const { point } = want;
    return point === undefined ? [] : [{ want: want.name, at: [point[0], up * point[1]] as const }];
  });
}
