import type { Want } from '../../figure/wants.js';
import type { Moving } from '../../report/live/viewer.js';
import type { Scorecard } from '../../score/scorecard.js';
import type { Model } from './model.js';

/** The figure as it is shown, for views that the report has, too. */
export interface ShownDummy {
  /** @throws Error before there is a score */
  readonly card: Scorecard;
  readonly wants: readonly Want[];
  readonly motion: Moving | null;
}

/** What the page knows by now, whenever it is asked. */
export const shownDummy = (model: Model): ShownDummy => ({
  get card() {
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
});
