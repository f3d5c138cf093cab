import { armOnCounterFold } from './arm-on-counter-fold.js';
import { armThroughSlot } from './arm-through-slot.js';
import { boxedScene } from './boxed-scene.js';
import { coverOverHub } from './cover-over-hub.js';
import { floatingLayer } from './floating-layer.js';
import { limbOnHubs } from './limb-on-hubs.js';
import type { Pattern } from './pattern.js';
import { plateOnSupports } from './plate-on-supports.js';
import { plateOnThree } from './plate-on-three.js';
import { rockingHead } from './rocking-head.js';
import { standingV } from './standing-v.js';
import { threeDepths } from './three-depths.js';
import { toesInASlit } from './toes-in-a-slit.js';

/** The figure files that one can begin with. */
export const patterns: readonly Pattern[] = [
  standingV,
  rockingHead,
  armOnCounterFold,
  armThroughSlot,
  plateOnSupports,
  plateOnThree,
  limbOnHubs,
  toesInASlit,
  coverOverHub,
  boxedScene,
  floatingLayer,
  threeDepths,
];
