/**
 * How a free edge of card gives: a strip b wide that stands out by L from where it is held, pushed at its end, bends
 * aside by F L³/(3 D b) (a cantilever; Timoshenko and Gere). @returns N/mm
 */
export const edgeStiffness = (bend: number, width: number, free: number): number =>
  (3 * bend * width) / free ** 3;

/** A strip pulled along itself: E t b / L, N/mm. */
export const pullStiffness = (pull: number, width: number, length: number): number => (pull * width) / length;
