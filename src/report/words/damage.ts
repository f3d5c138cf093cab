/** What is to be told of a study of which not all is left, before anything else. */
export function damageInWords(damage: string): string {
  return `This is what is left of a damaged study: ${damage}. Its best may be another dummy than that of the whole.`;
}

/** What is to be told of a study that another dummyrun has scored than the one that shows it. */
export const SCORED_BEFORE =
  'An earlier dummyrun has scored this study, or another build of this one: scores and ranking are as that one judged, and what is worked out anew may differ. Explore the figure again to have all as it is judged now.';
