import { asWritten, listOf } from '../../edit/mentions.js';
import type { BuiltFigure } from '../../figure/built.js';
import { valueAt } from '../../figure/text/check.js';
import type { Path } from '../../figure/text/input-error.js';
import type { FigureSource, Json } from '../../figure/text/source.js';
import { TWIN_OF, withTwins } from '../../figure/twins.js';
import { type Footing, lengthOf, takeStance } from '../../parts/attach.js';
import { type Handle, type Hold, placeOf } from './hold.js';
import { type Finding, isFields, lineHandles, pointHandles } from './point-handles.js';

/** A part with the fields that it takes over as a twin. */
interface HeldPart {
  readonly name: string;
  readonly kind: string;
  readonly fields: { readonly [field: string]: Json };
  /** Where a field stands: of a twin maybe in the part whose twin it is. */
  pathOf(field: string): Path;
}

/** Points that a part gives on a panel, by where the panel is named. */
const POINTS_ON: Readonly<Record<string, string>> = {
  'glued-piece': 'on',
  stiffener: 'on',
  slot: 'on',
};

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
    return [...pointsOf(part, finding), ...onCrease(part, finding)].filter(({ paths, panel }) => {
      const key = `${panel} ${JSON.stringify(paths)}`;
      if (seen.has(key)) return false;
      seen.add(key);
      return true;
    });
  });
}

function heldParts(source: FigureSource): HeldPart[] {
  const written = asWritten(source);
  const own = listOf(valueAt(written, ['parts'])).map((part) => (isFields(part) ? part : {}));
  const placeOfField = (i: number, field: string): Path => {
    if (Object.hasOwn(own[i], field) || !Object.hasOwn(own[i], TWIN_OF)) return ['parts', i, field];
    const of = own.findIndex(({ name }) => name === own[i][TWIN_OF]);
    return of < 0 || of >= i ? ['parts', i, field] : placeOfField(of, field);
  };
  return listOf(valueAt(withTwins(written), ['parts'])).flatMap((fields, i) =>
    isFields(fields)
      ? [
          {
            name: String(fields.name),
            kind: String(fields.kind),
            fields,
            pathOf: (field: string) => placeOfField(i, field),
          },
        ]
      : [],
  );
}

function pointsOf({ name, kind, fields, pathOf }: HeldPart, finding: Finding): Handle[] {
  const { panels } = finding.built.assembly;
  const panelNamed = (panel: string | null) => panels.findIndex((each) => each.name === panel);
  const word = (field: string) => finding.built.word(fields[field], pathOf(field));
  const point = (value: Json | undefined, path: Path, panel: number, what: string) =>
    pointHandles(value, path, { part: name, what, panel }, finding);
  const corners = (ring: Json | undefined, path: Path, panel: number, what: string) =>
    listOf(ring).flatMap((corner, i) => point(corner, [...path, i], panel, `${what} ${i + 1}`));
  const outline = (value: Json | undefined, path: Path, panel: number): Handle[] => {
    if (panel < 0) return [];
    if (Array.isArray(value)) return corners(value, path, panel, 'corner');
    if (!isFields(value)) return [];
    return [
      ...corners(value.polygon, [...path, 'polygon'], panel, 'corner'),
      ...corners(value.around, [...path, 'around'], panel, 'around'),
      ...listOf(value.holes).flatMap((hole, i) =>
        corners(hole, [...path, 'holes', i], panel, `hole ${i + 1} corner`),
      ),
    ];
  };
  /** Lines with the panel on which they lie, wherever they stand in a field. */
  const lines = (what: string, value: Json, path: Path): Handle[] => {
    if (Array.isArray(value))
      return value.flatMap((inner, i) => lines(`${what} ${i + 1}`, inner, [...path, i]));
    if (!isFields(value) || value.panel === undefined) return [];
    const panel = panelNamed(finding.built.word(value.panel, [...path, 'panel']));
    return panel < 0 ? [] : lineHandles(value.line, [...path, 'line'], { part: name, what, panel }, finding);
  };
  const on = POINTS_ON[kind] === undefined ? -1 : panelNamed(word(POINTS_ON[kind]));
  // A slot's outline is drawn on the panel that has the hole.
  const own = kind === 'slot' ? on : panelNamed(name);
  const sides = isFields(fields.outlines) ? fields.outlines : {};
  return [
    ...(on >= 0 && kind !== 'slot' ? point(fields.at, pathOf('at'), on, 'place') : []),
    ...outline(fields.outline, pathOf('outline'), own),
    ...['left', 'right'].flatMap((side) =>
      outline(sides[side], [...pathOf('outlines'), side], panelNamed(`${name} ${side}`)),
    ),
    ...(kind === 'link'
      ? ['from', 'to'].flatMap((end) =>
          point(fields[end], pathOf(end), panelNamed(word('on') ?? 'left page'), end),
        )
      : []),
    ...(kind === 'pivot'
      ? point(
          fields.at,
          pathOf('at'),
          panelNamed(finding.built.word(listOf(fields.between)[0], [...pathOf('between'), 0])),
          'hub',
        )
      : []),
    ...(kind === 'tongue' ? point(fields.at, pathOf('at'), panelNamed(word('panel')), 'tip') : []),
    ...Object.entries(fields).flatMap(([field, value]) => lines(field, value, pathOf(field))),
  ];
}

