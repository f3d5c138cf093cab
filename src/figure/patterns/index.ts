import { armOnCounterFold } from './arm-on-counter-fold.js';
import { boxedScene } from './boxed-scene.js';
import { limbOnHubs } from './limb-on-hubs.js';
import type { Pattern } from './pattern.js';
import { plateOnSupports } from './plate-on-supports.js';
import { standingV } from './standing-v.js';

/** The figure files that one can begin with. */
export const patterns: readonly Pattern[] = [
  standingV,
  plateOnSupports,
  armOnCounterFold,
  limbOnHubs,
  boxedScene,
];
