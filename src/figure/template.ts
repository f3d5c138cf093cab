import type { Assembly, Panel } from '../motion/assembly.js';
import type { Stretch } from '../parts/by-hand.js';
import type { OutlineFields } from '../parts/outline-forms.js';
import type { Drawn } from '../parts/part.js';
import type { Cut, DrawnPart } from './hand/cut.js';
import { CutPart } from './hand/cut-part.js';

/**
 * A candidate as drawn for cutting, and dummies cut from it by hand.
 *
 * What errs on its own, and so has one `Cut`:
 * - every number of a part that is a length, an angle or a place: a glue line's distance or angle, a panel's angle or
 *   width, the length of a ridge, a tab's width, each coordinate of a point. Where one field gives two things that are
 *   cut apart (the glued feet of a counter-fold), there are two; where one cut gives both (a counter-fold slit and creased
 *   through two layers of one sheet), one. A length written 0 is no cut.
 * - a line from point to point, such as a hinge: where it lies across itself, its turn, and its two ends, on its own
 *   length. A line is marked and creased as one, so that its ends don't err across it each by itself.
 * - a drawn outline: both coordinates of each corner, as `CutRing` says. A corner on a crease goes where the crease goes.
 * What follows from the open figure (the height of a strut, where a plate meets its supports) is drawn, then cut.
 * What does not err: the pages; hubs, tongues and the holes they are fitted to; where a link is drawn.
 */
export interface Template {
  readonly cuts: readonly Cut[];
  /**
   * A dummy cut from it.
   * @param errors one to each cut, in its unit; all 0 gives the figure as drawn
   * @throws CannotBuild
   */
  build(errors: Float64Array): Assembly;
}

/** Draws a candidate for cutting. @param start makes an assembly of the pages alone */
export function templateOf(
  parts: readonly DrawnPart[],
  start: (handCut: boolean) => Assembly,
  finish: (assembly: Assembly) => void,
): Template {
  const drawing = start(false);
  const drawn = parts.map((part): Drawn => {
    const fields = part.draw(drawing);
    return part.kind.byHand?.drawn?.(fields, drawing) ?? { fields };
  });
  // What grows is cut as it is when all stands on it.
  const cutParts = parts.map((part, i) => new CutPart(part, withGrown(part, drawn[i], drawing)));
  const cuts: Cut[] = [];
  for (const each of cutParts) each.listFields(cuts);
  const creases = creasesOf(cutParts, (each) => each.fields);
  for (const each of cutParts) each.listOutlines(cuts, creases);

  return {
    cuts,
    build(errors) {
      const copies = new Map(cutParts.map((each) => [each, each.withErrors(errors)]));
      const copyOf = (each: CutPart) => copies.get(each) as object;
      const cut = creasesOf(cutParts, copyOf);
      const assembly = start(true);
      for (const each of cutParts) {
        const fields = copyOf(each);
        each.cutOutlines(fields, errors, cut);
        each.part.add(each.kind, each.glued(fields, assembly, drawing), assembly);
      }
      finish(assembly);
      return assembly;
    },
  };
}

/** Fields in whose place of an outline that grows stands what it has become. */
function withGrown({ name, kind }: DrawnPart, drawn: Drawn, { panels }: Assembly): Drawn {
  const edges = (drawn.kind ?? kind).byHand?.edges?.(name, drawn.fields) ?? [];
  const fields = edges.reduce((held, { field, panel }) => {
    const found = panels.find((each) => each.name === panel);
    return found === undefined || found.growth === null ? held : withOutline(held, field.split('.'), found);
  }, drawn.fields);
  return { ...drawn, fields };
}

function withOutline(fields: object, [step, ...rest]: readonly string[], panel: Panel): object {
  const held = (fields as Record<string, unknown>)[step];
  return {
    ...fields,
    [step]: rest.length > 0 ? withOutline(held ?? {}, rest, panel) : grownOf(held as OutlineFields, panel),
  };
}

function grownOf({ polygon, holes }: OutlineFields, { growth, up }: Panel): OutlineFields | undefined {
  const grew = growth?.grew ? ringOf(growth.drawn, up) : polygon;
  return grew && { polygon: grew, ...(holes && { holes }) };
}

const ringOf = (ring: Float64Array, up: 1 | -1): [number, number][] =>
  Array.from({ length: ring.length / 2 }, (_, i) => [ring[2 * i], up * ring[2 * i + 1]]);

/** The creases that may run along drawn outlines, by panel, always in the same order. */
type Creases = ReadonlyMap<string, readonly Stretch[]>;

function creasesOf(cutParts: readonly CutPart[], fieldsOf: (each: CutPart) => object): Creases {
  const creases = new Map<string, Stretch[]>();
  const add = (panel: string, stretches: readonly Stretch[]) =>
    creases.set(panel, [...(creases.get(panel) ?? []), ...stretches]);
  for (const each of cutParts) {
    const fields = fieldsOf(each);
    for (const edge of each.edges(fields)) add(edge.panel, edge.creases);
    for (const hinge of each.hinges(fields)) add(hinge.panel, [hinge.line]);
  }
  return creases;
}
