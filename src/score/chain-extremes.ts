import type { Assembly } from '../motion/assembly.js';
import type { Meeting, Misfit } from '../motion/misfit.js';
import type { Opening } from '../motion/opening.js';
import type { ChainPull, PulledChain } from './force/chain-pulls.js';

/** The greatest value of one measure over the opening, and where it is. */
export interface Extreme {
  readonly value: number;
  readonly pageAngle: number | null;
  /** Which joint; null where the value is 0. */
  readonly at: Meeting | null;
}

/**
 * The worst of a figure's chains: tilt of hubs (degrees), lift of glued ends (mm), sudden turns (degrees); and where links are
 * too short, or too long, the hardest pull or push at a joint (N), and how far a panel is bent for it or a limb bows (mm).
 */
export type ChainExtremes = Readonly<
  Record<Exclude<Misfit['of'], 'gap' | 'forced'> | 'pull' | 'bend' | 'bow', Extreme>
>;

/** Finds the worst of all chains over the opening. */
export function chainExtremes(
  assembly: Assembly,
  opening: Opening,
  pulled: readonly PulledChain[],
): ChainExtremes {
  const worst = (of: (pull: ChainPull) => readonly [value: number, panel: number]) => {
    let extreme: Extreme = { value: 0, pageAngle: null, at: null };
    for (const { chain, pulls } of pulled)
      pulls.forEach((pull, frame) => {
        const [value, panel] = of(pull);
        if (value <= extreme.value) return;
        const panels = panel < 0 ? [] : [assembly.panels[panel].name];
        extreme = {
          value,
          pageAngle: opening.pageAngles[frame],
          at: { part: chain.part, joint: 'joints', panels },
        };
      });
    return extreme;
  };
  return {
    tilt: greatest(assembly, opening, 'tilt'),
    lift: greatest(assembly, opening, 'lift'),
    jump: greatest(assembly, opening, 'jump'),
    pull: worst(({ newtons }) => [newtons, -1]),
    bend: worst(({ bend, bends }) => [bend, bends]),
    bow: worst(({ bow, limb }) => [bow, limb]),
  };
}

/** The greatest of all measures of one kind, over every page angle. */
export function greatest({ misfits }: Assembly, opening: Opening, of: Misfit['of']): Extreme {
  let extreme: Extreme = { value: 0, pageAngle: null, at: null };
  misfits.forEach(({ of: measured, part, joint, panels }, slot) => {
    if (measured !== of) return;
    for (let frame = 0; frame < opening.count; frame++) {
      const value = opening.misfitsAt(frame)[slot];
      if (value > extreme.value)
        extreme = { value, pageAngle: opening.pageAngles[frame], at: { part, joint, panels } };
    }
  });
  return extreme;
}

/** The first page angle, closing, at which any joint misses by more than card gives; null where none does. */
export function firstBeyond({ misfits }: Assembly, opening: Opening, give: number): number | null {
  for (let frame = 0; frame < opening.count; frame++)
    if (misfits.some(({ of }, slot) => of === 'gap' && opening.misfitsAt(frame)[slot] > give))
      return opening.pageAngles[frame];
  return null;
}
