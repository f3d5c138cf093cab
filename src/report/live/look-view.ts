import { el, printable } from './dom.js';
import type { Signal } from './signal.js';
import type { Drawable, Look, Viewer } from './viewer.js';

/** How far card is drawn to bow. */
const BOWS = [
  [1, 'true to scale'],
  [3, '3 times as far'],
] as const;

/** Steps of a press of a button. */
const STEPS = 2;

/** How the figure is looked at: see-through, pulled apart, with its paths, one part brought out. */
export function lookView(
  dummy: Pick<Drawable, 'motion'>,
  scored: Signal<number>,
  viewer: Pick<Viewer, 'look' | 'resetView' | 'nearer'>,
): HTMLElement {
  let look: Look = { seeThrough: false, apart: 0, traces: true, bow: 1, pointedAt: null };
  const change = (part: Partial<Look>) => {
    look = { ...look, ...part };
    viewer.look(look);
  };
  const seeThrough = el('input', {
    type: 'checkbox',
    change: () => change({ seeThrough: seeThrough.checked }),
  });
  const traces = el('input', {
    type: 'checkbox',
    checked: true,
    change: () => change({ traces: traces.checked }),
  });
  const apart = el('input', {
    type: 'range',
    min: 0,
    max: 1,
    step: 0.02,
    value: 0,
    input: () => change({ apart: Number(apart.value) }),
  });
  const part = el('select', { change: () => change({ pointedAt: part.value === '' ? null : part.value }) });
  const bow = el(
    'select',
    { change: () => change({ bow: Number(bow.value) }) },
    ...BOWS.map(([times, words]) => el('option', { value: times }, words)),
  );
  const bows = el('label', {}, 'Card bows', bow);
  let names = '';
  scored.watch(() => {
    bows.hidden = (dummy.motion?.bends.length ?? 0) === 0;
    const panels = dummy.motion?.assembly.panels.map(({ name }) => name) ?? [];
    if (panels.join('\n') === names) return;
    names = panels.join('\n');
    const kept = part.value;
    part.replaceChildren(
      el('option', { value: '' }, 'none'),
      ...panels.map((name) => el('option', { value: name }, printable(name))),
    );
    part.value = panels.includes(kept) ? kept : '';
  });
  return el(
    'div',
    { class: 'look' },
    el('label', {}, seeThrough, 'See through'),
    el('label', {}, traces, 'Paths of marked points'),
    el('label', {}, 'Pull apart', apart),
    bows,
    el('label', {}, 'Bring out', part),
    el(
      'div',
      { class: 'buttons' },
      el('button', { type: 'button', click: () => viewer.nearer(STEPS) }, 'Nearer'),
      el('button', { type: 'button', click: () => viewer.nearer(-STEPS) }, 'Farther'),
      el('button', { type: 'button', click: () => viewer.resetView() }, 'Front view'),
    ),
    el(
      'p',
      { class: 'quiet' },
      'Drag to turn it, with the right button to shift it; the wheel brings it nearer once it has been clicked.',
    ),
  );
}
