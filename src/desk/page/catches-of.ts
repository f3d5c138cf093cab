import type { Figure } from '../../figure/figure.js';
import { crossing, newCrossing } from '../../geometry/crossing.js';
import { CannotBuild } from '../../motion/cannot-build.js';
import { ClashTest } from '../../score/clash/clash.js';
import { counts } from '../../score/clash/contacts.js';
import { rubsOf } from '../../score/clash/rubs.js';
import { Motion } from '../../view/motion.js';
import type { CatchSent } from './sent.js';

/** A catch is shown this near to where it begins, and to where it is deepest, degrees. */
const NEAR = 0.5;

/** All that catches, what begins first before the rest; nothing of a figure that cannot be built. */
export function catchesOf(figure: Figure): CatchSent[] {
  try {
    const motion = new Motion(figure, figure.start);
    const { assembly, opening } = motion;
    const { panels } = assembly;
    const { press } = figure.limits;
    const rubs = rubsOf(figure, assembly);
    const found = newCrossing();
    const half = opening.count > 1 ? (opening.pageAngles[0] - opening.pageAngles[1]) / 2 : 0;
    return new ClashTest()
      .catches(assembly, opening, press, rubs)
      .map(({ between: [a, b], startsAt, pageAngle, depth, points }) => {
        const frames = Array.from({ length: opening.count }, (_, frame) => frame).filter((frame) => {
          const q = opening.frame(frame);
          return (
            crossing(panels[a], panels[b], q, a, b, found) &&
            counts(found, opening.pageAngles[frame], press, rubs, a, b)
          );
        });
        const near = (at: number, within: number) => [at - within, at + within] as const;
        return {
          between: [panels[a].name, panels[b].name] as const,
          startsAt,
          pageAngle,
          depth,
          point: points[1],
          spans: [
            near(startsAt, NEAR),
            near(pageAngle, NEAR),
            ...frames.map((frame) => near(opening.pageAngles[frame], half)),
          ],
        };
      })
      .sort((one, other) => other.startsAt - one.startsAt);
  } catch (error) {
    if (error instanceof CannotBuild) return [];
    throw error;
  }
}
