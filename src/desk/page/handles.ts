import { listOf, type WrittenPart } from '../../edit/mentions.js';
import type { Path } from '../../figure/text/input-error.js';
import type { Json } from '../../figure/text/source.js';
import type { Assembly } from '../../motion/assembly.js';

/** Something of a part that can be dragged in the plane of a panel: a point, or a place along a crease. */
export interface Handle {
  readonly part: string;
  /** @example 'corner 3' */
  readonly what: string;
  readonly panel: string;
  /** In the panel's plane, mm. */
  readonly at: readonly [number, number];
  /** +1 or −1: the sense of y in the file. */
  readonly up: 1 | -1;
  /** Where its numbers stand: x and y; or the one place along the crease. */
  readonly paths: readonly Path[];
  /** Along a crease: where it begins, and its unit direction, in the panel's plane. */
  readonly along: {
    readonly from: readonly [number, number];
    readonly way: readonly [number, number];
  } | null;
}

/** Points that a part gives on a panel, by where the panel is named. */
const POINTS_ON: Readonly<Record<string, string>> = {
  'glued-piece': 'on',
  stiffener: 'on',
  slot: 'on',
};

/**
 * All that can be dragged in a figure: the corners of outlines that are written, the points and lines that parts have on
 * panels, and the places of parts along creases.
 * @param numberAt the value of a field as the figure starts
 */
export function handlesOf(
  parts: readonly WrittenPart[],
  assembly: Assembly,
  numberAt: (path: Path) => number | null,
): Handle[] {
  const point = (part: string, panel: string, path: Path, what: string): Handle[] => {
    const on = assembly.panels.find(({ name }) => name === panel);
    const [x, y] = [numberAt([...path, 0]), numberAt([...path, 1])];
    if (on === undefined || x === null || y === null) return [];
    return [
      {
        part,
        what,
        panel,
        at: [x, on.up * y],
        up: on.up,
        paths: [
          [...path, 0],
          [...path, 1],
        ],
        along: null,
      },
    ];
  };
  return parts.flatMap(({ name, kind, path, fields }): Handle[] => {
    const own = panelOf(name, assembly);
    const corners = (ring: Json | undefined, at: Path, panel: string, what: string) =>
      listOf(ring).flatMap((_, i) => point(name, panel, [...at, i], `${what} ${i + 1}`));
    const outline = (value: Json | undefined, at: Path, panel: string): Handle[] => {
      if (Array.isArray(value)) return corners(value, at, panel, 'corner');
      if (value === null || typeof value !== 'object' || Array.isArray(value)) return [];
      return [
        ...corners(value.polygon, [...at, 'polygon'], panel, 'corner'),
        ...listOf(value.holes).flatMap((hole, i) =>
          corners(hole, [...at, 'holes', i], panel, `hole ${i + 1} corner`),
        ),
      ];
    };
    const found: Handle[] = [];
    if (own !== undefined) found.push(...outline(fields.outline, [...path, 'outline'], own));
    for (const [side, word] of ['left', 'right'].entries())
      found.push(...outline(listOf(fields.outlines)[side], [...path, 'outlines', side], `${name} ${word}`));
    const on = POINTS_ON[kind] === undefined ? undefined : fields[POINTS_ON[kind]];
    if (typeof on === 'string') found.push(...point(name, on, [...path, 'at'], 'place'));
    if (kind === 'link') {
      const plane = typeof fields.on === 'string' ? fields.on : 'left page';
      for (const end of ['from', 'to']) found.push(...point(name, plane, [...path, end], end));
    }
    if (kind === 'pivot')
      found.push(...point(name, String(listOf(fields.between)[0]), [...path, 'at'], 'hub'));
    for (const [field, value] of Object.entries(fields)) found.push(...lines(field, value, [...path, field]));
    return [...found, ...alongCrease(name, path, fields, kind, assembly, numberAt)];

    function lines(what: string, value: Json, at: Path): Handle[] {
      if (Array.isArray(value))
        return value.flatMap((inner, i) => lines(`${what} ${i + 1}`, inner, [...at, i]));
      if (value === null || typeof value !== 'object' || typeof value.panel !== 'string') return [];
      return listOf(value.line).flatMap((_, i) =>
        point(name, String((value as { panel: string }).panel), [...at, 'line', i], `${what} end ${i + 1}`),
      );
    }
  });
}

function panelOf(part: string, { panels }: Assembly): string | undefined {
  return panels.find(({ name }) => name === part)?.name;
}

function alongCrease(
  part: string,
  path: Path,
  fields: { readonly [field: string]: Json },
  kind: string,
  { creases, panels }: Assembly,
  numberAt: (path: Path) => number | null,
): Handle[] {
  if (!['v-fold', 'parallel-fold', 'counter-fold'].includes(kind)) return [];
  const crease = creases.get(typeof fields.on === 'string' ? fields.on : 'gutter');
  const at = numberAt([...path, 'at']);
  if (crease === undefined || at === null) return [];
  return crease.between.map((k, i): Handle => {
    const { x0, y0, x1, y1 } = crease.lines[i];
    const long = Math.hypot(x1 - x0, y1 - y0) || 1;
    const way: [number, number] = [(x1 - x0) / long, (y1 - y0) / long];
    return {
      part,
      what: kind === 'parallel-fold' ? 'beginning' : 'apex',
      panel: panels[k].name,
      at: [x0 + at * way[0], y0 + at * way[1]],
      up: panels[k].up,
      paths: [[...path, 'at']],
      along: { from: [x0, y0], way },
    };
  });
}
