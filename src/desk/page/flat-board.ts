import { type Isometry, moved, type Point, undoing } from '../../geometry/plane.js';
import { el, svg } from '../../report/live/dom.js';
import { draggedTo, inWords, type Moved, steppedBy } from './drag.js';
import type { FlatPiece } from './flat-pieces.js';
import { type Handle, keyOf } from './hold.js';
import { marksOn } from './marks.js';
import type { Model } from './model.js';

/** A handle with the way from its panel's plane onto the piece. */
interface Placed {
  readonly handle: Handle;
  readonly place: Isometry;
}

/** Where a piece lies flat, y upwards, mm; what stands out can be dragged. */
export class FlatBoard {
  readonly element = el('div', { class: 'flat-board' });
  readonly #model: Model;
  readonly #tell: (handle: Handle, to: Moved) => void;
  /** The handle that is in the hand. */
  #held: string | null = null;

  /** @param tell told of a handle that is moved, and where it is */
  constructor(model: Model, tell: (handle: Handle, to: Moved) => void) {
    this.#model = model;
    this.#tell = tell;
  }

  get isHeld(): boolean {
    return this.#held !== null;
  }

  draw(piece: FlatPiece | undefined): void {
    const focused = this.element.querySelector(':focus')?.getAttribute('data-key') ?? null;
    this.element.replaceChildren(...(piece === undefined ? [] : [this.#drawn(piece)]));
    if (focused !== null)
      this.element.querySelector<SVGElement>(`[data-key="${CSS.escape(focused)}"]`)?.focus();
  }

  /** What is held stays in the hand: only the card under it is drawn anew. */
  drawCard(piece: FlatPiece | undefined): void {
    const panels = this.#model.motion.value?.panels;
    if (piece === undefined || panels === undefined) return;
    for (const { panel, place } of piece.areas) {
      const card = this.element.querySelector(`.flat-card[data-panel="${panel}"]`);
      if (panel < 0 || card === null || panels[panel] === undefined) continue;
      const { outline, holes } = panels[panel];
      card.setAttribute('d', [outline, ...holes].map((ring) => path(pointsOf(ring, place))).join(''));
    }
    this.element.querySelector('svg')?.classList.add('held');
  }

  #drawn(piece: FlatPiece): SVGSVGElement {
    const placed = this.#handlesOn(piece);
    const box = boxAround([
      ...piece.areas.flatMap(({ rings }) => rings.flat()),
      ...placed.map(({ handle, place }) => moved(place, handle.at)),
    ]);
    const picture = cardOf(piece, box);
    // As large on the screen, however large the piece.
    const size = 0.016 * Math.max(box[2] * 0.6, box[3]);
    picture.append(...placed.map((each) => this.#grip(each, picture, size)));
    return picture;
  }

  #handlesOn({ areas }: FlatPiece): Placed[] {
    const panels = this.#model.motion.value?.panels ?? [];
    const places = new Map(
      areas.flatMap(({ panel, place }) => (panel < 0 ? [] : [[panels[panel]?.name, place]])),
    );
    return this.#model.handles.flatMap((handle) => {
      const place = places.get(handle.panel);
      return place === undefined ? [] : [{ handle, place }];
    });
  }

  #grip({ handle, place }: Placed, picture: SVGSVGElement, size: number): SVGElement {
    const model = this.#model;
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
      this.#tell(handle, to);
      if (keep) model.place(handle.paths, to.values);
      else model.dragTo(handle.paths, to.values);
    };
    const under = ({ clientX, clientY, altKey }: PointerEvent): Moved => {
      const { x, y } = new DOMPoint(clientX, clientY).matrixTransform(picture.getScreenCTM()?.inverse());
      const to = moved(undoing(place), [x, -y]);
      return draggedTo(model.asMoved(handle), to, marksOn(model, handle.panel), altKey);
    };
    let last: Moved | null = null;
    dot.addEventListener('pointerdown', (event) => {
      this.#held = key;
      last = null;
      dot.setPointerCapture(event.pointerId);
      model.part.value = handle.part;
      event.preventDefault();
      dot.focus();
    });
    dot.addEventListener('pointermove', (event) => {
      if (this.#held !== key) return;
      last = under(event);
      go(last, false);
    });
    const end = () => {
      if (this.#held !== key) return;
      this.#held = null;
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
}

/** The box around some points, with a margin, as an SVG has it: y downwards. */
function boxAround(points: readonly Point[]): readonly [number, number, number, number] {
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  const [left, right] = [Math.min(...xs), Math.max(...xs)];
  const [low, high] = [Math.min(...ys), Math.max(...ys)];
  const margin = 0.08 * Math.max(right - left, high - low, 20);
  return [left - margin, -high - margin, right - left + 2 * margin, high - low + 2 * margin];
}

/** The card of a piece, its cuts and creases. */
function cardOf({ name, areas, cuts, slits, creases }: FlatPiece, box: readonly number[]): SVGSVGElement {
  const line = ([[x1, y1], [x2, y2]]: readonly [Point, Point], kind: string) =>
    svg('line', { x1, y1: -y1, x2, y2: -y2, class: kind });
  return svg(
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
    ...slits.map((slit) => line(slit, 'flat-cut')),
    ...creases.map(({ line: crease, sense }) =>
      line(crease, sense === 'mountain' ? 'flat-crease mountain' : 'flat-crease'),
    ),
  );
}

const path = (ring: readonly Point[]): string =>
  `${ring.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${x.toFixed(2)} ${(-y).toFixed(2)}`).join('')}Z`;

const pointsOf = (ring: Float64Array, place: Isometry): Point[] =>
  Array.from({ length: ring.length / 2 }, (_, i) => moved(place, [ring[2 * i], ring[2 * i + 1]]));
