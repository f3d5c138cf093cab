import { writtenParts } from '../../edit/mentions.js';
import type { Figure } from '../../figure/figure.js';
import type { FigureSource } from '../../figure/text/source.js';
import { pileMapOf } from '../../report/live/pile-map.js';
import { tracesOf } from '../../report/live/traces.js';
import { scorecardInWords } from '../../report/words/scorecard-words.js';
import { Scorer } from '../../score/scorer.js';
import { Motion } from '../../view/motion.js';
import type { MotionSent, ScoreSent } from './sent.js';

/** A figure with the dims that it is shown with. */
export interface Candidate {
  readonly figure: Figure;
  readonly vector: Float64Array;
}

/** Page angles between two frames of a motion at rest, degrees. */
const FRAME = 0.5;

/** The motion of a figure, every half degree. Throws CannotBuild. */
export function motionOf(id: number, candidate: Candidate, source: FigureSource): MotionSent {
  const motion = new Motion(candidate.figure, candidate.vector);
  return sent(id, motion, candidate, source, FRAME, null);
}

/**
 * The motion of a figure as its opening was worked out, and how it lies at one page angle: what is dragged is seen at that
 * angle, and what lies between would take longer than all the rest. Throws CannotBuild.
 */
export function draggedMotion(
  id: number,
  candidate: Candidate,
  source: FigureSource,
  pageAngle: number,
): MotionSent {
  const motion = new Motion(candidate.figure, candidate.vector);
  const poses = motion.at(pageAngle).slice(0, 12 * motion.assembly.panels.length);
  return sent(id, motion, candidate, source, candidate.figure.opening.step, { pageAngle, poses });
}

function sent(
  id: number,
  motion: Motion,
  { figure, vector }: Candidate,
  source: FigureSource,
  every: number,
  shown: MotionSent['shown'],
): MotionSent {
  const { assembly, least } = motion;
  const width = 12 * assembly.panels.length;
  const count = Math.floor((180 - least) / every + 1e-9) + 1;
  const frames = new Float64Array(count * width);
  for (let i = 0; i < count; i++) frames.set(motion.at(180 - i * every).subarray(0, width), i * width);
  return {
    tell: 'motion',
    id,
    name: figure.name,
    panels: assembly.panels,
    page: { width: assembly.page.width, height: assembly.page.height },
    press: figure.limits.press,
    least,
    frames,
    every,
    shown,
    bends: motion.bends,
    traces: tracesOf(motion, figure.wantsOf(vector)),
    creases: [...assembly.creases.values()].map(({ name, between, lines }) => ({ name, between, lines })),
    parts: writtenParts(source).map(({ name, kind }) => ({ name, kind })),
  };
}

/** What there is to say of a candidate, also of one that cannot be built. */
export function scoreOf(id: number, { figure, vector }: Candidate): ScoreSent {
  const card = new Scorer(figure).score(vector);
  const isBuilt = card.cannotBuild === null;
  return {
    tell: 'score',
    id,
    card,
    wants: isBuilt ? figure.wantsOf(vector) : [],
    pile: isBuilt ? pileMapOf(new Motion(figure, vector)) : null,
    words: scorecardInWords(figure.name, card, figure.wants),
  };
}
