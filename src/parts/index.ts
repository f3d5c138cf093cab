import { counterFold } from './kinds/counter-fold.js';
import { coverFlap } from './kinds/cover-flap.js';
import { gluedEnd } from './kinds/glued-end.js';
import { gluedPiece } from './kinds/glued-piece.js';
import { link } from './kinds/link.js';
import { parallelFold } from './kinds/parallel-fold.js';
import { pivot } from './kinds/pivot.js';
import { plate } from './kinds/plate.js';
import { slot } from './kinds/slot.js';
import { stiffener } from './kinds/stiffener.js';
import { strut } from './kinds/strut.js';
import { tongue } from './kinds/tongue.js';
import { vFold } from './kinds/v-fold.js';
import type { PartKind } from './part.js';

/** Every kind of part that a figure file may hold, by the word in its `kind`. */
export const partKinds: Readonly<Record<string, PartKind>> = Object.fromEntries(
  [
    vFold,
    parallelFold,
    strut,
    plate,
    counterFold,
    gluedPiece,
    stiffener,
    coverFlap,
    link,
    pivot,
    gluedEnd,
    tongue,
    slot,
  ].map((kind) => [kind.kind, kind]),
);
