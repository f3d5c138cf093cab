import svgpath from 'svgpath';
import {
  after,
  boxOf,
  type Isometry,
  moved,
  movedRing,
  movedShape,
  type Point,
  turnedBy,
  undoing,
} from '../../geometry/plane.js';
import { grown, less } from '../../geometry/region.js';
import type { Assembly } from '../../motion/assembly.js';
import type { Piece } from '../layout/piece.js';
import type { Net } from '../nets/net.js';
import type { CleanDrawing } from './clean-drawing.js';
import type { PlacedArt } from './placed-art.js';

/** A drawing for the printed face of a panel, or of a whole piece. */
export interface PanelArt {
  readonly on: string;
  readonly drawing: CleanDrawing;
  readonly zero?: readonly [number, number] | undefined;
  /** Whether it lies as the panel's outline, which is of the same drawing: mirrored where that is seen from behind. */
  readonly asOutline?: boolean;
  readonly turn: number;
  /** 'fit': as large as covers what it is on, with its bleed. */
  readonly scale: number | 'fit';
}

/** How art lies on a panel or piece, without what is drawn. */
export type ArtPlace = Omit<PanelArt, 'drawing'> & {
  readonly drawing: Pick<CleanDrawing, 'width' | 'height'>;
};

/** How far art runs past the cut, so that no bare card shows where the knife strays, mm. */
export const BLEED = 3;

/**
 * The way of a panel's drawing on the sheet: seen on the printed face, upright as the panel rises. Where the printed face
 * is the panel's back, what lies to the right on the drawing lies against the panel's own way, so that nothing that is
 * written comes out in mirror image.
 * @returns from mm up and to the right of the panel's (0, 0), as drawn, to the net
 */
export function drawnOn(
  assembly: Assembly,
  { panel, place }: Net['areas'][number],
  asOutline = false,
): Isometry {
  const { up } = assembly.panels[panel];
  // From [along, up] of a figure file to the panel's own plane and on to the net: mirrored or not.
  const own: Isometry = { c: 1, s: 0, x: 0, y: 0, flip: up };
  const toNet = after(place, own);
  return asOutline || toNet.flip === 1 ? toNet : after(toNet, { c: -1, s: 0, x: 0, y: 0, flip: -1 });
}

/** The areas of a net on which art is printed: those of its panel, or all panels of its piece. */
export function areasUnder(assembly: Assembly, net: Net, on: string): Net['areas'] {
  const named = net.areas.filter(({ panel }) => panel >= 0 && assembly.panels[panel].name === on);
  // No panel of that name, but a piece: all its panels.
  const isPanel = assembly.panels.some(({ name }) => name === on);
  return isPanel || net.piece !== on ? named : net.areas.filter(({ kind }) => kind === 'panel');
}

/** How a drawing is laid on areas of a net: where its points come to lie, and how much larger it is. */
export interface Laying {
  readonly scale: number;
  /** From mm from the drawing's top left corner, y down, to the net. */
  readonly to: (point: Point) => Point;
}

/** @returns undefined where there is nothing to print on */
export function layingOf(
  assembly: Assembly,
  own: Net['areas'],
  { drawing, zero, turn, scale: asked, asOutline }: Omit<ArtPlace, 'on'>,
): Laying | undefined {
  const [area] = own;
  if (area === undefined || area.panel < 0) return undefined;
  const toNet = drawnOn(assembly, area, asOutline);
  // Middle on middle where no point is given.
  const a = (turn * Math.PI) / 180;
  const outlines = own.flatMap(({ shape }) => movedRing(undoing(toNet), shape.outline));
  const { left, low, right, high } = boxOf(outlines);
  const turned = boxOf(movedRing(turnedBy(-turn), outlines));
  const scale =
    asked === 'fit'
      ? Math.max(
          (turned.right - turned.left + 2 * BLEED) / drawing.width,
          (turned.high - turned.low + 2 * BLEED) / drawing.height,
        )
      : asked;
  const at: Point = zero === undefined ? [(left + right) / 2, (low + high) / 2] : [0, 0];
  const from = zero ?? [drawing.width / 2, drawing.height / 2];
  const to = ([x, y]: Point): Point => {
    const [dx, dy] = [scale * (x - from[0]), -scale * (y - from[1])];
    return moved(toNet, [
      at[0] + dx * Math.cos(a) - dy * Math.sin(a),
      at[1] + dx * Math.sin(a) + dy * Math.cos(a),
    ]);
  };
  return { scale, to };
}

/** Six numbers a to f: x' = a x + c y + e, y' = b x + d y + f. */
export type Matrix = readonly [number, number, number, number, number, number];

/** A map that keeps straight lines, as numbers. */
export function matrixOf(to: (point: Point) => Point): Matrix {
  const [o, x, y] = [to([0, 0]), to([1, 0]), to([0, 1])];
  return [x[0] - o[0], x[1] - o[1], y[0] - o[0], y[1] - o[1], o[0], o[1]];
}

/** All art of a piece, where the piece lies so on its sheet. */
export function artOn(
  assembly: Assembly,
  { net, marks }: Piece,
  place: Isometry,
  art: readonly PanelArt[],
): PlacedArt[] {
  return art.flatMap(({ on, drawing, ...how }): PlacedArt[] => {
    const own = areasUnder(assembly, net, on);
    const laying = layingOf(assembly, own, { drawing, ...how });
    if (laying === undefined) return [];
    const { scale } = laying;
    const matrix = matrixOf((point) => moved(place, laying.to(point)));
    // Neither on the areas beside it, nor where glue must hold.
    const others = [
      ...net.areas.filter((other) => !own.includes(other)).map(({ shape }) => shape),
      ...marks.flatMap(({ spot }) => (spot.face === 1 ? spot.shapes : [])),
    ];
    const shapes = own.map(({ shape }) => shape);
    const seen = grown(shapes, BLEED).flatMap((shape) =>
      others.length === 0 ? [shape] : less(shape, ...others),
    );
    const clip = seen
      .map((shape) => movedShape(place, shape))
      .flatMap(({ outline, holes }) => [outline, ...holes]);
    const strokes = drawing.strokes.map((stroke) => ({
      ...stroke,
      d: svgpath(stroke.d)
        .matrix([...matrix])
        .round(4)
        .toString(),
      width: stroke.width * scale,
    }));
    const { picture, width, height } = drawing;
    return [{ clip, strokes, picture: picture === null ? null : { png: picture, width, height, matrix } }];
  });
}
