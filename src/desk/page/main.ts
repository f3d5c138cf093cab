// Must stay the first import: see there.
import '../../report/live/no-eval.js';
import { byId, el } from '../../report/live/dom.js';
import { pileView } from '../../report/live/pile-view.js';
import { type Judged, scorecardView, verdictView } from '../../report/live/scorecard-view.js';
import { Signal } from '../../report/live/signal.js';
import { addView } from './add-view.js';
import { askView } from './ask-view.js';
import { barView, conflictView } from './bar-view.js';
import { besideView } from './beside-view.js';
import { catchesView } from './catches-view.js';
import { editorView } from './editor.js';
import { type FigureView, figureView } from './figure-view.js';
import { flatView } from './flat-view.js';
import { Model } from './model.js';
import { numbersView } from './numbers-view.js';
import { type ShownDummy, shownDummy } from './shown-dummy.js';
import { startView } from './start-view.js';
import { tabsView } from './tabs-view.js';
import { wantsView } from './wants-view.js';

const model = new Model();
const room = byId('desk');
let isBuilt = false;

model.file.watch((file) => {
  if (file === null) return;
  if (file.text === null) {
    isBuilt = false;
    room.replaceChildren(startView(model), conflictView(model));
  } else if (!isBuilt) {
    isBuilt = true;
    room.replaceChildren(deskView());
  }
});

/** Numbers on the left, the figure in the middle, what is found and asked of it on the right. */
function deskView(): HTMLElement {
  const dummy = shownDummy(model);
  const scored = new Signal(0);
  const figure = figureView(model, dummy, scored);
  const side = sideView(figure, dummy, scored);
  const tabs = tabsView([
    ['Scorecard', side],
    ['Write', editorView(model)],
    ['Ask', askView(model)],
  ]);
  model.fault.watch((fault) => {
    // Before there is a figure, nothing but the text can be looked at.
    if (fault !== null && model.score.value === null) tabs.choose(1);
  });
  return el(
    'div',
    { class: 'desk' },
    barView(model),
    el(
      'main',
      { class: 'room' },
      numbersView(model),
      el('div', { class: 'middle' }, figure.element, addView(model), flatView(model)),
      tabs.element,
    ),
    conflictView(model),
  );
}

/** All that is found out of the figure, once it is scored. */
function sideView(figure: FigureView, dummy: ShownDummy, scored: Signal<number>): HTMLElement {
  const side = el('div', { class: 'side-score' });
  const judged: Judged = { name: () => model.motion.value?.name ?? 'It', dummy, scored };
  model.score.watch((score) => {
    if (score === null) return;
    if (side.childElementCount === 0)
      side.append(
        catchesView(model, figure.stage),
        wantsView(model),
        el('div', {}, verdictView(judged), scorecardView(judged)),
        besideView(model),
        pileView(() => model.score.value?.pile ?? null, scored),
      );
    scored.value++;
  });
  return side;
}

/** For tests of the page. */
Object.assign(globalThis, { desk: model });
