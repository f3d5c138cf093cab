import * as polyclip from 'polyclip-ts';
import { areaOf, type Box, boxOf, cardIn, type Point, type Ring, running, type Shape } from './plane.js';

/** Unions, overlaps and differences of shapes, by polyclip-ts (Martinez, Rueda and Feito 2009). */

/** Crumbs below this area, mm², come from round-off along shared edges and are dropped. */
const CRUMB = 0.01;

type Rings = [number, number][][];

// A millionth of a millimetre: corners that should coincide then do.
const snap = (v: number) => Math.round(v * 1e6) / 1e6;
const rings = ({ outline, holes }: Shape): Rings =>
  [outline, ...holes].map((ring) => ring.map(([x, y]): [number, number] => [snap(x), snap(y)]));

function shapes(found: Rings[]): Shape[] {
  return found
    .map((polygon): Shape => {
      const [outline, ...holes] = polygon.map((ring): Ring => ring.slice(0, -1));
      return {
        outline: running(outline, 1),
        holes: holes.filter((hole) => Math.abs(areaOf(hole)) > CRUMB).map((hole) => running(hole, -1)),
      };
    })
    .filter((shape) => cardIn(shape) > CRUMB);
}

export function overlapOf(a: Shape, b: Shape): Shape[] {
  if (!boxesMeet(boxOf(a.outline), boxOf(b.outline))) return [];
  return shapes(polyclip.intersection(rings(a), rings(b)) as Rings[]);
}

export function less(a: Shape, ...taken: Shape[]): Shape[] {
  return shapes(polyclip.difference(rings(a), ...taken.map(rings)) as Rings[]);
}

export function unionOf(all: readonly Shape[]): Shape[] {
  if (all.length === 0) return [];
  const [first, ...rest] = all.map(rings);
  return shapes(polyclip.union(first, ...rest) as Rings[]);
}

export function totalArea(all: readonly Shape[]): number {
  return all.reduce((sum, shape) => sum + cardIn(shape), 0);
}

function boxesMeet(a: Box, b: Box): boolean {
  return a.left < b.right && b.left < a.right && a.low < b.high && b.low < a.high;
}

/** A ring alone as a shape. */
export const solid = (outline: Ring): Shape => ({ outline: running(outline, 1), holes: [] });

/** The convex hull, counter-clockwise (monotone chain, Andrew 1979). */
export function hullOf(points: readonly Point[]): Ring {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const half = (ordered: readonly Point[]): Point[] => {
    const chain: Point[] = [];
    for (const p of ordered) {
      while (chain.length > 1 && !turnsLeft(chain[chain.length - 2], chain[chain.length - 1], p)) chain.pop();
      chain.push(p);
    }
    return chain.slice(0, -1);
  };
  return [...half(sorted), ...half(sorted.reverse())];
}

function turnsLeft(a: Point, b: Point, c: Point): boolean {
  return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]) > 1e-12;
}
