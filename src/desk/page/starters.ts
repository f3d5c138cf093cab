import type { NewPart } from '../../edit/add-part.js';
import type { Json } from '../../figure/text/source.js';
import type { Assembly } from '../../motion/assembly.js';
import type { Place } from './place.js';

/** A part that can stand somewhere, with sizes that shut and fit, as it would be written. */
export interface Starter {
  readonly kind: string;
  readonly title: string;
  readonly part: NewPart;
  /** A picture: paths as SVG has them, from the farthest on, and their colours: by number, or that of the part; and the box around it. */
  readonly picture: {
    readonly paths: readonly { readonly d: string; readonly tone: number | 'new' }[];
    readonly box: readonly number[];
  };
  /** What it does to the figure that was sound without it; empty for nothing. */
  readonly trouble: string;
}

/** A kind of part to try somewhere, at one size. */
export interface Trial {
  readonly kind: string;
  readonly title: string;
  readonly fields: { readonly [field: string]: Json };
}

const half = (value: number): number => Math.round(2 * value) / 2;

/** Of the middle of a crease, mm. */
const NEAR_MIDDLE = 2;

/** Where along a crease a part is tried if nobody has pointed anywhere, as shares of it. */
const TRIED = [0.5, 0.75, 0.25];

/** Where along a crease its middle is tried, the first choice first; elsewhere there is one place only. */
export function placesToTry(place: Place, { creases }: Pick<Assembly, 'creases'>): Place[] {
  const line = creases.get(place.name)?.lines[0];
  if (place.kind === 'panel' || place.along !== undefined || line === undefined) return [place];
  const long = Math.hypot(line.x1 - line.x0, line.y1 - line.y0);
  return TRIED.map((share) => ({ ...place, along: share * long }));
}

/**
 * The parts that may stand on a crease or a panel, at a share of the room that is there; their middle where it was pointed to.
 * Each shuts flat by itself: a fold's panels come to the same on both sides (see `tune/shut-relations`).
 */
export function trialsOn(place: Place, assembly: Assembly, share: number): Trial[] {
  return place.kind === 'crease' ? onCrease(place, assembly, share) : onPanel(place, assembly, share);
}

function onCrease({ name, along }: Place, { creases, page }: Assembly, share: number): Trial[] {
  const crease = creases.get(name);
  if (crease === undefined) return [];
  const { x0, y0, x1, y1 } = crease.lines[0];
  const long = Math.hypot(x1 - x0, y1 - y0);
  const on: { [field: string]: Json } = name === 'gutter' ? {} : { on: name };
  // Ridges stand up out of the card: what sits on them points out, and keeps near them.
  const points: { [field: string]: Json } =
    name === 'gutter' || name.includes('layer') ? {} : { points: 'out' };
  const reach = half(share * Math.min(name === 'gutter' ? 0.4 * page.width : 0.25 * page.width, 0.5 * long));
  const pointed = Math.min(long, Math.max(0, along ?? 0.5 * long));
  // A hand that is as near to the middle of the crease means the middle.
  const middle = Math.abs(pointed - 0.5 * long) < NEAR_MIDDLE ? 0.5 * long : pointed;
  const length = half(share * 0.5 * long);
  /** The beginning of what is so long about the middle. */
  const from = (far: number) => half(Math.min(Math.max(0, long - far), Math.max(0, middle - far / 2)));
  const moving = half(Math.max(8, 0.5 * reach));
  return [
    {
      kind: 'v-fold',
      title: 'V-fold',
      fields: {
        ...on,
        at: half(middle),
        glue: [60, 60],
        panels: [68, 68],
        ...points,
        feet: [reach, reach],
        ridge: half(1.2 * reach),
      },
    },
    {
      kind: 'parallel-fold',
      title: 'Tent',
      fields: {
        ...on,
        at: from(length),
        length,
        glue: [half(0.6 * reach), half(0.6 * reach)],
        widths: [half(0.6 * reach) + 5, half(0.6 * reach) + 5],
        ...points,
      },
    },
    {
      kind: 'parallel-fold',
      title: 'Box',
      fields: {
        shape: 'box',
        ...on,
        at: from(length),
        length,
        glue: [half(0.5 * reach), half(0.5 * reach)],
        ...points,
      },
    },
    {
      kind: 'counter-fold',
      title: 'Counter-fold',
      fields: {
        on: name,
        at: half(Math.max(0, Math.min(middle, long - moving))),
        diagonal: 35,
        side: half(Math.max(6, 0.4 * reach)),
        length: moving,
      },
    },
  ];
}

function onPanel({ name, along, up }: Place, { panels }: Assembly, share: number): Trial[] {
  const panel = panels.find((each) => each.name === name);
  if (panel === undefined) return [];
  const xs = panel.outline.filter((_, i) => i % 2 === 0);
  const ys = panel.outline.filter((_, i) => i % 2 === 1).map((y) => panel.up * y);
  const [left, right, low, high] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  // The middle of its corners lies on the card of most panels, where that of the box around them may not.
  const mean = (values: Float64Array) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const [x, y] = [along ?? mean(xs), up ?? mean(ys)];
  const wide = half(Math.max(4, share * 0.35 * (right - left)));
  const tall = half(Math.max(4, share * 0.35 * (high - low)));
  const corner = [half(x - wide / 2), half(y - tall / 2)];
  const arm = half(Math.max(8, share * 0.8 * (right - left)));
  return [
    {
      kind: 'glued-piece',
      title: 'Glued piece',
      fields: {
        on: name,
        at: corner,
        outline: {
          polygon: [
            [0, 0],
            [wide, 0],
            [wide, tall],
            [0, tall],
          ],
        },
      },
    },
    {
      kind: 'glued-piece',
      title: 'Arm',
      fields: {
        on: name,
        at: [half(x), half(y)],
        turn: 45,
        outline: {
          polygon: [
            [0, -2],
            [arm, -3],
            [arm + 3, 0],
            [arm, 3],
            [0, 2],
          ],
        },
      },
    },
    { kind: 'stiffener', title: 'Stiffener', fields: { on: name, at: corner, size: [wide, tall] } },
  ];
}
