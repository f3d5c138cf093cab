import { counterFold } from './counter-fold.js';
import { coverFlap } from './cover-flap.js';
import { gluedEnd } from './glued-end.js';
import { gluedPiece } from './glued-piece.js';
import { link } from './link.js';
import { parallelFold } from './parallel-fold.js';
import type { PartKind } from './part.js';
import { pivot } from './pivot.js';
import { plate } from './plate.js';
import { slot } from './slot.js';
import { stiffener } from './stiffener.js';
import { strut } from './strut.js';
import { tongue } from './tongue.js';
import { vFold } from './v-fold.js';

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
