import { el } from '../../report/live/dom.js';
import { onAny } from '../../report/live/signal.js';
import { verdict } from '../../report/words/scorecard-words.js';
import { capital } from '../../text/phrases.js';
import type { Model } from './model.js';

/** What the figure is called, whether it works, what was done last; undo and redo. */
export function barView(model: Model): HTMLElement {
  const name = el('h1', {});
  const said = el('p', { class: 'verdict', role: 'status' });
  const last = el('p', { class: 'last', role: 'status' });
  const undo = el(
    'button',
    { type: 'button', title: 'Ctrl+Z', click: () => model.ask({ do: 'undo' }) },
    'Undo',
  );
  const redo = el(
    'button',
    { type: 'button', title: 'Ctrl+Shift+Z', click: () => model.ask({ do: 'redo' }) },
    'Redo',
  );
  addEventListener('keydown', (event) => {
    // In a field of text, the keys undo what is typed there.
    const isText = event.target instanceof HTMLInputElement && event.target.type !== 'range';
    if (isText || event.defaultPrevented || !(event.ctrlKey || event.metaKey)) return;
    const key = event.key.toLowerCase();
    if (key !== 'z' && key !== 'y') return;
    event.preventDefault();
    model.ask({ do: key === 'y' || event.shiftKey ? 'redo' : 'undo' });
  });
  onAny([model.file, model.motion, model.score, model.fault, model.said, model.stands], () => {
    const { value: file } = model.file;
    undo.disabled = file?.canUndo !== true;
    redo.disabled = file?.canRedo !== true;
    name.textContent = model.motion.value?.name ?? file?.file ?? '';
    const fault = model.fault.value;
    const score = model.score.value;
    said.classList.toggle('bad', fault !== null || score?.card.works === false);
    said.textContent =
      fault !== null
        ? fault.message
        : score === null
          ? 'Is being read …'
          : capital(verdict(model.motion.value?.name ?? 'it', score.card));
    last.textContent = model.stands.value
      ? model.said.value
      : 'The desk does not answer: it has ended, or is being started again. What you do now is kept in this page only.';
  });
  return el(
    'header',
    { class: 'bar' },
    el('div', {}, name, said),
    last,
    el('div', { class: 'buttons' }, undo, redo),
  );
}

/** Asks which text shall be, where the file was changed by another program while an edit was on its way. */
export function conflictView(model: Model): HTMLElement {
  const settle = (take: 'ours' | 'theirs') => () => model.ask({ do: 'settle', take });
  const head = el('h2', { id: 'conflict-head' });
  const told = el('p', {});
  const theirs = el('button', { type: 'button', click: settle('theirs') });
  const dialog = el(
    'dialog',
    { 'aria-labelledby': 'conflict-head' },
    head,
    told,
    el(
      'div',
      { class: 'buttons' },
      theirs,
      el('button', { type: 'button', click: settle('ours') }, 'Write what was made here'),
    ),
  );
  const ask = () => {
    if (model.conflict.value !== null && !dialog.open && dialog.isConnected) dialog.showModal();
  };
  // It has to be answered: nothing is written before.
  dialog.addEventListener('close', ask);
  model.conflict.watch((conflict) => {
    if (conflict === null) {
      dialog.close();
      return;
    }
    const isGone = conflict.theirs === null;
    head.textContent = isGone ? 'The file is gone' : 'The file has been changed elsewhere';
    told.textContent = `${
      isGone
        ? 'The figure file has been deleted or moved since this edit was begun.'
        : 'Another program has written the figure file since this edit was begun.'
    } Nothing is written before you say so; undo brings back the other one.`;
    theirs.textContent = isGone ? 'Leave it gone' : 'Take what the file has now';
    ask();
  });
  return dialog;
}
