import { Clipper, ClipType, FillRule, type Path64, type PolyPath64, PolyTree64 } from 'clipper2-ts';
import { pathOf, pathsOf, pointsOf } from '../geometry/clipper.js';
import { faultOf, TOUCHING } from '../geometry/faults.js';
import { cardArea, counterClockwise, holds, type Polygon, signedArea } from '../geometry/polygon.js';
import type { Assembly, Panel } from '../motion/assembly.js';
import { CannotBuild } from '../motion/cannot-build.js';
import { heldPlaces, slotNear, slotsOf, whatTrimBreaks } from './trim-breaks.js';

/** A cut that the maker has accepted: card of a panel to take away. */
export interface Trim {
  readonly panel: string;
  /** A polygon in the panel's own coordinates as a figure file has them: along its foot, up from its foot, mm. */
  readonly region: readonly (readonly [number, number])[];
}

/**
 * Takes the trims from the panels of a finished assembly. Its motion stays as it is.
 * @throws CannotBuild when a trim breaks what the figure needs (see `whatTrimBreaks`), cuts a panel in two that is held on
 * both sides, or leaves nothing of it
 */
export function applyTrims(assembly: Assembly, trims: readonly Trim[]): void {
  trims.forEach((trim, i) => {
    const field = `trims.${i}.region`;
    const k = assembly.panelNamed(trim.panel, `trims.${i}.panel`);
    const region = regionOn(assembly.panels[k], trim.region);
    const fault = faultOf({ outline: region, holes: [] });
    if (fault !== undefined)
      throw new CannotBuild(`the region of a trim of '${trim.panel}' is no polygon: ${fault.why}`, field);
    // Cut by hand, a crease may come to lie a little within a trim that was drawn beside it; a slot may not be cut open.
    const broken = assembly.handCut
      ? slotNear(assembly, k, region, TOUCHING)
      : whatTrimBreaks(assembly, k, region);
    if (broken !== null) throw new CannotBuild(`a trim of '${trim.panel}' ${broken}`, field);
    const left = trimmed(assembly, k, region);
    if (left === null)
      throw new CannotBuild(
        `a trim cuts '${trim.panel}' in two, and both are held, or leaves nothing of it`,
        field,
      );
    setShape(assembly, k, left);
  });
}

/** The corners of a region in the panel's own plane, where y runs as the panel rises. */
function regionOn({ up }: Panel, region: Trim['region']): Float64Array {
  return counterClockwise(Float64Array.from(region.flatMap(([x, y]) => [x, up * y])));
}

/**
 * What is left of a panel when a region is cut away: the one piece that still hangs on all that holds the panel (of
 * several where nothing does, the largest); pieces that nothing holds fall away. `null` when there is no such piece, or
 * the region reaches a slot.
 *
 * Slots stay as they are drawn, after all other holes: what passes through them is measured against those very rings.
 * @param region in the plane of panel k
 */
export function trimmed(assembly: Assembly, k: number, region: Float64Array): Polygon | null {
  if (slotNear(assembly, k, region, TOUCHING) !== null) return null;
  const panel = assembly.panels[k];
  const slots = slotsOf(assembly, k).map(({ hole }) => panel.holes[hole]);
  const { outline } = panel;
  const holes = panel.holes.filter((hole) => !slots.includes(hole));
  // By parity, so that holes may run either way.
  const card = Clipper.booleanOp(ClipType.Union, pathsOf({ outline, holes }), null, FillRule.EvenOdd);
  const tree = new PolyTree64();
  Clipper.booleanOpWithPolyTree(ClipType.Difference, card, [pathOf(region)], tree, FillRule.NonZero);
  const pieces = shapesIn(tree);
  const places = heldPlaces(assembly, k);
  const held = pieces.filter((piece) => places.some(([x, y]) => touches(piece, x, y)));
  if (held.length > 1) return null;
  const kept = (held.length === 1 ? held : pieces).reduce<Polygon | null>(
    (most, piece) => (most === null || signedArea(piece.outline) > signedArea(most.outline) ? piece : most),
    null,
  );
  if (kept === null || kept.outline.length < 6) return null;
  return { outline: kept.outline, holes: [...kept.holes, ...slots] };
}

/** Whether a place lies on the card of a piece or at its very edge. */
function touches(piece: Polygon, x: number, y: number): boolean {
  const near = 1e-4;
  return [
    [0, 0],
    [near, 0],
    [-near, 0],
    [0, near],
    [0, -near],
  ].some(([dx, dy]) => holds(piece, x + dx, y + dy));
}

/** Gives a panel its new shape, and its slots their holes in it, which come last. */
function setShape(assembly: Assembly, k: number, { outline, holes }: Polygon): void {
  const panel = assembly.panels[k];
  panel.cutAway = (panel.cutAway ?? 0) + cardArea(panel) - cardArea({ outline, holes });
  panel.outline = outline;
  panel.holes = [...holes];
  slotsOf(assembly, k).forEach((joint, i, slots) => {
    joint.hole = holes.length - slots.length + i;
  });
}

/** Outlines with their holes, in which there may be outlines again. */
function shapesIn(tree: PolyPath64): Polygon[] {
  return childrenOf(tree).flatMap((outer) => {
    const inner = childrenOf(outer);
    return [
      { outline: counterClockwise(asCorners(outer.poly)), holes: inner.map(({ poly }) => asCorners(poly)) },
      ...inner.flatMap(shapesIn),
    ];
  });
}

const childrenOf = (node: PolyPath64): PolyPath64[] =>
  Array.from({ length: node.count }, (_, i) => node.child(i));

/** Corners nearer than this to the one before, or to the line of both neighbours, mm, come from round-off. */
const ROUND_OFF = 4e-6;

/** The corners of a path, without those that round-off made. */
function asCorners(path: Path64 | null): Float64Array {
  let corners = pointsOf(path ?? []);
  corners = corners.filter(([x, y], i) => {
    const [px, py] = corners[(i + corners.length - 1) % corners.length];
    return Math.hypot(x - px, y - py) > ROUND_OFF;
  });
  corners = corners.filter(([x, y], i) => {
    const [px, py] = corners[(i + corners.length - 1) % corners.length];
    const [qx, qy] = corners[(i + 1) % corners.length];
    return Math.abs((qx - px) * (y - py) - (qy - py) * (x - px)) > ROUND_OFF * Math.hypot(qx - px, qy - py);
  });
  return Float64Array.from(corners.flat());
}
