import { outlineAround } from '../../geometry/around.js';
import { CannotBuild } from '../../motion/cannot-build.js';
import { Word } from '../../parts/fields.js';
import type { OutlineFields, OutlineForm, OutlineFormFields } from '../../parts/outline-forms.js';
import type { LineFields, LineForm, PointFields, PointForm } from '../../parts/spots.js';
import type { Path } from '../text/input-error.js';
import type { OpenLine, Reading } from './forms.js';
import { lineFrom, lineNamed } from './lines.js';
import { pointFrom } from './points.js';
import type { Mark } from './scene.js';

/** Works out an outline on a panel: corners [along, up]. */
export type OutlineAt = (dims: Float64Array, panel: number) => OutlineFields;

type Point = readonly [number, number];

/** Card around what an outline is drawn around, mm, if no margin is given. (Common practice, no source.) */
const MARGIN = 3;
const HUB_CHORDS = 16;

/** Whether an outline is a plain polygon, whose corners no figure is needed for. */
export function isPlain(form: OutlineForm): boolean {
  const plain = (ring: readonly PointForm[] | undefined) =>
    ring?.every((corner) => Array.isArray(corner)) ?? true;
  if (isRing(form)) return plain(form);
  if (form.around !== undefined || form.mirror !== undefined) return false;
  return form.polygon === undefined || (plain(form.polygon) && (form.holes?.every(plain) ?? true));
}

export const isRing = (form: OutlineForm): form is readonly PointForm[] => Array.isArray(form);

/** Reads an outline as written. */
export function outlineFrom(form: OutlineForm, path: Path, reading: Reading): OutlineAt {
  if (isRing(form)) {
    const ring = ringFrom(form, path, reading);
    return (dims, panel) => ({ polygon: ring(dims, panel) });
  }
  const growing = growingFrom(form, path, reading);
  if (form.mirror !== undefined) {
    const mirror = mirrorFrom(form.mirror, path, reading);
    return (dims, panel) => ({ ...mirror(dims, panel), ...growing(dims) });
  }
  const holes = (form.holes ?? []).map((hole, i) => ringFrom(hole, [...path, 'holes', i], reading));
  const polygon =
    form.polygon !== undefined
      ? ringFrom(form.polygon, [...path, 'polygon'], reading)
      : form.around !== undefined
        ? aroundFrom(form, path, reading)
        : undefined;
  return (dims, panel) => ({
    ...(polygon && { polygon: polygon(dims, panel) }),
    ...(holes.length > 0 && { holes: holes.map((hole) => hole(dims, panel)) }),
    ...growing(dims),
  });
}

/** Whether it grows, and with what margin. */
function growingFrom(
  { grow, margin }: OutlineFormFields,
  path: Path,
  reading: Reading,
): (dims: Float64Array) => Pick<OutlineFields, 'grow' | 'margin'> {
  if (grow === undefined) return () => ({});
  const grows = reading.word(grow, [...path, 'grow']);
  const wide = margin && reading.number(margin, [...path, 'margin']);
  return (dims) => ({ grow: grows(dims) === 'yes' ? 'yes' : 'no', ...(wide && { margin: wide(dims) }) });
}

type RingAt = (dims: Float64Array, panel: number) => Point[];

function ringFrom(ring: readonly PointForm[], path: Path, reading: Reading): RingAt {
  const corners = ring.map((corner, i) => pointFrom(corner, [...path, i], reading));
  return (dims, panel) =>
    corners.map((corner, i) => onFoot(corner(dims, panel), panel, [...path, i].join('.'), reading));
}

/** A mark as [along, up] of a panel. */
export function onFoot(mark: Mark, panel: number, field: string, { scene }: Reading): [number, number] {
  const [x, y] = scene.prick(mark, panel, field);
  return [x, scene.assembly.panels[panel].up * y];
}

/** The hull of places, creases, lines, panels and hubs. */
function aroundFrom(form: OutlineFormFields, path: Path, reading: Reading): RingAt {
  const margin = form.margin === undefined ? () => MARGIN : reading.number(form.margin, [...path, 'margin']);
  const corners =
    form.corners === undefined ? () => 'straight' : reading.word(form.corners, [...path, 'corners']);
  const items = (form.around ?? []).map((item, i) => itemFrom(item, [...path, 'around', i], reading));
  return (dims, panel) => {
    const points = items.flatMap((item, i) =>
      item(dims, panel).map((mark) => onFoot(mark, panel, [...path, 'around', i].join('.'), reading)),
    );
    return outlineAround(points, margin(dims), corners(dims) === 'round' ? 'round' : 'straight');
  };
}

