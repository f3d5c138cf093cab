import { asWritten, listOf } from '../../edit/mentions.js';
import type { BuiltFigure } from '../../figure/built.js';
import { valueAt } from '../../figure/text/check.js';
import type { Path } from '../../figure/text/input-error.js';
import type { FigureSource, Json } from '../../figure/text/source.js';
import { foldHandles } from './fold-handles.js';
import { type HeldPart, heldParts } from './held-part.js';
import type { Handle } from './hold.js';
import { type Finding, isFields, lineHandles, pointHandles } from './point-handles.js';

/**
 * All that can be dragged in a figure: corners of outlines that are written, points and lines that parts have on panels,
 * places, places of parts along creases, ends of feet and ridges.
 */
export function handlesOf(source: FigureSource, built: BuiltFigure): Handle[] {
  const written = valueAt(asWritten(source), ['places']);
  const finding: Finding = { built, places: isFields(written) ? written : {} };
  return heldParts(source).flatMap((part) => {
    const seen = new Set<string>();
    // Where two lie on one another, the later one is on top: an apex rather than a corner of its card.
    return [...new FlatHandles(part, finding).all(), ...foldHandles(part, finding)].filter(
      ({ paths, panel }) => {
        const key = `${panel} ${JSON.stringify(paths)}`;
        if (seen.has(key)) return false;
        seen.add(key);
        return true;
      },
    );
  });
}

/** What a part has on panels: points, corners of its outlines, lines. */
class FlatHandles {
  readonly #part: HeldPart;
  readonly #finding: Finding;

  constructor(part: HeldPart, finding: Finding) {
    this.#part = part;
    this.#finding = finding;
  }

  all(): Handle[] {
    const { name, kind, fields, pathOf } = this.#part;
    const sides = isFields(fields.outlines) ? fields.outlines : {};
    // A slot's outline is drawn on the panel that has the hole.
    const own = kind === 'slot' ? this.#panelOf('on') : this.#panel(name);
    return [
      ...(kind === 'glued-piece' || kind === 'stiffener'
        ? this.#point('at', this.#panelOf('on'), 'place')
        : []),
      ...this.#outline(fields.outline, pathOf('outline'), own),
      ...['left', 'right'].flatMap((side) =>
        this.#outline(sides[side], [...pathOf('outlines'), side], this.#panel(`${name} ${side}`)),
      ),
      ...this.#ofJoint(),
      ...Object.entries(fields).flatMap(([field, value]) => this.#lines(field, value, pathOf(field))),
    ];
  }

  /** Ends of a link, where a hub goes through, the tip of a tongue. */
  #ofJoint(): Handle[] {
    const { kind, fields, pathOf } = this.#part;
    if (kind === 'link') {
      const on = this.#panel(this.#word('on') ?? 'left page');
      return ['from', 'to'].flatMap((end) => this.#point(end, on, end));
    }
    if (kind === 'pivot') {
      const between = listOf(fields.between)[0];
      const first = this.#finding.built.word(between, [...pathOf('between'), 0]);
      return this.#point('at', this.#panel(first), 'hub');
    }
    return kind === 'tongue' ? this.#point('at', this.#panelOf('panel'), 'tip') : [];
  }

  #outline(value: Json | undefined, path: Path, panel: number): Handle[] {
    if (panel < 0) return [];
    if (Array.isArray(value)) return this.#corners(value, path, panel, 'corner');
    if (!isFields(value)) return [];
    return [
      ...this.#corners(value.polygon, [...path, 'polygon'], panel, 'corner'),
      ...this.#corners(value.around, [...path, 'around'], panel, 'around'),
      ...listOf(value.holes).flatMap((hole, i) =>
        this.#corners(hole, [...path, 'holes', i], panel, `hole ${i + 1} corner`),
      ),
    ];
  }

  #corners(ring: Json | undefined, path: Path, panel: number, what: string): Handle[] {
    const wanted = { part: this.#part.name, panel };
    return listOf(ring).flatMap((corner, i) =>
      pointHandles(corner, [...path, i], { ...wanted, what: `${what} ${i + 1}` }, this.#finding),
    );
  }

  /** Lines with the panel on which they lie, wherever they stand in a field. */
  #lines(what: string, value: Json, path: Path): Handle[] {
    if (Array.isArray(value))
      return value.flatMap((inner, i) => this.#lines(`${what} ${i + 1}`, inner, [...path, i]));
    if (!isFields(value) || value.panel === undefined) return [];
    const panel = this.#panel(this.#finding.built.word(value.panel, [...path, 'panel']));
    const wanted = { part: this.#part.name, what, panel };
    return panel < 0 ? [] : lineHandles(value.line, [...path, 'line'], wanted, this.#finding);
  }

  #point(field: string, panel: number, what: string): Handle[] {
    const { name, fields, pathOf } = this.#part;
    const wanted = { part: name, what, panel };
    return pointHandles(fields[field], pathOf(field), wanted, this.#finding);
  }

  #panel(name: string | null): number {
    return this.#finding.built.assembly.panels.findIndex((each) => each.name === name);
  }

  /** The panel that a field names. */
  #panelOf(field: string): number {
    return this.#panel(this.#word(field));
  }

  #word(field: string): string | null {
    const { fields, pathOf } = this.#part;
    return this.#finding.built.word(fields[field], pathOf(field));
  }
}
