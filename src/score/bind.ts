import type { Assembly } from '../motion/assembly.js';
import type { Opening } from '../motion/opening.js';

export interface Binding {
  /** Worst misfit at any page angle, mm. */
  readonly misfit: number;
  readonly pageAngle: number | null;
  /** In words: what does not meet what. */
  readonly where: string | null;
  readonly part: string | null;
}

/** The worst misfit of the opening: how far card would have to be forced. */
export function findBinding(assembly: Assembly, opening: Opening): Binding {
  let misfit = 0;
  let pageAngle: number | null = null;
  let slot = -1;
  for (let frame = 0; frame < opening.count; frame++) {
    const misfits = opening.misfitsAt(frame);
    for (let i = 0; i < misfits.length; i++)
      if (misfits[i] > misfit) {
        misfit = misfits[i];
        pageAngle = opening.pageAngles[frame];
        slot = i;
      }
  }
  if (slot < 0) return { misfit: 0, pageAngle: null, where: null, part: null };
  const { part, where } = assembly.misfits[slot];
  return { misfit, pageAngle, where, part };
}
