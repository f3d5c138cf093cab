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
  const layer = el('div', { class: 'grips' });
  const said = el('p', { class: 'held-at', role: 'status' });
  const none = el('p', { class: 'no-grip', role: 'status' });
  stage.element.append(layer, none, said);
  let grips: Grip[] = [];
  let held: Grip | null = null;

  const place = () => {
    for (const { button, handle, at } of grips) {
      const seen = stage.seenAt(handle.panel, at);
      button.hidden = seen === null;
      if (seen !== null)
        button.style.transform = `translate(${seen[0].toFixed(1)}px, ${seen[1].toFixed(1)}px)`;
    }
  };
  const list = () => {
    if (held !== null) return;
    // The page itself has nothing to take hold of.
    const part = model.part.value === 'page' ? null : model.part.value;
    const all = model.handles;
    const own = all.filter((handle) => handle.part === part);
    const shown = part === null ? all.filter(({ what }) => /^(?:apex|beginning|place)$/.test(what)) : own;
    const focused = layer.querySelector(':focus')?.getAttribute('data-key') ?? null;
    grips = shown.map((handle) => gripOf(handle));
    none.textContent =
      part !== null && model.rest.value !== null && shown.length === 0
        ? `Nothing of ${printable(part)} can be dragged: no number of its own says where it lies. It goes with what it stands on; its other numbers are in the list.`
        : '';
    layer.replaceChildren(...grips.map(({ button }) => button));
    if (focused !== null) layer.querySelector<HTMLElement>(`[data-key="${CSS.escape(focused)}"]`)?.focus();
    place();
  };
  model.rest.watch(list);
  model.part.watch(list);
  stage.onDraw = place;

  /** Of grips that lie over one another, the one that is meant; of those in one place, the one on top. */
  function nearest({ clientX, clientY }: PointerEvent): Grip {
    const away = ({ button }: Grip) => {
      const { left, top, width, height } = button.getBoundingClientRect();
      return button.hidden ? Infinity : Math.hypot(left + width / 2 - clientX, top + height / 2 - clientY);
    };
    return grips.reduce((best, grip) => (away(grip) < away(best) + 0.5 ? grip : best));
  }

  function gripOf(handle: Handle): Grip {
    const label = inWords(handle, { values: handle.values, onto: '' });
    const button = el('button', {
      type: 'button',
      class: 'stage-grip',
      'data-key': keyOf(handle),
      'aria-label': `In the figure: ${label}. Arrow keys move it.`,
      title: `${handle.part}, ${handle.what}`,
    });
    const go = (to: Moved, keep: boolean) => {
      grip.at = to.at;
      place();
      said.textContent = inWords(handle, to);
      if (keep) model.place(handle.paths, to.values);
      else model.dragTo(handle.paths, to.values);
    };
    let sight: Sight | null = null;
    let last: Moved | null = null;
    const grip: Grip = {
      button,
      handle,
      at: handle.at,
      take({ pointerId }) {
        held = grip;
        last = null;
        sight = stage.sightOn(handle.panel);
        button.setPointerCapture(pointerId);
        button.classList.add('held');
        button.focus({ preventScroll: true });
      },
    };
    button.addEventListener('pointerdown', (event) => {
      event.preventDefault();
      nearest(event).take(event);
    });
    button.addEventListener('pointermove', (event) => {
      if (held !== grip || sight === null) return;
      const to = met(handle, sight(event.clientX, event.clientY));
      if (to === null) {
        said.textContent = `${handle.panel} is seen edge-on: turn the figure first`;
        return;
      }
      last = draggedTo(model.asMoved(handle), to, marksOn(model, handle.panel), event.altKey);
      go(last, false);
    });
    const end = () => {
      if (held !== grip) return;
      held = null;
      button.classList.remove('held');
      if (last !== null) go(last, true);
      // Taken hold of, the part is chosen; not before, since that draws the grips anew.
      if (model.part.value === handle.part) list();
      else model.part.value = handle.part;
    };
    button.addEventListener('pointerup', end);
    button.addEventListener('pointercancel', end);
    button.addEventListener('blur', () => {
      said.textContent = '';
    });
    button.addEventListener('keydown', (event) => {
      const to = steppedBy(model.asMoved(handle), event);
      if (to === null) return;
      event.preventDefault();
      go(to, true);
    });
    return grip;
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
