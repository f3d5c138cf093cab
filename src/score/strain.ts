import type { Assembly, Misfit } from '../motion/assembly.js';
import type { Opening } from '../motion/opening.js';

/** The greatest value of one measure of a chain, and where it is. */
export interface Extreme {
  readonly value: number;
  readonly pageAngle: number | null;
  /** In words: which hubs, which chain. */
  readonly where: string | null;
}

/** The worst of a figure's chains: tilt of hubs (degrees), lift of glued ends (mm), sudden turns (degrees). */
export type Strains = Readonly<Record<Exclude<Misfit['of'], 'gap'>, Extreme>>;

/** Finds the worst tilt, lift and jump of all chains over the opening. */
export function findStrains(assembly: Assembly, opening: Opening): Strains {
  return {
    tilt: greatest(assembly, opening, 'tilt'),
    lift: greatest(assembly, opening, 'lift'),
    jump: greatest(assembly, opening, 'jump'),
  };
}

/** The greatest of all measures of one kind, over every page angle. */
export function greatest(assembly: Assembly, opening: Opening, of: Misfit['of']): Extreme {
  let extreme: Extreme = { value: 0, pageAngle: null, where: null };
  assembly.misfits.forEach((misfit, slot) => {
    if (misfit.of !== of) return;
    for (let frame = 0; frame < opening.count; frame++) {
      const value = opening.misfitsAt(frame)[slot];
      if (value > extreme.value)
        extreme = { value, pageAngle: opening.pageAngles[frame], where: misfit.where };
    }
  });
  return extreme;
}
