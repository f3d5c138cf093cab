import { el } from '../../report/live/dom.js';
import { FlatStage } from '../../report/live/flat-stage.js';
import { lookView } from '../../report/live/look-view.js';
import { pageAngleView } from '../../report/live/page-angle-view.js';
import { onAny, type Signal } from '../../report/live/signal.js';
import { Stage } from '../../report/live/stage.js';
import type { Look, Viewer } from '../../report/live/viewer.js';
import { gripsView } from './grips-view.js';
import type { Model } from './model.js';
import { placeAt } from './place-at.js';
import type { ShownDummy } from './shown-dummy.js';

/** The figure in motion, to be turned, looked at, clicked and dragged. */
export interface FigureView {
  readonly element: HTMLElement;
  /** What it is drawn by in space; null before there is a figure, and where a browser can't. */
  stage(): Stage | null;
}

/** @param scored counts the scores */
export function figureView(model: Model, dummy: ShownDummy, scored: Signal<number>): FigureView {
  const past = el('p', { class: 'past', role: 'status' });
  const controls = el('div', {});
  const show = el('div', { class: 'show' }, past, controls);
  let viewer: Viewer | null = null;
  let asked: Look = { seeThrough: false, apart: 0, traces: true, bow: 1, pointedAt: null };
  const stage = () => (viewer instanceof Stage ? viewer : null);
  /** As it was asked to be looked at, the chosen part brought out if no other is. */
  const look = () => {
    const { value: part } = model.part;
    const panel = model.motion.value?.panels.find((each) => each.part === part && part !== 'page');
    viewer?.look({ ...asked, pointedAt: asked.pointedAt ?? panel?.name ?? null });
  };
  const begin = (page: Page): Viewer => {
    const begun = viewerFor(page);
    // For tests of the page.
    Object.assign(globalThis, { stage: begun });
    if (begun instanceof Stage) takeHoldOf(begun, model);
    controls.before(begun.element);
    model.pageAngle.watch((pageAngle) => begun.turnTo(pageAngle));
    return begun;
  };
  const draw = () => {
    const motion = model.motion.value;
    if (motion === null) return;
    if (viewer === null) {
      viewer = begin(motion.page);
      model.part.watch(look);
    }
    stage()?.print(model.file.value?.drawings.art?.drawings ?? []);
    viewer.show([{ dummy: model.drawable, name: motion.name }]);
  };
  const judge = () => {
    const motion = model.motion.value;
    if (motion !== null) viewer?.judge([{ dummy: model.drawable, name: motion.name }]);
  };
  const control = () => {
    if (viewer === null || controls.childElementCount > 0) return;
    const looks = lookView(dummy, scored, {
      look: (now) => {
        asked = now;
        look();
      },
      resetView: () => viewer?.resetView(),
      nearer: (steps) => viewer?.nearer(steps),
    });
    controls.append(
      pageAngleView(model, dummy, scored),
      el('details', { class: 'looks' }, el('summary', {}, 'How it is looked at'), looks),
    );
  };
  model.motion.watch(draw);
  onAny([model.motion, model.fault], () => {
    const isFaulty = model.fault.value !== null;
    show.classList.toggle('is-past', isFaulty);
    past.textContent = whyPast(isFaulty, model.motion.value !== null, viewer !== null);
  });
  model.rest.watch((rest) => {
    if ((rest?.printed.length ?? 0) > 0) draw();
    else judge();
  });
  model.score.watch((score) => {
    if (score === null) return;
    control();
    if (score.card.clash.deepest === 0) stage()?.ring(null);
    judge();
  });
  return { element: show, stage };
}

/** Why what is shown is not what the file says; empty where it is. Of what cannot be built the grips stay: it can be dragged back. */
function whyPast(isFaulty: boolean, isBuilt: boolean, isShown: boolean): string {
  if (!isShown)
    return isFaulty
      ? 'There is no figure to show yet: the text has a fault, told above. Mend it beside, under Write.'
      : '';
  if (isFaulty) return 'The text has a fault: this is how it was before.';
  return isBuilt ? '' : 'It cannot be built now: this is how it was before.';
}

type Page = { readonly width: number; readonly height: number };

function viewerFor(page: Page): Viewer {
  try {
    return new Stage({ page });
  } catch {
    return new FlatStage();
  }
}

/** What is clicked is chosen, and may carry a part; what stands out can be dragged. */
function takeHoldOf(stage: Stage, model: Model): void {
  stage.onPick = (panel, point) => {
    const motion = model.motion.value;
    if (motion === null) return;
    const place = placeAt(motion, panel, point);
    model.part.value = motion.panels.find(({ name }) => name === panel)?.part ?? null;
    model.pick(place);
  };
  stage.nameOf = (panel, point) =>
    model.motion.value === null ? panel : placeAt(model.motion.value, panel, point).name;
  gripsView(model, stage);
}
