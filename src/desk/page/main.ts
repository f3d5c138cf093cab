// Must stay the first import: see there.
import '../../report/live/no-eval.js';
import { byId, el } from '../../report/live/dom.js';
import { FlatStage } from '../../report/live/flat-stage.js';
import { lookView } from '../../report/live/look-view.js';
import { pageAngleView } from '../../report/live/page-angle-view.js';
import { pileView } from '../../report/live/pile-view.js';
import { scorecardView } from '../../report/live/scorecard-view.js';
import { onAny, Signal } from '../../report/live/signal.js';
import { Stage } from '../../report/live/stage.js';
import type { Look, Viewer } from '../../report/live/viewer.js';
import type { Scorecard } from '../../score/scorecard.js';
import { addView } from './add-view.js';
import { askView } from './ask-view.js';
import { barView, conflictView } from './bar-view.js';
import { besideView } from './beside-view.js';
import { catchesView } from './catches-view.js';
import { editorView } from './editor.js';
import { flatView } from './flat-view.js';
import { gripsView } from './grips-view.js';
import { Model } from './model.js';
import { numbersView } from './numbers-view.js';
import { placeAt } from './place-at.js';
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

function deskView(): HTMLElement {
  const scored = new Signal(0);
  let viewer: Viewer | null = null;
  const stage = () => (viewer instanceof Stage ? viewer : null);
  let looks: Look = { seeThrough: false, apart: 0, traces: true, bow: 1, pointedAt: null };
  const show = el('div', { class: 'show' });
  const dummy = {
    get card(): Scorecard {
      const score = model.score.value;
      if (score === null) throw new Error('the scorecard is shown once there is one');
      return score.card;
    },
    get wants() {
      return model.score.value?.wants ?? [];
    },
    get motion() {
      return model.drawable.motion;
    },
  };
  const draw = () => {
    const motion = model.motion.value;
    if (motion === null) return;
    if (viewer === null) {
      viewer = viewerFor(motion.page);
      const found = viewer;
      // For tests of the page.
      Object.assign(globalThis, { stage: found });
      if (found instanceof Stage)
        found.onPick = (panel, point) => {
          const now = model.motion.value;
          if (now === null) return;
          const place = placeAt(now, panel, point);
          model.part.value = now.panels.find(({ name }) => name === panel)?.part ?? null;
          model.pick(place);
        };
      if (found instanceof Stage) {
        found.nameOf = (panel, point) =>
          model.motion.value === null ? panel : placeAt(model.motion.value, panel, point).name;
        gripsView(model, found);
      }
      show.append(found.element);
      model.pageAngle.watch((pageAngle) => found.turnTo(pageAngle));
      model.part.watch(look);
    }
    stage()?.print(model.file.value?.drawings.art?.drawings ?? []);
    viewer.show([{ dummy: model.drawable, name: motion.name }]);
  };
  /** As it was asked to be looked at, the chosen part brought out if no other is. */
  const look = () => {
    const { value: part } = model.part;
    const panel = model.motion.value?.panels.find((each) => each.part === part && part !== 'page');
    viewer?.look({ ...looks, pointedAt: looks.pointedAt ?? panel?.name ?? null });
  };
  const judge = () => {
    const motion = model.motion.value;
    if (motion !== null) viewer?.judge([{ dummy: model.drawable, name: motion.name }]);
  };
  const past = el('p', { class: 'past', role: 'status' });
  show.append(past);
  model.motion.watch(draw);
  onAny([model.motion, model.fault], () => {
    const isFaulty = model.fault.value !== null;
    show.classList.toggle('is-past', isFaulty);
    // Of what cannot be built the grips stay too: it can be dragged back.
    past.textContent =
      viewer === null
        ? isFaulty
          ? 'There is no figure to show yet: the text has a fault, told above. Mend it beside, under Write.'
          : ''
        : isFaulty
          ? 'The text has a fault: this is how it was before.'
          : model.motion.value === null
            ? 'It cannot be built now: this is how it was before.'
            : '';
  });
  model.rest.watch((rest) => {
    if ((rest?.printed.length ?? 0) > 0) draw();
    else judge();
  });
  const side = el('div', { class: 'side-score' });
  model.score.watch((score) => {
    if (score === null) return;
    if (side.childElementCount === 0) {
      if (viewer !== null)
        show.append(
          pageAngleView(model, dummy, scored),
          el(
            'details',
            { class: 'looks' },
            el('summary', {}, 'How it is looked at'),
            lookView(dummy, scored, {
              look: (asked) => {
                looks = asked;
                look();
              },
              resetView: () => viewer?.resetView(),
              nearer: (steps) => viewer?.nearer(steps),
            }),
          ),
        );
      side.append(
        catchesView(model, stage),
        wantsView(model),
        scorecardView(() => model.motion.value?.name ?? 'It', dummy, scored),
        besideView(model),
        pileView(() => model.score.value?.pile ?? null, scored),
      );
    }
    if (score.card.clash.deepest === 0) stage()?.ring(null);
    judge();
    scored.value++;
  });
  const tabs = tabsView([
    ['Scorecard', side],
    ['Write', editorView(model)],
    ['Ask', askView(model)],
  ]);
  model.fault.watch((fault) => {
    // Before there is a figure, nothing but the text can be looked at.
    if (fault !== null && viewer === null) tabs.choose(1);
  });
  return el(
    'div',
    { class: 'desk' },
    barView(model),
    el(
      'main',
      { class: 'room' },
      numbersView(model),
      el('div', { class: 'middle' }, show, addView(model), flatView(model)),
      tabs.element,
    ),
    conflictView(model),
  );
}

function viewerFor(page: { width: number; height: number }): Viewer {
  try {
    return new Stage({ page });
  } catch {
    return new FlatStage();
  }
}

/** For tests of the page. */
Object.assign(globalThis, { desk: model });
