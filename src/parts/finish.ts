import { outsideOf } from '../geometry/ring-distance.js';
import type { Assembly, Joint } from '../motion/assembly.js';
import { CannotBuild } from '../motion/cannot-build.js';
import { cutBackTabs } from './cut-back.js';
import { isCoverFlap } from './kinds/cover-flap.js';
import { pointInOpen } from './open-place.js';

/** Glue nearer to a hub's shoulder than this, mm, may creep under it. (Common practice, no source.) */
const CREEP = 1;

/**
 * Finishes an assembly to which every part has been added: closes its chains, cuts its tabs back to the card that they
 * are glued to, and sees that no glue sets a hub.
 * @throws CannotBuild
 */
export function finish(assembly: Assembly): void {
  if (!assembly.chains.isEmpty) assembly.chains.close(assembly);
  cutBackTabs(assembly);
  const creep = assembly.handCut ? 0 : CREEP;
  for (const joint of assembly.joints)
    if (joint.kind === 'pivot')
      for (const end of [0, 1] as const)
        mustBeFreeOfGlue(assembly, joint, end, joint.hub.shoulder / 2 + creep);
}

/** Refuses a tab, or a piece glued on, that reaches into the keep-out circle of a hub on the same body. */
function mustBeFreeOfGlue(
  assembly: Assembly,
  { between, points, part }: Extract<Joint, { kind: 'pivot' }>,
  end: 0 | 1,
  radius: number,
): void {
  const { panels } = assembly;
  const panel = between[end];
  for (let k = 0; k < panels.length; k++) {
    if (k === panel || between.includes(k) || panels[k].body !== panels[panel].body) continue;
    // What the hub's own panel is glued to carries it, and is glued beside it.
    if (panels[k].body === k) continue;
    // A flap that covers the hub is glued around it.
    if (isCoverFlap(assembly, k)) continue;
    const away = outsideOf(panels[k].outline, pointInOpen(assembly, panel, points[end], k));
    if (away < radius)
      throw new CannotBuild(
        `glue of '${panels[k].name}' lies ${Math.max(0, away).toFixed(1)} mm from the middle of the hub between '${panels[between[0]].name}' and '${panels[between[1]].name}': within ${radius.toFixed(1)} mm it would set the joint`,
        'at',
        false,
        part,
      );
  }
}
