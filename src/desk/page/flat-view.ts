import { el, svg } from '../../report/live/dom.js';
import type { Handle } from './handles.js';
import type { Model } from './model.js';
import type { MotionSent } from './sent.js';

/** Places snap to so many mm; finer with Alt. */
const GRID = 0.5;
const FINE = 0.1;
/** A corner this near to a crease or to another corner goes onto it, mm. */
const NEAR = 1;
/** A press of a key with Shift goes so many mm. */
const FAR = 5;

/**
 * One panel as it is cut, lying flat, with what stands and lies on it; corners, places and lines can be dragged, by
 * pointer or by keys.
 */
export function flatView(model: Model): HTMLElement {
  const choice = el('select', { 'aria-label': 'Panel that lies flat', change: () => draw() });
  const board = el('div', { class: 'flat-board' });
  const said = el('p', { class: 'quiet', role: 'status' });
  let dragging: string | null = null;
  let names = '';
  const list = () => {
    const motion = model.motion.value;
    if (motion === null) return;
    const now = motion.panels.map(({ name }) => name).join('\n');
    if (now === names) return;
    names = now;
    const kept = choice.value;
    choice.replaceChildren(...motion.panels.map(({ name }) => el('option', { value: name }, name)));
    if (motion.panels.some(({ name }) => name === kept)) choice.value = kept;
  };
  const draw = () => {
    const motion = model.motion.value;
    if (motion === null) return;
    if (dragging !== null) {
      // Only the card is drawn anew: what is held stays in the hand.
      const fresh = drawn(motion, choice.value).querySelector('.flat-card')?.getAttribute('d');
      if (typeof fresh === 'string') board.querySelector('.flat-card')?.setAttribute('d', fresh);
      return;
    }
    list();
    const focused = board.querySelector(':focus')?.getAttribute('data-key') ?? null;
    board.replaceChildren(drawn(motion, choice.value));
    if (focused !== null) board.querySelector<SVGElement>(`[data-key="${CSS.escape(focused)}"]`)?.focus();
  };
  model.motion.watch(draw);
  model.rest.watch(draw);
  model.part.watch((part) => {
    const panel = model.motion.value?.panels.find((each) => each.part === part);
    if (panel === undefined) return;
    list();
    choice.value = panel.name;
    draw();
  });

  function drawn(motion: MotionSent, name: string): SVGSVGElement {
    const k = Math.max(
      0,
      motion.panels.findIndex((panel) => panel.name === name),
    );
    const panel = motion.panels[k];
    const handles = (model.rest.value?.handles ?? []).filter((handle) => handle.panel === panel.name);
    // Up in the file is up in the picture.
    const y = (value: number) => -panel.up * value;
    const path = (ring: Float64Array) => {
      let d = '';
      for (let i = 0; i < ring.length; i += 2)
        d += `${i === 0 ? 'M' : 'L'}${ring[i].toFixed(2)} ${y(ring[i + 1]).toFixed(2)}`;
      return `${d}Z`;
    };
    const xs = [...panel.outline.filter((_, i) => i % 2 === 0), ...handles.map(({ at }) => at[0])];
    const ys = [...panel.outline.filter((_, i) => i % 2 === 1).map(y), ...handles.map(({ at }) => y(at[1]))];
    const [left, top] = [Math.min(...xs), Math.min(...ys)];
    const [wide, tall] = [Math.max(...xs) - left, Math.max(...ys) - top];
    const margin = 0.08 * Math.max(wide, tall, 20);
    const size = (0.5 * (Math.max(wide, tall) + 2 * margin)) / 26;
    const creases = motion.creases.flatMap(({ between, lines }) =>
      between.flatMap((at, i) => (at === k ? [lines[i]] : [])),
    );
    const picture = svg(
      'svg',
      {
        viewBox: `${left - margin} ${top - margin} ${wide + 2 * margin} ${tall + 2 * margin}`,
        role: 'group',
        'aria-label': `${panel.name}, lying flat, in mm`,
      },
      svg('path', {
        d: path(panel.outline) + panel.holes.map(path).join(''),
        class: 'flat-card',
        'fill-rule': 'evenodd',
      }),
      ...creases.map(({ x0, y0, x1, y1 }) =>
        svg('line', { x1: x0, y1: y(y0), x2: x1, y2: y(y1), class: 'flat-crease' }),
      ),
    );
    for (const handle of handles) picture.append(grip(handle, picture, y, size, panel.outline));
    return picture;
  }

  function grip(
    handle: Handle,
    picture: SVGSVGElement,
    y: (value: number) => number,
    size: number,
    corners: Float64Array,
  ): SVGElement {
    const key = `${handle.part} ${handle.what} ${handle.panel}`;
    const dot = svg('circle', {
      cx: handle.at[0],
      cy: y(handle.at[1]),
      r: size,
      class: 'grip',
      tabindex: 0,
      role: 'button',
      'data-key': key,
      'aria-label': `${handle.part}, ${handle.what}: ${handle.at.map((each) => each.toFixed(1)).join(', ')} mm. Arrow keys move it.`,
    });
    const go = (to: readonly [number, number], keep: boolean, grid: number) => {
      const place = snapped(handle, to, grid, corners);
      dot.setAttribute('cx', String(place.at[0]));
      dot.setAttribute('cy', String(y(place.at[1])));
      said.textContent = `${handle.part}, ${handle.what}: ${place.values.map((value) => value.toFixed(1)).join(', ')} mm`;
      // One number after the other; the last is kept with the first.
      if (keep) model.place(handle.paths, place.values);
      else model.dragTo(handle.paths, place.values);
    };
    const pointerAt = ({ clientX, clientY }: PointerEvent): [number, number] => {
      const matrix = picture.getScreenCTM()?.inverse();
      const point = new DOMPoint(clientX, clientY).matrixTransform(matrix);
      return [point.x, y(point.y)];
    };
    let last: readonly [number, number] = handle.at;
    dot.addEventListener('pointerdown', (event) => {
      dragging = key;
      dot.setPointerCapture(event.pointerId);
      model.part.value = handle.part;
      event.preventDefault();
      dot.focus();
    });
    dot.addEventListener('pointermove', (event) => {
      if (dragging !== key) return;
      last = pointerAt(event);
      go(last, false, event.altKey ? FINE : GRID);
    });
    const end = (event: PointerEvent) => {
      if (dragging !== key) return;
      dragging = null;
      if (last !== handle.at) go(last, true, event.altKey ? FINE : GRID);
    };
    dot.addEventListener('pointerup', end);
    dot.addEventListener('pointercancel', end);
    dot.addEventListener('keydown', (event) => {
      const ways: Record<string, readonly [number, number]> = {
        ArrowLeft: [-1, 0],
        ArrowRight: [1, 0],
        ArrowUp: [0, 1],
        ArrowDown: [0, -1],
      };
      const way = ways[event.key];
      if (way === undefined) return;
      event.preventDefault();
      const by = event.shiftKey ? FAR : event.altKey ? FINE : GRID;
      go(
        [handle.at[0] + by * way[0], handle.at[1] + by * handle.up * way[1]],
        true,
        event.altKey ? FINE : GRID,
      );
    });
    return dot;
  }

  return el(
    'section',
    { class: 'flat', 'aria-label': 'Lying flat' },
    el('div', { class: 'row' }, el('h2', {}, 'Lying flat'), choice),
    board,
    said,
  );
}

interface Snapped {
  /** In the panel's plane, mm. */
  readonly at: readonly [number, number];
  /** As they are written: x and y, or the place along the crease. */
  readonly values: readonly number[];
}

function snapped(
  { along, up, at }: Handle,
  [x, y]: readonly [number, number],
  grid: number,
  corners: Float64Array,
): Snapped {
  const on = (value: number) => Math.round(value / grid) * grid;
  if (along !== null) {
    const place = on((x - along.from[0]) * along.way[0] + (y - along.from[1]) * along.way[1]);
    return {
      at: [along.from[0] + place * along.way[0], along.from[1] + place * along.way[1]],
      values: [place],
    };
  }
  if (grid === GRID)
    for (let i = 0; i < corners.length; i += 2) {
      const [cx, cy] = [corners[i], corners[i + 1]];
      const isOwn = Math.hypot(cx - at[0], cy - at[1]) < 1e-6;
      if (!isOwn && Math.hypot(cx - x, cy - y) < NEAR) return { at: [cx, cy], values: [cx, up * cy] };
    }
  return { at: [on(x), on(y)], values: [on(x), up * on(y)] };
}