/** What of a fold stands along its crease, and the ends of its feet, diagonals and ridge. */
function onCrease({ name, kind, fields, pathOf }: HeldPart, finding: Finding): Handle[] {
  const { built } = finding;
  if (!['v-fold', 'parallel-fold', 'counter-fold'].includes(kind)) return [];
  const { creases, panels } = built.assembly;
  const crease = creases.get(built.word(fields.on, pathOf('on')) ?? 'gutter');
  if (crease === undefined) return [];
  const long = lengthOf(crease.lines[0]);
  const length = kind === 'parallel-fold' ? (built.number(fields.length, pathOf('length')) ?? 0) : 0;
  const at = built.number(fields.at, pathOf('at'), Math.max(0, long - length));
  if (at === null) return [];
  const toward = built.word(fields.toward, pathOf('toward')) === 'start' ? 'start' : 'end';
  const handle = (what: string, panel: number, hold: Hold, written: readonly Field[]): Handle[] => {
    const values = written.map(({ value, path }) => built.number(value, path));
    if (values.includes(null)) return [];
    const numbers = values as number[];
    return [
      {
        part: name,
        what,
        panel: panels[panel].name,
        at: placeOf(hold, numbers, [0, 0]),
        hold,
        values: numbers,
        paths: written.map(({ path }) => path),
      },
    ];
  };
  const field = (word: string): Field => ({ value: fields[word], path: pathOf(word) });
  /** That of one side of a pair, for which one number may stand. */
  const ofSide = (word: string, i: number): Field =>
    Array.isArray(fields[word]) ? { value: fields[word][i], path: [...pathOf(word), i] } : field(word);
  const { footings } = takeStance(crease, at, toward);
  const found = footings.flatMap((footing, i): Handle[] => {
    const side = i === 0 ? 'left' : 'right';
    const start = takeStance(crease, 0, 'end').footings[i];
    const { panel, along, inward } = footing;
    const lengths = (from: Footing, ...axes: (readonly [number, number])[]): Hold => ({
      by: 'lengths',
      from: from.at,
      axes,
    });
    const apex = handle(kind === 'parallel-fold' ? 'beginning' : 'apex', panel, lengths(start, start.along), [
      { value: at, path: pathOf('at') },
    ]);
    if (kind === 'parallel-fold')
      return [
        ...apex,
        ...handle('end', panel, lengths(footing, along), [field('length')]),
        ...handle(`${side} foot`, panel, lengths(footing, inward), [ofSide('glue', i)]),
      ];
    const [turn, far] =
      kind === 'v-fold' ? [ofSide('glue', i), ofSide('feet', i)] : [field('diagonal'), field('side')];
    if (isFields(turn.value)) return [...apex, ...alongGlueLine(i, panel, turn, far)];
    return [
      ...apex,
      ...handle(
        kind === 'v-fold' ? `end of its ${side} foot` : `end of its ${side} diagonal`,
        panel,
        { by: 'turn', from: footing.at, zero: along, ninety: inward },
        [turn, far],
      ),
    ];
  });
  return [...found, ...ridgeEnd()];

  /** The end of a foot that is glued along a line: how far it goes along that, and what the line is drawn from. */
  function alongGlueLine(i: number, panel: number, turn: Field, far: Field): Handle[] {
    const side = i === 0 ? 'left' : 'right';
    const own = panels.findIndex((each) => each.name === `${name} ${side}`);
    const [from, to] = [0, 1].map((x) => built.pricked({ panel: own, x, y: 0, opened: 180 }, panel));
    if (own < 0 || from === null || to === null) return [];
    const hold: Hold = { by: 'lengths', from, axes: [[to[0] - from[0], to[1] - from[1]]] };
    return [
      ...handle(`end of its ${side} foot`, panel, hold, [far]),
      ...lineHandles(turn.value, turn.path, { part: name, what: `${side} glue line`, panel }, finding),
    ];
  }

  /** The far end of the ridge of a V-fold, or of the moving crease of a counter-fold: its length. */
  function ridgeEnd(): Handle[] {
    const ridge = creases.get(`${name} ridge`);
    const word = kind === 'v-fold' ? 'ridge' : 'length';
    if (ridge === undefined || kind === 'parallel-fold') return [];
    const { x0, y0, x1, y1 } = ridge.lines[0];
    const far = lengthOf(ridge.lines[0]);
    if (far < 1e-6) return [];
    const axis: [number, number] = [(x1 - x0) / far, (y1 - y0) / far];
    const written = field(word);
    const value = built.number(written.value, written.path);
    // Counted from the apex, also where card begins farther up.
    const from: [number, number] = [x1 - (value ?? far) * axis[0], y1 - (value ?? far) * axis[1]];
    return handle('end of its ridge', ridge.between[0], { by: 'lengths', from, axes: [axis] }, [written]);
  }
}

interface Field {
  readonly value: Json | undefined;
  readonly path: Path;
}
