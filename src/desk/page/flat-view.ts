import { el } from '../../report/live/dom.js';
import { inWords, type Moved } from './drag.js';
import { FlatBoard } from './flat-board.js';
import type { FlatPiece } from './flat-pieces.js';
import { type Handle, keyOf } from './hold.js';
import type { Model } from './model.js';

/**
 * One piece as it will be cut, lying flat, with what stands and lies on it; corners, places and lines can be dragged, by
 * pointer or by keys.
 */
export function flatView(model: Model): HTMLElement {
  const choice = el('select', { 'aria-label': 'Piece that lies flat', change: () => draw() });
  const said = el('p', { class: 'quiet', role: 'status' });
  /** The handle that was moved last. */
  let moved = '';
  const tell = (handle: Handle, to: Pick<Moved, 'values' | 'onto'>) => {
    said.textContent = inWords(handle, to);
    moved = keyOf(handle);
  };
  const board = new FlatBoard(model, tell);
  const pieces = () => model.flat.value?.pieces ?? [];
  const piece = (): FlatPiece | undefined =>
    pieces().find(({ name }) => name === choice.value) ?? pieces()[0];
  const draw = () => board.draw(piece());
  let names = '';
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
  /** The part that was chosen last, until its piece is there to be shown. */
  let wanted: string | null = null;
  const choose = () => {
    const panels = model.motion.value?.panels ?? [];
    const own = pieces().find(({ areas }) => areas.some(({ panel }) => panels[panel]?.part === wanted));
    if (wanted === null || own === undefined) return;
    wanted = null;
    choice.value = own.name;
  };
  const section = el(
    'section',
    { class: 'flat', 'aria-label': 'Lying flat' },
    el('div', { class: 'row' }, el('h2', {}, 'Lying flat'), choice, said),
    board.element,
  );
  model.flat.watch((flat) => {
    section.hidden = flat === null;
    if (board.isHeld) return;
    list();
    choose();
    draw();
    // As it is now: the step may have been taken back, the part renamed or gone.
    const last = model.handles.find((handle) => keyOf(handle) === moved);
    said.textContent = last === undefined ? '' : inWords(last, { values: last.values, onto: '' });
  });
  model.motion.watch(() => {
    if (board.isHeld) board.drawCard(piece());
  });
  model.part.watch((part) => {
    wanted = part;
    if (board.isHeld) return;
    choose();
    draw();
  });
  return section;
}
