/**
 * Whether a book is one that people shut: graded by the force at the page's edge and the strain in the plane of the
 * card. Common practice, no source: 5 N is the push of one finger, 15 N a push with the hand.
 */
export const GRADES = ['works', 'stiff', 'jams or tears'] as const;
export type Grade = (typeof GRADES)[number];

export interface Strengths {
  /** N at the page's edge: up to here it works, up to there it is stiff. */
  readonly easy: number;
  readonly hard: number;
  /** Strain in the plane of the card: up to here it works, up to there it is stiff. */
  readonly strain: number;
  readonly tears: number;
  /** Bending strain above which a line shows. */
  readonly marks: number;
  /**
   * How far it is to be shut, degrees. Nobody shuts a book further than 2° by hand: a gap of 5 mm at the fore-edge of an A5
   * page. Nearer to shut a model of rigid panels tells more than is so: folds on folds turn by what a hair's error is over next
   * to no angle.
   */
  readonly shut: number;
}

export const STRENGTHS: Strengths = {
  easy: 5,
  hard: 15,
  strain: 0.01,
  tears: 0.02,
  marks: 0.01,
  shut: 2,
};

export function gradeOf(
  force: number,
  membraneStrain: number,
  bendingStrain: number,
  by: Strengths = STRENGTHS,
): Grade {
  // What is no number jams.
  if (!(force <= by.hard && membraneStrain <= by.tears)) return 'jams or tears';
  return force <= by.easy && membraneStrain <= by.strain && bendingStrain <= by.marks ? 'works' : 'stiff';
}
