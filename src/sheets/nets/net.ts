import type { Isometry, Segment, Shape } from '../../geometry/plane.js';
import type { Sense } from './fold-sense.js';

/** One flat area of card in a net. */
export interface Area {
  /** The panel's name; of a join tab, what it joins. */
  readonly name: string;
  readonly kind: 'panel' | 'tab' | 'join';
  /** Index of the panel in the assembly; −1 for what is made here (a join tab, a hub). */
  readonly panel: number;
  /** In the net's coordinates, printed face towards us. */
  shape: Shape;
  /** From the panel's own frame to the net's; it mirrors where the panel's own +z is the back of the sheet. */
  readonly place: Isometry;
}

/** A crease between two areas of a net, by their places in `areas`. */
export interface Fold {
  readonly between: readonly [number, number];
  readonly line: Segment;
  readonly sense: Sense;
  /** Joint of the assembly; −1 for what is made here. */
  readonly joint: number;
}

/** What is cut out in one, laid flat: areas that do not overlap, joined by creases. */
export interface Net {
  readonly name: string;
  /** The piece of the assembly that it is, or is a part of: decides its card. */
  readonly piece: string;
  readonly areas: Area[];
  readonly folds: Fold[];
  /** Cuts inside the card that no panel's outline shows: slits in a page. */
  readonly slits: Segment[];
}

/** Two parts of a piece that cannot be cut in one, and the tab that joins them again. */
export interface Join {
  /** The net that carries the tab, and the tab's place in its areas. */
  readonly net: Net;
  readonly area: number;
  /** The panel that the tab is glued to, its face (+1: the +z of its own frame), and where on it, in that frame. */
  readonly receiver: number;
  readonly receiverFace: 1 | -1;
  readonly shape: Shape;
  readonly line: Segment;
}

/** Every piece laid flat. */
export interface Unfolded {
  readonly nets: Net[];
  readonly joins: Join[];
  /** What a maker should know: where a piece was split, where a tab was cut back. */
  readonly notes: string[];
}
