import { changeView } from './change-view.js';
import { chosenView } from './chosen-view.js';
import { byId, el, oncePerFrame } from './dom.js';
import { Dummy } from './dummy.js';
import { FlatStage } from './flat-stage.js';
import { lookView } from './look-view.js';
import { pageAngleView } from './page-angle-view.js';
import { pileMapOf } from './pile-map.js';
import { pileView } from './pile-view.js';
import { printView } from './print-view.js';
import { type Judged, scorecardView, verdictView } from './scorecard-view.js';
import { Signal } from './signal.js';
import { Stage } from './stage.js';
import type { Study } from './study.js';
import { turnView } from './turn-view.js';
import type { OnShow, Viewer } from './viewer.js';

/**
 * The chosen dummy: it moves, its dims can be changed, and its scorecard answers.
 * @returns what is drawn, for tests of the page
 */
export function theatre(study: Study): Viewer {
  const chosen = new Dummy(study.figure, study.vector.value, study.art);
  const beside = new Dummy(study.figure, study.vector.value, study.art);
  /** Told whenever the chosen dummy has been built and scored again. */
  const scored = new Signal(0);
  const viewer = viewerFor(study);

  const show = () => {
    const name = study.nameOf(study.chosen.value);
    const onShow: OnShow[] = [{ dummy: chosen, name: study.changed ? `${name}, changed` : name }];
    if (study.beside.value !== null) onShow.push({ dummy: beside, name: study.nameOf(study.beside.value) });
    viewer.show(onShow);
  };
  const change = () => {
    chosen.set(study.vector.value);
    show();
    scored.value++;
  };
  show();
  const answer = oncePerFrame(change);
  study.vector.watch(answer);
  study.beside.watch((place) => {
    if (place !== null) beside.set(study.vectorOf(place));
    show();
  });
  study.pageAngle.watch((pageAngle) => viewer.turnTo(pageAngle));

  const look = lookView(chosen, scored, viewer);
  const judged: Judged = { name: () => study.nameOf(study.chosen.value), dummy: chosen, scored };
  byId('dummy').append(
    ...(study.candidates.count > 1 ? [chosenView(study)] : []),
    el(
      'div',
      { class: 'theatre' },
      el('div', { class: 'show' }, viewer.element, pageAngleView(study, chosen, scored), look),
      el(
        'div',
        { class: 'aside' },
        // The dims stand above all that grows and shrinks as they change.
        el('div', { class: 'verdict-now' }, verdictView(judged)),
        changeView(study),
        scorecardView(judged),
        turnView(study.figure, () => chosen.motion, scored),
        pileView(() => (chosen.motion === null ? null : pileMapOf(chosen.motion)), scored),
      ),
    ),
    printView(study, chosen),
  );
  return viewer;
}

function viewerFor({ figure, art }: Study): Viewer {
  try {
    const stage = new Stage(figure);
    stage.print(art.drawings);
    return stage;
  } catch {
    return new FlatStage();
  }
}
