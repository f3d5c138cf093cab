import type { Line } from '../../geometry/line.js';
import type { Assembly } from '../../motion/assembly.js';

/** A tongue and the limb that ends in it, with the crease at its neck in the frame of each. */
export interface Tongue {
  readonly panels: readonly [number, number];
  readonly lines: readonly [Line, Line];
  /** The panel with the slit. */
  readonly holder: number;
}

/** The tongue that slides by this joint, if it is a tongue's. */
export function tongueOf(assembly: Assembly, index: number): Tongue | null {
  const joint = assembly.joints[index];
  if (joint.kind !== 'slide' || joint.neck === undefined) return null;
  const [tail, holder] = joint.between;
  const { link, lines } = joint.neck;
  return { panels: [link, tail], holder, lines };
}
