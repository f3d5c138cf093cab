import type { Flat } from '../../parts/attach.js';
import { el, printable } from '../../report/live/dom.js';
import type { Sight, Stage } from '../../report/live/stage.js';
import { draggedTo, inWords, type Moved, steppedBy } from './drag.js';
import { type Handle, keyOf } from './hold.js';
import { marksOn } from './marks.js';
import type { Model } from './model.js';

/** A plane that is seen more edge-on than this is not dragged in: the sine of 6°. */
const EDGE_ON = 0.1;

interface Grip {
  readonly button: HTMLButtonElement;
  readonly handle: Handle;
  at: Flat;
  take(event: PointerEvent): void;
}

/**
 * What can be dragged of the chosen part, in the figure itself; before one is chosen, where parts stand. Each goes in the
 * plane of its panel or along its line, as it lies when it is taken hold of.
 */
export function gripsView(model: Model, stage: Stage): void {
  const grips = new Grips(model, stage);
  stage.element.append(...grips.elements);
  model.rest.watch(() => grips.list());
  model.part.watch(() => grips.list());
  stage.onDraw = () => grips.place();
}

class Grips {
  readonly #model: Model;
  readonly #stage: Stage;
  readonly #layer = el('div', { class: 'grips' });
  readonly #none = el('p', { class: 'no-grip', role: 'status' });
  readonly #said = el('p', { class: 'held-at', role: 'status' });
  #grips: Grip[] = [];
  /** The one that is in the hand. */
  #held: Grip | null = null;

  constructor(model: Model, stage: Stage) {
    this.#model = model;
    this.#stage = stage;
  }

  get elements(): readonly HTMLElement[] {
    return [this.#layer, this.#none, this.#said];
  }

  /** Puts each where it is seen now. */
  place(): void {
    for (const { button, handle, at } of this.#grips) {
      const seen = this.#stage.seenAt(handle.panel, at);
      button.hidden = seen === null;
      if (seen !== null)
        button.style.transform = `translate(${seen[0].toFixed(1)}px, ${seen[1].toFixed(1)}px)`;
    }
  }

  /** Makes those of the part that is chosen now; not while one is in the hand. */
  list(): void {
    if (this.#held !== null) return;
    const { part: chosen, handles, rest } = this.#model;
    // The page itself has nothing to take hold of.
    const part = chosen.value === 'page' ? null : chosen.value;
    const shown = handles.filter((handle) =>
      part === null ? /^(?:apex|beginning|place)$/.test(handle.what) : handle.part === part,
    );
    const focused = this.#layer.querySelector(':focus')?.getAttribute('data-key') ?? null;
    this.#grips = shown.map((handle) => this.#gripOf(handle));
    this.#none.textContent =
      part !== null && rest.value !== null && shown.length === 0
        ? `Nothing of ${printable(part)} can be dragged: no number of its own says where it lies. It goes with what it stands on; its other numbers are in the list.`
        : '';
    this.#layer.replaceChildren(...this.#grips.map(({ button }) => button));
    if (focused !== null)
      this.#layer.querySelector<HTMLElement>(`[data-key="${CSS.escape(focused)}"]`)?.focus();
    this.place();
  }

  /** Of grips that lie over one another, the one that is meant; of those in one place, the one on top. */
  #nearest({ clientX, clientY }: PointerEvent): Grip {
    const away = ({ button }: Grip) => {
      const { left, top, width, height } = button.getBoundingClientRect();
      return button.hidden ? Infinity : Math.hypot(left + width / 2 - clientX, top + height / 2 - clientY);
    };
    return this.#grips.reduce((best, grip) => (away(grip) < away(best) + 0.5 ? grip : best));
  }

  #gripOf(handle: Handle): Grip {
    const model = this.#model;
    const label = inWords(handle, { values: handle.values, onto: '' });
    const button = el('button', {
      type: 'button',
      class: 'stage-grip',
      'data-key': keyOf(handle),
      'aria-label': `In the figure: ${label}. Arrow keys move it.`,
      title: `${handle.part}, ${handle.what}`,
    });
    let sight: Sight | null = null;
    let last: Moved | null = null;
    const grip: Grip = {
      button,
      handle,
      at: handle.at,
      take: ({ pointerId }) => {
        this.#held = grip;
        last = null;
        sight = this.#stage.sightOn(handle.panel);
        button.setPointerCapture(pointerId);
        button.classList.add('held');
        button.focus({ preventScroll: true });
      },
    };
    button.addEventListener('pointerdown', (event) => {
      event.preventDefault();
      this.#nearest(event).take(event);
    });
    button.addEventListener('pointermove', (event) => {
      if (this.#held !== grip || sight === null) return;
      const to = met(handle, sight(event.clientX, event.clientY));
      if (to === null) {
        this.#said.textContent = `${handle.panel} is seen edge-on: turn the figure first`;
        return;
      }
      last = draggedTo(model.asMoved(handle), to, marksOn(model, handle.panel), event.altKey);
      this.#go(grip, last, false);
    });
    const end = () => {
      if (this.#held === grip) this.#letGo(grip, last);
    };
    button.addEventListener('pointerup', end);
    button.addEventListener('pointercancel', end);
    button.addEventListener('blur', () => {
      this.#said.textContent = '';
    });
    button.addEventListener('keydown', (event) => {
      const to = steppedBy(model.asMoved(handle), event);
      if (to === null) return;
      event.preventDefault();
      this.#go(grip, to, true);
    });
    return grip;
  }

  #go(grip: Grip, to: Moved, keep: boolean): void {
    const { handle } = grip;
    grip.at = to.at;
    this.place();
    this.#said.textContent = inWords(handle, to);
    if (keep) this.#model.place(handle.paths, to.values);
    else this.#model.dragTo(handle.paths, to.values);
  }

  #letGo(grip: Grip, last: Moved | null): void {
    this.#held = null;
    grip.button.classList.remove('held');
    if (last !== null) this.#go(grip, last, true);
    // Taken hold of, the part is chosen; not before, since that draws the grips anew.
    const { part } = this.#model;
    if (part.value === grip.handle.part) this.list();
    else part.value = grip.handle.part;
  }
}

/** Where a line of sight meets what a handle moves in: the plane of its panel, or the line along which it goes. */
function met({ hold, at }: Handle, { from, way }: ReturnType<Sight>): Flat | null {
  if (hold.by === 'lengths' && hold.axes.length === 1) {
    // The point of the line that is nearest to the line of sight (two lines in space).
    const [ex, ey] = hold.axes[0];
    const [dx, dy, dz] = [at[0] - from[0], at[1] - from[1], -from[2]];
    const b = ex * way[0] + ey * way[1];
    const rest = 1 - b * b;
    if (rest < EDGE_ON ** 2) return null;
    const d = ex * dx + ey * dy;
    const e = way[0] * dx + way[1] * dy + way[2] * dz;
    const along = (b * e - d) / rest;
    return [at[0] + along * ex, at[1] + along * ey];
  }
  if (Math.abs(way[2]) < EDGE_ON) return null;
  const far = -from[2] / way[2];
  return [from[0] + far * way[0], from[1] + far * way[1]];
}
