// Must stay the first import: see there.
import './no-eval.js';
import type { Embedded } from './data.js';
import { byId } from './dom.js';
import { failuresView } from './failures-view.js';
import { filtersView } from './filters-view.js';
import { parallel } from './parallel.js';
import { ranking } from './ranking.js';
import { scatter } from './scatter.js';
import { Stage } from './stage.js';
import { Study } from './study.js';
import { theatre } from './theatre.js';
import { loadAgainUntilTouched } from './under-way.js';

const embedded: Embedded = JSON.parse(byId('data').textContent ?? '');
const study = new Study(embedded);
const viewer = theatre(study);
// Of one dummy there is nothing to choose from.
if (study.candidates.count > 1) {
  byId('choice').append(filtersView(study), scatter(study), parallel(study), ranking(study));
  byId('failures').append(failuresView(study));
}

if (embedded.underWay) loadAgainUntilTouched();

/** For tests of the page: where its panels are drawn, and how its dummy comes out. */
Object.assign(globalThis, {
  dummyrun: { study, drawn: (view: number) => (viewer instanceof Stage ? viewer.drawn(view) : []) },
});
