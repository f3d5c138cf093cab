import type { Strengths } from '../../card/grade.js';
import type { Limits } from '../../limits/index.js';

/** What the figure file says of forces and strains. */
export const strengthsOf = ({
  force,
  easyForce,
  strain,
  easyStrain,
  easyBend,
  shutTo,
}: Limits): Strengths => ({
  easy: easyForce,
  hard: force,
  strain: easyStrain / 100,
  tears: strain / 100,
  marks: easyBend / 100,
  shut: shutTo,
});
