import { type Isometry, moved, type Point, undoing } from '../../geometry/plane.js';
import { el, svg } from '../../report/live/dom.js';
import { draggedTo, inWords, type Moved, steppedBy } from './drag.js';
import type { FlatPiece } from './flat-pieces.js';
import type { Handle } from './hold.js';
import { marksOn } from './marks.js';
import type { Model } from './model.js';

/**
 * One piece as it will be cut, lying flat, with what stands and lies on it; corners, places and lines can be dragged, by
 * pointer or by keys.
 */
export function flatView(model: Model): HTMLElement {
  const choice = el('select', { 'aria-label': 'Piece that lies flat', change: () => draw() });
  const board = el('div', { class: 'flat-board' });
  const said = el('p', { class: 'quiet', role: 'status' });
  let dragging: string | null = null;
  /** The handle that was moved last. */
  let shown = '';
  let names = '';
  /** The part that was chosen last, until its piece is there to be shown. */
  let wanted: string | null = null;
  const pieces = () => model.flat.value?.pieces ?? [];
  const list = () => {
    const now = pieces()
      .map(({ name }) => name)
      .join('\n');
    if (now === names) return;
    names = now;
    const kept = choice.value;
    choice.replaceChildren(...pieces().map(({ name }) => el('option', { value: name }, name)));
    if (pieces().some(({ name }) => name === kept)) choice.value = kept;
  };
  const choose = () => {
    const panels = model.motion.value?.panels ?? [];
    const own = pieces().find(({ areas }) => areas.some(({ panel }) => panels[panel]?.part === wanted));
    if (wanted === null || own === undefined) return;
    wanted = null;
    choice.value = own.name;
  };
  const draw = () => {
    const piece = pieces().find(({ name }) => name === choice.value) ?? pieces()[0];
    if (piece === undefined) {
      board.replaceChildren();
      return;
    }
    const focused = board.querySelector(':focus')?.getAttribute('data-key') ?? null;
    board.replaceChildren(drawn(piece));
    if (focused !== null) board.querySelector<SVGElement>(`[data-key="${CSS.escape(focused)}"]`)?.focus();
  };
  /** What is held stays in the hand: only the card under it is drawn anew. */
  const drawCard = () => {
    const piece = pieces().find(({ name }) => name === choice.value) ?? pieces()[0];
    const panels = model.motion.value?.panels;
    if (dragging === null || piece === undefined || panels === undefined) return;
    for (const { panel, place } of piece.areas) {
      const card = board.querySelector(`.flat-card[data-panel="${panel}"]`);
      if (panel < 0 || card === null || panels[panel] === undefined) continue;
      const { outline, holes } = panels[panel];
      card.setAttribute('d', [outline, ...holes].map((ring) => path(pointsOf(ring, place))).join(''));
    }
    board.querySelector('svg')?.classList.add('held');
  };
  model.flat.watch(() => {
    if (dragging !== null) return;
    list();
    choose();
    draw();
    // As it is now: the step may have been taken back, the part renamed or gone.
    const moved = model.handles.find((handle) => keyOf(handle) === shown);
    said.textContent = moved === undefined ? '' : inWords(moved, { values: moved.values, onto: '' });
  });
  model.motion.watch(drawCard);
  model.part.watch((part) => {
    wanted = part;
    if (dragging !== null) return;
    choose();
    draw();
  });

  function drawn({ name, areas, cuts, slits, creases }: FlatPiece): SVGSVGElement {
    const panels = model.motion.value?.panels ?? [];
    const places = new Map(
      areas.flatMap(({ panel, place }) => (panel < 0 ? [] : [[panels[panel]?.name, place]])),
    );
    const handles = model.handles.flatMap((handle) => {
      const place = places.get(handle.panel);
      return place === undefined ? [] : [{ handle, place }];
    });
    const all = [
      ...areas.flatMap(({ rings }) => rings.flat()),
      ...handles.map(({ handle, place }) => moved(place, handle.at)),
    ];
    const [left, right] = [Math.min(...all.map(([x]) => x)), Math.max(...all.map(([x]) => x))];
    const [low, high] = [Math.min(...all.map(([, y]) => y)), Math.max(...all.map(([, y]) => y))];
    const margin = 0.08 * Math.max(right - left, high - low, 20);
    const box = [left - margin, -high - margin, right - left + 2 * margin, high - low + 2 * margin];
    const line =
      (kind: string) =>
      ([[x1, y1], [x2, y2]]: readonly [Point, Point]) =>
        svg('line', { x1, y1: -y1, x2, y2: -y2, class: kind });
    const picture = svg(
      'svg',
      { viewBox: box.join(' '), role: 'group', 'aria-label': `${name}, lying flat, in mm` },
      ...areas.map(({ panel, rings }) =>
        svg('path', {
          d: rings.map(path).join(''),
          class: 'flat-card',
          'fill-rule': 'evenodd',
          'data-panel': panel,
        }),
      ),
      ...cuts.map((ring) => svg('path', { d: path(ring), class: 'flat-cut' })),
      ...slits.map(line('flat-cut')),
      ...creases.map(({ line: crease, sense }) =>
        line(`flat-crease ${sense === 'mountain' ? 'mountain' : ''}`)(crease),
      ),
    );
    // As large on the screen, however large the piece.
    const size = 0.016 * Math.max(box[2] * 0.6, box[3]);
    for (const { handle, place } of handles) picture.append(grip(handle, place, picture, size));
    return picture;
  }

  function grip(handle: Handle, place: Isometry, picture: SVGSVGElement, size: number): SVGElement {
    const key = keyOf(handle);
    const [cx, cy] = moved(place, handle.at);
    const dot = svg('circle', {
      cx,
      cy: -cy,
      r: size,
      class: handle.part === model.part.value ? 'grip own' : 'grip',
      tabindex: 0,
      role: 'button',
      'data-key': key,
      'aria-label': `${inWords(handle, { values: handle.values, onto: '' })}. Arrow keys move it.`,
    });
    const go = (to: Moved, keep: boolean) => {
      const [x, y] = moved(place, to.at);
      dot.setAttribute('cx', String(x));
      dot.setAttribute('cy', String(-y));
      said.textContent = inWords(handle, to);
      shown = key;
      if (keep) model.place(handle.paths, to.values);
      else model.dragTo(handle.paths, to.values);
    };
    const under = ({ clientX, clientY, altKey }: PointerEvent): Moved => {
      const { x, y } = new DOMPoint(clientX, clientY).matrixTransform(picture.getScreenCTM()?.inverse());
      return draggedTo(
        model.asMoved(handle),
        moved(undoing(place), [x, -y]),
        marksOn(model, handle.panel),
        altKey,
      );
    };
    let last: Moved | null = null;
    dot.addEventListener('pointerdown', (event) => {
      dragging = key;
      last = null;
      dot.setPointerCapture(event.pointerId);
      model.part.value = handle.part;
      event.preventDefault();
      dot.focus();
    });
    dot.addEventListener('pointermove', (event) => {
      if (dragging !== key) return;
      last = under(event);
      go(last, false);
    });
    const end = () => {
      if (dragging !== key) return;
      dragging = null;
      if (last !== null) go(last, true);
    };
    dot.addEventListener('pointerup', end);
    dot.addEventListener('pointercancel', end);
    dot.addEventListener('keydown', (event) => {
      const to = steppedBy(model.asMoved(handle), event);
      if (to === null) return;
      event.preventDefault();
      go(to, true);
    });
    return dot;
  }

  const section = el(
    'section',
    { class: 'flat', 'aria-label': 'Lying flat' },
    el('div', { class: 'row' }, el('h2', {}, 'Lying flat'), choice, said),
    board,
  );
  model.flat.watch((flat) => {
    section.hidden = flat === null;
  });
  return section;
}

const keyOf = ({ part, what, panel }: Handle): string => `${part} ${what} ${panel}`;

const path = (ring: readonly Point[]): string =>
  `${ring.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${x.toFixed(2)} ${(-y).toFixed(2)}`).join('')}Z`;

const pointsOf = (ring: Float64Array, place: Isometry): Point[] =>
  Array.from({ length: ring.length / 2 }, (_, i) => moved(place, [ring[2 * i], ring[2 * i + 1]]));