type ItemAt = (dims: Float64Array, panel: number) => readonly Mark[];

function itemFrom(item: PointForm | LineForm, path: Path, reading: Reading): ItemAt {
  if (item instanceof Word) {
    const name = reading.word(item, path);
    return (dims, panel) => marksNamed(name(dims), dims, panel, path.join('.'), reading);
  }
  if (isLineFields(item)) {
    const line = lineFrom(item, path, reading);
    return (dims, panel) => endsOf(line(dims, panel));
  }
  const point = pointFrom(item as PointForm, path, reading);
  return (dims, panel) => [point(dims, panel)];
}

const endsOf = ({ a, b }: OpenLine): readonly Mark[] => [a, b];

/** Fields that only a line has; those of a point are told by `on`, `at`, and the like. */
function isLineFields(item: PointForm | LineForm): item is LineFields {
  if (Array.isArray(item)) return false;
  const fields = item as PointFields & LineFields;
  return (
    fields.to !== undefined ||
    fields.through !== undefined ||
    fields.crossing !== undefined ||
    fields.crease !== undefined
  );
}

/** What an item of that name takes up: a place, a hub, a panel, a crease. */
function marksNamed(
  name: string,
  dims: Float64Array,
  panel: number,
  field: string,
  reading: Reading,
): readonly Mark[] {
  const place = reading.pointNamed(name);
  if (place !== undefined) return [place(dims, panel)];
  const { assembly } = reading.scene;
  const hub = assembly.joints.find((joint) => joint.kind === 'pivot' && joint.part === name);
  if (hub?.kind === 'pivot') {
    const [x, y] = hub.points[0];
    // The circle lies within its chords.
    const radius = hub.hub.shoulder / 2 / Math.cos(Math.PI / HUB_CHORDS);
    return Array.from({ length: HUB_CHORDS }, (_, k): Mark => {
      const angle = (2 * Math.PI * k) / HUB_CHORDS;
      return {
        panel: hub.between[0],
        x: x + radius * Math.cos(angle),
        y: y + radius * Math.sin(angle),
        opened: 180,
      };
    });
  }
  const k = assembly.panels.findIndex((each) => each.name === name);
  if (k < 0) return endsOf(lineNamed(name, dims, panel, field, reading));
  const { outline } = assembly.panels[k];
  return Array.from(
    { length: outline.length / 2 },
    (_, i): Mark => ({
      panel: k,
      x: outline[2 * i],
      y: outline[2 * i + 1],
      opened: 180,
    }),
  );
}

/**
 * The outline of another panel as seen in a mirror. The two sides of a fold count y upwards from their feet, so that their
 * [along, up] are the same; on two panels whose y runs alike, x changes sign.
 */
function mirrorFrom(of: Word, path: Path, reading: Reading): OutlineAt {
  const name = reading.word(of, [...path, 'mirror']);
  const field = [...path, 'mirror'].join('.');
  return (dims, panel) => {
    const { assembly } = reading.scene;
    const written = name(dims);
    const own = `${reading.part} ${written}`;
    const k = assembly.panels.findIndex((each) => each.name === written || each.name === own);
    if (k < 0) throw new CannotBuild(`no panel is named '${written}' so far`, field, true);
    if (k === panel) throw new CannotBuild('it cannot be the mirror of itself', field, true);
    const other = assembly.panels[k];
    const way = other.up === assembly.panels[panel].up ? -1 : 1;
    const ring = (corners: Float64Array): Point[] =>
      Array.from(
        { length: corners.length / 2 },
        (_, i): Point => [way * corners[2 * i], other.up * corners[2 * i + 1]],
      );
    return { polygon: ring(other.outline), ...(other.holes.length > 0 && { holes: other.holes.map(ring) }) };
  };
}

/** How many points an outline is written with. */
export function pointsWritten(form: OutlineForm): number {
  if (isRing(form)) return form.length;
  const { polygon = [], holes = [], around = [] } = form;
  return polygon.length + holes.reduce((sum, hole) => sum + hole.length, 0) + around.length;
}
