import type { Strengths } from '../../card/grade.js';
import type { Limits } from '../../limits/index.js';

/** What the figure file says of forces and strains; a line shows where card is bent by as much as it may easily be strained. */
export const strengthsOf = ({ force, easyForce, strain, easyStrain }: Limits): Strengths => ({
  easy: easyForce,
  hard: force,
  strain: easyStrain / 100,
  tears: strain / 100,
  marks: easyStrain / 100,
});
